//! The built-in exercises: they are complete, their swaps train the same muscles and patterns, and
//! there is a safety note if a bar could fall on a person.

use std::collections::BTreeMap;
use std::path::Path;

use setwright::catalogue::{Exercise, LIBRARY, MUSCLES, PATTERNS};
use setwright::resolve::{Project, resolve};
use setwright::source::MemoryLoader;
use setwright::syntax::ast::EquipmentKind as Kind;
use setwright::syntax::fold_name;

/// So long a cue or a set-up stays within a line or two of the card's small print.
const LONGEST_CUE: usize = 70;
const LONGEST_SETUP: usize = 90;

/// The exercises, with what `like` brings in.
fn library() -> Vec<Exercise> {
    let project = Project::from_text(&MemoryLoader::new(), "none.sets", "# Nothing.\n".to_owned());
    let resolved = resolve(project);
    let found: Vec<_> = resolved.diagnostics.iter().filter(|d| d.label.span.file.0 == 0).collect();
    assert!(found.is_empty(), "{found:#?}");
    resolved.exercises.iter().cloned().collect()
}

/// Every exercise of which something does not hold, with what was found.
fn all<'e, T: std::fmt::Debug>(library: &'e [Exercise], wrong: impl Fn(&'e Exercise) -> Option<T>) {
    let found: Vec<_> = library.iter().filter_map(|e| wrong(e).map(|w| (&e.name, w))).collect();
    assert!(found.is_empty(), "{found:#?}");
}

/// Exercises by name and by synonym.
fn by_name(library: &[Exercise]) -> BTreeMap<String, &Exercise> {
    let names = |e: &'_ Exercise| {
        let also = e.also.iter().map(|name| name.value.clone());
        std::iter::once(e.name.clone()).chain(also).collect::<Vec<_>>()
    };
    library.iter().flat_map(|e| names(e).into_iter().map(move |n| (fold_name(&n), e))).collect()
}

/// Muscles that do a share of a half or more.
fn chief_muscles(exercise: &Exercise) -> Vec<&str> {
    let muscles = exercise.muscles.iter();
    muscles.filter(|(_, (part, whole))| 2 * part >= *whole).map(|(m, _)| m.as_str()).collect()
}

fn loaded_with(exercise: &Exercise, kind: Kind) -> bool {
    exercise.equipment.iter().any(|item| item.kind == kind)
}

/// Whether a home or a hotel has what it takes.
fn without_a_gym(exercise: &Exercise) -> bool {
    let kinds = [
        Kind::Dumbbells,
        Kind::Dumbbell,
        Kind::Kettlebell,
        Kind::Kettlebells,
        Kind::Band,
        Kind::BodyMass,
    ];
    exercise.equipment.is_empty() || kinds.iter().any(|kind| loaded_with(exercise, *kind))
}

#[test]
fn every_family_is_read() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/catalogue/library");
    let mut exercises = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        // Translations are in text files, which their own tests read.
        if path.extension().is_some_and(|extension| extension == "txt") {
            continue;
        }
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(text.starts_with("# "), "{} opens with a comment", path.display());
        assert!(LIBRARY.contains(&text), "{} is part of the library", path.display());
        exercises += text.matches("\nexercise ").count();
    }
    assert_eq!(exercises, library().len());
    assert!(exercises >= 220, "{exercises}");
}

#[test]
fn no_name_or_synonym_is_given_twice() {
    let library = library();
    let mut seen: BTreeMap<String, &str> = BTreeMap::new();
    for exercise in &library {
        let also = exercise.also.iter().map(|name| name.value.as_str());
        for name in std::iter::once(exercise.name.as_str()).chain(also) {
            let first = seen.insert(fold_name(name), &exercise.name);
            assert_eq!(first, None, "`{name}` of {}", exercise.name);
        }
    }
}

