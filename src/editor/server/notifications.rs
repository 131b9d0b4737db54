//! Handling of notifications.

use serde_json::Value;

use super::Server;
use super::workspace::{FileKey, Workspace};
use crate::editor::features::Shown;
use crate::editor::protocol::{
    EditorNotification, Notification, Response, ResponseError, news, registrations, shown_in,
};

impl Server {
    /// Handles a notification. Invalid ones are ignored, because nobody waits for an answer.
    pub(super) fn handle_notification(&mut self, told: Notification) {
        match told.method.as_str() {
            "initialized" => return self.greeted(),
            "$/cancelRequest" => return self.cancelled(told.params.get("id")),
            _ => {}
        }
        let Ok(told) = news(&told.method, told.params) else { return };
        match told {
            EditorNotification::Opened(uri, version, text) => {
                let key = self.workspace.key(&uri);
                self.buffers.open(&uri, key.clone(), version, text);
                self.file_changed(&key);
            }
            EditorNotification::Changed(uri, version, changes) => {
                self.buffers.change(&uri, version, &changes, self.client.encoding);
                if let Some(key) = self.buffers.get(&uri).map(|buffer| buffer.key.clone()) {
                    self.text_changed(&key);
                }
            }
            EditorNotification::Closed(uri) => {
                if let Some(key) = self.buffers.close(&uri) {
                    self.file_changed(&key);
                }
            }
            EditorNotification::Saved(uri) => {
                let key = self.workspace.key(&uri);
                if self.client.can_watch {
                    self.file_changed(&key);
                } else {
                    // The editor does not report created and deleted files, so look for them.
                    self.look_again(key.folder);
                }
            }
            EditorNotification::Files(uris) => {
                for uri in uris {
                    let key = self.workspace.key(&uri);
                    self.file_changed(&key);
                }
            }
            EditorNotification::Settings(settings) => self.configured(&settings),
            EditorNotification::Folders(added, removed) => self.moved(&added, &removed),
            EditorNotification::Nothing => {}
        }
    }

    /// The editor is ready to receive requests.
    fn greeted(&mut self) {
        if self.client.can_watch {
            self.request("client/registerCapability", registrations());
        }
    }

    /// Handles an answer of the editor. Only settings are used.
    pub(super) fn hear_answer(&mut self, response: Response) {
        if response.id.to_string().contains("workspace/configuration")
            && let Ok(Value::Array(settings)) = response.response_result
            && let Some(shown) = settings.first().and_then(shown_in)
        {
            self.show(shown);
        }
    }

    fn cancelled(&mut self, id: Option<&Value>) {
        let is_it = |asked: &super::Request| serde_json::to_value(&asked.id).ok().as_ref() == id;
        if let Some(at) = self.asked.iter().position(is_it) {
            let asked = self.asked.remove(at);
            self.reply(asked.id, Err(ResponseError::cancelled()));
        }
    }

    /// An open text has changed.
    fn text_changed(&mut self, key: &FileKey) {
        self.is_due = true;
        self.analyses.changed(key);
        if self.workspace.note(key, &self.buffers) {
            self.analyses.folder_changed(key.folder);
        }
    }

    /// A file was opened, closed, saved, created or deleted.
    fn file_changed(&mut self, key: &FileKey) {
        self.is_due = true;
        if !self.workspace.is_known(key.folder) {
            self.look(key.folder);
        }
        self.workspace.note(key, &self.buffers);
        self.analyses.folder_changed(key.folder);
    }

    /// Looks for the files of a folder, and reports if there were too many.
    pub(super) fn look(&mut self, folder: usize) {
        if let Some(why) = self.workspace.look(folder, &self.buffers) {
            let warning = 2;
            self.notify(
                "window/logMessage",
                serde_json::json!({ "type": warning, "message": why }),
            );
        }
    }

    fn look_again(&mut self, folder: usize) {
        self.is_due = true;
        self.look(folder);
        self.analyses.folder_changed(folder);
    }

    /// Handles settings, or the notification that they changed.
    fn configured(&mut self, settings: &Value) {
        if let Some(shown) = shown_in(settings) {
            self.show(shown);
        } else if self.client.can_configure {
            let params = serde_json::json!({ "items": [{ "section": "setwright" }] });
            self.request("workspace/configuration", params);
        }
    }

    /// Changes the athlete and week of the hints.
    pub(super) fn show(&mut self, shown: Shown) {
        self.shown = shown;
        if self.client.can_refresh_hints {
            self.request("workspace/inlayHint/refresh", Value::Null);
        }
    }

    /// The editor has other folders now: every text is assigned to a folder again.
    fn moved(&mut self, added: &[String], removed: &[String]) {
        let gone = Workspace::new(removed).named();
        let mut folders = self.workspace.named();
        folders.retain(|folder| !gone.contains(folder));
        folders.extend(Workspace::new(added).named());
        self.workspace = Workspace::new(&folders);
        self.analyses = super::Analyses::default();
        let Self { workspace, buffers, .. } = self;
        buffers.move_all(|uri| workspace.key(uri));
        for folder in 0..self.workspace.len() {
            if self.buffers.iter().any(|(_, buffer)| buffer.key.folder == folder) {
                self.look(folder);
            }
        }
        self.is_due = true;
    }
}
