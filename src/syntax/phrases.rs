//! Complete phrases of the notation to start from: each is valid as written. The coach changes the
//! numbers.

/// A phrase, and what it means.
pub type Phrase = (&'static str, &'static str);

/// Conditions of a rule.
pub const CONDITIONS: &[Phrase] = &[
    ("all reps made", "every set met its target"),
    ("top of range", "every set met the upper end of its range"),
    ("any rep missed", "a set fell short of its target"),
    ("missed 2 in a row", "a set fell short in each of the last sessions"),
    ("last set >= 8 reps", "the set marked `+`, or the last one, reached so many"),
    ("last set < 5 reps", "the set marked `+`, or the last one, fell short"),
    ("RPE <= 7", "the effort reported was no more than that"),
    ("RPE >= 9", "the effort reported was at least that"),
    ("pain >= 3", "the pain reported, out of ten"),
    ("every 3 sessions", "by count of this line's sessions"),
    ("every 2 weeks", "by count of weeks"),
];

/// What a rule does to the line's next session.
pub const ACTIONS: &[Phrase] = &[
    ("load up one", "the next heavier load that the gym can make"),
    ("load down one", "the next lighter load that the gym can make"),
    ("load +2.5 kg", "adds to the load"),
    ("load -10%", "takes a share off the load"),
    ("reps +1", "raises the target within its range"),
    ("reps to bottom", "back to the lower end of the range"),
    ("sets +1", "one set more"),
    ("max +2.5 kg", "raises the training max of the lift"),
    ("max +2%", "raises the training max by a share"),
    ("max from last set", "a new training max, estimated from the last set"),
    ("hold", "nothing changes"),
];

/// Options of a prescription.
pub const OPTIONS: &[Phrase] = &[
    ("rest 2:00", "rest after each set"),
    ("rest 90 s", "rest after each set"),
    ("tempo 3-1-X-0", "lower, pause, lift, pause; X as fast as possible"),
    ("RPE 8", "the effort not to pass"),
    ("RIR 2", "repetitions left in reserve"),
    ("range to the knee", "range of motion"),
    ("drop -20%", "a lighter set straight after the last one"),
    ("rest-pause 15 s", "short pauses after which the set goes on"),
    ("every 90 s", "a set on each interval"),
    ("no warm-up", "no warm-up ramp here"),
    ("as written", "the phase does not scale it"),
    ("with phase", "the phase scales it"),
];

/// Loads, after the `@`.
pub const LOADS: &[Phrase] = &[
    ("RPE 8", "by effort: a starting point, about"),
    ("RIR 2", "by repetitions left in reserve"),
    ("bodyweight", "the body alone"),
    ("bodyweight +10 kg", "the body mass and added load"),
    ("last +2.5 kg", "the latest session's load and more"),
    ("75%", "of the training max"),
    ("75% -> 77.5% -> 80%", "a series over the weeks"),
    ("75% +2.5%/week", "a step each week"),
    ("90% of top set", "of the heaviest group before it"),
];

/// What a percentage is of, after `of`.
pub const SHARES: &[Phrase] = &[
    ("1RM", "the maximum itself"),
    ("training max", "the training max"),
    ("top set", "the heaviest group before it"),
];

/// Sets and repetitions to start a prescription with.
pub const SETS: &[Phrase] = &[
    ("3 x 8", "sets x repetitions"),
    ("3 x 8-12", "a range"),
    ("3 x 5+", "at least so many, as many as are clean"),
    ("3 x AMRAP", "as many as are clean"),
    ("4 x 3+3+3 (20 s)", "clusters, with the pause in brackets"),
    ("3 x 30 s", "time"),
    ("3 x 40 m", "distance"),
    ("3 x 8 each side", "each side by itself"),
];

/// How a group is done.
pub const GROUPS: &[Phrase] = &[
    ("circuit 3 rounds", "rounds of all members"),
    ("every 60 s for 10 min", "a set on each interval"),
    ("rounds in 12 min", "as many rounds as possible"),
    ("paired, rest 90 s", "alternated with rest between"),
    ("rest 2:00", "rest after each round"),
    ("change 20 s", "time to change from one to the next"),
    ("alternate", "one exercise for each interval"),
];