#[test]
fn every_exercise_says_what_it_is() {
    let library = library();
    all(&library, |e| e.compound.is_none().then_some("kind"));
    all(&library, |e| e.pattern.is_none().then_some("pattern"));
    all(&library, |e| e.setup.is_none().then_some("setup"));
    all(&library, |e| (e.equipment.is_empty() && e.needs.is_empty()).then_some("equipment"));
    all(&library, |e| (e.cues.len() < 2).then_some("two cues"));
    all(&library, |e| (e.swaps.len() < 2).then_some("two swaps"));
    all(&library, |e| {
        (!e.muscles.iter().any(|(_, (part, whole))| part == whole)).then_some("a whole share")
    });
    // `sides` has a default; the library always says it.
    let heads = LIBRARY.split("\nexercise ").skip(1);
    let silent: Vec<&str> =
        heads.filter(|text| !text.contains("\n  sides:") && !text.contains("\n  like:")).collect();
    assert!(silent.is_empty(), "{silent:#?}");
}

#[test]
fn every_word_is_in_use() {
    let library = library();
    for pattern in PATTERNS {
        let of_it: Vec<&Exercise> =
            library.iter().filter(|e| e.pattern.as_deref() == Some(*pattern)).collect();
        assert!(of_it.iter().any(|e| without_a_gym(e)), "{pattern}");
    }
    for muscle in MUSCLES {
        assert!(library.iter().any(|e| e.muscles.iter().any(|(m, _)| m == muscle)), "{muscle}");
    }
}

#[test]
fn a_swap_trains_the_same_thing() {
    let library = library();
    let names = by_name(&library);
    for exercise in &library {
        for swap in &exercise.swaps {
            let at = format!("{} -> {}", exercise.name, swap.value);
            let other = names.get(&fold_name(&swap.value)).copied().expect(&at);
            assert_ne!(exercise.name, other.name, "{at}");
            assert!(exercise.patterns().any(|pattern| other.has_pattern(pattern)), "{at}");
            let chief = chief_muscles(other);
            assert!(chief_muscles(exercise).iter().any(|muscle| chief.contains(muscle)), "{at}");
        }
    }
}

#[test]
fn what_needs_a_gym_has_a_swap_that_does_not() {
    let library = library();
    let names = by_name(&library);
    all(&library, |e| {
        let swaps = e.swaps.iter().filter_map(|swap| names.get(&fold_name(&swap.value)));
        let free = without_a_gym(e) || swaps.into_iter().any(|swap| without_a_gym(swap));
        (!free).then_some(&e.swaps)
    });
}

/// Common practice, and Haff & Triplett, Essentials of Strength Training and Conditioning, 4th ed.,
/// ch. 15 [M]: a spotter or safeties where a bar is overhead, over the face, or on the shoulders.
#[test]
fn a_bar_that_could_come_down_on_somebody_has_a_caution() {
    let library = library();
    let risky = ["squat", "lunge", "horizontal push", "vertical push", "power"];
    all(&library, |e| {
        let bar = loaded_with(e, Kind::Barbell);
        let first = e.equipment.first().is_some_and(|item| item.kind == Kind::Barbell);
        let pattern = e.pattern.as_deref().unwrap_or_default();
        let above = bar && (risky.contains(&pattern) || e.name.contains("triceps extension"));
        ((first || above) && e.safety.is_none()).then_some("safety")
    });
}

/// The same chapter [M]: nobody spots the quick lifts.
#[test]
fn nobody_spots_a_quick_lift() {
    all(&library(), |e| {
        let quick = matches!(e.pattern.as_deref(), Some("power" | "jump"));
        let safety = e.safety.clone().unwrap_or_default().replace("Do not spot", "");
        (quick && safety.to_lowercase().contains("spot")).then_some(safety)
    });
}

#[test]
fn cues_and_set_ups_fit_a_card() {
    let library = library();
    let long = |text: &String, most: usize| text.chars().count() > most;
    all(&library, |e| e.cues.iter().find(|cue| long(&cue.text, LONGEST_CUE)));
    all(&library, |e| e.setup.iter().find(|setup| long(setup, LONGEST_SETUP)));
    all(&library, |e| e.safety.iter().find(|safety| long(safety, LONGEST_SETUP)));
}

/// Two exercises that say the same are one: what differs is the equipment, and that is a list.
#[test]
fn no_two_exercises_say_the_same() {
    let library = library();
    let mut seen: BTreeMap<(&Option<String>, &[setwright::catalogue::Cue]), &str> = BTreeMap::new();
    for exercise in &library {
        let first = seen.insert((&exercise.setup, &exercise.cues), &exercise.name);
        assert_eq!(first, None, "{}", exercise.name);
    }
}
