//! Conversion of answers to the protocol's types.

use gen_lsp_types as lsp;
use serde::Serialize;
use serde_json::Value;

use super::findings::{Finding, is_of};
use super::text::{Position, Range};
use crate::editor::features::{CodeAct, Completion, CompletionKind, Hint, Hover};
use crate::editor::outline::{Fold, FoldKind, Symbol, SymbolKind, Token, TokenKind};
use crate::source::Span;

fn json(answer: impl Serialize) -> Value {
    serde_json::to_value(answer).unwrap_or_default()
}

fn markdown(value: String) -> lsp::MarkupContent {
    lsp::MarkupContent { kind: lsp::MarkupKind::Markdown, value }
}

/// Completions, in order, each with the range it replaces.
#[must_use]
pub fn completions(found: Vec<(Completion, Range)>) -> Value {
    let item = |(index, (completion, range)): (usize, (Completion, Range))| lsp::CompletionItem {
        kind: Some(completion_kind(completion.kind)),
        detail: completion.detail,
        documentation: completion
            .documentation
            .map(|text| lsp::Documentation::MarkupContent(markdown(text))),
        // Keep the order of the answer instead of the alphabet's.
        sort_text: Some(format!("{index:05}")),
        text_edit: Some(lsp::CompletionItemTextEdit::TextEdit(lsp::TextEdit {
            range,
            new_text: completion.insert,
        })),
        label: completion.label,
        ..Default::default()
    };
    json(found.into_iter().enumerate().map(item).collect::<Vec<_>>())
}

fn completion_kind(kind: CompletionKind) -> lsp::CompletionItemKind {
    use CompletionKind as Ours;
    use lsp::CompletionItemKind as Theirs;
    match kind {
        Ours::Exercise => Theirs::Class,
        Ours::Athlete => Theirs::Variable,
        Ours::Gym => Theirs::Struct,
        Ours::Scheme | Ours::Action => Theirs::Function,
        Ours::Programme | Ours::Day => Theirs::Module,
        Ours::Head | Ours::Word | Ours::Condition => Theirs::Keyword,
        Ours::Key | Ours::Option => Theirs::Property,
        Ours::Unit => Theirs::Unit,
        Ours::Load => Theirs::Value,
        Ours::Term | Ours::Equipment | Ours::Advice | Ours::Language => Theirs::EnumMember,
        Ours::File => Theirs::File,
    }
}

/// A hover.
#[must_use]
pub fn hover(found: Hover, range: Range) -> Value {
    json(lsp::Hover { contents: markdown(found.markdown).into(), range: Some(range) })
}

/// Locations in any file.
#[must_use]
pub fn places(found: Vec<lsp::Location>) -> Value {
    json(found)
}

/// Ranges in one file.
#[must_use]
pub fn highlights(found: Vec<Range>) -> Value {
    let highlight = |range| lsp::DocumentHighlight { range, kind: None };
    json(found.into_iter().map(highlight).collect::<Vec<_>>())
}

/// The range that a rename would change.
#[must_use]
pub fn prepared(range: Range) -> Value {
    json(range)
}

/// Edits of one text.
#[derive(Clone, Debug, Default)]
pub struct FileEdits {
    /// Its version, if the editor has it open.
    pub version: Option<i32>,
    /// Ranges of the current text, and their replacements.
    pub edits: Vec<(Range, String)>,
}

fn text_edits(edits: Vec<(Range, String)>) -> Vec<lsp::TextEdit> {
    edits.into_iter().map(|(range, new_text)| lsp::TextEdit { range, new_text }).collect()
}

/// Edits of one text, for a formatting request.
#[must_use]
pub fn edits(edits: Vec<(Range, String)>) -> Value {
    json(text_edits(edits))
}

