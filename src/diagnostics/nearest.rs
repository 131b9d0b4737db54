//! "Did you mean": finds the most similar known name.

/// The shortest word to guess for. Shorter words are similar to too many others.
const SHORTEST: usize = 2;
/// The least similarity at which a guess is useful.
const LEAST: f64 = 0.72;
/// The bonus for a name that contains the written word, or is part of it.
const SUBSTRING_BONUS: f64 = 0.15;
/// The most names that are listed if none is similar.
const MOST_LISTED: usize = 30;

/// The most similar known name, if one is similar enough. Of equal candidates, the first in
/// alphabetical order.
#[must_use]
pub fn nearest<'a>(written: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let wanted = written.to_lowercase();
    if wanted.chars().count() < SHORTEST || wanted.len() > 200 {
        return None;
    }
    let letters = Letters::of(&wanted);
    let mut best: Option<(f64, &str)> = None;
    for name in known {
        // A file of nothing but unknown names asks this of every exercise at every line.
        let least = best.map_or(LEAST, |(score, _)| score);
        if letters.likeness_at_most(&Letters::of(name)) < least {
            continue;
        }
        let candidate = name.to_lowercase();
        let score = score(&wanted, &candidate);
        let better = best.is_none_or(|(s, n)| score > s || (score >= s && name < n));
        if score >= LEAST && better {
            best = Some((score, name));
        }
    }
    best.map(|(_, name)| name)
}

/// The similarity of two words in lower case: 1 for equal words, and a bonus if one contains the other.
fn score(wanted: &str, candidate: &str) -> f64 {
    let score = strsim::jaro_winkler(wanted, candidate)
        .max(strsim::normalized_damerau_levenshtein(wanted, candidate));
    let short = wanted.chars().count().min(candidate.chars().count());
    let within = short > SHORTEST + 1 && (candidate.contains(wanted) || wanted.contains(candidate));
    if within { score + SUBSTRING_BONUS } else { score }
}

/// How often a word has each of its letters, capitals as small ones.
struct Letters {
    counts: [u8; 128],
    /// `None` for a word with others than ASCII's, which is never passed over unseen.
    length: Option<u32>,
    first: [u8; 4],
}

impl Letters {
    fn of(word: &str) -> Self {
        let mut letters = Self { counts: [0; 128], length: None, first: [0; 4] };
        for (at, byte) in word.bytes().enumerate() {
            let byte = byte.to_ascii_lowercase();
            match letters.counts.get_mut(usize::from(byte)) {
                Some(count) => *count = count.saturating_add(1),
                None => return letters,
            }
            if let Some(first) = letters.first.get_mut(at) {
                *first = byte;
            }
        }
        // Beyond what a count holds, the counts say nothing.
        letters.length = u8::try_from(word.len()).ok().map(u32::from);
        letters
    }

    /// The most that [`nearest`] can score two words, from the letters that they share: every
    /// letter that is not shared is one edit at least, and no match of Jaro's.
    fn likeness_at_most(&self, other: &Self) -> f64 {
        let (Some(one), Some(two)) = (self.length, other.length) else { return f64::INFINITY };
        let pairs = self.counts.iter().zip(&other.counts);
        let shared: u32 = pairs.map(|(a, b)| u32::from(*a.min(b))).sum();
        let (shared, one, two) = (f64::from(shared), f64::from(one), f64::from(two));
        let edits = shared / one.max(two);
        let jaro = (shared / one + shared / two + 1.0) / 3.0;
        let same = self.first.iter().zip(&other.first).take_while(|(a, b)| a == b).count();
        let winkler = jaro + [0.0, 0.1, 0.2, 0.3, 0.4].get(same).unwrap_or(&0.4) * (1.0 - jaro);
        // A hair more than the sums, which round.
        let bonus = if shared >= one.min(two) { SUBSTRING_BONUS } else { 0.0 };
        edits.max(winkler) + bonus + 1e-9
    }
}

/// The names as `a, b or c`; long lists are cut.
#[must_use]
pub fn or_list(names: &[&str]) -> String {
    let shown: Vec<String> = names.iter().take(MOST_LISTED).map(|n| format!("`{n}`")).collect();
    let rest = names.len().saturating_sub(MOST_LISTED);
    match shown.split_last() {
        None => String::new(),
        Some((last, [])) => last.clone(),
        Some((last, related)) if rest == 0 => format!("{} or {last}", related.join(", ")),
        Some(_) => format!("{} or one of {rest} more", shown.join(", ")),
    }
}

/// The message for an unknown name, with the most similar name or a list of known names.
#[must_use]
pub fn no_such(kind: &str, name: &str, known: &[&str]) -> String {
    match nearest(name, known.iter().copied()) {
        Some(near) => format!("there is no {kind} `{name}`: did you mean `{near}`?"),
        None if known.is_empty() => format!("there is no {kind} `{name}`"),
        None => format!("there is no {kind} `{name}`: choose {}", or_list(known)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_slip_of_a_finger() {
        let known = ["Back squat", "Front squat", "Bench press", "Bench pull"];
        assert_eq!(nearest("Bak squat", known.into_iter()), Some("Back squat"));
        assert_eq!(nearest("bench prss", known.into_iter()), Some("Bench press"));
        assert_eq!(nearest("Turkish get-up", known.into_iter()), None);
    }

    /// The bound never passes over a name that would have been taken.
    #[test]
    fn no_word_scores_more_than_its_letters_allow() {
        let words = [
            "Back squat",
            "back sqat",
            "squat back",
            "Bench press",
            "Bnch pres",
            "press",
            "pressing",
            "a",
            "aa",
            "ab",
            "ba",
            "Böck squat",
            "weeks",
            "week",
            "Romanian deadlift",
            "RDL",
            "deadlift, Romanian",
            "rest",
            "reset",
            "tempo",
            "",
            "  ",
            "note",
            "not",
            "toned",
        ];
        for one in words {
            for two in words {
                let (a, b) = (one.to_lowercase(), two.to_lowercase());
                let most = Letters::of(&a).likeness_at_most(&Letters::of(two));
                if !a.is_empty() && !b.is_empty() {
                    assert!(score(&a, &b) <= most, "{one}, {two}: {} > {most}", score(&a, &b));
                }
            }
        }
    }

    #[test]
    fn lists_what_there_is() {
        assert_eq!(or_list(&["a", "b", "c"]), "`a`, `b` or `c`");
    }
}
