//! Publishing problems when they change.

use std::collections::BTreeMap;

use super::Server;
use super::view::View;
use super::workspace::FileKey;
use crate::diagnostics::Severity;
use crate::editor::protocol::{Finding, finding, published, sort_and_dedup};

/// What was last published for a text.
#[derive(Clone, Debug, PartialEq)]
pub struct Published {
    version: Option<i32>,
    findings: Vec<Finding>,
}

/// Problems by the URI of their file.
type FindingsByUri = BTreeMap<String, Published>;

impl Server {
    /// Reads each project with an open text and publishes its problems. Returns `false` if it
    /// stopped between two projects because a new message arrived.
    pub(super) fn publish(&mut self, is_news: &dyn Fn() -> bool) -> bool {
        let roots = self.roots_in_hand();
        self.analyses.keep(&roots);
        for root in &roots {
            if !self.analyses.is_fresh(root) && is_news() {
                return false;
            }
            self.analysis(root);
        }
        let mut found = self.open_texts();
        for root in &roots {
            self.gather(root, &mut found);
        }
        for told in found.values_mut() {
            sort_and_dedup(&mut told.findings);
        }
        self.tell(found);
        true
    }

    /// All open texts, with empty lists of problems.
    fn open_texts(&self) -> FindingsByUri {
        let told = |version| Published { version: Some(version), findings: Vec::new() };
        self.buffers.iter().map(|(uri, buffer)| (uri.to_owned(), told(buffer.version))).collect()
    }

    /// Adds the problems of a project: all of them for open texts, only errors for other files.
    fn gather(&mut self, root: &FileKey, found: &mut FindingsByUri) {
        let Some(analysis) = self.analysis(root) else { return };
        let view = View::new(self, root, analysis.clone());
        for diagnostic in analysis.diagnostics.iter().chain(&analysis.advice) {
            let span = diagnostic.label.span;
            let Some((uri, version)) = view.name(span.file) else { continue };
            if version.is_none() && diagnostic.severity() != Severity::Error {
                continue;
            }
            let told =
                found.entry(uri).or_insert_with(|| Published { version, findings: Vec::new() });
            let place = |span| view.location(span);
            told.findings.push(finding(diagnostic, view.range(span), place));
        }
    }

    /// Publishes what is new, and clears what is gone.
    fn tell(&mut self, found: FindingsByUri) {
        let gone: Vec<String> =
            self.told.keys().filter(|uri| !found.contains_key(*uri)).cloned().collect();
        for uri in gone {
            self.told.remove(&uri);
            self.notify("textDocument/publishDiagnostics", published(&uri, None, Vec::new()));
        }
        for (uri, told) in found {
            if self.told.get(&uri) == Some(&told) {
                continue;
            }
            let params = published(&uri, told.version, told.findings.clone());
            self.notify("textDocument/publishDiagnostics", params);
            self.told.insert(uri, told);
        }
    }
}
