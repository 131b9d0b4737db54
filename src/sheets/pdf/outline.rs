//! The tree of bookmarks.

use lopdf::{Dictionary, Document, Object, ObjectId};

use super::super::SheetError;
use super::Bookmark;
use super::objects::{name, text};

/// Builds the tree of bookmarks; `None` when there are none.
pub fn outline(
    document: &mut Document,
    bookmarks: &[Bookmark],
    pages: &[ObjectId],
) -> Result<Option<ObjectId>, SheetError> {
    let root = document.new_object_id();
    let Some((first, last)) = branch(document, bookmarks, root, pages)? else {
        return Ok(None);
    };
    let mut dictionary = Dictionary::new();
    dictionary.set("Type", name("Outlines"));
    dictionary.set("First", Object::Reference(first));
    dictionary.set("Last", Object::Reference(last));
    // Athletes are open, their sessions visible: all of them count.
    dictionary.set("Count", Object::Integer(visible(bookmarks)));
    document.set_object(root, dictionary);
    Ok(Some(root))
}

fn visible(bookmarks: &[Bookmark]) -> i64 {
    bookmarks.iter().map(|bookmark| 1 + visible(&bookmark.below)).sum()
}

/// Adds the bookmarks below `parent`; gives the first and the last.
fn branch(
    document: &mut Document,
    bookmarks: &[Bookmark],
    parent: ObjectId,
    pages: &[ObjectId],
) -> Result<Option<(ObjectId, ObjectId)>, SheetError> {
    let ids: Vec<ObjectId> = bookmarks.iter().map(|_| document.new_object_id()).collect();
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
        if let Some((first, last)) = branch(document, &bookmark.below, *id, pages)? {
            entry.set("First", Object::Reference(first));
            entry.set("Last", Object::Reference(last));
            entry.set("Count", Object::Integer(visible(&bookmark.below)));
        }
        document.set_object(*id, entry);
    }
    Ok(ids.first().copied().zip(ids.last().copied()))
}
