//! `setwright man`.

use std::path::PathBuf;

use clap::Command;
use clap_mangen::Man;

use crate::diagnostics::nearest;

use super::{Failure, command, output, report};

/// Print the manual
///
/// The manual: a page on the whole program, or on one command; with --output all pages as files.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright man | man -l -
  setwright man cards | man -l -
  setwright man --output ~/.local/share/man/man1")]
pub struct Args {
    /// The command; without one, the page on the whole program
    #[arg(value_name = "COMMAND", conflicts_with = "output")]
    command: Option<String>,

    /// Write every page into this folder, as setwright.1, setwright-cards.1 …
    #[arg(short, long, alias = "out", value_name = "FOLDER")]
    output: Option<PathBuf>,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let pages = pages()?;
    if let Some(folder) = &args.output {
        output::folder(folder)?;
        let files: Vec<(PathBuf, Vec<u8>)> = pages
            .into_iter()
            .map(|(name, page)| (folder.join(format!("{name}.1")), page.into_bytes()))
            .collect();
        output::all(&files)?;
        report::say(&format!("{}: {} pages", folder.display(), files.len()));
        return Ok(());
    }
    let wanted = match &args.command {
        None => "setwright".to_owned(),
        Some(name) => format!("setwright-{}", name.trim_start_matches("setwright-")),
    };
    let page = pages.iter().find(|(name, _)| *name == wanted).map(|(_, page)| page);
    match (page, &args.command) {
        (Some(page), _) => output::text(None, page),
        (None, name) => Err(unknown(name.as_deref().unwrap_or_default(), &pages)),
    }
}

fn unknown(name: &str, pages: &[(String, String)]) -> Failure {
    let known = pages.iter().filter_map(|(page, _)| page.strip_prefix("setwright-"));
    Failure::Usage(match nearest(name, known) {
        Some(near) => format!("there is no command `{name}`: did you mean `{near}`?"),
        None => format!("there is no command `{name}`: `setwright help` lists all commands"),
    })
}

/// All pages by name, in the order of the commands.
fn pages() -> Result<Vec<(String, String)>, Failure> {
    let mut whole = command().disable_help_subcommand(true);
    whole.build();
    let mut pages = vec![("setwright".to_owned(), page(&whole)?)];
    for sub in whole.get_subcommands().filter(|sub| !sub.is_hide_set()) {
        pages.push((format!("setwright-{}", sub.get_name()), page(sub)?));
    }
    Ok(pages)
}

/// The page of a command in the format of `man`. It has no date, because no clock is read.
fn page(command: &Command) -> Result<String, Failure> {
    let cannot = |error: std::io::Error| Failure::File(error.to_string());
    // The text after the help is laid out by hand: keep its line breaks.
    let more = command.get_after_help().map(ToString::to_string).unwrap_or_default();
    let plain = command.clone().after_help("").after_long_help("");
    let man = Man::new(plain);
    let mut out = Vec::new();
    man.render_name_section(&mut out).map_err(cannot)?;
    man.render_synopsis_section(&mut out).map_err(cannot)?;
    man.render_description_section(&mut out).map_err(cannot)?;
    man.render_options_section(&mut out).map_err(cannot)?;
    if command.has_subcommands() {
        man.render_subcommands_section(&mut out).map_err(cannot)?;
    }
    let mut text = title(command);
    text.push_str(&tidied(&String::from_utf8_lossy(&out)));
    let more = more.strip_prefix("Examples:\n").unwrap_or(&more);
    let more = more.strip_prefix("Example: ").unwrap_or(more);
    text.push_str(&as_written("EXAMPLES", more));
    text.push_str(&as_written("SEE ALSO", &see_also(command)));
    Ok(text)
}

/// The head of a page, and the apostrophe that the lines below it use.
fn title(command: &Command) -> String {
    let name = command.get_display_name().unwrap_or(command.get_name()).to_uppercase();
    let version = env!("CARGO_PKG_VERSION");
    format!(
        ".ie \\n(.g .ds Aq \\(aq\n.el .ds Aq '\n\
         .TH \"{name}\" \"1\" \"\" \"setwright {version}\" \"Setwright\"\n"
    )
}

/// Without what readers of the manual complain of: spaces at a line's end, a break where there is
/// one already.
fn tidied(text: &str) -> String {
    // An empty line is a space between paragraphs, which has its own request.
    let lines = text.lines().map(str::trim_end);
    let lines: Vec<&str> = lines.map(|line| if line.is_empty() { ".sp" } else { line }).collect();
    let mut out = String::new();
    for (index, line) in lines.iter().enumerate() {
        let before = index.checked_sub(1).and_then(|at| lines.get(at)).copied().unwrap_or_default();
        let after = lines.get(index + 1).copied().unwrap_or_default();
        let breaks = |line: &str| [".sp", ".SH", ".TP"].iter().any(|it| line.starts_with(it));
        let spare = *line == ".br" && (breaks(before) || breaks(after));
        // The name of the generator's own first lines is kept by `title`.
        if !spare && !line.starts_with(".ie ") && !line.starts_with(".el ") {
            out.push_str(line);
            out.push('\n');
        }
    }
    out
}

fn see_also(command: &Command) -> String {
    let subs = command.get_subcommands().filter(|sub| !sub.is_hide_set());
    let names: Vec<String> = subs.map(|sub| format!("setwright-{}(1)", sub.get_name())).collect();
    if names.is_empty() { "setwright(1)".to_owned() } else { names.join("\n") }
}

/// A section whose lines stay as they are.
fn as_written(title: &str, text: &str) -> String {
    if text.is_empty() {
        return String::new();
    }
    let title = if title.contains(' ') { format!("\"{title}\"") } else { title.to_owned() };
    let mut out = format!(".SH {title}\n.nf\n");
    for line in text.lines() {
        // A stop or an apostrophe that opens a line would be a request; a minus stays a minus.
        let line = line.replace('\\', "\\e").replace('-', "\\-");
        let guard = if line.starts_with(['.', '\'']) { "\\&" } else { "" };
        out.push_str(&format!("{guard}{line}\n"));
    }
    out.push_str(".fi\n");
    out
}
