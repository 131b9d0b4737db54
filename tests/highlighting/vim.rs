//! The highlight groups in Vim.

use std::process::Command;

use super::support::{read, repository, tool};

const SAMPLE: &str = "tests/highlighting/sample.sets";

/// A line of the sample (its start, without the margin), what is looked at in it, and its group.
const GROUPS: &[(&str, &str, &str)] = &[
    ("# A comment", "comment", "Comment"),
    ("use", "use", "Head"),
    ("use", "gym.sets", "BlockName"),
    ("gym Millshed", "gym", "Head"),
    ("gym Millshed", "Millshed", "BlockName"),
    ("bar: 20", "bar", "Key"),
    ("bar: 20", ":", "Colon"),
    ("bar: 20", "20", "Number"),
    ("bar: 20", "kg", "Unit"),
    ("bar: 20", "Trap", ""),
    ("bar: 20", "bar 25", "BarName"),
    ("bar: 20", "behind", "Comment"),
    ("has:", "Leg press", "Names"),
    ("has:", "x 2", "Share"),
    ("note:", "note", "KeyOfText"),
    ("note:", "first", "Text"),
    ("max", "max", "Key"),
    ("max", "Back squat", "KeyName"),
    ("max", "140", "Number"),
    ("max", "tested", "Joint"),
    ("max", "2026-01-03", "Date"),
    ("limit", "no jumping", "Names"),
    ("unit", "lb", "Unit"),
    ("also called", "also called", "KeyOfNames"),
    ("also called", "45-degree", "Names"),
    ("also called", "Bar", "Names"),
    ("muscles", "1/2", "Share"),
    ("cue:", "Rest", "Text"),
    ("cue:", "3", "Text"),
    ("setup", "#2", "Text"),
    ("setup", "minor", "Text"),
    ("setup", "behind", "Comment"),
    ("#right", "right", "Comment"),
    ("note: #1", "#1", "Text"),
    ("weeks: 6", "weeks", "Key"),
    ("phase", "phase", "Head"),
    ("phase", "Ease", "BlockKeyName"),
    ("phase", "week 4", "Count"),
    ("phase", "-", "Sign"),
    ("phase", "50", "Number"),
    ("phase", "load", "Action"),
    ("jump", "jump", "Parameter"),
    ("when", "when", "Line"),
    ("when", "last set", "Condition"),
    ("when", ">=", "Sign"),
    ("when", "9", "Number"),
    ("when", "in a row", "Condition"),
    ("when", "load", "Action"),
    ("when", "reps to", "Action"),
    ("day", "day", "Head"),
    ("day", "Lower one", "BlockName"),
    ("day", "Mon", "Weekday"),
    ("A1 Back", "A1", "Order"),
    ("A1 Back", "squat", "Exercise"),
    ("A1 Back", "3x", "Number"),
    ("A1 Back", "x5", "Letter"),
    ("A1 Back", "5 @", "Number"),
    ("A1 Back", "@", "Sign"),
    ("A1 Back", "%", "Unit"),
    ("A1 Back", "rest", "Option"),
    ("A1 Back", "3:00", "Number"),
    ("week 4", "week", "Line"),
    ("week 4", "AMRAP", "Count"),
    ("week 4", "RPE", "Scale"),
    ("for", "for", "For"),
    ("for", "Perrin", "Athlete"),
    ("for", "8-10", "Number"),
    ("for", "each", "Choice"),
    ("for", "Front squat", "Lift"),
    ("for", "as written", "Option"),
    ("follow", "follow", "KeyOfScheme"),
    ("follow", "Small", "Scheme"),
    ("follow", "jump 2", ""),
    ("follow", "kg", "Unit"),
    ("weeks 5", "weeks", "Line"),
    ("weeks 5", "5-6", "Number"),
    ("weeks 5", "0-X", "Number"),
    ("weeks 5", "X", "Letter"),
    ("B: circuit", "B", "Order"),
    ("B: circuit", "circuit", "Group"),
    ("B: circuit", "rounds", "Count"),
    ("B: circuit", "change", "Option"),
    ("log", "Perrin Oake", "BlockKeyName"),
    ("2026", "2026-01-05", "Session"),
    ("2026", "Lower one", "Day"),
    ("A1: 8", "/", "Sign"),
    ("A1: 8", "pain", "Scale"),
    ("B: skipped", "skipped", "Result"),
    ("B: skipped", "of", "Remark"),
];

/// The line and the column, from 1, of what is looked at.
fn place(text: &str, start: &str, what: &str) -> (usize, usize) {
    let found = text.lines().enumerate().find(|(_, line)| line.trim_start().starts_with(start));
    let (index, line) = found.unwrap_or_else(|| panic!("no line `{start}`"));
    (index + 1, line.find(what).unwrap_or_else(|| panic!("no `{what}` in `{line}`")) + 1)
}

fn vim(commands: &[String]) -> String {
    let folder = tempfile::tempdir().unwrap();
    let (script, out) = (folder.path().join("script.vim"), folder.path().join("out"));
    let runtime = repository().join("editors/vim");
    let first = [
        "set nocompatible encoding=utf-8 nomore".to_owned(),
        format!("set runtimepath^={}", runtime.display()),
        "filetype plugin indent on".to_owned(),
        "syntax on".to_owned(),
        format!("redir! > {}", out.display()),
    ];
    let lines: Vec<String> =
        first.into_iter().chain(commands.iter().cloned()).chain(["qall!".to_owned()]).collect();
    std::fs::write(&script, lines.join("\n")).unwrap();
    let ran = Command::new("vim")
        .args(["-u", "NONE", "-i", "NONE", "-n", "-N", "-E", "-s", "-S"])
        .arg(&script)
        .stdin(std::process::Stdio::null())
        .output()
        .unwrap();
    std::fs::read_to_string(&out).unwrap_or_else(|_| panic!("{ran:?}"))
}

#[test]
fn vim_gives_every_part_of_a_line_its_group() {
    if !tool("vim", "--version") {
        return;
    }
    let text = read(SAMPLE);
    let mut commands = vec![format!("edit {}", repository().join(SAMPLE).display())];
    commands.push("echo &filetype &commentstring &shiftwidth".to_owned());
    for (start, what, _) in GROUPS {
        let (line, column) = place(&text, start, what);
        commands.push(format!("echo synIDattr(synID({line}, {column}, 1), 'name')"));
    }
    let said = vim(&commands);
    let lines: Vec<&str> = said.lines().collect();
    // The output starts with a line's end.
    let lines = &lines[lines.len() - GROUPS.len() - 1..];
    assert_eq!(lines[0], "setwright # %s 2", "{said}");
    let wrong: Vec<String> = GROUPS
        .iter()
        .zip(&lines[1..])
        .filter(|((_, _, group), is)| is.trim_start_matches("setwright") != *group)
        .map(|((start, what, group), is)| format!("{start}: {what}: {group}, not {is}"))
        .collect();
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn vim_indents_what_stands_below_a_head() {
    if !tool("vim", "--version") {
        return;
    }
    let commands = [
        "enew",
        "setfiletype setwright",
        r#"execute "normal iday One\<CR>A Plank: 3 x 30 s\<CR>B Push-up: 3 x 8\<Esc>""#,
        "echo join(getline(1, '$'), '|')",
    ];
    let said = vim(&commands.map(str::to_owned));
    assert_eq!(said.trim(), "day One|  A Plank: 3 x 30 s|  B Push-up: 3 x 8");
}
