//! Tables of the commands and their options, generated from the definition of the command line.

use std::fmt::Write;

use clap::{Arg, ArgAction, Command};

/// A table of all commands, and a section for each.
pub fn commands() -> String {
    let mut definition = setwright::cli::command();
    definition.build();
    let mut text = "| command | |\n|---|---|\n".to_owned();
    for command in definition.get_subcommands().filter(|c| is_shown(c)) {
        let (name, about) = (command.get_name(), about(command));
        let _ = writeln!(text, "| [`{name}`](#{name}) | {about} |");
    }
    text.push('\n');
    let mut before: Vec<(String, Vec<String>)> = Vec::new();
    for command in definition.get_subcommands().filter(|c| is_shown(c)) {
        let rows = rows(command);
        // A command with all options of another, such as `watch`, lists what it adds.
        let whole = before.iter().find(|(_, all)| all.iter().all(|row| rows.contains(row)));
        section(&mut text, command, &rows, whole);
        before.push((command.get_name().to_owned(), rows));
    }
    text
}

fn is_shown(command: &Command) -> bool {
    command.get_name() != "help" && !command.is_hide_set()
}

fn rows(command: &Command) -> Vec<String> {
    let options = command.get_arguments().filter(|arg| !arg.is_positional());
    let shown = command
        .get_positionals()
        .chain(options)
        .filter(|arg| !arg.is_hide_set() && !matches!(arg.get_id().as_str(), "help" | "version"));
    let row = |arg: &Arg| {
        let (meaning, stated) = meaning(arg);
        format!("| {} | {} | {meaning} |", spelling(arg), stated.unwrap_or_else(|| default(arg)))
    };
    shown.map(row).collect()
}

fn section(
    text: &mut String,
    command: &Command,
    rows: &[String],
    whole: Option<&(String, Vec<String>)>,
) {
    let name = command.get_name();
    let about = about(command);
    let usage: String = command
        .get_positionals()
        .filter(|arg| !arg.is_hide_set())
        .map(|arg| format!(" {}", place(arg)))
        .collect();
    let _ = write!(text, "### {name}\n\n`setwright {name}{usage}`: {}.\n\n", lower(&about));
    let mut own: Vec<&String> = rows.iter().collect();
    if let Some((name, all)) = whole.filter(|(_, all)| all.len() > 3) {
        own.retain(|row| !all.contains(row));
        let _ = write!(text, "All options of [`{name}`](#{name})");
        text.push_str(if own.is_empty() { ".\n\n" } else { ", and:\n\n" });
    }
    if !own.is_empty() {
        text.push_str("| option | if left out | means |\n|---|---|---|\n");
        for row in own {
            let _ = writeln!(text, "{row}");
        }
        text.push('\n');
    }
}

fn about(command: &Command) -> String {
    command.get_about().map(ToString::to_string).unwrap_or_default()
}

fn is_switch(arg: &Arg) -> bool {
    !arg.is_positional() && matches!(arg.get_action(), ArgAction::SetTrue | ArgAction::Count)
}

fn values(arg: &Arg) -> String {
    let names = arg.get_value_names().unwrap_or_default();
    names.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")
}

fn repeats(arg: &Arg) -> bool {
    matches!(arg.get_action(), ArgAction::Append)
}

fn place(arg: &Arg) -> String {
    let dots = if repeats(arg) { "..." } else { "" };
    if arg.is_required_set() {
        format!("{}{dots}", values(arg))
    } else {
        format!("[{}]{dots}", values(arg))
    }
}

fn spelling(arg: &Arg) -> String {
    if arg.is_positional() {
        return format!("`{}`", place(arg));
    }
    let mut names: Vec<String> = arg.get_short().map(|s| format!("-{s}")).into_iter().collect();
    names.extend(arg.get_long().map(|long| format!("--{long}")));
    let may_lack = arg.get_num_args().is_some_and(|count| count.min_values() == 0);
    let value = match (is_switch(arg), may_lack) {
        (true, _) => String::new(),
        (_, true) => format!("[={}]", values(arg)),
        _ => format!(" {}", values(arg)),
    };
    format!("`{}{value}`", names.join(", "))
}

fn default(arg: &Arg) -> String {
    let defaults: Vec<String> = arg
        .get_default_values()
        .iter()
        .map(|value| format!("`{}`", value.to_string_lossy()))
        .collect();
    match (is_switch(arg), defaults.is_empty(), arg.is_required_set()) {
        (true, ..) => "off".to_owned(),
        (_, false, _) => defaults.join(", "),
        (_, _, true) => "must be given".to_owned(),
        _ => "–".to_owned(),
    }
}

/// What an option means, and what its help says of its being left out.
fn meaning(arg: &Arg) -> (String, Option<String>) {
    let mut text = one_line(&arg.get_help().map(ToString::to_string).unwrap_or_default());
    let mut stated = None;
    if let Some((before, rest)) = text.split_once("[default: ")
        && let Some((default, after)) = rest.split_once(']')
    {
        stated = Some(default.to_owned());
        text = format!("{}{after}", before.trim_end());
    }
    let choices: Vec<String> = arg
        .get_possible_values()
        .iter()
        .filter(|_| !is_switch(arg))
        .map(|value| match value.get_help() {
            Some(help) => format!("`{}` ({})", value.get_name(), lower(&help.to_string())),
            None => format!("`{}`", value.get_name()),
        })
        .collect();
    if !choices.is_empty() {
        let _ = write!(text, ". One of {}", choices.join(", "));
    }
    (text, stated)
}

/// A sentence in the middle of another.
fn lower(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_lowercase().to_string()).unwrap_or_default();
    let is_name = text.chars().nth(1).is_some_and(char::is_uppercase);
    if is_name { text.to_owned() } else { first + letters.as_str() }
}

/// As the cell of a table.
fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").replace('|', "\\|")
}
