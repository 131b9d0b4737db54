//! Programmes of each version of the notation, whose summaries must not change: a programme that
//! was written and printed once must mean the same later. See `DEVELOPERS.md`, "Notation versions".

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use setwright::compile::{Choice, compile};
use setwright::diagnostics::has_errors;
use setwright::resolve::Project;
use setwright::sheets;
use setwright::source::{FileId, FolderLoader};
use setwright::syntax::{NOTATION, format, parse, words};

fn folder(notation: u32) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/corpus/{notation}"))
}

fn names(notation: u32) -> BTreeSet<String> {
    let files = std::fs::read_dir(folder(notation)).unwrap().map(|entry| entry.unwrap().path());
    let sets = files.filter(|path| path.extension().is_some_and(|kind| kind == "sets"));
    sets.map(|path| path.file_stem().unwrap().to_str().unwrap().to_owned()).collect()
}

fn text(notation: u32, name: &str) -> String {
    std::fs::read_to_string(folder(notation).join(format!("{name}.sets"))).unwrap()
}

/// What `setwright summary` prints of a file; `None` of one that only others use.
fn summary(notation: u32, name: &str) -> Option<String> {
    if !text(notation, name).contains("\nprogramme ") {
        return None;
    }
    let loader = FolderLoader::new(&folder(notation));
    let project = Project::open(&loader, &format!("{name}.sets")).unwrap();
    let compiled = compile(project, &Choice::default()).unwrap();
    assert!(!has_errors(&compiled.diagnostics), "{name} reads no more: {:?}", compiled.diagnostics);
    Some(sheets::summary(&compiled.plan.unwrap()))
}

/// FNV-1a, 64 bits (its offset and prime [M]): names the state of all summaries, no more.
fn digest(text: &str) -> String {
    let step = |hash: u64, byte: u8| (hash ^ u64::from(byte)).wrapping_mul(0x100_0000_01b3);
    format!("{:016x}", text.bytes().fold(0xcbf2_9ce4_8422_2325, step))
}

/// A changed summary fails here, and passes again only with a line of the changelog that says so:
/// `accepted.txt` of the folder names the state of the summaries and quotes that line.
#[test]
fn past_programmes_say_what_they_said() {
    for notation in 1..=NOTATION {
        let mut all = String::new();
        let mut changed = Vec::new();
        for name in names(notation) {
            let Some(says) = summary(notation, &name) else { continue };
            let kept = folder(notation).join(format!("{name}.txt"));
            if std::env::var_os("SETWRIGHT_ACCEPT_CORPUS").is_some() {
                std::fs::write(&kept, &says).unwrap();
            }
            if std::fs::read_to_string(&kept).unwrap_or_default() != says {
                changed.push(name.clone());
            }
            all.push_str(&format!("{name}\n{says}"));
        }
        assert!(
            changed.is_empty(),
            "the summaries of {changed:?} in tests/corpus/{notation} changed: a programme that was \
             printed once reads otherwise now. If that is meant, say so in CHANGELOG.md, run \
             SETWRIGHT_ACCEPT_CORPUS=1 cargo test --test notation past, read the diff, and add the \
             line that this test then asks for to accepted.txt"
        );
        let accepted = std::fs::read_to_string(folder(notation).join("accepted.txt")).unwrap();
        let (state, entry) = accepted.lines().last().unwrap().split_once(' ').unwrap();
        let now = digest(&all);
        assert_eq!(
            state, now,
            "add `{now} WORDS OF THE CHANGELOG` to corpus/{notation}/accepted.txt"
        );
        let changelog = include_str!("../../CHANGELOG.md").split_whitespace();
        let changelog = changelog.collect::<Vec<_>>().join(" ");
        assert!(changelog.contains(entry), "the changelog has no entry with `{entry}`");
    }
}

#[test]
fn the_corpus_uses_every_word_of_its_notation() {
    let all: String = names(NOTATION).iter().map(|name| text(NOTATION, name)).collect();
    let lower = all.to_lowercase();
    let missing: Vec<&str> = words::all()
        .into_iter()
        // Short and long weekdays, in any case, are one word each.
        .filter(|word| !words::WEEKDAYS.iter().any(|(short, long)| word == short || word == long))
        .filter(|word| !lower.contains(&word.to_lowercase()))
        .collect();
    assert!(missing.is_empty(), "no programme of the corpus has {missing:?}");
}

/// What reads may be rewritten, and says the same.
#[test]
fn the_canonical_form_of_the_corpus_has_its_version_first() {
    for name in names(NOTATION) {
        let text = text(NOTATION, &name);
        let (document, problems) = parse(&text, FileId(0));
        assert!(problems.is_empty(), "{name}: {problems:?}");
        let canonical = format(&document, &text).unwrap();
        assert_eq!(text.starts_with("notation: 1\n"), canonical.starts_with("notation: 1\n"));
    }
}
