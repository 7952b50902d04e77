//! Text cut to a length: a damaged file may hold an endless value, and its beginning says enough.

/// A text of at most so many characters; the last is `…` where something is gone.
///
/// # Example
/// ```
/// assert_eq!(units::cut("living room", 11), "living room");
/// assert_eq!(units::cut("living room", 7), "living…");
/// ```
pub fn cut(text: &str, most: usize) -> String {
    if text.char_indices().nth(most).is_none() {
        return text.to_owned();
    }
    let mut out: String = text.chars().take(most.saturating_sub(1)).collect();
    out.push('…');
    out
}

#[cfg(test)]
mod tests {
    use super::cut;

    #[test]
    fn keeps_what_fits_and_marks_what_is_gone() {
        for (text, most, want) in [
            ("", 0, ""),
            ("", 3, ""),
            ("abc", 3, "abc"),
            ("abcd", 3, "ab…"),
            ("äöü", 2, "ä…"),
            ("ab", 1, "…"),
        ] {
            assert_eq!(cut(text, most), want, "{text} {most}");
        }
    }
}
