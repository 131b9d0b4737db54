//! Problems are published in two steps: those of the reading at once, those of the plans when they
//! are ready.

use std::fmt::Write;
use std::time::Instant;

use serde_json::{Value, json};

use super::client::{Client, at, range, uri};

/// A squad whose plans take a while: so many athletes, and as many weeks.
fn programme(athletes: usize, weeks: usize) -> String {
    let mut text = String::from(
        "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 4, 10 kg x 2, 5 kg x 2, 2.5 kg x 2\n",
    );
    for number in 0..athletes {
        let mass = 100 + number;
        write!(text, "\nathlete Robin {number}\n  max Back squat: {mass} kg\n").unwrap();
    }
    write!(text, "\nprogramme Long\n  weeks: {weeks}\n").unwrap();
    for day in ["One", "Two", "Three"] {
        write!(text, "\nday {day}\n  A  Back squat: 3 x 5 @ 70%\n     cue: Brace.\n").unwrap();
        text.push_str("     when any rep missed: max -2.5 kg\n");
    }
    text
}

fn line_of(text: &str, what: &str) -> u32 {
    u32::try_from(text.lines().position(|line| line.contains(what)).unwrap()).unwrap()
}

fn start(text: &str, can: &Value) -> (tempfile::TempDir, Client, String) {
    let folder = tempfile::tempdir().unwrap();
    let name = uri(&folder.path().join("long.sets"));
    let (mut client, _) = Client::start(folder.path(), can, &Value::Null);
    client.open(&name, text);
    (folder, client, name)
}

fn codes(told: &Value) -> Vec<&str> {
    let found = told["diagnostics"].as_array().unwrap();
    found.iter().map(|found| found["code"].as_str().unwrap()).collect()
}

#[test]
fn what_reading_says_comes_before_the_plans() {
    let text = programme(12, 12);
    let (_folder, mut client, name) = start(&text, &json!({}));
    let before = client.all_told(&name);
    let [first, .., last] = before.as_slice() else { panic!("{before:#?}") };
    assert_eq!(codes(first), Vec::<&str>::new());
    assert!(codes(last).contains(&"path-leaves-equipment"), "{last:#}");

    // A mistake is told, with what the plans of before say of the lines beside it; a question
    // beside it is answered before the plans are there.
    let line = line_of(&text, "day Two") + 1;
    client.edit(&name, &range(line + 1, 5, 8), "queue");
    let hover = client.send("textDocument/hover", &at(&name, line, 8));
    client.edit(&name, &range(line + 1, 5, 10), "cue");
    client.edit(&name, &range(line, 25, 27), "75");
    client.answer(hover).unwrap();
    let told = client.all_told(&name);
    // While the mistake stands, warnings are kept back. Where the server was so fast, or this client
    // so slow, that plans with it were there before it was fixed, there is nothing to bring over.
    let is_worked = told.iter().filter(|told| told["version"] == 2).count() > 1;
    let fixed = told.iter().find(|told| told["version"].as_u64() > Some(2)).unwrap();
    assert!(is_worked || codes(fixed).contains(&"path-leaves-equipment"), "{fixed:#}");
    let on_changed = |told: &Value| {
        let found = told["diagnostics"].as_array().unwrap().iter();
        found.filter(|found| found["range"]["start"]["line"] == line).count()
    };
    // Of the line that changed, only the new plans say something.
    assert_eq!(on_changed(told.iter().find(|t| t["version"] == 4).unwrap()), 0);
    assert!(on_changed(told.last().unwrap()) > 0);
    let versions: Vec<_> = told.iter().map(|told| told["version"].as_u64()).collect();
    assert!(versions.is_sorted() && versions.last() == Some(&Some(4)), "{versions:?}");

    // Line breaks move what is known of the lines below.
    client.edit(&name, &range(0, 0, 0), "# One.\n# Two.\n");
    let told = client.all_told(&name);
    let places = |told: &Value| -> Vec<Value> {
        let found = told["diagnostics"].as_array().unwrap().iter();
        found.map(|found| json!([found["range"], found["code"]])).collect()
    };
    assert_eq!(places(&told[0]), places(told.last().unwrap()));
    assert_eq!(client.stop(), Some(0));
}

#[test]
fn plans_of_texts_that_have_changed_are_not_told() {
    let text = programme(12, 12);
    let (_folder, mut client, name) = start(&text, &json!({}));
    let line = line_of(&text, "day One") + 1;
    for percent in 71..90 {
        client.edit(&name, &range(line, 25, 27), &percent.to_string());
        // Some are worked out for a while.
        client.first_diagnostics(&name);
    }
    let after = client.diagnostics(&name);
    let (_other, mut fresh, same) = start(&text.replacen("70%", "89%", 1), &json!({}));
    let strip = |found: Vec<Value>| -> Vec<Value> {
        found.into_iter().map(|found| json!([found["range"], found["message"]])).collect()
    };
    assert_eq!(strip(after), strip(fresh.diagnostics(&same)));
    // Nothing comes after the last.
    client.settle();
    assert!(!client.was_told(&name));
    assert_eq!(client.stop(), Some(0));
}

#[test]
fn hints_wait_for_the_first_plans_and_are_asked_for_again_after_new_ones() {
    let can = json!({ "workspace": { "inlayHint": { "refreshSupport": true } } });
    let text = programme(12, 12);
    let (_folder, mut client, name) = start(&text, &can);
    let line = line_of(&text, "day One") + 1;
    let here = json!({ "textDocument": { "uri": name }, "range": range(line, 0, 80) });
    let first = client.request("textDocument/inlayHint", &here).unwrap();
    assert!(first[0]["label"].as_str().unwrap().contains("70"), "{first:#}");
    assert_eq!(client.asked, Vec::<String>::new());

    // A line above moves the line: its loads of before are shown until there are new ones.
    client.edit(&name, &range(0, 0, 0), "# One.\n");
    let there = json!({ "textDocument": { "uri": name }, "range": range(line + 1, 0, 80) });
    let moved = client.request("textDocument/inlayHint", &there).unwrap();
    assert_eq!(moved[0]["label"], first[0]["label"]);
    client.settle();
    // Asked for again where they were of before.
    assert!(client.asked.len() <= 1, "{:?}", client.asked);
    client.edit(&name, &range(line + 1, 25, 27), "80");
    client.settle();
    let new = client.request("textDocument/inlayHint", &there).unwrap();
    assert!(new[0]["label"].as_str().unwrap().contains("80"), "{new:#}");
    assert_eq!(client.stop(), Some(0));
}

#[test]
fn the_end_does_not_wait_for_plans() {
    // Plans of minutes.
    let text = programme(400, 52);
    let (_folder, mut client, name) = start(&text, &json!({}));
    client.first_diagnostics(&name);
    let hints = client.send(
        "textDocument/inlayHint",
        &json!({
            "textDocument": { "uri": name }, "range": range(0, 0, 80),
        }),
    );
    let settled = client.send("setwright/settled", &Value::Null);
    let start = Instant::now();
    client.send("shutdown", &Value::Null);
    client.answer(hints).unwrap();
    client.answer(settled).unwrap();
    client.notify("exit", &Value::Null);
    assert_eq!(client.wait(), Some(0));
    assert!(start.elapsed().as_secs() < 10, "{:?}", start.elapsed());
}
