//! The plan as CSV and as a calendar.

use setwright::export::SET_COLUMNS;

use super::support::{Bench, example, python, repository};

const SQUAD: &str = "rowing-club/winter-so-far.sets";

fn rows(text: &str) -> (Vec<String>, Vec<csv::StringRecord>) {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let head = reader.headers().unwrap().iter().map(str::to_owned).collect();
    (head, reader.records().map(Result::unwrap).collect())
}

/// The cells that are named as a field of the JSON say what the field says.
#[test]
fn a_row_for_each_set_says_what_the_json_says() {
    let bench = Bench::new();
    let file = example(SQUAD);
    let csv = bench.run(&["plan", &file, "--format", "csv"]);
    let json = bench.run(&["plan", &file]);
    assert_eq!((csv.code, json.code), (0, 0));
    let (head, rows) = rows(&csv.out);
    assert_eq!(head, SET_COLUMNS.iter().map(|column| column.name).collect::<Vec<_>>());
    let plan: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    let list = |at: &serde_json::Value, key: &str| at[key].as_array().unwrap().clone();
    let mut rows = rows.iter();
    let mut compared = 0;
    for athlete in list(&plan, "athletes") {
        for session in list(&athlete, "sessions") {
            for exercise in list(&session, "exercises") {
                for (number, set) in (1..).zip(list(&exercise, "sets")) {
                    let row = rows.next().unwrap();
                    for (name, cell) in head.iter().zip(row) {
                        let places = [&set, &exercise, &session];
                        // These tell of the set what elsewhere is a part of something else.
                        let field = places.iter().find_map(|at| at.get(name.as_str()));
                        let expected = match (name.as_str(), field) {
                            ("athlete", _) => athlete["name"].clone(),
                            ("exercise", _) => exercise["name"].clone(),
                            ("set", _) => number.into(),
                            ("replaces", Some(replaced)) => replaced["name"].clone(),
                            ("limits" | "rir" | "rpe", _) | (_, None) => continue,
                            (_, Some(field)) => field.clone(),
                        };
                        assert_eq!(cell, flat(&expected), "{name} of {row:?}");
                        compared += 1;
                    }
                }
            }
        }
    }
    assert!(rows.next().is_none());
    assert!(compared > 10_000, "{compared} cells");
}

fn flat(value: &serde_json::Value) -> String {
    match value {
        serde_json::Value::Null => String::new(),
        serde_json::Value::String(text) => text.clone(),
        serde_json::Value::Array(all) => all.iter().map(flat).collect::<Vec<_>>().join(" + "),
        other => other.to_string(),
    }
}

/// Names that a spreadsheet would run, and names with commas and quotes.
fn sly() -> Bench {
    Bench::with(
        "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 4, 10 kg x 2\n\nathlete =1+1\n  gym: Shed\n\
         \nprogramme A, \"B\"; C\n  weeks: 2\n  starts: 2026-01-05\n\
         \nday @home, or \\ this; Größe ✓ 60 m (Mon)\n  A  Back squat: 3 x 5 @ 60 kg\n\
         \nday Second (Fri)\n  A  Pull-up: 3 x 5 @ bodyweight -20 kg\n",
    )
}

