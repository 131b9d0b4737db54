//! One session: its exercises with all their sets.

use jiff::civil::Date;

use crate::catalogue::{Cue, Exercise, LoadNeed, LoadingMethod};
use crate::diagnostics::{Code, Diagnostic};
use crate::plan::{Citation, CitationOf, Limit, MuscleShare, PlannedExercise, Replaced, Session};
use crate::quantity::Exact;
use crate::resolve::{Day, ExerciseId, Group, Instead, Line, Load, Phase, in_force, ring_found};
use crate::source::Span;

use super::AthleteEvaluator;
use super::gear::equipment;
use super::load::LoadRequest;
use super::maxes::NoMax;
use super::over::over_max;
use super::progression::{EvaluatedExercise, SessionContext};
use super::stand_in::Standing;
use super::substitute::Cause;
use super::substitution_help::to_fill;
use super::tool::ToolFor;

impl AthleteEvaluator<'_, '_> {
    pub(super) fn session(&mut self, week: u32, day_index: usize, day: &Day) -> Session {
        let programme = self.programme;
        let (week_starts, date) = self.dates(week, day);
        // Where missed sessions are made up, everything of that day moves back.
        let lag = self.lag.get(day_index).copied().unwrap_or(0);
        let done_week = week.saturating_sub(lag).max(1);
        let phase = programme.phases.iter().find(|phase| phase.weeks.contains(done_week));
        let sitting =
            SessionContext { week, done_week, day_index, day, phase, date: date.or(week_starts) };
        let mut ramped: Vec<ExerciseId> = Vec::new();
        let mut worked = Vec::new();
        for line in &day.lines {
            worked.extend(self.exercise(&sitting, line, &mut ramped));
        }
        let (status, logged) = self.status(week, day_index);
        let body_mass = logged.and_then(|session| session.body_mass);
        let log_notes = logged.map(|session| session.notes.clone()).unwrap_or_default();
        self.follow(&sitting, &mut worked);
        let exercises: Vec<PlannedExercise> = worked.into_iter().map(|w| w.planned).collect();
        let athlete = &self.trainee.athlete;
        let mut notes: Vec<String> = day.notes.clone();
        notes.extend(phase.into_iter().flat_map(|phase| phase.notes.iter().cloned()));
        Session {
            week,
            day: day.name.clone(),
            date,
            weekday: day.weekday,
            week_starts,
            phase: phase.map(|phase| phase.name.clone()),
            deload: phase.is_some_and(Phase::lightens),
            status,
            repeats_week: (done_week != week).then_some(done_week),
            body_mass,
            log_notes,
            before: day.before.clone().or_else(|| programme.before.clone()),
            after: day.after.clone().or_else(|| programme.after.clone()),
            notes,
            limits: self.limits(date.or(week_starts)),
            time: athlete.time.or(day.time).or(programme.time),
            groups: super::groups::groups(day, phase, &exercises),
            exercises,
            line: programme.sources.locate(day.span),
        }
    }

    /// The limits in force on a day; all, when there are no dates.
    fn limits(&self, date: Option<Date>) -> Vec<Limit> {
        let limits = self.trainee.athlete.limits.iter();
        let limits = limits.filter(|limit| in_force(limit.until, date));
        limits
            .map(|limit| Limit {
                name: limit.name.value.clone(),
                text: match &limit.who {
                    Some(who) => format!("{} ({who})", limit.text),
                    None => limit.text.clone(),
                },
                until: limit.until,
            })
            .collect()
    }

