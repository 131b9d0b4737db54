//! Suggestions for an unknown word of `avoid`. A fix never avoids less than the word may mean: if several
//! exercises match, it names all of them or their pattern.

use std::collections::BTreeSet;

use jiff::civil::Date;
use strsim::{damerau_levenshtein, normalized_damerau_levenshtein};

use crate::catalogue::{Exercise, MUSCLES, PATTERNS, plain_words};
use crate::diagnostics::{Code, Diagnostic, Edit, nearest, or_list};
use crate::syntax::ast::Name;
use crate::syntax::fold_name;

use super::Definitions;

/// The most exercises that a fix names in one line.
const MOST_NAMED: usize = 12;
/// The most patterns that a fix names together. More are only listed.
const MOST_PATTERNS: usize = 3;
/// The least similarity of two names at which one can be a typo of the other.
const LEAST: f64 = 0.8;

/// The diagnostic for a word that is not an exercise, a pattern or a muscle.
pub fn unknown(name: &Name, until: Option<Date>, definitions: &Definitions<'_>) -> Diagnostic {
    let written = name.value.as_str();
    let found = Diagnostic::new(
        Code::UnknownWord,
        name.span,
        format!("`{written}` is not an exercise, a pattern or a muscle"),
    );
    let groups = || PATTERNS.iter().chain(MUSCLES).copied();
    if let Some((before, comment)) = written.split_once(" #") {
        let known = definitions.exercise(before).is_some()
            || groups().any(|word| fold_name(word) == fold_name(before));
        if known {
            let fixed = format!("{before} # {comment}");
            let help = format!("write the comment with a space after its `#`: `# {comment}`");
            return found.help(help).fix(name.span, fixed);
        }
    }
    if let Some(group) = groups().find(|group| is_form_of(written, group)) {
        return found.help(format!("did you mean `{group}`?")).guess(name.span, group);
    }
    let alike: Vec<&Exercise> =
        definitions.exercises.iter().filter(|exercise| has_words(exercise, written)).collect();
    let whole = alike.iter().copied().find(|exercise| is_whole(exercise, written));
    let whole = whole.or_else(|| {
        let near = definitions.exercises.iter().find(|exercise| is_typo(written, &exercise.name));
        near.filter(|_| alike.is_empty())
    });
    let group = nearest(written, groups());
    offered(found, name, until, &Meanings { whole, alike, group })
}

/// The possible meanings of a word.
struct Meanings<'a> {
    /// The exercise whose name it is, with a typo.
    whole: Option<&'a Exercise>,
    /// All exercises whose names have its words.
    alike: Vec<&'a Exercise>,
    /// The most similar pattern or muscle.
    group: Option<&'static str>,
}

/// Offers each meaning as a fix.
fn offered(
    mut found: Diagnostic,
    name: &Name,
    until: Option<Date>,
    Meanings { whole, alike, group }: &Meanings<'_>,
) -> Diagnostic {
    let edit = |names: &[&str]| {
        // A date after the word applies to all names that replace it.
        let joint = until.map_or_else(|| ", ".to_owned(), |until| format!(" (until {until}), "));
        vec![Edit { span: name.span, text: names.join(&joint) }]
    };
    let mut said: Vec<String> = Vec::new();
    if let Some(group) = group {
        said.push(format!("`{group}`"));
        found = found.suggest(format!("avoid `{group}`"), edit(&[group]));
    }
    if let Some(exercise) = whole {
        let own = exercise.name.as_str();
        said.push(format!("`{own}` (only this exercise)"));
        found = found.suggest(format!("avoid `{own}`, only this exercise"), edit(&[own]));
    }
    match alike.as_slice() {
        [one] if whole.is_none() => {
            said.push(format!("`{}`", one.name));
            found = found.suggest(format!("avoid `{}`", one.name), edit(&[&one.name]));
        }
        [] | [_] => {}
        all if all.len() <= MOST_NAMED => {
            let names: Vec<&str> = all.iter().map(|exercise| exercise.name.as_str()).collect();
            said.push(format!("all {} exercises with these words", names.len()));
            let title = format!("avoid all {} exercises with these words", names.len());
            found = found.suggest(title, edit(&names));
        }
        _ => {}
    }
    let of_all =
        alike.iter().chain(whole.iter()).filter_map(|exercise| exercise.pattern.as_deref());
    let patterns: BTreeSet<&str> =
        of_all.filter(|pattern| group.as_ref() != Some(pattern)).collect();
    let patterns: Vec<&str> = patterns.into_iter().collect();
    let quoted: Vec<String> = patterns.iter().map(|pattern| format!("`{pattern}`")).collect();
    if (1..=MOST_PATTERNS).contains(&patterns.len()) {
        let word = if patterns.len() == 1 { "the pattern" } else { "the patterns" };
        let quoted = quoted.join(" and ");
        said.push(format!("{word} {quoted}"));
        found = found.suggest(format!("avoid {word} {quoted}"), edit(&patterns));
    } else if !patterns.is_empty() {
        said.push(format!("some of the patterns {}", quoted.join(", ")));
    }
    match said.split_last() {
        None => {
            let patterns = or_list(PATTERNS);
            found.help(format!("write an exercise, a muscle or a pattern: {patterns}"))
        }
        Some((last, [])) => found.help(format!("did you mean {last}?")),
        Some((last, others)) => {
            found.help(format!("did you mean {} or {last}?", others.join(", ")))
        }
    }
}

