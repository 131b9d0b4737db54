//! Runs lints on a plan, some athletes at a time, so that the plan of a whole squad is never in memory.
//! The findings of all athletes are combined at the end.

use rayon::prelude::*;

use crate::plan::{AdviceSwitch, Plan};

use super::lints::no_warm_up;
use super::settings::{LintFindings, PlanNames};
use super::{Advice, Area, LINTS, Lint, LintContext, Settings, Squad, fold};

/// Which lints are asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LintScope {
    /// All.
    All,
    /// Those about what a sheet shows.
    OnSheet,
}

/// What a lint has found so far.
struct LintState {
    /// Its place in the registry.
    place: usize,
    lint: &'static Lint,
    found: LintFindings,
    /// What it would have found if no session of the whole squad were prepared: for the lint that
    /// asks, and as long as none is.
    unprepared: LintFindings,
}

/// A plan that is being looked at.
pub struct LintRun {
    settings: Settings,
    asked: LintScope,
    squad: Squad,
    named: PlanNames,
    /// Whether a session is prepared by a warm-up.
    prepares: bool,
    looks: Vec<LintState>,
}

impl LintRun {
    /// Begins with the plan without its athletes, and more decisions about advice than it holds.
    #[must_use]
    pub fn new(head: &Plan, besides: &[AdviceSwitch], asked: LintScope) -> Self {
        Self::by(Settings::read(head, besides), head.weeks, asked)
    }

    /// The same, by settings.
    pub(super) fn by(settings: Settings, weeks: u32, asked: LintScope) -> Self {
        let lints = LINTS.iter().copied().enumerate();
        let lints = lints.filter(|(_, lint)| asked == LintScope::All || lint.on_sheet);
        let look = |(place, lint)| LintState {
            place,
            lint,
            found: LintFindings::default(),
            unprepared: LintFindings::default(),
        };
        Self {
            looks: lints.map(look).collect(),
            squad: Squad { weeks, athletes: Vec::new() },
            named: PlanNames::default(),
            prepares: false,
            settings,
            asked,
        }
    }

    /// Looks at some athletes' plans, which are not needed after.
    pub fn look(&mut self, plan: &Plan) {
        let before = self.squad.athletes.len();
        self.squad.athletes.extend(plan.athletes.iter().map(|athlete| athlete.name.clone()));
        if self.settings.asks_for_names() {
            self.named.take_in(plan);
        }
        if self.settings.is_off() {
            return;
        }
        let settings = &self.settings;
        self.prepares = self.prepares || no_warm_up::plans_one(plan);
        let unsure = !self.prepares;
        let prepared = LintContext::new(plan, true);
        let look_at = |look: &mut LintState| {
            look.found.extend(settings.look(&prepared, look.lint).later(before));
            if unsure && look.lint.code == no_warm_up::LINT.code {
                let nobody = LintContext::new(plan, false);
                look.unprepared.extend(settings.look(&nobody, look.lint).later(before));
            }
        };
        // Looking is most of the work, and no lint looks at what another found. At one athlete's
        // plan it takes less time than to start threads.
        match plan.athletes.as_slice() {
            [] | [_] => self.looks.iter_mut().for_each(look_at),
            _ => self.looks.par_iter_mut().for_each(look_at),
        }
    }

    /// What is wrong with the decisions about advice; and the advice, most important first.
    #[must_use]
    pub fn finish(mut self) -> (Vec<Advice>, Vec<Advice>) {
        let wrong = self.settings.settle(&self.named);
        let (settings, squad) = (&self.settings, &self.squad);
        if settings.is_off() {
            return (wrong, Vec::new());
        }
        let mut used = vec![false; settings.allows.len()];
        let mut found: Vec<(usize, Area, Advice)> = Vec::new();
        for LintState { place, lint, found: seen, unprepared } in self.looks {
            let asks = lint.code == no_warm_up::LINT.code;
            let seen = if asks && !self.prepares { unprepared } else { seen };
            let mut findings = settings.pick(squad, lint, seen);
            findings.retain(|finding| !settings.allowed(squad, lint.code, finding, &mut used));
            let level = settings.level(lint.code);
            for advice in fold::fold(squad, lint, level, findings) {
                found.push((place, lint.area, advice));
            }
        }
        found.sort_by(|(place_a, area_a, a), (place_b, area_b, b)| {
            (a.level, area_a, place_a, &a.at).cmp(&(b.level, area_b, place_b, &b.at))
        });
        let mut advice: Vec<Advice> = found.into_iter().map(|(.., advice)| advice).collect();
        if self.asked == LintScope::All {
            advice.extend(settings.unused(&used));
        }
        (wrong, advice)
    }
}
