//! The keys of each block: their names, their values, and which may be repeated.
//!
//! The grammar contains the same words (`gym_word`, `athlete_named` …); a test compares this table
//! with the grammar.

use super::grammar::Rule;

macro_rules! keys {
    ($($variant:ident = $word:literal,)*) => {
        /// A key, in any block.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Key {
            $(#[doc = concat!("`", $word, "`")] $variant,)*
        }

        impl Key {
            /// All keys.
            pub const ALL: &'static [Key] = &[$(Key::$variant,)*];

            /// The word.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Key::$variant => $word,)* }
            }
        }
    };
}

keys! {
    AlsoCalled = "also called", Like = "like", Equipment = "equipment", Bar = "bar",
    Sides = "sides", CountedIn = "counted in", Kind = "kind", Pattern = "pattern", Muscles = "muscles", Setup = "setup",
    Cue = "cue", Swap = "swap", Safety = "safety", Range = "range", Demo = "demo",
    Source = "source", NameIn = "name",
    Plates = "plates", Collars = "collars", Dumbbells = "dumbbells", Kettlebells = "kettlebells",
    Bands = "bands", Rounding = "rounding", Has = "has", Lacks = "lacks", Note = "note",
    Stack = "stack", Plate = "plate",
    Gym = "gym", BodyMass = "body mass", Unit = "unit", TrainingMax = "training max",
    Avoid = "avoid", Rack = "rack", Language = "language", Time = "time", Level = "level",
    Max = "max", Replace = "replace", Setting = "setting", Limit = "limit",
    Weeks = "weeks", Starts = "starts", Estimate = "estimate", WarmUp = "warm-up",
    Before = "before", After = "after", Athletes = "athletes", Supervision = "supervision",
    Goal = "goal", MissedSession = "missed session", Advice = "advice",
    Follow = "follow", OverMax = "over max",
}

/// The kind of block (or line with lines below it) that contains a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum BlockPlace {
    /// `exercise`.
    Exercise,
    /// `gym`.
    Gym,
    /// `athlete`.
    Athlete,
    /// `programme`.
    Programme,
    /// `phase`.
    Phase,
    /// `scheme`.
    Scheme,
    /// `day`.
    Day,
    /// An order line, a `week n:` line or a `for ATHLETE:` line below one.
    Line,
    /// A cue of an exercise or of a line.
    Cue,
    /// `log`.
    Log,
    /// A dated session of a log.
    Session,
    /// A line that cannot have lines below it.
    Nothing,
}

impl BlockPlace {
    /// The place in words, for messages.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            BlockPlace::Exercise => "an exercise",
            BlockPlace::Gym => "a gym",
            BlockPlace::Athlete => "an athlete",
            BlockPlace::Programme => "a programme",
            BlockPlace::Phase => "a phase",
            BlockPlace::Scheme => "a scheme",
            BlockPlace::Day => "a day",
            BlockPlace::Line => "an exercise of a day",
            BlockPlace::Cue => "a cue",
            BlockPlace::Log => "a log",
            BlockPlace::Session => "a session of a log",
            BlockPlace::Nothing => "this line",
        }
    }

    /// The grammar rule for a key in this place.
    #[must_use]
    pub fn key_rule(self) -> Option<Rule> {
        Some(match self {
            BlockPlace::Exercise => Rule::exercise_key,
            BlockPlace::Gym => Rule::gym_key,
            BlockPlace::Athlete => Rule::athlete_key,
            BlockPlace::Programme => Rule::programme_key,
            BlockPlace::Phase => Rule::phase_key,
            BlockPlace::Scheme => Rule::scheme_key,
            BlockPlace::Day => Rule::day_key,
            BlockPlace::Line => Rule::line_key,
            BlockPlace::Cue => Rule::cue_key,
            BlockPlace::Session => Rule::log_key,
            BlockPlace::Log | BlockPlace::Nothing => return None,
        })
    }

    /// The keys that exist in this place.
    pub fn properties(self) -> impl Iterator<Item = &'static Property> {
        PROPERTIES.iter().filter(move |property| property.place == self)
    }

    /// The property with this key.
    #[must_use]
    pub fn property(self, key: Key) -> Option<&'static Property> {
        self.properties().find(|property| property.key == key)
    }
}

/// One key of one block.
#[derive(Clone, Copy, Debug)]
pub struct Property {
    /// The block.
    pub place: BlockPlace,
    /// The key.
    pub key: Key,
    /// Whether a name follows the key: `max Front squat`.
    pub named: bool,
    /// Whether it may be repeated for another language: `safety de`.
    pub translated: bool,
    /// Whether it may be repeated; each occurrence adds to the others.
    pub repeats: bool,
    /// The grammar rule for its value; `None` for free text.
    pub value: Option<Rule>,
}

