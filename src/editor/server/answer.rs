//! Answering requests: from the protocol to the features and back.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde_json::Value;

use super::Server;
use super::view::View;
use super::workspace::FileKey;
use crate::editor::Analysis;
use crate::editor::features::{self, Shown};
use crate::editor::protocol::{
    self, EditorRequest, FileEdits, Finding, Location, Position, Range, ResponseError, Uri,
};
use crate::source::{FileId, Span};

impl Server {
    /// Answers a request. A text that is not open has no answers.
    pub(super) fn answer(&mut self, asked: EditorRequest) -> Result<Value, ResponseError> {
        let answer = match asked {
            EditorRequest::Completion(uri, at) => self.completion(&uri, at),
            EditorRequest::Hover(uri, at) => self.hover(&uri, at),
            EditorRequest::Definition(uri, at) => self.definition(&uri, at),
            EditorRequest::References(uri, at, with) => Some(self.references(&uri, at, with)),
            EditorRequest::Highlights(uri, at) => Some(self.highlights(&uri, at)),
            EditorRequest::PrepareRename(uri, at) => self.prepare_rename(&uri, at),
            EditorRequest::Rename(uri, at, name) => return self.rename(&uri, at, &name),
            EditorRequest::Hints(uri, range) => self.hints(&uri, range),
            EditorRequest::Actions(uri, range, context) => self.actions(&uri, range, &context),
            EditorRequest::Formatting(uri, range) => self.formatting(&uri, range),
            EditorRequest::Symbols(uri) => self.symbols(&uri),
            EditorRequest::WorkspaceSymbols(query) => Some(self.workspace_symbols(&query)),
            EditorRequest::Folds(uri) => self.folds(&uri),
            EditorRequest::Tokens(uri) => self.tokens(&uri),
            EditorRequest::Selections(uri, places) => self.selections(&uri, &places),
            EditorRequest::Command(name, arguments) => return self.command(&name, &arguments),
        };
        Ok(answer.unwrap_or(Value::Null))
    }

    /// The file of an open text in each project that contains it.
    fn projects(&mut self, uri: &str) -> Vec<(FileKey, Arc<Analysis>)> {
        let Some(key) = self.buffers.get(uri).map(|buffer| buffer.key.clone()) else {
            return Vec::new();
        };
        let roots = self.workspace.roots(&key);
        let analyses = roots.into_iter().filter_map(|root| {
            let analysis = self.analysis(&root)?;
            Some((root, analysis))
        });
        analyses.collect()
    }

    /// Calls a feature for a position, in the first project of a text.
    fn at<T>(
        &mut self,
        uri: &str,
        at: Position,
        asked: impl Fn(&View, FileId, usize) -> Option<T>,
    ) -> Option<T> {
        let key = self.buffers.get(uri)?.key.clone();
        let root = self.first_root(uri)?;
        let analysis = self.analysis(&root)?;
        let view = View::new(self, &root, analysis);
        asked(&view, view.file(&key)?, view.byte(&key, at)?)
    }

    /// Calls a feature for a position, in every project of a text.
    fn everywhere<T>(
        &mut self,
        uri: &str,
        at: Position,
        mut asked: impl FnMut(&View, FileId, usize) -> T,
    ) -> Vec<T> {
        let Some(key) = self.buffers.get(uri).map(|buffer| buffer.key.clone()) else {
            return Vec::new();
        };
        let projects = self.projects(uri);
        let answers = projects.into_iter().filter_map(|(root, analysis)| {
            let view = View::new(self, &root, analysis);
            Some(asked(&view, view.file(&key)?, view.byte(&key, at)?))
        });
        answers.collect()
    }

    fn completion(&mut self, uri: &str, at: Position) -> Option<Value> {
        self.at(uri, at, |view, file, byte| {
            let found = features::complete(&view.analysis, file, byte);
            let placed = found.into_iter().map(|completion| {
                let range = view.range(completion.replace);
                (completion, range)
            });
            Some(protocol::completions(placed.collect()))
        })
    }

    fn hover(&mut self, uri: &str, at: Position) -> Option<Value> {
        self.at(uri, at, |view, file, byte| {
            let found = features::hover(&view.analysis, file, byte)?;
            let range = view.range(found.span);
            Some(protocol::hover(found, range))
        })
    }

    /// The definition. Built-in exercises have no text that an editor could open; hover shows them.
    fn definition(&mut self, uri: &str, at: Position) -> Option<Value> {
        self.at(uri, at, |view, file, byte| {
            let found = features::definition(&view.analysis, file, byte);
            Some(protocol::places(found.into_iter().filter_map(|s| view.location(s)).collect()))
        })
    }

