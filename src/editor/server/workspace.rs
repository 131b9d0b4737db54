//! The editor's folders, and the `.sets` files in them.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use super::buffers::{Buffers, Overlay};
use super::uses::{FileUses, roots};
use crate::bounds::{FILES, WORKSPACE_ENTRIES};
use crate::editor::protocol::{of_path, path_of};
use crate::source::{Depth, FolderLoader, Loader, below, files_of};

/// A file: its folder, and its path in the folder with `/` between folders.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct FileKey {
    /// Index of the folder in the [`Workspace`].
    pub folder: usize,
    /// The path.
    pub path: String,
}

/// A folder that project paths are relative to.
#[derive(Debug)]
struct ProjectFolder {
    /// Its path, if it is on disk.
    disk: Option<PathBuf>,
    /// URI of the text it was made for, if that text is not a file.
    alone: Option<String>,
    /// Whether its subfolders belong to it.
    is_deep: bool,
    uses: BTreeMap<String, FileUses>,
    roots: BTreeMap<String, Vec<String>>,
}

/// All folders: those of the editor, then one for each other folder from which a file was opened
/// and for each text that is not a file.
#[derive(Debug, Default)]
pub struct Workspace {
    folders: Vec<ProjectFolder>,
}

impl Workspace {
    /// The folders with these URIs. Nothing is read yet: see [`Workspace::look`].
    #[must_use]
    pub fn new(uris: &[String]) -> Self {
        let paths = uris.iter().filter_map(|uri| path_of(uri));
        Self { folders: paths.map(|path| ProjectFolder::new(Some(path), true)).collect() }
    }

    /// The URIs of the editor's folders.
    #[must_use]
    pub fn named(&self) -> Vec<String> {
        let deep = self.folders.iter().filter(|folder| folder.is_deep);
        deep.filter_map(|folder| folder.disk.as_deref().map(of_path)).collect()
    }

    /// The file of a URI. It belongs to the innermost of the editor's folders that contains it,
    /// otherwise to its own folder. A text that is not a file gets a folder of its own.
    pub fn key(&mut self, uri: &str) -> FileKey {
        let Some(file) = path_of(uri) else { return self.alone(uri) };
        let deep = self.folders.iter().enumerate().filter(|(_, folder)| folder.is_deep);
        let inside = deep.filter_map(|(at, folder)| {
            let base = folder.disk.as_deref()?;
            Some((base.components().count(), at, below(base, &file)?))
        });
        if let Some((_, folder, path)) = inside.max() {
            return FileKey { folder, path };
        }
        // A file that an opened file in another folder uses stays with that folder.
        let used = self.folders.iter().enumerate().find_map(|(folder, known)| {
            let path = below(known.disk.as_deref()?, &file)?;
            known.uses.contains_key(&path).then_some(FileKey { folder, path })
        });
        if let Some(key) = used {
            return key;
        }
        let Some(own) = file.parent() else { return self.alone(uri) };
        let Some(path) = below(own, &file) else { return self.alone(uri) };
        let is_own = |folder: &ProjectFolder| {
            !folder.is_deep && folder.alone.is_none() && folder.disk.as_deref() == Some(own)
        };
        let folder = self.folders.iter().position(is_own).unwrap_or_else(|| {
            self.folders.push(ProjectFolder::new(Some(own.to_owned()), false));
            self.folders.len() - 1
        });
        FileKey { folder, path }
    }

    /// Adds a text that is not a file. Its name is the last part of the URI, and files that it uses
    /// are searched in the first folder.
    fn alone(&mut self, uri: &str) -> FileKey {
        let name = uri.rsplit(['/', ':', '\\']).find(|part| !part.is_empty()).unwrap_or("untitled");
        let is_same = |folder: &ProjectFolder| folder.alone.as_deref() == Some(uri);
        let folder = self.folders.iter().position(is_same).unwrap_or_else(|| {
            let first = self.folders.iter().find(|folder| folder.is_deep);
            let disk = first.and_then(|folder| folder.disk.clone());
            let alone = Some(uri.to_owned());
            self.folders.push(ProjectFolder { alone, ..ProjectFolder::new(disk, false) });
            self.folders.len() - 1
        });
        FileKey { folder, path: name.to_owned() }
    }

    /// The URI of a file.
    #[must_use]
    pub fn uri(&self, key: &FileKey) -> Option<String> {
        let disk = self.folders.get(key.folder)?.disk.as_deref()?;
        Some(of_path(&disk.join(&key.path)))
    }

