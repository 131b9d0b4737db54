//! The coach's decisions about advice: the `advice:` lines of the programme, and the command line.

use std::collections::{BTreeMap, BTreeSet};

use crate::diagnostics::{Code, Severity, nearest};
use crate::plan::{AdviceSwitch, Location, Order, Plan, Switch};
use crate::quantity::{Exact, fold_name};

use super::{Advice, Finding, LINTS, Lint, LintContext, Squad};

/// Which advice is wanted, from where on, and how loudly.
#[derive(Clone, Debug, Default)]
pub struct Settings {
    none: bool,
    pub(super) allows: Vec<Allow>,
    bounds: BTreeMap<Code, Exact>,
    /// Numbers for some things only.
    special: Vec<Special>,
    levels: BTreeMap<Code, Severity>,
    /// What does not hold, by the place among the switches.
    problems: Vec<(usize, Advice)>,
    /// Whether it is known what names stand for.
    settled: bool,
}

/// A piece of advice that does not apply.
#[derive(Clone, Debug)]
pub(super) struct Allow {
    code: Code,
    /// Everywhere, if empty.
    on: Vec<SwitchTarget>,
    /// What was written after `on`.
    written: Vec<String>,
    line: Option<Location>,
    switch: SettingPlace,
}

/// Where a switch stands: its number among all, and its line, else that of the programme.
#[derive(Clone, Debug)]
struct SettingPlace(usize, Location);

/// A number that holds for some things only.
#[derive(Clone, Debug)]
struct Special {
    code: Code,
    /// Nothing, until it is known what was written.
    on: Vec<SwitchTarget>,
    written: Vec<String>,
    bound: Exact,
    switch: SettingPlace,
}

/// What a lint found, of some athletes: by the usual number, and by each that holds for some things
/// only.
#[derive(Clone, Debug, Default)]
pub(super) struct LintFindings {
    usual: Vec<Finding>,
    special: Vec<Vec<Finding>>,
}

impl LintFindings {
    /// With what was found of other athletes.
    pub(super) fn extend(&mut self, other: LintFindings) {
        self.usual.extend(other.usual);
        if self.special.is_empty() {
            self.special = other.special;
        } else {
            let all = self.special.iter_mut().zip(other.special);
            all.for_each(|(all, more)| all.extend(more));
        }
    }

    /// The same, of athletes that stand so much later among all.
    pub(super) fn later(mut self, by: usize) -> Self {
        let special = self.special.iter_mut().flatten();
        self.usual.iter_mut().chain(special).for_each(|finding| finding.athlete += by);
        self
    }
}

/// Why a switch does not hold, and what to do.
type Wrong = (String, String);

