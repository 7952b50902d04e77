//! Tells what kind of file it is, and unpacks it.

use crate::{Read, Weather, WeatherError};
use std::borrow::Cow;
use std::io::Read as _;

/// The most that is read; a year is about 1.6 million bytes.
const MOST_BYTES: usize = 16 * 1024 * 1024;

/// Reads an EPW or TMY3 csv file, plain or gzip compressed.
///
/// # Errors
/// As [`crate::read_epw`] and [`crate::read_tmy3`], and for files that are neither or do not
/// unpack.
pub fn read_any(bytes: &[u8]) -> Result<Read<Weather>, WeatherError> {
    let bytes = unpacked(bytes)?;
    let text = plain_text(&bytes)?;
    let first = text
        .split(|b| matches!(b, b'\n' | b'\r'))
        .next()
        .unwrap_or_default();
    let head = first.trim_ascii_start();
    if head
        .get(..8)
        .is_some_and(|h| h.eq_ignore_ascii_case(b"LOCATION"))
    {
        return crate::read_epw(text);
    }
    if head.first().is_some_and(u8::is_ascii_digit) && first.split(|b| *b == b',').count() >= 7 {
        return crate::read_tmy3(text);
    }
    Err(WeatherError::UnknownLayout {
        got: crate::cells::shown(head),
    })
}

/// Unpacks gzip; other bytes pass.
fn unpacked(bytes: &[u8]) -> Result<Cow<'_, [u8]>, WeatherError> {
    if bytes.get(..2) != Some(&[0x1f, 0x8b]) {
        return Ok(Cow::Borrowed(bytes));
    }
    let mut plain = Vec::with_capacity(1_800_000);
    // One byte past the limit, so that a file that unpacks without end is seen as too large.
    let limit = MOST_BYTES as u64 + 1;
    flate2::read::MultiGzDecoder::new(bytes)
        .take(limit)
        .read_to_end(&mut plain)
        .map_err(|e| WeatherError::Gzip {
            reason: e.to_string(),
        })?;
    Ok(Cow::Owned(plain))
}

/// Without byte order mark; refuses what is empty, huge or not text.
pub(crate) fn plain_text(bytes: &[u8]) -> Result<&[u8], WeatherError> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    if bytes.len() > MOST_BYTES {
        return Err(WeatherError::TooLarge {
            limit_bytes: MOST_BYTES,
        });
    }
    // Only the head is searched here: a strange byte further on is met as a strange cell.
    let head = bytes.get(..4096).unwrap_or(bytes);
    let strange =
        |b: &u8| *b < 0x20 && !matches!(*b, b'\n' | b'\r' | b'\t' | 0x1a | 0x0c) || *b == 0x7f;
    if let Some(at) = head.iter().position(strange) {
        let line = head[..at].split(|b| *b == b'\n').count();
        return Err(WeatherError::NotText {
            line,
            byte: head[at],
        });
    }
    if bytes.iter().all(u8::is_ascii_whitespace) {
        return Err(WeatherError::Empty);
    }
    Ok(bytes)
}
