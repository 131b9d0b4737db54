//! Names of exercises in other languages.

use std::borrow::Cow;
use std::collections::BTreeMap;

use super::Plan;

/// Names of exercises, by exercise and language.
pub type ExerciseNames = BTreeMap<String, BTreeMap<String, String>>;

/// The name of an exercise in a language: from the exact tag, otherwise from the same language in
/// another region, otherwise the exercise's own name.
#[must_use]
pub fn name_in<'n>(names: &'n ExerciseNames, language: &str, exercise: &'n str) -> &'n str {
    let primary = |tag: &str| tag.split('-').next().unwrap_or(tag).to_ascii_lowercase();
    let Some(names) = names.get(exercise) else { return exercise };
    let very = names.iter().find(|(tag, _)| tag.eq_ignore_ascii_case(language));
    let found = very.or_else(|| names.iter().find(|(tag, _)| primary(tag) == primary(language)));
    found.map_or(exercise, |(_, name)| name)
}

impl Plan {
    /// Returns the plan with each athlete's exercises named in that athlete's language, as the
    /// athlete's sheets print them. Logs and derivations keep the names that the files use.
    #[must_use]
    pub fn named_for_athletes(&self) -> Cow<'_, Self> {
        if self.exercise_names.is_empty() {
            return Cow::Borrowed(self);
        }
        let mut plan = self.clone();
        for athlete in &mut plan.athletes {
            let own =
                |name: &str| name_in(&self.exercise_names, &athlete.language, name).to_owned();
            let exercises = athlete.sessions.iter_mut().flat_map(|session| &mut session.exercises);
            for exercise in exercises {
                exercise.name = own(&exercise.name);
                if let Some(replaced) = &mut exercise.replaces {
                    replaced.name = own(&replaced.name);
                }
            }
        }
        Cow::Owned(plan)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_very_tag_comes_first_then_the_language() {
        let of = |pairs: &[(&str, &str)]| {
            let own = |(tag, name): &(&str, &str)| ((*tag).to_owned(), (*name).to_owned());
            BTreeMap::from([("Deadlift".to_owned(), pairs.iter().map(own).collect())])
        };
        let names = of(&[("de", "Kreuzheben"), ("es-MX", "Peso muerto")]);
        for (language, name) in [
            ("de", "Kreuzheben"),
            ("de-AT", "Kreuzheben"),
            ("ES", "Peso muerto"),
            ("fr", "Deadlift"),
        ] {
            assert_eq!(name_in(&names, language, "Deadlift"), name);
        }
        assert_eq!(name_in(&names, "de", "Front squat"), "Front squat");
        let both = of(&[("de", "Kreuzheben"), ("de-CH", "Chrüzhebe")]);
        assert_eq!(name_in(&both, "de-CH", "Deadlift"), "Chrüzhebe");
    }
}
