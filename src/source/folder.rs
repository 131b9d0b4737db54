//! The `.sets` files in a folder.

use std::path::{Component, Path};

use ignore::WalkBuilder;

use crate::bounds::FOLDER_DEPTH;

/// The depth of a search for files.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Depth {
    /// Only the folder itself.
    Folder,
    /// The folder and its subfolders, up to [`FOLDER_DEPTH`] deep.
    Below,
}

/// The paths of a folder's `.sets` files, relative to it, with `/` between folders, sorted folder
/// by folder.
///
/// Hidden files and files that a `.gitignore` of the folder names are left out. Links to files are
/// included; links to folders are not followed. For each other entry on the way, the item is
/// `None`, so that a caller that counts can stop.
///
/// # Errors
/// During the walk: the system's error for a folder that cannot be read, and a folder that is
/// [`FOLDER_DEPTH`] deep, which is not searched further.
pub fn files_of(
    folder: &Path,
    depth: Depth,
) -> impl Iterator<Item = Result<Option<String>, ignore::Error>> {
    let mut walk = WalkBuilder::new(folder);
    // No user settings and no folders above, so that the result is the same in every clone and on
    // every machine.
    walk.git_global(false).git_exclude(false).parents(false).require_git(false);
    walk.max_depth(Some(if depth == Depth::Folder { 1 } else { FOLDER_DEPTH }));
    walk.sort_by_file_name(std::cmp::Ord::cmp);
    let folder = folder.to_owned();
    walk.build().map(move |entry| {
        let entry = entry?;
        let path = entry.path();
        if depth == Depth::Below
            && entry.depth() >= FOLDER_DEPTH
            && entry.file_type().is_some_and(|kind| kind.is_dir())
        {
            return Err(too_deep(path));
        }
        let is_source = path.extension().is_some_and(|end| end.eq_ignore_ascii_case("sets"));
        Ok(if is_source && path.is_file() { below(&folder, path) } else { None })
    })
}

fn too_deep(path: &Path) -> ignore::Error {
    let why = format!(
        "this folder lies {FOLDER_DEPTH} folders deep, and files are looked for no deeper: name it or a folder nearer to it"
    );
    let error = std::io::Error::other(why).into();
    ignore::Error::WithPath { path: path.to_owned(), err: Box::new(error) }
}

/// The path of a file relative to a folder, if the folder contains it and the path is Unicode.
#[must_use]
pub fn below(folder: &Path, file: &Path) -> Option<String> {
    let parts = file.strip_prefix(folder).ok()?.components().map(|part| match part {
        Component::Normal(name) => name.to_str(),
        _ => None,
    });
    let parts: Vec<&str> = parts.collect::<Option<_>>()?;
    if parts.is_empty() { None } else { Some(parts.join("/")) }
}
