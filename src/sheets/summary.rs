//! The summary: the whole plan as text of at most 80 columns, for terminals, e-mail and diffs.

pub(super) mod done;
pub(super) mod lines;

use crate::plan::{AthletePlan, Plan, PlannedExercise, PlannedSet, Session, SetKind};
use crate::quantity::{Duration, Exact};

use super::card::{how, rest_told};
use super::labels::{Labels, fill};
use super::runs::{Run, warm_up_runs, work_runs};
use super::wording::{PLAIN, Wording};
use lines::{FIXED, WIDTH, WrappedText};

/// Column where exercise names start.
const NAME: usize = 4;
/// Column where sets start.
const SETS: usize = 27;

/// Writes the plan as text. Widths are counted in characters; no line is longer than 80.
#[must_use]
pub fn summary(plan: &Plan) -> String {
    [summary_head(plan), summary_athletes(plan), summary_end(plan)].concat()
}

/// The part of the summary before the first athlete.
#[must_use]
pub fn summary_head(plan: &Plan) -> String {
    let labels = Labels::of(&plan.language);
    let mut out = WrappedText::default();
    let weeks = labels.count(&labels.weeks, plan.weeks);
    out.heading(&format!("{} ({weeks})", plan.programme), '=');
    if let Some(text) = labels.show_assumed(plan) {
        out.wrapped(0, 2, &text.to_uppercase());
    }
    for (label, text) in [(labels.goal, &plan.goal), (labels.supervision, &plan.supervision)] {
        if let Some(text) = text {
            out.wrapped(0, 2, &labels.labelled(label, text));
        }
    }
    for note in &plan.notes {
        out.wrapped(0, 2, &labels.labelled(labels.note, note));
    }
    out.text
}

/// The parts of the summary about each athlete.
#[must_use]
pub fn summary_athletes(plan: &Plan) -> String {
    let plan = &*plan.named_for_athletes();
    let mut out = WrappedText::default();
    for athlete in &plan.athletes {
        out.blank();
        write_athlete(&mut out, plan, athlete);
    }
    out.text
}

/// The part of the summary after the last athlete.
#[must_use]
pub fn summary_end(plan: &Plan) -> String {
    let labels = Labels::of(&plan.language);
    let mut out = WrappedText::default();
    out.blank();
    out.wrapped(0, 0, &format!("{} {}", labels.cautions_head, labels.cautions));
    out.text
}

/// One session as the summary prints it, in the athlete's language. It adds what a session needs
/// when it is sent on its own: the athlete's name, the unit, assumptions and the disclaimers.
/// Exercises keep their names from the plan.
#[must_use]
pub fn session_summary(plan: &Plan, athlete: &AthletePlan, session: &Session) -> String {
    let words = Wording::new(&athlete.language, athlete, PLAIN);
    let labels = words.labels;
    let mut out = WrappedText::default();
    if let Some(text) = labels.show_assumed(plan) {
        out.wrapped(0, 2, &text.to_uppercase());
    }
    write_session(&mut out, plan, session, &words);
    out.blank();
    out.wrapped(0, 0, &fill(labels.loads_in, &[words.unit.symbol()]));
    out.wrapped(0, 0, &format!("{} {}", labels.cautions_head, labels.cautions));
    out.text
}

fn write_athlete(out: &mut WrappedText, plan: &Plan, athlete: &AthletePlan) {
    let words = Wording::new(&athlete.language, athlete, PLAIN);
    let labels = words.labels;
    let facts: Vec<String> = [
        Some(athlete.name.clone()),
        athlete.gym.clone(),
        athlete.rack.as_ref().map(|rack| fill(labels.rack, &[rack])),
        athlete.body_mass.map(|mass| {
            format!("{} {}", labels.weigh_in, words.signed(&Exact::from_mass(mass), words.unit))
        }),
        Some(fill(labels.loads_in, &[words.unit.symbol()])),
    ]
    .into_iter()
    .flatten()
    .collect();
    out.heading(&facts.join(" · "), '=');
    for session in &athlete.sessions {
        out.blank();
        write_session(out, plan, session, &words);
    }
    let mut extras = done::extras(athlete, labels).peekable();
    if extras.peek().is_some() {
        out.blank();
    }
    for extra in extras {
        out.wrapped(0, NAME, &extra);
    }
}

