//! The language server: keeps the editor's texts, reads and evaluates projects when something
//! changes, answers requests and publishes problems.
//!
//! [`editor`](crate::editor) describes how the loop and the worker thread work together.

mod analyses;
mod answer;
mod buffers;
mod notifications;
mod publish;
mod shape;
mod uses;
mod view;
mod worker;
mod workspace;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crossbeam_channel::select;
use serde_json::Value;

use self::analyses::Analyses;
use self::buffers::Buffers;
use self::publish::Published;
use self::worker::{Report, Worker, let_go};
use self::workspace::{FileKey, Workspace};
use super::Analysis;
use super::features::Shown;
use super::protocol::{
    Client, Connection, EditorRequest, Message, Notification, Request, RequestId, Response,
    ResponseError, ask, initialized,
};
use crate::catalogue::Library;
use crate::resolve::Project;

/// How many times in a row publishing is postponed because new messages have arrived. After that,
/// problems are published even if messages never stop.
const MOST_PUT_OFF: usize = 50;

/// A request that is answered when everything before it has been evaluated and published, for tools
/// that wait for all problems.
const SETTLED: &str = "setwright/settled";

/// The state of a connection.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stage {
    /// Before `initialize`.
    Greeting,
    /// Between the two.
    Working,
    /// After `shutdown`.
    Closing,
}

/// A connection to an editor.
#[derive(Debug)]
struct Server {
    stage: Stage,
    client: Client,
    buffers: Buffers,
    workspace: Workspace,
    analyses: Analyses,
    /// What was published for each text.
    told: BTreeMap<String, Published>,
    /// The athlete and week of the inlay hints.
    shown: Shown,
    /// Requests that are not answered yet.
    asked: Vec<Request>,
    /// Messages to send to the editor.
    out: Vec<Message>,
    /// Number of requests sent to the editor.
    requests: u32,
    /// Whether something changed since problems were published.
    is_due: bool,
    /// Evaluates plans.
    worker: Worker,
    /// Whether hints were shown from plans that are being evaluated again.
    has_old_hints: bool,
}

/// Serves an editor until it sends `exit` or disconnects. Returns whether it sent `shutdown`
/// before.
#[allow(clippy::needless_pass_by_value, reason = "the editor's end of it ends with this one")]
#[must_use]
pub fn serve(connection: Connection) -> bool {
    // Unknown names, lists of names and hovers need the whole library, so it is loaded in advance.
    std::thread::spawn(|| Library::get().read_all());
    let mut server = Server::new();
    let mut put_off = 0;
    let is_news = || !connection.receiver.is_empty();
    let reports = server.worker.reports.clone();
    loop {
        let first = select! {
            recv(connection.receiver) -> message => match message {
                Ok(message) => Some(message),
                Err(_) => return false,
            },
            recv(reports) -> report => {
                if let Ok(report) = report {
                    server.take_report(report);
                }
                None
            }
        };
        let waiting = connection.receiver.try_iter();
        for message in first.into_iter().chain(waiting) {
            if server.take(message) {
                server.send(&connection);
                return server.stage == Stage::Closing;
            }
        }
        server.break_off();
        server.answer_all();
        server.send(&connection);
        if server.is_due && server.stage == Stage::Working {
            let may_put_off = put_off < MOST_PUT_OFF;
            if server.publish(&|| may_put_off && is_news()) {
                server.is_due = false;
                put_off = 0;
            } else {
                put_off += 1;
            }
        }
        server.work();
        server.answer_settled();
        server.send(&connection);
    }
}

impl Server {
    fn new() -> Self {
        Self {
            stage: Stage::Greeting,
            client: Client::default(),
            buffers: Buffers::default(),
            workspace: Workspace::default(),
            analyses: Analyses::default(),
            told: BTreeMap::new(),
            shown: Shown { athlete: None, week: None },
            asked: Vec::new(),
            out: Vec::new(),
            requests: 0,
            is_due: false,
            worker: Worker::default(),
            has_old_hints: false,
        }
    }

    /// Takes a message: notifications are handled at once, requests are queued. Returns `true` on
    /// `exit`.
    fn take(&mut self, message: Message) -> bool {
        match message {
            Message::Request(request) => self.take_request(request),
            Message::Notification(news) if news.method == "exit" => return true,
            Message::Notification(news) if self.stage == Stage::Working => {
                self.handle_notification(news);
            }
            Message::Response(response) => self.hear_answer(response),
            Message::Notification(_) => {}
        }
        false
    }

    fn take_request(&mut self, request: Request) {
        match (request.method.as_str(), self.stage) {
            ("initialize", Stage::Greeting) => {
                self.client = Client::of(&request.params);
                self.workspace = Workspace::new(&self.client.folders);
                self.shown = self.client.shown.clone();
                self.stage = Stage::Working;
                self.reply(request.id, Ok(initialized(&self.client)));
            }
            (_, Stage::Greeting) => self.reply(request.id, Err(ResponseError::too_early())),
            ("shutdown", Stage::Working) => {
                // Earlier requests are answered first, as well as possible.
                self.stage = Stage::Closing;
                self.answer_all();
                self.answer_settled();
                self.reply(request.id, Ok(Value::Null));
            }
            ("initialize", _) | (_, Stage::Closing) => {
                self.reply(request.id, Err(ResponseError::out_of_turn()));
            }
            (_, Stage::Working) => self.asked.push(request),
        }
    }

