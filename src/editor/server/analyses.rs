//! Projects read and worked out, each kept until one of its files changes.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::workspace::FileKey;
use crate::compile::Evaluated;
use crate::editor::Analysis;
use crate::resolve::Memory;

/// The analyses by their roots.
#[derive(Debug, Default)]
pub struct Analyses {
    known: BTreeMap<FileKey, RootState>,
}

#[derive(Debug)]
struct RootState {
    /// The newest reading, with the newest plans there are; `None` where the root cannot be read at
    /// all.
    analysis: Option<Arc<Analysis>>,
    /// What was read of it.
    memory: Memory,
    /// Nothing has changed since it was read.
    is_fresh: bool,
    /// Nothing is left to work out: its plans are of its texts, or there can be none.
    is_done: bool,
}

impl Analyses {
    /// Whether a project need not be read again.
    #[must_use]
    pub fn is_fresh(&self, root: &FileKey) -> bool {
        self.known.get(root).is_some_and(|known| known.is_fresh)
    }

    /// Whether a project need neither be read nor worked out again.
    #[must_use]
    pub fn is_done(&self, root: &FileKey) -> bool {
        self.known.get(root).is_some_and(|known| known.is_fresh && known.is_done)
    }

    /// A project as it was read last, whatever has changed since.
    #[must_use]
    pub fn latest(&self, root: &FileKey) -> Option<Arc<Analysis>> {
        self.known.get(root)?.analysis.clone()
    }

    /// Gives out what was read of a project, for the next reading of it.
    #[must_use]
    pub fn take_memory(&mut self, root: &FileKey) -> Memory {
        self.known.get_mut(root).map(|known| std::mem::take(&mut known.memory)).unwrap_or_default()
    }

    /// Keeps a project that has just been read; the reading before is given back.
    pub fn put(
        &mut self,
        root: FileKey,
        analysis: Option<Arc<Analysis>>,
        memory: Memory,
    ) -> Option<Arc<Analysis>> {
        let is_done = analysis.is_none();
        let known = RootState { analysis, memory, is_fresh: true, is_done };
        self.known.insert(root, known)?.analysis
    }

    /// Takes in what a reading of a project came to. Where it has been read again since, the lines
    /// that are still the same keep what it says of them, and it stays to be worked out.
    /// What it stands for is given back.
    pub fn worked(
        &mut self,
        root: &FileKey,
        read: &Arc<Analysis>,
        worked: Option<Evaluated>,
    ) -> Option<Arc<Analysis>> {
        let known = self.known.get_mut(root)?;
        let newest = known.analysis.as_ref()?;
        let is_it = Arc::ptr_eq(newest, read);
        known.is_done |= is_it;
        let whole = read.with(worked?);
        let now = if is_it { whole } else { newest.carrying(&whole) };
        known.analysis.replace(Arc::new(now))
    }

    /// A file has changed: what reads it is to be read again.
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
