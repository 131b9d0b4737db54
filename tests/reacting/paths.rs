//! Results of the best and the worst path. Values are computed by hand: the gym of `support` ends
//! at 20 + 2 x (80 + 10 + 5 + 2.5 + 1.25) = 217.5 kg, in steps of 2.5.

use setwright::compile::{check, evaluate_all};
use setwright::diagnostics::Code;
use setwright::evaluate::CancelToken;
use setwright::resolve::{Project, resolve};
use setwright::source::MemoryLoader;

use super::support::project;

fn read(text: &str) -> Project {
    Project::from_text(&MemoryLoader::new(), "small.sets", text.to_owned())
}

/// What is said of the paths of a line.
fn said(weeks: u32, line: &str) -> Vec<String> {
    let found = check(read(&project(weeks, "", line, ""))).diagnostics.into_iter();
    let codes = [Code::PathLeavesEquipment, Code::PathPastMax];
    found.filter(|found| codes.contains(&found.code)).map(|found| found.message).collect()
}

#[test]
fn past_what_the_gym_can_load_in_either_direction() {
    let open =
        "Back squat: 1 x 5+ @ 200 kg, no warm-up\n     when last set >= 8 reps: load +30 kg\n";
    let best = "if Robin Vale makes every rep, Back squat reaches 230 kg in week 2, which the gym \
                cannot load: the nearest load is 217.5 kg";
    assert_eq!(said(3, open), [best]);
    // 217.5 and a step are as near as can be told.
    assert!(said(2, &open.replace("+30", "+20")).is_empty());
    let light = "Back squat: 1 x 5 @ 25 kg, no warm-up\n     when any rep missed: load -10 kg\n";
    let worst = "if every rule goes against Robin Vale, Back squat reaches 15 kg in week 2, which \
                 the gym cannot load: the nearest load is 20 kg";
    assert_eq!(said(3, light), [worst]);
}

#[test]
fn past_the_tested_max() {
    let line = "Back squat: 3 x 5+ @ 80%, no warm-up\n     when last set >= 8 reps: load +5 kg\n";
    // 105 kg in the sixth week is not past 105 % of 100 kg; 110 in the seventh is.
    assert!(said(6, line).is_empty());
    let past = "if Robin Vale makes every rep, Back squat passes 105 % of the tested max (100 kg) in \
                week 7";
    assert_eq!(said(8, line), [past]);
    // What is added to the body is not held against a max of the whole.
    let body = "Pull-up: 3 x 5 @ 80%\n     when all reps made: load +40 kg\n";
    assert!(said(2, body).is_empty());
}

#[test]
fn rules_of_one_athlete_have_paths_too() {
    let line = "Back squat: 3 x 5 @ 80%, no warm-up\n     for Robin Vale: 3 x 5+ @ 80%\n       when last set >= 8 reps: load +30 kg\n";
    assert_eq!(said(2, line).len(), 1, "{:?}", said(2, line));
}

#[test]
fn what_nobody_waits_for_ends_without_a_result() {
    let line = "Back squat: 3 x 5 @ 80%\n     when all reps made: load +5 kg\n";
    let resolved = resolve(read(&project(4, "", line, "")));
    let stop = CancelToken::default();
    assert!(evaluate_all(&resolved, &[], &stop).is_some());
    stop.ask();
    assert!(evaluate_all(&resolved, &[], &stop).is_none());
}