/// What an `allow` or a number is for.
#[derive(Clone, Debug, PartialEq, Eq)]
enum SwitchTarget {
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
        let mut settings = Self::read(plan, besides);
        let mut names = PlanNames::default();
        names.take_in(plan);
        let problems = settings.settle(&names);
        (settings, problems)
    }

    /// Reads the same of a plan without athletes: what names stand for is not known yet.
    #[must_use]
    pub(super) fn read(head: &Plan, besides: &[AdviceSwitch]) -> Self {
        let mut settings = Self::default();
        for (number, switch) in head.advice.iter().chain(besides).enumerate() {
            let line = switch.line.clone().unwrap_or_else(|| head.line.clone());
            let place = SettingPlace(number, line);
            if let Err(wrong) = settings.take_in(switch, &place) {
                settings.problem(&place, wrong);
            }
        }
        settings
    }

    fn problem(&mut self, SettingPlace(number, at): &SettingPlace, (message, help): Wrong) {
        let advice = Advice {
            code: Code::BadAdvice,
            level: Severity::Error,
            message,
            at: at.clone(),
            others: Vec::new(),
            help,
            source: None,
        };
        self.problems.push((*number, advice));
    }

    /// Whether any switch is for some things only: whoever reads them has to know their names.
    pub(super) fn asks_for_names(&self) -> bool {
        self.allows.iter().any(|allow| !allow.written.is_empty()) || !self.special.is_empty()
    }

    /// Finds what the names stand for; gives what does not hold.
    pub(super) fn settle(&mut self, names: &PlanNames) -> Vec<Advice> {
        if !std::mem::replace(&mut self.settled, true) {
            let mut wrong = Vec::new();
            self.allows.retain_mut(|allow| match targets(names, &allow.written) {
                Ok(on) => {
                    allow.on = on;
                    true
                }
                Err(why) => {
                    wrong.push((allow.switch.clone(), why));
                    false
                }
            });
            for special in &mut self.special {
                match targets(names, &special.written) {
                    Ok(on) => special.on = on,
                    // It stays, for nothing, so that what was found by it finds its place.
                    Err(why) => wrong.push((special.switch.clone(), why)),
                }
            }
            for (place, why) in wrong {
                self.problem(&place, why);
            }
            self.problems.sort_by_key(|(number, _)| *number);
        }
        self.problems.iter().map(|(_, advice)| advice.clone()).collect()
    }

    fn take_in(&mut self, switch: &AdviceSwitch, place: &SettingPlace) -> Result<(), Wrong> {
        match &switch.what {
            Switch::None => self.none = true,
            Switch::Allow { code, on } => {
                let Some(code) = Code::from_name(code) else { return Ok(()) };
                let (written, line) = (on.clone(), switch.line.clone());
                let switch = place.clone();
                self.allows.push(Allow { code, on: Vec::new(), written, line, switch });
            }
            Switch::Bound { code, value, unit, on } => {
                let Some(code) = Code::from_name(code) else { return Ok(()) };
                let bound = LINTS.iter().find(|l| l.code == code).and_then(|lint| lint.bound);
                let Some(bound) = bound else {
                    return Err((
                        format!("`{}` does not depend on a number", code.name()),
                        format!("write `allow {}`, or delete the line", code.name()),
                    ));
                };
                if !same_unit(bound.unit, unit) {
                    return Err((
                        format!("`{}` is not counted in {unit}", code.name()),
                        format!("write `{} at {} {}`", code.name(), value, bound.unit),
                    ));
                }
                if !on.is_empty() {
                    let (written, bound) = (on.clone(), Exact::from(*value));
                    let (on, switch) = (Vec::new(), place.clone());
                    self.special.push(Special { code, on, written, bound, switch });
                } else if self.bounds.insert(code, Exact::from(*value)).is_some() {
                    return Err((
                        format!("`{}` is given two numbers", code.name()),
                        "keep one of the two lines".to_owned(),
                    ));
                }
            }
            Switch::Level { code, severity } => {
                let Some(code) = Code::from_name(code) else { return Ok(()) };
                self.levels.insert(code, *severity);
            }
        }
        Ok(())
    }

    /// Whether advice is switched off.
    #[must_use]
    pub fn is_off(&self) -> bool {
        self.none
    }

    /// The threshold of a lint.
    #[must_use]
    pub fn bound(&self, lint: &Lint) -> Exact {
        let usual = lint.bound.map_or(0, |bound| bound.value);
        self.bounds.get(&lint.code).cloned().unwrap_or_else(|| Exact::whole(usual))
    }

    /// What a lint finds by every number that may hold.
    pub(super) fn look(&self, context: &LintContext<'_>, lint: &Lint) -> LintFindings {
        let of_it = self.special.iter().filter(|special| special.code == lint.code);
        LintFindings {
            usual: (lint.find)(context, &self.bound(lint)),
            special: of_it.map(|special| (lint.find)(context, &special.bound)).collect(),
        }
    }

    /// Of what a lint found, each thing by the number that holds for it: the first that names it,
    /// else the one for everything.
    pub(super) fn pick(&self, squad: &Squad, lint: &Lint, found: LintFindings) -> Vec<Finding> {
        let meets = |special: &Special, finding: &Finding| {
            special.on.iter().any(|target| target.meets(squad, finding))
        };
        let specials: Vec<&Special> =
            self.special.iter().filter(|special| special.code == lint.code).collect();
        let own = |finding: &Finding| specials.iter().position(|special| meets(special, finding));
        let mut picked = found.usual;
        picked.retain(|finding| own(finding).is_none());
        for (place, of_it) in found.special.into_iter().enumerate() {
            picked.extend(of_it.into_iter().filter(|finding| own(finding) == Some(place)));
        }
        picked
    }

    /// The level of a lint.
    #[must_use]
    pub fn level(&self, code: Code) -> Severity {
        self.levels.get(&code).copied().unwrap_or_else(|| code.severity())
    }

    /// Whether a finding is allowed; marks what allowed it as used.
    pub(super) fn allowed(
        &self,
        squad: &Squad,
        code: Code,
        finding: &Finding,
        used: &mut [bool],
    ) -> bool {
        let mut allowed = false;
        for (allow, used) in self.allows.iter().zip(used) {
            let here = allow.on.is_empty() || allow.on.iter().any(|t| t.meets(squad, finding));
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
            let place = if allow.on.is_empty() {
                String::new()
            } else {
                format!(" on {}", allow.written.join(", "))
            };
            Some(Advice {
                code: Code::UnusedAllow,
                level: self.level(Code::UnusedAllow),
                message: format!("there is no `{}`{place} to allow", allow.code.name()),
                at,
                others: Vec::new(),
                help: "delete the line, or check what it was meant for".to_owned(),
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

impl SwitchTarget {
    fn meets(&self, squad: &Squad, finding: &Finding) -> bool {
        let named = |name: &str, wanted: &str| fold_name(name) == *wanted;
        match self {
            SwitchTarget::Weeks(first, last) => {
                finding.weeks.iter().any(|week| (first..=last).contains(&week))
            }
            SwitchTarget::Order(day, order) => {
                let that_day = day.as_ref().is_none_or(|wanted| {
                    finding.day.as_ref().is_some_and(|day| named(day, wanted))
                });
                that_day && finding.orders.iter().any(|own| is_order(*order, *own))
            }
            SwitchTarget::Name(wanted) => {
                let athlete = squad.athletes.get(finding.athlete).map(String::as_str);
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

/// The names of a plan that a switch may be for, each once, in the order they first come.
#[derive(Clone, Debug, Default)]
pub(super) struct PlanNames {
    days: Vec<String>,
    athletes: Vec<String>,
    exercises: Vec<String>,
    muscles: Vec<String>,
    orders: BTreeSet<Order>,
}

impl PlanNames {
    /// Takes in the names of some athletes' plans.
    pub(super) fn take_in(&mut self, plan: &Plan) {
        let once = |all: &mut Vec<String>, name: &str| {
            if !all.iter().any(|known| known == name) {
                all.push(name.to_owned());
            }
        };
        for athlete in &plan.athletes {
            self.athletes.push(athlete.name.clone());
            for session in &athlete.sessions {
                once(&mut self.days, &session.day);
                for exercise in &session.exercises {
                    self.orders.insert(exercise.order);
                    once(&mut self.exercises, &exercise.name);
                    exercise.muscles.iter().for_each(|m| once(&mut self.muscles, &m.muscle));
                }
            }
        }
    }
}

fn targets(names: &PlanNames, on: &[String]) -> Result<Vec<SwitchTarget>, Wrong> {
    on.iter().map(|name| target(names, name)).collect()
}

/// What a name after `on` stands for in this plan.
fn target(known: &PlanNames, written: &str) -> Result<SwitchTarget, Wrong> {
    if let Some((first, last)) = weeks(written) {
        return Ok(SwitchTarget::Weeks(first, last));
    }
    if let Some(order) = order(written)
        && known.orders.iter().any(|own| is_order(order, *own))
    {
        return Ok(SwitchTarget::Order(None, order));
    }
    if let Some((day, last)) = written.rsplit_once(' ')
        && let Some(order) = order(last)
        && known.days.iter().any(|name| fold_name(name) == fold_name(day))
    {
        return Ok(SwitchTarget::Order(Some(fold_name(day)), order));
    }
    let names = || {
        let all = [&known.days, &known.athletes, &known.exercises, &known.muscles];
        all.into_iter().flatten().map(String::as_str)
    };
    let folded = fold_name(written);
    if names().any(|name| fold_name(name) == folded) {
        return Ok(SwitchTarget::Name(folded));
    }
    let help = match nearest(written, names()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "write an order letter (`D1`, or `Lower 1 D1` on one day), a day, an exercise, a \
                 muscle, an athlete or `weeks 3-5`"
            .to_owned(),
    };
    Err((format!("`{written}` matches nothing in this plan"), help))
}
