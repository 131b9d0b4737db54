//! Compiling: correct programmes have no errors, changes without meaning give the same plan, and
//! targets are exact.

use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;
use serde_json::Value;
use setwright::diagnostics::has_errors;
use setwright::export::json;
use setwright::plan::{Plan, PlannedSet, StepKind};
use setwright::quantity::{Exact, Unit};
use setwright::sheets::summary;

use super::generate::Made;
use super::support::{cases, compiled, findings, streams};

fn plan_of(text: &str) -> Result<Plan, TestCaseError> {
    let compiled = compiled(text);
    if has_errors(&compiled.diagnostics) {
        return Err(TestCaseError::fail(format!("{text}\n{}", findings(&compiled))));
    }
    compiled.plan.ok_or_else(|| TestCaseError::fail(format!("no plan:\n{text}")))
}

/// Takes the lines of the source out: where a number was written is no part of what is planned.
fn without_places(value: &mut Value) {
    match value {
        Value::Object(fields) => {
            fields.remove("location");
            fields.remove("line");
            fields.values_mut().for_each(without_places);
        }
        Value::Array(items) => items.iter_mut().for_each(without_places),
        _ => {}
    }
}

fn by_athlete(plan: &Plan) -> BTreeMap<String, Value> {
    let athletes = plan.athletes.iter().map(|athlete| {
        let mut value = serde_json::to_value(athlete).unwrap();
        without_places(&mut value);
        (athlete.name.clone(), value)
    });
    athletes.collect()
}

/// The fields of the plan's JSON, as `plan.rs` documents them.
const ALWAYS: [(&str, &[&str]); 5] = [
    ("plan", &["programme", "language", "weeks", "athletes", "location"]),
    ("athlete", &["name", "language", "gym", "unit", "sessions"]),
    ("session", &["week", "day", "date", "phase", "status", "groups", "exercises", "location"]),
    ("exercise", &["order", "name", "each_side", "sets", "location"]),
    (
        "set",
        &[
            "kind",
            "reps_min",
            "reps_max",
            "open_ended",
            "target_kg",
            "load_kg",
            "about",
            "plates_per_side_kg",
            "rest_s",
            "derivation",
        ],
    ),
];
const SOMETIMES: [(&str, &[&str]); 5] = [
    ("plan", &["goal", "supervision", "notes", "estimate", "advice", "exercise_names"]),
    (
        "athlete",
        &["also_unit", "body_mass_kg", "rack", "level", "avoid", "gym_bars", "gym_has", "extras"],
    ),
    (
        "session",
        &[
            "deload",
            "week_starts",
            "before",
            "after",
            "notes",
            "limits",
            "time_s",
            "done_on",
            "skipped_on",
            "reason",
            "repeats_week",
            "log_notes",
        ],
    ),
    (
        "exercise",
        &[
            "replaces",
            "setup",
            "settings",
            "cues",
            "notes",
            "safety",
            "programme_safety",
            "over_max",
            "demo",
            "rules",
            "projected",
            "outcome",
            "fired",
            "muscles",
            "pattern",
            "also_patterns",
            "compound",
            "equipment",
            "needs",
        ],
    ),
    (
        "set",
        &[
            "share_of_1rm",
            "amrap",
            "cluster_reps",
            "cluster_pause_s",
            "work_min_s",
            "work_max_s",
            "distance_min_m",
            "distance_max_m",
            "rest_between_sides_s",
            "bodyweight",
            "to_choose",
            "implement",
            "bar_kg",
            "collars_kg",
            "bar",
            "stack",
            "band",
            "added_pieces_kg",
            "rpe",
            "rir",
            "tempo",
            "range",
            "every_s",
            "rest_pause_s",
        ],
    ),
];

fn assert_fields(kind: &str, value: &Value) {
    let of = |table: &[(&str, &'static [&'static str])]| {
        table.iter().find(|(name, _)| *name == kind).unwrap().1
    };
    let fields: BTreeSet<&str> = value.as_object().unwrap().keys().map(String::as_str).collect();
    for field in of(&ALWAYS) {
        assert!(fields.contains(field), "a {kind} has no `{field}`: {value}");
    }
    for field in &fields {
        let known = of(&ALWAYS).contains(field) || of(&SOMETIMES).contains(field);
        assert!(known, "a {kind} has `{field}`, which is documented nowhere");
    }
}

