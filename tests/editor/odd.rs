//! Random texts, changes and requests to the server itself: it answers every request, and its text
//! at the end is the result of the changes.

use lsp_server::{Connection, Message, Notification, Request};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::{Index, select};
use proptest::test_runner::{Config, RngSeed};
use serde_json::{Value, json};

/// Generous: a loaded machine is slow.
const PATIENCE: std::time::Duration = std::time::Duration::from_mins(1);
const NAME: &str = "untitled:odd.sets";

/// What happens in an editor.
#[derive(Clone, Debug)]
enum Event {
    /// A range becomes a text.
    Change(Index, u32, u32, String),
    /// A question about a place.
    Ask(usize, Index, u32),
    /// A question about a place that is not there.
    AskOutside(usize, u32, u32),
}

/// Methods that are asked with a position, a range or only a text; all at once.
const METHODS: &[&str] = &[
    "completion",
    "hover",
    "definition",
    "references",
    "documentHighlight",
    "prepareRename",
    "rename",
    "inlayHint",
    "codeAction",
    "formatting",
    "rangeFormatting",
    "documentSymbol",
    "foldingRange",
    "semanticTokens/full",
    "selectionRange",
];

fn events() -> impl Strategy<Value = Vec<Event>> {
    let text = prop_oneof![
        "[ -~]{0,6}",
        select(vec!["\n", "\r\n", "\r", "\t", "𝄞", "Ž", "\u{feff}", "\u{0}", "  ", ": ", "#"])
            .prop_map(str::to_owned),
        select(vec![
            "use odd.sets\n",
            "programme X\n  weeks: 2\n",
            "day One\n",
            "@ 70%",
            "week 2:"
        ])
        .prop_map(str::to_owned),
    ];
    let change = (any::<Index>(), 0..60_u32, 0..8_u32, text)
        .prop_map(|(line, column, length, text)| Event::Change(line, column, length, text));
    let ask = (0..METHODS.len(), any::<Index>(), 0..60_u32)
        .prop_map(|(method, line, column)| Event::Ask(method, line, column));
    let outside = (0..METHODS.len(), any::<u32>(), any::<u32>())
        .prop_map(|(method, line, column)| Event::AskOutside(method, line, column));
    vec(prop_oneof![3 => change, 4 => ask, 1 => outside], 1..25)
}

fn texts() -> impl Strategy<Value = String> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/");
    let names = [
        "first-steps/programme.sets",
        "home-kettlebells/programme.sets",
        "two-for-two/programme.sets",
        "rowing-club/squad.sets",
        "rowing-club/winter.sets",
    ];
    let read = move |name: &str| std::fs::read_to_string(format!("{folder}{name}")).unwrap();
    let texts: Vec<String> = names.into_iter().map(read).collect();
    (select(texts), any::<bool>())
        .prop_map(|(text, dos)| if dos { text.replace('\n', "\r\n") } else { text })
}

fn params(line: u32, column: u32) -> Value {
    let at = json!({ "line": line, "character": column });
    json!({
        "textDocument": { "uri": NAME },
        "position": at,
        "positions": [at],
        "range": { "start": at, "end": { "line": line.saturating_add(3), "character": 0 } },
        "context": { "diagnostics": [], "includeDeclaration": true },
        "newName": "Ž new",
        "options": { "tabSize": 2, "insertSpaces": true },
    })
}

/// What an editor makes of a change, columns counted in UTF-16.
fn edited(text: &str, line: usize, from: u32, to: u32, new: &str) -> String {
    let start: usize = text.split_inclusive('\n').take(line).map(str::len).sum();
    let said = text[start..].split('\n').next().unwrap_or("");
    let said = said.strip_suffix('\r').unwrap_or(said);
    let byte = |column: u32| {
        let mut units = 0;
        for (at, sign) in said.char_indices() {
            units += u32::try_from(sign.len_utf16()).unwrap();
            if units > column {
                return start + at;
            }
        }
        start + said.len()
    };
    format!("{}{new}{}", &text[..byte(from)], &text[byte(to)..])
}

