//! The weekly table: the planned work of every athlete in every week.

use jiff::civil::Date;
use serde::Serialize;

use crate::plan::{AthletePlan, ExerciseNames, Plan, PlannedExercise, Session};
use crate::quantity::{Mass, Unit};

use super::time::SessionTime;
use super::{LiftTally, MuscleSets, TopSet, Totals, Work, is_main, planned, weighed};

/// The planned work of a programme, by week.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Weekly {
    /// The programme's name.
    pub programme: String,
    /// BCP 47 language of the labels.
    #[serde(skip)]
    pub language: String,
    /// Names of exercises in other languages.
    #[serde(skip)]
    pub exercise_names: ExerciseNames,
    /// Length of the programme in weeks.
    pub weeks: u32,
    /// All athletes, in the order of the plan.
    pub athletes: Vec<AthleteWeeks>,
}

/// One athlete's weeks.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AthleteWeeks {
    /// The athlete's name.
    pub name: String,
    /// The gym that the athlete trains in.
    pub gym: Option<String>,
    /// The unit in which the athlete's sheets show loads.
    pub unit: Unit,
    /// The weeks that have a session.
    pub weeks: Vec<WeekTally>,
}

/// One week.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct WeekTally {
    /// The week, counted from 1.
    pub week: u32,
    /// The phase that it belongs to.
    pub phase: Option<String>,
    /// Its first day, if the programme has a start date.
    pub week_starts: Option<Date>,
    /// Duration of its sessions together, in minutes: [`SessionTime`].
    pub minutes: u32,
    /// The sum over all sessions.
    pub total: Work,
    /// By session.
    pub sessions: Vec<SessionTally>,
    /// By lift: main lifts first, then in the order of the week.
    pub lifts: Vec<LiftTally>,
    /// By muscle, sorted by name.
    pub muscles: Vec<MuscleTally>,
    /// By movement pattern, sorted by name.
    pub patterns: Vec<PatternTally>,
}

/// One session.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SessionTally {
    /// The day's name.
    pub day: String,
    /// Its date, if the programme has a start date and the day has a weekday.
    pub date: Option<Date>,
    /// Its duration in minutes: [`SessionTime`].
    pub minutes: u32,
    /// Its hard sets.
    #[serde(flatten)]
    pub work: Work,
}

/// One muscle in one week.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MuscleTally {
    /// The muscle.
    pub muscle: String,
    /// Its work.
    #[serde(flatten)]
    pub sets: MuscleSets,
}

/// One movement pattern in one week.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PatternTally {
    /// The pattern.
    pub pattern: String,
    /// Its hard sets.
    #[serde(flatten)]
    pub work: Work,
}

/// Sums up the planned work of every week.
#[must_use]
pub fn weekly(plan: &Plan) -> Weekly {
    Weekly {
        programme: plan.programme.clone(),
        language: plan.language.clone(),
        exercise_names: plan.exercise_names.clone(),
        weeks: plan.weeks,
        athletes: plan.athletes.iter().map(one).collect(),
    }
}

fn one(athlete: &AthletePlan) -> AthleteWeeks {
    let sessions = weighed(athlete);
    let weeks = sessions.chunk_by(|(a, _), (b, _)| a.week == b.week);
    AthleteWeeks {
        name: athlete.name.clone(),
        gym: athlete.gym.clone(),
        unit: athlete.unit,
        weeks: weeks.map(week).collect(),
    }
}

fn week(sessions: &[(&Session, Option<Mass>)]) -> WeekTally {
    let mut out = WeekTally::default();
    let mut totals = Totals::default();
    let mut tops: Vec<(&PlannedExercise, Option<TopSet>)> = Vec::new();
    for (session, body) in sessions {
        out.week = session.week;
        out.phase = out.phase.take().or_else(|| session.phase.clone());
        out.week_starts = session.week_starts;
        let mut of_session = Work::default();
        for exercise in &session.exercises {
            let work = planned(exercise, *body);
            of_session.add(&work);
            totals.add(exercise, &work);
            tops.push((exercise, TopSet::of_exercise(session, exercise, *body)));
        }
        let (day, date) = (session.day.clone(), session.date);
        let minutes = SessionTime::of(session).minutes();
        out.minutes += minutes;
        out.sessions.push(SessionTally { day, date, minutes, work: of_session });
    }
    out.total = totals.all;
    out.lifts = lifts(totals.lifts, &tops);
    let muscle = |(muscle, sets)| MuscleTally { muscle, sets };
    out.muscles = totals.muscles.into_iter().map(muscle).collect();
    let pattern = |(pattern, work)| PatternTally { pattern, work };
    out.patterns = totals.patterns.into_iter().map(pattern).collect();
    out
}

fn lifts(
    lifts: Vec<(String, Work)>,
    tops: &[(&PlannedExercise, Option<TopSet>)],
) -> Vec<LiftTally> {
    let with_top = |(lift, work): (String, Work)| {
        let of_lift = tops.iter().filter(|(exercise, _)| exercise.name == lift);
        let main = of_lift.clone().any(|(exercise, _)| is_main(exercise));
        let tops = of_lift.filter_map(|(_, top)| top.as_ref());
        let top = tops.reduce(|best, set| if set.beats(best) { set } else { best });
        LiftTally { top_set: top.cloned(), lift, main, work }
    };
    let mut all: Vec<LiftTally> = lifts.into_iter().map(with_top).collect();
    all.sort_by_key(|lift| !lift.main);
    all
}
