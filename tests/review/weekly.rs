//! The weekly table: numbers worked out by hand, snapshots of text, JSON and CSV, and CSV compared
//! with JSON.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use setwright::compile::{Choice, compile};
use setwright::diagnostics::has_errors;
use setwright::resolve::Project;
use setwright::source::MemoryLoader;

use super::command::settings;
use super::support::{Bench, example};

/// The first athlete's weeks of a small project; `athlete` and `days` are lines of their own.
fn weeks(athlete: &str, days: &str) -> Vec<Value> {
    let text = format!(
        "gym Shed\n  bar: 20 kg\n  plates: 20 kg, 10 kg, 5 kg, 2.5 kg, 1.25 kg, 0.5 kg\n  \
         dumbbells: 4-40 kg by 2 kg\n  bands: Green\n\n\
         exercise Board press\n  equipment: barbell\n  pattern: horizontal push\n  \
         muscles: chest, triceps 1/2\n\n\
         exercise Deep dip\n  equipment: body mass\n  pattern: vertical push\n  \
         muscles: triceps, chest 1/2\n\n\
         athlete Robin Vale\n  gym: Shed\n{athlete}\n\n\
         programme Small\n  weeks: 2\n  starts: 2026-01-05\n\n{days}\n"
    );
    let project = Project::from_text(&MemoryLoader::new(), "test.sets", text);
    let compiled = compile(project, &Choice::default()).unwrap();
    assert!(!has_errors(&compiled.diagnostics), "{:#?}", compiled.diagnostics);
    let weekly = setwright::tally::weekly(&compiled.plan.unwrap());
    let value = serde_json::to_value(weekly).unwrap();
    value["athletes"][0]["weeks"].as_array().unwrap().clone()
}

fn named<'v>(list: &'v Value, key: &str, name: &str) -> &'v Value {
    list.as_array().unwrap().iter().find(|item| item[key] == name).unwrap()
}

/// Haff & Triplett 2016, ch. 17: average load is volume load divided by repetitions [S].
/// By hand: 1 x 3 x 90 kg + 2 x 6 x 75 kg = 270 + 900 = 1,170 kg in 15 reps: 78 kg. Of a 1RM of 100
/// kg: by sets (90 + 75 + 75) / 3 = 80 %, by reps (3 x 90 + 12 x 75) / 15 = 78 %.
#[test]
fn average_load_and_both_means_of_intensity() {
    let day = "day One (Mon)\n  A Back squat: 1 x 3 @ 90%, 2 x 6 @ 75%";
    let found = weeks("  max Back squat: 100 kg", day);
    let total = json!({
        "hard_sets": 3, "volume_load_kg": 1170, "reps_with_load": 15, "average_load_kg": 78,
        "sets_with_1rm": 3, "mean_percent_1rm": 80, "percent_1rm_by_reps": 78,
    });
    assert_eq!(found[0]["total"], total);
    assert_eq!(found[0]["sessions"][0]["mean_percent_1rm"], 80);
    assert_eq!(found[0]["week_starts"], "2026-01-05");
    let lift = named(&found[0]["lifts"], "lift", "Back squat");
    assert_eq!(lift["main"], true);
    assert_eq!([&lift["top_set_load_kg"], &lift["top_set_reps_min"]], [&json!(90), &json!(3)]);
    assert_eq!(lift["top_set_percent_1rm"], 90);
}

/// A training max of 90 % makes 80 % of it 72 % of the 1RM; 55 kg of a 1RM of 110 kg is 50 %, though
/// no percentage is written; of a lift without a max nothing is known.
#[test]
fn intensity_is_of_the_lifts_own_1rm() {
    let days = "day One (Mon)\n  A Back squat: 2 x 5 @ 80%\n  B Bench press: 2 x 5 @ 55 kg\n  \
                C Board press: 2 x 5 @ 40 kg";
    let maxes = "  training max: 90%\n  max Back squat: 100 kg\n  max Bench press: 110 kg";
    let found = weeks(maxes, days);
    let lifts = &found[0]["lifts"];
    assert_eq!(named(lifts, "lift", "Back squat")["mean_percent_1rm"], 72);
    let bench = named(lifts, "lift", "Bench press");
    assert_eq!((&bench["mean_percent_1rm"], &bench["main"]), (&json!(50), &json!(false)));
    assert_eq!(named(lifts, "lift", "Board press").get("mean_percent_1rm"), None);
    // (72 + 72 + 50 + 50) / 4 = 61, of the four sets of six whose 1RM is known.
    assert_eq!(found[0]["total"]["mean_percent_1rm"], 61);
    assert_eq!(found[0]["total"]["sets_with_1rm"], 4);
}

