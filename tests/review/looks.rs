//! Who needs attention first, what changes and why, and the review without logs. Values are worked
//! out by hand; the points of the score are the tool's own (`src/history/review/look.rs`), no
//! source.

use serde_json::{Value, json};

use super::review;

fn squad(logs: &str) -> Value {
    review(&format!(
        "gym Shed\n  bar: 20 kg\n  plates: 20 kg, 10 kg, 5 kg, 2.5 kg, 1.25 kg\n\n\
         athlete Ash Rowe\n  gym: Shed\n  max Back squat: 100 kg\n\n\
         athlete Bryn Locke\n  gym: Shed\n  max Back squat: 100 kg\n\n\
         programme Small\n  weeks: 4\n  starts: 2026-01-05\n\n\
         phase Light: week 4, load -10%\n\n\
         day One (Mon)\n  A Back squat: 3 x 5 @ 70% -> 75% -> 80%, RPE 8\n    \
         when any rep missed: load -5 kg\n\n{logs}"
    ))
}

fn order(review: &Value) -> Vec<(&str, Value)> {
    let all = review["look_first"].as_array().unwrap();
    all.iter().map(|look| (look["athlete"].as_str().unwrap(), look["score"].clone())).collect()
}

#[test]
fn nothing_logged_is_no_reason_unless_others_have() {
    let none = squad("");
    assert_eq!(order(&none), [("Ash Rowe", json!(0)), ("Bryn Locke", json!(0))]);
    assert_eq!(none["athletes"][0]["last_logged"], Value::Null);
    let one = squad("log Ash Rowe: Small\n  2026-01-05 week 1, One\n    A: done, RPE 8\n");
    assert_eq!(order(&one), [("Bryn Locke", json!(5)), ("Ash Rowe", json!(0))]);
}

/// Pain 3: 10 + 3. Two misses in a row: 4. RPE 9.5 where 8 was asked: 1.5.
#[test]
fn the_score_is_as_documented() {
    let found = squad(
        "log Bryn Locke: Small\n  2026-01-05 week 1, One\n    A: 5, 5, 4, RPE 9.5\n  \
         2026-01-12 week 2, One\n    A: 5, 5, 3, pain 3\n\
         log Ash Rowe: Small\n  2026-01-12 week 2, One\n    A: done\n",
    );
    assert_eq!(order(&found), [("Bryn Locke", json!(18.5)), ("Ash Rowe", json!(2))]);
    let concerns: Vec<&str> = found["look_first"][0]["concerns"]
        .as_array()
        .unwrap()
        .iter()
        .map(|concern| concern["concern"].as_str().unwrap())
        .collect();
    assert_eq!(concerns, ["pain", "misses-in-a-row", "effort-above"]);
}

/// 75 % of 100 kg is 75 kg; 80 % less the rule's 5 kg is 75 kg again: the reasons say both.
#[test]
fn a_change_names_the_rule_and_the_programme() {
    let found = squad(
        "log Ash Rowe: Small\n  2026-01-05 week 1, One\n    A: done\n  \
         2026-01-12 week 2, One\n    A: 5, 5, 4 @ 75 kg\n",
    );
    let change = &found["athletes"][0]["changes"][0];
    assert_eq!((&change["last"]["load_kg"], &change["next"]["load_kg"]), (&json!(75), &json!(75)));
    let reasons = &change["reasons"];
    assert_eq!(reasons[0]["rule"], "any rep missed: load -5 kg");
    assert_eq!(reasons[0]["session"], "week 2, One (2026-01-12)");
    assert_eq!(reasons[0]["projected"], false);
    assert_eq!(reasons[1]["because"], "programme");
    assert_eq!([&reasons[1]["from_percent"], &reasons[1]["to_percent"]], ["75", "80"]);
    assert_eq!(found["athletes"][0]["rules"].as_array().unwrap().len(), 1);
}

/// A lighter week says that it is the phase.
#[test]
fn a_change_names_the_phase() {
    let found = squad("log Ash Rowe: Small\n  2026-01-19 week 3, One\n    A: done\n");
    let change = &found["athletes"][0]["changes"][0];
    assert_eq!(
        (&change["last"]["load_kg"], &change["next"]["load_kg"]),
        (&json!(80), &json!(72.5))
    );
    assert_eq!(change["reasons"], json!([{ "because": "phase", "name": "Light", "before": null }]));
}

/// As rules do: the lighter week neither counts nor breaks a row. Week 4 is light: missed in weeks 3
/// and 4 is one miss, in weeks 2, 3 and 4 two.
#[test]
fn lighter_weeks_count_for_no_row_of_misses() {
    let miss = |week: u32| {
        format!("  2026-01-{:02} week {week}, One\n    A: 5, 5, 4\n", 5 + 7 * (week - 1))
    };
    let logs = |weeks: &[u32]| {
        let sessions: String = weeks.iter().map(|week| miss(*week)).collect();
        squad(&format!("log Ash Rowe: Small\n{sessions}"))
    };
    let rows = |found: &Value| {
        let looks = found["look_first"].as_array().unwrap();
        let ash = looks.iter().find(|look| look["athlete"] == "Ash Rowe").unwrap();
        let concerns = ash["concerns"].as_array().unwrap();
        let row = concerns.iter().find(|concern| concern["concern"] == "misses-in-a-row");
        row.map(|row| row["sessions"].clone())
    };
    assert_eq!(rows(&logs(&[3, 4])), None);
    assert_eq!(rows(&logs(&[2, 3, 4])), Some(json!(2)));
}
