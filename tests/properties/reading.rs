//! No text makes the reader panic, and the places of its problems exist.

use std::path::Path;

use proptest::prelude::*;
use setwright::diagnostics::Code;
use setwright::source::FileId;
use setwright::syntax::{ParseCache, parse, parse_again};

use super::laws::{compiles, formats, parses};
use super::support::{cases, compiled};

/// Reads, and where all of it reads, formats.
fn read(text: &str) {
    parses(text);
    formats(text);
}

/// The notation's own words in any order: more of it reads than of any text.
fn words() -> impl Strategy<Value = String> {
    let word = prop::sample::select(vec![
        "\n",
        "\n  ",
        "\n    ",
        "\n\t",
        "gym ",
        "athlete ",
        "programme ",
        "phase ",
        "scheme ",
        "day ",
        "log ",
        "exercise ",
        "use ",
        "A ",
        "B1 ",
        "B2 ",
        "A",
        ": ",
        ":",
        ", ",
        " x ",
        "x",
        " @ ",
        "@",
        " -> ",
        "3",
        "8",
        "12",
        "0",
        "75%",
        "-10%",
        "60 kg",
        "135 lb",
        "2.5",
        "62,5",
        "RPE 8",
        "RIR 2",
        "bodyweight",
        "last",
        "+2.5 kg",
        "/week",
        "/session",
        "rest ",
        "90 s",
        "3:00",
        "tempo 3-1-X-0",
        "drop -20%",
        "each side",
        "AMRAP",
        "5+",
        "3+3+3",
        "8-12",
        "weeks 1-3",
        "week 4",
        "weeks",
        "plates",
        "bar",
        "max ",
        "Back squat",
        "Push-up",
        "Plank",
        "Robin Vale",
        "when ",
        "top of range",
        "load ",
        "otherwise",
        "follow",
        "for ",
        "circuit 3 rounds",
        "every 60 s for 10 min",
        "of top set",
        "of Back squat",
        "of 1RM",
        "2026-01-05",
        "(",
        ")",
        "\"",
        "#",
        " # ",
        "é",
        "×",
        "–",
        "\u{a0}",
        "\u{feff}",
        "\r\n",
        "99999999999999999999",
        "0.0000001",
        "-",
        "%",
        "kg",
        "done",
        "skipped",
        "like",
        "body mass",
        "as written",
        "  ",
    ]);
    prop::collection::vec(word, 0..60).prop_map(|words| words.concat())
}

fn examples() -> Vec<String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    ["first-steps/programme.sets", "home-kettlebells/programme.sets", "rowing-club/winter.sets"]
        .iter()
        .chain(&["rowing-club/squad.sets", "rowing-club/gym.sets"])
        .map(|path| std::fs::read_to_string(root.join(path)).unwrap())
        .collect()
}

/// One change of a text, at characters.
#[derive(Clone, Debug)]
enum Change {
    Cut(prop::sample::Index, usize),
    Double(prop::sample::Index, usize),
    Insert(prop::sample::Index, String),
    Swap(prop::sample::Index, prop::sample::Index),
}

fn changed(text: &str, changes: &[Change]) -> String {
    let mut signs: Vec<char> = text.chars().collect();
    for change in changes {
        let length = signs.len();
        if length == 0 {
            break;
        }
        match change {
            Change::Cut(at, count) => {
                let at = at.index(length);
                signs.drain(at..(at + count).min(length));
            }
            Change::Double(at, count) => {
                let at = at.index(length);
                let part = signs[at..(at + count).min(length)].to_vec();
                signs.splice(at..at, part);
            }
            Change::Insert(at, text) => {
                let at = at.index(length);
                signs.splice(at..at, text.chars());
            }
            Change::Swap(a, b) => signs.swap(a.index(length), b.index(length)),
        }
    }
    signs.into_iter().collect()
}

fn changes() -> impl Strategy<Value = Vec<Change>> {
    use prop::sample::Index;
    let one = prop_oneof![
        (any::<Index>(), 1_usize..40).prop_map(|(at, n)| Change::Cut(at, n)),
        (any::<Index>(), 1_usize..80).prop_map(|(at, n)| Change::Double(at, n)),
        (any::<Index>(), "[ -~\n×→é]{1,6}").prop_map(|(at, text)| Change::Insert(at, text)),
        (any::<Index>(), any::<Index>()).prop_map(|(a, b)| Change::Swap(a, b)),
    ];
    prop::collection::vec(one, 1..5)
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn any_text_reads(text in any::<String>()) {
        read(&text);
    }

    #[test]
    fn any_bytes_read(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        read(&String::from_utf8_lossy(&bytes));
    }

    #[test]
    fn the_notations_words_in_any_order_read(text in words()) {
        read(&text);
    }
}

proptest! {
    #![proptest_config(cases(100))]

    #[test]
    fn changed_examples_read(
        text in prop::sample::select(examples()),
        changes in changes(),
    ) {
        read(&changed(&text, &changes));
    }

    #[test]
    fn the_notations_words_in_any_order_compile(text in words()) {
        compiles(&text);
    }
}

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn changed_examples_compile(
        // The club's files use each other: here they are one.
        text in prop::sample::select(vec![examples()[0].clone(), examples()[1].clone()]),
        changes in changes(),
    ) {
        compiles(&changed(&text, &changes));
    }
}

#[test]
fn the_club_in_one_file_compiles_as_it_does_in_three() {
    let all = examples();
    let text = format!("{}\n{}\n{}", all[4], all[3], all[2].replace("use ", "# use "));
    assert!(compiled(&text).plan.is_some());
}

/// Found by `SETWRIGHT_HUNT`, shrunk: the fix of an indentation covers it and nothing else.
#[test]
fn the_fix_of_an_indentation_covers_it() {
    // A no-break space is two bytes in one column, a tab one byte in two.
    for (text, indented) in [
        ("gym Shed\n  note: a\n\u{a0}note: b\n", 19..21),
        ("gym Shed\n   note: a\n\tnote: b\n", 20..21),
    ] {
        let (_, found) = parse(text, FileId(0));
        let stray = found.iter().find(|d| d.code == Code::StrayIndent).unwrap();
        let span = stray.fixes[0].edits[0].span;
        assert_eq!(span.start as usize..span.end as usize, indented, "{text:?}");
    }
}

proptest! {
    #![proptest_config(cases(24))]

    /// An editor's text, change after change: what is kept of the lines that stay makes no
    /// difference.
    #[test]
    fn what_is_read_again_is_read_as_new(
        example in prop::sample::select(vec![
            "rowing-club/winter-so-far.sets",
            "rowing-club/winter.sets",
            "rowing-club/squad.sets",
        ]),
        changes in prop::collection::vec(
            (0..20_000_usize, 0..40_usize, "([ -~Žé\n:@%,(]{0,6}|\n  note: x|3 x 5 @ 60%)"),
            1..10,
        ),
    ) {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
        let mut text = std::fs::read_to_string(folder.join(example)).unwrap();
        let mut memory = ParseCache::default();
        for (number, (at, length, new)) in (0..).zip(changes) {
            let from = text.floor_char_boundary(at % (text.len() + 1));
            let to = text.floor_char_boundary((from + length).min(text.len())).max(from);
            text.replace_range(from..to, &new);
            // Its number may change with the files before it.
            let file = FileId(1 + number % 2);
            prop_assert!(parse_again(&text, file, &mut memory) == parse(&text, file));
        }
    }
}
