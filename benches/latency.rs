//! How long an editor waits: keystrokes in a programme of 2,000 lines for thirty athletes, over the
//! server's standard input and output.
//!
//! `cargo bench --bench latency` prints a table in milliseconds, a row as it is measured: the
//! stages of an analysis, then from a keystroke to the first findings (what reading says), to all
//! findings (what the plans say), and to the answer of a question sent with it. A row ends after
//! [`MOST`] keystrokes or [`PATIENCE`], whichever comes first.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::disallowed_methods,
    reason = "a bench stops at the first surprise, and measures time"
)]
#![allow(dead_code, reason = "the client is the tests' own")]

#[path = "../tests/editor/client.rs"]
mod client;

use std::time::{Duration, Instant};

use client::{Client, at, range, uri};
use serde_json::{Value, json};
use setwright::advice::{Settings, review_plan};
use setwright::evaluate::paths::Paths;
use setwright::evaluate::{Assumptions, CancelToken, Evaluation, evaluate};
use setwright::resolve::{Project, resolve};
use setwright::source::{FileId, FolderLoader};

/// The most times a thing is measured.
const MOST: usize = 300;
/// The most time for one row.
const PATIENCE: Duration = Duration::from_secs(8);
/// Between two keystrokes of a quick typist.
const PAUSE: Duration = Duration::from_millis(60);

const LIFTS: [&str; 9] = [
    "Back squat",
    "Bench press",
    "Romanian deadlift",
    "Overhead press",
    "Front squat",
    "Hip thrust",
    "Deadlift",
    "Push press",
    "Good morning",
];

fn athlete(number: usize) -> String {
    let first = ["Ada", "Bo", "Cy", "Dot", "Eli", "Fay"][number % 6];
    let last = ["Alder", "Birch", "Cedar", "Damson", "Elm"][number / 6];
    format!("{first} {last}")
}

fn squad() -> String {
    let mut text = String::from(
        "gym Hall\n  bar: 20 kg\n  plates: 25 kg x 8, 20 kg x 8, 10 kg x 4, 5 kg x 4, 2.5 kg x 4, \
         1.25 kg x 4\n",
    );
    for number in 0..30 {
        text += &format!(
            "\nathlete {}\n  gym: Hall\n  body mass: {} kg\n",
            athlete(number),
            60 + number
        );
        for (at, lift) in LIFTS.iter().enumerate() {
            text += &format!("  max {lift}: {} kg\n", 80 + 5 * at + number);
        }
    }
    text
}

/// About 2,000 lines: five days of nine exercises, each with a cue, a rule, a line for every week
/// and one for every athlete.
fn programme() -> String {
    let mut text = String::from(
        "use squad.sets\n\nprogramme Long haul\n  weeks: 12\n  starts: 2026-01-05\n  \
         warm-up: bar x 8, 60% x 5, 80% x 2\n\nphase Base: weeks 1-4\n\nphase Deload: week 5, sets -40%\n\n\
         phase Build: weeks 6-12\n",
    );
    for day in 0..5 {
        text += &format!("\nday {}\n", ["One", "Two", "Three", "Four", "Five"][day]);
        for (at, lift) in LIFTS.iter().enumerate() {
            let letter = char::from(b'A' + u8::try_from(at).unwrap());
            text += &format!("  {letter}  {lift}: 3 x 5 @ 60%\n     cue: Brace, then move.\n");
            text += "     when any rep missed: max -1.25 kg\n";
            for week in 1..=12 {
                text += &format!("     week {week}: 3 x {} @ {}%\n", 3 + week % 4, 58 + 2 * week);
            }
            for number in 0..30 {
                let sets = 3 + (number + at + day) % 2;
                text +=
                    &format!("     for {}: {sets} x 5 @ {}%\n", athlete(number), 60 + number % 9);
            }
        }
    }
    text
}

/// What is typed, sign by sign, into a cue, a prescription and a name, and taken out again.
fn keystrokes(text: &str) -> Vec<(u32, u32, Option<char>)> {
    let line = |what: &str, nth: usize| {
        let found = text.lines().enumerate().filter(|(_, line)| line.contains(what)).nth(nth);
        let (line, said) = found.unwrap();
        (u32::try_from(line).unwrap(), u32::try_from(said.len()).unwrap())
    };
    let typed = [
        (line("cue:", 20), " Hips and bar rise as one."),
        (line("week 7:", 11), ", rest 2:30, RPE 8.5"),
        (line("for Dot Cedar:", 30), " + 1 x 8 @ 55%"),
    ];
    let mut keys = Vec::new();
    while keys.len() < MOST {
        for ((line, end), words) in typed {
            let length = u32::try_from(words.len()).unwrap();
            for (column, sign) in (end..).zip(words.chars()) {
                keys.push((line, column, Some(sign)));
            }
            keys.extend((0..length).rev().map(|column| (line, end + column, None)));
        }
    }
    keys
}

