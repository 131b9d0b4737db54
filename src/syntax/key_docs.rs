//! What each word is for, in one line each: what an editor shows beside it.

use super::keys::{BlockPlace, Key};

/// What a key of a block is for.
#[must_use]
pub fn of_key(place: BlockPlace, key: Key) -> Option<&'static str> {
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
    ("notation", "the version of the notation, in the first line of the file: `notation: 1`"),
    ("use", "includes another file of the project"),
    ("exercise", "an exercise of your own, or more about a built-in one"),
    ("gym", "what a gym has to load with"),
    ("athlete", "a person: gym, maxes, replacements, limits"),
    ("programme", "a programme; phases, schemes and days below it are its own"),
    ("phase", "weeks with one goal: `phase Deload: week 4, sets -40%`"),
    ("scheme", "week lines and rules that exercises share"),
    ("day", "a day of the training week: `day Lower 1 (Mon)`"),
    ("log", "what was done: `log ATHLETE: PROGRAMME`"),
];

/// The words that a line below an exercise may begin with.
const LINES: &[(&str, &str)] = &[
    ("week", "what changes in one week; what it leaves out stays"),
    ("weeks", "what changes in several weeks: `weeks 5-7`"),
    ("for", "what changes for one athlete"),
    ("when", "a rule: if the condition is true after a session, the action is done"),
    ("otherwise", "the action if the condition of no rule above is true"),
];