    /// The places of a name in all projects that contain the text.
    fn uses(&mut self, uri: &str, at: Position, with_definition: bool) -> Vec<Location> {
        let found = self.everywhere(uri, at, |view, file, byte| {
            let mut spans = features::references(&view.analysis, file, byte);
            if !with_definition {
                let defined = features::definition(&view.analysis, file, byte);
                spans.retain(|span| !defined.contains(span));
            }
            spans.into_iter().filter_map(|span| view.location(span)).collect::<Vec<_>>()
        });
        let mut all: Vec<Location> = Vec::new();
        for location in found.into_iter().flatten() {
            if !all.contains(&location) {
                all.push(location);
            }
        }
        all
    }

    fn references(&mut self, uri: &str, at: Position, with: bool) -> Value {
        protocol::places(self.uses(uri, at, with))
    }

    fn highlights(&mut self, uri: &str, at: Position) -> Value {
        let here = Uri(uri.to_owned());
        let found = self.uses(uri, at, true).into_iter().filter(|place| place.uri == here);
        protocol::highlights(found.map(|place| place.range).collect())
    }

    fn prepare_rename(&mut self, uri: &str, at: Position) -> Option<Value> {
        self.at(uri, at, |view, file, byte| {
            let span = features::prepare_rename(&view.analysis, file, byte)?;
            Some(protocol::prepared(view.range(span)))
        })
    }

    /// Renames in every project that contains the text. If it fails in one, it fails in all,
    /// because a name changed in one project only would break another.
    fn rename(&mut self, uri: &str, at: Position, name: &str) -> Result<Value, ResponseError> {
        let found = self.everywhere(uri, at, |view, file, byte| {
            let edits = features::rename(&view.analysis, file, byte, name)?;
            Ok(placed(view, edits))
        });
        let mut all: BTreeMap<String, FileEdits> = BTreeMap::new();
        for files in found {
            for (uri, moved) in files.map_err(ResponseError::failed)? {
                let known = all.entry(uri).or_default();
                known.version = moved.version;
                for edit in moved.edits {
                    if !known.edits.contains(&edit) {
                        known.edits.push(edit);
                    }
                }
            }
        }
        if all.is_empty() {
            return Err(ResponseError::failed(
                "nothing here has a name that can be changed".to_owned(),
            ));
        }
        Ok(protocol::workspace_edit(all.into_iter().collect(), self.client.versioned_edits))
    }

    fn hints(&mut self, uri: &str, range: Range) -> Option<Value> {
        let shown = self.shown.clone();
        let root = self.first_root(uri)?;
        self.has_old_hints |= self.analysis(&root).is_some_and(|known| !known.is_worked());
        self.at(uri, range.start, |view, file, from| {
            let to = view.byte(&view.key(file)?, range.end)?;
            let hints = features::inlay_hints(&view.analysis, file, &shown);
            let inside = hints.into_iter().filter(|hint| {
                let at = hint.at as usize;
                from <= at && at <= to
            });
            let placed = inside.map(|hint| {
                let at = Span { file, start: hint.at, end: hint.at };
                let position = view.range(at).start;
                (hint, position)
            });
            Some(protocol::hints(placed.collect()))
        })
    }

    fn actions(&mut self, uri: &str, range: Range, context: &[Finding]) -> Option<Value> {
        let versioned = self.client.versioned_edits;
        self.at(uri, range.start, |view, file, from| {
            let to = view.byte(&view.key(file)?, range.end)?.max(from);
            let found = features::actions(&view.analysis, file, Span::new(file, from, to));
            let placed = found.into_iter().map(|act| {
                let files = placed(view, act.edits.clone());
                (act, files.into_iter().collect())
            });
            Some(protocol::actions(placed.collect(), context, versioned))
        })
    }

    fn command(&mut self, name: &str, arguments: &[Value]) -> Result<Value, ResponseError> {
        if name != protocol::SHOW {
            return Err(ResponseError::params(format!("{name} is not known here")));
        }
        // Either `{ "athlete": …, "week": … }`, or the two as separate arguments.
        let settings = match arguments {
            [settings @ Value::Object(_), ..] => settings.clone(),
            _ => serde_json::json!({ "athlete": arguments.first(), "week": arguments.get(1) }),
        };
        let shown = protocol::shown_in(&serde_json::json!({ "shown": settings }));
        self.show(shown.unwrap_or(Shown { athlete: None, week: None }));
        Ok(protocol::commands_shown(self.shown.athlete.as_deref(), self.shown.week))
    }
}

/// Edits by the URIs of their files, without those of the built-in library.
fn placed(view: &View, edits: Vec<(Span, String)>) -> BTreeMap<String, FileEdits> {
    let mut files: BTreeMap<String, FileEdits> = BTreeMap::new();
    for (span, text) in edits {
        let Some((uri, version)) = view.name(span.file) else { continue };
        let moved = files.entry(uri).or_default();
        moved.version = version;
        moved.edits.push((view.range(span), text));
    }
    files
}
