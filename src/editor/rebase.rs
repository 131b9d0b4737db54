//! Carrying problems over from an earlier text to the current one.
//!
//! Between two readings, the coach types in one place. The lines before it have not moved, and
//! those after it have moved by the same distance. Problems on these lines are kept until the next
//! evaluation; problems on changed lines are dropped.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::diagnostics::{Diagnostic, Edit, Fix, Label};
use crate::plan::Location;
use crate::source::{FileId, SourceFile, Sources, Span};

/// How the texts changed from one reading to the next, by file of the earlier reading.
pub struct Change<'s> {
    files: BTreeMap<FileId, FileChange<'s>>,
}

/// How a file changed.
struct FileChange<'s> {
    now: FileId,
    file: &'s SourceFile,
    /// Number of bytes of whole lines that are equal at the start.
    before: u32,
    /// Start of the whole lines that are equal at the end, in the earlier and in the current text;
    /// `None` if the last lines differ.
    after: Option<(u32, u32)>,
}

impl<'s> Change<'s> {
    /// Compares two readings.
    #[must_use]
    pub fn between(before: &Sources, now: &'s Sources) -> Self {
        // The library always has the same number; a file may have another number than before.
        let key = |id: FileId, file: &'_ SourceFile| (id.0 == 0, file.path.clone());
        let known: BTreeMap<_, _> =
            now.iter().map(|(id, file)| (key(id, file), (id, file))).collect();
        let mut files = BTreeMap::new();
        for (id, file) in before.iter() {
            if let Some((new, other)) = known.get(&key(id, file)) {
                files.insert(id, FileChange::new(&file.text, *new, other));
            }
        }
        Self { files }
    }

    /// The new place of a span, if its line has not changed.
    #[must_use]
    pub fn span(&self, span: Span) -> Option<Span> {
        let file = self.files.get(&span.file)?;
        let moved = |at: u32| {
            let (was, is) = file.after?;
            at.checked_sub(was).map(|at| at.saturating_add(is))
        };
        if span.end < file.before || span.start < file.before && span.end == file.before {
            return Some(Span { file: file.now, ..span });
        }
        let (start, end) = (moved(span.start)?, moved(span.end)?);
        Some(Span { file: file.now, start, end })
    }

    /// A problem at its new place, if none of its lines has changed.
    #[must_use]
    pub fn finding(&self, found: &Diagnostic) -> Option<Diagnostic> {
        let mut found = found.clone();
        found.label.span = self.span(found.label.span)?;
        let others = found.related.into_iter();
        let moved = others.map(|l| Some(Label { span: self.span(l.span)?, text: l.text }));
        found.related = moved.collect::<Option<_>>()?;
        // A fix that reaches into changed lines is not offered.
        let moved = |edit: Edit| Some(Edit { span: self.span(edit.span)?, ..edit });
        let fixes = found.fixes.into_iter().filter_map(|fix| {
            let edits = fix.edits.into_iter().map(moved).collect::<Option<_>>()?;
            Some(Fix { edits, ..fix })
        });
        found.fixes = fixes.collect();
        Some(found)
    }
}

impl<'s> FileChange<'s> {
    fn new(was: &Arc<str>, now: FileId, file: &'s SourceFile) -> Self {
        let narrow = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        // A file that was not read again has the identical text.
        if Arc::ptr_eq(was, &file.text) || *was == file.text {
            let end = narrow(was.len());
            return Self { now, file, before: end.saturating_add(1), after: None };
        }
        let (was, is) = (was.as_bytes(), file.text.as_bytes());
        let same = was.iter().zip(is).take_while(|(a, b)| a == b).count();
        let whole = is.get(..same).unwrap_or_default().iter().rposition(|b| *b == b'\n');
        let before = whole.map_or(0, |at| at + 1);
        let ends = was.iter().rev().zip(is.iter().rev());
        let most = was.len().min(is.len()) - before;
        let same = ends.take(most).take_while(|(a, b)| a == b).count();
        // Equal from the first line that starts within it.
        let tail = is.get(is.len() - same..).unwrap_or_default();
        let opens = |same| opens_a_line(was, same) && opens_a_line(is, same);
        let own = opens(same);
        let skipped =
            if own { 0 } else { tail.iter().position(|b| *b == b'\n').map_or(same, |at| at + 1) };
        let same = same - skipped;
        let starts = (narrow(was.len() - same), narrow(is.len() - same));
        Self { now, file, before: narrow(before), after: opens(same).then_some(starts) }
    }

    /// For each current line, its number in the earlier text if it is unchanged; both count from 1.
    fn lines(&self, before: &SourceFile) -> Vec<u32> {
        let head = self.file.line_of(self.before).saturating_sub(1);
        let after = self.after.map(|(was, is)| (before.line_of(was), self.file.line_of(is)));
        let last = self.file.line_of(u32::MAX);
        let number = |line: u32| match after {
            _ if line <= head => line,
            Some((was, is)) if line >= is => line - is + was,
            _ => 0,
        };
        (1..=last).map(number).collect()
    }
}

