//! The language server: keeps the editor's texts, works projects out when something has changed,
//! answers what is asked and tells what was found.
//!
//! One thread, one loop: everything that has come in is read first, so that of many changes only
//! the last is worked out and questions are answered from the newest text; then questions are
//! answered, then findings are told. Working out stops between two projects when something new has
//! come in.

mod analyses;
mod answer;
mod buffers;
mod hear;
mod publish;
mod shape;
mod uses;
mod view;
mod workspace;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use serde_json::Value;

use self::analyses::Analyses;
use self::buffers::Buffers;
use self::publish::Told;
use self::workspace::{FileKey, Workspace};
use super::Analysis;
use super::protocol::{
    Ask, Client, Connection, Message, Notification, Refusal, Request, RequestId, Response, ask,
    initialized,
};
use super::questions::Shown;
use crate::resolve::Project;

/// How often telling what was found is put off because something new has come in: what never rests
/// is told all the same.
const MOST_PUT_OFF: usize = 50;

/// Where a conversation with an editor stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stage {
    /// Before `initialize`.
    Greeting,
    /// In between.
    Working,
    /// After `shutdown`.
    Closing,
}

/// A conversation with an editor.
#[derive(Debug)]
struct Server {
    stage: Stage,
    client: Client,
    buffers: Buffers,
    workspace: Workspace,
    analyses: Analyses,
    /// What the editor was told about each text.
    told: BTreeMap<String, Told>,
    /// Whose loads of which week the hints show.
    shown: Shown,
    /// What was asked and not answered yet.
    asked: Vec<Request>,
    /// What goes to the editor.
    out: Vec<Message>,
    /// How many requests went to the editor.
    requests: u32,
    /// Something changed since findings were told.
    is_due: bool,
}

/// Serves an editor until it says `exit` or is gone; whether it said `shutdown` before.
#[allow(clippy::needless_pass_by_value, reason = "the editor's end of it ends with this one")]
#[must_use]
pub fn serve(connection: Connection) -> bool {
    let mut server = Server::new();
    let mut put_off = 0;
    let is_news = || !connection.receiver.is_empty();
    while let Ok(first) = connection.receiver.recv() {
        let waiting = connection.receiver.try_iter();
        for message in std::iter::once(first).chain(waiting) {
            if server.take(message) {
                server.send(&connection);
                return server.stage == Stage::Closing;
            }
        }
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
            server.send(&connection);
        }
    }
    false
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
        }
    }

    /// Takes a message in: news at once, questions for later. `true` when the editor says `exit`.
    fn take(&mut self, message: Message) -> bool {
        match message {
            Message::Request(request) => self.take_request(request),
            Message::Notification(news) if news.method == "exit" => return true,
            Message::Notification(news) if self.stage == Stage::Working => self.hear(news),
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
            (_, Stage::Greeting) => self.reply(request.id, Err(Refusal::too_early())),
            ("shutdown", Stage::Working) => {
                // What was asked before is answered before.
                self.answer_all();
                self.stage = Stage::Closing;
                self.reply(request.id, Ok(Value::Null));
            }
            ("initialize", _) | (_, Stage::Closing) => {
                self.reply(request.id, Err(Refusal::out_of_turn()));
            }
            (_, Stage::Working) => self.asked.push(request),
        }
    }

    /// Answers what was asked, in its order, from the newest texts.
    fn answer_all(&mut self) {
        for Request { id, method, params } in std::mem::take(&mut self.asked) {
            let answer = ask(&method, params).and_then(|asked: Ask| self.answer(asked));
            self.reply(id, answer);
        }
    }

    fn reply(&mut self, id: RequestId, answer: Result<Value, Refusal>) {
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

    /// Asks the editor something; its answer comes with the name of what was asked.
    fn request(&mut self, method: &str, params: Value) {
        self.requests = self.requests.wrapping_add(1);
        let id = RequestId::from(format!("{method} {}", self.requests));
        self.out.push(Request { id, method: method.to_owned(), params }.into());
    }

    fn send(&mut self, connection: &Connection) {
        for message in self.out.drain(..) {
            // An editor that is gone will be noticed when it says no more.
            let _ = connection.sender.send(message);
        }
    }

    /// A project worked out, from its texts as they are; `None` where its root cannot be read.
    fn analysis(&mut self, root: &FileKey) -> Option<Arc<Analysis>> {
        if !self.analyses.is_fresh(root) {
            let overlay = self.workspace.overlay(root.folder, &self.buffers);
            let project = Project::open(&overlay, &root.path).ok();
            let analysis = project.map(|project| Arc::new(Analysis::of(project)));
            self.analyses.put(root.clone(), analysis);
        }
        self.analyses.fresh(root)
    }

    /// A project read from its texts as they are, with plans that may be of before.
    fn reading(&mut self, root: &FileKey) -> Option<Arc<Analysis>> {
        match self.analyses.latest(root) {
            Some(latest) if !self.analyses.is_fresh(root) => {
                let overlay = self.workspace.overlay(root.folder, &self.buffers);
                let project = Project::open(&overlay, &root.path).ok()?;
                Some(Arc::new(latest.reread(project)))
            }
            _ => self.analysis(root),
        }
    }

    /// The roots of everything in the editor's hands.
    fn roots_in_hand(&self) -> Vec<FileKey> {
        let roots = self.buffers.iter().flat_map(|(_, buffer)| self.workspace.roots(&buffer.key));
        roots.collect::<BTreeSet<_>>().into_iter().collect()
    }
}
