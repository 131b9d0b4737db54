//! The wording of a set, shared by cards and summary.

use crate::plan::{
    AthletePlan, Built, DoneSet, DoneWork, Implement, PlannedExercise, PlannedSet, SetKind,
};
use crate::quantity::{Duration, Effort, Exact, Mass, RepCount, Reps, SideRest, Unit, Work};

use super::labels::{Labels, fill};

/// The symbols in and around numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Signs {
    /// Between a count and what it counts.
    pub times: &'static str,
    /// Between the ends of a range.
    pub to: &'static str,
    /// Before a mass that is subtracted.
    pub minus: &'static str,
    /// Between a number and its unit.
    pub unit: &'static str,
    /// For `>=`.
    pub at_least: &'static str,
    /// For `<=`.
    pub at_most: &'static str,
}

/// Symbols for paper. A number and its unit are never separated.
pub const PRINTED: Signs = Signs {
    times: "\u{a0}×\u{a0}",
    to: "–",
    minus: "−",
    unit: "\u{a0}",
    at_least: "≥",
    at_most: "≤",
};
/// Symbols for terminals, e-mail and diffs.
pub const PLAIN: Signs =
    Signs { times: " x ", to: "-", minus: "-", unit: " ", at_least: ">=", at_most: "<=" };

/// The work of a set in a language: `6`, `8–12`, `5+`, `AMRAP`, `3+3+3 (20 s between)`, `30 s`, `40
/// m`, each with its sides.
#[must_use]
pub fn reps_in(labels: &Labels, signs: Signs, reps: &Reps) -> String {
    let sides = reps.each_side.then(|| labels.each_side.replace(' ', signs.unit));
    let between = reps
        .between
        .map(|SideRest(rest)| format!("({})", fill(labels.between_sides, &[&rest.to_string()])));
    let parts = [Some(work_in(labels, signs, &reps.work)), sides, between];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// The work of one side.
fn work_in(labels: &Labels, signs: Signs, work: &Work) -> String {
    let unit = signs.unit;
    let count = |count: RepCount| match count.max {
        None => format!("{}+", count.min),
        Some(max) if max == count.min => max.to_string(),
        Some(max) => format!("{}{}{max}", count.min, signs.to),
    };
    match work {
        Work::Reps(reps) => count(*reps),
        Work::Amrap => labels.amrap.to_owned(),
        Work::Cluster { parts, pause } => {
            let parts: Vec<String> = parts.iter().map(ToString::to_string).collect();
            let pause = pause
                .map(|p| format!(" ({})", fill(labels.between_parts, &[&p.to_string()])))
                .unwrap_or_default();
            format!("{}{pause}", parts.join("+"))
        }
        Work::Seconds(RepCount { min, max: Some(max) }) if min == max => {
            work.to_string().replace(' ', unit)
        }
        Work::Seconds(seconds) => format!("{}{unit}s", count(*seconds)),
        Work::Metres(metres) => format!("{}{unit}m", count(*metres)),
    }
}

/// Translates a rule.
#[must_use]
pub fn rule_in(labels: &Labels, signs: Signs, rule: &str) -> String {
    let rule = labels.rule(rule).replace(">=", signs.at_least).replace("<=", signs.at_most);
    let rule = rule.replace(" -", &format!(" {}", signs.minus));
    [Unit::Kg, Unit::Lb].into_iter().fold(rule, |rule, unit| {
        rule.replace(&format!(" {unit}"), &format!("{}{unit}", signs.unit))
    })
}

/// A mass without its unit, to `places` decimals, with grouped thousands, in a language and with
/// symbols.
#[must_use]
pub fn grouped(mass: &Exact, unit: Unit, places: u32, (labels, signs): (&Labels, Signs)) -> String {
    let value = mass / &Exact::whole(unit.in_units());
    let mut text = value.abs().to_decimal(places).to_string();
    if places == 1 && !text.contains('.') {
        // Columns are aligned on the decimal point.
        text.push_str(".0");
    }
    let zero = text.chars().all(|c| matches!(c, '0' | '.'));
    let out = labels.numbers.group(&text);
    if value.is_negative() && !zero { format!("{}{out}", signs.minus) } else { out }
}

/// The work done in a set: `8`, `8/7` if both sides are logged, `30 s`, `40 m`.
#[must_use]
pub fn done_work(set: &DoneSet, signs: Signs) -> String {
    let amount = match set.sides {
        Some([one, other]) => format!("{one}/{other}"),
        None => set.work.amount().to_string(),
    };
    let unit = match set.work {
        DoneWork::Reps(_) => return amount,
        DoneWork::Seconds(_) => "s",
        DoneWork::Metres(_) => "m",
    };
    format!("{amount}{}{unit}", signs.unit)
}

/// Formats sets for one athlete.
#[derive(Clone, Copy, Debug)]
pub struct Wording {
    /// The texts.
    pub labels: &'static Labels,
    /// The symbols.
    pub signs: Signs,
    /// The unit in which loads are shown.
    pub unit: Unit,
    /// A second unit, shown next to it.
    pub also: Option<Unit>,
}

impl Wording {
    /// The wording of an athlete's sheets.
    #[must_use]
    pub fn new(language: &str, athlete: &AthletePlan, signs: Signs) -> Self {
        let also = athlete.also_unit.filter(|unit| *unit != athlete.unit);
        Self { labels: Labels::of(language), signs, unit: athlete.unit, also }
    }

    /// The work of a set: `6`, `8–12`, `5+`, `AMRAP`, `3+3+3 (20 s between)`, `30 s`, `40 m`, each
    /// with its sides.
    #[must_use]
    pub fn reps(&self, reps: &Reps) -> String {
        reps_in(self.labels, self.signs, reps)
    }

    /// The load to prepare: `57.5 kg`, `2 × 16 kg`, `16 kg, one hand`, `16 kg, one dumbbell`, `body
    /// mass + 10 kg`, `about 60 kg`, `pin 25 kg`. `None` if it is chosen on the day.
    #[must_use]
    pub fn load(&self, set: &PlannedSet) -> Option<String> {
        let load = match &set.load {
            Some(built) if set.bodyweight => self.added(built.mass),
            Some(built) => self.built(built, set.reps.each_side),
            None if set.bodyweight => self.labels.body_mass.to_owned(),
            None => return None,
        };
        Some(if set.about { fill(self.labels.about, &[&load]) } else { load })
    }

    /// The text in place of a load that is chosen on the day.
    #[must_use]
    pub fn open(&self, set: &PlannedSet) -> &'static str {
        if set.to_choose { self.labels.choose_load } else { self.labels.load_open }
    }

    fn built(&self, built: &Built, each_side: bool) -> String {
        let mass = self.mass(built.mass);
        match &built.how {
            Implement::Dumbbells | Implement::Kettlebells => {
                format!("2{}{mass}", self.signs.times)
            }
            Implement::Dumbbell if each_side => fill(self.labels.one_hand, &[&mass]),
            Implement::Dumbbell => fill(self.labels.one_dumbbell, &[&mass]),
            Implement::Kettlebell => fill(self.labels.one_bell, &[&mass]),
            Implement::Stack { .. } => fill(self.labels.pin, &[&mass]),
            Implement::Band { name } if built.mass == Mass::ZERO => fill(self.labels.band, &[name]),
            Implement::Band { name } => format!("{} ({mass})", fill(self.labels.band, &[name])),
            Implement::BodyMass { .. } => self.added(built.mass),
            Implement::Bar { .. } | Implement::Other => mass,
        }
    }

    /// A load that is added to the body mass or subtracted from it.
    fn added(&self, mass: Mass) -> String {
        let body = self.labels.body_mass;
        if mass == Mass::ZERO {
            body.to_owned()
        } else if mass.is_negative() {
            let (mass, assisted) = (self.mass(mass.abs()), self.labels.assisted);
            format!("{body} {}{}{mass} ({assisted})", self.signs.minus, self.signs.unit)
        } else {
            format!("{body} +{}{}", self.signs.unit, self.mass(mass))
        }
    }

    /// The target, if the gym's nearest load is off it: `target 58.3 kg`.
    #[must_use]
    pub fn off_target(&self, set: &PlannedSet) -> Option<String> {
        let target = set.target.as_ref().filter(|_| set.off_target && set.load.is_some())?;
        Some(fill(self.labels.asked, &[&self.signed(target, self.unit)]))
    }

    /// The load in the athlete's second unit. For a pair, the load of each, as in [`Self::load`].
    #[must_use]
    pub fn in_other_unit(&self, set: &PlannedSet) -> Option<String> {
        let (unit, built) = (self.also?, set.load.as_ref()?);
        let each =
            (built.mass != Mass::ZERO).then(|| self.signed(&Exact::from_mass(built.mass), unit))?;
        Some(match built.how {
            Implement::Dumbbells | Implement::Kettlebells => {
                format!("2{}{each}", self.signs.times)
            }
            _ => each,
        })
    }

    /// How the set is done: effort, rest, interval, tempo, pause, range. Each has a fixed index, so
    /// that sets can be compared detail by detail. A rest that is printed elsewhere (`told`) is
    /// left out.
    #[must_use]
    pub fn details(&self, set: &PlannedSet, told: Option<Duration>) -> [Option<String>; 6] {
        let labels = self.labels;
        let time = |template, time: Option<Duration>| {
            time.map(|time| fill(template, &[&time.to_string()]))
        };
        let rest = set.rest.filter(|rest| rest.as_seconds() > 0 && Some(*rest) != told);
        [
            set.effort.map(|effort| self.effort(effort)),
            time(labels.rest, rest),
            time(labels.every, set.every),
            set.tempo.map(|tempo| fill(labels.tempo, &[&tempo.to_string()])),
            time(labels.rest_pause, set.rest_pause),
            set.range.as_ref().map(|range| fill(labels.range, &[range])),
        ]
    }

    /// The kind of a working set if it is not an ordinary one: `drop`, `back-off`.
    #[must_use]
    pub fn kind(&self, set: &PlannedSet) -> Option<&'static str> {
        match set.kind {
            SetKind::Drop => Some(self.labels.drop),
            SetKind::BackOff => Some(self.labels.back_off),
            SetKind::Work | SetKind::WarmUp => None,
        }
    }

    /// The effort: `RPE 7.5`, `RIR 2`.
    #[must_use]
    pub fn effort(&self, effort: Effort) -> String {
        self.labels.numbers.spell(&effort.to_string())
    }

    /// Repetitions with their noun: `5 reps`.
    #[must_use]
    pub fn counted_reps(&self, count: RepCount) -> String {
        // `1+` may be several repetitions.
        let n = count.max.unwrap_or(count.min.max(2));
        let template = self.labels.reps.form(self.labels.numbers.plural, n);
        fill(template, &[&work_in(self.labels, self.signs, &Work::Reps(count))])
    }

    /// The notes of an exercise, with a remark on a load that was written for another exercise.
    #[must_use]
    pub fn notes(&self, exercise: &PlannedExercise) -> Vec<String> {
        let kept = exercise.replaces.as_ref().filter(|replaced| replaced.load_kept);
        let kept = kept.map(|replaced| fill(self.labels.load_kept, &[&replaced.name]));
        exercise.notes.iter().cloned().chain(kept).collect()
    }

    /// A mass in the athlete's unit, as exactly as it is marked.
    #[must_use]
    pub fn mass(&self, mass: Mass) -> String {
        format!("{}{}{}", self.number(mass), self.signs.unit, self.unit)
    }

    /// A mass in the athlete's unit, without the unit.
    #[must_use]
    pub fn number(&self, mass: Mass) -> String {
        self.labels.numbers.spell(&mass.in_unit(self.unit).to_string())
    }

    /// A mass to one decimal, with its sign.
    #[must_use]
    pub fn signed(&self, mass: &Exact, unit: Unit) -> String {
        let number = (&mass.abs() / &Exact::whole(unit.in_units())).to_decimal(1).to_string();
        let number = self.labels.numbers.spell(&number);
        let sign = if mass.is_negative() { self.signs.minus } else { "" };
        format!("{sign}{number}{}{unit}", self.signs.unit)
    }

    /// Plates or pieces, heaviest first: `15 + 2.5 + 1.25`. Each is listed on its own, because `3 ×
    /// 45` would read as sets and repetitions.
    #[must_use]
    pub fn pieces(&self, masses: &[Mass]) -> String {
        let parts: Vec<String> = masses.iter().map(|mass| self.number(*mass)).collect();
        parts.join(" + ")
    }

    /// The bar and its collars: `20 kg bar`, `15 kg bar (technique), 5 kg collars`.
    #[must_use]
    pub fn bar(&self, built: &Built) -> Option<String> {
        let Implement::Bar { bar, name, collars, .. } = &built.how else {
            return None;
        };
        let mut out = fill(self.labels.bar, &[&self.mass(*bar)]).replace(' ', self.signs.unit);
        if let Some(name) = name {
            out = format!("{out} ({name})");
        }
        if *collars != Mass::ZERO {
            let collars = fill(self.labels.collars, &[&self.mass(*collars)]);
            out = format!("{out}, {collars}");
        }
        Some(out)
    }

    /// The plates of one side, inserted into `template`; `no plates` for an empty bar, `None` if
    /// there is no bar.
    #[must_use]
    pub fn plates(&self, set: &PlannedSet, template: &str) -> Option<String> {
        let Implement::Bar { per_side, .. } = &set.load.as_ref()?.how else {
            return None;
        };
        Some(match per_side.as_slice() {
            [] => self.labels.no_plates.to_owned(),
            plates => fill(template, &[&self.pieces(plates)]),
        })
    }

    /// The pieces of the added load, if there are several.
    #[must_use]
    pub fn hung(&self, set: &PlannedSet) -> Option<String> {
        match &set.load.as_ref()?.how {
            Implement::BodyMass { pieces } if pieces.len() > 1 => {
                Some(fill(self.labels.hung, &[&self.pieces(pieces)]))
            }
            _ => None,
        }
    }

    /// The stack that the pin belongs to.
    #[must_use]
    pub fn stack(&self, set: &PlannedSet) -> Option<String> {
        match &set.load.as_ref()?.how {
            Implement::Stack { name } if !name.is_empty() => Some(name.clone()),
            _ => None,
        }
    }
}

#[cfg(test)]
#[path = "wording_tests.rs"]
mod tests;
