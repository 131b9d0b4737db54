//! Translation of rules.
//!
//! The plan contains rules in the notation's words. They have few forms, so a rule is matched with
//! the templates of the notation, which are in English.

use super::{ENGLISH, Labels, fill};

/// Texts of rules in one language.
#[derive(Debug, PartialEq, Eq)]
pub struct RuleLabels {
    /// Conjunction of two conditions.
    pub and: &'static str,
    /// The text for all other cases, in place of a condition.
    pub otherwise: &'static str,
    /// Conditions. A comparison's operator precedes its number.
    pub conditions: [&'static str; 10],
    /// The forms of the conditions in [`COUNTED`] for a count of one.
    pub singles: [&'static str; 4],
    /// Actions.
    pub actions: [&'static str; 9],
}

/// Indices of the conditions that count something. The count is their last placeholder.
const COUNTED: [usize; 4] = [3, 4, 8, 9];

/// English: the notation itself.
pub static NOTATION: RuleLabels = RuleLabels {
    and: " and ",
    otherwise: "otherwise",
    conditions: [
        "all reps made",
        "top of range",
        "any rep missed",
        "missed {0} in a row",
        "last set {0} {1} reps {2} in a row",
        "last set {0} {1} reps",
        "RPE {0} {1}",
        "pain {0} {1}",
        "every {0} sessions",
        "every {0} weeks",
    ],
    singles: ["missed once", "last set {0} {1} reps", "every session", "every week"],
    actions: [
        "load up one",
        "load down one",
        "reps to bottom",
        "max from last set",
        "hold",
        "load {0}",
        "reps {0}",
        "sets {0}",
        "max {0}",
    ],
};

impl Labels {
    /// Translates a rule, including the format of its numbers. Unknown forms are left as they are.
    #[must_use]
    pub fn rule(&self, rule: &str) -> String {
        let rule = rule.strip_prefix("when ").unwrap_or(rule);
        let Some((conditions, actions)) = rule.split_once(": ") else { return rule.to_owned() };
        let own = self.rules;
        let when = if conditions == NOTATION.otherwise {
            own.otherwise.to_owned()
        } else {
            let one = |text| self.condition(text);
            conditions.split(NOTATION.and).map(one).collect::<Vec<_>>().join(own.and)
        };
        let then = actions.split(", ").map(|one| self.action(one)).collect::<Vec<_>>().join(", ");
        format!("{}{}{then}", self.numbers.spell(&when), self.colon)
    }

    /// Translates a condition.
    fn condition(&self, text: &str) -> String {
        let own = self.rules;
        let found = NOTATION.conditions.iter().enumerate().find_map(|(at, from)| {
            let values = values(text, from)?;
            let single = COUNTED.iter().position(|counted| *counted == at);
            let single = single.filter(|_| values.last() == Some(&"1"));
            let template = match single {
                Some(single) => own.singles.get(single),
                None => own.conditions.get(at),
            };
            Some(fill(template?, &values))
        });
        found.unwrap_or_else(|| text.to_owned())
    }

    /// Translates an action of a rule or a phase, such as `load -10%`.
    #[must_use]
    pub fn action(&self, action: &str) -> String {
        self.numbers.spell(&turned(action, &NOTATION.actions, &self.rules.actions))
    }

    /// Translates a session's name in a derivation, `week 3, Catch (2026-01-19)`. Its date has the
    /// format of the sheet's other lines.
    #[must_use]
    pub fn session(&self, name: &str) -> String {
        let dated = name.strip_suffix(')').and_then(|name| name.rsplit_once(" ("));
        let dated = dated.and_then(|(name, date)| Some((name, date.parse().ok()?)));
        let (name, date) = dated.map_or((name, None), |(name, date)| (name, Some(date)));
        let from = [ENGLISH.review.sitting_undated];
        match date.map(|date| self.show_date(date)) {
            None => turned(name, &from, &[self.review.sitting_undated]),
            Some(date) => {
                let to = self.review.sitting.replace("{2}", &date);
                turned(name, &from, &[&to])
            }
        }
    }
}

/// Translates a text that was made from one of some templates.
fn turned(text: &str, from: &[&str], to: &[&str]) -> String {
    let found = from.iter().zip(to).find_map(|(from, to)| {
        let values = values(text, from)?;
        Some(fill(to, &values))
    });
    found.unwrap_or_else(|| text.to_owned())
}

/// Finds the values that fill a template to give a text; `None` if there are none. Placeholders are
/// numbered in the order of the template, and the last value may contain spaces.
fn values<'t>(text: &'t str, template: &str) -> Option<Vec<&'t str>> {
    let mut parts = template.split('{');
    let mut rest = text.strip_prefix(parts.next()?)?;
    let mut values = Vec::new();
    let mut parts = parts.peekable();
    while let Some(part) = parts.next() {
        let (_, fixed) = part.split_once('}')?;
        let end = match fixed {
            "" if parts.peek().is_none() => rest.len(),
            fixed => rest.find(fixed)?,
        };
        values.push(rest.get(..end)?);
        rest = rest.get(end + fixed.len()..)?;
    }
    rest.is_empty().then_some(values)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rules_are_told_in_the_words_of_the_language() {
        let german = Labels::of("de");
        for (rule, told) in [
            (
                "top of range: load +2.5 kg, reps to bottom",
                "Obergrenze erreicht: Gewicht +2,5 kg, Wdh. zurück zur Untergrenze",
            ),
            (
                "all reps made and RPE <= 8: load +2.5%",
                "alle Wdh. geschafft und RPE <= 8: Gewicht +2,5\u{a0}%",
            ),
            (
                "last set >= 8 reps 2 in a row: max +2.5 kg",
                "letzter Satz >= 8 Wdh., 2-mal in\u{a0}Folge: Maximum +2,5 kg",
            ),
            ("otherwise: hold", "sonst: unverändert"),
            ("something else: load +1 kg", "something else: Gewicht +1 kg"),
        ] {
            assert_eq!(german.rule(rule), told);
            assert_eq!(ENGLISH.rule(rule), rule);
        }
        assert_eq!(
            german.session("week 3, Catch (2026-01-19)"),
            "Woche 3, Catch, Mo, 19. Jan. 2026"
        );
        assert_eq!(german.session("week 3, Catch (late)"), "Woche 3, Catch (late)");
        assert_eq!(german.session("week 3, Catch"), "Woche 3, Catch");
    }
}
