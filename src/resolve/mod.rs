//! Resolves documents into a checked [`Programme`] in which every name and type is known.
//!
//! Names, units, ranges and weeks are checked here, once. What depends on the body and the gym of one
//! athlete (a missing max, a load that cannot be made) is checked in `evaluate`.

mod advice;
mod avoid_word;
mod day;
mod definitions;
mod fields;
mod followed;
mod linking;
mod logs;
mod number;
mod phases;
mod plausible;
mod programme;
mod project;
mod resolve_cache;
mod rule_checks;
mod rules;
mod squad;
mod unroll;
mod work_checks;

use std::sync::Arc;

use jiff::civil::{Date, Weekday};

use resolve_cache::ResolveCache;

pub use crate::syntax::ast::{
    Action, Amount, ChangeBy, Comparison, Condition, Quantity, RampFrom, RampSet, WeekSpan,
};
pub use definitions::{Definitions, ExerciseId};
pub use project::{Memory, OpenError, Project, roots};
pub use rule_checks::check_rules;
pub use squad::{Avoided, Instead, ResolvedAthlete, ResolvedMax, in_force, ring_found};
pub(crate) use unroll::weeks_in_words;
pub use work_checks::check_work;

use crate::catalogue::{Cue, Exercises, Gym, Names};
use crate::diagnostics::{Code, Diagnostic, sort_and_dedup};
use crate::history::History;
use crate::plan::{AdviceSwitch, Order};
use crate::quantity::{Decimal, Duration, Effort, Mass, Reps, Tempo};
use crate::source::{Sources, Span};
use crate::strength::{Equation, Rounding};

/// A programme in which every name is known and every number settled for every week.
#[derive(Clone, Debug)]
pub struct Programme {
    /// Its name.
    pub name: String,
    /// Where it is defined.
    pub span: Span,
    /// How many weeks.
    pub weeks: u32,
    /// The first day of week one.
    pub starts: Option<Date>,
    /// The training max in percent of the 1RM, where stated.
    pub training_max: Option<(Decimal, Span)>,
    /// The equation for estimates.
    pub equation: Equation,
    /// The warm-up ramp.
    pub warm_up: Vec<RampSet>,
    /// Before the first exercise.
    pub before: Option<String>,
    /// After the last.
    pub after: Option<String>,
    /// How targets are rounded, where stated.
    pub rounding: Option<Rounding>,
    /// A missed session is done again the next time its day comes round.
    pub repeat_missed: bool,
    /// Time for a session.
    pub time: Option<Duration>,
    /// Language of the sheets.
    pub language: Option<String>,
    /// Its goal.
    pub goal: Option<String>,
    /// Who supervises.
    pub supervision: Option<String>,
    /// Where the programme comes from.
    pub source: Option<String>,
    /// Notes.
    pub notes: Vec<String>,
    /// The coach's decisions about advice.
    pub advice: Vec<AdviceSwitch>,
    /// Phases.
    pub phases: Vec<Phase>,
    /// Days of the week, in the order in which they are done.
    pub days: Vec<Day>,
    /// The athletes, in the order of the files.
    pub trainees: Vec<ResolvedAthlete>,
    /// All exercises.
    pub exercises: Exercises,
    /// Where each name and synonym of an exercise leads.
    pub names: Arc<Names>,
    /// All gyms.
    pub gyms: Arc<Vec<Gym>>,
    /// All files, for the places of numbers.
    pub sources: Arc<Sources>,
}

/// A phase.
#[derive(Clone, Debug, PartialEq)]
pub struct Phase {
    /// Its name.
    pub name: String,
    /// Where it is defined.
    pub span: Span,
    /// Its weeks.
    pub weeks: WeekSpan,
    /// Change of the sets, in percent.
    pub sets: Option<Decimal>,
    /// Change of the load, in percent.
    pub load: Option<Decimal>,
    /// Notes.
    pub notes: Vec<String>,
}

impl Phase {
    /// Whether its weeks are deloads: fewer sets or less load.
    #[must_use]
    pub fn lightens(&self) -> bool {
        [self.sets, self.load].into_iter().flatten().any(|change| change.digits() < 0)
    }
}

