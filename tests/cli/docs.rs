//! Every command and example in the docs is run.
//!
//! In `README.md`, `DEVELOPERS.md` and `docs/`: a block fenced `console` is run line by line in a
//! folder with a copy of `examples/`, and its output compared; `sets` is a complete project;
//! `sets part` must read line by line.

use std::path::Path;
use std::process::Command;

use setwright::compile::check;
use setwright::diagnostics::has_errors;
use setwright::resolve::Project;
use setwright::source::{FileId, MemoryLoader};

use super::support::repository;

/// The fenced blocks of a document: the words after the fence, and the text.
fn blocks(text: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut open: Option<(String, String)> = None;
    for line in text.lines() {
        match (&mut open, line.strip_prefix("```")) {
            (None, Some(info)) => open = Some((info.trim().to_owned(), String::new())),
            (Some(_), Some(_)) => found.extend(open.take()),
            (Some((_, body)), None) => {
                body.push_str(line);
                body.push('\n');
            }
            (None, None) => {}
        }
    }
    found
}

fn documents() -> Vec<(String, String)> {
    let mut paths = vec!["README.md".to_owned(), "DEVELOPERS.md".to_owned()];
    let guide = std::fs::read_dir(repository().join("docs")).unwrap();
    for entry in guide {
        let name = entry.unwrap().file_name().into_string().unwrap();
        if Path::new(&name).extension().is_some_and(|e| e == "md") {
            paths.push(format!("docs/{name}"));
        }
    }
    paths.sort();
    paths
        .into_iter()
        .map(|p| (p.clone(), std::fs::read_to_string(repository().join(p)).unwrap()))
        .collect()
}

#[test]
fn every_example_in_the_docs_reads_and_compiles() {
    let mut count = 0;
    for (name, text) in documents() {
        for (info, body) in blocks(&text) {
            match info.as_str() {
                "sets" => {
                    let project =
                        Project::from_text(&MemoryLoader::new(), "example.sets", body.clone());
                    let compiled = check(project);
                    let shown: Vec<String> = compiled
                        .diagnostics
                        .iter()
                        .map(|d| setwright::diagnostics::render_text(d, &compiled.sources, false))
                        .collect();
                    assert!(
                        !has_errors(&compiled.diagnostics),
                        "{name}:\n{body}\n{}",
                        shown.concat()
                    );
                    count += 1;
                }
                "sets part" => {
                    let (_, problems) = setwright::syntax::parse(&body, FileId(0));
                    assert_eq!(problems, [], "{name}:\n{body}");
                    count += 1;
                }
                _ => {}
            }
        }
    }
    assert!(count > 5, "{count} examples");
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let target = to.join(path.file_name().unwrap());
        if path.is_dir() {
            copy(&path, &target);
        } else {
            std::fs::copy(&path, target).unwrap();
        }
    }
}

#[cfg(unix)]
#[test]
fn every_command_in_the_docs_prints_what_the_docs_say() {
    let program = Path::new(env!("CARGO_BIN_EXE_setwright"));
    let path = format!("{}:/usr/bin:/bin", program.parent().unwrap().display());
    let mut count = 0;
    for (name, text) in documents() {
        let folder = tempfile::tempdir().unwrap();
        copy(&repository().join("examples"), &folder.path().join("examples"));
        for (info, body) in blocks(&text) {
            if info != "console" {
                continue;
            }
            for part in body.split("\n$ ").map(|part| part.strip_prefix("$ ").unwrap_or(part)) {
                let (command, expected) = part.split_once('\n').unwrap_or((part, ""));
                let output = Command::new("sh")
                    .args(["-c", &format!("{{ {command}\n}} 2>&1")])
                    .current_dir(folder.path())
                    .env("PATH", &path)
                    .env_remove("SOURCE_DATE_EPOCH")
                    .output()
                    .unwrap();
                let printed = String::from_utf8_lossy(&output.stdout).into_owned();
                assert_eq!(printed.trim_end(), expected.trim_end(), "{name}: $ {command}");
                count += 1;
            }
        }
    }
    assert!(count > 3, "{count} commands");
}

#[test]
fn every_command_has_an_example_in_its_help() {
    let help = |arguments: &[&str]| {
        let ran = Command::new(env!("CARGO_BIN_EXE_setwright")).args(arguments).output().unwrap();
        String::from_utf8(ran.stdout).unwrap()
    };
    let all = help(&["--help"]);
    for command in [
        "check",
        "cards",
        "summary",
        "plan",
        "why",
        "log",
        "review",
        "new",
        "fmt",
        "exercises",
        "explain",
        "completions",
        "man",
    ] {
        assert!(all.contains(command));
        assert!(help(&[command, "--help"]).contains("Example"), "{command}");
    }
}
