//! Checks that every text with a count is inflected, or has its number after the noun.

use super::table_tests::strings;
use super::*;

/// The forms of a counted noun for 0, 1, 2 and 5.
type Forms = [&'static str; 4];

/// A label's name, the label, and its forms by language.
type CountedLabel = (&'static str, fn(&Labels) -> Counted, [Forms; 5]);

/// The forms, by language (grammar from memory).
fn counted() -> [CountedLabel; 7] {
    [
        (
            "weeks",
            |labels| labels.weeks,
            [
                ["0 weeks", "1 week", "2 weeks", "5 weeks"],
                ["0 Wochen", "1 Woche", "2 Wochen", "5 Wochen"],
                ["0 semaine", "1 semaine", "2 semaines", "5 semaines"],
                ["0 semanas", "1 semana", "2 semanas", "5 semanas"],
                ["0 tygodni", "1 tydzień", "2 tygodnie", "5 tygodni"],
            ],
        ),
        (
            "reps",
            |labels| labels.reps,
            [
                ["0 reps", "1 rep", "2 reps", "5 reps"],
                ["0 Wdh.", "1 Wdh.", "2 Wdh.", "5 Wdh."],
                ["0 rép.", "1 rép.", "2 rép.", "5 rép."],
                ["0 reps.", "1 rep.", "2 reps.", "5 reps."],
                ["0 powt.", "1 powt.", "2 powt.", "5 powt."],
            ],
        ),
        (
            "rounds",
            |labels| labels.rounds,
            [
                ["0 rounds", "1 round", "2 rounds", "5 rounds"],
                ["0 Runden", "1 Runde", "2 Runden", "5 Runden"],
                ["0 tour", "1 tour", "2 tours", "5 tours"],
                ["0 rondas", "1 ronda", "2 rondas", "5 rondas"],
                ["0 rund", "1 runda", "2 rundy", "5 rund"],
            ],
        ),
        (
            "athletes",
            |labels| labels.broad.athletes,
            [
                ["0 athletes", "1 athlete", "2 athletes", "5 athletes"],
                ["0 Personen", "1 Person", "2 Personen", "5 Personen"],
                ["0 athlète", "1 athlète", "2 athlètes", "5 athlètes"],
                ["0 atletas", "1 atleta", "2 atletas", "5 atletas"],
                ["0 osób", "1 osoba", "2 osoby", "5 osób"],
            ],
        ),
        (
            "more_on_card",
            |labels| labels.broad.more_on_card,
            [
                ["and 0 more sets", "and 1 more set:", "and 2 more sets", "and 5 more sets"],
                ["0 weitere Sätze", "1 weiterer Satz:", "2 weitere Sätze", "5 weitere Sätze"],
                ["0 série de", "1 série de", "2 séries de", "5 séries de"],
                ["0 series más", "1 serie más", "2 series más", "5 series más"],
                ["0 serii:", "1 seria:", "2 serie:", "5 serii:"],
            ],
        ),
        (
            "muscles_more",
            |labels| labels.broad.muscles_more,
            [
                ["0 more muscles have", "1 more muscle has", "2 more muscles", "5 more muscles"],
                ["0 weitere Muskeln haben", "1 weiterer Muskel hat", "2 weitere", "5 weitere"],
                ["0 autre muscle a", "1 autre muscle a", "2 autres muscles ont", "5 autres"],
                ["0 músculos más tienen", "1 músculo más tiene", "2 músculos", "5 músculos"],
                ["0 mięśni ma", "1 mięsień ma", "2 mięśnie mają", "5 mięśni ma"],
            ],
        ),
        (
            "without_load",
            |labels| labels.review.without_load,
            [
                ["0 sets", "1 set without", "2 sets", "5 sets"],
                ["0 Sätze", "1 Satz", "2 Sätze", "5 Sätze"],
                ["0 série ", "1 série ", "2 séries", "5 séries"],
                ["0 series", "1 serie ", "2 series", "5 series"],
                ["0 serii", "1 seria", "2 serie ", "5 serii"],
            ],
        ),
    ]
}

#[test]
fn counted_words_have_their_forms() {
    for (name, of, forms) in counted() {
        for (labels, forms) in Labels::ALL.into_iter().zip(forms) {
            for (n, form) in [0, 1, 2, 5].into_iter().zip(forms) {
                let text = labels.count(&of(labels), n);
                assert!(text.contains(form), "{}: {name}: {text}, not {form}", labels.language);
            }
        }
    }
}

/// Fields whose strings are tested above, or are forms of a [`Counted`] or of a rule's condition.
const FORMS: [&str; 5] = ["one", "few", "many", "conditions", "singles"];

/// Placeholders for a count in a text that is not a [`Counted`]: field and number of the
/// placeholder.
const COUNTS: [(&str, &str); 27] = [
    ("week_of", "{0}"),
    ("week_of", "{1}"),
    ("page_of", "{0}"),
    ("page_of", "{1}"),
    ("repeats_week", "{0}"),
    ("pain_of", "{0}"),
    ("weeks_of", "{0}"),
    ("weeks_of", "{1}"),
    ("weeks_of", "{2}"),
    ("weeks", "{0}"),
    ("weeks", "{1}"),
    ("week", "{0}"),
    ("sitting", "{0}"),
    ("sitting_undated", "{0}"),
    ("pain", "{0}"),
    ("pain", "{2}"),
    ("misses_in_a_row", "{3}"),
    ("sessions_missing", "{0}"),
    ("sessions_skipped", "{0}"),
    ("effort_above", "{0}"),
    ("effort_above", "{1}"),
    ("not_done", "{0}"),
    ("not_done", "{1}"),
    ("to_come", "{0}"),
    ("strength_about", "{1}"),
    ("of_ten", "{0}"),
    ("step", "{1}"),
];

/// Words that may follow a number without being inflected: prepositions, abbreviations that are the
/// same for every number, participles and adverbs of languages that do not inflect them, and, in
/// `strength_about`, the noun of a number that is always ten.
const INVARIANT: [&str; 22] = [
    "of",
    "von",
    "sur",
    "de",
    "z",
    "na",
    "skipped",
    "without",
    "to",
    "in",
    "ausgelassen",
    "ohne",
    "noch",
    "fois",
    "à",
    "por",
    "Wdh",
    "rép",
    "reps",
    "powt",
    "if",
    "mal",
];

#[test]
fn other_counts_stand_behind_their_words() {
    let mut tried = std::collections::BTreeSet::new();
    for labels in Labels::ALL {
        for (name, text) in strings(labels) {
            if FORMS.contains(&name.as_str()) {
                continue;
            }
            for (_, hole) in COUNTS.iter().filter(|(field, _)| *field == name) {
                let Some((_, after)) = text.split_once(hole) else { continue };
                tried.insert((name.clone(), *hole));
                let after = after.trim_start_matches([' ', '\u{a0}', '-']);
                let word: String = after.chars().take_while(|c| c.is_alphabetic()).collect();
                let fits = word.is_empty() || INVARIANT.contains(&word.as_str());
                assert!(
                    fits,
                    "{}: {name}: {text}: `{word}` may need another form",
                    labels.language
                );
            }
        }
    }
    assert_eq!(tried.len(), COUNTS.len(), "a field of the list is not there: {tried:?}");
}

/// All other placeholders: names, dates, loads, durations, percentages, rules, and counts that
/// include their noun. A new text with a placeholder must be added here or to [`COUNTS`].
const NO_COUNTS: &str = "date first until week_from time_allowed loads_in replaces load_kept tempo \
    rest range every rest_pause between_sides between_parts about one_hand one_dumbbell one_bell \
    pin band asked bar collars per_side a_side hung done_on continued alternate_two alternate_all \
    rest_after_both rest_after_all rest_between change rest_after_round every_for every_all \
    rounds_in title title_coach source_of_cue actions rack rack_of day_month weekday_month \
    projected_about volume top_sets masses_in so_far falling of lifts_of_week muscles_of_week \
    strength_of per_week sets_short new_max by_rule by_projected by_new_max by_phase by_phase_end \
    by_percent phase_week phase_weeks average_load volume_by_share tested estimated derived \
    training_max percent of_top_set from_effort step_to rule rule_projected max_rule \
    max_rule_projected phase drop ramp rounded";

#[test]
fn every_label_with_a_hole_is_known_as_a_count_or_not() {
    let known = |name: &str| {
        FORMS.contains(&name)
            || COUNTS.iter().any(|(field, _)| *field == name)
            || NO_COUNTS.split_whitespace().any(|field| field == name)
    };
    let unknown: Vec<(String, String)> = strings(&ENGLISH)
        .into_iter()
        .filter(|(name, text)| text.contains('{') && !known(name))
        .collect();
    assert_eq!(unknown, [], "add them to COUNTS or NO_COUNTS, or make them a Counted");
}

#[test]
fn conditions_that_count_have_a_form_for_one() {
    let rule = |labels: &Labels, condition: &str| {
        let told = labels.rule(&format!("{condition}: hold")).replace('\u{a0}', " ");
        told.split([':', '\u{a0}']).next().unwrap_or_default().trim_end().to_owned()
    };
    for (condition, forms) in [
        (
            "every 1 weeks",
            ["every week", "jede Woche", "chaque semaine", "cada semana", "co tydzień"],
        ),
        (
            "every 2 weeks",
            [
                "every 2 weeks",
                "alle 2 Wochen",
                "toutes les 2 semaines",
                "cada 2 semanas",
                "co 2. tydzień",
            ],
        ),
        (
            "every 5 sessions",
            [
                "every 5 sessions",
                "alle 5 Einheiten",
                "toutes les 5 séances",
                "cada 5 sesiones",
                "co 5. trening",
            ],
        ),
        (
            "missed 1 in a row",
            [
                "missed once",
                "1-mal nicht geschafft",
                "manqué 1 fois",
                "fallado 1 vez",
                "niewykonane 1 raz",
            ],
        ),
        (
            "missed 2 in a row",
            [
                "missed 2 in a row",
                "2-mal in Folge nicht geschafft",
                "manqué 2 fois de suite",
                "fallado 2 veces seguidas",
                "niewykonane 2 razy z rzędu",
            ],
        ),
        (
            "last set >= 1 reps 1 in a row",
            [
                "last set >= 1 reps",
                "letzter Satz >= 1 Wdh.",
                "dernière série >= 1 rép.",
                "reps. de la última serie >= 1",
                "ostatnia seria >= 1 powt.",
            ],
        ),
    ] {
        for (labels, form) in Labels::ALL.into_iter().zip(forms) {
            assert_eq!(rule(labels, condition), form, "{}", labels.language);
        }
    }
}

#[test]
fn decimals_follow_the_region() {
    let spelled = |tag: &str| Labels::of(tag).numbers.spell("22.5 kg");
    for tag in ["es", "es-ES", "es-AR", "ES"] {
        assert_eq!(spelled(tag), "22,5 kg", "{tag}");
    }
    for tag in ["es-MX", "es-US", "ES-mx", "es-419", "es-Latn-MX"] {
        assert_eq!(spelled(tag), "22.5 kg", "{tag}");
        assert_eq!(Labels::of(tag).set_up, Labels::of("es").set_up);
    }
    assert_eq!(spelled("en-MX"), "22.5 kg");
    assert_eq!(spelled("de-MX"), "22,5 kg");
}