/// Whether a line starts at this distance in bytes from the end of a text.
fn opens_a_line(text: &[u8], before_end: usize) -> bool {
    let at = text.len().saturating_sub(before_end);
    at == 0 || text.get(at - 1) == Some(&b'\n')
}

/// Where the current lines were in the texts that the plans were made from. Files that are not
/// listed have not changed.
#[derive(Clone, Debug, Default)]
pub struct LineOrigins(BTreeMap<Arc<str>, Arc<[u32]>>);

impl LineOrigins {
    /// Updates the origins after another change.
    #[must_use]
    pub fn after(&self, change: &Change<'_>, before: &Sources) -> Self {
        let mut lines = BTreeMap::new();
        for (id, file) in &change.files {
            let Some(was) = before.get(*id) else { continue };
            if Arc::ptr_eq(&was.text, &file.file.text) || was.text == file.file.text {
                if let Some(known) = self.0.get(&was.path) {
                    lines.insert(was.path.clone(), known.clone());
                }
                continue;
            }
            let mut numbers = file.lines(was);
            if let Some(known) = self.0.get(&was.path) {
                for number in &mut numbers {
                    let index = number.checked_sub(1).map(|index| index as usize);
                    *number = index.and_then(|index| known.get(index)).copied().unwrap_or(0);
                }
            }
            lines.insert(was.path.clone(), numbers.into());
        }
        Self(lines)
    }

    /// Where a current location was; `None` if its line has changed.
    #[must_use]
    pub fn place(&self, now: Location) -> Option<Location> {
        let Some(numbers) = self.0.get(&now.file) else { return Some(now) };
        let line = *numbers.get(now.line.checked_sub(1)? as usize)?;
        (line > 0).then_some(Location { line, ..now })
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::diagnostics::Code;

    fn sources(text: &str) -> Sources {
        let mut sources = Sources::default();
        sources.add(SourceFile::new("library", ""));
        sources.add(SourceFile::new("a.sets", text));
        sources
    }

    /// Where each line of the earlier text is now, by its whole span.
    fn brought(was: &str, is: &str) -> Vec<(String, Option<String>)> {
        let (before, now) = (sources(was), sources(is));
        let change = Change::between(&before, &now);
        let mut at = 0;
        let mut found = Vec::new();
        for line in was.split('\n') {
            let span = Span::new(FileId(1), at, at + line.len());
            let moved = change.finding(&Diagnostic::new(Code::UnknownKey, span, "x"));
            found.push((line.to_owned(), moved.map(|moved| now.text(moved.label.span).to_owned())));
            at += line.len() + 1;
        }
        found
    }

    #[test]
    fn lines_beside_a_change_keep_what_is_said_of_them() {
        let found = brought("one\ntwo\nthree\nfour", "one\ntwo x\n\nthree\nfour");
        let kept: Vec<Option<&str>> = found.iter().map(|(_, now)| now.as_deref()).collect();
        assert_eq!(kept, [Some("one"), None, Some("three"), Some("four")]);
        let begun = brought("", "a");
        assert!(begun.iter().all(|(_, now)| now.is_none()), "{begun:?}");
        let same = brought("one\ntwo", "one\ntwo");
        assert!(same.iter().all(|(was, now)| now.as_ref() == Some(was)), "{same:?}");
    }

    #[test]
    fn lines_are_followed_through_several_changes() {
        let texts = ["a\nb\nc\nd\n", "a\nx\nb\nc\nd\n", "a\nx\nb\nd\n"];
        let mut lines = LineOrigins::default();
        for pair in texts.windows(2) {
            let (before, now) = (sources(pair[0]), sources(pair[1]));
            lines = lines.after(&Change::between(&before, &now), &before);
        }
        let place = |line| {
            let now = Location { file: Arc::from("a.sets"), line };
            lines.place(now).map(|place| place.line)
        };
        assert_eq!([1, 2, 3, 4].map(place), [Some(1), None, Some(2), Some(4)]);
        let other = Location { file: Arc::from("b.sets"), line: 7 };
        assert_eq!(lines.place(other.clone()), Some(other));
    }

    proptest! {
        // Failures become tests of their own.
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn what_is_brought_over_says_the_same(was in "[ab\n]{0,12}", is in "[ab\n]{0,12}") {
            for (line, now) in brought(&was, &is) {
                prop_assert!(now.is_none() || now == Some(line));
            }
            let (before, now) = (sources(&was), sources(&is));
            let lines = LineOrigins::default().after(&Change::between(&before, &now), &before);
            for (index, text) in (1..).zip(is.split('\n')) {
                let now = Location { file: Arc::from("a.sets"), line: index };
                if let Some(place) = lines.place(now) {
                    let old = was.split('\n').nth(place.line as usize - 1);
                    prop_assert_eq!(old, Some(text));
                }
            }
        }
    }
}
