//! "Did you mean": the nearest of the names there are.

/// Shorter words have too many neighbours for a guess to be worth reading.
const SHORTEST: usize = 2;
/// Below this similarity a guess misleads.
const LEAST: f64 = 0.72;
/// What a name gains that holds what was written, or is held by it.
const SUBSTRING_BONUS: f64 = 0.15;
/// What sums of fractions may be off by.
const ROUNDING: f64 = 1e-9;
/// The most names that are listed when none is near.
const MOST_LISTED: usize = 30;

/// The nearest of the known names, if one is near enough. Equal candidates: the first in
/// alphabetical order.
#[must_use]
pub fn nearest<'a>(written: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let wanted = written.to_lowercase();
    let letters = Letters::of(&wanted);
    if letters.length < SHORTEST || wanted.len() > 200 {
        return None;
    }
    let mut best: Option<(f64, &str)> = None;
    for name in known {
        let candidate = name.to_lowercase();
        let short = letters.length.min(candidate.chars().count());
        let part = candidate.contains(&wanted) || wanted.contains(&candidate);
        let bonus = if short > SHORTEST + 1 && part { SUBSTRING_BONUS } else { 0.0 };
        // Comparing takes long: what cannot come near enough by its letters is not compared.
        let need = best.map_or(LEAST, |(score, _)| score) - bonus - ROUNDING;
        let most = letters.most_alike(&candidate);
        let mut score = 0.0_f64;
        if most.jaro_winkler >= need {
            score = score.max(strsim::jaro_winkler(&wanted, &candidate));
        }
        if most.steps >= need {
            score = score.max(strsim::normalized_damerau_levenshtein(&wanted, &candidate));
        }
        score += bonus;
        let better = best.is_none_or(|(s, n)| score > s || (score >= s && name < n));
        if score >= LEAST && better {
            best = Some((score, name));
        }
    }
    best.map(|(_, name)| name)
}

/// How often each letter of a text stands in it; letters share a place where they are too many.
struct Letters<'t> {
    text: &'t str,
    counts: [u16; 64],
    length: usize,
}

/// No less than the similarities of two texts.
struct MostAlike {
    jaro_winkler: f64,
    steps: f64,
}

impl<'t> Letters<'t> {
    fn of(text: &'t str) -> Self {
        let (mut counts, mut length) = ([0_u16; 64], 0);
        for letter in text.chars() {
            length += 1;
            if let Some(count) = counts.get_mut(letter as usize % 64) {
                *count = count.saturating_add(1);
            }
        }
        Self { text, counts, length }
    }

    /// Jaro can match no more than the letters in common, and Winkler adds a tenth of what is missing for
    /// each of four letters at the start; each letter of the longer text that has no like is a step of
    /// Damerau's and Levenshtein's.
    #[allow(clippy::cast_precision_loss, reason = "names are short")]
    fn most_alike(&self, other: &str) -> MostAlike {
        let other = Letters::of(other);
        let counts = self.counts.iter().zip(other.counts);
        let common = counts.map(|(ours, theirs)| usize::from(theirs.min(*ours))).sum::<usize>();
        let share = |of: usize| common.min(of) as f64 / of.max(1) as f64;
        let same = self.text.chars().zip(other.text.chars()).take(4).take_while(|(a, b)| a == b);
        let jaro = (share(self.length) + share(other.length) + 1.0) / 3.0;
        let jaro_winkler = jaro + 0.1 * same.count() as f64 * (1.0 - jaro);
        MostAlike { jaro_winkler, steps: share(self.length.max(other.length)) }
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
        Some((last, others)) if rest == 0 => format!("{} or {last}", others.join(", ")),
        Some(_) => format!("{} or one of {rest} more", shown.join(", ")),
    }
}

/// That there is nothing of a name, with the nearest name there is, else a list of them.
#[must_use]
pub fn no_such(kind: &str, name: &str, known: &[&str]) -> String {
    match nearest(name, known.iter().copied()) {
        Some(near) => format!("there is no {kind} `{name}`: did you mean `{near}`?"),
        None if known.is_empty() => format!("there is no {kind} `{name}`"),
        None => format!("there is no {kind} `{name}`: there is {}", or_list(known)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is passed over is no nearer than what is said of it.
    #[test]
    fn the_most_alike_is_no_less_than_the_similarity() {
        let names = [
            "",
            "back squat",
            "squat",
            "bench press",
            "pres",
            "ťlak",
            "aab",
            "aba",
            "ba ck",
            "kcab",
        ];
        for (a, b) in names.iter().flat_map(|a| names.map(|b| (*a, b))) {
            let most = Letters::of(a).most_alike(b);
            let jaro = strsim::jaro_winkler(a, b);
            let steps = strsim::normalized_damerau_levenshtein(a, b);
            // Two texts of no letters are the same, and nobody asks.
            let asked = !a.is_empty() || !b.is_empty();
            assert!(!asked || most.jaro_winkler + ROUNDING >= jaro, "{a}, {b}: {jaro}");
            assert!(!asked || most.steps + ROUNDING >= steps, "{a}, {b}: {steps}");
        }
    }

    #[test]
    fn finds_the_slip_of_a_finger() {
        let known = ["Back squat", "Front squat", "Bench press", "Bench pull"];
        assert_eq!(nearest("Bak squat", known.into_iter()), Some("Back squat"));
        assert_eq!(nearest("bench prss", known.into_iter()), Some("Bench press"));
        assert_eq!(nearest("Turkish get-up", known.into_iter()), None);
    }

    #[test]
    fn lists_what_there_is() {
        assert_eq!(or_list(&["a", "b", "c"]), "`a`, `b` or `c`");
    }
}
