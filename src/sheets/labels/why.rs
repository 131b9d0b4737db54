//! Texts of derivations.

use super::Labels;

/// Texts of derivations in one language.
#[derive(Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "each field is named for the English words it holds")]
pub struct WhyLabels {
    pub stated: &'static str,
    /// `{0}`: lift.
    pub tested: &'static str,
    /// `{0}`: lift; `{1}`: repetitions; `{2}`: load; `{3}`: equation; `{4}`: factor.
    pub estimated: &'static str,
    /// `{0}`: lift; `{1}`: percentage; `{2}`: the lift it comes from.
    pub derived: &'static str,
    /// `{0}`: percentage.
    pub training_max: &'static str,
    /// `{0}`: percentage.
    pub percent: &'static str,
    /// `{0}`: percentage.
    pub of_top_set: &'static str,
    /// `{0}`: repetitions with their noun; `{1}`: effort; `{2}`: equation; `{3}`: factor.
    pub from_effort: &'static str,
    pub last: &'static str,
    /// `{0}`: step; `{1}`: how many times.
    pub step: &'static str,
    /// `{0}`: step; `{1}`: how many times; `{2}`: resulting percentage.
    pub step_to: &'static str,
    pub plus: &'static str,
    /// `{0}`: session; `{1}`: rule.
    pub rule: &'static str,
    /// `{0}`: session; `{1}`: rule.
    pub rule_projected: &'static str,
    /// `{0}`: session; `{1}`: rule.
    pub max_rule: &'static str,
    /// `{0}`: session; `{1}`: rule.
    pub max_rule_projected: &'static str,
    /// `{0}`: phase; `{1}`: change.
    pub phase: &'static str,
    /// `{0}`: change.
    pub drop: &'static str,
    /// `{0}`: percentage.
    pub ramp: &'static str,
    pub no_less: &'static str,
    pub less_body_mass: &'static str,
    pub no_assistance: &'static str,
    pub little_assistance: &'static str,
    /// `{0}`: the mass that it is rounded to a multiple of.
    pub rounded: &'static str,
    pub nearest: &'static str,
    pub next_below: &'static str,
    pub a_week: &'static str,
    pub a_session: &'static str,
}

/// English.
pub static ENGLISH: WhyLabels = WhyLabels {
    stated: "as written",
    tested: "tested maximum of {0}",
    estimated: "{0}, {1} at {2}: {3} estimates x {4}",
    derived: "max of {0}: {1}% of {2}",
    training_max: "training max: {0}%",
    percent: "{0}% of it",
    of_top_set: "{0}% of the top set",
    from_effort: "{0} at {1}: {2} gives x {3} of the maximum",
    last: "the load of the last session",
    step: "{0} × {1}",
    step_to: "{0} × {1}: {2}%",
    plus: "changed as the line says",
    rule: "after {0}: {1}",
    rule_projected: "after {0}, projected: {1}",
    max_rule: "training max after {0}: {1}",
    max_rule_projected: "training max after {0}, projected: {1}",
    phase: "phase {0}: {1}",
    drop: "drop: {0}",
    ramp: "{0}% of the working load",
    no_less: "a load cannot go below zero",
    less_body_mass: "less the body mass",
    no_assistance: "no less than the body mass: a cut does not assist",
    little_assistance: "assistance under 2.5 kg: the body mass as it is",
    rounded: "rounded to {0}: the gym lists no sizes",
    nearest: "the nearest the gym can build",
    next_below: "the next one down that the gym can build",
    a_week: "/week",
    a_session: "/session",
};

impl Labels {
    /// Translates a step over weeks or sessions, as written: `+2.5 kg/week`.
    #[must_use]
    pub fn step(&self, step: &str) -> String {
        let step = step.replace(ENGLISH.a_week, self.why.a_week);
        self.numbers.spell(&step.replace(ENGLISH.a_session, self.why.a_session))
    }
}
