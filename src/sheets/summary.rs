//! The summary: the whole plan as text of at most 80 columns, for a terminal, an e-mail, a diff.

use crate::plan::{AthletePlan, GroupKind, Plan, PlannedExercise, PlannedSet, Session, SetKind};

use crate::quantity::{Duration, Exact};

use super::card::{how, rest_told};
use super::labels::{Labels, fill};
use super::runs::{Run, warm_up_runs, work_runs};
use super::wording::{PLAIN, Wording};

/// The widest line.
const WIDTH: usize = 80;
/// Where exercises' names begin.
const NAME: usize = 4;
/// Where their sets begin.
const SETS: usize = 27;

/// Writes the plan as text. Lines are counted in characters and never longer than 80.
#[must_use]
pub fn summary(plan: &Plan) -> String {
    let labels = Labels::of(&plan.language);
    let mut out = Lines::default();
    let weeks = fill(labels.weeks, &[&plan.weeks.to_string()]);
    out.heading(&format!("{} ({weeks})", plan.programme), '=');
    for (label, text) in [
        (labels.goal, &plan.goal),
        (labels.supervision, &plan.supervision),
    ] {
        if let Some(text) = text {
            out.wrapped(0, 2, &format!("{label}: {text}"));
        }
    }
    for note in &plan.notes {
        out.wrapped(0, 2, &format!("{}: {note}", labels.note));
    }
    for athlete in &plan.athletes {
        out.blank();
        write_athlete(&mut out, plan, athlete, labels);
    }
    out.blank();
    out.wrapped(
        0,
        0,
        &format!("{} {}", labels.cautions_head, labels.cautions),
    );
    out.text
}

