//! One lint for each case: `NAME.sets` gets the advice, and its near twin `NAME-quiet.sets` does
//! not.

use setwright::advice::LINTS;

use super::support::{advice, folder, shown, snapshot};

fn text(name: &str) -> String {
    let path = folder().join(format!("{name}.sets"));
    std::fs::read_to_string(&path).unwrap_or_else(|_| panic!("no case {}", path.display()))
}

fn case(name: &str) {
    let (loud, quiet) = (text(name), text(&format!("{name}-quiet")));
    assert!(advice(&loud).contains(&name), "{}", shown(&loud));
    assert!(advice(&quiet).is_empty(), "the near twin is quiet\n{}", shown(&quiet));
    snapshot(name, &shown(&loud));
    snapshot(&format!("{name}-quiet"), &shown(&quiet));
}

macro_rules! cases {
    ($($test:ident = $name:literal,)*) => {
        const NAMES: &[&str] = &[$($name,)*];
        $(#[test] fn $test() { case($name); })*
    };
}

cases! {
    reps_past_percent = "reps-past-percent",
    needs_spotter = "needs-spotter",
    avoided_muscle = "avoided-muscle",
    late_compound = "late-compound",
    spine_superset = "spine-superset",
    no_warm_up = "no-warm-up",
    grip_superset = "grip-superset",
    plate_changes = "plate-changes",
    over_time = "over-time",
    load_off_target = "load-off-target",
    short_rest = "short-rest",
    zone_volume = "zone-volume",
    same_weekday = "same-weekday",
    unilateral_legs = "unilateral-legs",
    push_pull_balance = "push-pull-balance",
    knee_hip_balance = "knee-hip-balance",
    few_weekly_sets = "few-weekly-sets",
    many_weekly_sets = "many-weekly-sets",
    lost_variety = "lost-variety",
    double_jump = "double-jump",
    load_jump = "load-jump",
    volume_jump = "volume-jump",
    no_deload = "no-deload",
    untried_intensity = "untried-intensity",
}

/// What one lint says of several things, and what it leaves to another: the file, and all that is
/// said of it. Its near twin is quiet.
#[test]
fn each_side_of_a_lint_has_its_near_twin() {
    let cases: &[(&str, &[&str])] = &[
        ("past-max", &["reps-past-percent"]),
        ("past-max-sets", &["reps-past-percent"]),
        ("late-helper", &["late-compound"]),
        ("tied-once", &["spine-superset"]),
        ("load-off-pairs", &["load-off-target"]),
    ];
    for (name, said) in cases {
        let (loud, quiet) = (text(name), text(&format!("{name}-quiet")));
        assert_eq!(advice(&loud), *said, "{name}\n{}", shown(&loud));
        assert!(advice(&quiet).is_empty(), "{name}: the near twin\n{}", shown(&quiet));
        snapshot(name, &shown(&loud));
    }
}

#[test]
fn every_lint_has_its_case() {
    let of_registry: Vec<&str> = LINTS.iter().map(|lint| lint.code.name()).collect();
    assert_eq!(NAMES, of_registry);
}

/// Isolation first, nothing on one side, twelve repetitions at 90 %, a heavy squat last: what is
/// said, and in which order.
#[test]
fn a_bad_session_gets_what_a_senior_coach_would_say() {
    let bad = text("bad-session");
    assert_eq!(
        advice(&bad),
        [
            "reps-past-percent",
            "needs-spotter",
            "needs-spotter",
            "late-compound",
            "no-warm-up",
            "short-rest",
            "short-rest",
            "zone-volume",
            "unilateral-legs"
        ]
    );
    snapshot("bad-session", &shown(&bad));
}

/// Heavy first, one leg at a time, accessories last: nothing to say.
#[test]
fn a_sensible_session_gets_none() {
    let good = text("good-session");
    assert!(advice(&good).is_empty(), "{}", shown(&good));
    snapshot("good-session", &shown(&good));
}

/// Programmes as they are written every day, of different schools.
#[test]
fn sensible_programmes_get_none() {
    for name in ["good-upper-lower", "good-waves", "warm-up-ramp-quiet"] {
        let good = text(name);
        assert!(advice(&good).is_empty(), "{}", shown(&good));
    }
}
