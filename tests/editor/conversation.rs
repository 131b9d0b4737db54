//! Conversations: requests of editors, and the answers.

use serde_json::{Value, json};

use super::client::{Client, applied, at, range, uri};

const TEXT: &str = "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 4, 10 kg x 2, 5 kg x 2, 2.5 kg x 2\n\n\
    athlete Žofie Vale\n  max Back squat: 100 kg\n\n\
    programme Small\n  weeks: 2\n\nday One\n  A Back squat: 3 x 5 @ 70%\n";

fn folder() -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().unwrap();
    // Editors write names as they like; this one keeps its own way.
    let name = uri(&folder.path().join("my plan Ž.sets")).replace("%C5%BD", "%c5%bd");
    std::fs::write(folder.path().join("my plan Ž.sets"), TEXT).unwrap();
    (folder, name)
}

fn encodings(utf8: bool) -> Value {
    let kinds = if utf8 { json!(["utf-8", "utf-16"]) } else { json!(["utf-16"]) };
    json!({ "general": { "positionEncodings": kinds } })
}

/// Codes that are more than advice.
fn wrong(found: &[Value]) -> Vec<String> {
    let serious = found.iter().filter(|found| found["severity"].as_u64() < Some(3));
    serious.map(|found| found["code"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn a_mistake_is_found_and_mended() {
    for utf8 in [false, true] {
        let (folder, name) = folder();
        let (mut client, answer) = Client::start(folder.path(), &encodings(utf8), &Value::Null);
        let encoding = if utf8 { "utf-8" } else { "utf-16" };
        assert_eq!(answer["capabilities"]["positionEncoding"], encoding);
        client.open(&name, TEXT);
        assert_eq!(wrong(&client.diagnostics(&name)), Vec::<String>::new());

        // After the Ž the two count differently.
        let column = if utf8 { 15 } else { 14 };
        client.edit(&name, &range(4, column - 1, column), "ë (injured)");
        client.edit(&name, &range(11, 4, 14), "Back squad");
        let found = client.diagnostics(&name);
        assert_eq!(wrong(&found), ["unknown-exercise"], "{found:#?}");
        let exercise = found.iter().find(|f| f["code"] == "unknown-exercise").unwrap();
        assert_eq!(exercise["range"], range(11, 4, 14));
        assert_eq!(exercise["source"], "setwright");
        let message = exercise["message"].as_str().unwrap();
        assert!(message.contains("Back squat"), "{message}");

        let params = json!({
            "textDocument": { "uri": name },
            "range": exercise["range"],
            "context": { "diagnostics": [exercise] },
        });
        let actions = client.request("textDocument/codeAction", &params).unwrap();
        let fix = &actions.as_array().unwrap()[0];
        assert_eq!(fix["kind"], "quickfix");
        assert_eq!(fix["diagnostics"][0]["code"], "unknown-exercise");
        assert_eq!(fix["edit"]["changes"][&name][0]["newText"], "Back squat");

        client.edit(&name, &range(11, 4, 14), "Back squat");
        assert_eq!(wrong(&client.diagnostics(&name)), Vec::<String>::new());
        assert_eq!(client.stop(), Some(0));
    }
}

#[test]
fn places_are_counted_as_agreed() {
    for utf8 in [false, true] {
        let (folder, name) = folder();
        let (mut client, _) = Client::start(folder.path(), &encodings(utf8), &Value::Null);
        let text = format!("{TEXT}     for Žofie Vale: 3 x 5 @ 60%\n");
        client.open(&name, &text);
        let wide = u32::from(utf8);

        let mut params = at(&name, 12, 19 + wide);
        let hover = client.request("textDocument/hover", &params).unwrap();
        assert_eq!(hover["range"], range(12, 9, 19 + wide), "{hover:#}");
        let prepared = client.request("textDocument/prepareRename", &params).unwrap();
        assert_eq!(prepared, range(12, 9, 19 + wide));
        params["context"] = json!({ "includeDeclaration": false });
        let uses = client.request("textDocument/references", &params).unwrap();
        assert_eq!(uses, json!([{ "uri": name, "range": range(12, 9, 19 + wide) }]));
        let defined = client.request("textDocument/definition", &params).unwrap();
        assert_eq!(defined[0]["range"], range(4, 8, 18 + wide));
        let marked = client.request("textDocument/documentHighlight", &params).unwrap();
        assert_eq!(marked.as_array().unwrap().len(), 2);
        params["newName"] = json!("Ø Vale");
        let edit = client.request("textDocument/rename", &params).unwrap();
        assert_eq!(edit["changes"][&name].as_array().unwrap().len(), 2, "{edit:#}");
        params["newName"] = json!(": no name");
        assert_eq!(client.request("textDocument/rename", &params).unwrap_err()["code"], -32803);

        // A name half written, after a character that both count differently.
        client.edit(&name, &range(12, 12 + wide, 19 + wide), "");
        let found = client.request("textDocument/completion", &at(&name, 12, 12 + wide)).unwrap();
        let whole = found.as_array().unwrap().iter().find(|c| c["label"] == "Žofie Vale").unwrap();
        assert_eq!(
            whole["textEdit"]["range"]["end"],
            json!({ "line": 12, "character": 12 + wide })
        );
        assert_eq!(client.stop(), Some(0));
    }
}

#[test]
fn formatting_changes_few_lines_and_none_of_a_broken_text() {
    let (folder, name) = folder();
    let (mut client, _) = Client::start(folder.path(), &json!({}), &Value::Null);
    let untidy =
        TEXT.replace("  bar: 20 kg", "      bar:   20 kg").replace("\n\nday", "\n\n\n\nday");
    let untidy = untidy.replace("  plates", "      plates");
    client.open(&name, &untidy);
    let params = json!({
        "textDocument": { "uri": name },
        "options": { "tabSize": 2, "insertSpaces": true },
    });
    let edits = client.request("textDocument/formatting", &params).unwrap();
    let canonical = TEXT.replace("  A Back squat", "  A  Back squat");
    assert_eq!(applied(&untidy, &edits), canonical);
    assert_eq!(edits.as_array().unwrap().len(), 5, "{edits:#}");

    let mut part = params.clone();
    part["range"] = range(1, 0, 3);
    let edits = client.request("textDocument/rangeFormatting", &part).unwrap();
    assert_eq!(edits.as_array().unwrap().len(), 1);

    client.edit(&name, &range(0, 0, 3), "gymn");
    let edits = client.request("textDocument/formatting", &params).unwrap();
    assert_eq!(edits, json!([]));
}

#[test]
fn the_shape_of_a_text_is_told() {
    let (folder, name) = folder();
    let (mut client, answer) = Client::start(folder.path(), &json!({}), &Value::Null);
    let text = format!("# One.\n# Two.\n{TEXT}");
    client.open(&name, &text);
    let document = json!({ "textDocument": { "uri": name } });

    let symbols = client.request("textDocument/documentSymbol", &document).unwrap();
    let names: Vec<&str> =
        symbols.as_array().unwrap().iter().map(|s| s["name"].as_str().unwrap()).collect();
    assert_eq!(names, ["Shed", "Žofie Vale", "Small"]);
    let line = &symbols[2]["children"][0]["children"][0];
    assert_eq!((&line["name"], &line["detail"]), (&json!("A Back squat"), &json!("3 x 5 @ 70%")));

    let found = client.request("workspace/symbol", &json!({ "query": "žofie" })).unwrap();
    assert_eq!(found[0]["name"], "Žofie Vale");
    assert_eq!(found[0]["location"]["range"], range(6, 8, 18));

    let folds = client.request("textDocument/foldingRange", &document).unwrap();
    assert_eq!(folds[0], json!({ "startLine": 0, "endLine": 1, "kind": "comment" }));

    let legend = &answer["capabilities"]["semanticTokensProvider"]["legend"]["tokenTypes"];
    let tokens = client.request("textDocument/semanticTokens/full", &document).unwrap();
    let data: Vec<usize> = tokens["data"]
        .as_array()
        .unwrap()
        .iter()
        .map(|n| usize::try_from(n.as_u64().unwrap()).unwrap())
        .collect();
    assert_eq!(data.len() % 5, 0);
    assert_eq!(legend[data[3]], "comment");
    assert_eq!((data[10], legend[data[13]].as_str()), (1, Some("keyword")));

    let params = json!({
        "textDocument": { "uri": name },
        "positions": [{ "line": 13, "character": 6 }],
    });
    let grown = client.request("textDocument/selectionRange", &params).unwrap();
    assert_eq!(grown[0]["range"], range(13, 4, 8));
}

#[test]
fn hints_follow_the_chosen_athlete_and_week() {
    let (folder, name) = folder();
    let can = json!({ "workspace": {
        "configuration": true, "inlayHint": { "refreshSupport": true },
    } });
    let options = json!({ "shown": { "week": 1 } });
    let (mut client, _) = Client::start(folder.path(), &can, &options);
    client.open(&name, TEXT);
    let params = json!({ "command": "setwright.show", "arguments": ["Žofie Vale", 2] });
    let shown = client.request("workspace/executeCommand", &params).unwrap();
    assert_eq!(shown, json!({ "athlete": "Žofie Vale", "week": 2 }));
    let all = json!({
        "textDocument": { "uri": name },
        "range": { "start": { "line": 0, "character": 0 }, "end": { "line": 99, "character": 0 } },
    });
    let hints = client.request("textDocument/inlayHint", &all).unwrap();
    let line =
        hints.as_array().unwrap().iter().find(|hint| hint["position"]["line"] == 11).unwrap();
    assert!(line["label"].as_str().unwrap().contains("70"), "{hints:#}");
    let mut none = all.clone();
    none["range"] = range(0, 0, 1);
    assert_eq!(client.request("textDocument/inlayHint", &none).unwrap(), json!([]));
    client.settings = json!({ "shown": { "athlete": "Žofie Vale" } });
    client.notify("workspace/didChangeConfiguration", &json!({ "settings": null }));
    client.request("textDocument/hover", &at(&name, 0, 0)).unwrap();
    client.request("textDocument/hover", &at(&name, 0, 0)).unwrap();
    let asked: Vec<&str> = client.asked.iter().map(String::as_str).collect();
    let refresh = "workspace/inlayHint/refresh";
    assert_eq!(asked, [refresh, "workspace/configuration", refresh]);
    let unknown = json!({ "command": "setwright.nothing" });
    assert!(client.request("workspace/executeCommand", &unknown).is_err());
}

#[test]
fn the_end_is_clean_or_says_so() {
    let (folder, _) = folder();
    let (client, _) = Client::start(folder.path(), &json!({}), &Value::Null);
    assert_eq!(client.stop(), Some(0));
    let (mut client, _) = Client::start(folder.path(), &json!({}), &Value::Null);
    client.notify("exit", &Value::Null);
    assert_eq!(client.wait(), Some(1));
}

#[test]
fn out_of_turn_and_malformed_messages_are_refused() {
    let (folder, name) = folder();
    let mut early = Client::spawn();
    assert_eq!(early.request("textDocument/hover", &at(&name, 0, 0)).unwrap_err()["code"], -32002);

    let (mut client, _) = Client::start(folder.path(), &json!({}), &Value::Null);
    client.open(&name, TEXT);
    assert_eq!(client.request("initialize", &json!({})).unwrap_err()["code"], -32600);
    for params in [json!(null), json!([]), json!({ "position": "x" }), json!({ "position": -1 })] {
        assert_eq!(client.request("textDocument/hover", &params).unwrap_err()["code"], -32602);
    }
    assert_eq!(client.request("textDocument/unheardOf", &json!({})).unwrap_err()["code"], -32601);
    client.raw("{ this is no message");
    client.raw("[]");
    client.notify("textDocument/didChange", &json!({ "contentChanges": 7 }));
    client.notify("$/cancelRequest", &json!({ "id": 4711 }));
    assert_eq!(client.request("textDocument/hover", &at("file:///nowhere", 0, 0)), Ok(Value::Null));
    assert_eq!(client.stop(), Some(0));
}
