//! "Did you mean": the nearest of the names there are.

/// Shorter words have too many neighbours for a guess to be worth reading.
const SHORTEST: usize = 2;
/// Below this similarity a guess misleads.
const LEAST: f64 = 0.72;
/// What a name gains that holds what was written, or is held by it.
const SUBSTRING_BONUS: f64 = 0.15;
/// The most names that are listed when none is near.
const MOST_LISTED: usize = 30;

/// The nearest of the known names, if one is near enough. Equal candidates: the first in
/// alphabetical order.
#[must_use]
pub fn nearest<'a>(written: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let wanted = written.to_lowercase();
    if wanted.chars().count() < SHORTEST || wanted.len() > 200 {
        return None;
    }
    let mut best: Option<(f64, &str)> = None;
    for name in known {
        let candidate = name.to_lowercase();
        let mut score = strsim::jaro_winkler(&wanted, &candidate)
            .max(strsim::normalized_damerau_levenshtein(&wanted, &candidate));
        let short = wanted.chars().count().min(candidate.chars().count());
        if short > SHORTEST + 1 && (candidate.contains(&wanted) || wanted.contains(&candidate)) {
            score += SUBSTRING_BONUS;
        }
        let better = best.is_none_or(|(s, n)| score > s || (score >= s && name < n));
        if score >= LEAST && better {
            best = Some((score, name));
        }
    }
    best.map(|(_, name)| name)
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
