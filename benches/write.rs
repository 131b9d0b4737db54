//! Writes a programme of a given size into a folder:
//!
//! `cargo bench --bench write -- squad FOLDER ATHLETES [WEEKS]`
//! `cargo bench --bench write -- long FOLDER LINES`
#![allow(clippy::indexing_slicing, clippy::disallowed_methods, reason = "a tool of the benches")]

#[path = "support/programme.rs"]
mod programme;

use std::path::Path;
use std::process::ExitCode;

fn main() -> ExitCode {
    // Cargo itself passes --bench.
    let given: Vec<String> = std::env::args().skip(1).filter(|one| one != "--bench").collect();
    let words: Vec<&str> = given.iter().map(String::as_str).collect();
    let made = match words.as_slice() {
        ["squad", folder, athletes] => {
            sized(athletes, |n| programme::squad(n, 12)).map(|t| (folder, t))
        }
        ["squad", folder, athletes, weeks] => weeks
            .parse()
            .ok()
            .and_then(|weeks| sized(athletes, |n| programme::squad(n, weeks)))
            .map(|text| (folder, text)),
        ["long", folder, lines] => sized(lines, programme::long).map(|text| (folder, text)),
        _ => None,
    };
    let Some((folder, text)) = made else {
        println!("squad FOLDER ATHLETES [WEEKS], or long FOLDER LINES");
        return ExitCode::SUCCESS;
    };
    let folder = Path::new(folder);
    let file = folder.join("programme.sets");
    let written = std::fs::create_dir_all(folder).and_then(|()| std::fs::write(&file, &text));
    match written {
        Ok(()) => {
            println!("{}: {} lines", file.display(), text.lines().count());
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("{}: {error}", file.display());
            ExitCode::FAILURE
        }
    }
}

fn sized(number: &str, make: impl Fn(usize) -> String) -> Option<String> {
    number.parse().ok().map(make)
}