/// What came of an exercise, in a log.
pub const RESULTS: &[Phrase] = &[
    ("done", "every set as planned"),
    ("skipped", "not done"),
    ("skipped (why)", "not done, with the reason"),
    ("?", "to be filled in"),
    ("RPE 8", "the effort reported, after the sets"),
    ("pain 2", "pain out of ten, after the sets"),
];

/// Forms of a maximum. Their numbers are examples: only a lifted load is a maximum.
pub const MAXES: &[Phrase] = &[
    ("80% of Deadlift", "a share of another lift's"),
    ("8 @ bodyweight", "repetitions with the body alone"),
];

/// Warm-up ramps.
pub const RAMPS: &[Phrase] =
    &[("no", "no ramp"), ("bar x 8, 50% x 5, 75% x 3", "percentages of the working load")];

/// What a phrase means whose numbers may be others, from a table: that with the same words.
#[must_use]
pub fn says(table: &[Phrase], text: &str) -> Option<&'static str> {
    let words = |text: &str| -> String {
        let plain = |c: char| if c.is_alphabetic() { c } else { ' ' };
        let all: String = text.chars().map(plain).collect();
        let units = ["kg", "lb", "and", "rep"];
        all.split_whitespace().filter(|w| !units.contains(w)).collect::<Vec<_>>().join(" ")
    };
    let signs =
        |text: &str| -> String { text.chars().filter(|c| matches!(c, '<' | '>' | '%')).collect() };
    let same = |(phrase, _): &&Phrase| words(phrase) == words(text) && signs(phrase) == signs(text);
    table.iter().find(same).map(|(_, says)| *says)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::FileId;
    use crate::syntax::parse;

    #[test]
    fn every_phrase_reads_where_it_is_offered() {
        let mut texts: Vec<String> = Vec::new();
        let day = |line: &str| format!("day D\n  {line}\n");
        texts.extend(
            CONDITIONS.iter().map(|(p, _)| day(&format!("A X: 1 x 1\n    when {p}: hold"))),
        );
        texts.extend(ACTIONS.iter().map(|(p, _)| day(&format!("A X: 1 x 1\n    otherwise: {p}"))));
        texts.extend(OPTIONS.iter().map(|(p, _)| day(&format!("A X: 3 x 5, {p}"))));
        texts.extend(LOADS.iter().map(|(p, _)| day(&format!("A X: 3 x 5 @ {p}"))));
        texts.extend(SHARES.iter().map(|(p, _)| day(&format!("A X: 3 x 5 @ 70% of {p}"))));
        texts.extend(SETS.iter().map(|(p, _)| day(&format!("A X: {p}"))));
        texts.extend(GROUPS.iter().map(|(p, _)| day(&format!("A: {p}"))));
        texts.extend(RAMPS.iter().map(|(p, _)| day(&format!("warm-up: {p}"))));
        texts.extend(MAXES.iter().map(|(p, _)| format!("athlete A\n  max X: {p}\n")));
        let log = |p: &str| format!("log A: B\n  2026-01-05 week 1, D\n    A: {p}\n");
        let sets = |p: &str| if p.starts_with(['R', 'p']) { format!("8, {p}") } else { p.into() };
        texts.extend(RESULTS.iter().map(|(p, _)| log(&sets(p))));
        for text in texts {
            let (_, problems) = parse(&text, FileId(1));
            assert!(problems.is_empty(), "{text}: {problems:?}");
        }
    }

    /// The alternatives of a rule of the grammar.
    fn alternatives(rule: &str) -> usize {
        let grammar = include_str!("../../grammar/setwright.pest");
        let start = grammar.find(&format!("\n{rule} = ")).expect(rule);
        let body = &grammar[start..start + grammar[start..].find("}\n").expect(rule)];
        body.matches('|').count() + 1
    }

    #[test]
    fn every_kind_of_condition_and_action_is_offered() {
        let kinds = |phrases: &[Phrase]| {
            let first = |text: &str| {
                text.split(|c: char| !c.is_alphabetic() && c != ' ')
                    .next()
                    .unwrap_or("")
                    .trim()
                    .to_owned()
            };
            phrases.iter().map(|(text, _)| first(text)).collect::<std::collections::BTreeSet<_>>()
        };
        // `every` counts sessions or weeks, `rated` effort or pain: one alternative each.
        assert_eq!(kinds(CONDITIONS).len(), alternatives("condition") + 1);
        assert_eq!(kinds(ACTIONS).len(), alternatives("action"));
    }
}
