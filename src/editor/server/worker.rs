//! The thread that evaluates plans, one project at a time, so that the loop stays responsive.

use std::sync::Arc;
use std::thread;
use std::time::Duration;

use crossbeam_channel::{Receiver, Sender, bounded, unbounded};

use super::workspace::FileKey;
use crate::compile::Evaluated;
use crate::editor::Analysis;
use crate::evaluate::CancelToken;

/// How many times in a row an evaluation is cancelled because its texts have changed. After that it
/// runs to the end, so that plans arrive even if the coach never stops typing.
const MOST_BROKEN_OFF: usize = 50;

/// How long an evaluation waits for another keystroke after one was cancelled, so that the cores
/// are free for the loop while the coach types.
const PAUSE: Duration = Duration::from_millis(100);

/// Evaluates plans on a thread.
#[derive(Debug)]
pub struct Worker {
    running: Option<Running>,
    broken_off: usize,
    sender: Sender<Report>,
    /// Results of evaluations.
    pub reports: Receiver<Report>,
}

#[derive(Debug)]
struct Running {
    root: FileKey,
    read: Arc<Analysis>,
    stop: CancelToken,
    /// Dropped when the evaluation is cancelled, which ends the wait of the thread.
    _wanted: Sender<()>,
}

/// The result of a project.
#[derive(Debug)]
pub struct Report {
    /// The root of the project.
    pub root: FileKey,
    /// The reading that was evaluated.
    pub read: Arc<Analysis>,
    /// The result; `None` if the evaluation was cancelled.
    pub worked: Option<Evaluated>,
}

impl Default for Worker {
    fn default() -> Self {
        let (sender, reports) = unbounded();
        Self { running: None, broken_off: 0, sender, reports }
    }
}

impl Worker {
    /// The project that is being evaluated.
    #[must_use]
    pub fn busy_with(&self) -> Option<&FileKey> {
        self.running.as_ref().map(|running| &running.root)
    }

    /// Starts the evaluation of a reading.
    pub fn start(&mut self, root: FileKey, read: Arc<Analysis>) {
        let stop = CancelToken::default();
        let (wanted, unwanted) = bounded(0);
        let pause = if self.broken_off > 0 { PAUSE } else { Duration::ZERO };
        let running =
            Running { root: root.clone(), read: read.clone(), stop: stop.clone(), _wanted: wanted };
        self.running = Some(running);
        // A report is sent in any case, because it is sent on drop.
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

    /// Cancels the running evaluation, unless too many in a row have been cancelled.
    pub fn break_off(&mut self) {
        if self.broken_off < MOST_BROKEN_OFF
            && let Some(running) = self.running.take()
        {
            self.broken_off += 1;
            running.stop.ask();
        }
    }

    /// Whether a report belongs to the running evaluation and not to a cancelled one. If so,
    /// nothing is running any more.
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

/// Drops old plans on another thread: a squad's plans have many small parts, and the loop must not
/// wait while they are freed.
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

/// Sends its report on drop.
struct Reporting {
    report: Option<Report>,
    to: Sender<Report>,
}

impl Drop for Reporting {
    fn drop(&mut self) {
        if let Some(report) = self.report.take() {
            // The loop may have ended.
            let _ = self.to.send(report);
        }
    }
}
