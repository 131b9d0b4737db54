//! The editor's capabilities and settings that the server uses. They are read leniently: an odd
//! value that does not matter here is ignored.

use serde_json::Value;

use super::text::Encoding;
use crate::editor::features::Shown;

/// An editor.
#[allow(clippy::struct_excessive_bools, reason = "each is a thing an editor can or cannot do")]
#[derive(Clone, Debug, Default)]
pub struct Client {
    /// The unit of columns.
    pub encoding: Encoding,
    /// The URIs of its folders.
    pub folders: Vec<String>,
    /// The athlete and week of the inlay hints.
    pub shown: Shown,
    /// Whether it can be asked to watch files.
    pub can_watch: bool,
    /// Whether it can be asked for settings.
    pub can_configure: bool,
    /// Whether it can be asked to request hints again.
    pub can_refresh_hints: bool,
    /// Whether it accepts edits with the version of their text.
    pub versioned_edits: bool,
}

impl Client {
    /// Reads the parameters of `initialize`.
    #[must_use]
    pub fn of(params: &Value) -> Self {
        let can = |path: &str| {
            let found = params.pointer(&format!("/capabilities/{path}"));
            found.and_then(Value::as_bool).unwrap_or(false)
        };
        let options = params.get("initializationOptions").unwrap_or(&Value::Null);
        Self {
            encoding: encoding(params),
            folders: folders(params),
            shown: shown_in(options).unwrap_or_default(),
            can_watch: can("workspace/didChangeWatchedFiles/dynamicRegistration"),
            can_configure: can("workspace/configuration"),
            can_refresh_hints: can("workspace/inlayHint/refreshSupport"),
            versioned_edits: can("workspace/workspaceEdit/documentChanges"),
        }
    }
}

/// UTF-8 if the editor offers it, because texts are stored in it.
fn encoding(params: &Value) -> Encoding {
    let offered = params.pointer("/capabilities/general/positionEncodings");
    let utf8 = |kind: &Value| kind.as_str() == Some("utf-8");
    match offered.and_then(Value::as_array) {
        Some(kinds) if kinds.iter().any(utf8) => Encoding::Utf8,
        _ => Encoding::Utf16,
    }
}

fn folders(params: &Value) -> Vec<String> {
    let named = |folder: &Value| Some(folder.get("uri")?.as_str()?.to_owned());
    match params.get("workspaceFolders").and_then(Value::as_array) {
        Some(list) if !list.is_empty() => list.iter().filter_map(named).collect(),
        _ => params.get("rootUri").and_then(Value::as_str).map(str::to_owned).into_iter().collect(),
    }
}

/// The chosen athlete and week in settings: `shown`, or `setwright.shown`; `None` if neither is
/// set.
#[must_use]
pub fn shown_in(settings: &Value) -> Option<Shown> {
    let shown = settings.pointer("/setwright/shown").or_else(|| settings.get("shown"))?;
    let week = shown.get("week").and_then(Value::as_u64);
    let athlete = shown.get("athlete").and_then(Value::as_str);
    Some(Shown {
        athlete: athlete.filter(|name| !name.trim().is_empty()).map(str::to_owned),
        week: week.and_then(|week| u32::try_from(week).ok()).filter(|week| *week > 0),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn editors_are_read_leniently() {
        let client = Client::of(&json!({
            "capabilities": {
                "general": { "positionEncodings": ["utf-16", "utf-8"] },
                "workspace": { "workspaceEdit": { "documentChanges": true }, "inlayHint": 7 },
            },
            "workspaceFolders": null,
            "rootUri": "file:///plans",
            "initializationOptions": { "shown": { "athlete": "Žofie", "week": 3 } },
        }));
        assert_eq!(client.encoding, Encoding::Utf8);
        assert_eq!(client.folders, ["file:///plans"]);
        assert!(client.versioned_edits && !client.can_refresh_hints);
        assert_eq!((client.shown.athlete.as_deref(), client.shown.week), (Some("Žofie"), Some(3)));
        for odd in [json!(null), json!([]), json!({ "capabilities": 1, "workspaceFolders": "x" })] {
            assert_eq!(Client::of(&odd).encoding, Encoding::Utf16);
        }
    }

    #[test]
    fn settings_say_who_is_shown_or_do_not() {
        assert!(shown_in(&json!({ "setwright": {} })).is_none());
        let nobody = shown_in(&json!({ "setwright": { "shown": { "week": -1 } } })).unwrap();
        assert_eq!((nobody.athlete, nobody.week), (None, None));
    }
}
