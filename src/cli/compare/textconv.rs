//! Prints a file as lines for git's diff.
//!
//! git hands over a path: that of the working tree's own file, or, for an old version, that of a
//! temporary file with the same name, beside which nothing lies that it uses. The project is then
//! looked for below the working folder, which git sets to the top of the working tree: the file of
//! that name that has most lines in common. What the old version uses is taken as it is now; only
//! what the file itself says can differ between two versions. Where that does not work out, and for
//! files without a programme, the text is printed as it is: git always has something to compare.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use crate::compare::digest;
use crate::compile::check;
use crate::diagnostics::has_errors;
use crate::resolve::Project;
use crate::source::{FolderLoader, Loader};

use super::super::input::files_below;
use super::super::{Failure, output};

/// Prints a file for git.
pub fn run(file: &Path) -> Result<(), Failure> {
    let cannot = |error: std::io::Error| Failure::File(format!("{}: {error}", file.display()));
    #[allow(clippy::disallowed_methods, reason = "any file is passed on, text or not, of any size")]
    let bytes = std::fs::read(file).map_err(cannot)?;
    let told = String::from_utf8(bytes.clone()).ok().and_then(|text| told(file, &text));
    output::bytes(Path::new("-"), told.as_ref().map_or(bytes.as_slice(), |told| told.as_bytes()))
}

/// The plans of the file, in lines; `None` where there are none.
fn told(file: &Path, text: &str) -> Option<String> {
    let here = Path::new(".");
    let inside = place(file, here, text);
    let name = file.file_name().map(|name| name.to_string_lossy().into_owned());
    let path = inside.or(name)?;
    let compiled = check(Project::from_text(&FolderLoader::new(here), &path, text.to_owned()));
    if has_errors(&compiled.diagnostics) {
        return None;
    }
    let own: Vec<String> =
        compiled.plans.iter().filter(|plan| *plan.line.file == path).map(digest).collect();
    (!own.is_empty()).then(|| own.join("\n"))
}

/// The file's place below the working folder.
fn place(file: &Path, here: &Path, text: &str) -> Option<String> {
    let (own, root) = (file.canonicalize().ok()?, here.canonicalize().ok()?);
    if let Ok(below) = own.strip_prefix(&root) {
        let parts = below.components().map(|part| part.as_os_str().to_string_lossy().into_owned());
        return Some(parts.collect::<Vec<_>>().join("/"));
    }
    let name = file.file_name()?.to_string_lossy().into_owned();
    let loader = FolderLoader::new(here);
    let files = files_below(here).ok()?;
    let named = files.into_iter().filter(|path| is_of(&name, path));
    let scored = named.filter_map(|path| {
        let other = loader.load(&path).ok()?;
        Some((shared(text, &other), path))
    });
    // Of equals the first by name.
    let best = scored.reduce(|best, next| if next.0 > best.0 { next } else { best });
    best.map(|(_, path)| path)
}

/// Whether git may have named a temporary file so for a path: by the name alone, or with signs of
/// its own before it, as older versions do.
fn is_of(temporary: &str, path: &str) -> bool {
    let name = PathBuf::from(path).file_name().map(|name| name.to_string_lossy().into_owned());
    name.is_some_and(|name| temporary == name || temporary.ends_with(&format!("_{name}")))
}

/// How many lines two texts have in common.
fn shared(a: &str, b: &str) -> usize {
    let mut lines: BTreeMap<&str, usize> = BTreeMap::new();
    for line in a.lines() {
        *lines.entry(line).or_default() += 1;
    }
    let taken = b.lines().filter(|line| match lines.get_mut(line) {
        Some(left) if *left > 0 => {
            *left -= 1;
            true
        }
        _ => false,
    });
    taken.count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gits_names_of_temporary_files_are_known() {
        assert!(is_of("winter.sets", "club/winter.sets"));
        assert!(is_of("Ab3xYz_winter.sets", "club/winter.sets"));
        assert!(!is_of("midwinter.sets", "club/winter.sets"));
    }

    #[test]
    fn shared_lines_are_counted_as_often_as_both_have_them() {
        assert_eq!(shared("a\na\nb", "a\nb\nb\nc"), 2);
    }
}
