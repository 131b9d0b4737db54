//! The command line: one file for each command, exit codes, and output.

mod cards;
mod check;
mod compare;
mod complete;
mod completions;
mod exercises;
mod explain;
mod fmt;
mod input;
mod log;
mod lsp;
mod man;
mod nearby;
mod new;
mod open;
mod output;
mod parts;
mod plan;
mod printing;
mod progress;
mod report;
mod review;
mod rewrite;
mod sheet;
mod spool;
mod summary;
mod watch;
mod why;

use std::ffi::OsString;
use std::path::Path;
use std::process::ExitCode;

use clap::{CommandFactory, Parser, Subcommand};

use crate::diagnostics::printable;

pub use complete::{VARIABLE as COMPLETE_VARIABLE, candidates};

/// Why a command stopped.
#[derive(Debug)]
pub enum Failure {
    /// The programme has errors; they have been shown.
    Programme,
    /// The command line asks for something that does not exist.
    Usage(String),
    /// A file could not be read or written.
    File(String),
    /// There is nothing left to print.
    NothingLeft(String),
}

impl Failure {
    /// 1 the programme has errors, 2 the command line is wrong, 3 a file could not be read or
    /// written, 4 nothing is left to print.
    fn code(&self) -> u8 {
        match self {
            Failure::Programme => 1,
            Failure::Usage(_) => 2,
            Failure::File(_) => 3,
            Failure::NothingLeft(_) => 4,
        }
    }

    /// Prints the reason on standard error, unless it has been printed already.
    fn tell(&self) {
        match self {
            Failure::Programme => {}
            Failure::Usage(why) | Failure::File(why) | Failure::NothingLeft(why) => {
                report::say(&format!("setwright: {why}"));
            }
        }
    }
}

/// Strength programmes as plain text, compiled to gym cards.
#[derive(Parser, Debug)]
#[command(
    name = "setwright",
    version,
    about,
    max_term_width = 88,
    after_help = "\
Exit codes: 0 success, 1 the programme has errors, 2 the command line is wrong,
3 a file could not be read or written, 4 there is nothing left to print.

Start here:
  setwright new my-block
  setwright check my-block/programme.sets
  setwright cards my-block/programme.sets --open

`setwright FILE` is short for `setwright check FILE`."
)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand, Debug)]
enum Command {
    Check(check::Args),
    Cards(cards::Args),
    Watch(watch::Args),
    Summary(summary::Args),
    Plan(plan::Args),
    Why(why::Args),
    Log(log::Args),
    Review(review::Args),
    Compare(compare::Args),
    New(new::Args),
    Fmt(fmt::Args),
    Exercises(exercises::Args),
    Explain(explain::Args),
    Lsp(lsp::Args),
    Completions(completions::Args),
    Man(man::Args),
}

/// The whole command line: help, the reference, completions and the manual are made from it.
#[must_use]
pub fn command() -> clap::Command {
    Cli::command()
}

/// The arguments; where the first names a file or a folder instead of a command, that is checked.
fn with_command(mut arguments: Vec<OsString>) -> Vec<OsString> {
    let is_path = arguments.get(1).is_some_and(|first| {
        let is_command = first.to_str().is_some_and(|first| {
            first.starts_with('-') || first == "help" || command().find_subcommand(first).is_some()
        });
        !is_command && Path::new(first).exists()
    });
    if is_path {
        arguments.insert(1, "check".into());
    }
    arguments
}

/// Runs the program with its arguments and, if the environment has one, the time of making in
/// seconds since 1970.
#[must_use]
pub fn run(arguments: impl IntoIterator<Item = OsString>, epoch: Option<&str>) -> ExitCode {
    let arguments = with_command(arguments.into_iter().collect());
    let cli = match Cli::try_parse_from(&arguments) {
        Ok(cli) => cli,
        Err(error) => {
            let code = u8::try_from(error.exit_code()).unwrap_or(2);
            // A reader that closes the help early is not a failure.
            let steers = |argument: &OsString| {
                let argument = argument.to_string_lossy();
                printable(&argument) != argument
            };
            if arguments.iter().any(steers) {
                // The message quotes it: a file's name with an escape in it, most likely.
                report::say(error.render().to_string().trim_end());
            } else {
                let _ = error.print();
            }
            return ExitCode::from(code);
        }
    };
    let done = match cli.command {
        Command::Check(args) => check::run(&args),
        Command::Cards(args) => cards::run(&args, epoch),
        Command::Watch(args) => watch::run(&args, epoch),
        Command::Summary(args) => summary::run(&args),
        Command::Plan(args) => plan::run(&args, epoch),
        Command::Why(args) => why::run(&args),
        Command::Log(args) => log::run(&args),
        Command::Review(args) => review::run(&args, epoch),
        Command::Compare(args) => compare::run(&args),
        Command::New(args) => new::run(&args),
        Command::Fmt(args) => fmt::run(&args),
        Command::Exercises(args) => exercises::run(&args),
        Command::Explain(args) => explain::run(&args),
        Command::Lsp(args) => lsp::run(&args),
        Command::Completions(args) => completions::run(&args),
        Command::Man(args) => man::run(&args),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            failure.tell();
            ExitCode::from(failure.code())
        }
    }
}
