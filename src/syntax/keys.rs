//! The keys of each block: which there are, what value each takes, which may repeat.
//!
//! The words themselves stand in the grammar (`gym_word`, `athlete_named` …); a test holds this
//! table and the grammar against each other.

use super::grammar::Rule;

macro_rules! keys {
    ($($variant:ident = $word:literal,)*) => {
        /// A key, whatever block it stands in.
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

/// What kind of block (or line with lines below it) a line stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Place {
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
    /// A line that takes none below it.
    Nothing,
}

impl Place {
    /// The place in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Place::Exercise => "an exercise",
            Place::Gym => "a gym",
            Place::Athlete => "an athlete",
            Place::Programme => "a programme",
            Place::Phase => "a phase",
            Place::Scheme => "a scheme",
            Place::Day => "a day",
            Place::Line => "an exercise of a day",
            Place::Cue => "a cue",
            Place::Log => "a log",
            Place::Session => "a session of a log",
            Place::Nothing => "this line",
        }
    }

    /// The grammar's rule for a key in this place.
    #[must_use]
    pub fn key_rule(self) -> Option<Rule> {
        Some(match self {
            Place::Exercise => Rule::exercise_key,
            Place::Gym => Rule::gym_key,
            Place::Athlete => Rule::athlete_key,
            Place::Programme => Rule::programme_key,
            Place::Phase => Rule::phase_key,
            Place::Scheme => Rule::scheme_key,
            Place::Day => Rule::day_key,
            Place::Line => Rule::line_key,
            Place::Cue => Rule::cue_key,
            Place::Session => Rule::log_key,
            Place::Log | Place::Nothing => return None,
        })
    }

    /// The keys there are in this place.
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
    pub place: Place,
    /// The key.
    pub key: Key,
    /// Whether a name follows the key: `max Front squat`.
    pub named: bool,
    /// Whether it may be given again for another language: `safety de`.
    pub translated: bool,
    /// Whether it may stand there more than once (each adds).
    pub repeats: bool,
    /// The grammar's rule for its value; `None` for free text.
    pub value: Option<Rule>,
}

const fn text(place: Place, key: Key) -> Property {
    Property { place, key, named: false, translated: false, repeats: false, value: None }
}

const fn value(place: Place, key: Key, rule: Rule) -> Property {
    Property { value: Some(rule), ..text(place, key) }
}

const fn adds(place: Place, key: Key) -> Property {
    Property { repeats: true, ..text(place, key) }
}

const fn translated(place: Place, key: Key) -> Property {
    Property { translated: true, ..text(place, key) }
}

const fn named(place: Place, key: Key, rule: Option<Rule>) -> Property {
    Property { named: true, value: rule, ..text(place, key) }
}

