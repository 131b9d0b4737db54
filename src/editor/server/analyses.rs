//! Projects worked out, each kept until one of its files changes.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::workspace::FileKey;
use crate::editor::Analysis;

/// The analyses by their roots.
#[derive(Debug, Default)]
pub struct Analyses {
    known: BTreeMap<FileKey, Known>,
}

#[derive(Debug)]
struct Known {
    /// `None` where the root cannot be read at all.
    analysis: Option<Arc<Analysis>>,
    is_fresh: bool,
}

impl Analyses {
    /// Whether a project need not be worked out again.
    #[must_use]
    pub fn is_fresh(&self, root: &FileKey) -> bool {
        self.known.get(root).is_some_and(|known| known.is_fresh)
    }

    /// A project worked out, if nothing of it has changed since.
    #[must_use]
    pub fn fresh(&self, root: &FileKey) -> Option<Arc<Analysis>> {
        self.known.get(root).filter(|known| known.is_fresh)?.analysis.clone()
    }

    /// A project worked out, whatever has changed since.
    #[must_use]
    pub fn latest(&self, root: &FileKey) -> Option<Arc<Analysis>> {
        self.known.get(root)?.analysis.clone()
    }

    /// Keeps a project.
    pub fn put(&mut self, root: FileKey, analysis: Option<Arc<Analysis>>) {
        self.known.insert(root, Known { analysis, is_fresh: true });
    }

    /// A file has changed: what reads it is to be worked out again.
    pub fn changed(&mut self, key: &FileKey) {
        for (root, known) in &mut self.known {
            let reads = |analysis: &Arc<Analysis>| {
                analysis.sources.iter().any(|(_, file)| *file.path == *key.path)
            };
            if root.folder == key.folder && known.analysis.as_ref().is_none_or(reads) {
                known.is_fresh = false;
            }
        }
    }

    /// Anything in a folder may have changed.
    pub fn folder_changed(&mut self, folder: usize) {
        for (root, known) in &mut self.known {
            known.is_fresh &= root.folder != folder;
        }
    }

    /// Forgets all but some.
    pub fn keep(&mut self, roots: &[FileKey]) {
        self.known.retain(|root, _| roots.contains(root));
    }
}
