//! What every refusal of a file must be.

/// Its words, one by one; what is usable; and short enough to be read.
pub fn holds(says: &str, want: &[&str]) {
    for w in want {
        assert!(says.contains(w), "no \"{w}\" in: {says}");
    }
    assert!(says.contains("usable: ") && says.len() < 500, "{says}");
}
