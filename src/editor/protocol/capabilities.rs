//! The capabilities of the server.

use gen_lsp_types as lsp;
use serde_json::{Value, json};

use super::answers::token_legend;
use super::client::Client;
use super::text::Encoding;

/// The command that chooses the athlete and week of the inlay hints.
pub const SHOW: &str = "setwright.show";

/// The answer to `initialize`.
#[must_use]
pub fn initialized(client: &Client) -> Value {
    let answer = lsp::InitializeResult {
        capabilities: capabilities(client.encoding),
        server_info: Some(lsp::ServerInfo {
            name: "setwright".to_owned(),
            version: Some(env!("CARGO_PKG_VERSION").to_owned()),
        }),
    };
    serde_json::to_value(answer).unwrap_or_default()
}

fn capabilities(encoding: Encoding) -> lsp::ServerCapabilities {
    lsp::ServerCapabilities {
        position_encoding: Some(match encoding {
            Encoding::Utf8 => lsp::PositionEncodingKind::UTF8,
            Encoding::Utf16 => lsp::PositionEncodingKind::UTF16,
        }),
        text_document_sync: Some(lsp::TextDocumentSync::Options(lsp::TextDocumentSyncOptions {
            open_close: Some(true),
            change: Some(lsp::TextDocumentSyncKind::Incremental),
            save: Some(lsp::Save::Bool(true)),
            ..Default::default()
        })),
        completion_provider: Some(lsp::CompletionOptions {
            // A value follows a colon, and its next part follows a space.
            trigger_characters: Some([":", " ", "@", "+"].map(str::to_owned).to_vec()),
            ..Default::default()
        }),
        hover_provider: Some(true.into()),
        definition_provider: Some(true.into()),
        references_provider: Some(true.into()),
        document_highlight_provider: Some(true.into()),
        document_symbol_provider: Some(true.into()),
        workspace_symbol_provider: Some(true.into()),
        code_action_provider: Some(lsp::CodeActionProvider::CodeActionOptions(
            lsp::CodeActionOptions {
                code_action_kinds: Some(vec![
                    lsp::CodeActionKind::QuickFix,
                    lsp::CodeActionKind::RefactorRewrite,
                ]),
                ..Default::default()
            },
        )),
        document_formatting_provider: Some(true.into()),
        document_range_formatting_provider: Some(true.into()),
        rename_provider: Some(lsp::RenameProvider::RenameOptions(lsp::RenameOptions {
            prepare_provider: Some(true),
            ..Default::default()
        })),
        folding_range_provider: Some(true.into()),
        selection_range_provider: Some(true.into()),
        execute_command_provider: Some(lsp::ExecuteCommandOptions {
            commands: vec![SHOW.to_owned()],
            ..Default::default()
        }),
        semantic_tokens_provider: Some(lsp::SemanticTokensProvider::SemanticTokensOptions(
            lsp::SemanticTokensOptions {
                legend: token_legend(),
                full: Some(lsp::Full::Bool(true)),
                ..Default::default()
            },
        )),
        inlay_hint_provider: Some(true.into()),
        workspace: Some(lsp::WorkspaceOptions {
            workspace_folders: Some(lsp::WorkspaceFoldersServerCapabilities {
                supported: Some(true),
                change_notifications: Some(true.into()),
            }),
            ..Default::default()
        }),
        ..Default::default()
    }
}

/// The parameters of `client/registerCapability`, which asks to be notified of changed `.sets`
/// files.
#[must_use]
pub fn registrations() -> Value {
    json!({ "registrations": [{
        "id": "setwright-files",
        "method": "workspace/didChangeWatchedFiles",
        "registerOptions": { "watchers": [{ "globPattern": "**/*.sets" }] },
    }] })
}
