//! Logs of generated programmes, from a stream of choices; most entries are plausible.

use std::fmt::Write;

use super::generate::{ATHLETES, Made, Picks};

/// The log of the first athlete, as a block of its own.
pub fn log(made: &Made, picks: &mut Picks<'_>) -> String {
    let mut out = format!("\nlog {}: Made up\n", ATHLETES[0]);
    let mut day = 0;
    for week in 1..=made.weeks() {
        for (name, lines) in made.sessions() {
            day += 1;
            // A session that nobody logged, and one after which the log ends.
            match picks.of(12) {
                10 => continue,
                11 => return out,
                _ => {}
            }
            let _ =
                write!(out, "  2026-{:02}-{:02} week {week}, {name}", 1 + day / 28, 1 + day % 28);
            if picks.one_in(9) {
                out.push_str(": skipped (away)\n");
                continue;
            }
            out.push('\n');
            for (order, exercise, does) in lines {
                if !picks.one_in(8) {
                    let named =
                        if picks.one_in(2) { format!(" {exercise}") } else { String::new() };
                    let _ = writeln!(out, "    {order}{named}: {}", result(does, picks));
                }
            }
            let more = [
                "",
                "    note: slept badly\n",
                "    body mass: 81.5 kg\n",
                "    max Back squat: 142.5 kg\n",
                "  2026-03-01 extra, easy row\n",
                "    max Deadlift: 3 @ 300 lb\n",
            ];
            out.push_str(picks.from(&more));
        }
    }
    out
}

/// What came of a line.
fn result(does: &str, picks: &mut Picks<'_>) -> String {
    let unit = match does {
        _ if does.contains(" s") && !does.contains("rest") => " s",
        _ if does.contains(" m") && !does.contains("min") => " m",
        _ => "",
    };
    match picks.of(6) {
        0 => return "done".to_owned(),
        1 => return picks.from(&["skipped", "skipped (ran out of time)"]).to_owned(),
        _ => {}
    }
    let sets: Vec<String> = (0..=picks.of(5))
        .map(|_| {
            let count = picks.of(16);
            let both = if does.contains("each side") { format!("/{count}") } else { String::new() };
            let load = match picks.of(6) {
                0 => format!(" @ {} kg", 20 + picks.of(120)),
                1 => picks.from(&[" @ 45.5 lb", " @ bodyweight", " @ bodyweight +5 kg"]).to_owned(),
                _ => String::new(),
            };
            format!("{count}{both}{unit}{load}")
        })
        .collect();
    let ends = ["", "", ", RPE 9", ", RIR 0", ", pain 3", ", RPE 8.5, pain 1"];
    format!("{}{}", sets.join(", "), picks.from(&ends))
}
