//! Cache of analyses. Each is valid until one of its files changes.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::workspace::FileKey;
use crate::compile::Evaluated;
use crate::editor::Analysis;
use crate::resolve::Memory;

/// The analyses, by root file.
#[derive(Debug, Default)]
pub struct Analyses {
    known: BTreeMap<FileKey, RootState>,
}

#[derive(Debug)]
struct RootState {
    /// The newest reading, with the newest plans; `None` if the root cannot be read.
    analysis: Option<Arc<Analysis>>,
    /// The parse results to reuse at the next reading.
    memory: Memory,
    /// Whether nothing has changed since it was read.
    is_fresh: bool,
    /// Whether nothing is left to evaluate: the plans belong to the current texts, or there can be
    /// none.
    is_done: bool,
}

impl Analyses {
    /// Whether a project is up to date and need not be read again.
    #[must_use]
    pub fn is_fresh(&self, root: &FileKey) -> bool {
        self.known.get(root).is_some_and(|known| known.is_fresh)
    }

    /// Whether a project needs neither reading nor evaluation.
    #[must_use]
    pub fn is_done(&self, root: &FileKey) -> bool {
        self.known.get(root).is_some_and(|known| known.is_fresh && known.is_done)
    }

    /// The last reading of a project, even if it is stale.
    #[must_use]
    pub fn latest(&self, root: &FileKey) -> Option<Arc<Analysis>> {
        self.known.get(root)?.analysis.clone()
    }

    /// Takes out the parse results of a project for its next reading.
    #[must_use]
    pub fn take_memory(&mut self, root: &FileKey) -> Memory {
        self.known.get_mut(root).map(|known| std::mem::take(&mut known.memory)).unwrap_or_default()
    }

    /// Stores a project that has just been read, and returns the reading before.
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

    /// Stores the result of an evaluation. If the project has been read again since, only its
    /// problems on unchanged lines are used, and it still has to be evaluated. Returns the analysis
    /// that it replaces.
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

    /// Marks the projects that read a file as stale.
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

    /// Marks all projects of a folder as stale.
    pub fn folder_changed(&mut self, folder: usize) {
        for (root, known) in &mut self.known {
            known.is_fresh &= root.folder != folder;
        }
    }

    /// Drops all projects except these.
    pub fn keep(&mut self, roots: &[FileKey]) {
        self.known.retain(|root, _| roots.contains(root));
    }
}