/// A day of the week.
#[derive(Clone, Debug)]
pub struct Day {
    /// Its name.
    pub name: String,
    /// Where it is defined.
    pub span: Span,
    /// Its weekday.
    pub weekday: Option<Weekday>,
    /// Time for it.
    pub time: Option<Duration>,
    /// Notes.
    pub notes: Vec<String>,
    /// Its own warm-up ramp.
    pub warm_up: Option<Vec<RampSet>>,
    /// Before the first exercise.
    pub before: Option<String>,
    /// After the last.
    pub after: Option<String>,
    /// How its groups are done, in order.
    pub groups: Vec<DayGroup>,
    /// Its exercises, in order.
    pub lines: Vec<Line>,
}

/// A letter of a day.
#[derive(Clone, Debug, PartialEq)]
pub struct DayGroup {
    /// The letter.
    pub letter: char,
    /// How it is done; `None` for plain alternation.
    pub how: Option<How>,
    /// Rest after a round, where the group line states it.
    pub rest: Option<Duration>,
    /// Whether a phase scales it.
    pub scaled: bool,
}

/// How the members of a group take turns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// Rounds of all members, with time to change.
    Circuit(u32, Option<Duration>),
    /// A set on each interval for a time; one member at a time when the last is true.
    Every(Duration, Duration, bool),
    /// As many rounds as possible in a time.
    RoundsIn(Duration),
    /// Alternated with rest between.
    Paired,
}

/// An exercise line of a day.
#[derive(Clone, Debug)]
pub struct Line {
    /// Its order.
    pub order: Order,
    /// Which exercise.
    pub exercise: ExerciseId,
    /// The place of the name.
    pub span: Span,
    /// Set-up for this day.
    pub setup: Option<String>,
    /// A setting for everybody.
    pub setting: Option<String>,
    /// Range of motion.
    pub range: Option<String>,
    /// Its own warm-up ramp.
    pub warm_up: Option<Vec<RampSet>>,
    /// Cues for this day.
    pub cues: Vec<Cue>,
    /// Notes.
    pub notes: Vec<String>,
    /// Where the line comes from.
    pub source: Option<String>,
    /// Why its loads may pass the 1RM.
    pub over_max: Option<String>,
    /// What everybody does.
    pub common: Variant,
    /// What some do instead, by index of the trainee.
    pub personal: Vec<(usize, Variant)>,
}

impl Line {
    /// What a trainee does.
    #[must_use]
    pub fn variant(&self, trainee: usize) -> &Variant {
        let own = self.personal.iter().find(|(who, _)| *who == trainee);
        own.map_or(&self.common, |(_, variant)| variant)
    }
}

/// A line, week by week.
#[derive(Clone, Debug, Default)]
pub struct Variant {
    /// The weeks, from the first.
    pub weeks: Vec<WeekSpec>,
    /// The rules, in the order in which they are tried.
    pub rules: Vec<Rule>,
    /// Cues of a `for` line.
    pub cues: Vec<Cue>,
    /// Notes of a `for` line.
    pub notes: Vec<String>,
    /// Where a `for` line comes from.
    pub source: Option<String>,
    /// Set-up of a `for` line.
    pub setup: Option<String>,
    /// Setting of a `for` line.
    pub setting: Option<String>,
    /// Range of motion of a `for` line.
    pub range: Option<String>,
    /// Warm-up ramp of a `for` line.
    pub warm_up: Option<Vec<RampSet>>,
    /// Why loads of a `for` line may pass the 1RM.
    pub over_max: Option<String>,
}

/// A line in one week.
#[derive(Clone, Debug, Default)]
pub struct WeekSpec {
    /// Its set groups.
    pub groups: Vec<Group>,
    /// Cues for this week.
    pub cues: Vec<Cue>,
    /// Notes for this week.
    pub notes: Vec<String>,
    /// Where what is done in this week comes from.
    pub source: Option<String>,
    /// Set-up for this week.
    pub setup: Option<String>,
    /// Setting for this week.
    pub setting: Option<String>,
    /// Range of motion for this week.
    pub range: Option<String>,
    /// Why loads of this week may pass the 1RM.
    pub over_max: Option<String>,
}