    /// The open texts together with the files of a folder.
    #[must_use]
    pub fn overlay<'b>(&self, folder: usize, buffers: &'b Buffers) -> Overlay<'b> {
        let disk = self.folders.get(folder).and_then(|folder| folder.disk.as_deref());
        Overlay { buffers, folder, disk: disk.map(FolderLoader::new) }
    }

    /// Finds the files of a folder and reads their `use` lines. If a limit was reached, returns a
    /// message for the coach.
    #[must_use]
    pub fn look(&mut self, number: usize, buffers: &Buffers) -> Option<String> {
        let overlay = self.overlay(number, buffers);
        let folder = self.folders.get_mut(number)?;
        let (mut paths, why) = match (&folder.disk, &folder.alone) {
            (Some(disk), None) => files_in(disk, folder.is_deep),
            _ => (BTreeSet::new(), None),
        };
        let open = buffers.iter().filter(|(_, buffer)| buffer.key.folder == number);
        paths.extend(open.map(|(_, buffer)| buffer.key.path.clone()));
        folder.uses.clear();
        for path in paths {
            folder.read(&path, &overlay);
        }
        folder.settle(&overlay);
        why
    }

    /// Reads again which files a file uses. Returns whether that has changed.
    pub fn note(&mut self, key: &FileKey, buffers: &Buffers) -> bool {
        let overlay = self.overlay(key.folder, buffers);
        let Some(folder) = self.folders.get_mut(key.folder) else { return false };
        let changed = folder.read(&key.path, &overlay);
        if changed {
            folder.settle(&overlay);
        }
        changed
    }

    /// The root files to check a file with.
    #[must_use]
    pub fn roots(&self, key: &FileKey) -> Vec<FileKey> {
        let found = self.folders.get(key.folder).and_then(|folder| folder.roots.get(&key.path));
        let root = |path: &String| FileKey { folder: key.folder, path: path.clone() };
        found.map_or_else(|| vec![key.clone()], |paths| paths.iter().map(root).collect())
    }

    /// Whether the files of a folder have been looked for.
    #[must_use]
    pub fn is_known(&self, folder: usize) -> bool {
        self.folders.get(folder).is_some_and(|folder| !folder.roots.is_empty())
    }

    /// All files of the folders that have been read.
    pub fn files(&self) -> impl Iterator<Item = FileKey> {
        self.folders.iter().enumerate().flat_map(|(number, folder)| {
            folder.uses.keys().map(move |path| FileKey { folder: number, path: path.clone() })
        })
    }

    /// Number of folders.
    #[must_use]
    pub fn len(&self) -> usize {
        self.folders.len()
    }
}

impl ProjectFolder {
    fn new(disk: Option<PathBuf>, is_deep: bool) -> Self {
        Self { disk, alone: None, is_deep, uses: BTreeMap::new(), roots: BTreeMap::new() }
    }

    /// Reads which files a file uses. Returns whether that has changed.
    fn read(&mut self, path: &str, overlay: &Overlay) -> bool {
        match overlay.load(path) {
            Ok(text) => {
                let uses = FileUses::of(path, &text);
                self.uses.insert(path.to_owned(), uses.clone()) != Some(uses)
            }
            Err(_) => self.uses.remove(path).is_some(),
        }
    }

    /// Adds used files that the search did not find, and computes the roots.
    fn settle(&mut self, overlay: &Overlay) {
        let mut tried = BTreeSet::new();
        loop {
            let used = self.uses.values().flat_map(|uses| &uses.files);
            let is_new = |path: &&String| !self.uses.contains_key(*path) && !tried.contains(*path);
            let next: Vec<String> = used.filter(is_new).cloned().collect();
            if next.is_empty() || self.uses.len() > FILES {
                break;
            }
            for path in next {
                self.read(&path, overlay);
                tried.insert(path);
            }
        }
        self.roots = roots(&self.uses);
    }
}

/// The `.sets` files in a folder, and why some may be missing. If there are too many, the same ones
/// are always chosen.
fn files_in(folder: &Path, is_deep: bool) -> (BTreeSet<String>, Option<String>) {
    let depth = if is_deep { Depth::Below } else { Depth::Folder };
    let (mut files, mut why) = (BTreeSet::new(), None);
    for (passed, entry) in files_of(folder, depth).enumerate() {
        if passed >= WORKSPACE_ENTRIES || files.len() >= FILES {
            why = Some(format!(
                "{}: only some of its programmes are known here: at most {FILES} files are read, and {WORKSPACE_ENTRIES} files and folders looked at; open a smaller folder",
                folder.display()
            ));
            break;
        }
        match entry {
            Ok(found) => files.extend(found),
            // A folder that cannot be read; the other folders are still used.
            Err(error) => why = Some(error.to_string()),
        }
    }
    (files, why)
}
