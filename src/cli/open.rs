//! Opening a file with the system's own program for it.

use std::path::Path;
use std::process::{Command, Stdio};

use super::report;

/// Opens a file. Where that fails it is said, and no more: the file has been written.
pub fn open(path: &Path) {
    // A name may begin with a hyphen: a whole path never does.
    let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    let Some((program, options)) = opener().split_first() else { return };
    let mut command = Command::new(program);
    command.args(options).arg(&path);
    let ran = command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).status();
    let why = match ran {
        Ok(status) if status.success() => return,
        Ok(status) => status.to_string(),
        Err(error) => error.to_string(),
    };
    report::say(&format!("setwright: cannot open {} with {program}: {why}", path.display()));
}

/// The program that opens files, with its options.
fn opener() -> &'static [&'static str] {
    if cfg!(target_os = "macos") {
        &["open"]
    } else if cfg!(windows) {
        // What `start` does, without a shell that would read signs in the path.
        &["rundll32", "url.dll,FileProtocolHandler"]
    } else {
        &["xdg-open"]
    }
}
