//! `setwright compare`.

mod git;
mod set_up;
mod side;
mod textconv;

use std::ffi::OsString;
use std::path::PathBuf;

use clap::ValueEnum;
use serde::Serialize;

use crate::compare::{Comparison, Sides, compare, pair_programmes, summary, text};
use crate::compile::by_beginning;
use crate::diagnostics::no_such;
use crate::export;
use crate::plan::Plan;
use crate::quantity::fold_name;

use super::{Failure, output};

/// Show what changed between two versions of a programme
///
/// Shows what changed for each athlete: in which weeks and sessions, what was added, removed,
/// swapped or reordered, what is heavier or lighter, and the totals of the weeks before and
/// after. OLD and NEW are files, folders with programmes, or REV:PATH for a file or folder of a
/// git revision, which uses other files of the same revision. As in git, PATH starts from the top
/// of the repository, or from the current folder if it starts with ./ or ../
///
/// The exit code is 0 whether anything changed or not, and 1 if either side has errors.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright compare HEAD:./winter.sets winter.sets
  setwright compare old/winter.sets new/winter.sets \\
      --athlete \"Wren Tallow\"
  setwright compare main:programmes programmes --summary
  setwright compare --set-up-git")]
pub struct Args {
    /// The old version: a file, a folder, or REV:PATH
    #[arg(value_name = "OLD", required_unless_present_any = ["textconv", "set_up_git"])]
    old: Option<OsString>,

    /// The new version
    #[arg(value_name = "NEW", required_unless_present_any = ["textconv", "set_up_git"])]
    new: Option<OsString>,

    /// Only this programme, by its old or new name
    #[arg(long, value_name = "NAME")]
    programme: Option<String>,

    /// Only this athlete: the name, or as much of it as no other begins with (may be given several
    /// times)
    #[arg(long, value_name = "NAME")]
    athlete: Vec<String>,

    /// One line for each athlete
    #[arg(long)]
    summary: bool,

    /// Hard sets and volume load for each week, instead of combined weeks
    #[arg(long, conflicts_with = "summary")]
    weekly: bool,

    /// Text, or JSON with every single change
    #[arg(long, value_enum, default_value_t = Format::Text, conflicts_with = "summary")]
    format: Format,

    /// The folder that `use` cannot leave, on both sides
    /// [default: the compared folder, or the folder of the
    /// file]
    #[arg(long, value_name = "FOLDER", verbatim_doc_comment)]
    project: Option<PathBuf>,

    /// Where to write [default: standard output]
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,

    /// Print a file as lines for git to compare: the whole
    /// plan, or the file itself if it has no plan
    #[arg(long, value_name = "FILE", conflicts_with_all = ["old", "new", "set_up_git"], verbatim_doc_comment)]
    textconv: Option<PathBuf>,

    /// Set up git so that its diffs of .sets files show the
    /// plan: adds a line to .gitattributes and three
    /// settings to this clone
    #[arg(long, conflicts_with_all = ["old", "new"], verbatim_doc_comment)]
    set_up_git: bool,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    /// Plain text that combines what is the same for many
    Text,
    /// JSON with each athlete and session
    Json,
}

/// The JSON output: one comparison for each programme.
#[derive(Serialize)]
struct Comparisons {
    programmes: Vec<Comparison>,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    if let Some(file) = &args.textconv {
        return textconv::run(file);
    }
    if args.set_up_git {
        return set_up::run();
    }
    let (Some(old), Some(new)) = (&args.old, &args.new) else {
        return Err(Failure::Usage("compare needs two versions: OLD and NEW".to_owned()));
    };
    let suffix = if args.format == Format::Json { "json" } else { "txt" };
    let kinds = [("txt", "--format text"), ("json", "--format json")];
    output::fits(args.output.as_deref(), suffix, &kinds)?;
    let project = args.project.as_deref();
    // Read both sides first, to show all problems at once.
    let (old, new) = (side::plans(old, new, project), side::plans(new, old, project));
    let (old, new) = (old?, new?);
    let programmes = chosen(args, &old, &new)?;
    let mut written = String::new();
    if args.format == Format::Json {
        let cannot = |error: serde_json::Error| Failure::File(error.to_string());
        return output::text(
            args.output.as_deref(),
            &export::lines(&Comparisons { programmes }).map_err(cannot)?,
        );
    }
    for (at, comparison) in programmes.iter().enumerate() {
        if at > 0 {
            written.push('\n');
        }
        let told = if args.summary { summary(comparison) } else { text(comparison, args.weekly) };
        written.push_str(&told);
    }
    output::text(args.output.as_deref(), &written)
}

/// The requested comparisons.
fn chosen(args: &Args, old: &[Plan], new: &[Plan]) -> Result<Vec<Comparison>, Failure> {
    let (old, new): (Vec<&Plan>, Vec<&Plan>) = (old.iter().collect(), new.iter().collect());
    let all = || new.iter().chain(&old);
    let mut athletes: Vec<String> = Vec::new();
    for name in &args.athlete {
        let mut known: Vec<&str> =
            all().flat_map(|plan| &plan.athletes).map(|athlete| athlete.name.as_str()).collect();
        known.sort_unstable();
        known.dedup();
        athletes.push(by_beginning("athlete", name, &known).map_err(Failure::Usage)?.to_owned());
    }
    let mut pairs = pair_programmes(&old, &new);
    if let Some(name) = &args.programme {
        let is = |plan: Option<&Plan>| {
            plan.is_some_and(|plan| fold_name(&plan.programme) == fold_name(name))
        };
        pairs.retain(|pair| is(pair.before) || is(pair.after));
        if pairs.is_empty() {
            let known: Vec<&str> = all().map(|plan| plan.programme.as_str()).collect();
            return Err(Failure::Usage(no_such("programme", name, &known)));
        }
    }
    if pairs.is_empty() {
        return Err(Failure::Usage("neither side has a programme".to_owned()));
    }
    let compared = |pair: &Sides<&Plan>| compare(pair).only(&athletes);
    Ok(pairs.iter().map(compared).collect())
}