/// Pelland et al. 2024. By hand: 2 x 5 x 40 kg = 400 kg for the chest directly and half of it for the
/// triceps; 1 x 8 x (80 + 20) kg = 800 kg the other way round.
#[test]
fn muscles_have_sets_and_volume_directly_indirectly_and_by_share() {
    let days = "day One (Mon)\n  A Board press: 2 x 5 @ 40 kg\n\n\
                day Two (Thu)\n  A Deep dip: 1 x 8 @ bodyweight +20 kg";
    let found = weeks("  body mass: 80 kg", days);
    let chest = json!({
        "muscle": "chest", "direct_sets": 2, "indirect_sets": 1, "fractional_sets": 2.5,
        "direct_volume_load_kg": 400, "indirect_volume_load_kg": 800,
        "fractional_volume_load_kg": 800,
    });
    let triceps = json!({
        "muscle": "triceps", "direct_sets": 1, "indirect_sets": 2, "fractional_sets": 2,
        "direct_volume_load_kg": 800, "indirect_volume_load_kg": 400,
        "fractional_volume_load_kg": 1000,
    });
    assert_eq!(found[0]["muscles"], json!([chest, triceps]));
    let pattern = |name: &str| named(&found[0]["patterns"], "pattern", name)["hard_sets"].clone();
    assert_eq!((pattern("horizontal push"), pattern("vertical push")), (json!(2), json!(1)));
    let dip = named(&found[0]["lifts"], "lift", "Deep dip");
    assert_eq!((&dip["top_set_load_kg"], &dip["average_load_kg"]), (&json!(20), &json!(100)));
    assert_eq!(dip["top_set_with_body_mass"], true);
}

/// Sets by time and sets whose load is left to the day are hard sets and no more; drops and warm-ups
/// are nothing.
#[test]
fn what_has_no_load_counts_as_sets() {
    let days = "day One (Mon)\n  A Plank: 2 x 30 s\n  B Board press: 3 x 8\n  \
                C Back squat: 1 x 5 @ 60 kg, drop -20% x 1\n    \
                warm-up: bar x 8, 60% x 3";
    let found = weeks("", days);
    let total = &found[0]["total"];
    assert_eq!(total["hard_sets"], 6);
    assert_eq!(total["sets_without_load"], 3);
    assert_eq!((&total["volume_load_kg"], &total["average_load_kg"]), (&json!(300), &json!(60)));
    assert_eq!(total.get("mean_percent_1rm"), None);
}

/// The heaviest set is the top set, of equal ones that with more repetitions, from whichever day.
#[test]
fn the_top_set_is_the_heaviest_of_the_week() {
    let days = "day One (Mon)\n  A Back squat: 3 x 5 @ 60 kg\n\n\
                day Two (Thu)\n  A Back squat: 1 x 3 @ 70 kg, 1 x 4 @ 70 kg, 1 x 8 @ 50 kg";
    let found = weeks("", days);
    let lift = named(&found[0]["lifts"], "lift", "Back squat");
    assert_eq!((&lift["top_set_day"], &lift["top_set_reps"]), (&json!("Two"), &json!("4")));
    assert_eq!(lift["top_set_load_kg"], 70);
}

fn ran(arguments: &[&str]) -> String {
    let mut all = vec!["summary", "--weekly"];
    all.extend(arguments);
    let ran = Bench::new().run(&all);
    assert_eq!(ran.code, 0, "{}", ran.err);
    ran.out
}

#[test]
fn the_text_fits_a_hundred_columns() {
    for file in ["rowing-club/winter.sets", "first-steps/programme.sets"] {
        for line in ran(&[&example(file)]).lines() {
            assert!(line.chars().count() <= 100, "{line}");
            assert_eq!(line, line.trim_end());
        }
    }
    let text = ran(&[&example("rowing-club/winter.sets"), "--athlete", "Wren Tallow"]);
    settings().bind(|| insta::assert_snapshot!("weekly-text", text));
}