fn write_session(out: &mut WrappedText, plan: &Plan, session: &Session, words: &Wording) {
    let labels = words.labels;
    let facts: Vec<String> = [
        Some(fill(labels.week_of, &[&session.week.to_string(), &plan.weeks.to_string()])),
        Some(session.day.clone()),
        session.repeats_week.map(|week| fill(labels.repeats_week, &[&week.to_string()])),
        labels.show_when(session),
        session.phase.clone(),
        session.time.map(|time| fill(labels.time_allowed, &[&time.to_string()])),
    ]
    .into_iter()
    .flatten()
    .collect();
    out.heading(&facts.join(" · "), '-');
    if let Some(status) = done::status(session, labels) {
        out.wrapped(0, NAME, &status);
    }
    for note in &session.log_notes {
        out.wrapped(0, NAME, &labels.labelled(labels.log_note, note));
    }
    for limit in &session.limits {
        let text = labels.show_limit(limit, |date| labels.show_date(date));
        out.wrapped(0, NAME, &format!("! {}", labels.labelled(labels.limit, &text)));
    }
    for note in &session.notes {
        out.wrapped(0, NAME, &labels.labelled(labels.note, note));
    }
    if let Some(before) = &session.before {
        out.wrapped(0, NAME, &labels.labelled(labels.before, before));
    }
    let members: Vec<&PlannedExercise> = session.exercises.iter().collect();
    for members in members.chunk_by(|a, b| a.order.letter == b.order.letter) {
        let letter = members.first().map(|member| member.order.letter);
        let group = session.groups.iter().find(|group| Some(group.letter) == letter);
        let how = group.and_then(|group| how(group, members, words));
        if let (Some(letter), Some(how)) = (letter, &how) {
            out.wrapped(0, NAME, &format!("{letter:<NAME$}{how}"));
        }
        let told = group.filter(|_| how.is_some()).and_then(|group| rest_told(group, members));
        let counted = group.is_some_and(|group| group.how.is_counted());
        for member in members {
            write_exercise(out, member, words, counted, told);
            for line in done::result(member, &session.status, words) {
                out.wrapped(NAME + 2, NAME + 4, &line);
            }
        }
    }
    if let Some(after) = &session.after {
        out.wrapped(0, NAME, &labels.labelled(labels.after, after));
    }
}

fn write_exercise(
    out: &mut WrappedText,
    exercise: &PlannedExercise,
    words: &Wording,
    counted: bool,
    told: Option<Duration>,
) {
    let labels = words.labels;
    let head = format!("{:<NAME$}{}", exercise.order.to_string(), exercise.name);
    let runs = work_runs(exercise);
    let mut texts = runs.iter().map(|run| {
        let text = describe(run, words, counted, told);
        if exercise.projected { format!("{text}  {}", labels.projected) } else { text }
    });
    // The first run is next to the name if the name leaves room for it.
    let head = match texts.next() {
        Some(first) if head.chars().count() + 2 <= SETS => {
            out.wrapped(0, SETS, &format!("{head:<SETS$}{first}"));
            None
        }
        first => {
            out.wrapped(0, NAME, &head);
            first
        }
    };
    for text in head.into_iter().chain(texts) {
        out.wrapped(SETS, SETS, &text);
    }
    let ramp: Vec<String> = warm_up_runs(exercise)
        .iter()
        .map(|run| describe(run, words, false, run.set.rest).replace("  ", " "))
        .collect();
    if !ramp.is_empty() {
        out.wrapped(NAME + 2, NAME + 4, &labels.labelled(labels.warm_up, &ramp.join(", ")));
    }
    if let Some(replaced) = &exercise.replaces {
        let reason = replaced.reason.as_ref().map(|why| format!(" ({why})")).unwrap_or_default();
        let text = fill(labels.replaces, &[&replaced.name]);
        out.wrapped(NAME + 2, NAME + 4, &format!("{text}{reason}"));
    }
    let setup = exercise.setup.iter().map(|text| (labels.set_up, text));
    let yours = exercise.settings.iter().map(|text| (labels.yours, text));
    let cues = exercise.cues.iter().map(|text| (labels.cue, text));
    let notes = words.notes(exercise);
    let notes = notes.iter().map(|text| (labels.note, text));
    let safety = exercise.safety.iter().map(|text| (labels.safety, text));
    let rules: Vec<String> = exercise.rules.iter().map(|rule| labels.rule(rule)).collect();
    let rules = rules.iter().map(|text| (labels.next_time, text));
    let demo = exercise.demo.iter().map(|text| (labels.demo, text));
    let how = setup.chain(yours).chain(cues).chain(notes).chain(safety);
    for (label, text) in how.chain(rules).chain(demo) {
        out.wrapped(NAME + 2, NAME + 4, &labels.labelled(label, text));
    }
}

