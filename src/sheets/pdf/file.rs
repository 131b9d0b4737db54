//! Writes a PDF file object by object. Only the objects of the next object stream are held in
//! memory. Small objects are grouped in compressed object streams, and the cross-reference table is
//! a compressed stream too (ISO 32000-1, 7.5.7 and 7.5.8).

use std::io::Write;

use lopdf::{Dictionary, Object, ObjectId, StringFormat};

use super::super::SheetError;
use super::content::Packer;
use super::hash::Hash;
use super::objects::{name, write, write_dictionary};

/// The position of an object.
#[derive(Clone, Copy)]
enum ObjectPlace {
    /// A free entry.
    Nowhere,
    /// Offset in the file, in bytes.
    At(u64),
    /// In this object stream, at this index.
    In(u32, u16),
}

/// Number of objects in an object stream.
const SHARE: usize = 100;

/// Number of bytes that are buffered before writing.
const AT_ONCE: usize = 1 << 16;

/// A PDF that is being written.
pub struct PdfFile<W> {
    out: W,
    /// Bytes that are not written yet.
    waiting: Vec<u8>,
    /// Number of bytes already written.
    written: u64,
    /// Hash of the written bytes.
    hash: Hash,
    /// The position of each object, by its number.
    places: Vec<ObjectPlace>,
    /// The objects of the next object stream, each with its number and offset.
    shared: Vec<(u32, usize)>,
    shared_bytes: Vec<u8>,
    packer: Packer,
}

impl<W: Write> PdfFile<W> {
    /// Starts a file.
    pub fn begin(out: W) -> Self {
        let mut waiting = Vec::with_capacity(2 * AT_ONCE);
        // `/Lang` and `DisplayDocTitle` need PDF 1.4, object streams 1.5. The comment with bytes
        // above 127 marks the file as binary.
        waiting.extend_from_slice(b"%PDF-1.7\n%\xbb\xad\xc0\xde\n");
        Self {
            out,
            waiting,
            written: 0,
            hash: Hash::default(),
            // Object number 0 is always free.
            places: vec![ObjectPlace::Nowhere],
            shared: Vec::new(),
            shared_bytes: Vec::new(),
            packer: Packer::default(),
        }
    }

    /// Reserves the number of an object that is written later.
    pub fn reserve(&mut self) -> ObjectId {
        self.places.push(ObjectPlace::Nowhere);
        (u32::try_from(self.places.len() - 1).unwrap_or(u32::MAX), 0)
    }

    fn put(&mut self, id: ObjectId, place: ObjectPlace) {
        let at = usize::try_from(id.0).unwrap_or(usize::MAX);
        if let Some(slot) = self.places.get_mut(at) {
            *slot = place;
        }
    }

    /// Writes a stream. Its content is already encoded, as its dictionary describes.
    pub fn stream(
        &mut self,
        id: ObjectId,
        mut dictionary: Dictionary,
        content: &[u8],
    ) -> Result<(), SheetError> {
        let length = i64::try_from(content.len()).unwrap_or(i64::MAX);
        dictionary.set("Length", Object::Integer(length));
        self.put(id, ObjectPlace::At(self.written + self.waiting.len() as u64));
        self.waiting.extend_from_slice(format!("{} {} obj\n", id.0, id.1).as_bytes());
        write_dictionary(&dictionary, &mut self.waiting);
        self.waiting.extend_from_slice(b"stream\n");
        self.waiting.extend_from_slice(content);
        self.waiting.extend_from_slice(b"\nendstream\nendobj\n");
        self.flush(AT_ONCE)
    }

    /// Writes a stream of compressed content.
    pub fn packed(&mut self, id: ObjectId, content: &[u8]) -> Result<(), SheetError> {
        let mut dictionary = Dictionary::new();
        dictionary.set("Filter", name("FlateDecode"));
        self.stream(id, dictionary, content)
    }

    /// Writes any other object.
    pub fn object(&mut self, id: ObjectId, object: &Object) -> Result<(), SheetError> {
        self.shared.push((id.0, self.shared_bytes.len()));
        write(object, &mut self.shared_bytes);
        self.shared_bytes.push(b' ');
        if self.shared.len() >= SHARE { self.share() } else { Ok(()) }
    }

