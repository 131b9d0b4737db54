//! Messages over standard input and output.

use std::io::{BufReader, ErrorKind};
use std::thread;

use lsp_server::{Connection, Message};

/// Runs a server over standard input and output until either ends, and says what it came to.
///
/// Both ways are queued without a bound, so that the server sees what is waiting and neither side
/// can hold the other up. A message that is no message is told on standard error and passed over.
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
    // Not waited for: it may stand before an input that never ends.
    thread::spawn(move || {
        let mut input = BufReader::new(std::io::stdin().lock());
        loop {
            match Message::read(&mut input) {
                Ok(Some(message)) => {
                    if sender.send(message).is_err() {
                        return;
                    }
                }
                Err(error) if error.kind() == ErrorKind::InvalidData => {
                    let why: String = error.to_string().chars().take(200).collect();
                    anstream::eprintln!("setwright lsp: {why}");
                }
                Ok(None) | Err(_) => return,
            }
        }
    });
    let came_to = serve(here);
    // What was answered last is written to its end.
    let _ = writer.join();
    came_to
}
