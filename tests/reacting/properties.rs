//! Laws of programmes with rules.

use proptest::prelude::*;
use setwright::evaluate::Assumptions;
use setwright::plan::Plan;

use super::support::{loads, loads_of_files, log, plan_of, project};

const RULES: [&str; 6] = [
    "when all reps made: load +2.5 kg",
    "when any rep missed: load -7.5%",
    "when missed 2 in a row: load -5%, sets +1",
    "when last set >= 6 reps: max +2.5 kg",
    "when top of range: load up one, reps to bottom",
    "otherwise: reps +1",
];

/// A line with some of the rules, and results for the first weeks.
fn case() -> impl Strategy<Value = (String, Vec<String>)> {
    let loads =
        prop_oneof![Just("60 kg"), Just("70%"), Just("80% of 1RM"), Just("60 kg +2.5 kg/week")];
    let reps = prop_oneof![Just("3 x 5"), Just("3 x 5-8"), Just("2 x 5 @ 60 kg, 1 x 5+")];
    let rules = prop::sample::subsequence(RULES.to_vec(), 0..=5);
    let result = prop_oneof![
        Just("done".to_owned()),
        Just("skipped (away)".to_owned()),
        prop::collection::vec(3_u32..9, 3).prop_map(|r| format!("{}, {}, {}", r[0], r[1], r[2])),
    ];
    (loads, reps, rules, prop::collection::vec(result, 0..5)).prop_map(
        |(load, reps, rules, results)| {
            let mut line = format!("Back squat: {reps} @ {load}, no warm-up\n");
            // `otherwise` stands last.
            for rule in rules {
                line.push_str(&format!("     {rule}\n"));
            }
            (line, results)
        },
    )
}

fn numbered(results: &[String]) -> Vec<(u32, &str)> {
    (1..).zip(results.iter().map(String::as_str)).collect()
}

fn text(line: &str, results: &[String]) -> String {
    let log = if results.is_empty() { String::new() } else { log(&numbered(results)) };
    project(7, "\nphase Easy: week 4, sets -40%, load -10%\n", line, &log)
}

fn plan(text: &str) -> Plan {
    plan_of(text, Assumptions::default())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    /// Every recorded derivation, replayed, gives the load (asserted inside `plan_of`).
    #[test]
    fn every_trace_replays((line, results) in case()) {
        plan(&text(&line, &results));
    }

    /// A log for the future never changes the past.
    #[test]
    fn a_later_log_never_changes_the_past((line, results) in case()) {
        let whole = loads(&text(&line, &results));
        for kept in 0..results.len() {
            let part = loads(&text(&line, &results[..kept]));
            prop_assert_eq!(&whole[..=kept], &part[..=kept]);
        }
    }

    /// The order in which sessions are written changes nothing.
    #[test]
    fn the_order_of_logs_changes_nothing((line, results) in case()) {
        let sessions = numbered(&results);
        let mut reversed = sessions.clone();
        reversed.reverse();
        let one = project(7, "", &line, &log(&sessions));
        let mut other = project(7, "", &line, "");
        // Each session in a block of its own, last first.
        for session in reversed {
            other.push_str(&log(&[session]));
            other.push('\n');
        }
        if results.is_empty() {
            return Ok(());
        }
        prop_assert_eq!(loads(&one), loads(&other));
    }

    /// Nor does the file a session's log stands in, nor the order in which files are used.
    #[test]
    fn the_order_of_files_changes_nothing(
        (line, results) in case(),
        order in Just((0..8_usize).collect::<Vec<_>>()).prop_shuffle(),
    ) {
        let one = text(&line, &results);
        let programme = one.find("programme ").unwrap();
        let athlete = one.find("athlete ").unwrap();
        let logs = one.find("\nlog ").unwrap_or(one.len());
        let mut files = vec![
            ("gym.sets".to_owned(), one[..athlete].to_owned()),
            ("athlete.sets".to_owned(), one[athlete..programme].to_owned()),
        ];
        for session in numbered(&results) {
            files.push((format!("week-{}.sets", session.0), log(&[session])));
        }
        let used = order.iter().filter_map(|at| files.get(*at));
        let uses: Vec<String> = used.map(|(name, _)| format!("use {name}\n")).collect();
        let uses = uses.concat();
        let root = format!("{uses}\n{}", &one[programme..logs]);
        prop_assert_eq!(loads(&one), loads_of_files(&root, &files));
    }

    /// What is projected is what a perfect log gives.
    #[test]
    fn projected_equals_a_perfect_log((line, _) in case()) {
        let perfect: Vec<String> = (0..7).map(|_| "done".to_owned()).collect();
        prop_assert_eq!(loads(&text(&line, &[])), loads(&text(&line, &perfect)));
    }

    /// A programme without rules does not look at logs.
    #[test]
    fn without_rules_logs_change_nothing((line, results) in case()) {
        let bare = line.lines().next().unwrap_or_default().to_owned() + "\n";
        prop_assert_eq!(loads(&text(&bare, &results)), loads(&text(&bare, &[])));
    }

    /// What is added and taken off again leaves the load exactly.
    #[test]
    fn adding_and_taking_off_returns(grams in 1_u32..20_000) {
        let mass = f64::from(grams) / 1000.0;
        let line = format!(
            "Back squat: 1 x 5 @ 100 kg, no warm-up\n     when last set >= 5 reps: load +{mass} kg\n     otherwise: load -{mass} kg\n"
        );
        let results = ["5".to_owned(), "4".to_owned()];
        let found = plan(&project(3, "", &line, &log(&numbered(&results))));
        let targets: Vec<_> =
            super::support::first_sets(&found).iter().map(|set| set.target.clone()).collect();
        prop_assert_eq!(&targets[0], &targets[2]);
    }

    /// Pounds for kilograms, exactly scaled, change no plan: every mass of a programme is written in
    /// units of 1 lb = 0.45359237 kg, here as a gym and loads all in pounds of the same number.
    #[test]
    fn the_unit_changes_no_plan((line, results) in case()) {
        let kilograms = text(&line, &results);
        let pounds = kilograms.replace(" kg", " lb");
        let in_pounds: Vec<String> = super::support::first_sets(&plan(&pounds))
            .iter()
            .map(|set| set.load.as_ref().map(|b| b.mass.in_unit(setwright::quantity::Unit::Lb).to_string()).unwrap_or_default())
            .collect();
        prop_assert_eq!(loads(&kilograms), in_pounds);
    }
}
