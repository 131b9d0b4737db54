//! `setwright log`.

use std::path::{Path, PathBuf};

use jiff::civil::Date;

use crate::compile::{Choice, compile};
use crate::diagnostics::{has_errors, or_list};
use crate::plan::{AthletePlan, Session, SessionStatus};
use crate::quantity::fold_name;
use crate::sheets;
use crate::source::{FileId, SourceFile, Sources, line_ends};
use crate::syntax::ast::{Head, Item};
use crate::syntax::parse;

use super::input::File;
use super::rewrite::rewrite;
use super::{Failure, output, report};

/// Add an athlete's next session to a log, ready to fill in
///
/// Adds the next session of an athlete to a log: each exercise with the plan as a comment and `?` for
/// the result. Never changes what is already in the log.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright log examples/rowing-club/winter.sets --athlete \"Wren Tallow\" -o wren.sets
  setwright log examples/rowing-club/winter.sets --athlete Wren --week 1 --day Drive -o wren.sets

Replace each `?` with `done`, `skipped (why)` or the sets, such as
`8, 8, 7 @ 42.5 kg, RPE 8`. A log counts as soon as the programme, or a file
that uses the programme, has a `use` line with the name of the log.")]
pub struct Args {
    #[command(flatten)]
    file: File,

    /// The file, where the athlete came first as in former versions
    #[arg(value_name = "FILE", hide = true)]
    second: Option<String>,

    /// Whose session: the name, or as much of it as no other begins with; may be left out where there
    /// is one athlete
    #[arg(long, value_name = "NAME")]
    athlete: Option<String>,

    /// The programme, where the project has several
    #[arg(long, value_name = "NAME")]
    programme: Option<String>,

    /// Which week [default: that of the next session without a log]
    #[arg(long, alias = "weeks", value_name = "N")]
    week: Option<u32>,

    /// Which day, by its name or its weekday
    #[arg(long, value_name = "NAME")]
    day: Option<String>,

    /// The date of the session [default: the planned date]
    #[arg(long, value_name = "DATE")]
    date: Option<Date>,

    /// The log file [default: the project's log of this athlete, otherwise logs.sets next to the
    /// programme]
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    output::fits(args.output.as_deref(), "sets", &[("sets", "")])?;
    if let Some(file) = &args.second {
        return Err(Failure::Usage(format!(
            "the file comes first: setwright log {file} --athlete \"{}\"",
            args.file.file.display()
        )));
    }
    let project = args.file.open()?;
    let root = project.root;
    let choice = Choice {
        programme: args.programme.clone(),
        athletes: args.athlete.iter().cloned().collect(),
        ..Choice::default()
    };
    let compiled = compile(project, &choice).map_err(|wrong| Failure::Usage(wrong.0))?;
    report::show(&compiled.diagnostics, &compiled.sources);
    if has_errors(&compiled.diagnostics) {
        return Err(Failure::Programme);
    }
    let plan = compiled.plan.ok_or(Failure::Programme)?;
    let names: Vec<&str> = plan.athletes.iter().map(|athlete| athlete.name.as_str()).collect();
    let [athlete] = plan.athletes.as_slice() else {
        return Err(Failure::Usage(match (&args.athlete, names.as_slice()) {
            (Some(name), []) => format!("{name} does not take part in this programme"),
            (None, []) => "no athlete takes part in this programme".to_owned(),
            (_, names) => format!("whose session? choose with --athlete: {}", or_list(names)),
        }));
    };
    let own_log = find_log(&compiled.sources, root, &athlete.name);
    let session = choose(athlete, args.week, args.day.as_deref())?;
    let Some(date) = args.date.or(session.date) else {
        let why = "the plan has no dates: give the date with --date 2026-01-05";
        return Err(Failure::Usage(why.to_owned()));
    };
    let folder = args.file.file.parent().map_or_else(PathBuf::new, Path::to_owned);
    let path = args
        .output
        .clone()
        .or_else(|| own_log.as_ref().map(|name| args.file.project_folder().join(name)))
        .unwrap_or_else(|| folder.join("logs.sets"));
    let block = block(athlete, session, date);
    rewrite(&path, |before| {
        // What is added ends its lines with LF: a text whose lines end with CR alone gets the same.
        let before = &*line_ends(before);
        if written_already(before, &athlete.name, session) {
            return Err(Failure::Usage(format!(
                "week {}, {} is already in {}: fill it in first",
                session.week,
                session.day,
                path.display()
            )));
        }
        Ok(with_block(before, athlete, &plan.programme, &block))
    })?;
    report::say(&format!("{}: week {}, {}", path.display(), session.week, session.day));
    let is_own = args.file.file.canonicalize().ok() == path.canonicalize().ok();
    if own_log.is_none() && !is_own {
        let name = path.file_name().map_or("".into(), |name| name.to_string_lossy());
        report::say(&format!(
            "to use this log in the programme, add the line `use {name}` to {}",
            args.file.file.display()
        ));
    }
    Ok(())
}

