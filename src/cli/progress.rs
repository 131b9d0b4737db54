//! A progress bar on standard error, if that is a terminal that can erase it. It is erased before
//! anything else is printed and is never part of the output.

use std::io::{IsTerminal, Write};
use std::time::{Duration, Instant};

/// Work that takes less than this shows nothing.
const PATIENCE: Duration = Duration::from_millis(900);
/// The bar is drawn no more often than this.
const PAUSE: Duration = Duration::from_millis(100);
/// How long the bar is, in signs.
const LENGTH: usize = 30;

/// How far work on several athletes is.
pub struct Progress {
    /// When to draw next; never, where there is nobody to see it.
    next: Option<Instant>,
    drawn: bool,
}

impl Progress {
    /// Begins work.
    #[allow(
        clippy::disallowed_methods,
        reason = "who waits, and how long, is no part of an output"
    )]
    pub fn new() -> Self {
        let stderr = std::io::stderr();
        // Colour has a say (`NO_COLOR`, `CLICOLOR=0`), but cannot have the last one: what runs
        // builds sets `CI`, which asks for colour even where nothing can be taken back.
        let plain = anstream::AutoStream::choice(&stderr) == anstream::ColorChoice::Never;
        let dumb = std::env::var_os("TERM").is_none_or(|term| term == "dumb");
        let watched = std::env::var_os("CI").is_none();
        let seen = stderr.is_terminal() && !plain && !dumb && watched;
        Self { next: seen.then(|| Instant::now() + PATIENCE), drawn: false }
    }

    /// So many of all athletes are done.
    #[allow(clippy::disallowed_methods, reason = "how long somebody waits is no part of an output")]
    pub fn tell(&mut self, done: usize, all: usize) {
        let now = Instant::now();
        if all < 2 || self.next.is_none_or(|next| now < next) {
            return;
        }
        (self.next, self.drawn) = (Some(now + PAUSE), true);
        let full = LENGTH * done.min(all) / all;
        let bar = format!("{}{}", "#".repeat(full), ".".repeat(LENGTH - full));
        Self::write(&format!("\r[{bar}] {done} of {all} athletes"));
    }

    /// Nobody can be told when this fails.
    fn write(text: &str) {
        let mut out = std::io::stderr();
        let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if self.drawn {
            Self::write("\r\x1b[2K");
        }
    }
}
