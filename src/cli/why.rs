//! `setwright why`.

use std::path::PathBuf;

use crate::diagnostics::or_list;
use crate::plan::{AthletePlan, Plan, Session};
use crate::sheets;

use super::input::{File, PlanArgs, Weeks};
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

    /// Which athlete; not needed if there is only one
    #[arg(long, value_name = "NAME")]
    athlete: Option<String>,

    /// Which week
    #[arg(long, value_name = "N")]
    week: u32,

    /// Which day; not needed if there is only one
    #[arg(long, value_name = "NAME")]
    day: Option<String>,

    /// Which exercise: its order letter, such as A or D1
    #[arg(long, value_name = "LETTER")]
    order: String,

    /// What to assume about sessions without a log
    #[arg(long, value_enum, value_name = "WHAT")]
    assume: Vec<super::input::Assume>,

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
    let wanted = args.order.trim().to_ascii_uppercase();
    let orders: Vec<String> = session.exercises.iter().map(|e| e.order.to_string()).collect();
    let exercise = session.exercises.iter().find(|e| e.order.to_string() == wanted);
    let Some(exercise) = exercise else {
        let known: Vec<&str> = orders.iter().map(String::as_str).collect();
        return Err(Failure::Usage(format!(
            "{} has no exercise `{}`: its exercises are {}",
            session.day,
            args.order,
            or_list(&known)
        )));
    };
    let text = sheets::reasons(&plan, athlete, session, exercise);
    output::text(args.output.as_deref(), &text)
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
