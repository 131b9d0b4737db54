//! `setwright why`.

use std::path::PathBuf;

use crate::diagnostics::or_list;
use crate::plan::{AthletePlan, Plan, PlannedExercise, Session};
use crate::quantity::fold_name;
use crate::sheets;

use super::input::{Assume, AssumeParser, File, PlanArgs, Weeks};
use super::{Failure, output};

/// Show how a load came about
///
/// Shows the steps of a load: the test, the estimate and its equation, the training max, the rules
/// that acted and after which session, the phase, the percentage, and what the gym can load. Each
/// step has its source line.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Example:
  setwright why examples/rowing-club/winter.sets --athlete \"Wren Tallow\" \\
    --week 4 --day Catch --order A")]
pub struct Args {
    #[command(flatten)]
    file: File,

    /// Which programme, if the project has several
    #[arg(long, value_name = "NAME")]
    programme: Option<String>,

    /// Whose load: the name, or as much of it as no other begins with; may be left out where there
    /// is one athlete
    #[arg(long, value_name = "NAME")]
    athlete: Option<String>,

    /// Which week
    #[arg(long, alias = "weeks", value_name = "N")]
    week: u32,

    /// Which day, by its name or its weekday; may be left out where there is one
    #[arg(long, value_name = "NAME")]
    day: Option<String>,

    /// Which exercise: its order letter, such as A or D1, or as much of its name as no other begins
    /// with
    #[arg(long, value_name = "EXERCISE")]
    order: String,

    /// What to assume of sessions that no log mentions
    #[arg(long, value_parser = AssumeParser::<Assume>::new(), value_name = "WHAT")]
    assume: Vec<Assume>,

    /// Where to write [default: standard output]
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let part = PlanArgs {
        programme: args.programme.clone(),
        athlete: args.athlete.iter().cloned().collect(),
        weeks: Some(Weeks(vec![(args.week, args.week)])),
        day: args.day.iter().cloned().collect(),
        assume: args.assume.clone(),
        as_of: None,
    };
    output::fits(args.output.as_deref(), "txt", &[("txt", "")])?;
    let plan = args.file.compile(&part)?;
    let (athlete, session) = one_session(&plan)?;
    let exercise = find(session, &args.order)?;
    let text = sheets::reasons(&plan, athlete, session, exercise);
    output::text(args.output.as_deref(), &text)
}

/// The exercise of an order letter, else of a name or the beginning of one.
fn find<'a>(session: &'a Session, written: &str) -> Result<&'a PlannedExercise, Failure> {
    let letter = written.trim().to_ascii_uppercase();
    if let Some(found) = session.exercises.iter().find(|e| e.order.to_string() == letter) {
        return Ok(found);
    }
    let wanted = fold_name(written);
    let named = |is: &dyn Fn(&str) -> bool| -> Vec<&'a PlannedExercise> {
        session.exercises.iter().filter(|e| is(&fold_name(&e.name))).collect()
    };
    let mut found = named(&|name| name == wanted);
    if found.is_empty() && !wanted.is_empty() {
        found = named(&|name| name.starts_with(&wanted));
    }
    let shown = |all: &[&PlannedExercise]| {
        let all: Vec<String> = all.iter().map(|e| format!("{} {}", e.order, e.name)).collect();
        or_list(&all.iter().map(String::as_str).collect::<Vec<_>>())
    };
    match found.as_slice() {
        [only] => Ok(only),
        [] => {
            let all: Vec<&PlannedExercise> = session.exercises.iter().collect();
            let (day, known) = (&session.day, shown(&all));
            Err(Failure::Usage(format!("{day} has no exercise `{written}`: there is {known}")))
        }
        several => Err(Failure::Usage(format!(
            "`{written}` could be {}: choose with the order letter",
            shown(several)
        ))),
    }
}

/// The one session that was chosen.
fn one_session(plan: &Plan) -> Result<(&AthletePlan, &Session), Failure> {
    let names: Vec<&str> = plan.athletes.iter().map(|athlete| athlete.name.as_str()).collect();
    let [athlete] = plan.athletes.as_slice() else {
        return Err(Failure::Usage(match names.as_slice() {
            [] => "there is no athlete".to_owned(),
            names => format!("choose an athlete with --athlete: {}", or_list(names)),
        }));
    };
    let days: Vec<&str> = athlete.sessions.iter().map(|session| session.day.as_str()).collect();
    let [session] = athlete.sessions.as_slice() else {
        return Err(Failure::Usage(match days.as_slice() {
            [] => "there is no session in that week".to_owned(),
            days => format!("choose a day with --day: {}", or_list(days)),
        }));
    };
    Ok((athlete, session))
}
