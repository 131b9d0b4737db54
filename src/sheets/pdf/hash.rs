//! The hash for a document's `/ID`.

/// FNV-1a with 128 bits over words of eight bytes: an identifier, not a signature.
#[derive(Clone)]
pub struct Hash(u128);

impl Default for Hash {
    fn default() -> Self {
        Self(0x6c62_272e_07bb_0142_62b8_2175_6295_c58d)
    }
}

impl Hash {
    /// Number of bytes hashed at once; a squad's document has millions.
    pub const WORD: usize = 8;

    /// Hashes bytes. Only the last call may pass a number of bytes that is not a multiple of a
    /// word.
    pub fn update(&mut self, bytes: &[u8]) {
        for word in bytes.chunks(Self::WORD) {
            let word = word.iter().rev().fold(0, |word, byte| word << 8 | u128::from(*byte));
            self.0 ^= word;
            self.0 = self.0.wrapping_mul(0x0000_0000_0100_0000_0000_0000_0000_013b);
        }
    }

    /// The hash of all bytes so far.
    pub fn value(&self) -> [u8; 16] {
        self.0.to_be_bytes()
    }
}
