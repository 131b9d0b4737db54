//! Reads files of git revisions with the `git` program, without a shell, so that git never takes text
//! from the command line or the repository for an option.
//!
//! The repository may be untrusted: only commands that read objects are run, and git is not allowed to
//! fetch or to start helpers of the repository.

use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Command, Stdio};

use super::super::Failure;
use crate::bounds::FILE_BYTES;
use crate::diagnostics::nearest;
use crate::source::{LoadError, Loader, read_text};

/// The kind of an object.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ObjectKind {
    /// A file.
    File,
    /// A folder.
    Folder,
}

/// `REV:PATH` in its two parts: at the first colon outside braces (`HEAD^{/fix: typo}:a.sets`).
pub fn split(argument: &str) -> Option<(&str, &str)> {
    let mut depth = 0_usize;
    for (at, sign) in argument.char_indices() {
        match sign {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            ':' if depth == 0 => return Some((argument.get(..at)?, argument.get(at + 1..)?)),
            _ => {}
        }
    }
    None
}

/// The `git` program with restrictions.
pub fn git(arguments: &[&str]) -> Command {
    let mut command = Command::new("git");
    command.args(["-c", "core.fsmonitor=false", "-c", "protocol.allow=never"]);
    command.args(["--literal-pathspecs", "--no-pager"]).args(arguments);
    for (name, value) in
        [("GIT_NO_LAZY_FETCH", "1"), ("GIT_TERMINAL_PROMPT", "0"), ("GIT_OPTIONAL_LOCKS", "0")]
    {
        command.env(name, value);
    }
    command.stdin(Stdio::null());
    command
}

/// The output of git without the last line end, or the first line of its error message.
pub fn ask(arguments: &[&str]) -> Result<String, Failure> {
    let output = git(arguments).output().map_err(|error| {
        Failure::File(format!("cannot run git: {error}; REV:PATH needs git to be installed"))
    })?;
    if !output.status.success() {
        let said = String::from_utf8_lossy(&output.stderr);
        let first = said.lines().next().unwrap_or("git gives no reason");
        return Err(Failure::File(first.trim_start_matches("fatal: ").to_owned()));
    }
    Ok(String::from_utf8_lossy(&output.stdout).trim_end_matches('\n').to_owned())
}

/// The tree of a revision, by its hash.
fn tree(revision: &str) -> Option<String> {
    let wanted = format!("{revision}^{{tree}}");
    let found = ask(&["rev-parse", "--verify", "--quiet", "--end-of-options", &wanted]);
    found.ok().filter(|hash| is_hash(hash))
}

/// Whether git knows a revision of that name.
pub fn is_revision(name: &str) -> bool {
    !name.is_empty() && !name.starts_with('-') && tree(name).is_some()
}

/// The nearest branch or tag, and where revisions are listed.
fn near(revision: &str) -> String {
    let list = "(`git log --oneline` lists revisions)";
    // Of `HEAD~9` only the way back may be wrong.
    let start = revision.split(['~', '^', '@']).next().unwrap_or_default();
    if is_revision(start) {
        return format!(" {list}");
    }
    let all = ask(&["for-each-ref", "--format=%(refname:short)", "refs/heads", "refs/tags"]);
    let all = all.unwrap_or_default();
    match nearest(revision, all.lines().chain(["HEAD"])) {
        Some(name) => format!(": did you mean `{name}`? {list}"),
        None => format!(" {list}"),
    }
}

/// A file or a folder of a revision.
#[derive(Clone, Debug)]
pub struct GitPath {
    /// The revision's tree by its hash; empty for what is staged.
    tree: String,
    /// From the top of the repository, without `.` and `..`.
    pub path: String,
    /// Where the working folder is below the top.
    prefix: String,
    /// As it was asked for.
    shown: String,
}

