//! Answers that need only a text: format, outline, folds, colours, selections.

use std::sync::Arc;

use serde_json::Value;

use super::Server;
use super::view::View;
use crate::editor::outline::{self, Symbol};
use crate::editor::protocol::{self, Located, Location, Position, Range, Uri};
use crate::source::{FileId, Loader, Span};
use crate::syntax::{self, Document};

/// Maximum number of symbols in an answer for the workspace.
const MOST_FOUND: usize = 1_000;

impl Server {
    /// The parsed document of an open text. The first project's is used, so that the text is parsed
    /// once.
    fn document(&mut self, uri: &str) -> Option<Arc<Document>> {
        let key = self.buffers.get(uri)?.key.clone();
        let root = self.first_root(uri)?;
        let analysis = self.analysis(&root);
        let read = analysis.and_then(|analysis| {
            let view = View::new(self, &root, analysis.clone());
            analysis.document(view.file(&key)?).cloned()
        });
        read.or_else(|| self.buffers.document(uri))
    }

    /// Folding ranges.
    pub(super) fn folds(&mut self, uri: &str) -> Option<Value> {
        let document = self.document(uri)?;
        Some(protocol::folds(outline::folds(&document)))
    }

    /// Formatting, limited to the lines that a range touches if there is one.
    pub(super) fn formatting(&mut self, uri: &str, range: Option<Range>) -> Option<Value> {
        let buffer = self.buffers.get(uri)?;
        let (text, encoding) = (&buffer.text, self.client.encoding);
        let edits = outline::formatting(text.as_str()).into_iter().map(|edit| {
            let span = Span::new(FileId(1), edit.start, edit.end);
            (text.range(span.start, span.end, encoding), edit.text)
        });
        let touched = |at: &Range| {
            range.is_none_or(|range| {
                range.start.line <= at.start.line && at.start.line <= range.end.line
            })
        };
        Some(protocol::edits(edits.filter(|(at, _)| touched(at)).collect()))
    }

    pub(super) fn symbols(&mut self, uri: &str) -> Option<Value> {
        let document = self.document(uri)?;
        let text = &self.buffers.get(uri)?.text;
        let found = outline::symbols(&document, text.as_str());
        let range = |span: Span| text.range(span.start, span.end, self.client.encoding);
        Some(protocol::symbols(&found, &range))
    }

    pub(super) fn tokens(&mut self, uri: &str) -> Option<Value> {
        let document = self.document(uri)?;
        let text = &self.buffers.get(uri)?.text;
        let placed = outline::tokens(&document, text.as_str()).into_iter().map(|token| {
            let span = Span::new(document.file, token.start, token.end);
            (token, text.range(span.start, span.end, self.client.encoding))
        });
        Some(protocol::tokens(placed.collect()))
    }

    pub(super) fn selections(&mut self, uri: &str, places: &[Position]) -> Option<Value> {
        let document = self.document(uri)?;
        let text = &self.buffers.get(uri)?.text;
        let encoding = self.client.encoding;
        let grown = places.iter().map(|place| {
            let at = text.byte(*place, encoding);
            let spans = outline::selections(&document, text.as_str(), at);
            spans.iter().map(|span| text.range(span.start, span.end, encoding)).collect()
        });
        Some(protocol::selections(grown.collect()))
    }

    /// Symbols of every file of the workspace whose names contain the query.
    pub(super) fn workspace_symbols(&mut self, query: &str) -> Value {
        let words = syntax::fold_name(query);
        let mut found = Vec::new();
        for folder in 0..self.workspace.len() {
            if !self.workspace.is_known(folder) {
                self.look(folder);
            }
        }
        for key in self.workspace.files() {
            let overlay = self.workspace.overlay(key.folder, &self.buffers);
            let Ok(text) = overlay.load(&key.path) else { continue };
            let uri = match self.buffers.of(&key) {
                Some((uri, _)) => Some(uri.to_owned()),
                None => self.workspace.uri(&key),
            };
            let Some(uri) = uri else { continue };
            let text = protocol::Text::new(text);
            let (document, _) = syntax::parse(text.as_str(), FileId(1));
            let range = |span: Span| text.range(span.start, span.end, self.client.encoding);
            let place = |span| Location { uri: Uri(uri.clone()), range: range(span) };
            let symbols = outline::symbols(&document, text.as_str());
            collect(&symbols, None, &words, &place, &mut found);
            if found.len() > MOST_FOUND {
                break;
            }
        }
        protocol::workspace_symbols(found)
    }
}

fn collect(
    symbols: &[Symbol],
    owner: Option<&str>,
    words: &str,
    place: &dyn Fn(Span) -> Location,
    found: &mut Vec<Located>,
) {
    for symbol in symbols {
        if syntax::fold_name(&symbol.name).contains(words) {
            found.push(Located {
                name: symbol.name.clone(),
                kind: symbol.kind,
                location: place(symbol.name_span),
                owner: owner.map(str::to_owned),
            });
        }
        collect(&symbol.children, Some(&symbol.name), words, place, found);
    }
}
