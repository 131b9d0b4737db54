//! Combines the same advice for many athletes and weeks into one.

use std::collections::{BTreeMap, BTreeSet};

use crate::diagnostics::Severity;
use crate::plan::Location;
use crate::quantity::Exact;

use super::words::scope;
use super::{Advice, Finding, Lint, Squad};

/// Of one lint, this many lines are shown; the rest is counted.
const MOST_LINES: usize = 4;
/// On one line, this many cases are told apart; the rest is counted.
const MOST_CASES: usize = 4;

/// One case on one line: the worst of its findings, with all whom it is about.
struct Case {
    worst: Finding,
    athletes: BTreeSet<usize>,
    weeks: BTreeSet<u32>,
    /// What is said of each athlete in each week.
    said: BTreeSet<(usize, Vec<u32>, String)>,
}

impl Case {
    fn add(&mut self, finding: Finding) {
        self.athletes.insert(finding.athlete);
        self.weeks.extend(&finding.weeks);
        self.said.insert((finding.athlete, finding.weeks.clone(), finding.message.clone()));
        if (&finding.weight, &finding.then) > (&self.worst.weight, &self.worst.then) {
            self.worst = finding;
        }
    }

    /// When and for whom, and where the worst is that the sentence names.
    fn scope(&self, squad: &Squad) -> String {
        let worst = &self.worst;
        let differs = |by: fn(&Finding, usize, &[u32]) -> bool| {
            let alike = |athlete: usize, weeks: &[u32]| {
                self.said.contains(&(athlete, weeks.to_owned(), worst.message.clone()))
            };
            let mut others =
                self.said.iter().filter(|(athlete, weeks, _)| by(worst, *athlete, weeks));
            others.any(|(athlete, weeks, _)| !alike(*athlete, weeks))
        };
        let in_weeks = differs(|worst, athlete, _| athlete == worst.athlete);
        let between = differs(|worst, _, weeks| weeks == worst.weeks);
        let weeks = worst.weeks.iter().copied().filter(|_| in_weeks).collect();
        let athletes = [worst.athlete].into_iter().filter(|_| between).collect();
        scope(squad, (&self.weeks, &weeks), (&self.athletes, &athletes))
    }
}

/// Folds the findings of one lint.
pub fn fold(squad: &Squad, lint: &Lint, level: Severity, findings: Vec<Finding>) -> Vec<Advice> {
    let mut lines: BTreeMap<Location, BTreeMap<String, Case>> = BTreeMap::new();
    for finding in findings {
        let cases = lines.entry(finding.at.clone()).or_default();
        let case = cases.entry(finding.subject.clone()).or_insert_with(|| Case {
            worst: finding.clone(),
            athletes: BTreeSet::new(),
            weeks: BTreeSet::new(),
            said: BTreeSet::new(),
        });
        case.add(finding);
    }
    let mut found: Vec<(Exact, Advice)> = lines
        .into_values()
        .filter_map(|cases| one_line(squad, lint, level, cases.into_values().collect()))
        .collect();
    // The worst lines are shown; equal ones in the order of the file.
    found.sort_by(|(a, _), (b, _)| b.cmp(a));
    let rest: Vec<String> = found
        .drain(found.len().min(MOST_LINES)..)
        .map(|(_, advice)| advice.at.line.to_string())
        .collect();
    let mut shown: Vec<Advice> = found.into_iter().map(|(_, advice)| advice).collect();
    if let Some(last) = shown.last_mut().filter(|_| !rest.is_empty()) {
        let word = if rest.len() == 1 { "line" } else { "lines" };
        last.help.push_str(&format!("; the same on {word} {}", rest.join(", ")));
    }
    shown
}

fn one_line(
    squad: &Squad,
    lint: &Lint,
    level: Severity,
    mut cases: Vec<Case>,
) -> Option<(Exact, Advice)> {
    cases.sort_by(|a, b| b.worst.weight.cmp(&a.worst.weight));
    let mut cases = cases.into_iter();
    let first = cases.next()?;
    let others: Vec<Case> = cases.collect();
    let mut message = format!("{}{}", first.worst.message, first.scope(squad));
    let named = others.iter().take(MOST_CASES - 1);
    for (place, case) in named.enumerate() {
        message.push_str(if place == 0 { "; also " } else { ", " });
        message.push_str(&case.worst.short);
        if (&case.weeks, &case.athletes) != (&first.weeks, &first.athletes) {
            message.push_str(&case.scope(squad));
        }
    }
    if others.len() >= MOST_CASES {
        message.push_str(&format!(" and {} more", others.len() + 1 - MOST_CASES));
    }
    let worst = first.worst;
    let advice = Advice {
        code: lint.code,
        level,
        message,
        at: worst.at,
        others: worst.others,
        help: worst.help,
        source: Some(lint.source),
    };
    Some((worst.weight, advice))
}
