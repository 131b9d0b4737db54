//! `setwright explain`.

use crate::diagnostics::{Code, Severity, nearest};

use super::{Failure, output};

/// Explain a problem and how to fix it
///
/// Prints a page about one problem: what it means, an example that causes it, and how to fix it.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: setwright explain unknown-exercise")]
pub struct Args {
    /// The name of the problem; without a name, lists all
    #[arg(value_name = "NAME")]
    name: Option<String>,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let Some(name) = &args.name else { return output::text(None, &list()) };
    if let Some(code) = Code::from_name(name.trim()) {
        return output::text(None, code.page());
    }
    let known = Code::ALL.iter().map(|code| code.name());
    Err(Failure::Usage(match nearest(name, known) {
        Some(near) => format!("there is no problem `{name}`: did you mean `{near}`?"),
        None => format!("there is no problem `{name}`: `setwright explain` lists all names"),
    }))
}

fn list() -> String {
    let mut text = String::new();
    for (severity, title) in [
        (Severity::Error, "Errors: nothing is printed until they are fixed"),
        (Severity::Warning, "Warnings: look before you print"),
        (Severity::Info, "Info: worth knowing"),
    ] {
        section(&mut text, title, |code| code.severity() == severity && !code.is_advice());
    }
    section(&mut text, "Advice on the programme", Code::is_advice);
    text.truncate(text.trim_end().len() + 1);
    text
}

fn section(text: &mut String, title: &str, holds: impl Fn(Code) -> bool) {
    text.push_str(title);
    text.push('\n');
    for code in Code::ALL.iter().copied().filter(|code| holds(*code)) {
        // The first sentence of its page, on one line.
        let body = code.page().split("\n\n").nth(1).unwrap_or("").replace('\n', " ");
        let sentence = body.split(". ").next().unwrap_or("").trim_end_matches('.');
        text.push_str(&format!("  {:<22} {sentence}\n", code.name()));
    }
    text.push('\n');
}
