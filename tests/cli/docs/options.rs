//! The commands and their options as tables, from the definition that the program reads.

use std::fmt::Write;

use clap::{Arg, ArgAction, Command};

/// A section for each command.
pub fn commands() -> String {
    let mut text = String::new();
    let definition = setwright::cli::definition();
    for command in definition.get_subcommands().filter(|c| c.get_name() != "help") {
        section(&mut text, command);
    }
    text
}

fn section(text: &mut String, command: &Command) {
    let about = command.get_about().map(ToString::to_string).unwrap_or_default();
    let places: Vec<&Arg> = command.get_positionals().collect();
    let usage: String = places.iter().map(|arg| format!(" {}", place(arg))).collect();
    let name = command.get_name();
    let _ = write!(text, "### {name}\n\n`setwright {name}{usage}`: {}\n\n", first_line(&about));
    if let Some(long) = command.get_long_about().map(ToString::to_string) {
        let rest = long.split_once("\n\n").map_or("", |(_, rest)| rest);
        if !rest.is_empty() {
            let _ = write!(text, "{}\n\n", one_line(rest));
        }
    }
    let options: Vec<&Arg> = places
        .into_iter()
        .chain(command.get_opts())
        .chain(command.get_arguments().filter(|arg| is_switch(arg)))
        .filter(|arg| !arg.is_hide_set() && !matches!(arg.get_id().as_str(), "help" | "version"))
        .collect();
    text.push_str("| option | if left out | means |\n|---|---|---|\n");
    for arg in options {
        let _ = writeln!(text, "| {} | {} | {} |", spelling(arg), default(arg), meaning(arg));
    }
    text.push('\n');
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
    if arg.is_required_set() { format!("{}{dots}", values(arg)) } else { format!("[{}]{dots}", values(arg)) }
}

fn spelling(arg: &Arg) -> String {
    if arg.is_positional() {
        return format!("`{}`", place(arg));
    }
    let mut names: Vec<String> = arg.get_short().map(|s| format!("-{s}")).into_iter().collect();
    names.extend(arg.get_long().map(|long| format!("--{long}")));
    let value = if is_switch(arg) { String::new() } else { format!(" {}", values(arg)) };
    let again = if repeats(arg) { " (may be repeated)" } else { "" };
    format!("`{}{value}`{again}", names.join(", "))
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

fn meaning(arg: &Arg) -> String {
    let mut text = one_line(&arg.get_help().map(ToString::to_string).unwrap_or_default());
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
    text
}

/// A sentence in the middle of another.
fn lower(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_lowercase().to_string()).unwrap_or_default();
    let is_name = text.chars().nth(1).is_some_and(char::is_uppercase);
    if is_name { text.to_owned() } else { first + letters.as_str() }
}

fn first_line(text: &str) -> &str {
    text.lines().next().unwrap_or(text)
}

/// As the cell of a table.
fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").replace('|', "\\|")
}