impl GitPath {
    /// The place of `revision:path`, as git reads it: from the top, or from the working folder
    /// where the path begins with `./` or `../`.
    pub fn find(revision: &str, path: &str) -> Result<Self, Failure> {
        let shown = format!("{revision}:{path}");
        if revision.starts_with('-') {
            return Err(Failure::Usage(format!("{shown}: a revision cannot start with a dash")));
        }
        let prefix = ask(&["rev-parse", "--show-prefix"])?;
        let tree = if revision.is_empty() {
            String::new()
        } else {
            tree(revision).ok_or_else(|| {
                let hint = near(revision);
                Failure::Usage(format!("{shown}: there is no revision `{revision}`{hint}"))
            })?
        };
        let mut place = Self { tree, path: String::new(), prefix, shown };
        let is_relative =
            [".", ".."].contains(&path) || path.starts_with("./") || path.starts_with("../");
        place.path =
            if is_relative { place.inside_working_folder(path)? } else { place.plain("", path)? };
        Ok(place)
    }

    /// A path that starts from the working folder, from the top.
    pub fn inside_working_folder(&self, path: &str) -> Result<String, Failure> {
        self.plain(&self.prefix, path)
    }

    /// A path without `.` and `..`.
    fn plain(&self, from: &str, path: &str) -> Result<String, Failure> {
        let mut parts: Vec<&str> = Vec::new();
        for part in from.split('/').chain(path.split('/')) {
            match part {
                "" | "." => {}
                ".." => {
                    parts.pop().ok_or_else(|| {
                        Failure::Usage(format!(
                            "{}: `{path}` is outside the repository",
                            self.shown
                        ))
                    })?;
                }
                other => parts.push(other),
            }
        }
        Ok(parts.join("/"))
    }

    /// Whether it is a file or a folder.
    pub fn kind(&self) -> Result<ObjectKind, Failure> {
        let kind = |path: &str| object(&format!("{}:{path}", self.tree)).map(|object| object.kind);
        kind(&self.path).map_err(|error| {
            let near =
                self.inside_working_folder(&self.path).ok().filter(|near| kind(near).is_ok());
            let hint = near.map_or_else(String::new, |_| {
                let revision = self.shown.split(':').next().unwrap_or_default();
                format!("; for a path from the current folder, write {revision}:./{}", self.path)
            });
            Failure::File(format!("{}: {error}{hint}", self.shown))
        })
    }

    /// The files of the notation in a folder, as seen from it.
    pub fn files(&self) -> Result<Vec<String>, Failure> {
        if self.tree.is_empty() {
            let why =
                "name a single file to compare staged changes: a staged folder has no revision";
            return Err(Failure::Usage(format!("{}: {why}", self.shown)));
        }
        let folder = format!("{}:{}", self.tree, self.path);
        let all = ask(&["ls-tree", "-r", "-z", "--name-only", "--full-tree", &folder])?;
        let named =
            all.split('\0').filter(|path| Path::new(path).extension().is_some_and(|e| e == "sets"));
        let mut files: Vec<String> = named.map(str::to_owned).collect();
        files.sort();
        Ok(files)
    }

    /// A loader for a project folder of the same revision.
    pub fn loader(&self, folder: &str) -> GitLoader {
        let folder = if folder.is_empty() { String::new() } else { format!("{folder}/") };
        GitLoader { start: format!("{}:{folder}", self.tree) }
    }
}

fn is_hash(text: &str) -> bool {
    text.len() >= 40 && text.bytes().all(|byte| byte.is_ascii_hexdigit())
}

/// Files below a folder of a revision.
#[derive(Clone, Debug)]
pub struct GitLoader {
    /// The tree and the folder: what comes before a path.
    start: String,
}

impl Loader for GitLoader {
    fn load(&self, path: &str) -> Result<String, LoadError> {
        let object = object(&format!("{}{path}", self.start))?;
        match object.kind {
            ObjectKind::Folder => Err(LoadError::Unreadable("it is not a plain file".to_owned())),
            ObjectKind::File if object.size > FILE_BYTES as u64 => Err(LoadError::TooLarge),
            ObjectKind::File => read_text(object.bytes.as_slice()),
        }
    }
}