fn each<'v>(value: &'v Value, field: &str) -> &'v [Value] {
    value[field].as_array().unwrap()
}

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn what_is_right_compiles_twice_to_the_same_json(stream in streams()) {
        let text = Made::new(&stream).text();
        let (one, two) = (plan_of(&text)?, plan_of(&text)?);
        prop_assert_eq!(&one, &two);
        let (one, two) = (json(&one).unwrap(), json(&two).unwrap());
        prop_assert_eq!(&one, &two);
        let plan: Value = serde_json::from_str(&one).unwrap();
        assert_fields("plan", &plan);
        for athlete in each(&plan, "athletes") {
            assert_fields("athlete", athlete);
            for session in each(athlete, "sessions") {
                assert_fields("session", session);
                for exercise in each(session, "exercises") {
                    assert_fields("exercise", exercise);
                    for set in each(exercise, "sets") {
                        assert_fields("set", set);
                    }
                }
            }
        }
    }

    #[test]
    fn the_summary_keeps_its_width(stream in streams()) {
        let text = summary(&plan_of(&Made::new(&stream).text())?);
        for line in text.lines() {
            prop_assert!(line.chars().count() <= 80, "{}", line);
            prop_assert_eq!(line, line.trim_end());
        }
    }

    #[test]
    fn the_order_of_blocks_changes_no_plan(stream in streams(), order in streams()) {
        let made = Made::new(&stream);
        let shuffled = made.shuffled(&order);
        let (one, two) = (plan_of(&made.text())?, plan_of(&shuffled)?);
        prop_assert_eq!(by_athlete(&one), by_athlete(&two), "{}\nshuffled:\n{}", made.text(), shuffled);
    }

    /// A pound is no kilogram to three decimals (45,359,237 and 100,000,000 share no factor), so a
    /// programme cannot be written in the other unit; but one in which each `kg` is made `lb`
    /// is the same programme on a smaller scale, to the last digit.
    #[test]
    fn targets_scale_exactly_with_the_unit(stream in streams()) {
        let text = Made::new(&stream).text().replace(" lb", " kg");
        let smaller = text.replace(" kg", " lb");
        let (one, two) = (plan_of(&text)?, plan_of(&smaller)?);
        let ratio = Exact::ratio(Unit::Lb.in_units(), Unit::Kg.in_units());
        let sets = |plan: &Plan| -> Vec<(Option<Exact>, bool)> {
            let sessions = plan.athletes.iter().flat_map(|athlete| &athlete.sessions);
            let sets = sessions.flat_map(|s| &s.exercises).flat_map(|e| &e.sets);
            let work = sets.filter(|set| set.kind != setwright::plan::SetKind::WarmUp);
            work.map(|set| (set.target.clone(), has_fixed_step(set))).collect()
        };
        for ((one, fixed), (two, also_fixed)) in sets(&one).into_iter().zip(sets(&two)) {
            if !fixed && !also_fixed {
                prop_assert_eq!(one.map(|t| &t * &ratio), two, "{}", text);
            }
        }
    }
}

/// Whether a step of the derivation has a size of its own: assistance below 2.5 kg is none.
fn has_fixed_step(set: &PlannedSet) -> bool {
    set.derivation.iter().any(|step| matches!(step.kind, StepKind::LittleAssistance))
}

proptest! {
    #![proptest_config(cases(48))]

    /// Advice on whatever can be written: no panic, the same twice, and the plan it was given is the
    /// plan it leaves.
    #[test]
    fn advice_is_the_same_twice_and_changes_nothing(stream in streams()) {
        use setwright::advice::{Settings, review_plan};
        let plan = plan_of(&Made::new(&stream).text())?;
        let before = json(&plan).unwrap();
        let (settings, wrong) = Settings::of(&plan, &[]);
        prop_assert_eq!(wrong, []);
        let once = review_plan(&plan, &settings);
        prop_assert_eq!(&once, &review_plan(&plan, &settings));
        prop_assert_eq!(before, json(&plan).unwrap());
        for advice in &once {
            prop_assert!(!advice.message.is_empty() && !advice.help.is_empty());
        }
    }
}
