//! The hash that a document's `/ID` is.

/// FNV-1a, 128 bits, of words of eight bytes: an identifier, not a signature.
#[derive(Clone)]
pub struct Hash(u128);

impl Default for Hash {
    fn default() -> Self {
        Self(0x6c62_272e_07bb_0142_62b8_2175_6295_c58d)
    }
}

impl Hash {
    /// How many bytes are taken in at a step: a document of a squad has millions.
    pub const WORD: usize = 8;

    /// Takes bytes in. Only the last ones may be no whole words.
    pub fn update(&mut self, bytes: &[u8]) {
        for word in bytes.chunks(Self::WORD) {
            let word = word.iter().rev().fold(0, |word, byte| word << 8 | u128::from(*byte));
            self.0 ^= word;
            self.0 = self.0.wrapping_mul(0x0000_0000_0100_0000_0000_0000_0000_013b);
        }
    }

    /// The hash of all that was taken in.
    pub fn value(&self) -> [u8; 16] {
        self.0.to_be_bytes()
    }
}
