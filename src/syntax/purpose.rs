//! What each word is for, in one line each: what an editor shows beside it.

use super::keys::{Key, Place};

/// What a key of a block is for.
#[must_use]
pub fn of_key(place: Place, key: Key) -> Option<&'static str> {
    KEYS.iter().find(|(own, word, _)| (*own, *word) == (place, key)).map(|(.., says)| *says)
}

/// What a word that opens a block, or begins a line below an exercise, is for.
#[must_use]
pub fn of_word(word: &str) -> Option<&'static str> {
    let all = HEADS.iter().chain(LINES);
    all.copied().find(|(own, _)| *own == word).map(|(_, says)| says)
}

/// The words that open a block.
const HEADS: &[(&str, &str)] = &[
    ("notation", "the form of the notation the file is in, in its first line: `notation: 1`"),
    ("use", "brings another file of the project in"),
    ("exercise", "an exercise of your own, or more about a built-in one"),
    ("gym", "what a gym has to load with"),
    ("athlete", "a person: gym, maxes, replacements, limits"),
    ("programme", "a programme; phases, schemes and days below it are its own"),
    ("phase", "weeks that belong together: `phase Deload: week 4, sets -40%`"),
    ("scheme", "week lines and rules that exercises share"),
    ("day", "a day of the training week: `day Lower 1 (Mon)`"),
    ("log", "what was done: `log ATHLETE: PROGRAMME`"),
];

/// The words that a line below an exercise may begin with.
const LINES: &[(&str, &str)] = &[
    ("week", "what changes in one week; what it leaves out stays"),
    ("weeks", "what changes in several weeks: `weeks 5-7`"),
    ("for", "what changes for one athlete"),
    ("when", "a rule: after the session, if the condition holds, the action is done"),
    ("otherwise", "what is done if no rule above held"),
];

