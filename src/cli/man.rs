//! `setwright man`.

use std::path::PathBuf;

use clap::Command;
use clap_mangen::Man;

use crate::diagnostics::nearest;

use super::{Failure, command, output, report};

/// The manual: a page on the whole program, or on one command; with --out all pages as files.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright man | man -l -
  setwright man cards | man -l -
  setwright man --out ~/.local/share/man/man1")]
pub struct Args {
    /// The command; without one, the page on the whole program
    #[arg(value_name = "COMMAND", conflicts_with = "out")]
    command: Option<String>,

    /// Write every page into this folder, as setwright.1, setwright-cards.1 …
    #[arg(long, value_name = "FOLDER")]
    out: Option<PathBuf>,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let pages = pages()?;
    if let Some(folder) = &args.out {
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
        None => format!("there is no command `{name}`: `setwright help` lists them"),
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

/// The page of a command, in the language of `man`. It bears no date: no clock is asked.
fn page(command: &Command) -> Result<String, Failure> {
    let cannot = |error: std::io::Error| Failure::File(error.to_string());
    // What comes after the help is laid out by hand: its lines stay lines.
    let more = command.get_after_help().map(ToString::to_string).unwrap_or_default();
    let plain = command.clone().after_help("").after_long_help("");
    let man = Man::new(plain).source(concat!("setwright ", env!("CARGO_PKG_VERSION")));
    let mut out = Vec::new();
    man.render_title(&mut out).map_err(cannot)?;
    man.render_name_section(&mut out).map_err(cannot)?;
    man.render_synopsis_section(&mut out).map_err(cannot)?;
    man.render_description_section(&mut out).map_err(cannot)?;
    man.render_options_section(&mut out).map_err(cannot)?;
    if command.has_subcommands() {
        man.render_subcommands_section(&mut out).map_err(cannot)?;
    }
    let mut text = String::from_utf8_lossy(&out).into_owned();
    text.push_str(&as_written("EXAMPLES", &more));
    text.push_str(&as_written("SEE ALSO", &see_also(command)));
    Ok(text)
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
    let mut out = format!(".SH \"{title}\"\n.nf\n");
    for line in text.lines() {
        // A stop or an apostrophe that opens a line would be a request; a minus stays a minus.
        let line = line.replace('\\', "\\e").replace('-', "\\-");
        let guard = if line.starts_with(['.', '\'']) { "\\&" } else { "" };
        out.push_str(&format!("{guard}{line}\n"));
    }
    out.push_str(".fi\n");
    out
}