/// The session that is asked for, else the next to come; sessions passed over are named.
fn choose<'a>(
    athlete: &'a AthletePlan,
    week: Option<u32>,
    day: Option<&str>,
) -> Result<&'a Session, Failure> {
    let open = |session: &&Session| {
        matches!(session.status, SessionStatus::Projected | SessionStatus::Missing)
    };
    let named = |session: &Session| format!("week {}, {}", session.week, session.day);
    if week.is_none() && day.is_none() {
        let missing: Vec<String> = athlete
            .sessions
            .iter()
            .filter(|session| session.status == SessionStatus::Missing)
            .map(named)
            .collect();
        if let [first, ..] = missing.as_slice() {
            report::say(&format!(
                "sessions without a log: {first}{}; choose one with --week and --day",
                match missing.len() - 1 {
                    0 => String::new(),
                    more => format!(" and {more} more"),
                }
            ));
        }
        let next = athlete.sessions.iter().find(|s| s.status == SessionStatus::Projected);
        return next
            .ok_or_else(|| Failure::Usage(format!("{} has no session left to log", athlete.name)));
    }
    let of_week = |session: &&Session| week.is_none_or(|week| session.week == week);
    let of_day = |session: &&Session| day.is_none_or(|day| session.is_on(day));
    let mut found = athlete.sessions.iter().filter(of_week).filter(of_day).peekable();
    if let Some(day) = day {
        let mut days: Vec<&str> = found.clone().map(|session| session.day.as_str()).collect();
        days.sort_unstable();
        days.dedup();
        if days.len() > 1 && !days.iter().any(|name| fold_name(name) == fold_name(day)) {
            return Err(Failure::Usage(format!("`{day}` could be {}", or_list(&days))));
        }
    }
    let Some(first) = found.peek().copied() else {
        let mut days: Vec<&str> = Vec::new();
        for session in &athlete.sessions {
            if !days.contains(&session.day.as_str()) {
                days.push(&session.day);
            }
        }
        return Err(Failure::Usage(format!(
            "the plan has no such session: the days are {}, and the last week is {}",
            or_list(&days),
            athlete.sessions.last().map_or(0, |session| session.week)
        )));
    };
    found.find(open).ok_or_else(|| Failure::Usage(format!("{} is already logged", named(first))))
}

/// The session to fill in.
fn block(athlete: &AthletePlan, session: &Session, date: Date) -> String {
    let mut text = format!("  {date} week {}, {}\n", session.week, session.day);
    for exercise in &session.exercises {
        let plan = sheets::in_short(athlete, exercise);
        text.push_str(&format!("    # {plan}\n"));
        text.push_str(&format!("    {} {}: ?\n", exercise.order, exercise.name));
    }
    text
}

/// A log's text with a session at its end.
fn with_block(before: &str, athlete: &AthletePlan, programme: &str, block: &str) -> String {
    let mut text = before.to_owned();
    if !text.is_empty() && !text.ends_with('\n') {
        text.push('\n');
    }
    if !ends_with_log(before, &athlete.name, programme) {
        if !text.is_empty() {
            text.push('\n');
        }
        text.push_str(&format!("log {}: {programme}\n", athlete.name));
    }
    text.push_str(block);
    text
}

/// A log block: its programme, the weeks and days of its sessions, whether it ends the text.
type LogBlock = (String, Vec<(u32, String)>, bool);

/// The logs of an athlete in a text.
fn logs(text: &str, athlete: &str) -> Vec<LogBlock> {
    let (document, _) = parse(text, FileId(0));
    let count = document.nodes.len();
    let mut found = Vec::new();
    for (index, node) in document.nodes.iter().enumerate() {
        let Item::Head(Head::Log { athlete: name, programme }) = &node.item.value else { continue };
        if fold_name(&name.value) != fold_name(athlete) {
            continue;
        }
        let sessions = node.children.iter().filter_map(|child| match &child.item.value {
            Item::LogSession { planned: Some((week, day)), .. } => {
                Some((week.value, fold_name(&day.value)))
            }
            _ => None,
        });
        found.push((programme.value.clone(), sessions.collect(), index + 1 == count));
    }
    found
}

fn written_already(text: &str, athlete: &str, session: &Session) -> bool {
    let wanted = (session.week, fold_name(&session.day));
    logs(text, athlete).iter().any(|(_, sessions, _)| sessions.contains(&wanted))
}

/// Whether the last block of a text is the athlete's log of the programme.
fn ends_with_log(text: &str, athlete: &str, programme: &str) -> bool {
    let of = |(name, _, last): &LogBlock| *last && fold_name(name) == fold_name(programme);
    logs(text, athlete).iter().any(of)
}

/// The file of the project that holds the athlete's latest log, relative to the project folder.
fn find_log(sources: &Sources, root: FileId, athlete: &str) -> Option<String> {
    let has = |file: &SourceFile| !logs(&file.text, athlete).is_empty();
    let files = sources.iter().filter(|(id, _)| *id >= root);
    files.filter(|(_, file)| has(file)).last().map(|(_, file)| file.path.to_string())
}
