//! Writes text in parts. The output appears only when all parts are complete.

use std::io::{IsTerminal, Write};
use std::path::Path;

use super::Failure;
use super::output::{self, OutputFile};
use crate::diagnostics::{coloured, printable};

/// How text reaches standard output.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Manner {
    /// As [`output::text`] writes it: for people.
    Text,
    /// As [`output::exact`] writes it: byte for byte.
    Exact,
}

/// Text in parts. Neither a file nor standard output gets anything before it is whole, and it is
/// never held in memory whole.
pub struct Parts<'a> {
    /// The file; standard output, if there is none.
    path: Option<&'a Path>,
    manner: Manner,
    draft: Option<OutputFile>,
}

impl<'a> Parts<'a> {
    /// Begins with nothing.
    pub fn new(path: Option<&'a Path>, manner: Manner) -> Self {
        let path = path.filter(|path| *path != Path::new("-"));
        Self { path, manner, draft: None }
    }

    /// Adds a part, which ends with whole characters.
    pub fn add(&mut self, part: &str) -> Result<(), Failure> {
        let path = self.path.unwrap_or(Path::new("-"));
        let draft = match &mut self.draft {
            Some(draft) => draft,
            none => none.insert(OutputFile::begin(path)?),
        };
        let stripped;
        let part = match (self.manner, self.path) {
            (Manner::Text, Some(_)) => {
                stripped = anstream::adapter::strip_str(part).to_string();
                (&*stripped).into()
            }
            (Manner::Text, None) => coloured(part),
            (Manner::Exact, None) if std::io::stdout().is_terminal() => printable(part),
            (Manner::Exact, _) => part.into(),
        };
        draft.write_all(part.as_bytes()).map_err(|error| output::cannot(path, &error))
    }

    /// Puts the whole in its place.
    pub fn finish(mut self) -> Result<(), Failure> {
        // Even an empty text makes a file.
        self.add("")?;
        match (self.draft, self.manner, self.path) {
            (None, ..) => Ok(()),
            (Some(draft), Manner::Text, None) => draft.finish_to(anstream::stdout()),
            (Some(draft), ..) => draft.finish(),
        }
    }
}