const KEYS: &[(BlockPlace, Key, &str)] = &[
    (BlockPlace::Exercise, Key::AlsoCalled, "other names that it is found by"),
    (
        BlockPlace::Exercise,
        Key::Like,
        "the exercise it is based on: everything except names and maxes is copied",
    ),
    (BlockPlace::Exercise, Key::Equipment, "what it is loaded with, the best first"),
    (BlockPlace::Exercise, Key::Bar, "a bar by its mass or its name, when not the usual one"),
    (BlockPlace::Exercise, Key::Sides, "whether each side is done by itself"),
    (
        BlockPlace::Exercise,
        Key::CountedIn,
        "what a set of it is counted in: reps, seconds or metres",
    ),
    (BlockPlace::Exercise, Key::Kind, "compound or isolation; compound lifts get a warm-up ramp"),
    (BlockPlace::Exercise, Key::Pattern, "movement patterns; sets are counted under the first"),
    (BlockPlace::Exercise, Key::Muscles, "muscles with their share of the work"),
    (
        BlockPlace::Exercise,
        Key::Setup,
        "the set-up in one line, printed; `setup de` in another language",
    ),
    (BlockPlace::Exercise, Key::Cue, "what to think of, printed; may be repeated"),
    (BlockPlace::Exercise, Key::Swap, "what to do instead, the closest first"),
    (
        BlockPlace::Exercise,
        Key::Safety,
        "a safety note in one line, printed; `safety de` in another language",
    ),
    (BlockPlace::Exercise, Key::Range, "range of motion, printed"),
    (BlockPlace::Exercise, Key::Demo, "where a demonstration is found, printed"),
    (BlockPlace::Exercise, Key::Source, "where it comes from; on the coach's copy only"),
    (BlockPlace::Exercise, Key::NameIn, "its name on sheets in another language"),
    (BlockPlace::Gym, Key::Bar, "bars, the usual one first; a special bar with its name"),
    (BlockPlace::Gym, Key::Plates, "plates, with how many single discs there are"),
    (BlockPlace::Gym, Key::Plate, "how big a plate of that mass is: across x along the sleeve"),
    (BlockPlace::Gym, Key::Collars, "the mass of both collars together (`a pair`), or of `each`"),
    (BlockPlace::Gym, Key::Dumbbells, "dumbbells: a list, or a run with its step"),
    (BlockPlace::Gym, Key::Kettlebells, "kettlebells: a list, or a run with its step"),
    (BlockPlace::Gym, Key::Stack, "the pins of one stack; its name ties it to exercises"),
    (BlockPlace::Gym, Key::Bands, "bands by name, with about what each gives"),
    (BlockPlace::Gym, Key::Rounding, "whether loads go to the nearest, or never above the target"),
    (BlockPlace::Gym, Key::Has, "machines and other equipment"),
    (BlockPlace::Gym, Key::Lacks, "missing equipment or exercises"),
    (BlockPlace::Gym, Key::Note, "text that is kept, not printed"),
    (BlockPlace::Athlete, Key::Gym, "the gym they train in"),
    (BlockPlace::Athlete, Key::BodyMass, "body mass, for lifts on the body"),
    (BlockPlace::Athlete, Key::Unit, "the unit shown beside the gym's"),
    (
        BlockPlace::Athlete,
        Key::Max,
        "a maximum: a tested single, a set of several reps, or a share",
    ),
    (BlockPlace::Athlete, Key::TrainingMax, "the share of the 1RM that percentages are of"),
    (
        BlockPlace::Athlete,
        Key::Replace,
        "what is done instead, with the reason and a last day if you like",
    ),
    (BlockPlace::Athlete, Key::Setting, "the athlete's own setting, printed at that exercise"),
    (BlockPlace::Athlete, Key::Limit, "a limit that somebody set: only printed, not checked"),
    (
        BlockPlace::Athlete,
        Key::Avoid,
        "exercises, patterns or muscles that the athlete must not do",
    ),
    (BlockPlace::Athlete, Key::Rack, "which rack they share, printed in the card's head"),
    (BlockPlace::Athlete, Key::Language, "the language of the athlete's own sheets"),
    (BlockPlace::Athlete, Key::Time, "time for a session, before the day's and the programme's"),
    (BlockPlace::Athlete, Key::Level, "how far trained they are, in your words"),
    (BlockPlace::Athlete, Key::Note, "text that is kept, not printed"),
    (BlockPlace::Programme, Key::Weeks, "how many weeks it runs"),
    (BlockPlace::Programme, Key::Starts, "the first day of week 1"),
    (BlockPlace::Programme, Key::TrainingMax, "the share of the 1RM that percentages are of"),
    (BlockPlace::Programme, Key::Estimate, "the equation for a 1RM from several reps"),
    (BlockPlace::Programme, Key::WarmUp, "a ramp of lighter sets before compound lifts, or none"),
    (BlockPlace::Programme, Key::Before, "what to do first, printed at the top of the session"),
    (BlockPlace::Programme, Key::After, "what to do last, printed at the foot of the session"),
    (BlockPlace::Programme, Key::Rounding, "how loads are rounded; overrides the gym's rounding"),
    (BlockPlace::Programme, Key::Time, "time for a session"),
    (BlockPlace::Programme, Key::Language, "the language of the sheets"),
    (
        BlockPlace::Programme,
        Key::Athletes,
        "who takes part, in the order of the cards; all, if left out",
    ),
    (BlockPlace::Programme, Key::Supervision, "who supervises, printed in the summary"),
    (BlockPlace::Programme, Key::Goal, "the goal, printed in the summary"),
    (BlockPlace::Programme, Key::MissedSession, "whether a missed session is done again"),
    (BlockPlace::Programme, Key::Source, "where it comes from; on the coach's copy only"),
    (
        BlockPlace::Programme,
        Key::Advice,
        "your decisions about advice: allow it, change its threshold, or none",
    ),
    (BlockPlace::Programme, Key::Note, "text, printed in the summary"),
    (BlockPlace::Phase, Key::Note, "text, printed on the cards of these weeks"),
    (BlockPlace::Day, Key::Time, "time for this day's session"),
    (BlockPlace::Day, Key::Note, "text, printed on this day's cards"),
    (BlockPlace::Day, Key::WarmUp, "this day's ramp of lighter sets, or none"),
    (BlockPlace::Day, Key::Before, "what to do first on this day"),
    (BlockPlace::Day, Key::After, "what to do last on this day"),
    (BlockPlace::Line, Key::Follow, "a scheme, then numbers of its own after commas"),
    (BlockPlace::Line, Key::Setup, "the set-up for this line, instead of the exercise's own"),
    (BlockPlace::Line, Key::Setting, "a setting for everybody, printed at the exercise"),
    (BlockPlace::Line, Key::Range, "range of motion, unless the prescription names one"),
    (BlockPlace::Line, Key::Cue, "what to think of, instead of the exercise's own cues"),
    (BlockPlace::Line, Key::Note, "text, printed at the exercise"),
    (BlockPlace::Line, Key::Source, "where the line comes from; on the coach's copy only"),
    (BlockPlace::Line, Key::WarmUp, "a ramp of lighter sets for this line, or none"),
    (BlockPlace::Line, Key::OverMax, "permits loads over the 1RM on this line, with your reason"),
    (BlockPlace::Cue, Key::Source, "where the cue comes from; on the coach's copy only"),
    (BlockPlace::Session, Key::BodyMass, "body mass on that day"),
    (BlockPlace::Session, Key::Max, "a maximum tested on that day; it is used from then on"),
    (BlockPlace::Session, Key::Note, "text about the session"),
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
