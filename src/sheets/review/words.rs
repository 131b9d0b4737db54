//! The wording of a review, for the PDF and for text.

use crate::history::{
    AthleteReview, Concern, Miss, Missed, NewMax, NextSession, Prescribed, Reason, ReviewedSession,
};
use crate::plan::DoneSet;
use crate::quantity::{Exact, Mass, Unit};
use crate::sheets::labels::{Labels, ReviewLabels, capital, fill};
use crate::sheets::wording::{Signs, done_work, grouped, reps_in, rule_in};

/// Formats a review for one unit.
#[derive(Clone, Copy, Debug)]
pub struct ReviewWords {
    /// Texts of all sheets.
    pub base: &'static Labels,
    /// Texts of the review.
    pub labels: &'static ReviewLabels,
    /// The symbols.
    pub signs: Signs,
    /// The unit in which masses are shown.
    pub unit: Unit,
}

impl ReviewWords {
    /// For a language, a unit, and the symbols of paper or of plain text.
    #[must_use]
    pub fn new(language: &str, unit: Unit, signs: Signs) -> Self {
        let base = Labels::of(language);
        Self { base, labels: base.review, signs, unit }
    }

    /// A mass without its unit, to `places` decimals, with grouped thousands.
    #[must_use]
    pub fn number(&self, mass: &Exact, places: u32) -> String {
        grouped(mass, self.unit, places, (self.base, self.signs))
    }

    /// A plain number, to one decimal.
    #[must_use]
    pub fn plain(&self, number: &Exact) -> String {
        self.base.numbers.spell(&number.to_decimal(1).to_string())
    }

    /// A rule, translated.
    #[must_use]
    pub fn rule(&self, rule: &str) -> String {
        rule_in(self.base, self.signs, rule)
    }

    /// A mass with its unit.
    #[must_use]
    pub fn mass(&self, mass: Mass) -> String {
        let number = self.base.numbers.spell(&mass.in_unit(self.unit).to_string());
        format!("{number}{}{}", self.signs.unit, self.unit)
    }

    /// A mass with its unit, to one decimal.
    #[must_use]
    pub fn about(&self, mass: &Exact) -> String {
        format!("{}{}{}", self.number(mass, 1), self.signs.unit, self.unit)
    }

    /// A slope: `+1.2 kg a week`.
    #[must_use]
    pub fn slope(&self, slope: &Exact) -> String {
        let sign = if slope.is_negative() { "" } else { "+" };
        fill(self.labels.per_week, &[&format!("{sign}{}", self.about(slope))])
    }

    /// A session: `week 3, Catch, Mon 19 Jan 2026`.
    #[must_use]
    pub fn sitting(&self, sitting: &ReviewedSession) -> String {
        let week = sitting.week.to_string();
        match sitting.date {
            Some(date) => {
                fill(self.labels.sitting, &[&week, &sitting.day, &self.base.show_date(date)])
            }
            None => fill(self.labels.sitting_undated, &[&week, &sitting.day]),
        }
    }

    /// A session without the date, for lists.
    #[must_use]
    pub fn brief(&self, sitting: &ReviewedSession) -> String {
        fill(self.labels.sitting_undated, &[&sitting.week.to_string(), &sitting.day])
    }

    /// A reason to talk to the athlete.
    #[must_use]
    pub fn concern(&self, concern: &Concern) -> String {
        let labels = self.labels;
        match concern {
            Concern::Pain { pain, exercise, week } => {
                let pain = self.plain(&pain.to_exact());
                fill(labels.pain, &[&pain, exercise, &week.to_string()])
            }
            Concern::NothingLogged => labels.nothing_logged.to_owned(),
            Concern::MissesInARow { day, order, exercise, sessions } => fill(
                labels.misses_in_a_row,
                &[exercise, day, &order.to_string(), &sessions.to_string()],
            ),
            Concern::SessionsMissing { sessions } => {
                fill(labels.sessions_missing, &[&sessions.to_string()])
            }
            Concern::SessionsSkipped { sessions } => {
                fill(labels.sessions_skipped, &[&sessions.to_string()])
            }
            Concern::Falling { lift, slope } => fill(labels.falling, &[lift, &self.slope(slope)]),
            Concern::EffortAbove { lines, points } => {
                fill(labels.effort_above, &[&self.plain(points), &lines.to_string()])
            }
        }
    }