/// Whether a word is a group's own in another form: `lunges`, `squatting`, `horizontal-push`.
fn is_form_of(written: &str, group: &str) -> bool {
    let (own, group) = (plain_words(written), plain_words(group));
    let same = |(own, group): (&String, &String)| {
        own == group
            || stem(own).is_some_and(|stem| {
                // `lunging` is `lung-e`.
                group.strip_prefix(stem).is_some_and(|rest| rest.is_empty() || rest == "e")
            })
    };
    own.len() == group.len() && own.iter().zip(&group).all(same)
}

/// `squat` of `squatting`, `lung` of `lunging`.
fn stem(word: &str) -> Option<&str> {
    let stem = word.strip_suffix("ing").filter(|stem| stem.len() > 2)?;
    let mut letters = stem.chars().rev();
    let (last, before) = (letters.next()?, letters.next()?);
    let doubled = last == before && !matches!(last, 's' | 'l');
    if doubled { stem.get(..stem.len() - last.len_utf8()) } else { Some(stem) }
}

/// The names of an exercise.
fn names(exercise: &Exercise) -> impl Iterator<Item = &str> {
    std::iter::once(exercise.name.as_str()).chain(exercise.also.iter().map(|name| &*name.value))
}

/// Whether one of an exercise's names has all words that were written, typos included.
fn has_words(exercise: &Exercise, written: &str) -> bool {
    let wanted = plain_words(written);
    let has_all = |name: &str| {
        let own = plain_words(name);
        wanted.iter().all(|word| own.iter().any(|other| is_word(word, other)))
    };
    wanted.iter().any(|word| word.chars().count() > 2) && names(exercise).any(has_all)
}

/// Whether a written word is another, a typo at most.
fn is_word(written: &str, word: &str) -> bool {
    let typos = match word.chars().count() {
        0..4 => 0,
        4..7 => 1,
        _ => 2,
    };
    written == word || typos > 0 && damerau_levenshtein(written, word) <= typos
}

/// Whether what was written is a whole name of an exercise but for typos: a plural means several.
fn is_whole(exercise: &Exercise, written: &str) -> bool {
    let folded = fold_name(written);
    let own = plain_words(written);
    let is_plural = own.join(" ") != folded.replace('-', " ");
    !is_plural && names(exercise).any(|name| plain_words(name).len() == own.len())
}

/// Whether what was written is a whole name with its words apart or joined otherwise: `Backsquat`.
fn is_typo(written: &str, name: &str) -> bool {
    let (written, name) = (fold_name(written), fold_name(name));
    let is_part =
        name.contains(&written) || written.strip_suffix('s').is_some_and(|one| one == name);
    !is_part && normalized_damerau_levenshtein(&written, &name) >= LEAST
}
