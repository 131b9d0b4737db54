//! The `setwright` program. It reads the environment; everything else is in the library.

use std::process::ExitCode;

fn main() -> ExitCode {
    // The only variable that may affect an output: a given creation time, for reproducible builds.
    #[allow(clippy::disallowed_methods, reason = "the environment is read here and handed in")]
    let epoch = std::env::var("SOURCE_DATE_EPOCH").ok();
    #[allow(clippy::disallowed_methods, reason = "the environment is read here and handed in")]
    let shell = std::env::var(setwright::cli::COMPLETE_VARIABLE).ok();
    if let Some(shell) = shell.filter(|shell| !shell.is_empty()) {
        return setwright::cli::candidates(std::env::args_os(), &shell);
    }
    setwright::cli::run(std::env::args_os(), epoch.as_deref())
}
