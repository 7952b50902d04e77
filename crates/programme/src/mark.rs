//! Whether two files are the same, without keeping either.

use sha2::{Digest, Sha256};

/// A mark of bytes: the same bytes have the same, others have another (SHA-256).
#[derive(Debug, Clone, Default)]
pub struct Mark(Sha256);

impl Mark {
    /// More bytes.
    pub fn add(&mut self, bytes: &[u8]) {
        self.0.update(bytes);
    }

    /// The mark of all, as 64 hexadecimal digits.
    pub fn word(self) -> String {
        use std::fmt::Write as _;
        self.0
            .finalize()
            .iter()
            .fold(String::with_capacity(64), |mut out, byte| {
                let _ = write!(out, "{byte:02x}");
                out
            })
    }
}
