//! Which project a text is checked with.

use serde_json::{Value, json};

use super::client::{Client, at, range, uri};

const GYM: &str = "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 4, 10 kg x 2, 5 kg x 2, 2.5 kg x 2\n";
const SQUAD: &str = "use gym.sets\n\nathlete Robin Vale\n  gym: Shed\n  max Back squat: 100 kg\n";
const WINTER: &str =
    "use squad.sets\n\nprogramme Small\n  weeks: 2\n\nday One\n  A Back squat: 3 x 5 @ 70%\n";
const SO_FAR: &str =
    "use winter.sets\n\nlog Robin Vale: Small\n  2026-01-05 week 1, One\n    A: done\n";

fn club() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in
        [("gym.sets", GYM), ("squad.sets", SQUAD), ("winter.sets", WINTER), ("so-far.sets", SO_FAR)]
    {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

fn serious(found: &[Value]) -> Vec<&Value> {
    found.iter().filter(|found| found["severity"].as_u64() < Some(3)).collect()
}

#[test]
fn a_used_file_is_checked_with_what_uses_it() {
    let folder = club();
    let (squad, winter) =
        (uri(&folder.path().join("squad.sets")), uri(&folder.path().join("winter.sets")));
    let (mut client, _) = Client::start(folder.path(), &json!({}), &Value::Null);
    client.open(&squad, SQUAD);
    // Alone it would have no programme.
    assert_eq!(serious(&client.diagnostics(&squad)), Vec::<&Value>::new());

    // A mistake here shows there, once though two programmes read it, and goes again.
    client.edit(&squad, &range(4, 6, 16), "Front squat");
    assert_eq!(serious(&client.diagnostics(&squad)), Vec::<&Value>::new());
    let found = client.diagnostics(&winter);
    assert_eq!(found.len(), 1, "{found:#?}");
    assert_eq!(found[0]["code"], "missing-max");
    client.edit(&squad, &range(4, 6, 17), "Back squat");
    assert_eq!(client.diagnostics(&winter), Vec::<Value>::new());
    assert_eq!(client.stop(), Some(0));
}

#[test]
fn unsaved_texts_count_and_closed_ones_do_not() {
    let folder = club();
    let (gym, winter) =
        (uri(&folder.path().join("gym.sets")), uri(&folder.path().join("winter.sets")));
    let (mut client, _) = Client::start(folder.path(), &json!({}), &Value::Null);
    client.open(&winter, WINTER);
    assert_eq!(serious(&client.diagnostics(&winter)), Vec::<&Value>::new());
    client.open(&gym, GYM);
    client.edit(&gym, &range(0, 4, 8), "Barn");
    assert_eq!(client.diagnostics(&gym).len(), 0);
    let squad = uri(&folder.path().join("squad.sets"));
    assert_eq!(client.diagnostics(&squad)[0]["code"], "unknown-gym");
    // Closed without saving: the file on disk counts again.
    client.notify("textDocument/didClose", &json!({ "textDocument": { "uri": gym } }));
    assert_eq!(client.diagnostics(&squad), Vec::<Value>::new());
    assert_eq!(client.stop(), Some(0));
}

#[test]
fn new_files_and_new_uses_are_seen() {
    let folder = club();
    let can = json!({ "workspace": { "didChangeWatchedFiles": { "dynamicRegistration": true } } });
    let winter = uri(&folder.path().join("winter.sets"));
    let extra = uri(&folder.path().join("part Ž/extra.sets"));
    let (mut client, _) = Client::start(folder.path(), &can, &Value::Null);
    client.open(&winter, WINTER);
    assert_eq!(serious(&client.diagnostics(&winter)), Vec::<&Value>::new());
    assert_eq!(client.asked, ["client/registerCapability"]);
    client.edit(&winter, &range(1, 0, 0), "use part Ž/extra.sets\n");
    assert!(client.codes(&winter).contains(&"file-not-found".to_owned()));
    std::fs::create_dir(folder.path().join("part Ž")).unwrap();
    std::fs::write(folder.path().join("part Ž/extra.sets"), "gym Barn\n  bar: 20 kgs\n").unwrap();
    let changes = json!({ "changes": [{ "uri": extra, "type": 1 }] });
    client.notify("workspace/didChangeWatchedFiles", &changes);
    // An error in a file nobody has open is shown there.
    assert_eq!(client.diagnostics(&extra)[0]["severity"], 1);
    assert_eq!(client.stop(), Some(0));
}

#[test]
fn a_name_is_changed_in_every_programme() {
    let folder = club();
    let gym = uri(&folder.path().join("gym.sets"));
    let can = json!({ "workspace": { "workspaceEdit": { "documentChanges": true } } });
    let (mut client, _) = Client::start(folder.path(), &can, &Value::Null);
    client.open(&gym, GYM);
    let mut params = at(&gym, 0, 5);
    params["context"] = json!({ "includeDeclaration": true });
    let uses = client.request("textDocument/references", &params).unwrap();
    let uses: Vec<&str> =
        uses.as_array().unwrap().iter().map(|u| u["uri"].as_str().unwrap()).collect();
    let squad = uri(&folder.path().join("squad.sets"));
    assert_eq!(uses, [squad.as_str(), gym.as_str()]);
    params["newName"] = json!("Barn");
    let edit = client.request("textDocument/rename", &params).unwrap();
    let changes = edit["documentChanges"].as_array().unwrap();
    assert_eq!(changes.len(), 2, "{edit:#}");
    assert_eq!(changes[0]["textDocument"], json!({ "uri": gym, "version": 1 }));
    assert_eq!(changes[0]["edits"][0]["newText"], "Barn");
    assert_eq!(changes[1]["textDocument"], json!({ "uri": squad, "version": null }));
}

#[test]
fn texts_that_are_no_files_and_odd_names_are_served() {
    let folder = club();
    let (mut client, _) = Client::start(folder.path(), &json!({}), &Value::Null);
    for name in [
        "untitled:Untitled-1",
        "untitled:Untitled-2",
        "file:///c%3A/plans/winter.sets",
        "file:///%FF.sets",
        "file:///",
        "",
        "vscode-notebook-cell://host/a.sets#x",
    ] {
        client.open(name, "gym Shed\n  bar: 20 kgs\n");
        let found = client.diagnostics(name);
        assert_eq!(found[0]["severity"], 1, "{name} {found:#?}");
    }
    // A text without a name brings in the files of the folder.
    client.open("untitled:Untitled-3", WINTER);
    let found = client.diagnostics("untitled:Untitled-3");
    assert_eq!(serious(&found), Vec::<&Value>::new(), "{found:#?}");
    assert_eq!(client.stop(), Some(0));
}

#[test]
fn of_many_changes_the_last_counts() {
    let folder = club();
    let winter = uri(&folder.path().join("winter.sets"));
    let (mut client, _) = Client::start(folder.path(), &json!({}), &Value::Null);
    client.open(&winter, WINTER);
    for _ in 0..40 {
        client.edit(&winter, &range(6, 4, 4), "x");
        client.edit(&winter, &range(6, 4, 5), "");
    }
    assert_eq!(serious(&client.diagnostics(&winter)), Vec::<&Value>::new());
    assert!(!client.was_told(&winter));
    assert_eq!(client.stop(), Some(0));
}

#[test]
fn another_folder_moves_the_texts() {
    let (folder, other) = (club(), club());
    let squad = uri(&other.path().join("squad.sets"));
    let (mut client, _) = Client::start(folder.path(), &json!({}), &Value::Null);
    client.open(&squad, SQUAD);
    assert_eq!(serious(&client.diagnostics(&squad)), Vec::<&Value>::new());
    let event = json!({
        "added": [{ "uri": uri(other.path()), "name": "other" }],
        "removed": [{ "uri": uri(folder.path()), "name": "club" }],
    });
    client.notify("workspace/didChangeWorkspaceFolders", &json!({ "event": event }));
    client.edit(&squad, &range(3, 7, 11), "Barn");
    assert!(client.codes(&squad).contains(&"unknown-gym".to_owned()));
    assert_eq!(client.stop(), Some(0));
}

#[test]
fn a_folder_too_full_or_too_deep_to_see_all_of_is_said() {
    let folder = club();
    let winter = uri(&folder.path().join("winter.sets"));
    let deep = "d/".repeat(setwright::bounds::FOLDER_DEPTH);
    std::fs::create_dir_all(folder.path().join(deep)).unwrap();
    let (mut client, _) = Client::start(folder.path(), &json!({}), &Value::Null);
    client.open(&winter, WINTER);
    assert_eq!(serious(&client.diagnostics(&winter)), Vec::<&Value>::new());
    assert!(client.logged.iter().all(|said| said.contains("32 folders deep")));
    assert_eq!(client.logged.len(), 1);
    assert_eq!(client.stop(), Some(0));

    let folder = club();
    let winter = uri(&folder.path().join("winter.sets"));
    for n in 0..setwright::bounds::FILES {
        std::fs::write(folder.path().join(format!("{n}.sets")), "").unwrap();
    }
    let (mut client, _) = Client::start(folder.path(), &json!({}), &Value::Null);
    client.open(&winter, WINTER);
    assert_eq!(serious(&client.diagnostics(&winter)), Vec::<&Value>::new());
    assert!(
        client.logged.iter().any(|said| said.contains("at most 1000 files")),
        "{:?}",
        client.logged
    );
    assert_eq!(client.stop(), Some(0));
}