#[test]
fn no_cell_runs_as_a_formula_and_numbers_stay_numbers() {
    let ran = sly().run(&["plan", "programme.sets", "--format", "csv"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let (head, rows) = rows(&ran.out);
    let cell = |row: &csv::StringRecord, name: &str| {
        row[head.iter().position(|column| column == name).unwrap()].to_owned()
    };
    assert_eq!(cell(&rows[0], "athlete"), "'=1+1");
    assert_eq!(cell(&rows[0], "programme"), "A, \"B\"; C");
    assert_eq!(cell(&rows[0], "day"), "'@home, or \\ this; Größe ✓ 60 m");
    assert_eq!(cell(&rows[3], "load_kg"), "-20");
    let weekly = sly().run(&["summary", "programme.sets", "--weekly", "--format", "csv"]).out;
    assert!(weekly.contains("\n'=1+1,") && !weekly.contains("\n=1"), "{weekly}");
}

/// The data dictionary in the book is the table of columns.
#[test]
fn the_dictionary_names_every_column() {
    let text = std::fs::read_to_string(repository().join("docs/exports.md")).unwrap();
    let expected: Vec<String> = SET_COLUMNS
        .iter()
        .map(|column| format!("| `{}` | {} |", column.name, column.means))
        .collect();
    let start = text.find("| column | says |").expect("docs/exports.md has the dictionary");
    let written: Vec<&str> =
        text[start..].lines().skip(2).take_while(|line| line.starts_with('|')).collect();
    assert_eq!(written, expected, "docs/exports.md should hold:\n{}", expected.join("\n"));
}

fn calendar(bench: &Bench, arguments: &[&str]) -> String {
    let ran = bench.run(&[&["plan", "programme.sets", "--format", "ics"], arguments].concat());
    assert_eq!(ran.code, 0, "{}", ran.err);
    ran.out
}

/// The lines of a calendar as they were before they were folded.
fn unfolded(text: &str) -> Vec<String> {
    text.replace("\r\n ", "").split("\r\n").map(str::to_owned).collect()
}

fn values(text: &str, key: &str) -> Vec<String> {
    let with = |line: &String| line.strip_prefix(key).map(str::to_owned);
    unfolded(text).iter().filter_map(with).collect()
}

/// RFC 5545, section 3.1: lines end with CRLF and have at most 75 octets without it.
#[test]
fn lines_are_short_and_end_as_the_standard_says() {
    let bench = sly();
    let squad = bench.run(&["plan", &example(SQUAD), "--format", "ics"]).out;
    for text in [calendar(&bench, &[]), squad] {
        assert!(text.starts_with("BEGIN:VCALENDAR\r\n") && text.ends_with("END:VCALENDAR\r\n"));
        assert!(!text.replace("\r\n", "").contains(['\n', '\r']));
        for line in text.split("\r\n") {
            assert!(line.len() <= 75, "{} octets: {line}", line.len());
        }
    }
}

#[test]
fn an_event_is_a_day_with_its_title_and_the_text_of_the_summary() {
    let bench = sly();
    let text = calendar(&bench, &[]);
    assert_eq!(
        values(&text, "DTSTART;VALUE=DATE:"),
        ["20260105", "20260109", "20260112", "20260116"]
    );
    assert_eq!(values(&text, "DTSTAMP:"), ["20260105T000000Z"; 4]);
    assert_eq!(values(&text, "SUMMARY:")[0], "@home\\, or \\\\ this\\; Größe ✓ 60 m · =1+1");
    let told = values(&text, "DESCRIPTION:")[1].replace("\\n", "\n").replace("\\,", ",");
    let told = told.replace("\\;", ";");
    let summary = bench.run(&["summary", "programme.sets"]).out;
    let (session, cautions) = told.rsplit_once("\n\n").unwrap();
    assert!(summary.contains(session), "{session}\n\n{summary}");
    assert!(session.contains("Pull-up"), "{session}");
    let (unit, cautions) = cautions.split_once('\n').unwrap();
    assert_eq!(unit, "loads in kg");
    assert!(cautions.starts_with("Stop on sharp pain."), "{cautions}");
    assert!(summary.contains(cautions));
    // The time of making comes from outside or not at all.
    let made = bench.run_with(
        &["plan", "programme.sets", "--format", "ics"],
        None,
        &[("SOURCE_DATE_EPOCH", "1700000000")],
    );
    assert_eq!(values(&made.out, "DTSTAMP:"), ["20231114T221320Z"; 4]);
    assert_eq!(text, calendar(&bench, &[]));
}

/// A change of load or date changes the event that is there; every session has its own.
#[test]
fn an_event_keeps_its_identity_when_the_session_changes() {
    let bench = Bench::with(
        "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 4, 10 kg x 2\n\nathlete Robin Vale\n\
         \nathlete Corin Vane\n\nprogramme Small\n  weeks: 3\n  starts: 2026-01-05\n\
         \nday One (Mon)\n  A  Back squat: 3 x 5 @ 60 kg\n\nday Two (Thu)\n  A  Plank: 3 x 30 s\n",
    );
    let before = values(&calendar(&bench, &[]), "UID:");
    assert_eq!(before.len(), 12);
    let mut own = before.clone();
    own.sort();
    own.dedup();
    assert_eq!(own.len(), 12, "{before:?}");
    let text = std::fs::read_to_string(bench.path("programme.sets")).unwrap();
    let changed = text.replace("60 kg\n", "80 kg\n").replace("2026-01-05", "2026-02-02");
    bench.write("programme.sets", changed.replace("day One (Mon)", "day one (Tue)"));
    let after = calendar(&bench, &[]);
    assert!(after.contains("80 kg") && after.contains("20260203"));
    assert_eq!(values(&after, "UID:"), before);
    // A part of the calendar holds the same events.
    let part = values(&calendar(&bench, &["--athlete", "Corin Vane", "--weeks", "2"]), "UID:");
    assert_eq!(part, before[8..10]);
    bench.write("programme.sets", text.replace("programme Small", "programme Other"));
    assert!(values(&calendar(&bench, &[]), "UID:").iter().all(|uid| !before.contains(uid)));
}

#[test]
fn without_dates_there_is_a_word_on_what_to_write() {
    let bench = sly();
    let text = std::fs::read_to_string(bench.path("programme.sets")).unwrap();
    let run = |text: &str| {
        bench.write("programme.sets", text);
        bench.run(&["plan", "programme.sets", "--format", "ics"])
    };
    let ran = run(&text.replace("  starts: 2026-01-05\n", ""));
    assert_eq!((ran.code, ran.out.as_str()), (1, ""));
    assert!(ran.err.contains("write `starts:`"), "{}", ran.err);
    let ran = run(&text.replace(" (Mon)", "").replace(" (Fri)", ""));
    assert_eq!((ran.code, ran.out.as_str()), (1, ""));
    assert!(ran.err.contains("`day Second (Mon)`"), "{}", ran.err);
    // Some days have a date: the others are named.
    let ran = run(&text.replace(" (Fri)", ""));
    assert_eq!(ran.code, 0);
    assert_eq!(values(&ran.out, "UID:").len(), 2);
    assert!(ran.err.contains("write the weekday") && ran.err.contains("Second"));
}

#[test]
fn each_athlete_gets_a_file_and_a_skipped_session_is_cancelled() {
    let bench = Bench::new();
    let squad = example(SQUAD);
    for (format, extension) in [("ics", "ics"), ("csv", "csv"), ("json", "json")] {
        let arguments = ["plan", &squad, "--format", format, "--per-athlete", "-o", "out"];
        let ran = bench.run(&arguments);
        assert_eq!((ran.code, ran.out.as_str()), (0, ""), "{}", ran.err);
        let name = format!("out/winter-so-far-01-wren-tallow.{extension}");
        assert!(bench.path(&name).is_file(), "{}", ran.err);
        assert!(ran.err.contains("01-wren-tallow"), "{}", ran.err);
    }
    assert_eq!(std::fs::read_dir(bench.path("out")).unwrap().count(), 18);
    let bench = sly();
    let text = std::fs::read_to_string(bench.path("programme.sets")).unwrap();
    let log = "\nlog =1+1: A, \"B\"; C\n  2026-01-09 week 1, Second: skipped (ill)\n";
    bench.write("programme.sets", text + log);
    assert_eq!(values(&calendar(&bench, &[]), "STATUS:"), ["CANCELLED"]);
}

/// Another reader of calendars finds the same events: the Python module `icalendar`.
#[test]
fn another_program_reads_the_calendar() {
    let script = r#"
import datetime, sys, icalendar
raw = open(sys.argv[1], 'rb').read()
events = icalendar.Calendar.from_ical(raw).walk('VEVENT')
assert len(events) == int(sys.argv[2]), len(events)
assert len({str(e['UID']) for e in events}) == len(events)
for e in events:
    assert not e.errors, e.errors
    day = e.decoded('DTSTART')
    assert type(day) is datetime.date, day
    assert e['SUMMARY'] and 'Stop on sharp pain' in e['DESCRIPTION'].replace('\n', ' ')
if len(sys.argv) > 3:
    first = events[0]
    assert str(first['SUMMARY']) == sys.argv[3], first['SUMMARY']
    assert str(icalendar.Calendar.from_ical(raw)['X-WR-CALNAME']) == 'A, "B"; C'
"#;
    let bench = sly();
    let run = |file: &str, count: &str, more: &[&str]| {
        let path = bench.path("out.ics").to_str().unwrap().to_owned();
        let ran = bench.run(&["plan", file, "--format", "ics", "-o", &path]);
        assert_eq!(ran.code, 0, "{}", ran.err);
        if let Some((read, told)) =
            python("icalendar", script, &[&[path.as_str(), count], more].concat())
        {
            assert!(read, "{told}");
        }
    };
    run("programme.sets", "4", &["@home, or \\ this; Größe ✓ 60 m · =1+1"]);
    run(&example("rowing-club/winter.sets"), "144", &[]);
}
