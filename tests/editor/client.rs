//! A scripted editor for the server.

use std::collections::BTreeMap;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

use serde_json::{Value, json};

/// Generous: a loaded machine is slow.
const PATIENCE: Duration = Duration::from_mins(1);

/// A conversation with `setwright lsp`.
pub struct Client {
    child: Child,
    input: ChildStdin,
    messages: Receiver<Value>,
    ids: i32,
    versions: BTreeMap<String, i32>,
    /// Diagnostics that came while something else was waited for, by file.
    told: BTreeMap<String, Vec<Value>>,
    /// Requests of the server, by method.
    pub asked: Vec<String>,
    /// What the server wrote into the editor's log.
    pub logged: Vec<String>,
    /// What it is told about settings when it asks.
    pub settings: Value,
}

impl Drop for Client {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Client {
    /// Starts the server, without a word to it.
    pub fn spawn() -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_setwright"))
            .arg("lsp")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::inherit())
            .spawn()
            .unwrap();
        let input = child.stdin.take().unwrap();
        let mut output = BufReader::new(child.stdout.take().unwrap());
        let (sender, messages) = channel();
        std::thread::spawn(move || {
            while let Some(message) = read(&mut output) {
                if sender.send(message).is_err() {
                    return;
                }
            }
        });
        let (versions, told) = (BTreeMap::new(), BTreeMap::new());
        let (asked, logged, settings) = (Vec::new(), Vec::new(), Value::Null);
        Self { child, input, messages, ids: 0, versions, told, asked, logged, settings }
    }

    /// Starts the server in a folder, with what an editor can do.
    pub fn start(folder: &Path, capabilities: &Value, options: &Value) -> (Self, Value) {
        let mut client = Self::spawn();
        let params = json!({
            "processId": null,
            "rootUri": uri(folder),
            "capabilities": capabilities,
            "initializationOptions": options,
        });
        let answer = client.request("initialize", &params).unwrap();
        client.notify("initialized", &json!({}));
        (client, answer)
    }

    /// Sends a message's text as it is.
    pub fn raw(&mut self, text: &str) {
        self.bytes(format!("Content-Length: {}\r\n\r\n{text}", text.len()).as_bytes());
    }

    /// Sends bytes as they are.
    pub fn bytes(&mut self, bytes: &[u8]) {
        self.input.write_all(bytes).unwrap();
        self.input.flush().unwrap();
    }

    /// The most memory that the server has had, in bytes, where the system tells.
    pub fn peak(&self) -> Option<u64> {
        let status = format!("/proc/{}/status", self.child.id());
        let status = std::fs::read_to_string(status).ok()?;
        let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
        Some(line.trim().strip_suffix(" kB")?.parse::<u64>().ok()? * 1024)
    }

    pub fn notify(&mut self, method: &str, params: &Value) {
        self.raw(&json!({ "jsonrpc": "2.0", "method": method, "params": params }).to_string());
    }

    /// Sends a request without waiting for its answer.
    pub fn send(&mut self, method: &str, params: &Value) -> i32 {
        self.ids += 1;
        let id = self.ids;
        let message = json!({ "jsonrpc": "2.0", "id": id, "method": method, "params": params });
        self.raw(&message.to_string());
        id
    }

    /// Asks and waits: the result, or the error.
    pub fn request(&mut self, method: &str, params: &Value) -> Result<Value, Value> {
        let id = self.send(method, params);
        self.answer(id)
    }

    /// Waits for an answer.
    pub fn answer(&mut self, id: i32) -> Result<Value, Value> {
        loop {
            let message = self.next();
            if message.get("method").is_none() && message["id"] == id {
                return match message.get("error") {
                    Some(error) => Err(error.clone()),
                    None => Ok(message["result"].clone()),
                };
            }
        }
    }

    /// The next message; requests of the server are answered, diagnostics noted.
    fn next(&mut self) -> Value {
        let message = self.messages.recv_timeout(PATIENCE).expect("the server says nothing");
        match (message["method"].as_str(), message.get("id")) {
            (Some(method), Some(id)) => {
                self.asked.push(method.to_owned());
                let result = if method == "workspace/configuration" {
                    json!([self.settings])
                } else {
                    Value::Null
                };
                self.raw(&json!({ "jsonrpc": "2.0", "id": id, "result": result }).to_string());
            }
            (Some("textDocument/publishDiagnostics"), None) => {
                let params = &message["params"];
                let uri = params["uri"].as_str().unwrap().to_owned();
                self.told.entry(uri).or_default().push(params.clone());
            }
            (Some("window/logMessage"), None) => {
                self.logged.push(message["params"]["message"].as_str().unwrap().to_owned());
            }
            _ => {}
        }
        message
    }

    pub fn open(&mut self, uri: &str, text: &str) {
        self.versions.insert(uri.to_owned(), 1);
        self.notify(
            "textDocument/didOpen",
            &json!({ "textDocument": {
                "uri": uri, "languageId": "setwright", "version": 1, "text": text,
            } }),
        );
    }

    /// Types: puts a text in the place of a range.
    pub fn edit(&mut self, uri: &str, range: &Value, text: &str) {
        let version = self.versions.get_mut(uri).unwrap();
        *version += 1;
        let params = json!({
            "textDocument": { "uri": uri, "version": *version },
            "contentChanges": [{ "range": range, "text": text }],
        });
        self.notify("textDocument/didChange", &params);
    }

    /// Waits until everything sent so far has been worked out and told.
    pub fn settle(&mut self) {
        let _ = self.request("setwright/settled", &Value::Null);
    }

    /// Everything that was told of a text until all is worked out, in its order.
    pub fn all_told(&mut self, uri: &str) -> Vec<Value> {
        self.settle();
        self.told.remove(uri).unwrap_or_default()
    }

    /// What the server finds in the newest version of a text, the plans worked out.
    pub fn diagnostics(&mut self, uri: &str) -> Vec<Value> {
        self.settle();
        self.first_diagnostics(uri)
    }

    /// What the server has told or tells first of the newest version of a text.
    pub fn first_diagnostics(&mut self, uri: &str) -> Vec<Value> {
        let version = self.versions.get(uri).copied();
        loop {
            let told = self.told.entry(uri.to_owned()).or_default();
            let newest = |told: &&Value| version.is_none() || told["version"] == json!(version);
            if let Some(told) = told.iter().rev().find(newest) {
                let found = told["diagnostics"].as_array().unwrap().clone();
                self.told.remove(uri);
                return found;
            }
            self.next();
        }
    }

    /// The codes of what the server finds in the newest version of a text.
    pub fn codes(&mut self, uri: &str) -> Vec<String> {
        let code = |found: &Value| found["code"].as_str().unwrap().to_owned();
        self.diagnostics(uri).iter().map(code).collect()
    }

    /// Whether anything was told about a text that was not looked at.
    pub fn was_told(&self, uri: &str) -> bool {
        self.told.get(uri).is_some_and(|told| !told.is_empty())
    }

    /// Says goodbye; the exit code.
    pub fn stop(mut self) -> Option<i32> {
        self.request("shutdown", &Value::Null).unwrap();
        self.notify("exit", &Value::Null);
        self.wait()
    }

    /// Waits for the end; the exit code.
    pub fn wait(&mut self) -> Option<i32> {
        for _ in 0..1200 {
            if let Some(status) = self.child.try_wait().unwrap() {
                return status.code();
            }
            std::thread::sleep(Duration::from_millis(50));
        }
        panic!("the server does not end");
    }
}

