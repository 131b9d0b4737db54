//! Runs every command and example in the docs.
//!
//! In `README.md`, `DEVELOPERS.md` and `docs/`, the words after the fence give the kind of a block:
//!
//! - `console` is run line by line in a folder with a copy of `examples/`, and its output is
//!   compared; `console git` is the same, if git is installed;
//! - `sets` is a complete project and must have no errors;
//! - `sets part` must be readable line by line;
//! - `sets file=linear.sets` (or `sets part file=gym.sets`) is also written into that folder, for
//!   the commands after it and for the projects that use it.
//!
//! `SETWRIGHT_ACCEPT_DOCS=1 cargo test --test cli docs` writes the output of the commands into the
//! docs, and generates the generated parts and the lines between chapters again.

#[path = "docs/blocks.rs"]
mod blocks;
#[path = "docs/chapters.rs"]
mod chapters;
#[path = "docs/maths.rs"]
mod maths;
#[path = "docs/options.rs"]
mod options;
#[path = "docs/reference.rs"]
mod reference;
#[path = "docs/words.rs"]
mod words;

use std::path::{Path, PathBuf};
use std::process::Command;

use setwright::compile::check;
use setwright::diagnostics::has_errors;
use setwright::resolve::Project;
use setwright::source::{FileId, MemoryLoader};

use super::support::repository;
use blocks::{Document, Part, documents};

#[test]
fn every_example_in_the_docs_reads_and_compiles() {
    let mut count = 0;
    for document in documents() {
        let mut loader = MemoryLoader::new();
        for (info, body) in document.blocks() {
            if blocks::is_whole_project(info) {
                compiles(&document.name, &loader, body);
            } else if blocks::is_sets(info) {
                let (_, problems) = setwright::syntax::parse(body, FileId(0));
                assert_eq!(problems, [], "{}:\n{body}", document.name);
            } else {
                continue;
            }
            count += 1;
            if let Some(file) = blocks::file_of(info) {
                loader = loader.with(file, body);
            }
        }
    }
    assert!(count > 5, "{count} examples");
}

fn compiles(name: &str, loader: &MemoryLoader, body: &str) {
    let compiled = check(Project::from_text(loader, "example.sets", body.to_owned()));
    let shown: Vec<String> = compiled
        .diagnostics
        .iter()
        .map(|d| setwright::diagnostics::render_text(d, &compiled.sources, false))
        .collect();
    assert!(!has_errors(&compiled.diagnostics), "{name}:\n{body}\n{}", shown.concat());
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

/// What a command prints, both streams in the order in which they come.
#[cfg(unix)]
fn printed(command: &str, folder: &Path) -> String {
    let program = Path::new(env!("CARGO_BIN_EXE_setwright"));
    let output = Command::new("sh")
        .args(["-c", &format!("{{ {command}\n}} 2>&1")])
        .current_dir(folder)
        .env("PATH", format!("{}:/usr/bin:/bin", program.parent().unwrap().display()))
        // git asks for a name and an address, and reads settings of its own.
        .envs([("HOME", folder.as_os_str()), ("GIT_CONFIG_NOSYSTEM", "1".as_ref())])
        .envs(["GIT_AUTHOR_NAME", "GIT_COMMITTER_NAME"].map(|name| (name, "Ash Example")))
        .envs(["GIT_AUTHOR_EMAIL", "GIT_COMMITTER_EMAIL"].map(|name| (name, "ash@example.org")))
        .env_remove("SOURCE_DATE_EPOCH")
        .output()
        .unwrap();
    String::from_utf8_lossy(&output.stdout).trim_end().to_owned()
}

/// Runs the commands of a block; the block with what they print now.
#[cfg(unix)]
fn run_block(body: &str, folder: &mut PathBuf) -> String {
    let mut now = String::new();
    for part in body.split("\n$ ").map(|part| part.strip_prefix("$ ").unwrap_or(part)) {
        let command = part.lines().next().unwrap_or_default();
        now += &format!("$ {command}\n");
        // As in a terminal, what follows goes on from there.
        if let Some(to) = command.strip_prefix("cd ").filter(|to| !to.contains("&&")) {
            *folder = folder.join(to).canonicalize().unwrap();
            continue;
        }
        let output = printed(command, folder);
        if !output.is_empty() {
            now += &format!("{output}\n");
        }
    }
    now
}

/// The document with what its commands print now.
#[cfg(unix)]
fn run(document: &Document, has_git: bool) -> Document {
    let folder = tempfile::tempdir().unwrap();
    copy(&repository().join("examples"), &folder.path().join("examples"));
    let mut here = folder.path().to_owned();
    let mut now = document.clone();
    for part in &mut now.parts {
        let Part::Block { info, body } = part else { continue };
        if let Some(file) = blocks::file_of(info) {
            let path = folder.path().join(file);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, &*body).unwrap();
        }
        if info == "console" || (info == "console git" && has_git) {
            *body = run_block(body, &mut here);
        }
    }
    now
}

/// Whether git is installed; says so where it is not.
#[cfg(unix)]
fn has_git() -> bool {
    let found = Command::new("git").arg("--version").output().is_ok();
    if !found {
        let required = std::env::var("SETWRIGHT_TOOLS").is_ok_and(|v| v == "required");
        assert!(!required, "git is required here");
        eprintln!("skipped: git is not installed");
    }
    found
}

#[cfg(unix)]
#[test]
fn every_command_in_the_docs_prints_what_the_docs_say() {
    let _turn = blocks::turn();
    let (documents, has_git) = (documents(), has_git());
    let run_all = |documents: &[Document]| -> Vec<Document> {
        std::thread::scope(|scope| {
            let threads: Vec<_> =
                documents.iter().map(|d| scope.spawn(move || run(d, has_git))).collect();
            threads.into_iter().map(|thread| thread.join().unwrap()).collect()
        })
    };
    let (before, after): (Vec<String>, Vec<String>) =
        documents.iter().zip(run_all(&documents)).map(|(d, now)| (d.text(), now.text())).unzip();
    let commands: usize = before.iter().map(|text| text.matches("\n$ ").count()).sum();
    assert!(commands > 30, "{commands} commands");
    for ((document, before), after) in documents.iter().zip(before).zip(after) {
        blocks::same_or_accept(&document.name, &before, &after);
    }
}

#[test]
fn every_command_has_an_example_in_its_help() {
    for command in setwright::cli::command().get_subcommands() {
        let help = command.get_after_help().map(ToString::to_string).unwrap_or_default();
        assert!(help.contains("Example"), "{}", command.get_name());
    }
}
