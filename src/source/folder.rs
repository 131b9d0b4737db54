//! The files of the notation in a folder.

use std::path::{Component, Path};

use ignore::WalkBuilder;

use crate::bounds::FOLDER_DEPTH;

/// How far files are looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Depth {
    /// In the folder itself.
    Folder,
    /// And below it, [`FOLDER_DEPTH`] folders deep.
    Below,
}

/// The paths of a folder's `.sets` files from there, `/` between folders, sorted folder by folder.
/// What is hidden and what a `.gitignore` of the folder names is left out; links to files are among
/// them, those to folders are not followed. `None` stands for every other thing passed by the way,
/// so that who counts can stop.
///
/// # Errors
/// In the walk: what the system says of a folder that cannot be read, and a folder that lies
/// [`FOLDER_DEPTH`] deep, below which nothing is looked for.
pub fn files_of(
    folder: &Path,
    depth: Depth,
) -> impl Iterator<Item = Result<Option<String>, ignore::Error>> {
    let mut walk = WalkBuilder::new(folder);
    // The same in every clone and on every machine: no settings of the user's, no folder above.
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

/// The path of a file as seen from a folder, if it lies below it and is Unicode.
#[must_use]
pub fn below(folder: &Path, file: &Path) -> Option<String> {
    let parts = file.strip_prefix(folder).ok()?.components().map(|part| match part {
        Component::Normal(name) => name.to_str(),
        _ => None,
    });
    let parts: Vec<&str> = parts.collect::<Option<_>>()?;
    if parts.is_empty() { None } else { Some(parts.join("/")) }
}