fn read(from: &mut impl BufRead) -> Option<Value> {
    let mut length = 0;
    loop {
        let mut line = String::new();
        if from.read_line(&mut line).ok()? == 0 {
            return None;
        }
        match line.trim_end() {
            "" => break,
            header => {
                if let Some(value) = header.strip_prefix("Content-Length: ") {
                    length = value.parse().ok()?;
                }
            }
        }
    }
    let mut bytes = vec![0; length];
    from.read_exact(&mut bytes).ok()?;
    serde_json::from_slice(&bytes).ok()
}

/// The name of a file, with what must be written in per cent.
pub fn uri(path: &Path) -> String {
    let signs = path.to_str().unwrap().bytes().map(|byte| match byte {
        b'/' | b'.' | b'-' | b'_' | b'0'..=b'9' | b'a'..=b'z' | b'A'..=b'Z' => {
            char::from(byte).to_string()
        }
        _ => format!("%{byte:02X}"),
    });
    format!("file://{}", signs.collect::<String>())
}

/// From one place of a line to another.
pub fn range(line: u32, from: u32, to: u32) -> Value {
    json!({
        "start": { "line": line, "character": from },
        "end": { "line": line, "character": to },
    })
}

/// A question's place.
pub fn at(uri: &str, line: u32, character: u32) -> Value {
    json!({
        "textDocument": { "uri": uri },
        "position": { "line": line, "character": character },
    })
}

/// Edits of a text, made.
pub fn applied(text: &str, edits: &Value) -> String {
    let mut lines: Vec<String> = text.split('\n').map(str::to_owned).collect();
    let place = |lines: &[String], at: &Value| {
        let line = usize::try_from(at["line"].as_u64().unwrap()).unwrap();
        let before: usize = lines.iter().take(line).map(|line| line.len() + 1).sum();
        let column = usize::try_from(at["character"].as_u64().unwrap()).unwrap();
        let text = lines.get(line).map_or("", String::as_str);
        let units = text.char_indices().scan(0, |units, (at, sign)| {
            let here = (*units, at);
            *units += sign.len_utf16();
            Some(here)
        });
        let found = units.filter(|(units, _)| *units == column).map(|(_, at)| at).next();
        before + found.unwrap_or(text.len())
    };
    let mut sorted = edits.as_array().unwrap().clone();
    sorted.sort_by_key(|edit| {
        let start = &edit["range"]["start"];
        std::cmp::Reverse((start["line"].as_u64(), start["character"].as_u64()))
    });
    for edit in sorted {
        let start = place(&lines, &edit["range"]["start"]);
        let end = place(&lines, &edit["range"]["end"]);
        let mut text = lines.join("\n");
        text.replace_range(start..end, edit["newText"].as_str().unwrap());
        lines = text.split('\n').map(str::to_owned).collect();
    }
    lines.join("\n")
}
