//! The document's `/ID`.

/// Stands for the document's `/ID` until its bytes are known.
pub const PLACEHOLDER: &[u8; 16] = b"setwright-id-id-";

/// Replaces the placeholder ids by a hash of everything else: PDF wants an id that tells documents
/// apart, and ours has to be the same whenever the document is.
pub fn stamp(bytes: &mut [u8]) {
    // FNV-1a, 128 bits: an identifier, not a signature.
    let mut hash: u128 = 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d;
    // Eight bytes at a step: a document of a squad has millions.
    for word in bytes.chunks(8) {
        let word = word.iter().rev().fold(0, |word, byte| word << 8 | u128::from(*byte));
        hash ^= word;
        hash = hash.wrapping_mul(0x0000_0000_0100_0000_0000_0000_0000_013b);
    }
    let upper = format!("{hash:032X}");
    let placeholder = format!("{:032X}", u128::from_be_bytes(*PLACEHOLDER));
    // The trailer is at the end, and holds the placeholder twice.
    let mut end = bytes.len();
    for _ in 0..2 {
        let Some(found) = bytes.get(..end).and_then(|head| {
            head.windows(placeholder.len()).rposition(|at| at == placeholder.as_bytes())
        }) else {
            return;
        };
        if let Some(slot) = bytes.get_mut(found..found + upper.len()) {
            slot.copy_from_slice(upper.as_bytes());
        }
        end = found;
    }
}
