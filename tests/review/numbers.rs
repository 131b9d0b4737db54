//! Volume, hard sets, estimates and adherence, compared with numbers worked out by hand.

use serde_json::{Value, json};

use super::review;

/// A small project: one athlete, one day a week, and what stands in the rest.
fn project(gym: &str, athlete: &str, line: &str, rest: &str) -> Value {
    let text = format!(
        "gym Shed\n{gym}\n\nathlete Robin Vale\n  gym: Shed\n{athlete}\n\n\
         programme Small\n  weeks: 4\n  starts: 2026-01-05\n\nday One (Mon)\n{line}\n\n{rest}"
    );
    review(&text)["athletes"][0].clone()
}

fn log(sessions: &[&str]) -> String {
    let dates = ["2026-01-05", "2026-01-12", "2026-01-19", "2026-01-26"];
    let mut text = "log Robin Vale: Small\n".to_owned();
    for (week, (date, lines)) in (1..).zip(dates.iter().zip(sessions)) {
        match *lines {
            "-" => {}
            "skipped" => text.push_str(&format!("  {date} week {week}, One: skipped (away)\n")),
            lines => text.push_str(&format!("  {date} week {week}, One\n    {lines}\n")),
        }
    }
    text
}

/// Hard sets and volume load in kilograms.
fn amount(work: &Value) -> (Value, Value) {
    (work["hard_sets"].clone(), work["volume_load_kg"].clone())
}

const POUNDS: &str = "  bar: 45 lb\n  plates: 45 lb, 25 lb, 10 lb, 5 lb, 2.5 lb";
const KILOS: &str = "  bar: 20 kg\n  plates: 20 kg, 10 kg, 5 kg, 2.5 kg, 1.25 kg, 0.5 kg\n  \
                     dumbbells: 4-40 kg by 2 kg\n  has: dip bars, rings, parallel bars";

/// Haff & Triplett 2016, Essentials of Strength Training and Conditioning, 4th ed., ch. 17: two sets
/// of ten with 50 lb are a volume load of 1,000 lb.
#[test]
fn two_sets_of_ten_with_fifty_pounds_are_a_thousand() {
    let found = project(POUNDS, "", "  A Back squat: 2 x 10 @ 50 lb", &log(&["A: done"]));
    let week = &found["weeks"][0];
    // 1,000 lb = 453.59237 kg exactly.
    assert_eq!(amount(&week["planned"]), (json!(2), json!(453.592)));
    assert_eq!(week["done"], week["planned"]);
    assert_eq!(found["unit"], "lb");
}

/// The same chapter: a body of 80 kg with 40 kg on it, twelve times, is 1,440 kg.
#[test]
fn the_body_is_lifted_too_where_its_mass_is_known() {
    let exercise = "exercise Weighted dip\n  equipment: body mass\n  muscles: chest, triceps\n";
    let line = "  A Weighted dip: 1 x 12 @ bodyweight +40 kg";
    let rest = format!("{exercise}\n{}", log(&["A: done"]));
    let found = project(KILOS, "  body mass: 80 kg", line, &rest);
    assert_eq!(amount(&found["weeks"][0]["done"]), (json!(1), json!(1440)));
    let found = project(KILOS, "", line, &rest);
    let unknown = json!({ "hard_sets": 1, "volume_load_kg": 0, "sets_without_load": 1 });
    assert_eq!(found["weeks"][0]["done"], unknown);
}

/// The body mass of the day counts: logged on week 2, it holds from then on.
#[test]
fn body_mass_is_that_of_the_day() {
    let exercise = "exercise Weighted dip\n  equipment: body mass\n";
    let log = log(&["A: done", "A: done\n    body mass: 82 kg", "A: done"]);
    let line = "  A Weighted dip: 1 x 10 @ bodyweight";
    let rest = format!("{exercise}\n{log}");
    let found = project(KILOS, "  body mass: 80 kg", line, &rest);
    let volume = |week: usize| found["weeks"][week]["done"]["volume_load_kg"].clone();
    assert_eq!([volume(0), volume(1), volume(2)], [json!(800), json!(820), json!(820)]);
    assert_eq!(found["body_masses"][0]["body_mass_kg"], 82);
}

/// Both bells, both sides: 3 sets x 8 reps x 2 sides x 2 bells x 16 kg = 1,536 kg; done are
/// 8 + 8, 8 + 8 and 8 + 7 reps: 47 x 2 x 16 = 1,504 kg. The rules look at the weaker side.
#[test]
fn both_bells_and_both_sides_count() {
    let line = "  A Split squat: 3 x 8 each side @ 16 kg";
    let found = project(KILOS, "", line, &log(&["A: 8/8, 8/8, 8/7", "A: 8, 8, 7"]));
    let week = &found["weeks"][0];
    assert_eq!(amount(&week["planned"]), (json!(3), json!(1536)));
    assert_eq!(amount(&week["done"]), (json!(3), json!(1504)));
    assert_eq!(week["done"]["reps_with_load"], 47);
    // One number stands for both sides: 23 x 2 x 2 x 16 = 1,472 kg.
    assert_eq!(amount(&found["weeks"][1]["done"]), (json!(3), json!(1472)));
    let sets = &found["misses"][0]["sets"];
    assert_eq!((&sets[2]["reps"], &sets[2]["sides"]), (&json!(7), &json!([8, 7])));
    assert_eq!(sets[2]["made"], false);
}

