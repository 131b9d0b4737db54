//! `setwright check`.

use clap::ValueEnum;

use crate::compile::check_with;
use crate::diagnostics::{Code, Diagnostic, Severity, has_errors, nearest, render_json};
use crate::plan::{AdviceSwitch, Switch};

use super::input::File;
use super::{Failure, output, report};

/// Reads the programme and everything it uses, works it out for every athlete, and reports what is
/// wrong: all of it, not the first only. Then it gives advice on the programme; `setwright explain`
/// with its name says more, and `advice:` lines in the programme switch it.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: setwright check examples/rowing-club/winter.sets")]
pub struct Args {
    #[command(flatten)]
    file: File,

    /// How findings are written: for people, or for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,

    /// The least that advice must be to be given
    #[arg(long, value_enum, default_value_t = Least::Note, value_name = "LEVEL")]
    advice: Least,

    /// Advice that does not apply, by name; repeat for more
    #[arg(long, value_name = "NAME")]
    allow: Vec<String>,

    /// Exit with code 1 if any advice is left
    #[arg(long)]
    strict: bool,

    /// Where findings are written [default: standard output]
    #[arg(short, long, value_name = "FILE")]
    output: Option<std::path::PathBuf>,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    /// Plain text, with the source line underlined
    Text,
    /// A JSON object with a list of findings
    Json,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum Least {
    /// No advice
    Off,
    /// Cautions and notes
    Note,
    /// Cautions only
    Caution,
}

impl Least {
    fn wants(self, advice: &Diagnostic) -> bool {
        match self {
            Least::Off => false,
            Least::Note => true,
            Least::Caution => advice.severity() == Severity::Caution,
        }
    }
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let allowed: Vec<AdviceSwitch> =
        args.allow.iter().map(|name| allow(name)).collect::<Result<_, _>>()?;
    let mut compiled = check_with(args.file.open()?, &allowed);
    compiled.advice.retain(|advice| args.advice.wants(advice));
    let (found, advice) = (&compiled.diagnostics, &compiled.advice);
    let text = match args.format {
        Format::Json => {
            let list = |all: &[Diagnostic]| -> Vec<_> {
                all.iter().map(|d| render_json(d, &compiled.sources)).collect()
            };
            let all = serde_json::json!({ "diagnostics": list(found), "advice": list(advice) });
            let mut text = serde_json::to_string_pretty(&all).unwrap_or_default();
            text.push('\n');
            text
        }
        Format::Text if found.is_empty() && advice.is_empty() => "no findings\n".to_owned(),
        Format::Text => {
            let all: Vec<Diagnostic> = found.iter().chain(advice).cloned().collect();
            report::text(&all, &compiled.sources)
        }
    };
    output::text(args.output.as_deref(), &text)?;
    let strict = args.strict && !advice.is_empty();
    if has_errors(found) || strict { Err(Failure::Programme) } else { Ok(()) }
}

/// A piece of advice that the command line allows everywhere.
fn allow(name: &str) -> Result<AdviceSwitch, Failure> {
    let code = Code::from_name(name.trim()).filter(|code| code.is_advice());
    let Some(code) = code else {
        let known = Code::ADVICE.iter().map(|code| code.name());
        return Err(Failure::Usage(match nearest(name, known) {
            Some(near) => format!("there is no advice `{name}`: did you mean `{near}`?"),
            None => format!("there is no advice `{name}`: `setwright explain` lists it"),
        }));
    };
    let what = Switch::Allow { code: code.name().to_owned(), on: Vec::new() };
    Ok(AdviceSwitch { what, reason: None, line: None })
}
