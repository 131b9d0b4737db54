//! `setwright new`.

use std::io::Write;
use std::path::{Path, PathBuf};

use super::{Failure, report};

/// Make a small project to start from
///
/// Makes a folder with a gym, two athletes and a programme that is ready to print. Never changes
/// existing files.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: setwright new my-block")]
pub struct Args {
    /// The folder to make
    #[arg(value_name = "FOLDER")]
    folder: PathBuf,
}

const FILES: [(&str, &str); 3] = [
    ("gym.sets", include_str!("new/gym.sets")),
    ("squad.sets", include_str!("new/squad.sets")),
    ("programme.sets", include_str!("new/programme.sets")),
];

pub fn run(args: &Args) -> Result<(), Failure> {
    let folder = &args.folder;
    super::output::folder(folder)?;
    for (name, _) in FILES {
        let path = folder.join(name);
        if path.exists() {
            return Err(Failure::File(format!("{} already exists", path.display())));
        }
    }
    for (name, text) in FILES {
        write_new(&folder.join(name), text)?;
    }
    let programme = folder.join("programme.sets");
    let programme = programme.display();
    report::say(&format!(
        "made {} with a gym, two athletes and a programme\nnext:\n  setwright check {programme}\n  \
         setwright cards {programme} --open",
        folder.display(),
    ));
    Ok(())
}

/// Writes a file that must not be there yet.
fn write_new(path: &Path, text: &str) -> Result<(), Failure> {
    let mut options = std::fs::OpenOptions::new();
    let file = options.write(true).create_new(true).open(path);
    file.and_then(|mut file| file.write_all(text.as_bytes()))
        .map_err(|error| Failure::File(format!("{}: {error}", path.display())))
}