/// One set group in one week, every number settled.
#[derive(Clone, Debug)]
pub struct Group {
    /// How many sets; `None` where the line leaves it out.
    pub sets: Option<u32>,
    /// Whether a phase scales the number of sets.
    pub sets_scaled: bool,
    /// The repetitions.
    pub reps: Reps,
    /// Where they are written.
    pub reps_span: Span,
    /// They are written with the word `reps`, which rules out seconds.
    pub reps_named: bool,
    /// Where the effort not to pass is written.
    pub effort_span: Option<Span>,
    /// The load.
    pub load: Load,
    /// Where the load (or else the group) is written.
    pub load_span: Span,
    /// Whether a `for` line names the load: it is meant for what that athlete does.
    pub load_own: bool,
    /// Whether a phase scales the load.
    pub load_scaled: bool,
    /// Rest.
    pub rest: Option<Duration>,
    /// Where the rest is written, with its word.
    pub rest_span: Option<Span>,
    /// Tempo.
    pub tempo: Option<Tempo>,
    /// The effort not to pass.
    pub effort: Option<Effort>,
    /// Range of motion.
    pub range: Option<String>,
    /// Drop sets: percent (negative), how many, after every set.
    pub drop: Option<(Decimal, u32, bool)>,
    /// Pauses within a set.
    pub rest_pause: Option<Duration>,
    /// A set on each interval.
    pub every: Option<Duration>,
    /// No warm-up ramp.
    pub no_warm_up: bool,
}

/// A step taken on the way to a number: as written, and how many times.
#[derive(Clone, Debug, PartialEq)]
pub struct Stepped {
    /// The step as written.
    pub by: String,
    /// How many times.
    pub times: u32,
}

/// A load in one week.
#[derive(Clone, Debug, PartialEq)]
pub enum Load {
    /// A percentage.
    Percent {
        /// Of the step before: the first value.
        start: Decimal,
        /// The percentage.
        percent: Decimal,
        /// The step.
        step: Option<Stepped>,
        /// What it is of.
        of: PercentBase,
    },
    /// A mass.
    Mass {
        /// The first value.
        start: Mass,
        /// The mass.
        mass: Mass,
        /// The step.
        step: Option<Stepped>,
    },
    /// By effort.
    Effort(Effort),
    /// The body mass, with what is added (below zero: taken off).
    Bodyweight(Mass),
    /// The latest session's load, changed by a mass.
    LastMass(Mass),
    /// The latest session's load, changed by a percentage.
    LastPercent(Decimal),
    /// Chosen on the day.
    Open,
}

/// What a percentage is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PercentBase {
    /// The training max of the line's lift.
    TrainingMax,
    /// Its 1RM.
    OneRm,
    /// The heaviest earlier group.
    TopSet,
    /// The training max of another lift.
    Lift(ExerciseId),
}

/// A rule, its parameters filled in.
#[derive(Clone, Debug, PartialEq)]
pub struct Rule {
    /// The weeks it runs in; all, if `None`.
    pub weeks: Option<WeekSpan>,
    /// What must hold; nothing for `otherwise`.
    pub conditions: Vec<Condition>,
    /// What it does.
    pub actions: Vec<Action>,
    /// The rule in the notation's words, its parameters filled in.
    pub text: String,
    /// Where it is written: its condition.
    pub span: Span,
    /// The whole of it, with its actions.
    pub whole: Span,
    /// Where its actions are written.
    pub action_spans: Vec<Span>,
    /// Where the line follows the scheme that the rule is from; `None` for a rule of the line's own.
    pub follow: Option<Span>,
}