/// Twenty-four weeks do not fit: they follow below, with their own head.
#[test]
fn weeks_that_do_not_fit_follow_below() {
    let text = "gym Shed\n  bar: 20 kg\n  plates: 20 kg, 10 kg, 5 kg, 2.5 kg, 1.25 kg\n\n\
                athlete Robin Vale\n  gym: Shed\n  max Back squat: 200 kg\n\n\
                programme Long\n  weeks: 24\n\n\
                day One\n  A Back squat: 5 x 5 @ 50% +1%/week\n";
    let bench = Bench::with(text);
    let ran = bench.run(&["summary", "programme.sets", "--weekly"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.out.lines().all(|line| line.chars().count() <= 100), "{}", ran.out);
    let heads: Vec<&str> = ran.out.lines().filter(|line| line.starts_with("Week ")).collect();
    assert!(heads.iter().any(|head| head.ends_with(" 24")), "{heads:?}");
    // The parts are of one length: eight weeks each.
    let first: Vec<usize> =
        heads.iter().take(3).map(|head| head.split_whitespace().count() - 1).collect();
    assert_eq!(first, [8, 8, 8]);
}

#[test]
fn one_week_as_json_and_as_csv() {
    let file = example("first-steps/programme.sets");
    let json = ran(&[&file, "--weeks", "1", "--format", "json"]);
    let csv = ran(&[&file, "--weeks", "1", "--format", "csv"]);
    settings().bind(|| {
        insta::assert_snapshot!("weekly-json", json);
        insta::assert_snapshot!("weekly-csv", csv);
    });
}

type Key = (String, u64, String, String, String);

/// Every number of the JSON, by athlete, week, kind, name and measure.
fn numbers(json: &Value) -> BTreeMap<Key, String> {
    let mut all = BTreeMap::new();
    for athlete in json["athletes"].as_array().unwrap() {
        let person = athlete["name"].as_str().unwrap();
        for week in athlete["weeks"].as_array().unwrap() {
            let mut add = |of: &str, name: &str, fields: &Value| {
                for (measure, value) in fields.as_object().unwrap() {
                    let Some(number) = value.as_number() else { continue };
                    let key = (
                        person.to_owned(),
                        week["week"].as_u64().unwrap(),
                        of.to_owned(),
                        name.to_owned(),
                        measure.clone(),
                    );
                    assert_eq!(all.insert(key, number.to_string()), None);
                }
            };
            add("week", "", &week["total"]);
            add("week", "", &json!({ "minutes": week["minutes"] }));
            for (of, list, key) in [
                ("session", "sessions", "day"),
                ("lift", "lifts", "lift"),
                ("muscle", "muscles", "muscle"),
                ("pattern", "patterns", "pattern"),
            ] {
                for item in week[list].as_array().unwrap() {
                    add(of, item[key].as_str().unwrap(), item);
                }
            }
        }
    }
    all
}

#[test]
fn the_csv_says_what_the_json_says() {
    let file = example("rowing-club/winter.sets");
    let json: Value = serde_json::from_str(&ran(&[&file, "--format", "json"])).unwrap();
    let text = ran(&[&file, "--format", "csv"]);
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let mut read = BTreeMap::new();
    for row in reader.records() {
        let row = row.unwrap();
        let key = (
            row[0].to_owned(),
            row[1].parse().unwrap(),
            row[4].to_owned(),
            row[5].to_owned(),
            row[6].to_owned(),
        );
        assert_eq!(read.insert(key, row[7].to_owned()), None);
    }
    let said = numbers(&json);
    assert!(said.len() > 1000, "{}", said.len());
    assert_eq!(read, said);
}

/// A name with a comma, a quote and an accent comes back whole.
#[test]
fn names_are_quoted_where_csv_asks_for_it() {
    let text = "gym Shed\n  bar: 20 kg\n  plates: 20 kg, 10 kg\n\n\
                athlete Zoë \"Zo\" Vale, junior\n  gym: Shed\n\n\
                programme Small\n  weeks: 1\n\nday One\n  A Back squat: 1 x 5 @ 40 kg\n";
    let bench = Bench::with(text);
    let ran = bench.run(&["summary", "programme.sets", "--weekly", "--format", "csv"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let mut reader = csv::Reader::from_reader(ran.out.as_bytes());
    let first = reader.records().next().unwrap().unwrap();
    assert_eq!(&first[0], "Zoë \"Zo\" Vale, junior");
}

#[test]
fn options_agree_with_the_other_commands() {
    let bench = Bench::new();
    let file = example("rowing-club/winter.sets");
    let code = |arguments: &[&str]| {
        let mut all = vec!["summary", file.as_str()];
        all.extend(arguments);
        bench.run(&all).code
    };
    assert_eq!(code(&["--format", "csv"]), 2);
    assert_eq!(code(&["--weekly", "--athlete", "Nobody"]), 2);
    assert_eq!(code(&["--weekly", "--format", "csv", "--weeks", "2-3", "-o", "weeks.csv"]), 0);
    let written = std::fs::read_to_string(bench.path("weeks.csv")).unwrap();
    let weeks: std::collections::BTreeSet<&str> =
        written.lines().skip(1).filter_map(|line| line.split(',').nth(1)).collect();
    assert_eq!(weeks.into_iter().collect::<Vec<_>>(), ["2", "3"]);
}

/// Where the gym stops short of a target, the intensity is that of what it can build: 40 kg dumbbells
/// for 60 kg of a 1RM of 80 kg are 50 %, not 75 %.
#[test]
fn intensity_is_of_what_the_gym_can_build() {
    let day = "day One (Mon)\n  A Goblet squat: 3 x 5 @ 75%";
    let found = weeks("  max Goblet squat: 80 kg", day);
    assert_eq!(found[0]["total"]["mean_percent_1rm"], 50);
    assert_eq!(named(&found[0]["lifts"], "lift", "Goblet squat")["top_set_percent_1rm"], 50);
}