const fn text(place: BlockPlace, key: Key) -> Property {
    Property { place, key, named: false, translated: false, repeats: false, value: None }
}

const fn value(place: BlockPlace, key: Key, rule: Rule) -> Property {
    Property { value: Some(rule), ..text(place, key) }
}

const fn adds(place: BlockPlace, key: Key) -> Property {
    Property { repeats: true, ..text(place, key) }
}

const fn translated(place: BlockPlace, key: Key) -> Property {
    Property { translated: true, ..text(place, key) }
}

const fn named(place: BlockPlace, key: Key, rule: Option<Rule>) -> Property {
    Property { named: true, value: rule, ..text(place, key) }
}

/// All properties. To add one, add a line here, its word in the grammar and its meaning in `resolve`.
/// The keys of a block are in the order of the standard format: what a reader looks for first comes
/// first.
pub const PROPERTIES: &[Property] = &[
    value(BlockPlace::Exercise, Key::Like, Rule::name),
    value(BlockPlace::Exercise, Key::AlsoCalled, Rule::names_value),
    value(BlockPlace::Exercise, Key::Equipment, Rule::equipment_value),
    value(BlockPlace::Exercise, Key::Bar, Rule::exercise_bar_value),
    value(BlockPlace::Exercise, Key::Sides, Rule::sides_value),
    value(BlockPlace::Exercise, Key::CountedIn, Rule::counted_in_value),
    value(BlockPlace::Exercise, Key::Kind, Rule::kind_value),
    value(BlockPlace::Exercise, Key::Pattern, Rule::names_value),
    value(BlockPlace::Exercise, Key::Muscles, Rule::muscles_value),
    translated(BlockPlace::Exercise, Key::Setup),
    adds(BlockPlace::Exercise, Key::Cue),
    value(BlockPlace::Exercise, Key::Swap, Rule::names_value),
    translated(BlockPlace::Exercise, Key::Safety),
    text(BlockPlace::Exercise, Key::Range),
    text(BlockPlace::Exercise, Key::Demo),
    text(BlockPlace::Exercise, Key::Source),
    named(BlockPlace::Exercise, Key::NameIn, None),
    value(BlockPlace::Gym, Key::Bar, Rule::bars_value),
    value(BlockPlace::Gym, Key::Plates, Rule::stock_value),
    named(BlockPlace::Gym, Key::Plate, Some(Rule::plate_size_value)),
    value(BlockPlace::Gym, Key::Collars, Rule::collars_value),
    value(BlockPlace::Gym, Key::Dumbbells, Rule::stock_value),
    value(BlockPlace::Gym, Key::Kettlebells, Rule::stock_value),
    named(BlockPlace::Gym, Key::Stack, Some(Rule::stock_value)),
    value(BlockPlace::Gym, Key::Bands, Rule::bands_value),
    value(BlockPlace::Gym, Key::Has, Rule::counted_names_value),
    value(BlockPlace::Gym, Key::Lacks, Rule::counted_names_value),
    value(BlockPlace::Gym, Key::Rounding, Rule::rounding_value),
    adds(BlockPlace::Gym, Key::Note),
    value(BlockPlace::Athlete, Key::Gym, Rule::name),
    value(BlockPlace::Athlete, Key::Unit, Rule::unit_value),
    value(BlockPlace::Athlete, Key::BodyMass, Rule::mass_value),
    named(BlockPlace::Athlete, Key::Max, Some(Rule::max_value)),
    value(BlockPlace::Athlete, Key::TrainingMax, Rule::percent_value),
    named(BlockPlace::Athlete, Key::Replace, Some(Rule::remarked_name_value)),
    Property { repeats: true, ..named(BlockPlace::Athlete, Key::Limit, Some(Rule::limit_value)) },
    named(BlockPlace::Athlete, Key::Setting, None),
    value(BlockPlace::Athlete, Key::Avoid, Rule::avoid_value),
    text(BlockPlace::Athlete, Key::Rack),
    text(BlockPlace::Athlete, Key::Language),
    value(BlockPlace::Athlete, Key::Time, Rule::duration_value),
    text(BlockPlace::Athlete, Key::Level),
    adds(BlockPlace::Athlete, Key::Note),
    value(BlockPlace::Programme, Key::Weeks, Rule::count_value),
    value(BlockPlace::Programme, Key::Starts, Rule::date_value),
    value(BlockPlace::Programme, Key::TrainingMax, Rule::percent_value),
    value(BlockPlace::Programme, Key::Estimate, Rule::name),
    value(BlockPlace::Programme, Key::WarmUp, Rule::ramp_value),
    text(BlockPlace::Programme, Key::Before),
    text(BlockPlace::Programme, Key::After),
    value(BlockPlace::Programme, Key::Rounding, Rule::rounding_value),
    value(BlockPlace::Programme, Key::Time, Rule::duration_value),
    text(BlockPlace::Programme, Key::Language),
    value(BlockPlace::Programme, Key::Athletes, Rule::names_value),
    text(BlockPlace::Programme, Key::Supervision),
    text(BlockPlace::Programme, Key::Goal),
    value(BlockPlace::Programme, Key::MissedSession, Rule::missed_value),
    text(BlockPlace::Programme, Key::Source),
    adds(BlockPlace::Programme, Key::Note),
    Property { repeats: true, ..value(BlockPlace::Programme, Key::Advice, Rule::advice_value) },
    adds(BlockPlace::Phase, Key::Note),
    value(BlockPlace::Day, Key::Time, Rule::duration_value),
    adds(BlockPlace::Day, Key::Note),
    value(BlockPlace::Day, Key::WarmUp, Rule::ramp_value),
    text(BlockPlace::Day, Key::Before),
    text(BlockPlace::Day, Key::After),
    value(BlockPlace::Line, Key::Follow, Rule::follow_value),
    text(BlockPlace::Line, Key::Setup),
    text(BlockPlace::Line, Key::Setting),
    text(BlockPlace::Line, Key::Range),
    adds(BlockPlace::Line, Key::Cue),
    adds(BlockPlace::Line, Key::Note),
    text(BlockPlace::Line, Key::Source),
    value(BlockPlace::Line, Key::WarmUp, Rule::ramp_value),
    text(BlockPlace::Line, Key::OverMax),
    text(BlockPlace::Cue, Key::Source),
    value(BlockPlace::Session, Key::BodyMass, Rule::mass_value),
    named(BlockPlace::Session, Key::Max, Some(Rule::max_value)),
    adds(BlockPlace::Session, Key::Note),
];