    /// All reasons, in one text.
    #[must_use]
    pub fn concerns(&self, concerns: &[Concern]) -> String {
        if concerns.is_empty() {
            return self.labels.nothing_stands_out.to_owned();
        }
        let all: Vec<String> = concerns.iter().map(|concern| self.concern(concern)).collect();
        all.join(self.base.semicolon)
    }

    /// A miss: `week 2, Drive: A Deadlift 5, 5, 5, 4 @ 117.5 kg for 5`.
    #[must_use]
    pub fn miss(&self, miss: &Miss) -> String {
        let labels = self.labels;
        let because = |reason: &Option<String>| {
            reason.as_ref().map(|why| format!(" ({why})")).unwrap_or_default()
        };
        let told = |label: &str, text: &str| self.base.labelled(label, text);
        let what = match &miss.what {
            Missed::SessionSkipped { reason } => {
                format!("{}{}", labels.session_skipped, because(reason))
            }
            Missed::SessionMissing => labels.session_missing.to_owned(),
            Missed::LineSkipped { order, exercise, reason } => {
                let what = format!("{}{}", labels.left_out, because(reason));
                told(&format!("{order} {exercise}"), &what)
            }
            Missed::LineNotLogged { order, exercise } => {
                told(&format!("{order} {exercise}"), labels.not_logged)
            }
            Missed::Sets { order, exercise, asked, sets, planned, .. } => {
                let asked = reps_in(self.base, self.signs, asked);
                let asked = format!("{planned}{}{asked}", self.signs.times);
                let done = fill(labels.sets_short, &[&self.sets(sets), &asked]);
                told(&format!("{order} {exercise}"), &done)
            }
        };
        told(&self.brief(&miss.sitting), &what)
    }

    /// Sets, with each load after the sets it belongs to: `5, 5, 4 @ 70 kg`.
    fn sets(&self, sets: &[DoneSet]) -> String {
        let run = |run: &[DoneSet]| {
            let made: Vec<String> = run.iter().map(|set| done_work(set, self.signs)).collect();
            let load = run.first().and_then(|set| set.load).filter(|load| *load != Mass::ZERO);
            let load = load.map(|load| format!(" @ {}", self.mass(load))).unwrap_or_default();
            format!("{}{load}", made.join(", "))
        };
        let runs: Vec<String> = sets.chunk_by(|a, b| a.load == b.load).map(run).collect();
        runs.join(", ")
    }

    /// A new max: `Front squat: 125.4 kg → 135 kg (logs.sets:12)`.
    #[must_use]
    pub fn new_max(&self, max: &NewMax) -> String {
        let line = format!("{}:{}", max.line.file, max.line.line);
        let (before, now) = (self.about(&max.before), self.about(&max.now));
        fill(self.labels.new_max, &[&max.lift, &before, &now, &line])
    }