const KEYS: &[(Place, Key, &str)] = &[
    (Place::Exercise, Key::AlsoCalled, "other names that it is found by"),
    (
        Place::Exercise,
        Key::Like,
        "the exercise it starts from: all but names and maxes is taken over",
    ),
    (Place::Exercise, Key::Equipment, "what it is loaded with, the best first"),
    (Place::Exercise, Key::Bar, "a bar by its mass or its name, when not the usual one"),
    (Place::Exercise, Key::Sides, "whether each side is done by itself"),
    (Place::Exercise, Key::CountedIn, "what a set of it is counted in: reps, seconds or metres"),
    (Place::Exercise, Key::Kind, "compound or isolation; compound lifts get a warm-up ramp"),
    (Place::Exercise, Key::Pattern, "movement patterns; sets are counted under the first"),
    (Place::Exercise, Key::Muscles, "muscles with their share of the work"),
    (
        Place::Exercise,
        Key::Setup,
        "the set-up in one line, printed; `setup de` in another language",
    ),
    (Place::Exercise, Key::Cue, "what to think of, printed; may be repeated"),
    (Place::Exercise, Key::Swap, "what to do instead, the closest first"),
    (
        Place::Exercise,
        Key::Safety,
        "a caution in one line, printed; `safety de` in another language",
    ),
    (Place::Exercise, Key::Range, "range of motion, printed"),
    (Place::Exercise, Key::Demo, "where a demonstration is found, printed"),
    (Place::Exercise, Key::Source, "where it comes from; on the coach's copy only"),
    (Place::Exercise, Key::NameIn, "its name on sheets in another language"),
    (Place::Gym, Key::Bar, "bars, the usual one first; a special bar with its name"),
    (Place::Gym, Key::Plates, "plates, with how many single discs there are"),
    (Place::Gym, Key::Plate, "how big a plate of that mass is: across x along the sleeve"),
    (Place::Gym, Key::Collars, "the mass of both collars together (`a pair`), or of `each`"),
    (Place::Gym, Key::Dumbbells, "dumbbells: a list, or a run with its step"),
    (Place::Gym, Key::Kettlebells, "kettlebells: a list, or a run with its step"),
    (Place::Gym, Key::Stack, "the pins of one stack; its name ties it to exercises"),
    (Place::Gym, Key::Bands, "bands by name, with about what each gives"),
    (Place::Gym, Key::Rounding, "whether loads go to the nearest, or never above the target"),
    (Place::Gym, Key::Has, "machines and what else there is"),
    (Place::Gym, Key::Lacks, "equipment, things or exercises that are not there"),
    (Place::Gym, Key::Note, "text that is kept, not printed"),
    (Place::Athlete, Key::Gym, "the gym they train in"),
    (Place::Athlete, Key::BodyMass, "body mass, for lifts on the body"),
    (Place::Athlete, Key::Unit, "the unit shown beside the gym's"),
    (Place::Athlete, Key::Max, "a maximum: a tested single, a set of several reps, or a share"),
    (Place::Athlete, Key::TrainingMax, "the share of the 1RM that percentages are of"),
    (
        Place::Athlete,
        Key::Replace,
        "what is done instead, with the reason and a last day if you like",
    ),
    (Place::Athlete, Key::Setting, "the athlete's own setting, printed at that exercise"),
    (Place::Athlete, Key::Limit, "a limit that somebody set: printed, never interpreted"),
    (Place::Athlete, Key::Avoid, "exercises, patterns or muscles that the programme must not have"),
    (Place::Athlete, Key::Rack, "which rack they share, printed in the card's head"),
    (Place::Athlete, Key::Language, "the language of the athlete's own sheets"),
    (Place::Athlete, Key::Time, "time for a session, before the day's and the programme's"),
    (Place::Athlete, Key::Level, "how far trained they are, in your words"),
    (Place::Athlete, Key::Note, "text that is kept, not printed"),
    (Place::Programme, Key::Weeks, "how many weeks it runs"),
    (Place::Programme, Key::Starts, "the first day of week 1"),
    (Place::Programme, Key::TrainingMax, "the share of the 1RM that percentages are of"),
    (Place::Programme, Key::Estimate, "the equation for a 1RM from several reps"),
    (Place::Programme, Key::WarmUp, "a ramp of lighter sets before compound lifts, or none"),
    (Place::Programme, Key::Before, "what to do first, printed at the top of the session"),
    (Place::Programme, Key::After, "what to do last, printed at the foot of the session"),
    (Place::Programme, Key::Rounding, "how loads are rounded, before the gym's own word on it"),
    (Place::Programme, Key::Time, "time for a session"),
    (Place::Programme, Key::Language, "the language of the sheets"),
    (
        Place::Programme,
        Key::Athletes,
        "who takes part, in the order of the cards; all, if left out",
    ),
    (Place::Programme, Key::Supervision, "who supervises, printed in the summary"),
    (Place::Programme, Key::Goal, "the goal, printed in the summary"),
    (Place::Programme, Key::MissedSession, "whether a missed session is done again"),
    (Place::Programme, Key::Source, "where it comes from; on the coach's copy only"),
    (Place::Programme, Key::Advice, "what you make of advice: allow it, move its bound, or none"),
    (Place::Programme, Key::Note, "text, printed in the summary"),
    (Place::Phase, Key::Note, "text, printed on the cards of these weeks"),
    (Place::Day, Key::Time, "time for this day's session"),
    (Place::Day, Key::Note, "text, printed on this day's cards"),
    (Place::Day, Key::WarmUp, "this day's ramp of lighter sets, or none"),
    (Place::Day, Key::Before, "what to do first on this day"),
    (Place::Day, Key::After, "what to do last on this day"),
    (Place::Line, Key::Follow, "a scheme, then numbers of its own after commas"),
    (Place::Line, Key::Setup, "the set-up, instead of the exercise's own"),
    (Place::Line, Key::Setting, "a setting for everybody, printed at the exercise"),
    (Place::Line, Key::Range, "range of motion, unless the prescription names one"),
    (Place::Line, Key::Cue, "what to think of, instead of the exercise's own cues"),
    (Place::Line, Key::Note, "text, printed at the exercise"),
    (Place::Line, Key::Source, "where the line comes from; on the coach's copy only"),
    (Place::Line, Key::WarmUp, "a ramp of lighter sets for this line, or none"),
    (Place::Line, Key::OverMax, "permits loads over the 1RM on this line, with your reason"),
    (Place::Cue, Key::Source, "where the cue comes from; on the coach's copy only"),
    (Place::Session, Key::BodyMass, "body mass on that day"),
    (Place::Session, Key::Max, "a maximum tested on that day: it stands from then on"),
    (Place::Session, Key::Note, "text about the session"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::syntax::keys::{BLOCK_WORDS, LINE_WORDS, PROPERTIES};

    #[test]
    fn every_word_says_what_it_is_for_and_once() {
        for property in PROPERTIES {
            let own = KEYS.iter().filter(|(p, k, _)| (*p, *k) == (property.place, property.key));
            assert_eq!(own.count(), 1, "{:?} {:?}", property.place, property.key);
        }
        assert_eq!(KEYS.len(), PROPERTIES.len());
        for word in BLOCK_WORDS.iter().chain(LINE_WORDS) {
            assert!(of_word(word).is_some(), "{word}");
        }
        assert_eq!(HEADS.len() + LINES.len(), BLOCK_WORDS.len() + LINE_WORDS.len());
    }
}
