//! Parsing requests and notifications of the editor.

use gen_lsp_types as lsp;
use serde::de::DeserializeOwned;
use serde_json::Value;

use super::findings::Finding;
use super::text::{Position, Range};

/// A request of the editor. Texts are named by URI.
#[derive(Clone, Debug)]
pub enum EditorRequest {
    /// Completions at a position.
    Completion(String, Position),
    /// Hover at a position.
    Hover(String, Position),
    /// The definition of the thing at a position.
    Definition(String, Position),
    /// All uses of the thing at a position; `true` to include the definition.
    References(String, Position, bool),
    /// All uses in the same file.
    Highlights(String, Position),
    /// The range that a rename would change.
    PrepareRename(String, Position),
    /// A new name for the thing at a position.
    Rename(String, Position, String),
    /// Inlay hints in a range.
    Hints(String, Range),
    /// Code actions in a range, for these problems.
    Actions(String, Range, Vec<Finding>),
    /// Formatting of a text, or of a range of it.
    Formatting(String, Option<Range>),
    /// The outline of a file.
    Symbols(String),
    /// Symbols of any file whose names match a query.
    WorkspaceSymbols(String),
    /// Folding ranges.
    Folds(String),
    /// Semantic tokens.
    Tokens(String),
    /// Growing selections at some positions.
    Selections(String, Vec<Position>),
    /// A command.
    Command(String, Vec<Value>),
}

/// A change of a text, or of a part of it.
#[derive(Clone, Debug)]
pub struct Change {
    /// The range that changes; `None` for the whole text.
    pub range: Option<Range>,
    /// The new text.
    pub text: String,
}

/// A notification of the editor.
#[derive(Clone, Debug)]
pub enum EditorNotification {
    /// A text was opened: URI, version, text.
    Opened(String, i32, String),
    /// It was changed, to this version.
    Changed(String, i32, Vec<Change>),
    /// It was saved.
    Saved(String),
    /// It was closed.
    Closed(String),
    /// Files were created, changed or deleted.
    Files(Vec<String>),
    /// The settings changed.
    Settings(Value),
    /// Folders were added and removed.
    Folders(Vec<String>, Vec<String>),
    /// A notification that the server ignores.
    Nothing,
}

/// An error response.
#[derive(Clone, Debug)]
pub struct ResponseError {
    /// The protocol's error code.
    pub code: i32,
    /// The message.
    pub message: String,
}

impl ResponseError {
    /// The request is understood but cannot be met.
    #[must_use]
    pub fn failed(message: String) -> Self {
        Self { code: lsp_server::ErrorCode::RequestFailed as i32, message }
    }

    /// The request has invalid parameters.
    #[must_use]
    pub fn params(message: String) -> Self {
        Self { code: lsp_server::ErrorCode::InvalidParams as i32, message }
    }

    /// A request came before `initialize`.
    #[must_use]
    pub fn too_early() -> Self {
        let code = lsp_server::ErrorCode::ServerNotInitialized as i32;
        Self { code, message: "send `initialize` first".to_owned() }
    }

    /// A request came after `shutdown`, or `initialize` came twice.
    #[must_use]
    pub fn out_of_turn() -> Self {
        let code = lsp_server::ErrorCode::InvalidRequest as i32;
        Self { code, message: "not at this time".to_owned() }
    }

    /// The editor cancelled the request.
    #[must_use]
    pub fn cancelled() -> Self {
        let code = lsp_server::ErrorCode::RequestCanceled as i32;
        Self { code, message: "taken back".to_owned() }
    }
}

fn read<T: DeserializeOwned>(method: &str, params: Value) -> Result<T, String> {
    serde_json::from_value(params).map_err(|error| format!("{method}: {error}"))
}

/// Parses a request.
pub fn ask(method: &str, params: Value) -> Result<EditorRequest, ResponseError> {
    asked(method, params).map_err(ResponseError::params)?.ok_or_else(|| ResponseError {
        code: lsp_server::ErrorCode::MethodNotFound as i32,
        message: format!("{method} is not known here"),
    })
}

