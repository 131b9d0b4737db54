//! Messages over standard input and output.

use std::io::BufReader;
use std::thread;

use lsp_server::Connection;

use super::frames::Frames;

/// Runs a server over standard input and output until either ends, and returns its result.
///
/// Both directions are queued without a limit, so that the server sees all waiting messages and
/// neither side can block the other. Invalid input is reported on standard error and skipped.
pub fn stdio<T>(serve: impl FnOnce(Connection) -> T) -> T {
    let (here, there) = Connection::memory();
    let Connection { sender, receiver } = there;
    let writer = thread::spawn(move || {
        let mut out = std::io::stdout().lock();
        for message in receiver {
            if message.write(&mut out).is_err() {
                return;
            }
        }
    });
    // Not joined, because it may be reading an input that never ends.
    thread::spawn(move || {
        let mut frames = Frames::new(BufReader::new(std::io::stdin().lock()));
        let mut report = |why: &str| {
            let why: String = why.chars().take(200).collect();
            anstream::eprintln!("setwright lsp: {why}; skipped");
        };
        while let Ok(Some(message)) = frames.next(&mut report) {
            if sender.send(message).is_err() {
                return;
            }
        }
    });
    let came_to = serve(here);
    // Wait until the last answer is written.
    let _ = writer.join();
    came_to
}