/// The words that start a block, for "did you mean".
pub const BLOCK_WORDS: &[&str] = &[
    "notation",
    "use",
    "exercise",
    "gym",
    "athlete",
    "programme",
    "phase",
    "scheme",
    "day",
    "log",
];
/// The words besides keys that may start a line below an exercise.
pub const LINE_WORDS: &[&str] = &["week", "weeks", "for", "when", "otherwise"];

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    /// The quoted words of a rule in the grammar's text.
    fn words_of(rule: &str) -> BTreeSet<String> {
        let grammar = include_str!("../../grammar/setwright.pest");
        let start = grammar.find(&format!("\n{rule} ")).unwrap_or_else(|| panic!("no rule {rule}"));
        let body = &grammar[start..start + grammar[start..].find("}\n").unwrap()];
        body.split('"').skip(1).step_by(2).map(str::to_owned).collect()
    }

    #[test]
    fn the_table_and_the_grammar_name_the_same_keys() {
        let table = |place: BlockPlace, named: bool| -> BTreeSet<String> {
            let of_kind = place.properties().filter(|p| p.named == named);
            of_kind.map(|p| p.key.word().to_owned()).collect()
        };
        let mut exercise_named = table(BlockPlace::Exercise, true);
        let translated = BlockPlace::Exercise.properties().filter(|p| p.translated);
        exercise_named.extend(translated.map(|p| p.key.word().to_owned()));
        let mut line = table(BlockPlace::Line, false);
        line.insert("otherwise".to_owned());
        for (rule, expected) in [
            ("exercise_word", table(BlockPlace::Exercise, false)),
            ("exercise_named", exercise_named),
            ("gym_word", table(BlockPlace::Gym, false)),
            ("gym_named", table(BlockPlace::Gym, true)),
            ("athlete_word", table(BlockPlace::Athlete, false)),
            ("athlete_named", table(BlockPlace::Athlete, true)),
            ("programme_word", table(BlockPlace::Programme, false)),
            ("phase_word", table(BlockPlace::Phase, false)),
            ("day_word", table(BlockPlace::Day, false)),
            ("line_word", line),
            ("cue_word", table(BlockPlace::Cue, false)),
            ("log_word", table(BlockPlace::Session, false)),
            ("log_named", table(BlockPlace::Session, true)),
        ] {
            assert_eq!(words_of(rule), expected, "{rule}");
        }
    }
}
