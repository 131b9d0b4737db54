//! Sets up git to show diffs of `.sets` files.

use std::path::Path;
use std::process::{Command, Stdio};

use super::super::{Failure, output, report};
use super::git::ask;

/// The line of `.gitattributes`.
const ATTRIBUTE: &str = "*.sets diff=sets";
/// The heading above changed lines: a line without indentation, of the plan (programme, day and
/// exercise, or athlete) or of the file (`day Catch (Mon)`). git shows the first group of the
/// expression.
const HUNK: &str = "^([^[:space:]#].*)$";
/// What counts as a word: a number without its unit, a word, any other character.
const WORD: &str = "[0-9]+([.:][0-9]+)*|[^[:space:][:digit:][:punct:]]+|[^[:space:]]";

/// Sets up the clone of the working folder.
pub fn run() -> Result<(), Failure> {
    let top = ask(&["rev-parse", "--show-toplevel"])?;
    let path = Path::new(&top).join(".gitattributes");
    let old = output::existing(&path)?;
    if old.lines().any(|line| line.trim() == ATTRIBUTE) {
        report::say(&format!("{}: already contains `{ATTRIBUTE}`", path.display()));
    } else {
        output::bytes(&path, with_line(&old).as_bytes())?;
        report::say(&format!("{}: added `{ATTRIBUTE}`; commit it for everybody", path.display()));
    }
    let textconv = format!("{} compare --textconv", program());
    for (name, value) in [("textconv", textconv.as_str()), ("xfuncname", HUNK), ("wordRegex", WORD)]
    {
        let name = format!("diff.sets.{name}");
        ask(&["config", "--local", "--replace-all", &name, value])?;
        report::say(&format!("set {name} for this clone"));
    }
    report::say(
        "git diff, git log -p and git show now show the plan; --no-textconv shows the lines",
    );
    Ok(())
}

/// The text with the line added at its end.
fn with_line(old: &str) -> String {
    let gap = if old.is_empty() || old.ends_with('\n') { "" } else { "\n" };
    format!("{old}{gap}{ATTRIBUTE}\n")
}

/// How git's shell finds this program: by its name where that leads to the same version, else by
/// its place.
fn program() -> String {
    let version = concat!("setwright ", env!("CARGO_PKG_VERSION"));
    let found = Command::new("setwright").arg("--version").stdin(Stdio::null()).output();
    let same = |output: std::process::Output| {
        String::from_utf8_lossy(&output.stdout).trim_end() == version
    };
    if found.is_ok_and(same) {
        return "setwright".to_owned();
    }
    let place = std::env::current_exe().map(|path| path.display().to_string());
    place.map_or_else(|_| "setwright".to_owned(), |place| quoted(&place))
}

/// A word for a shell.
fn quoted(word: &str) -> String {
    format!("'{}'", word.replace('\'', "'\\''"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_file_says_stays() {
        assert_eq!(with_line(""), "*.sets diff=sets\n");
        assert_eq!(with_line("*.pdf binary"), "*.pdf binary\n*.sets diff=sets\n");
        assert_eq!(with_line("*.pdf binary\n"), "*.pdf binary\n*.sets diff=sets\n");
    }

    #[test]
    fn a_path_is_one_word_for_a_shell() {
        assert_eq!(quoted("/opt/coach's tools/setwright"), "'/opt/coach'\\''s tools/setwright'");
    }
}
