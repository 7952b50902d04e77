//! Texts of old revisions, packed.

use std::io::{Read, Write};

use flate2::Compression;
use flate2::read::DeflateDecoder;
use flate2::write::DeflateEncoder;

use crate::NotKept;

/// Packs a text.
pub fn pack(text: &str) -> Result<Vec<u8>, NotKept> {
    let mut out = DeflateEncoder::new(Vec::new(), Compression::fast());
    out.write_all(text.as_bytes())?;
    Ok(out.finish()?)
}

/// Unpacks it.
pub fn unpack(bytes: &[u8]) -> Result<String, NotKept> {
    let mut out = String::new();
    DeflateDecoder::new(bytes).read_to_string(&mut out)?;
    Ok(out)
}
