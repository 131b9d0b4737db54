//! `setwright watch`.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::Duration;

use notify::{Event, EventKind, RecommendedWatcher, RecursiveMode, Watcher};

use super::{Failure, cards, report};

/// Print again whenever a file of the project is saved
///
/// Runs until you press Ctrl-C. If the programme has errors, the last output is kept.
#[derive(clap::Args, Debug)]
#[group(skip)]
#[command(after_help = "\
Examples:
  setwright watch examples/rowing-club/winter.sets -o cards.pdf
  setwright watch examples/rowing-club/winter.sets --sheet block \\
      --athlete \"Wren Tallow\" -o block.pdf")]
pub struct Args {
    #[command(flatten)]
    cards: cards::Args,
}

/// An editor writes a file in several steps: they are over when nothing has happened for so long.
const QUIET: Duration = Duration::from_millis(50);
/// How often that is waited for: what never rests is printed all the same.
const MOST_WAITS: usize = 40;

/// What happens while watching.
enum WatchEvent {
    /// A file of the notation was changed.
    Saved,
    /// The coach has seen enough.
    Stop,
}

pub fn run(args: &Args, epoch: Option<&str>) -> Result<(), Failure> {
    if args.cards.uses_standard_streams() {
        let why =
            "watch needs an input file and an output file, such as `watch plan.sets -o cards.pdf`";
        return Err(Failure::Usage(why.to_owned()));
    }
    args.cards.format()?;
    let (sender, news) = channel();
    stop_on_signals(sender.clone())?;
    let mut watching = Watching::new(sender)?;
    watching.follow(&args.cards)?;
    report::say("watching: saving a file prints again, Ctrl-C stops");
    let mut is_open = false;
    loop {
        match cards::print(&args.cards, epoch) {
            // A viewer shows the file again by itself.
            Ok(path) if !is_open => {
                args.cards.open_written(&path);
                is_open = true;
            }
            Ok(_) => {}
            Err(failure) => failure.tell(),
        }
        // What a broken file uses cannot be told: then the folders stay as they are.
        let _ = watching.follow(&args.cards);
        if !next(&news) {
            report::say("stopped");
            return Ok(());
        }
    }
}

/// Ctrl-C, and being asked to end, are news: what is being written is written to its end.
fn stop_on_signals(sender: Sender<WatchEvent>) -> Result<(), Failure> {
    let stop = move || {
        let _ = sender.send(WatchEvent::Stop);
    };
    ctrlc::set_handler(stop).map_err(|error| Failure::File(format!("signals: {error}")))
}

/// Waits for the next save, and until it is over; `false` when it is time to stop.
fn next(news: &Receiver<WatchEvent>) -> bool {
    if !matches!(news.recv(), Ok(WatchEvent::Saved)) {
        return false;
    }
    for _ in 0..MOST_WAITS {
        match news.recv_timeout(QUIET) {
            Ok(WatchEvent::Saved) => {}
            Ok(WatchEvent::Stop) | Err(RecvTimeoutError::Disconnected) => return false,
            Err(RecvTimeoutError::Timeout) => break,
        }
    }
    true
}

/// The folders that are watched: those of the project's files. Editors replace files, so that a
/// watch on a file itself would lose it.
struct Watching {
    watcher: RecommendedWatcher,
    folders: BTreeSet<PathBuf>,
}

impl Watching {
    fn new(sender: Sender<WatchEvent>) -> Result<Self, Failure> {
        let watcher = notify::recommended_watcher(move |event: notify::Result<Event>| {
            // An event that cannot be told is taken for a save: better once too often.
            if event.map_or(true, |event| is_save(&event)) {
                let _ = sender.send(WatchEvent::Saved);
            }
        });
        Ok(Self { watcher: watcher.map_err(cannot)?, folders: BTreeSet::new() })
    }

    /// Watches the folders of the project as it now is, beside those watched already.
    fn follow(&mut self, cards: &cards::Args) -> Result<(), Failure> {
        for folder in cards.folders()? {
            if self.folders.insert(folder.clone()) {
                self.watcher.watch(&folder, RecursiveMode::NonRecursive).map_err(cannot)?;
            }
        }
        Ok(())
    }
}

#[allow(clippy::needless_pass_by_value, reason = "for map_err")]
fn cannot(error: notify::Error) -> Failure {
    Failure::File(format!("cannot watch: {error}"))
}

/// Whether a file of the notation may have changed. The sheets that are written are none.
fn is_save(event: &Event) -> bool {
    let is_source = |path: &PathBuf| {
        Path::new(path).extension().is_some_and(|end| end.eq_ignore_ascii_case("sets"))
    };
    event.need_rescan()
        || (!matches!(event.kind, EventKind::Access(_)) && event.paths.iter().any(is_source))
}

#[cfg(test)]
mod tests {
    use super::*;
    use notify::event::{AccessKind, Flag, ModifyKind};

    #[test]
    fn only_changes_of_the_notation_count() {
        let event = |kind, path: &str| Event::new(kind).add_path(PathBuf::from(path));
        let modify = EventKind::Modify(ModifyKind::Any);
        assert!(is_save(&event(modify, "club/winter.sets")));
        assert!(!is_save(&event(modify, "club/cards.pdf")));
        assert!(!is_save(&event(modify, "club/.setwright-x.part")));
        assert!(!is_save(&event(EventKind::Access(AccessKind::Read), "club/winter.sets")));
        assert!(is_save(&Event::new(EventKind::Other).set_flag(Flag::Rescan)));
    }

    #[test]
    fn a_save_in_several_steps_is_one_and_a_stop_ends_it() {
        let (sender, news) = channel();
        for _ in 0..3 {
            sender.send(WatchEvent::Saved).unwrap();
        }
        assert!(next(&news));
        sender.send(WatchEvent::Saved).unwrap();
        sender.send(WatchEvent::Stop).unwrap();
        assert!(!next(&news));
        drop(sender);
        assert!(!next(&news));
    }
}