fn changes_of(files: Vec<(String, FileEdits)>, versioned: bool) -> lsp::WorkspaceEdit {
    let mut edit = lsp::WorkspaceEdit::default();
    if versioned {
        let change = |(uri, moved): (String, FileEdits)| {
            lsp::DocumentChange::TextDocumentEdit(lsp::TextDocumentEdit {
                text_document: lsp::OptionalVersionedTextDocumentIdentifier {
                    version: moved.version,
                    text_document_identifier: lsp::TextDocumentIdentifier { uri: lsp::Uri(uri) },
                },
                edits: text_edits(moved.edits).into_iter().map(lsp::Edit::TextEdit).collect(),
            })
        };
        edit.document_changes = Some(files.into_iter().map(change).collect());
    } else {
        let change = |(uri, moved): (String, FileEdits)| (lsp::Uri(uri), text_edits(moved.edits));
        edit.changes = Some(files.into_iter().map(change).collect());
    }
    edit
}

/// Edits of several texts.
#[must_use]
pub fn workspace_edit(files: Vec<(String, FileEdits)>, versioned: bool) -> Value {
    json(changes_of(files, versioned))
}

/// Code actions with their edits. Those that fix a problem name it.
#[must_use]
pub fn actions(
    found: Vec<(CodeAct, Vec<(String, FileEdits)>)>,
    context: &[Finding],
    versioned: bool,
) -> Value {
    let action = |(act, files): (CodeAct, Vec<(String, FileEdits)>)| {
        let fixed = |code: &crate::diagnostics::Code| {
            context.iter().filter(|found| is_of(found, code.name())).cloned().collect::<Vec<_>>()
        };
        let kind = match act.fixes {
            Some(_) => lsp::CodeActionKind::QuickFix,
            None => lsp::CodeActionKind::RefactorRewrite,
        };
        lsp::CodeAction {
            title: act.title,
            kind: Some(kind),
            diagnostics: act.fixes.as_ref().map(fixed).filter(|found| !found.is_empty()),
            is_preferred: act.preferred.then_some(true),
            edit: Some(changes_of(files, versioned)),
            ..Default::default()
        }
    };
    json(found.into_iter().map(action).collect::<Vec<_>>())
}

/// Inlay hints.
#[must_use]
pub fn hints(found: Vec<(Hint, Position)>) -> Value {
    let hint = |(hint, position): (Hint, Position)| lsp::InlayHint {
        position,
        label: lsp::Label::String(hint.text),
        tooltip: hint.tooltip.map(|text| lsp::Tooltip::MarkupContent(markdown(text))),
        kind: None,
        text_edits: None,
        padding_left: Some(true),
        padding_right: None,
        data: None,
    };
    json(found.into_iter().map(hint).collect::<Vec<_>>())
}

fn symbol_kind(kind: SymbolKind) -> lsp::SymbolKind {
    match kind {
        SymbolKind::Exercise => lsp::SymbolKind::Class,
        SymbolKind::Gym => lsp::SymbolKind::Struct,
        SymbolKind::Athlete => lsp::SymbolKind::Variable,
        SymbolKind::Programme => lsp::SymbolKind::Module,
        SymbolKind::Phase | SymbolKind::Day => lsp::SymbolKind::Namespace,
        SymbolKind::Scheme => lsp::SymbolKind::Function,
        SymbolKind::Line => lsp::SymbolKind::Field,
        SymbolKind::Log => lsp::SymbolKind::Array,
        SymbolKind::Session => lsp::SymbolKind::Event,
    }
}

/// The outline of a file.
#[must_use]
pub fn symbols(found: &[Symbol], range: &dyn Fn(Span) -> Range) -> Value {
    json(found.iter().map(|symbol| document_symbol(symbol, range)).collect::<Vec<_>>())
}

#[allow(deprecated, reason = "the protocol's type has a field that nobody uses any more")]
fn document_symbol(symbol: &Symbol, range: &dyn Fn(Span) -> Range) -> lsp::DocumentSymbol {
    let children: Vec<_> =
        symbol.children.iter().map(|child| document_symbol(child, range)).collect();
    lsp::DocumentSymbol {
        name: symbol.name.clone(),
        detail: Some(symbol.detail.clone()).filter(|detail| !detail.is_empty()),
        kind: symbol_kind(symbol.kind),
        tags: None,
        deprecated: None,
        range: range(symbol.span),
        selection_range: range(symbol.name_span),
        children: Some(children).filter(|children| !children.is_empty()),
    }
}

