//! Laws: no feature panics at any byte of any text, and each answer's span is in the text.

use std::fs;
use std::path::Path;

use proptest::prelude::*;

use super::CLUB;
use crate::catalogue::LIBRARY_FILE;
use crate::editor::Analysis;
use crate::editor::features::{
    Shown, actions, complete, definition, hover, inlay_hints, prepare_rename, references, rename,
};
use crate::resolve::Project;
use crate::source::{FileId, FolderLoader, MemoryLoader, Span};

fn sound(analysis: &Analysis, span: Span) {
    let file = analysis.sources.get(span.file).expect("a file");
    assert!(span.start <= span.end, "{span:?}");
    for byte in [span.start, span.end] {
        assert!(file.text.is_char_boundary(byte as usize), "{span:?} in {}", file.path);
    }
}

/// Calls every feature at a byte.
fn ask(analysis: &Analysis, file: FileId, at: usize) {
    let own = |span: Span| {
        sound(analysis, span);
        assert_ne!(span.file, LIBRARY_FILE, "an edit of the library");
    };
    for found in complete(analysis, file, at) {
        sound(analysis, found.replace);
        assert_eq!(found.replace.file, file);
        let at = at.min(analysis.sources.get(file).unwrap().text.len());
        assert!(found.replace.start as usize <= at, "{found:?} at {at}");
    }
    if let Some(found) = hover(analysis, file, at) {
        sound(analysis, found.span);
    }
    for span in definition(analysis, file, at) {
        sound(analysis, span);
    }
    for span in references(analysis, file, at) {
        sound(analysis, span);
    }
    if let Some(span) = prepare_rename(analysis, file, at) {
        own(span);
        for (span, _) in rename(analysis, file, at, "Quux").unwrap_or_default() {
            own(span);
        }
    }
    for act in actions(analysis, file, Span::new(file, at, at.saturating_add(3))) {
        act.edits.iter().for_each(|(span, _)| own(*span));
    }
}

fn ask_hints(analysis: &Analysis, file: FileId) {
    for week in [None, Some(2), Some(u32::MAX)] {
        for athlete in [None, Some("Ana Brook".to_owned()), Some("nobody".to_owned())] {
            for hint in inlay_hints(analysis, file, &Shown { athlete, week }) {
                sound(analysis, Span { file, start: hint.at, end: hint.at });
            }
        }
    }
}

fn examples() -> Vec<(String, String)> {
    let mut found = Vec::new();
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    for folder in fs::read_dir(root).unwrap() {
        let folder = folder.unwrap().path();
        for file in fs::read_dir(&folder).unwrap() {
            let path = file.unwrap().path();
            if path.extension().is_some_and(|end| end == "sets") {
                let name = path.file_name().unwrap().to_string_lossy().into_owned();
                found.push((folder.to_string_lossy().into_owned(), name));
            }
        }
    }
    found.sort();
    assert!(found.len() >= 5);
    found
}

#[test]
fn every_example_can_be_asked_anything_anywhere() {
    for (folder, name) in examples() {
        let project = Project::open(&FolderLoader::new(Path::new(&folder)), &name).unwrap();
        let analysis = Analysis::of(project);
        let file = analysis.root;
        ask_hints(&analysis, file);
        let length = analysis.sources.get(file).unwrap().text.len();
        // A step of a prime number meets every kind of position.
        for at in (0..length + 3).step_by(101) {
            ask(&analysis, file, at);
        }
        ask(&analysis, file, usize::MAX);
        ask(&analysis, FileId(99), 0);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10))]

    #[test]
    fn broken_texts_can_be_asked_anything(
        cuts in prop::collection::vec((0..CLUB.len(), 0..30_usize, "[ -~Žé\n:@%,(]{0,6}"), 1..6),
        places in prop::collection::vec(0..CLUB.len() + 10, 8),
    ) {
        let mut text = CLUB.to_owned();
        for (at, length, new) in cuts {
            let from = text.floor_char_boundary(at.min(text.len()));
            let to = text.floor_char_boundary((at + length).min(text.len())).max(from);
            text.replace_range(from..to, &new);
        }
        let analysis = Analysis::of(Project::from_text(&MemoryLoader::new(), "main.sets", text));
        let file = analysis.root;
        ask_hints(&analysis, file);
        for at in places {
            ask(&analysis, file, at);
        }
    }
}

#[test]
fn a_small_project_can_be_asked_anything_everywhere() {
    let analysis =
        Analysis::of(Project::from_text(&MemoryLoader::new(), "main.sets", CLUB.to_owned()));
    for at in (0..CLUB.len() + 2).step_by(7) {
        ask(&analysis, analysis.root, at);
    }
}

/// Things that are renamed in the examples: file, text before the name, name.
const RENAMED: &[(&str, &str, &str)] = &[
    ("squad.sets", "athlete ", "Wren Tallow"),
    ("winter.sets", "day ", "Catch"),
    ("winter.sets", "scheme ", "Pin by pin"),
];

#[test]
fn a_name_of_the_examples_can_be_changed_and_changed_back() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/rowing-club");
    let project = Project::open(&FolderLoader::new(&folder), "winter-so-far.sets").unwrap();
    let before = Analysis::of(project);
    for (path, lead, name) in RENAMED {
        let (file, source) =
            before.sources.iter().find(|(_, source)| *source.path == **path).expect(path);
        let at = source.text.find(&format!("{lead}{name}")).expect(name) + lead.len();
        let new = "Quux Ža";
        let edits = rename(&before, file, at, new).unwrap();
        let after = with_edits(&before, &edits);
        assert_eq!(after.diagnostics.len(), before.diagnostics.len(), "{:?}", after.diagnostics);
        let told = |analysis: &Analysis| -> Vec<String> {
            let texts = analysis.plans.iter().map(crate::sheets::summary);
            let plain =
                |text: String| text.split_whitespace().map(str::to_owned).collect::<String>();
            texts.map(plain).map(|text| text.replace(['=', '-', '·'], "")).collect()
        };
        let swapped: Vec<String> = told(&before)
            .into_iter()
            .map(|text| text.replace(&name.replace([' ', '-'], ""), &new.replace(' ', "")))
            .collect();
        // A longer name may break another line at a hyphen; the words are the same.
        assert!(swapped == told(&after), "{name}");
        let (file, _) =
            after.sources.iter().find(|(_, source)| *source.path == **path).expect(path);
        let back = with_edits(&after, &rename(&after, file, at, name).unwrap());
        for ((_, was), (_, is)) in before.sources.iter().zip(back.sources.iter()) {
            assert!(was.text == is.text, "{}", was.path);
        }
    }
}

/// The project after some edits, in memory.
fn with_edits(analysis: &Analysis, edits: &[(Span, String)]) -> Analysis {
    let mut loader = MemoryLoader::new();
    for (id, source) in analysis.sources.iter() {
        let text = crate::editor::features::edits::apply(&source.text, id, edits);
        loader = loader.with(&source.path, &text);
    }
    let root = analysis.sources.get(analysis.root).unwrap().path.clone();
    Analysis::of(Project::open(&loader, &root).unwrap())
}
