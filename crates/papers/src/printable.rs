//! Text that any of the fonts can print.
//!
//! A character without a sign prints as its number in brackets, so that nothing is lost silently
//! and no other character stands in for it. Marks that turn the direction of the text around
//! could make a serial number read as another; they print as their number too. Very long words
//! may break.

use crate::press::has_sign;

/// A word longer than this may break after every [`STRETCH`] characters.
const LONGEST_WORD: usize = 22;
const STRETCH: usize = 11;
/// A place where a line may break, without width.
const MAY_BREAK: char = '\u{200b}';

/// The text as it can be printed.
pub fn printable(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for (i, word) in text.split([' ', '\n', '\t', '\r']).enumerate() {
        if i > 0 {
            out.push(' ');
        }
        word_into(word, &mut out);
    }
    out
}

/// A drawing whose texts can be printed: no breaks, and without the colours for a dark screen.
pub fn printable_svg(svg: &str) -> String {
    let (before, after) = match (svg.find("@media"), svg.find("</style>")) {
        (Some(a), Some(b)) if a < b => (&svg[..a], &svg[b..]),
        _ => (svg, ""),
    };
    let mut out = String::with_capacity(svg.len());
    for c in before.chars().chain(after.chars()) {
        sign_into(c, &mut out);
    }
    out
}

fn word_into(word: &str, out: &mut String) {
    let long = word.chars().count() > LONGEST_WORD;
    for (i, c) in word.chars().enumerate() {
        if long && i > 0 && i.is_multiple_of(STRETCH) {
            out.push(MAY_BREAK);
        }
        sign_into(c, out);
    }
}

fn sign_into(c: char, out: &mut String) {
    let turns = matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200e}' | '\u{200f}' | '\u{061c}');
    if c == '\n' || (!c.is_control() && !turns && (c == ' ' || has_sign(c))) {
        out.push(c);
    } else {
        out.push_str(&format!("[U+{:04X}]", u32::from(c)));
    }
}