/// Adding a property: one line here, its word in the grammar, its meaning in `resolve`. The order of a
/// block's keys is that of the canonical form: what a reader asks first stands first.
pub const PROPERTIES: &[Property] = &[
    value(Place::Exercise, Key::Like, Rule::name),
    value(Place::Exercise, Key::AlsoCalled, Rule::names_value),
    value(Place::Exercise, Key::Equipment, Rule::equipment_value),
    value(Place::Exercise, Key::Bar, Rule::exercise_bar_value),
    value(Place::Exercise, Key::Sides, Rule::sides_value),
    value(Place::Exercise, Key::CountedIn, Rule::counted_in_value),
    value(Place::Exercise, Key::Kind, Rule::kind_value),
    value(Place::Exercise, Key::Pattern, Rule::names_value),
    value(Place::Exercise, Key::Muscles, Rule::muscles_value),
    translated(Place::Exercise, Key::Setup),
    adds(Place::Exercise, Key::Cue),
    value(Place::Exercise, Key::Swap, Rule::names_value),
    translated(Place::Exercise, Key::Safety),
    text(Place::Exercise, Key::Range),
    text(Place::Exercise, Key::Demo),
    text(Place::Exercise, Key::Source),
    named(Place::Exercise, Key::NameIn, None),
    value(Place::Gym, Key::Bar, Rule::bars_value),
    value(Place::Gym, Key::Plates, Rule::stock_value),
    named(Place::Gym, Key::Plate, Some(Rule::plate_size_value)),
    value(Place::Gym, Key::Collars, Rule::collars_value),
    value(Place::Gym, Key::Dumbbells, Rule::stock_value),
    value(Place::Gym, Key::Kettlebells, Rule::stock_value),
    named(Place::Gym, Key::Stack, Some(Rule::stock_value)),
    value(Place::Gym, Key::Bands, Rule::bands_value),
    value(Place::Gym, Key::Has, Rule::counted_names_value),
    value(Place::Gym, Key::Lacks, Rule::counted_names_value),
    value(Place::Gym, Key::Rounding, Rule::rounding_value),
    adds(Place::Gym, Key::Note),
    value(Place::Athlete, Key::Gym, Rule::name),
    value(Place::Athlete, Key::Unit, Rule::unit_value),
    value(Place::Athlete, Key::BodyMass, Rule::mass_value),
    named(Place::Athlete, Key::Max, Some(Rule::max_value)),
    value(Place::Athlete, Key::TrainingMax, Rule::percent_value),
    named(Place::Athlete, Key::Replace, Some(Rule::remarked_name_value)),
    Property { repeats: true, ..named(Place::Athlete, Key::Limit, Some(Rule::limit_value)) },
    named(Place::Athlete, Key::Setting, None),
    value(Place::Athlete, Key::Avoid, Rule::avoid_value),
    text(Place::Athlete, Key::Rack),
    text(Place::Athlete, Key::Language),
    value(Place::Athlete, Key::Time, Rule::duration_value),
    text(Place::Athlete, Key::Level),
    adds(Place::Athlete, Key::Note),
    value(Place::Programme, Key::Weeks, Rule::count_value),
    value(Place::Programme, Key::Starts, Rule::date_value),
    value(Place::Programme, Key::TrainingMax, Rule::percent_value),
    value(Place::Programme, Key::Estimate, Rule::name),
    value(Place::Programme, Key::WarmUp, Rule::ramp_value),
    text(Place::Programme, Key::Before),
    text(Place::Programme, Key::After),
    value(Place::Programme, Key::Rounding, Rule::rounding_value),
    value(Place::Programme, Key::Time, Rule::duration_value),
    text(Place::Programme, Key::Language),
    value(Place::Programme, Key::Athletes, Rule::names_value),
    text(Place::Programme, Key::Supervision),
    text(Place::Programme, Key::Goal),
    value(Place::Programme, Key::MissedSession, Rule::missed_value),
    text(Place::Programme, Key::Source),
    adds(Place::Programme, Key::Note),
    Property { repeats: true, ..value(Place::Programme, Key::Advice, Rule::advice_value) },
    adds(Place::Phase, Key::Note),
    value(Place::Day, Key::Time, Rule::duration_value),
    adds(Place::Day, Key::Note),
    value(Place::Day, Key::WarmUp, Rule::ramp_value),
    text(Place::Day, Key::Before),
    text(Place::Day, Key::After),
    value(Place::Line, Key::Follow, Rule::follow_value),
    text(Place::Line, Key::Setup),
    text(Place::Line, Key::Setting),
    text(Place::Line, Key::Range),
    adds(Place::Line, Key::Cue),
    adds(Place::Line, Key::Note),
    text(Place::Line, Key::Source),
    value(Place::Line, Key::WarmUp, Rule::ramp_value),
    text(Place::Line, Key::OverMax),
    text(Place::Cue, Key::Source),
    value(Place::Session, Key::BodyMass, Rule::mass_value),
    named(Place::Session, Key::Max, Some(Rule::max_value)),
    adds(Place::Session, Key::Note),
];

/// The words that open a block, for "did you mean".
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
/// What else a line below an exercise may begin with.
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
        let table = |place: Place, named: bool| -> BTreeSet<String> {
            let of_kind = place.properties().filter(|p| p.named == named);
            of_kind.map(|p| p.key.word().to_owned()).collect()
        };
        let mut exercise_named = table(Place::Exercise, true);
        let translated = Place::Exercise.properties().filter(|p| p.translated);
        exercise_named.extend(translated.map(|p| p.key.word().to_owned()));
        let mut line = table(Place::Line, false);
        line.insert("otherwise".to_owned());
        for (rule, expected) in [
            ("exercise_word", table(Place::Exercise, false)),
            ("exercise_named", exercise_named),
            ("gym_word", table(Place::Gym, false)),
            ("gym_named", table(Place::Gym, true)),
            ("athlete_word", table(Place::Athlete, false)),
            ("athlete_named", table(Place::Athlete, true)),
            ("programme_word", table(Place::Programme, false)),
            ("phase_word", table(Place::Phase, false)),
            ("day_word", table(Place::Day, false)),
            ("line_word", line),
            ("cue_word", table(Place::Cue, false)),
            ("log_word", table(Place::Session, false)),
            ("log_named", table(Place::Session, true)),
        ] {
            assert_eq!(words_of(rule), expected, "{rule}");
        }
    }
}