/// A side that could not do a repetition leaves the set missed and the other side's work done:
/// 10 + 10 and 10 + 0 reps with one bell of 12 kg are 360 kg.
#[test]
fn a_side_that_made_nothing_takes_nothing_from_the_other() {
    let exercise = "exercise Bell row\n  equipment: dumbbell\n";
    let line = "  A Bell row: 2 x 10 each side @ 12 kg";
    let rest = format!("{exercise}\n{}", log(&["A: 10/10, 10/0"]));
    let found = project(KILOS, "", line, &rest);
    assert_eq!(amount(&found["weeks"][0]["done"]), (json!(2), json!(360)));
    assert_eq!(found["adherence"]["sets_made"], 1);
}

/// Only the set that is done on each side counts twice: 2 x 10 x 12 + 10 x 12 = 360 kg.
#[test]
fn sides_belong_to_the_set() {
    let exercise = "exercise Bell row\n  equipment: dumbbell\n";
    let line = "  A Bell row: 1 x 10 each side @ 12 kg, 1 x 10 @ 12 kg";
    let rest = format!("{exercise}\n{}", log(&["A: done"]));
    let found = project(KILOS, "", line, &rest);
    assert_eq!(amount(&found["weeks"][0]["planned"]), (json!(2), json!(360)));
    assert_eq!(amount(&found["weeks"][0]["done"]), (json!(2), json!(360)));
}

/// Pelland et al. 2024: a set counts for a muscle by its share, or whole, or not at all.
#[test]
fn hard_sets_are_counted_directly_indirectly_and_by_share() {
    let exercises = "exercise Press\n  equipment: barbell\n  muscles: chest, triceps 1/2\n\n\
                     exercise Push\n  equipment: barbell\n  muscles: triceps, chest 1/4\n\n";
    let lines = "  A Press: 3 x 5 @ 40 kg\n  B Push: 2 x 5 @ 40 kg";
    let rest = format!("{exercises}{}", log(&["A: 5, 5\n    B: done"]));
    let found = project(KILOS, "", lines, &rest);
    let muscles = &found["weeks"][0]["muscles"];
    let sets = |muscle: usize, which: &str| {
        let of = &muscles[muscle][which];
        [&of["direct_sets"], &of["indirect_sets"], &of["fractional_sets"]].map(Value::clone)
    };
    assert_eq!(muscles[0]["muscle"], "chest");
    assert_eq!(sets(0, "planned"), [json!(3), json!(2), json!(3.5)]);
    assert_eq!(sets(0, "done"), [json!(2), json!(2), json!(2.5)]);
    assert_eq!(sets(1, "done"), [json!(2), json!(2), json!(3)]);
}

/// Epley: 5 x 60 kg says 60 x (1 + 5/30) = 70 kg, then 66 kg 77, 72 kg 84: +7 kg a week. Twelve reps
/// say nothing (Reynolds et al. 2006: at most ten).
#[test]
fn the_best_set_of_at_most_ten_reps_is_estimated_and_the_trend_is_exact() {
    let line = "  A Back squat: 2 x 5 @ 60 kg";
    let sessions = ["A: 5, 12 @ 60 kg", "A: 5 @ 66 kg, 5 @ 60 kg", "A: 4 @ 66 kg, 5 @ 72 kg"];
    let found = project(KILOS, "", line, &log(&sessions));
    let lift = &found["lifts"][0];
    let points: Vec<f64> = lift["points"]
        .as_array()
        .unwrap()
        .iter()
        .map(|point| point["estimated_1rm_kg"].as_f64().unwrap())
        .collect();
    assert_eq!(points, [70.0, 77.0, 84.0]);
    assert_eq!(lift["trend"]["slope_kg_per_week"], 7);
    assert_eq!(lift["trend"]["last_kg"], 84);
}

/// By hand, for weeks 0, 1, 3 and estimates 70, 77, 70: n Σxy − Σx Σy = 3·287 − 4·217 = −7 and
/// n Σx² − (Σx)² = 30 − 16 = 14, so the slope is −0.5 kg a week.
#[test]
fn a_missing_week_is_a_longer_step() {
    let line = "  A Back squat: 1 x 5 @ 60 kg";
    let sessions = ["A: 5 @ 60 kg", "A: 5 @ 66 kg", "-", "A: 5 @ 60 kg"];
    let found = project(KILOS, "", line, &log(&sessions));
    assert_eq!(found["lifts"][0]["trend"]["slope_kg_per_week"], -0.5);
    let adherence = &found["adherence"];
    assert_eq!(adherence["sessions_planned"], 4);
    assert_eq!(adherence["sessions_done"], 3);
    assert_eq!(adherence["sessions_missing"], 1);
}

#[test]
fn sessions_and_sets_so_far_are_counted_and_the_future_is_not() {
    let line = "  A Back squat: 3 x 5 @ 60 kg";
    let found = project(KILOS, "", line, &log(&["A: 5, 5, 4", "skipped"]));
    let adherence = json!({
        "sessions_planned": 2, "sessions_done": 1, "sessions_skipped": 1, "sessions_missing": 0,
        "sets_planned": 6, "sets_made": 2, "sets_done": 3,
    });
    assert_eq!(found["adherence"], adherence);
    assert_eq!(found["weeks"][2]["sessions_to_come"], 1);
    assert_eq!(found["last_logged"]["week"], 2);
    let missed: Vec<&str> =
        found["misses"].as_array().unwrap().iter().map(|m| m["missed"].as_str().unwrap()).collect();
    assert_eq!(missed, ["sets", "session-skipped"]);
}