fn asked(method: &str, params: Value) -> Result<Option<EditorRequest>, String> {
    let place = |params: Value| -> Result<(String, Position), String> {
        let at: lsp::TextDocumentPositionParams = read(method, params)?;
        Ok((at.text_document.uri.0, at.position))
    };
    Ok(Some(match method {
        "textDocument/completion" => {
            place(params).map(|(uri, at)| EditorRequest::Completion(uri, at))?
        }
        "textDocument/hover" => place(params).map(|(uri, at)| EditorRequest::Hover(uri, at))?,
        "textDocument/definition" => {
            place(params).map(|(uri, at)| EditorRequest::Definition(uri, at))?
        }
        "textDocument/documentHighlight" => {
            place(params).map(|(uri, at)| EditorRequest::Highlights(uri, at))?
        }
        "textDocument/prepareRename" => {
            place(params).map(|(uri, at)| EditorRequest::PrepareRename(uri, at))?
        }
        "textDocument/references" => {
            let with = params.pointer("/context/includeDeclaration").and_then(Value::as_bool);
            let (uri, at) = place(params)?;
            EditorRequest::References(uri, at, with.unwrap_or(true))
        }
        "textDocument/rename" => {
            let asked: lsp::RenameParams = read(method, params)?;
            let at = asked.text_document_position_params;
            EditorRequest::Rename(at.text_document.uri.0, at.position, asked.new_name)
        }
        "textDocument/inlayHint" => {
            let asked: lsp::InlayHintParams = read(method, params)?;
            EditorRequest::Hints(asked.text_document.uri.0, asked.range)
        }
        "textDocument/codeAction" => {
            let asked: lsp::CodeActionParams = read(method, params)?;
            EditorRequest::Actions(
                asked.text_document.uri.0,
                asked.range,
                asked.context.diagnostics,
            )
        }
        "textDocument/formatting" => {
            let asked: lsp::DocumentFormattingParams = read(method, params)?;
            EditorRequest::Formatting(asked.text_document.uri.0, None)
        }
        "textDocument/rangeFormatting" => {
            let asked: lsp::DocumentRangeFormattingParams = read(method, params)?;
            EditorRequest::Formatting(asked.text_document.uri.0, Some(asked.range))
        }
        "textDocument/documentSymbol" => {
            let asked: lsp::DocumentSymbolParams = read(method, params)?;
            EditorRequest::Symbols(asked.text_document.uri.0)
        }
        "workspace/symbol" => {
            let asked: lsp::WorkspaceSymbolParams = read(method, params)?;
            EditorRequest::WorkspaceSymbols(asked.query)
        }
        "textDocument/foldingRange" => {
            let asked: lsp::FoldingRangeParams = read(method, params)?;
            EditorRequest::Folds(asked.text_document.uri.0)
        }
        "textDocument/semanticTokens/full" => {
            let asked: lsp::SemanticTokensParams = read(method, params)?;
            EditorRequest::Tokens(asked.text_document.uri.0)
        }
        "textDocument/selectionRange" => {
            let asked: lsp::SelectionRangeParams = read(method, params)?;
            EditorRequest::Selections(asked.text_document.uri.0, asked.positions)
        }
        "workspace/executeCommand" => {
            let asked: lsp::ExecuteCommandParams = read(method, params)?;
            EditorRequest::Command(asked.command, asked.arguments.unwrap_or_default())
        }
        _ => return Ok(None),
    }))
}

/// Parses a notification.
pub fn news(method: &str, params: Value) -> Result<EditorNotification, String> {
    Ok(match method {
        "textDocument/didOpen" => {
            let told: lsp::DidOpenTextDocumentParams = read(method, params)?;
            let opened = told.text_document;
            EditorNotification::Opened(opened.uri.0, opened.version, opened.text)
        }
        "textDocument/didChange" => {
            let told: lsp::DidChangeTextDocumentParams = read(method, params)?;
            let changes = told.content_changes.into_iter().map(change).collect();
            let changed = told.text_document;
            EditorNotification::Changed(
                changed.text_document_identifier.uri.0,
                changed.version,
                changes,
            )
        }
        "textDocument/didSave" => {
            let told: lsp::DidSaveTextDocumentParams = read(method, params)?;
            EditorNotification::Saved(told.text_document.uri.0)
        }
        "textDocument/didClose" => {
            let told: lsp::DidCloseTextDocumentParams = read(method, params)?;
            EditorNotification::Closed(told.text_document.uri.0)
        }
        "workspace/didChangeWatchedFiles" => {
            let told: lsp::DidChangeWatchedFilesParams = read(method, params)?;
            EditorNotification::Files(told.changes.into_iter().map(|change| change.uri.0).collect())
        }
        "workspace/didChangeConfiguration" => {
            let told: lsp::DidChangeConfigurationParams = read(method, params)?;
            EditorNotification::Settings(told.settings)
        }
        "workspace/didChangeWorkspaceFolders" => {
            let told: lsp::DidChangeWorkspaceFoldersParams = read(method, params)?;
            let names = |folders: Vec<lsp::WorkspaceFolder>| {
                folders.into_iter().map(|folder| folder.uri.0).collect()
            };
            EditorNotification::Folders(names(told.event.added), names(told.event.removed))
        }
        _ => EditorNotification::Nothing,
    })
}

fn change(event: lsp::TextDocumentContentChangeEvent) -> Change {
    use lsp::TextDocumentContentChangeEvent as Event;
    match event {
        Event::TextDocumentContentChangePartial(part) => {
            Change { range: Some(part.range), text: part.text }
        }
        Event::TextDocumentContentChangeWholeDocument(all) => {
            Change { range: None, text: all.text }
        }
    }
}
