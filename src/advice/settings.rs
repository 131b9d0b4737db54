//! What the coach makes of advice: the `advice:` lines of the programme, and the command line.

use std::collections::BTreeMap;

use crate::diagnostics::{Code, Severity, nearest};
use crate::plan::{AdviceSwitch, Order, Plan, Switch, Where};
use crate::quantity::{Exact, fold_name};

use super::{Advice, Context, Finding, LINTS, Lint};

/// Which advice is wanted, from where on, and how loudly.
#[derive(Clone, Debug, Default)]
pub struct Settings {
    none: bool,
    pub(super) allows: Vec<Allow>,
    bounds: BTreeMap<Code, Exact>,
    /// Numbers for some things only.
    special: Vec<Special>,
    levels: BTreeMap<Code, Severity>,
}

/// A piece of advice that does not apply.
#[derive(Clone, Debug)]
pub(super) struct Allow {
    code: Code,
    /// Everywhere, if empty.
    on: Vec<Target>,
    /// What was written after `on`.
    written: String,
    line: Option<Where>,
}

/// A number that holds for some things only.
#[derive(Clone, Debug)]
struct Special {
    code: Code,
    on: Vec<Target>,
    bound: Exact,
}

/// What an `allow` or a number is for.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Target {
    /// Weeks, from first to last.
    Weeks(u32, u32),
    /// An order letter, on one day (its name folded) or on all.
    Order(Option<String>, Order),
    /// A day, an exercise, an athlete or a muscle; folded.
    Name(String),
}

impl Settings {
    /// Reads what the plan says, then what is said besides. What fits nothing in the plan comes back
    /// as findings of the code `bad-advice`.
    #[must_use]
    pub fn of(plan: &Plan, besides: &[AdviceSwitch]) -> (Self, Vec<Advice>) {
        let mut settings = Self::default();
        let mut problems = Vec::new();
        for switch in plan.advice.iter().chain(besides) {
            if let Err((message, help)) = settings.read(plan, switch) {
                let at = switch.line.clone().unwrap_or_else(|| plan.line.clone());
                problems.push(Advice {
                    code: Code::BadAdvice,
                    level: Severity::Error,
                    message,
                    at,
                    others: Vec::new(),
                    help,
                    source: None,
                });
            }
        }
        (settings, problems)
    }

    fn read(&mut self, plan: &Plan, switch: &AdviceSwitch) -> Result<(), (String, String)> {
        match &switch.what {
            Switch::None => self.none = true,
            Switch::Allow { code, on } => {
                let Some(code) = Code::from_name(code) else { return Ok(()) };
                let on_targets = targets(plan, on)?;
                let written = on.join(", ");
                let line = switch.line.clone();
                self.allows.push(Allow { code, on: on_targets, written, line });
            }
            Switch::Bound { code, value, unit, on } => {
                let Some(code) = Code::from_name(code) else { return Ok(()) };
                let bound = LINTS.iter().find(|l| l.code == code).and_then(|lint| lint.bound);
                let Some(bound) = bound else {
                    return Err((
                        format!("`{}` does not depend on a number", code.name()),
                        format!("write `allow {}`, or leave the line out", code.name()),
                    ));
                };
                if !same_unit(bound.unit, unit) {
                    return Err((
                        format!("`{}` is not counted in {unit}", code.name()),
                        format!("write `{} at {} {}`", code.name(), value, bound.unit),
                    ));
                }
                if !on.is_empty() {
                    let on = targets(plan, on)?;
                    self.special.push(Special { code, on, bound: Exact::from(*value) });
                } else if self.bounds.insert(code, Exact::from(*value)).is_some() {
                    return Err((
                        format!("`{}` has two numbers", code.name()),
                        "keep one of the two lines".to_owned(),
                    ));
                }
            }
            Switch::Level { code, caution } => {
                let Some(code) = Code::from_name(code) else { return Ok(()) };
                let level = if *caution { Severity::Caution } else { Severity::Note };
                self.levels.insert(code, level);
            }
        }
        Ok(())
    }

    /// Whether there is to be no advice at all.
    #[must_use]
    pub fn is_off(&self) -> bool {
        self.none
    }

    /// The number from which on a lint speaks.
    #[must_use]
    pub fn bound(&self, lint: &Lint) -> Exact {
        let usual = lint.bound.map_or(0, |bound| bound.value);
        self.bounds.get(&lint.code).cloned().unwrap_or_else(|| Exact::whole(usual))
    }

    /// What a lint finds, each thing by the number that holds for it: the first that names it, else
    /// the one for everything.
    pub(super) fn findings(&self, context: &Context<'_>, lint: &Lint) -> Vec<Finding> {
        let meets = |special: &Special, finding: &Finding| {
            special.on.iter().any(|target| target.meets(context.plan, finding))
        };
        let specials: Vec<&Special> =
            self.special.iter().filter(|special| special.code == lint.code).collect();
        let own = |finding: &Finding| specials.iter().position(|special| meets(special, finding));
        let mut found = (lint.find)(context, &self.bound(lint));
        found.retain(|finding| own(finding).is_none());
        for (place, special) in specials.iter().enumerate() {
            let of_it = (lint.find)(context, &special.bound);
            found.extend(of_it.into_iter().filter(|finding| own(finding) == Some(place)));
        }
        found
    }