    /// Answers the queued requests in order, from the newest texts. Requests that cannot be
    /// answered yet stay queued.
    fn answer_all(&mut self) {
        for request in std::mem::take(&mut self.asked) {
            if request.method == SETTLED {
                self.asked.push(request);
                continue;
            }
            match ask(&request.method, request.params.clone()) {
                Ok(asked) if self.must_wait(&asked) => self.asked.push(request),
                Ok(asked) => {
                    let answer = self.answer(asked);
                    self.reply(request.id, answer);
                }
                Err(refusal) => self.reply(request.id, Err(refusal)),
            }
        }
    }

    /// Whether a request needs plans and there are none yet.
    fn must_wait(&mut self, asked: &EditorRequest) -> bool {
        let EditorRequest::Hints(uri, _) = asked else { return false };
        let Some(root) = self.first_root(uri) else { return false };
        let has_none = self.analysis(&root).is_some_and(|analysis| !analysis.has_plans());
        // After the end, nothing more will be evaluated.
        self.stage == Stage::Working && has_none && !self.analyses.is_done(&root)
    }

    /// Answers `settled` requests when everything before them has been evaluated and published.
    fn answer_settled(&mut self) {
        let is_working =
            self.is_due || self.roots_in_hand().iter().any(|r| !self.analyses.is_done(r));
        if is_working && self.stage == Stage::Working {
            return;
        }
        let settled = |request: &mut Request| request.method == SETTLED;
        let settled: Vec<Request> = self.asked.extract_if(.., settled).collect();
        for Request { id, .. } in settled {
            self.reply(id, Ok(Value::Null));
        }
    }

    /// Cancels an evaluation whose texts have changed.
    fn break_off(&mut self) {
        if self.worker.busy_with().is_some_and(|root| !self.analyses.is_fresh(root)) {
            self.worker.break_off();
        }
    }

    /// Starts the evaluation of the next project.
    fn work(&mut self) {
        if self.is_due || self.worker.busy_with().is_some() || self.stage != Stage::Working {
            return;
        }
        let next = self.roots_in_hand().into_iter().find(|root| !self.analyses.is_done(root));
        if let Some(root) = next
            && let Some(read) = self.analysis(&root)
        {
            self.worker.start(root, read);
        }
    }

    /// Takes the result of an evaluation; the result of a cancelled one is ignored.
    fn take_report(&mut self, report: Report) {
        if !self.worker.finished(&report) {
            return let_go(Some(report.read));
        }
        let Report { root, read, worked } = report;
        let_go(self.analyses.worked(&root, &read, worked));
        self.is_due = true;
        if std::mem::take(&mut self.has_old_hints) && self.client.can_refresh_hints {
            self.request("workspace/inlayHint/refresh", Value::Null);
        }
    }

    fn reply(&mut self, id: RequestId, answer: Result<Value, ResponseError>) {
        let response = match answer {
            Ok(value) => Response::new_ok(id, value),
            Err(refusal) => Response::new_err(id, refusal.code, refusal.message),
        };
        self.out.push(response.into());
    }

    fn notify(&mut self, method: &str, params: Value) {
        let method = method.to_owned();
        self.out.push(Notification { method, params }.into());
    }

    /// Sends a request to the editor. The answer carries the request's name.
    fn request(&mut self, method: &str, params: Value) {
        self.requests = self.requests.wrapping_add(1);
        let id = RequestId::from(format!("{method} {}", self.requests));
        self.out.push(Request { id, method: method.to_owned(), params }.into());
    }

    fn send(&mut self, connection: &Connection) {
        for message in self.out.drain(..) {
            // An editor that has disconnected is noticed when no more messages arrive.
            let _ = connection.sender.send(message);
        }
    }

    /// A project read from the current texts, with the newest plans; `None` if its root cannot be
    /// read.
    fn analysis(&mut self, root: &FileKey) -> Option<Arc<Analysis>> {
        if !self.analyses.is_fresh(root) {
            let before = self.analyses.latest(root);
            let overlay = self.workspace.overlay(root.folder, &self.buffers);
            let mut memory = self.analyses.take_memory(root);
            let project = Project::open_again(&overlay, &root.path, &mut memory).ok();
            let analysis = project
                .map(|project| Analysis::read(project, before.as_deref(), &mut memory))
                .map(Arc::new);
            drop(before);
            let_go(self.analyses.put(root.clone(), analysis, memory));
        }
        self.analyses.latest(root)
    }

    /// The first root file to check an open text with.
    fn first_root(&self, uri: &str) -> Option<FileKey> {
        let key = &self.buffers.get(uri)?.key;
        self.workspace.roots(key).into_iter().next()
    }

    /// The roots of all open texts.
    fn roots_in_hand(&self) -> Vec<FileKey> {
        let roots = self.buffers.iter().flat_map(|(_, buffer)| self.workspace.roots(&buffer.key));
        roots.collect::<BTreeSet<_>>().into_iter().collect()
    }
}
