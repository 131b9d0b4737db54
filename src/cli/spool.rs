//! Files that are written together at the end. Until then they wait in memory or, if they are large,
//! in an unnamed temporary file that disappears with the process.

use std::io::{Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use tempfile::SpooledTempFile;

use super::output::cannot;
use super::{Failure, output, report};

/// As much waits in memory: the cards of a few athletes.
const IN_MEMORY: usize = 2 << 20;

/// Files that are written together, all or none.
pub struct Files {
    /// What is said of them.
    pub said: Option<String>,
    /// The folder that is made for them, where it is not there yet.
    pub folder: Option<PathBuf>,
    /// Each with its path; `-` is standard output.
    pub written: Vec<(PathBuf, Vec<u8>)>,
}

impl Files {
    /// Writes them.
    pub fn write(&self) -> Result<(), Failure> {
        self.folder.as_deref().map_or(Ok(()), output::folder)?;
        match self.written.as_slice() {
            [(path, bytes)] => output::bytes(path, bytes)?,
            all => output::all(all)?,
        }
        if let Some(said) = &self.said {
            report::say(said);
        }
        Ok(())
    }
}

/// What waits of some files.
struct Waiting {
    said: Option<String>,
    folder: Option<PathBuf>,
    /// Each path, and how many bytes are its.
    files: Vec<(PathBuf, usize)>,
}

/// Files that wait.
pub struct Spool {
    bytes: SpooledTempFile,
    waiting: Vec<Waiting>,
}

impl Spool {
    /// For files of a folder, which need not be there yet.
    pub fn beside(folder: &Path) -> Self {
        let there = folder.ancestors().find(|above| above.is_dir()).unwrap_or(Path::new("."));
        Self { bytes: SpooledTempFile::new_in(IN_MEMORY, there), waiting: Vec::new() }
    }

    /// Adds files.
    pub fn add(&mut self, files: &Files) -> Result<(), Failure> {
        for (path, bytes) in &files.written {
            self.bytes.write_all(bytes).map_err(|error| cannot(path, &error))?;
        }
        let sizes = files.written.iter().map(|(path, bytes)| (path.clone(), bytes.len()));
        let (said, folder) = (files.said.clone(), files.folder.clone());
        self.waiting.push(Waiting { said, folder, files: sizes.collect() });
        Ok(())
    }

    /// Writes them, in the order they came.
    pub fn write(mut self) -> Result<(), Failure> {
        let rewound = self.bytes.seek(SeekFrom::Start(0));
        rewound.map_err(|error| Failure::File(error.to_string()))?;
        for Waiting { said, folder, files } in self.waiting {
            let mut group = Vec::with_capacity(files.len());
            for (path, size) in files {
                let mut bytes = vec![0; size];
                self.bytes.read_exact(&mut bytes).map_err(|error| cannot(&path, &error))?;
                group.push((path, bytes));
            }
            Files { said, folder, written: group }.write()?;
        }
        Ok(())
    }
}