    /// How loudly a lint speaks.
    #[must_use]
    pub fn level(&self, code: Code) -> Severity {
        self.levels.get(&code).copied().unwrap_or_else(|| code.severity())
    }

    /// Whether a finding is allowed; marks what allowed it as used.
    pub(super) fn allowed(
        &self,
        plan: &Plan,
        code: Code,
        finding: &Finding,
        used: &mut [bool],
    ) -> bool {
        let mut allowed = false;
        for (allow, used) in self.allows.iter().zip(used) {
            let here = allow.on.is_empty() || allow.on.iter().any(|t| t.meets(plan, finding));
            if allow.code == code && here {
                (*used, allowed) = (true, true);
            }
        }
        allowed
    }

    /// Notes on every `allow` of the programme that allowed nothing.
    pub(super) fn unused(&self, used: &[bool]) -> Vec<Advice> {
        if self.allows.iter().any(|allow| allow.code == Code::UnusedAllow) {
            return Vec::new();
        }
        let idle = self.allows.iter().zip(used).filter(|(_, used)| !**used);
        let told = idle.filter_map(|(allow, _)| {
            let at = allow.line.clone()?;
            let place =
                if allow.on.is_empty() { String::new() } else { format!(" on {}", allow.written) };
            Some(Advice {
                code: Code::UnusedAllow,
                level: self.level(Code::UnusedAllow),
                message: format!("there is no `{}`{place} to allow", allow.code.name()),
                at,
                others: Vec::new(),
                help: "take the line out, or look what it was meant for".to_owned(),
                source: None,
            })
        });
        told.collect()
    }
}

fn same_unit(unit: &str, written: &str) -> bool {
    let plain = |text: &str| text.trim_end_matches('s').to_lowercase();
    unit == written || (written != "s" && unit != "s" && plain(unit) == plain(written))
}

impl Target {
    fn meets(&self, plan: &Plan, finding: &Finding) -> bool {
        let named = |name: &str, wanted: &str| fold_name(name) == *wanted;
        match self {
            Target::Weeks(first, last) => {
                finding.weeks.iter().any(|week| (first..=last).contains(&week))
            }
            Target::Order(day, order) => {
                let that_day = day.as_ref().is_none_or(|wanted| {
                    finding.day.as_ref().is_some_and(|day| named(day, wanted))
                });
                that_day && finding.orders.iter().any(|own| is_order(*order, *own))
            }
            Target::Name(wanted) => {
                let athlete = plan.athletes.get(finding.athlete).map(|a| a.name.as_str());
                let names = finding.exercises.iter().map(String::as_str);
                let all = names.chain(finding.day.as_deref()).chain(finding.muscle.as_deref());
                all.chain(athlete).any(|name| named(name, wanted))
            }
        }
    }
}

/// `D` is for all of the group, `D1` for itself.
fn is_order(wanted: Order, own: Order) -> bool {
    wanted.letter == own.letter && (wanted.number.is_none() || wanted.number == own.number)
}

fn order(text: &str) -> Option<Order> {
    let mut signs = text.chars();
    let letter = signs.next().filter(char::is_ascii_uppercase)?;
    let rest = signs.as_str();
    if rest.is_empty() {
        return Some(Order { letter, number: None });
    }
    if !rest.bytes().all(|b| b.is_ascii_digit()) {
        return None;
    }
    Some(Order { letter, number: Some(rest.parse().ok()?) })
}

fn weeks(text: &str) -> Option<(u32, u32)> {
    let rest = text.strip_prefix("weeks ").or_else(|| text.strip_prefix("week "))?;
    let (first, last) = rest.split_once(['-', '–']).unwrap_or((rest, rest));
    Some((first.trim().parse().ok()?, last.trim().parse().ok()?))
}

fn targets(plan: &Plan, on: &[String]) -> Result<Vec<Target>, (String, String)> {
    on.iter().map(|name| target(plan, name)).collect()
}

/// What a name after `on` stands for in this plan.
fn target(plan: &Plan, written: &str) -> Result<Target, (String, String)> {
    if let Some((first, last)) = weeks(written) {
        return Ok(Target::Weeks(first, last));
    }
    let sessions = || plan.athletes.iter().flat_map(|a| &a.sessions);
    let exercises = || sessions().flat_map(|s| &s.exercises);
    let days = plan.day_names();
    if let Some(order) = order(written)
        && exercises().any(|e| is_order(order, e.order))
    {
        return Ok(Target::Order(None, order));
    }
    if let Some((day, last)) = written.rsplit_once(' ')
        && let Some(order) = order(last)
        && days.iter().any(|name| fold_name(name) == fold_name(day))
    {
        return Ok(Target::Order(Some(fold_name(day)), order));
    }
    let muscles = exercises().flat_map(|e| &e.muscles).map(|m| m.muscle.as_str());
    let names: Vec<&str> = days
        .iter()
        .copied()
        .chain(plan.athletes.iter().map(|a| a.name.as_str()))
        .chain(exercises().map(|e| e.name.as_str()))
        .chain(muscles)
        .collect();
    let folded = fold_name(written);
    if names.iter().any(|name| fold_name(name) == folded) {
        return Ok(Target::Name(folded));
    }
    let help = match nearest(written, names.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "write an order letter (`D1`, or `Lower 1 D1` on one day), a day, an exercise, a \
                 muscle, an athlete or `weeks 3-5`"
            .to_owned(),
    };
    Err((format!("`{written}` stands for nothing in this plan"), help))
}
