//! The `setwright` program: the environment comes in here, everything else is in the library.

use std::process::ExitCode;

fn main() -> ExitCode {
    // The one variable that may reach an output: a stated time of making, for reproducible builds.
    #[allow(clippy::disallowed_methods, reason = "the environment is read here and handed in")]
    let epoch = std::env::var("SOURCE_DATE_EPOCH").ok();
    setwright::cli::run(std::env::args_os(), epoch.as_deref())
}