/// A symbol with its location.
#[derive(Clone, Debug)]
pub struct Located {
    /// Its name.
    pub name: String,
    /// The kind.
    pub kind: SymbolKind,
    /// Its location.
    pub location: lsp::Location,
    /// Name of the part that contains it.
    pub owner: Option<String>,
}

/// Symbols of any file.
#[must_use]
pub fn workspace_symbols(found: Vec<Located>) -> Value {
    let symbol = |found: Located| lsp::WorkspaceSymbol {
        location: lsp::WorkspaceSymbolLocation::Location(found.location),
        data: None,
        base_symbol_information: lsp::BaseSymbolInformation {
            name: found.name,
            kind: symbol_kind(found.kind),
            tags: None,
            container_name: found.owner,
        },
    };
    json(found.into_iter().map(symbol).collect::<Vec<_>>())
}

/// Folding ranges.
#[must_use]
pub fn folds(found: Vec<Fold>) -> Value {
    let line = |line: usize| u32::try_from(line).unwrap_or(u32::MAX);
    let fold = |fold: Fold| lsp::FoldingRange {
        start_line: line(fold.first),
        end_line: line(fold.last),
        kind: Some(match fold.kind {
            FoldKind::Block => lsp::FoldingRangeKind::Region,
            FoldKind::Comment => lsp::FoldingRangeKind::Comment,
            FoldKind::Uses => lsp::FoldingRangeKind::Imports,
        }),
        ..Default::default()
    };
    json(found.into_iter().map(fold).collect::<Vec<_>>())
}

/// The protocol's names of token types, in the order of their numbers.
const TOKEN_TYPES: &[&str] = &[
    "keyword",
    "property",
    "number",
    "operator",
    "macro",
    "string",
    "comment",
    "enumMember",
    "class",
    "variable",
    "struct",
    "namespace",
    "function",
    "parameter",
    "type",
];

/// The token types and the one modifier.
pub(super) fn token_legend() -> lsp::SemanticTokensLegend {
    lsp::SemanticTokensLegend {
        token_types: TOKEN_TYPES.iter().copied().map(str::to_owned).collect(),
        token_modifiers: vec!["definition".to_owned()],
    }
}

fn token_type(kind: TokenKind) -> u32 {
    match kind {
        TokenKind::Keyword => 0,
        TokenKind::Property => 1,
        TokenKind::Number => 2,
        TokenKind::Operator => 3,
        TokenKind::Rule => 4,
        TokenKind::Text => 5,
        TokenKind::Comment => 6,
        TokenKind::Order => 7,
        TokenKind::Exercise => 8,
        TokenKind::Athlete => 9,
        TokenKind::Gym => 10,
        TokenKind::Part => 11,
        TokenKind::Scheme => 12,
        TokenKind::Parameter => 13,
        TokenKind::Term => 14,
    }
}

/// Semantic tokens, in the order of the text.
#[must_use]
pub fn tokens(found: Vec<(Token, Range)>) -> Value {
    let mut last = Position::default();
    let mut data = Vec::with_capacity(found.len());
    for (token, Range { start, end }) in found {
        let same_line = start.line == last.line;
        let from = if same_line { last.character } else { 0 };
        data.push(lsp::SemanticToken {
            delta_line: start.line.saturating_sub(last.line),
            delta_start: start.character.saturating_sub(from),
            length: end.character.saturating_sub(start.character),
            token_type: token_type(token.kind),
            token_modifiers_bitset: u32::from(token.defines),
        });
        last = start;
    }
    json(lsp::SemanticTokens { result_id: None, data })
}

/// Growing selections, inner before outer.
#[must_use]
pub fn selections(found: Vec<Vec<Range>>) -> Value {
    let chain = |ranges: Vec<Range>| {
        ranges.into_iter().rev().fold(None, |parent: Option<lsp::SelectionRange>, range| {
            Some(lsp::SelectionRange { range, parent: parent.map(Box::new) })
        })
    };
    json(found.into_iter().filter_map(chain).collect::<Vec<_>>())
}

/// The answer to the command that chooses what the inlay hints show.
#[must_use]
pub fn commands_shown(athlete: Option<&str>, week: Option<u32>) -> Value {
    serde_json::json!({ "athlete": athlete, "week": week })
}
