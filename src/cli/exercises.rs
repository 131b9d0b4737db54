//! `setwright exercises`.

use std::path::PathBuf;

use crate::catalogue::Exercise;
use crate::quantity::fold_name;
use crate::resolve::{Project, resolve};
use crate::source::MemoryLoader;

use super::input::File;
use super::{Failure, output};

/// Width of the column of names.
const NAME_WIDTH: usize = 34;

/// Lists the exercises that are built in, and a project's own: by a part of the name or a synonym,
/// by pattern, muscle or equipment.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright exercises row
  setwright exercises hamstrings
  setwright exercises squat --file examples/rowing-club/winter.sets")]
pub struct Args {
    /// Words to look for; all must be found
    #[arg(value_name = "WORD")]
    words: Vec<String>,

    /// A project whose own exercises count as well
    #[arg(long, value_name = "FILE")]
    file: Option<PathBuf>,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let project = match &args.file {
        None => Project::from_text(&MemoryLoader::new(), "none.sets", String::new()),
        Some(path) => File { file: path.clone(), project: None }.open()?,
    };
    let resolved = resolve(project);
    let wanted: Vec<String> = args.words.iter().map(|word| fold_name(word)).collect();
    let mut text = String::new();
    let mut seen = Vec::new();
    // The last definition of a name is the one that counts.
    for exercise in resolved.exercises.iter().rev() {
        let name = fold_name(&exercise.name);
        if seen.contains(&name) {
            continue;
        }
        seen.push(name);
        let about = fold_name(&about(exercise));
        if wanted.iter().all(|word| about.contains(word)) {
            text.insert_str(0, &line(exercise));
        }
    }
    if text.is_empty() {
        return Err(Failure::Usage(format!(
            "no exercise goes with `{}`: fewer words find more",
            args.words.join(" ")
        )));
    }
    output::text(None, &text)
}

fn equipment(exercise: &Exercise) -> String {
    let names = exercise.equipment.iter().map(|item| match &item.name {
        Some(name) => format!("{} {name}", item.kind.word()),
        None => item.kind.word().to_owned(),
    });
    let needs = exercise.needs.iter().map(|need| need.to_lowercase());
    names.chain(needs).collect::<Vec<_>>().join(", ")
}

/// Everything a word may be found in.
fn about(exercise: &Exercise) -> String {
    let also: Vec<&str> = exercise.also.iter().map(|name| name.value.as_str()).collect();
    let muscles: Vec<&str> = exercise.muscles.iter().map(|(muscle, _)| muscle.as_str()).collect();
    format!(
        "{} {} {} {} {}",
        exercise.name,
        also.join(" "),
        exercise.pattern.as_deref().unwrap_or(""),
        muscles.join(" "),
        equipment(exercise)
    )
}

fn line(exercise: &Exercise) -> String {
    let pattern = exercise.pattern.as_deref().unwrap_or("");
    let mut text =
        format!("{:<NAME_WIDTH$}  {pattern:<16}  {}", exercise.name, equipment(exercise));
    text.truncate(text.trim_end().len());
    if !exercise.also.is_empty() {
        let also: Vec<&str> = exercise.also.iter().map(|name| name.value.as_str()).collect();
        text.push_str(&format!("\n    also called {}", also.join(", ")));
    }
    text.push('\n');
    text
}