/// A project, resolved as far as possible.
#[derive(Clone, Debug)]
pub struct Resolved {
    /// The programmes, in the order of the files.
    pub programmes: Vec<Programme>,
    /// What the logs say of each of them.
    pub histories: Vec<History>,
    /// Which of them stand in the first file.
    pub in_root: Vec<bool>,
    /// All files.
    pub sources: Arc<Sources>,
    /// Exercises.
    pub exercises: Exercises,
    /// Where each name and synonym of an exercise leads.
    pub names: Arc<Names>,
    /// Gyms.
    pub gyms: Arc<Vec<Gym>>,
    /// Athletes, whether in a programme or not; what is wrong with them is reported with the
    /// programmes they are in.
    pub athletes: Vec<ResolvedAthlete>,
    /// Everything that was wrong, in the order of the files.
    pub diagnostics: Vec<Diagnostic>,
}

/// A file that could not be brought in.
const LOST_FILE: [Code; 5] =
    [Code::FileNotFound, Code::FileUnreadable, Code::OutsideProject, Code::NotUtf8, Code::TooLarge];

/// Whether a file could not be brought in: what is missing may stand there.
#[must_use]
pub fn lost_file(found: &[Diagnostic]) -> bool {
    found.iter().any(|found| LOST_FILE.contains(&found.code))
}

/// Whether what is missing may stand in a file that could not be brought in. An exercise whose name
/// is near to a known one is rather misspelled.
fn may_be_elsewhere(found: &Diagnostic) -> bool {
    match found.code {
        Code::UnknownExercise => found.fixes.is_empty(),
        Code::UnknownAthlete | Code::UnknownGym | Code::UnknownProgramme | Code::UnknownScheme => {
            true
        }
        _ => false,
    }
}

/// A project as far as what is wrong with it is concerned: without its programmes.
#[derive(Clone, Debug)]
pub struct Reading {
    /// All files.
    pub sources: Arc<Sources>,
    /// Exercises.
    pub exercises: Exercises,
    /// Where each name and synonym of an exercise leads.
    pub names: Arc<Names>,
    /// Gyms.
    pub gyms: Arc<Vec<Gym>>,
    /// Athletes, whether in a programme or not.
    pub athletes: Vec<ResolvedAthlete>,
    /// Everything that was wrong, in the order of the files.
    pub diagnostics: Vec<Diagnostic>,
}

/// Resolves a project.
#[must_use]
pub fn resolve(project: Project) -> Resolved {
    resolve_known(project, None)
}

/// Resolves a project with a cache of lines that were resolved before. Same problems as [`resolve`], but
/// faster.
pub fn resolve_cached(project: Project, memory: &mut Memory) -> Reading {
    let Resolved { sources, exercises, names, gyms, athletes, diagnostics, .. } =
        resolve_known(project, Some(memory.clean_lines()));
    Reading { sources, exercises, names, gyms, athletes, diagnostics }
}

/// With clean lines, the programmes are without these.
fn resolve_known(project: Project, mut clean: Option<&mut ResolveCache>) -> Resolved {
    let Project { sources, documents, root, as_of, diagnostics: mut problems } = project;
    let mut definitions = definitions::collect(&documents, &mut problems);
    let sources = Arc::new(sources);
    let mut programmes = Vec::new();
    let mut in_root = Vec::new();
    let mut histories = Vec::new();
    let written = std::mem::take(&mut definitions.programmes);
    let squad = squad::all(&definitions);
    for text in &written {
        let clean = clean.as_deref_mut();
        let found = programme::resolve(text, &definitions, &squad, &sources, clean, &mut problems);
        if let Some(found) = found {
            in_root.push(text.name.span.file == root);
            histories.push(logs::resolve(&found, &definitions, &mut problems));
            programmes.push(found);
        }
    }
    programme::check_logs(&definitions, &written, &mut problems);
    programme::check_whole(&definitions, &written, root, &mut problems);
    plausible::check(&documents, &definitions, &mut problems);
    plausible::dates(&programmes, &histories, as_of, &mut problems);
    if lost_file(&problems) {
        problems.retain(|found| !may_be_elsewhere(found));
    }
    sort_and_dedup(&mut problems);
    Resolved {
        athletes: squad.into_iter().map(|(trainee, _)| trainee).collect(),
        programmes,
        histories,
        in_root,
        sources,
        exercises: definitions.exercises,
        names: definitions.names,
        gyms: definitions.gyms,
        diagnostics: problems,
    }
}
