//! The tree of bookmarks (the document outline).

use std::io::Write;

use lopdf::{Dictionary, Object, ObjectId};

use super::super::SheetError;
use super::Bookmark;
use super::file::PdfFile;
use super::objects::{name, text};

/// Writes the tree of bookmarks; `None` if there are none.
pub fn outline<W: Write>(
    file: &mut PdfFile<W>,
    bookmarks: &[Bookmark],
    pages: &[ObjectId],
) -> Result<Option<ObjectId>, SheetError> {
    if bookmarks.is_empty() {
        return Ok(None);
    }
    let root = file.reserve();
    let Some((first, last)) = branch(file, bookmarks, root, pages)? else {
        return Ok(None);
    };
    let mut dictionary = Dictionary::new();
    dictionary.set("Type", name("Outlines"));
    dictionary.set("First", Object::Reference(first));
    dictionary.set("Last", Object::Reference(last));
    // Athletes are open and their sessions visible, so all of them count.
    dictionary.set("Count", Object::Integer(visible(bookmarks)));
    file.object(root, &Object::Dictionary(dictionary))?;
    Ok(Some(root))
}

fn visible(bookmarks: &[Bookmark]) -> i64 {
    bookmarks.iter().map(|bookmark| 1 + visible(&bookmark.below)).sum()
}

/// Writes the bookmarks below `parent` and returns the first and the last.
fn branch<W: Write>(
    file: &mut PdfFile<W>,
    bookmarks: &[Bookmark],
    parent: ObjectId,
    pages: &[ObjectId],
) -> Result<Option<(ObjectId, ObjectId)>, SheetError> {
    let ids: Vec<ObjectId> = bookmarks.iter().map(|_| file.reserve()).collect();
    for (at, (bookmark, id)) in bookmarks.iter().zip(&ids).enumerate() {
        let page = pages
            .get(bookmark.page)
            .ok_or_else(|| SheetError::Pdf(format!("no page {}", bookmark.page + 1)))?;
        let mut entry = Dictionary::new();
        entry.set("Title", text(&bookmark.text));
        entry.set("Parent", Object::Reference(parent));
        entry.set("Dest", Object::Array(vec![Object::Reference(*page), name("Fit")]));
        let before = at.checked_sub(1).and_then(|before| ids.get(before));
        if let Some(before) = before {
            entry.set("Prev", Object::Reference(*before));
        }
        if let Some(next) = ids.get(at + 1) {
            entry.set("Next", Object::Reference(*next));
        }
        if let Some((first, last)) = branch(file, &bookmark.below, *id, pages)? {
            entry.set("First", Object::Reference(first));
            entry.set("Last", Object::Reference(last));
            entry.set("Count", Object::Integer(visible(&bookmark.below)));
        }
        file.object(*id, &Object::Dictionary(entry))?;
    }
    Ok(ids.first().copied().zip(ids.last().copied()))
}
