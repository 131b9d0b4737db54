//! The standard format: every example is read without a problem, and formatting is stable.

use std::path::{Path, PathBuf};

use setwright::source::FileId;
use setwright::syntax::{Document, ast, format, parse};

fn sets_files(folder: &Path, found: &mut Vec<PathBuf>) {
    let mut entries: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            sets_files(&path, found);
        } else if path.extension().is_some_and(|e| e == "sets") {
            found.push(path);
        }
    }
}

fn all_files() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = Vec::new();
    sets_files(&root.join("src/catalogue/library"), &mut found);
    sets_files(&root.join("src/cli/new"), &mut found);
    sets_files(&root.join("examples"), &mut found);
    assert!(found.len() > 4);
    found
}

/// The tree without places: what a text means.
fn meaning(document: &Document) -> String {
    fn show(nodes: &[ast::Node], depth: usize, out: &mut String) {
        for node in nodes {
            let item = format!("{:?}", node.item.value);
            let bare =
                item.split("Span {").map(|part| part.split_once('}').map_or(part, |(_, r)| r));
            out.push_str(&format!("{depth} {}\n", bare.collect::<String>()));
            show(&node.children, depth + 1, out);
        }
    }
    let mut out = String::new();
    show(&document.nodes, 0, &mut out);
    out
}

fn formatted(text: &str) -> String {
    let (document, problems) = parse(text, FileId(0));
    assert_eq!(problems, [], "{text}");
    let once = format(&document, text).unwrap();
    let again = format(&parse(&once, FileId(0)).0, &once).unwrap();
    assert_eq!(once, again, "not a fixed point");
    once
}

/// Keys come in the order of the table of keys; a comment moves with the key below it.
#[test]
fn keys_are_ordered_with_their_comments() {
    assert_eq!(
        formatted(
            "# before\ngym Shed\n  note: b\n  # of the plates\n  # two lines\n  plates: 20 kg x 4  # beside\n\
             \x20     # deeper: of the plates too\n  note: a\n  bar: 20 kg\n# after\n"
        ),
        "# before\ngym Shed\n  bar: 20 kg\n  # of the plates\n  # two lines\n  plates: 20 kg x 4  # beside\n\
         \x20   # deeper: of the plates too\n  note: b\n  note: a\n# after\n"
    );
}

/// A blank line and a comment further out end a paragraph: nothing moves over them.
#[test]
fn keys_stay_in_their_paragraph() {
    let text = "gym Shed\n  plates: 20 kg x 4\n\n  bar: 20 kg\n# a heading\n  note: x\n\n  # alone\n\n  \
                collars: 1 kg\n";
    assert_eq!(formatted(text), text);
    let text = "gym Shed\n  note: x\n  rounding: down\n\n  plates: 20 kg x 4\n  bar: 20 kg\n";
    let expected = "gym Shed\n  rounding: down\n  note: x\n\n  bar: 20 kg\n  plates: 20 kg x 4\n";
    assert_eq!(formatted(text), expected);
}

/// Order letters, weeks, rules, cues and maxes mean something by their order; what stands below a
/// line moves with it.
#[test]
fn what_has_an_order_of_its_own_keeps_it() {
    let text = "day One\n  note: n\n  time: 60 min\n  B  Plank: 3 x 30 s\n  A  Back squat: 3 x 5 @ 60 kg\n\
                \x20    note: later\n     cue: second\n       source: a book\n     cue: first\n\
                \x20    setup: s\n     when any rep missed: load -7.5%\n     when all reps made: hold\n\
                \x20    week 3: 5 x 5 @ 60 kg\n     week 2: 4 x 5 @ 60 kg\n     note: x\n     cue: z\n";
    let expected = "day One\n  time: 60 min\n  note: n\n  B  Plank: 3 x 30 s\n  A  Back squat: 3 x 5 @ 60 kg\n\
                \x20    setup: s\n     cue: second\n       source: a book\n     cue: first\n\
                \x20    note: later\n     when any rep missed: load -7.5%\n     when all reps made: hold\n\
                \x20    week 3: 5 x 5 @ 60 kg\n     week 2: 4 x 5 @ 60 kg\n     cue: z\n     note: x\n";
    assert_eq!(formatted(text), expected);
}

/// Letters and names stand in columns that are the same all day, however wide a letter is.
#[test]
fn names_start_in_one_column_all_day() {
    let members = |from: &str, to: &str| {
        let line = |n: u32| {
            let order = format!("E{n}");
            format!("{from}{}: 3 x 5\n", to.replace("ORDER", &format!("{order:<3}")))
        };
        (1..=10).map(line).collect::<String>()
    };
    let text =
        format!("day One\n  A Plank: 3 x 30 s\n      cue: c\n{}", members(" ", " ORDER Push-up"));
    let expected = format!(
        "day One\n  A   Plank: 3 x 30 s\n      cue: c\n{}\nday Two\n  A  Plank: 3 x 30 s\n",
        members("", "  ORDER Push-up")
    );
    assert_eq!(formatted(&format!("{text}\nday Two\n A  Plank: 3 x 30 s\n")), expected);
}

#[test]
fn every_shipped_file_reads_and_formats_to_the_same_meaning() {
    for path in all_files() {
        let text = std::fs::read_to_string(&path).unwrap();
        let (document, problems) = parse(&text, FileId(0));
        assert_eq!(problems, [], "{}", path.display());
        let once = format(&document, &text).unwrap();
        assert_eq!(once, text, "{} is not in the standard format", path.display());
        let (again, problems) = parse(&once, FileId(0));
        assert_eq!(problems, [], "{} formatted", path.display());
        assert_eq!(meaning(&document), meaning(&again), "{}", path.display());
        let twice = format(&again, &once).unwrap();
        assert_eq!(once, twice, "{}", path.display());
        assert_eq!(once.matches('#').count(), text.matches('#').count());
    }
}