/// A run: `4 x 6 @ 57.5 kg  (15 + 2.5 + 1.25 a side)  rest 3:00`
fn describe(run: &Run<'_>, words: &Wording, counted: bool, rest_told: Option<Duration>) -> String {
    let set = run.set;
    let reps = words.reps(&set.reps);
    let warm_up = set.kind == SetKind::WarmUp;
    // Single sets of a ramp are shorter without their count, and a circuit counts its rounds.
    let sets = if counted || (warm_up && run.count == 1) {
        reps
    } else {
        format!("{}{}{reps}", run.count, words.signs.times)
    };
    let what = match words.load(set) {
        Some(load) => format!("{sets} @ {load}"),
        None => format!("{sets} ({})", words.open(set)),
    };
    let asides: Vec<String> =
        [words.off_target(set), words.in_other_unit(set), make_up(set, words, warm_up)]
            .into_iter()
            .flatten()
            .collect();
    let asides = (!asides.is_empty()).then(|| format!("({})", asides.join(words.labels.semicolon)));
    let kind = words.kind(set).map(str::to_owned);
    let details = words.details(set, rest_told).into_iter().flatten();
    let parts = [what].into_iter().chain(asides).chain(kind).chain(details);
    parts.map(fixed).collect::<Vec<_>>().join("  ")
}

/// Keeps a short text on one line.
fn fixed(text: String) -> String {
    if text.chars().count() <= WIDTH - SETS { text.replace(' ', FIXED) } else { text }
}

fn make_up(set: &PlannedSet, words: &Wording, warm_up: bool) -> Option<String> {
    if warm_up {
        let plates = set.plates_per_side();
        return (!plates.is_empty()).then(|| words.pieces(plates));
    }
    words.plates(set, words.labels.a_side).or(words.hung(set)).or(words.stack(set))
}

#[cfg(test)]
mod tests {
    use super::super::sample::{athlete, plan};
    use super::super::sample_plans::{all, typical};
    use super::*;

    #[test]
    fn a_session_reads_like_a_list() {
        let text = summary(&plan(vec![athlete("Wren Tallow", vec![typical()])]));
        for line in [
            "Week 3 of 8 · Catch · Mon 19 Jan 2026 · Base",
            "! Limit: Shoulder: no pressing below the bench (physio, until 2026-02-01)",
            "A   Front squat            4 x 6 @ 57.5 kg  (15 + 2.5 + 1.25 a side)  rest 3:00",
            "      Warm-up: 8 @ 20 kg, 5 @ 25 kg (2.5), 3 @ 40 kg (10), 1 @ 45 kg (10 + 2.5)",
            "E   Superset; alternate E1 and E2; rest 60 s after both",
            "E1  Face pull              3 x 12-15 @ pin 25 kg  (Cable)",
            "E2  Side plank             3 x 30 s each side @ body mass",
        ] {
            assert!(text.lines().any(|l| l == line), "{line}\n\n{text}");
        }
    }

    #[test]
    fn no_line_is_longer_than_eighty() {
        for line in summary(&all()).lines() {
            assert!(line.chars().count() <= WIDTH, "{line}");
            assert_eq!(line, line.trim_end());
        }
    }
}