    fn exercise<'l>(
        &mut self,
        sitting: &SessionContext<'_>,
        line: &'l Line,
        ramped: &mut Vec<ExerciseId>,
    ) -> Option<EvaluatedExercise<'l>> {
        let SessionContext { done_week: week, day_index, day, phase, date, .. } = *sitting;
        let programme = self.programme;
        let variant = line.variant(self.index);
        let spec = usize::try_from(week).ok().and_then(|week| variant.weeks.get(week - 1))?;
        self.ring(line, date);
        let replaced = self.trainee.instead(line.exercise, date);
        let lift = replaced.as_ref().map_or(line.exercise, |instead| instead.by);
        let exercise = programme.exercises.get(lift.0)?;
        self.avoided(lift, line, sitting);
        let usual = self.means(exercise, lift, line, spec, date);
        let standing = self.standing(line.exercise, lift, usual.as_ref());
        let key = standing.key(day_index, line.order, lift);
        let wanted = ToolFor { key, day, line, lift, exercise };
        let means = usual.map(|usual| self.tool(&wanted, usual));
        let on_body = means.as_ref().is_some_and(LoadingMethod::is_body_mass);
        let rules_act = self.rules_act(spec, standing, (lift, on_body));
        let planned = super::sets::Line {
            day,
            written: line,
            variant,
            spec,
            phase,
            lift,
            exercise,
            means: means.as_ref(),
            key,
            standing,
            week: sitting.week,
            date,
        };
        let sets = self.sets(&planned, ramped);
        let own = replaced.is_none();
        let setup = spec.setup.as_ref().or(variant.setup.as_ref()).or(line.setup.as_ref());
        let line_setup = setup.filter(|_| own).cloned();
        let language = super::reads(programme, self.trainee);
        let safety = exercise.safety_in(language);
        let for_all = exercise.safety_in(super::language(programme));
        let for_all = for_all.filter(|for_all| safety != Some(*for_all));
        let mut cues: Vec<Cue> = Vec::new();
        if own {
            cues.extend(line.cues.iter().chain(&variant.cues).chain(&spec.cues).cloned());
        }
        if cues.is_empty() {
            cues.clone_from(&exercise.cues);
        }
        let notes = line.notes.iter().chain(&variant.notes).chain(&spec.notes).cloned().collect();
        let original = programme.exercises.get(line.exercise.0).map(|e| e.name.clone());
        let kept = |g: &Group| matches!(g.load, Load::Mass { .. }) && !g.load_own;
        let load_kept = standing == Standing::Alike && spec.groups.iter().any(kept);
        let own_settings = self.trainee.settings.get(&lift).into_iter().flatten().cloned();
        let written = spec.setting.iter().chain(&variant.setting).chain(&line.setting);
        let settings = written.filter(|_| own).cloned().chain(own_settings);
        let each_side = exercise.each_side || sets.iter().any(|set| set.reps.each_side);
        let state = self.lines.get(&key);
        let projected =
            state.is_some_and(|state| state.projected) || self.rests_on_projected_max(lift, spec);
        let planned = PlannedExercise {
            order: line.order,
            name: exercise.name.clone(),
            each_side,
            pattern: exercise.pattern.clone(),
            also_patterns: exercise.also_patterns.clone(),
            compound: exercise.compound,
            equipment: means.as_ref().and_then(|means| equipment(means, exercise)),
            needs: exercise.needs.clone(),
            muscles: muscles(exercise),
            replaces: replaced.zip(original).map(|(instead, name)| Replaced {
                name,
                reason: instead.reason.clone(),
                load_kept,
            }),
            setup: line_setup.or_else(|| exercise.setup_in(language).map(str::to_owned)),
            settings: settings.collect(),
            sources: citations(exercise, [&line.source, &variant.source, &spec.source], &cues),
            cues: cues.into_iter().map(|cue| cue.text).collect(),
            notes,
            safety: safety.map(str::to_owned),
            programme_safety: for_all.map(str::to_owned),
            demo: exercise.demo.clone(),
            rules: if rules_act { self.rules(week, phase, line) } else { Vec::new() },
            projected,
            outcome: None,
            fired: None,
            over_max: over_max(line, variant, spec).map(str::to_owned),
            sets,
            line: programme.sources.locate(line.span),
        };
        Some(EvaluatedExercise { planned, line, spec, lift, means, key, rules_act })
    }

    /// Reports exercises that replace each other in a ring on a day; one that holds on every day has
    /// been reported with the athlete.
    fn ring(&mut self, line: &Line, date: Option<Date>) {
        let ring = self.trainee.ring(line.exercise, date);
        let dated =
            |ring: &Vec<(ExerciseId, &Instead)>| ring.iter().any(|(_, link)| link.until.is_some());
        let found = ring.filter(dated).and_then(|ring| {
            ring_found(&ring, &self.trainee.athlete.name, &self.programme.exercises)
        });
        self.problems.extend(found);
    }

    /// Whether a percentage of this line is of a max that a projected session has changed.
    fn rests_on_projected_max(&self, lift: ExerciseId, spec: &crate::resolve::WeekSpec) -> bool {
        spec.groups.iter().any(|group| match group.load {
            Load::Percent { of: crate::resolve::PercentBase::Lift(other), .. } => {
                self.projected_maxes.contains(&other)
            }
            Load::Percent { of: crate::resolve::PercentBase::TrainingMax, .. } => {
                self.projected_maxes.contains(&lift)
            }
            _ => false,
        })
    }

    /// The rules that will decide the next session, in words; none act in a deload week.
    fn rules(&self, week: u32, phase: Option<&Phase>, line: &Line) -> Vec<String> {
        // After the last session there is no next one.
        if phase.is_some_and(Phase::lightens) || week == self.programme.weeks {
            return Vec::new();
        }
        let variant = line.variant(self.index);
        let run = variant.rules.iter().filter(|r| r.weeks.is_none_or(|w| w.contains(week)));
        run.map(|rule| rule.text.clone()).collect()
    }

    /// Reports an exercise that is to be avoided, once a line.
    fn avoided(&mut self, lift: ExerciseId, line: &Line, sitting: &SessionContext<'_>) {
        if !self.avoids(lift, sitting.date) {
            return;
        }
        let Some(avoided) = self.trainee.avoid.get(&lift) else { return };
        if !self.reported.avoided.insert((sitting.day_index, line.order)) {
            return;
        }
        let itself = self.programme.names.find(&avoided.why) == Some(lift.0);
        let word = (!itself).then(|| avoided.why.clone());
        let cause = Cause::Avoided(avoided.span, word);
        self.needs_another(line, lift, cause, sitting.date);
    }

    /// What the athlete's gym loads the exercise with.
    fn means(
        &mut self,
        exercise: &Exercise,
        lift: ExerciseId,
        line: &Line,
        spec: &crate::resolve::WeekSpec,
        date: Option<Date>,
    ) -> Option<LoadingMethod> {
        let has_load = |load: &Load| !matches!(load, Load::Open | Load::Bodyweight(_));
        let wants = if spec.groups.iter().any(|g| matches!(g.load, Load::Bodyweight(_))) {
            LoadNeed::BodyMass
        } else if spec.groups.iter().any(|g| has_load(&g.load)) {
            LoadNeed::Load
        } else {
            LoadNeed::Anything
        };
        let gym = self.trainee.gym.and_then(|gym| Some((gym, self.gear.gym(gym)?)));
        let Some((gym, gear)) = gym else {
            return self.without_gym(exercise, line);
        };
        match gear.means(exercise, wants) {
            Ok(means) => Some(means),
            Err(missing) => {
                // A `replace` may stand in a line of the athlete that did not read.
                let read = !gear.gym.incomplete && !self.trainee.athlete.incomplete;
                if read && self.reported.equipment.insert((line.exercise, lift)) {
                    self.needs_another(line, lift, Cause::Missing(gym, missing), date);
                }
                None
            }
        }
    }

    /// Without a gym only the body is there to load.
    fn without_gym(&mut self, exercise: &Exercise, line: &Line) -> Option<LoadingMethod> {
        let means = super::substitute::without_gym(exercise);
        if means.is_some() {
            return means;
        }
        // An unknown gym has been reported where it is named.
        let athlete = &self.trainee.athlete;
        if !self.reported.gym && athlete.gym.is_none() && !athlete.incomplete {
            self.reported.gym = true;
            let name = &self.trainee.athlete.name;
            let help = if self.programme.gyms.is_empty() {
                "define it: `gym NAME`, with its `bar:` and `plates:`".to_owned()
            } else {
                let known: Vec<&str> =
                    self.programme.gyms.iter().map(|gym| gym.name.as_str()).collect();
                format!(
                    "add a `gym:` line below {name}, with {}",
                    crate::diagnostics::or_list(&known)
                )
            };
            self.problems.push(
                Diagnostic::new(
                    Code::MissingGym,
                    self.trainee.athlete.span,
                    format!("{name} has no gym to load `{}` with", exercise.name),
                )
                .and(line.span, "needed here")
                .help(help),
            );
        }
        None
    }

    /// Reports a max of a body-mass lift that is written like that of a bar.
    pub(super) fn plain_max(&mut self, asked: &LoadRequest<'_>, lift: ExerciseId) {
        if self.trainee.athlete.incomplete || !self.reported.maxes.insert(lift) {
            return;
        }
        let name = self.maxes.name(lift);
        let place = self.maxes.place(lift).unwrap_or(asked.line);
        self.problems.push(
            Diagnostic::new(
                Code::PlainBodyMax,
                place,
                format!(
                    "{name} also lifts the body: this max does not say what was added to the body mass"
                ),
            )
            .and(asked.group.load_span, "a percentage of it")
            .help("write the added load: `bodyweight +30 kg`"),
        );
    }

    /// Where the athlete's file replaces the exercise that is asked for, until when and why, if that
    /// ended before the session: what it was replaced for may hold on.
    fn ended(&self, asked: &LoadRequest<'_>) -> Option<(Span, Date, Option<String>)> {
        let instead = self.trainee.replacements.get(&asked.lift)?;
        let until = instead.until.filter(|_| !in_force(instead.until, asked.date))?;
        let names = &self.programme.names;
        let mut written = self.trainee.athlete.replacements.iter();
        let own = written.rfind(|own| names.find(&own.of.value) == Some(asked.lift.0))?;
        Some((own.of.span, until, own.why().map(str::to_owned)))
    }

    /// Reports a missing max (or body mass), once a lift and athlete.
    pub(super) fn no_max(&mut self, missing: NoMax, asked: &LoadRequest<'_>) {
        let name = &self.trainee.athlete.name;
        if self.trainee.athlete.incomplete {
            return;
        }
        match missing {
            NoMax::Ring => {}
            NoMax::Missing(lift) => {
                // Where the gym cannot do the exercise, that has been reported: another takes its
                // place, and with it another max.
                let undone = lift == asked.lift
                    && self.reported.equipment.iter().any(|(_, done)| *done == lift);
                if undone || !self.reported.maxes.insert(lift) {
                    return;
                }
                let lift_name =
                    self.programme.exercises.get(lift.0).map_or("", |e| e.name.as_str());
                let add = format!(
                    "add `max {lift_name}: 100 kg` or `max {lift_name}: 5 @ 80 kg` to the \
                     athlete, with the real numbers"
                );
                let found = Diagnostic::new(
                    Code::MissingMax,
                    asked.group.load_span,
                    format!("{name} has no max for {lift_name}"),
                )
                .label("a percentage of it");
                let ended = self.ended(asked).filter(|_| lift == asked.lift);
                let found = match ended {
                    Some((place, until, reason)) => {
                        let why = reason.map_or_else(String::new, |why| format!(" ({why})"));
                        let week = asked.week;
                        found.and(place, format!("ends on {until}, before week {week}")).help(
                            format!(
                                "the replacement of {lift_name}{why} ends on {until}, before week \
                                 {week}: extend it,\nor ask the person who set it whether {lift_name} is \
                                 cleared;\nif it is, {add}"
                            ),
                        )
                    }
                    None => {
                        found.and(self.trainee.athlete.span, "add it to this athlete").help(add)
                    }
                };
                self.problems.push(found.suggest(
                    format!("add a max of {lift_name} to {name}, for you to fill in"),
                    to_fill(
                        self.programme,
                        self.trainee.athlete.span,
                        &format!("max {lift_name}: … kg"),
                    ),
                ));
            }
            NoMax::BodyMass => {
                if std::mem::replace(&mut self.reported.body_mass, true) {
                    return;
                }
                self.problems.push(
                    Diagnostic::new(
                        Code::MissingBodyMass,
                        asked.group.load_span,
                        format!("this load needs the body mass of {name}"),
                    )
                    .and(asked.line, "for this exercise")
                    .help(format!("add `body mass: 70 kg` to {name}, with the real number"))
                    .suggest(
                        format!("add the body mass of {name}, for you to fill in"),
                        to_fill(self.programme, self.trainee.athlete.span, "body mass: … kg"),
                    ),
                );
            }
        }
    }
}

/// Where the exercise, its line and the cues that are given come from. A line's own source stands
/// beside those of its weeks and its athletes.
fn citations(exercise: &Exercise, lines: [&Option<String>; 3], cues: &[Cue]) -> Vec<Citation> {
    let of_exercise = exercise.source.iter().map(|text| (CitationOf::Exercise, text));
    let of_lines = lines.into_iter().flatten().map(|text| (CitationOf::Line, text));
    let of_cues = cues.iter().filter_map(|cue| {
        let text = cue.source.as_ref()?;
        Some((CitationOf::Cue { cue: cue.text.clone() }, text))
    });
    let all = of_exercise.chain(of_lines).chain(of_cues);
    all.map(|(of, text)| Citation { of, text: text.clone() }).collect()
}

/// The muscles that an exercise names, with their shares.
#[must_use]
pub fn muscles(exercise: &Exercise) -> Vec<MuscleShare> {
    let share = |(muscle, (part, whole)): &(String, (u32, u32))| MuscleShare {
        muscle: muscle.clone(),
        share: Exact::ratio(i64::from(*part), i64::from(*whole)),
    };
    exercise.muscles.iter().map(share).collect()
}
