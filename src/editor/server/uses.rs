//! Which file uses which, and so which programmes a file belongs to.

use std::collections::{BTreeMap, BTreeSet};

use crate::source::{FileId, join, line_ends};
use crate::syntax::ast::{Head, Item};
use crate::syntax::parse;

/// What a file contains that decides its place in a project.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FileUses {
    /// The files it uses, as paths in the folder.
    pub files: Vec<String>,
    /// Whether it contains a programme.
    pub has_programme: bool,
}

impl FileUses {
    /// Reads the `use` and `programme` lines of a text at a path. Other lines are skipped, because
    /// this runs at every keystroke.
    #[must_use]
    pub fn of(path: &str, text: &str) -> Self {
        let text = line_ends(text.strip_prefix('\u{feff}').unwrap_or(text));
        // Checking the first character skips most lines cheaply.
        let asked = |line: &&str| match line.as_bytes() {
            [b'u', ..] => line.starts_with("use"),
            [b'p', ..] => line.starts_with("programme"),
            _ => false,
        };
        let lines: String = text.lines().filter(asked).flat_map(|line| [line, "\n"]).collect();
        let mut found = Self::default();
        for node in parse(&lines, FileId(1)).0.nodes {
            match node.item.value {
                Item::Head(Head::Use(name)) => found.files.extend(join(path, &name.value)),
                Item::Head(Head::Programme(_)) => found.has_programme = true,
                _ => {}
            }
        }
        found
    }
}

/// The roots of every file: the files to check it with.
///
/// A root is a file that no other file uses, or that contains a programme. If files use each other
/// in a ring that no other file uses, the first by path is the root. A file that is a root comes
/// first in its own list.
#[must_use]
pub fn roots(files: &BTreeMap<String, FileUses>) -> BTreeMap<String, Vec<String>> {
    let used: BTreeSet<&str> = files
        .iter()
        .flat_map(|(path, uses)| uses.files.iter().filter(move |used| *used != path))
        .map(String::as_str)
        .collect();
    let mut roots: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let is_root = |path: &str, uses: &FileUses| uses.has_programme || !used.contains(path);
    for (path, _) in files.iter().filter(|(path, uses)| is_root(path, uses)) {
        reach(path, files, &mut roots);
    }
    for path in files.keys() {
        if !roots.contains_key(path) {
            reach(path, files, &mut roots);
        }
    }
    for (path, own) in &mut roots {
        own.sort_by_key(|root| root != path);
    }
    roots
}

/// Adds a root to each file that it reaches.
fn reach(
    root: &str,
    files: &BTreeMap<String, FileUses>,
    roots: &mut BTreeMap<String, Vec<String>>,
) {
    let mut seen = BTreeSet::from([root]);
    let mut next = vec![root];
    while let Some(path) = next.pop() {
        roots.entry(path.to_owned()).or_default().push(root.to_owned());
        let used = files.get(path).map_or(&[][..], |uses| &uses.files);
        next.extend(used.iter().map(String::as_str).filter(|used| seen.insert(used)));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn folder(files: &[(&str, &str)]) -> BTreeMap<String, FileUses> {
        files.iter().map(|(path, text)| ((*path).to_owned(), FileUses::of(path, text))).collect()
    }

    #[test]
    fn a_file_is_checked_with_the_programmes_that_use_it() {
        let files = folder(&[
            ("gym.sets", "gym Shed\n"),
            ("squad.sets", "use gym.sets # the shed\nathlete A\n"),
            ("winter.sets", "use squad.sets\nprogramme W\n"),
            ("logs.sets", "log A: W\n"),
            ("so-far.sets", "use winter.sets\nuse logs.sets\n"),
            ("other.sets", "user of nothing\n"),
        ]);
        let roots = roots(&files);
        assert_eq!(roots["gym.sets"], ["so-far.sets", "winter.sets"]);
        assert_eq!(roots["winter.sets"], ["winter.sets", "so-far.sets"]);
        assert_eq!(roots["logs.sets"], ["so-far.sets"]);
        assert_eq!(roots["other.sets"], ["other.sets"]);
    }

    #[test]
    fn a_ring_has_a_root() {
        let files = folder(&[("b.sets", "use c.sets\n"), ("c.sets", "use b.sets\n")]);
        assert_eq!(roots(&files)["c.sets"], ["b.sets"]);
        let own = folder(&[("a.sets", "use a.sets\n")]);
        assert_eq!(roots(&own)["a.sets"], ["a.sets"]);
    }

    #[test]
    fn paths_start_from_their_file() {
        let uses = FileUses::of("a/b.sets", "\u{feff}use ../c.sets\nuse ../../out.sets\n");
        assert_eq!(uses.files, ["c.sets"]);
    }
}
