//! The floor below any PDF of these cards: packing the content of the same pages, and nothing else.
//!
//! `cargo bench --bench floor -- take CARDS.pdf STREAMS` takes the pages' content out of our PDF;
//! `cargo bench --bench floor -- pack STREAMS PACKED` packs each page and writes all to disk, and
//! is what is timed.
#![allow(clippy::disallowed_methods, reason = "a bench reads and writes files")]

use std::error::Error;
use std::io::Write;
use std::path::Path;

use flate2::{Compression, write::ZlibEncoder};
use rayon::prelude::*;

fn main() -> Result<(), Box<dyn Error>> {
    // Cargo itself passes --bench.
    let given: Vec<String> = std::env::args().skip(1).filter(|one| one != "--bench").collect();
    let words: Vec<&str> = given.iter().map(String::as_str).collect();
    match words.as_slice() {
        ["take", pdf, streams] => take(Path::new(pdf), Path::new(streams)),
        ["pack", streams, packed] => pack(Path::new(streams), Path::new(packed)),
        _ => {
            println!("take CARDS.pdf STREAMS, or pack STREAMS PACKED");
            Ok(())
        }
    }
}

/// Each page's content behind its length, as eight bytes.
fn take(pdf: &Path, streams: &Path) -> Result<(), Box<dyn Error>> {
    let document = lopdf::Document::load(pdf)?;
    let mut all = Vec::new();
    for page in document.get_pages().into_values() {
        let content = document.get_page_content(page);
        all.extend(u64::try_from(content.len())?.to_le_bytes());
        all.extend(content);
    }
    std::fs::write(streams, all)?;
    Ok(())
}

/// At the level that our PDFs are packed at, on all cores as they are.
fn pack(streams: &Path, packed: &Path) -> Result<(), Box<dyn Error>> {
    let all = std::fs::read(streams)?;
    let mut pages = Vec::new();
    let mut rest = all.as_slice();
    while let Some((length, behind)) = rest.split_first_chunk::<8>() {
        let length = usize::try_from(u64::from_le_bytes(*length))?;
        let (page, behind) = behind.split_at_checked(length).ok_or("the file is cut short")?;
        pages.push(page);
        rest = behind;
    }
    let packed_pages: Vec<Vec<u8>> = pages
        .into_par_iter()
        .map(|page| {
            let mut encoder = ZlibEncoder::new(Vec::new(), Compression::new(6));
            encoder.write_all(page)?;
            encoder.finish()
        })
        .collect::<Result<_, std::io::Error>>()?;
    std::fs::write(packed, packed_pages.concat())?;
    Ok(())
}