/// An object of the repository.
struct Object {
    kind: ObjectKind,
    size: u64,
    /// A file's bytes, up to the most that a file may have.
    bytes: Vec<u8>,
}

/// An object by its name. Names go through standard input, where nothing is an option; links are
/// followed as far as they stay in the repository.
fn object(name: &str) -> Result<Object, LoadError> {
    let unreadable = |error: std::io::Error| LoadError::Unreadable(format!("git: {error}"));
    if name.contains('\n') {
        return Err(LoadError::NotFound);
    }
    let mut child = git(&["cat-file", "--batch", "--follow-symlinks"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .map_err(unreadable)?;
    let written =
        child.stdin.take().map(|mut input| input.write_all(format!("{name}\n").as_bytes()));
    let read = child.stdout.take().map(|output| read_object(BufReader::new(output)));
    // The rest of the output is not needed.
    let _ = child.kill();
    let _ = child.wait();
    written.transpose().map_err(unreadable)?;
    read.unwrap_or(Err(LoadError::NotFound))
}

/// Reads what `git cat-file --batch` says of one object.
fn read_object(mut output: impl BufRead) -> Result<Object, LoadError> {
    let unreadable = |error: std::io::Error| LoadError::Unreadable(format!("git: {error}"));
    let mut head = Vec::new();
    (&mut output).take(100_000).read_until(b'\n', &mut head).map_err(unreadable)?;
    let head = String::from_utf8_lossy(&head).into_owned();
    let words: Vec<&str> = head.trim_end().split(' ').collect();
    let (kind, size) = match words.as_slice() {
        [hash, kind, size] if is_hash(hash) => (*kind, size.parse::<u64>().unwrap_or(u64::MAX)),
        ["symlink", _] => return Err(LoadError::Outside),
        _ => return Err(LoadError::NotFound),
    };
    let kind = match kind {
        "blob" => ObjectKind::File,
        "tree" | "commit" => ObjectKind::Folder,
        _ => return Err(LoadError::NotFound),
    };
    let mut bytes = Vec::new();
    if kind == ObjectKind::File && size <= FILE_BYTES as u64 {
        output.take(size).read_to_end(&mut bytes).map_err(unreadable)?;
    }
    Ok(Object { kind, size, bytes })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_revision_ends_at_the_first_colon_outside_braces() {
        assert_eq!(split("HEAD:a/b.sets"), Some(("HEAD", "a/b.sets")));
        assert_eq!(
            split("HEAD^{/fix: typo}:./a: b.sets"),
            Some(("HEAD^{/fix: typo}", "./a: b.sets"))
        );
        assert_eq!(split(":a.sets"), Some(("", "a.sets")));
        assert_eq!(
            split("main@{2026-01-05 10:00}:a.sets"),
            Some(("main@{2026-01-05 10:00}", "a.sets"))
        );
        assert_eq!(split("winter.sets"), None);
    }

    #[test]
    fn what_git_says_of_an_object_is_read_with_care() {
        let hash = "a".repeat(40);
        let read = |text: &str| read_object(text.as_bytes());
        let file = read(&format!("{hash} blob 3\nabc\n")).unwrap();
        assert_eq!((file.kind, file.bytes.as_slice()), (ObjectKind::File, b"abc".as_slice()));
        assert_eq!(read(&format!("{hash} tree 37\n...")).unwrap().kind, ObjectKind::Folder);
        assert_eq!(read("x:a b missing\n").err(), Some(LoadError::NotFound));
        assert_eq!(read("symlink 9\n../../etc\n").err(), Some(LoadError::Outside));
        assert_eq!(read("").err(), Some(LoadError::NotFound));
        let huge = read(&format!("{hash} blob {}\n", u64::MAX)).unwrap();
        assert_eq!((huge.size, huge.bytes.len()), (u64::MAX, 0));
    }
}
