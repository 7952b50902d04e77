//! Words and tokens, hashed. A word by Argon2id with its own salt; a token, which is random
//! already, by SHA-256.

use argon2::{Algorithm, Argon2, Params, Version};
use sha2::{Digest, Sha256};

use crate::refused::Refused;

/// Memory, KiB, passes and lanes: what the OWASP list asks of Argon2id at least.
const COST: (u32, u32, u32) = (19_456, 2, 1);
/// Shortest and longest word, letters.
const LETTERS: std::ops::RangeInclusive<usize> = 10..=200;

/// In hexadecimal.
pub fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut out, b| {
        for half in [b >> 4, b & 15] {
            out.push(char::from_digit(u32::from(half), 16).unwrap_or('0'));
        }
        out
    })
}

fn bytes(hex: &str) -> Option<Vec<u8>> {
    let digits: Option<Vec<u32>> = hex.chars().map(|c| c.to_digit(16)).collect();
    let digits = digits.filter(|d| d.len() % 2 == 0)?;
    let pair = |p: &[u32]| u8::try_from(p.first()? * 16 + p.last()?).ok();
    digits.chunks(2).map(pair).collect()
}

fn random<const N: usize>() -> Result<[u8; N], Refused> {
    let mut out = [0; N];
    getrandom::fill(&mut out).map_err(Refused::defect)?;
    Ok(out)
}

/// A token of 256 random bits.
pub fn token() -> Result<String, Refused> {
    Ok(hex(&random::<32>()?))
}

/// A fresh id.
pub fn id() -> Result<String, Refused> {
    let made = uuid::Builder::from_random_bytes(random::<16>()?).into_uuid();
    Ok(made.hyphenated().to_string())
}

/// Hash of a token, as it is kept.
pub fn of_token(token: &str) -> String {
    hex(&Sha256::digest(token.as_bytes()))
}

fn stretched(word: &str, salt: &[u8], cost: (u32, u32, u32)) -> Option<[u8; 32]> {
    let params = Params::new(cost.0, cost.1, cost.2, Some(32)).ok()?;
    let mut out = [0; 32];
    Argon2::new(Algorithm::Argon2id, Version::V0x13, params)
        .hash_password_into(word.as_bytes(), salt, &mut out)
        .ok()?;
    Some(out)
}

/// Hash of a word with its salt and cost. Takes long: call it apart from answering threads.
pub fn of_word(word: &str) -> Result<String, Refused> {
    if !LETTERS.contains(&word.chars().count()) {
        return Err(Refused::bad("the word is too short or too long")
            .allowed("10 to 200 letters; a few words in a row are good"));
    }
    let salt = random::<16>()?;
    let (m, t, p) = COST;
    let out = stretched(word, &salt, COST).ok_or_else(|| Refused::defect("argon2"))?;
    Ok(format!("argon2id {m} {t} {p} {} {}", hex(&salt), hex(&out)))
}

/// Whether a word is the one that was hashed. Takes as long when there is nobody, so that time
/// does not tell who is there.
pub fn is_word(word: &str, kept: Option<&str>) -> bool {
    let nobody = format!(
        "argon2id {} {} {} {} {}",
        COST.0,
        COST.1,
        COST.2,
        "00".repeat(16),
        "00".repeat(32)
    );
    let parts: Vec<&str> = kept.unwrap_or(&nobody).split(' ').collect();
    let ["argon2id", m, t, p, salt, hash] = parts.as_slice() else {
        return false;
    };
    let cost = (m.parse().ok(), t.parse().ok(), p.parse().ok());
    let ((Some(m), Some(t), Some(p)), Some(salt), Some(hash)) = (cost, bytes(salt), bytes(hash))
    else {
        return false;
    };
    let Some(out) = stretched(word, &salt, (m, t, p)) else {
        return false;
    };
    let apart = out.iter().zip(&hash).fold(0, |d, (a, b)| d | (a ^ b));
    kept.is_some() && hash.len() == out.len() && apart == 0
}

#[cfg(test)]
mod tests {
    use super::{is_word, of_token, of_word, token};

    #[test]
    fn a_word_is_known_again_and_no_other() {
        let kept = of_word("four walls and a roof").expect("hashed");
        assert!(is_word("four walls and a roof", Some(&kept)));
        assert!(!is_word("four walls and a rook", Some(&kept)));
        assert!(!is_word("four walls and a roof", None));
        assert!(!is_word("four walls and a roof", Some("argon2id 1 x")));
        assert_ne!(
            kept,
            of_word("four walls and a roof").expect("hashed"),
            "salt"
        );
        assert!(of_word("short").is_err());
    }

    #[test]
    fn tokens_differ_and_only_their_hash_is_kept() {
        let (a, b) = (token().expect("a"), token().expect("b"));
        assert_eq!(a.len(), 64);
        assert_ne!(a, b);
        // Known value: SHA-256 of the empty text, FIPS 180-4.
        assert_eq!(
            of_token(""),
            "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
        );
    }
}