    /// A prescription: `4 x 5 @ 62.5 kg`.
    #[must_use]
    pub fn prescribed(&self, line: &Prescribed) -> String {
        let reps = reps_in(self.base, self.signs, &line.reps);
        let sets = format!("{}{}{reps}", line.sets, self.signs.times);
        let load = match line.load {
            None | Some(Mass::ZERO) if line.bodyweight => Some(self.base.body_mass.to_owned()),
            None => None,
            Some(load) if line.bodyweight && load.is_negative() => Some(format!(
                "{} {}{}{}",
                self.base.body_mass,
                self.signs.minus,
                self.signs.unit,
                self.mass(load.abs())
            )),
            Some(load) if line.bodyweight => {
                Some(format!("{} +{}{}", self.base.body_mass, self.signs.unit, self.mass(load)))
            }
            Some(load) if line.pair => Some(format!("2{}{}", self.signs.times, self.mass(load))),
            Some(load) => Some(self.mass(load)),
        };
        let load = load.map(|l| if line.about { fill(self.base.about, &[&l]) } else { l });
        match load {
            Some(load) => format!("{sets} @ {load}"),
            None => format!("{sets} ({})", self.labels.load_open),
        }
    }

    /// The change of a line: `4 x 5 @ 62.5 kg → 2 x 5 @ 55 kg`.
    #[must_use]
    pub fn change(&self, change: &NextSession) -> String {
        format!("{} → {}", self.prescribed(&change.last), self.prescribed(&change.next))
    }

    /// The text for no changes.
    #[must_use]
    pub fn no_changes(&self, athlete: &AthleteReview) -> &'static str {
        if athlete.weeks.iter().all(|week| week.sessions_to_come == 0) {
            return self.labels.nothing_to_come;
        }
        self.labels.no_changes
    }

    /// The reasons for a change, without the phase, which is part of the session's name.
    #[must_use]
    pub fn reasons(&self, change: &NextSession) -> String {
        let own = change.reasons.iter().filter(|reason| !matches!(reason, Reason::Phase { .. }));
        let all: Vec<String> = own.map(|reason| self.reason(reason)).collect();
        all.join(self.base.semicolon)
    }

    fn reason(&self, reason: &Reason) -> String {
        let labels = self.labels;
        match reason {
            Reason::Rule { rule, session, projected: false, .. } => {
                fill(labels.by_rule, &[&self.rule(rule), &self.base.session(session)])
            }
            Reason::Rule { rule, session, .. } => {
                fill(labels.by_projected, &[&self.rule(rule), &self.base.session(session)])
            }
            Reason::NewMax { lift, now, .. } => fill(labels.by_new_max, &[lift, &self.about(now)]),
            Reason::Phase { name: Some(name), .. } => fill(labels.by_phase, &[name]),
            Reason::Phase { name: None, before } => {
                fill(labels.by_phase_end, &[before.as_deref().unwrap_or_default()])
            }
            Reason::Programme { from_percent: Some(from), to_percent: Some(to), .. } => {
                let spell = |percent: &str| self.base.numbers.spell(percent);
                fill(labels.by_percent, &[&spell(from), &spell(to)])
            }
            Reason::Programme { .. } => labels.by_programme.to_owned(),
        }
    }

    /// The changes of each session, in order: the session's name, with a phase that starts or ends,
    /// and its lines.
    #[must_use]
    pub fn sessions_that_change<'a>(
        &self,
        athlete: &'a AthleteReview,
    ) -> Vec<(String, Vec<&'a NextSession>)> {
        let mut all: Vec<(String, Vec<&NextSession>)> = Vec::new();
        for change in &athlete.changes {
            let sitting =
                ReviewedSession { week: change.week, day: change.day.clone(), date: change.date };
            let of_session = athlete
                .changes
                .iter()
                .filter(|other| (other.week, &other.day) == (change.week, &change.day))
                .flat_map(|other| &other.reasons);
            let is_phase = |reason: &&Reason| matches!(reason, Reason::Phase { .. });
            let phase = of_session.filter(is_phase).map(|reason| self.reason(reason)).next();
            let parts: Vec<String> = [self.sitting(&sitting)].into_iter().chain(phase).collect();
            let name = capital(&parts.join(self.base.colon));
            match all.last_mut().filter(|(last, _)| *last == name) {
                Some((_, lines)) => lines.push(change),
                None => all.push((name, vec![change])),
            }
        }
        all
    }
}