fn press(client: &mut Client, name: &str, (line, column, sign): (u32, u32, Option<char>)) {
    match sign {
        Some(sign) => client.edit(name, &range(line, column, column), &sign.to_string()),
        None => client.edit(name, &range(line, column, column + 1), ""),
    }
}

/// Measures a thing again and again and prints the row.
fn row(what: &str, mut once: impl FnMut(usize) -> Duration) {
    let began = Instant::now();
    let mut times = Vec::new();
    while times.is_empty() || times.len() < MOST && began.elapsed() < PATIENCE {
        times.push(once(times.len()));
    }
    times.sort();
    let at = |share: usize| times[(times.len() * share / 100).min(times.len() - 1)];
    let ms = |time: Duration| time.as_secs_f64() * 1e3;
    let (half, most, worst) = (ms(at(50)), ms(at(99)), ms(*times.last().unwrap()));
    println!("{what:<36} {:>5} {half:>9.2} {most:>9.2} {worst:>9.2}", times.len());
}

/// How long a thing takes.
fn timed<T>(act: impl FnOnce() -> T) -> Duration {
    let start = Instant::now();
    std::hint::black_box(act());
    start.elapsed()
}

fn main() {
    let folder = tempfile::tempdir().unwrap();
    let text = programme();
    let name = uri(&folder.path().join("long.sets"));
    std::fs::write(folder.path().join("long.sets"), &text).unwrap();
    std::fs::write(folder.path().join("squad.sets"), squad()).unwrap();
    println!("{} lines, 30 athletes; milliseconds", text.lines().count());
    println!("{:<36} {:>5} {:>9} {:>9} {:>9}", "", "times", "p50", "p99", "worst");

    stages(folder.path(), &text);
    let (mut client, _) = Client::start(folder.path(), &json!({}), &Value::Null);
    client.open(&name, &text);
    let found = client.diagnostics(&name);
    let wrong = found.iter().find(|found| found["severity"] == 1);
    assert!(wrong.is_none(), "{wrong:#?}");
    // What is typed goes on from row to row: the text stays one that a coach would have.
    let keys = keystrokes(&text);
    let mut keys = keys.iter().copied().cycle();
    row("keystroke to first findings", |_| {
        std::thread::sleep(PAUSE);
        let key = keys.next().unwrap();
        timed(|| {
            press(&mut client, &name, key);
            client.first_diagnostics(&name)
        })
    });
    row("keystroke to all findings", |_| {
        let key = keys.next().unwrap();
        timed(|| {
            press(&mut client, &name, key);
            client.diagnostics(&name)
        })
    });
    for method in ["completion", "hover", "semanticTokens/full", "documentSymbol", "inlayHint"] {
        let params = |key: (u32, u32, Option<char>)| {
            let mut params = at(&name, key.0, key.1 + u32::from(key.2.is_some()));
            params["range"] = range(key.0, 0, 80);
            params
        };
        let mut key = (0, 0, None);
        row(&format!("keystroke to {method}"), |_| {
            std::thread::sleep(PAUSE);
            key = keys.next().unwrap();
            timed(|| {
                press(&mut client, &name, key);
                client.request(&format!("textDocument/{method}"), &params(key)).unwrap()
            })
        });
        client.diagnostics(&name);
        row(&format!("{method}, nothing changed"), |_| {
            timed(|| client.request(&format!("textDocument/{method}"), &params(key)).unwrap())
        });
    }
    assert_eq!(client.stop(), Some(0));
}

/// Where the time goes, without the protocol.
fn stages(folder: &std::path::Path, text: &str) {
    let loader = FolderLoader::new(folder);
    let open = || Project::open(&loader, "long.sets").unwrap();
    row("read the one text", |_| timed(|| setwright::syntax::parse(text, FileId(1))));
    row("read the project", |_| timed(open));
    row("resolve", |_| {
        let project = open();
        timed(|| resolve(project))
    });
    let resolved = resolve(open());
    let (programme, history) = (&resolved.programmes[0], &resolved.histories[0]);
    let all = |_: &str| true;
    let work = || evaluate(programme, history, Assumptions::default(), &all);
    row("evaluate", |_| timed(work));
    let (plan, _) = work();
    let stop = CancelToken::default();
    let mut evaluation = Evaluation::new(programme, history, Assumptions::default(), &all);
    let batches: Vec<_> = std::iter::repeat_with(|| evaluation.batch())
        .take_while(|batch| !batch.is_empty())
        .collect();
    let compare = || {
        let mut paths =
            Paths::new(programme, history, &all, (setwright::bounds::PLANNED_SETS, &stop));
        for batch in &batches {
            paths.compare(batch);
        }
        paths.finish()
    };
    row("compare the paths", |_| timed(compare));
    row("advise", |_| timed(|| review_plan(&plan, &Settings::of(&plan, &[]).0)));
    row("check all", |_| {
        let project = open();
        timed(|| setwright::compile::check(project))
    });
}