fn is_answer(message: &Message, id: i32) -> bool {
    matches!(message, Message::Response(response) if response.id == id.into())
}

fn play(mut text: String, events: Vec<Event>, wait: bool) -> Result<(), TestCaseError> {
    let (here, there) = Connection::memory();
    let server = std::thread::spawn(move || setwright::editor::serve(there));
    let tell = |method: &str, params: Value| {
        here.sender.send(Notification::new(method.to_owned(), params).into()).unwrap();
    };
    let mut id = 0;
    let mut ask = |method: &str, params: Value| {
        id += 1;
        here.sender.send(Request::new(id.into(), method.to_owned(), params).into()).unwrap();
        id
    };
    ask("initialize", json!({ "capabilities": {} }));
    tell("initialized", json!({}));
    let opened = json!({ "uri": NAME, "languageId": "", "version": 0, "text": text });
    tell("textDocument/didOpen", json!({ "textDocument": opened }));
    let mut last = 1;
    let mut heard = Vec::new();
    for (version, event) in events.into_iter().enumerate() {
        let lines = text.split('\n').count();
        match event {
            Event::Change(line, from, length, new) => {
                let line = line.index(lines);
                let change = json!({
                    "range": {
                        "start": { "line": line, "character": from },
                        "end": { "line": line, "character": from + length },
                    },
                    "text": new,
                });
                let document = json!({ "uri": NAME, "version": version + 1 });
                let params = json!({ "textDocument": document, "contentChanges": [change] });
                tell("textDocument/didChange", params);
                text = edited(&text, line, from, from + length, &new);
            }
            Event::Ask(method, line, column) => {
                let line = u32::try_from(line.index(lines)).unwrap();
                last = ask(&format!("textDocument/{}", METHODS[method]), params(line, column));
            }
            Event::AskOutside(method, line, column) => {
                last = ask(&format!("textDocument/{}", METHODS[method]), params(line, column));
            }
        }
        // Half of the time everything waits in one heap, half of the time each question is
        // answered before the next event.
        while wait && !heard.iter().any(|message| is_answer(message, last)) {
            heard.push(here.receiver.recv_timeout(PATIENCE).unwrap());
        }
    }
    // What a selection grows to in the end is the whole text as the server has it.
    let whole =
        json!({ "textDocument": { "uri": NAME }, "positions": [{ "line": 0, "character": 0 }] });
    let grown = ask("textDocument/selectionRange", whole);
    let end = ask("shutdown", Value::Null);
    tell("exit", Value::Null);
    prop_assert!(server.join().unwrap());
    let mut answered = Vec::new();
    let mut end_of_text = None;
    for message in heard.into_iter().chain(here.receiver.try_iter()) {
        if let Message::Response(response) = message {
            let id = serde_json::to_value(&response.id).unwrap().as_i64().unwrap();
            if id == i64::from(grown) {
                let mut node = &response.response_result.as_ref().unwrap()[0];
                while node["parent"].is_object() {
                    node = &node["parent"];
                }
                end_of_text = Some(node["range"]["end"]["line"].as_u64().unwrap());
            }
            answered.push(id);
        }
    }
    answered.sort_unstable();
    prop_assert_eq!(answered, (1..=i64::from(end)).collect::<Vec<_>>());
    let lines = text.split('\n').count() as u64;
    prop_assert_eq!(end_of_text, Some(lines - 1));
    Ok(())
}

proptest! {
    #![proptest_config(Config {
        cases: 48,
        failure_persistence: None,
        max_shrink_iters: 300,
        rng_seed: RngSeed::Fixed(20_261_125),
        ..Config::default()
    })]

    #[test]
    fn odd_input_is_answered(text in texts(), events in events(), wait in any::<bool>()) {
        play(text, events, wait)?;
    }
}