fn write_athlete(out: &mut Lines, plan: &Plan, athlete: &AthletePlan, labels: &Labels) {
    let words = Wording::new(&plan.language, athlete, PLAIN);
    let facts: Vec<String> = [
        Some(athlete.name.clone()),
        athlete.gym.clone(),
        athlete.rack.as_ref().map(|rack| fill(labels.rack, &[rack])),
        athlete.body_mass.map(|mass| {
            format!(
                "{} {}",
                labels.body_mass,
                words.signed(&Exact::from_mass(mass), words.unit)
            )
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
}

fn write_session(out: &mut Lines, plan: &Plan, session: &Session, words: &Wording) {
    let labels = words.labels;
    let facts: Vec<String> = [
        Some(fill(
            labels.week_of,
            &[&session.week.to_string(), &plan.weeks.to_string()],
        )),
        Some(session.day.clone()),
        labels.show_when(session),
        session.phase.clone(),
        session
            .time
            .map(|time| fill(labels.time_allowed, &[&time.to_string()])),
    ]
    .into_iter()
    .flatten()
    .collect();
    out.heading(&facts.join(" · "), '-');
    for limit in &session.limits {
        let until = limit
            .until
            .filter(|date| !limit.text.contains(&date.to_string()));
        let until = until.map(|date| format!(" ({})", fill(labels.until, &[&date.to_string()])));
        let until = until.unwrap_or_default();
        let text = format!("! {}: {}: {}{until}", labels.limit, limit.name, limit.text);
        out.wrapped(0, NAME, &text);
    }
    for note in &session.notes {
        out.wrapped(0, NAME, &format!("{}: {note}", labels.note));
    }
    if let Some(before) = &session.before {
        out.wrapped(0, NAME, &format!("{}: {before}", labels.before));
    }
    let members: Vec<&PlannedExercise> = session.exercises.iter().collect();
    for members in members.chunk_by(|a, b| a.order.letter == b.order.letter) {
        let letter = members.first().map(|member| member.order.letter);
        let group = session
            .groups
            .iter()
            .find(|group| Some(group.letter) == letter);
        let how = group.and_then(|group| how(group, members, words));
        if let (Some(letter), Some(how)) = (letter, &how) {
            out.wrapped(0, NAME, &format!("{letter:<NAME$}{how}"));
        }
        let told = group
            .filter(|_| how.is_some())
            .and_then(|group| rest_told(group, members));
        let counted = group.is_some_and(|group| {
            matches!(
                group.how,
                GroupKind::Circuit { .. } | GroupKind::Every { .. } | GroupKind::RoundsIn { .. }
            )
        });
        for member in members {
            write_exercise(out, member, words, counted, told);
        }
    }
    if let Some(after) = &session.after {
        out.wrapped(0, NAME, &format!("{}: {after}", labels.after));
    }
}

fn write_exercise(
    out: &mut Lines,
    exercise: &PlannedExercise,
    words: &Wording,
    counted: bool,
    told: Option<Duration>,
) {
    let labels = words.labels;
    let head = format!("{:<NAME$}{}", exercise.order.to_string(), exercise.name);
    let runs = work_runs(exercise);
    let mut texts = runs.iter().map(|run| describe(run, words, counted, told));
    // The first run stands beside the name when the name leaves room for it.
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
        .map(|run| {
            describe(run, words, false, run.set.rest)
                .split_whitespace()
                .collect::<Vec<_>>()
                .join(" ")
        })
        .collect();
    if !ramp.is_empty() {
        out.wrapped(
            NAME + 2,
            NAME + 4,
            &format!("{}: {}", labels.warm_up, ramp.join(", ")),
        );
    }
    if let Some(replaced) = &exercise.replaces {
        let reason = replaced
            .reason
            .as_ref()
            .map(|why| format!(" ({why})"))
            .unwrap_or_default();
        let text = fill(labels.replaces, &[&replaced.name]);
        out.wrapped(NAME + 2, NAME + 4, &format!("{text}{reason}"));
    }
    let setup = exercise.setup.iter().map(|text| (labels.set_up, text));
    let yours = exercise.settings.iter().map(|text| (labels.yours, text));
    let cues = exercise.cues.iter().map(|text| (labels.cue, text));
    let notes = exercise.notes.iter().map(|text| (labels.note, text));
    let safety = exercise.safety.iter().map(|text| (labels.safety, text));
    let rules = exercise.rules.iter().map(|text| (labels.next_time, text));
    for (label, text) in setup
        .chain(yours)
        .chain(cues)
        .chain(notes)
        .chain(safety)
        .chain(rules)
    {
        out.wrapped(NAME + 2, NAME + 4, &format!("{label}: {text}"));
    }
}

/// `4 x 6 @ 57.5 kg  (15 + 2.5 + 1.25 a side)  rest 3:00`
fn describe(run: &Run<'_>, words: &Wording, counted: bool, rest_told: Option<Duration>) -> String {
    let (set, labels) = (run.set, words.labels);
    let reps = words.reps(&set.reps);
    let warm_up = set.kind == SetKind::WarmUp;
    // A ramp's single sets read shorter without their count; a circuit counts its rounds.
    let sets = if counted || (warm_up && run.count == 1) {
        reps
    } else {
        format!("{}{}{reps}", run.count, words.signs.times)
    };
    let what = match words.load(set) {
        Some(load) => format!("{sets} @ {load}"),
        None => format!("{sets} ({})", labels.load_open),
    };
    let asides: Vec<String> = [
        words.off_target(set),
        words.in_other_unit(set),
        make_up(set, words, warm_up),
    ]
    .into_iter()
    .flatten()
    .collect();
    let asides = (!asides.is_empty()).then(|| format!("({})", asides.join("; ")));
    let details = details(set, labels, rest_told);
    let parts: Vec<String> = [what].into_iter().chain(asides).chain(details).collect();
    parts.join("  ")
}

fn make_up(set: &PlannedSet, words: &Wording, warm_up: bool) -> Option<String> {
    if warm_up {
        let plates = set.plates_per_side();
        return (!plates.is_empty()).then(|| words.pieces(plates));
    }
    words
        .plates(set, words.labels.a_side)
        .or(words.hung(set))
        .or(words.stack(set))
}

fn details(set: &PlannedSet, labels: &Labels, rest_told: Option<Duration>) -> Vec<String> {
    let kind = match set.kind {
        SetKind::Drop => Some(labels.drop.to_owned()),
        SetKind::BackOff => Some(labels.back_off.to_owned()),
        SetKind::Work | SetKind::WarmUp => None,
    };
    [
        kind,
        set.effort.map(|effort| effort.to_string()),
        set.rest
            .filter(|rest| Some(*rest) != rest_told)
            .map(|rest| fill(labels.rest, &[&rest.to_string()])),
        set.every
            .map(|every| fill(labels.every, &[&every.to_string()])),
        set.tempo
            .map(|tempo| fill(labels.tempo, &[&tempo.to_string()])),
        set.rest_pause
            .map(|pause| fill(labels.rest_pause, &[&pause.to_string()])),
        set.range.as_ref().map(|range| fill(labels.range, &[range])),
    ]
    .into_iter()
    .flatten()
    // A detail stays on one line.
    .map(|detail| detail.replace(' ', "\u{a0}"))
    .collect()
}

/// Text in lines of at most 80 characters.
#[derive(Default)]
struct Lines {
    text: String,
}

impl Lines {
    fn blank(&mut self) {
        self.text.push('\n');
    }

    /// A heading with a line of `under` below it, as long as its longest line.
    fn heading(&mut self, text: &str, under: char) {
        let before = self.text.len();
        self.wrapped(0, 0, text);
        let written = self.text.get(before..).unwrap_or_default();
        let longest = written
            .lines()
            .map(|line| line.chars().count())
            .max()
            .unwrap_or(0);
        self.text.extend(std::iter::repeat_n(under, longest));
        self.text.push('\n');
    }

    /// Wraps text: the first line begins at `first`, those after it at `hang`.
    fn wrapped(&mut self, first: usize, hang: usize, text: &str) {
        let mut line = " ".repeat(first);
        let mut empty = true;
        // Runs of spaces line columns up, so they are kept unless a line ends there.
        for word in words(text) {
            let (space, word) = word;
            let length = line.chars().count();
            let space = if empty && length > first.min(hang) {
                0
            } else {
                space
            };
            if !empty && length + space + word.chars().count() > WIDTH {
                self.end(&mut line, hang);
            } else {
                line.extend(std::iter::repeat_n(' ', space));
            }
            // A word longer than a line is cut.
            for character in word.chars() {
                if line.chars().count() >= WIDTH {
                    self.end(&mut line, hang);
                }
                line.push(character);
            }
            empty = false;
        }
        self.end(&mut line, 0);
    }

    fn end(&mut self, line: &mut String, hang: usize) {
        self.text.push_str(&line.trim_end().replace('\u{a0}', " "));
        self.text.push('\n');
        *line = " ".repeat(hang);
    }
}

/// The words of a text, each with the number of spaces before it.
fn words(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let mut spaces = 0;
    text.split(' ').filter_map(move |word| {
        let word = word.trim_matches(|c: char| c.is_control());
        if word.is_empty() {
            spaces += 1;
            return None;
        }
        let before = std::mem::replace(&mut spaces, 1);
        Some((before, word))
    })
}

#[cfg(test)]
mod tests {
    use super::super::sample::{all, athlete, plan, typical};
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

    #[test]
    fn long_words_are_cut_and_nothing_is_lost() {
        let mut out = Lines::default();
        let long = "x".repeat(200);
        out.wrapped(2, 4, &format!("a {long}"));
        assert!(out.text.lines().all(|line| line.chars().count() <= WIDTH));
        assert_eq!(out.text.matches('x').count(), 200);
    }
}