    /// Writes the current object stream.
    fn share(&mut self) -> Result<(), SheetError> {
        let shared = std::mem::take(&mut self.shared);
        if shared.is_empty() {
            return Ok(());
        }
        let id = self.reserve();
        let table: Vec<String> =
            shared.iter().map(|(number, begins)| format!("{number} {begins} ")).collect();
        let mut content = table.concat().into_bytes();
        let mut dictionary = Dictionary::new();
        dictionary.set("Type", name("ObjStm"));
        dictionary.set("N", Object::Integer(i64::try_from(shared.len()).unwrap_or(0)));
        dictionary.set("First", Object::Integer(i64::try_from(content.len()).unwrap_or(0)));
        dictionary.set("Filter", name("FlateDecode"));
        content.append(&mut self.shared_bytes);
        for (index, (number, _)) in (0..).zip(&shared) {
            self.put((*number, 0), ObjectPlace::In(id.0, index));
        }
        let packed = self.packer.deflate(&content)?;
        self.stream(id, dictionary, &packed)
    }

    /// Writes the buffer if it is larger than `least` bytes. Only whole words are written, because
    /// the hash takes words.
    fn flush(&mut self, least: usize) -> Result<(), SheetError> {
        if self.waiting.len() < least {
            return Ok(());
        }
        let whole = self.waiting.len() - self.waiting.len() % Hash::WORD;
        let bytes = self.waiting.get(..whole).unwrap_or_default();
        self.hash.update(bytes);
        self.out.write_all(bytes).map_err(|error| SheetError::Write(error.to_string()))?;
        self.waiting.drain(..whole);
        self.written += whole as u64;
        Ok(())
    }

    /// Ends the file with the cross-reference stream, which names the catalogue and the document
    /// information.
    pub fn finish(mut self, catalogue: ObjectId, info: ObjectId) -> Result<W, SheetError> {
        self.share()?;
        let id = self.reserve();
        let begins = self.written + self.waiting.len() as u64;
        self.put(id, ObjectPlace::At(begins));
        let mut table = Vec::with_capacity(self.places.len() * 7);
        for place in &self.places {
            let (kind, [a, b]) = match place {
                ObjectPlace::Nowhere => (0_u8, [0, u64::from(u16::MAX)]),
                ObjectPlace::At(at) => (1, [*at, 0]),
                ObjectPlace::In(stream, index) => (2, [u64::from(*stream), u64::from(*index)]),
            };
            table.push(kind);
            // Offsets have four bytes; a million pages need less.
            table.extend(u32::try_from(a).unwrap_or(u32::MAX).to_be_bytes());
            table.extend(u16::try_from(b).unwrap_or(u16::MAX).to_be_bytes());
        }
        // PDF requires an id that identifies the document. Ours is a hash, so equal documents have
        // equal ids.
        let mut hash = self.hash.clone();
        hash.update(&self.waiting);
        hash.update(&table);
        let mark = || Object::String(hash.value().to_vec(), StringFormat::Hexadecimal);
        let mut trailer = Dictionary::new();
        trailer.set("Type", name("XRef"));
        trailer.set("Size", Object::Integer(i64::try_from(self.places.len()).unwrap_or(0)));
        trailer.set("W", Object::Array([1, 4, 2].map(Object::Integer).to_vec()));
        trailer.set("Root", Object::Reference(catalogue));
        trailer.set("Info", Object::Reference(info));
        trailer.set("ID", Object::Array(vec![mark(), mark()]));
        trailer.set("Filter", name("FlateDecode"));
        let table = self.packer.deflate(&table)?;
        self.stream(id, trailer, &table)?;
        self.waiting.extend_from_slice(format!("startxref\n{begins}\n%%EOF\n").as_bytes());
        self.out
            .write_all(&self.waiting)
            .and_then(|()| self.out.flush())
            .map_err(|error| SheetError::Write(error.to_string()))?;
        Ok(self.out)
    }
}
