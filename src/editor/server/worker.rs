//! Plans are worked out beside the conversation: on a thread of their own, one project at a time.

use std::sync::Arc;
use std::thread;
use std::time::Duration;

use crossbeam_channel::{Receiver, Sender, bounded, unbounded};

use super::workspace::FileKey;
use crate::compile::Evaluated;
use crate::editor::Analysis;
use crate::evaluate::CancelToken;

/// How often in a row an evaluation is broken off because its texts have changed: a coach who never
/// rests gets plans all the same, if of the texts before.
const MOST_BROKEN_OFF: usize = 50;

/// How long an evaluation waits for the next key after one was broken off: while a coach types, the
/// cores are the conversation's.
const PAUSE: Duration = Duration::from_millis(100);

/// What works plans out.
#[derive(Debug)]
pub struct Worker {
    running: Option<Running>,
    broken_off: usize,
    sender: Sender<Report>,
    /// What has been worked out.
    pub reports: Receiver<Report>,
}

#[derive(Debug)]
struct Running {
    root: FileKey,
    read: Arc<Analysis>,
    stop: CancelToken,
    /// Goes when it is broken off: nobody needs to wait on.
    _wanted: Sender<()>,
}

/// What came of a project: nothing, where the evaluation was asked to stop.
#[derive(Debug)]
pub struct Report {
    /// The root of the project.
    pub root: FileKey,
    /// The reading it was worked out from.
    pub read: Arc<Analysis>,
    /// What it came to.
    pub worked: Option<Evaluated>,
}

impl Default for Worker {
    fn default() -> Self {
        let (sender, reports) = unbounded();
        Self { running: None, broken_off: 0, sender, reports }
    }
}

impl Worker {
    /// The project that is being worked out.
    #[must_use]
    pub fn busy_with(&self) -> Option<&FileKey> {
        self.running.as_ref().map(|running| &running.root)
    }

    /// Works a reading out.
    pub fn start(&mut self, root: FileKey, read: Arc<Analysis>) {
        let stop = CancelToken::default();
        let (wanted, unwanted) = bounded(0);
        let pause = if self.broken_off > 0 { PAUSE } else { Duration::ZERO };
        let running =
            Running { root: root.clone(), read: read.clone(), stop: stop.clone(), _wanted: wanted };
        self.running = Some(running);
        // Whatever happens on the thread, there is a report: it is sent when it is dropped.
        let mut report = Reporting {
            report: Some(Report { root, read, worked: None }),
            to: self.sender.clone(),
        };
        thread::spawn(move || {
            let _ = unwanted.recv_timeout(pause);
            if let Some(report) = &mut report.report {
                report.worked = report.read.evaluate_all(&stop);
            }
        });
    }

    /// Breaks off what is running: nobody waits for it any more.
    pub fn break_off(&mut self) {
        if self.broken_off < MOST_BROKEN_OFF
            && let Some(running) = self.running.take()
        {
            self.broken_off += 1;
            running.stop.ask();
        }
    }

    /// Whether a report is of what is running, and not of what was broken off; then nothing is
    /// running any more.
    pub fn finished(&mut self, report: &Report) -> bool {
        let is_it = |running: &Running| Arc::ptr_eq(&running.read, &report.read);
        let finished = self.running.as_ref().is_some_and(is_it);
        if finished {
            self.running = None;
            self.broken_off = 0;
        }
        finished
    }
}

/// Lets go of plans that nobody asks for any more. There are many small parts to a squad's plans:
/// the conversation does not wait while they are given back.
pub fn let_go(old: Option<Arc<Analysis>>) {
    if let Some(old) = old {
        thread::spawn(move || drop(old));
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        if let Some(running) = self.running.take() {
            running.stop.ask();
        }
    }
}

/// A report on its way.
struct Reporting {
    report: Option<Report>,
    to: Sender<Report>,
}

impl Drop for Reporting {
    fn drop(&mut self) {
        if let Some(report) = self.report.take() {
            // The conversation may be over.
            let _ = self.to.send(report);
        }
    }
}
