//! The duration of a session, compared with published session lengths and rest arithmetic.

use setwright::compile::{Choice, compile};
use setwright::plan::Session;
use setwright::resolve::Project;
use setwright::source::MemoryLoader;
use setwright::tally::time::{REP, SessionTime};

/// The first session of a programme with these lines.
fn session(lines: &str) -> Session {
    let text = format!(
        "exercise Drill\n  kind: compound\n\nathlete Robin Vale\n\nprogramme Small\n  weeks: 1\n\nday One\n{lines}"
    );
    let project = Project::from_text(&MemoryLoader::new(), "small.sets", text);
    let plan = compile(project, &Choice::default()).unwrap().plan.unwrap();
    plan.athletes[0].sessions[0].clone()
}

/// Seven exercises of 8–12 repetitions, 90 s between sets.
fn seven(sets: u32) -> SessionTime {
    let line = |letter: char| format!("  {letter} Drill: {sets} x 8-12, rest 90 s\n");
    SessionTime::of(&session(&('A'..='G').map(line).collect::<String>()))
}

/// Schoenfeld et al. 2019, Med Sci Sports Exerc 51(1):94–103 [S2]: 7 exercises, 8–12 reps: 13 min
/// for 1 set, about 40 for 3, over 60 for 5 (68 min in the paper's abstract [M]). A simple model is
/// within a quarter.
#[test]
fn published_session_lengths_are_met_within_a_quarter() {
    for (sets, minutes) in [(1, 13), (3, 40), (5, 68)] {
        let seconds = i64::try_from(seven(sets).total()).unwrap();
        let off = (seconds - minutes * 60).abs();
        assert!(off * 4 <= minutes * 60, "{sets} sets: {} min", seven(sets).minutes());
    }
    assert!(seven(5).minutes() > 60);
}

/// Tufano et al. (PMC5548153) [S]: 36 repetitions with 420 s of rest each way, if no rest follows the
/// last set [C]: 3 sets of 12 in parts of 4 (30 s in the set, 120 s after it); 36 singles with 12 s.
#[test]
fn rest_within_and_between_sets_comes_to_the_same() {
    let work = 36 * u64::from(u8::try_from(REP).unwrap());
    let clusters = SessionTime::of(&session("  A Drill: 3 x 4+4+4 (30 s), rest 2:00\n"));
    assert_eq!(clusters.work - work + clusters.rest, 420);
    let singles = SessionTime::of(&session("  A Drill: 36 x 1, rest 12 s\n"));
    assert_eq!((singles.work, singles.rest), (work, 420));
}

/// ACSM position stand 2009 [C]: 1–2 s each way are 2–4 s a repetition.
#[test]
fn a_repetition_takes_two_to_four_seconds() {
    assert!((2..=4).contains(&REP));
    let tempo = SessionTime::of(&session("  A Drill: 1 x 5, tempo 2-0-2-0\n"));
    assert_eq!(tempo.work, 20);
}

/// Iversen et al. 2021, Sports Med 51:2079–2095 [S]: supersets, drop sets and rest-pause roughly
/// halve training time. Here the same six sets, tied together.
#[test]
fn a_superset_roughly_halves_the_time() {
    let apart =
        SessionTime::of(&session("  A Drill: 3 x 10, rest 90 s\n  B Drill: 3 x 10, rest 90 s\n"));
    let tied = SessionTime::of(&session("  A1 Drill: 3 x 10\n  A2 Drill: 3 x 10, rest 90 s\n"));
    assert!(tied.total() * 10 <= apart.total() * 7, "{} of {}", tied.total(), apart.total());
}
