//! Lines for a terminal as narrow as a phone.

use std::io::IsTerminal;
use std::sync::OnceLock;

use physics::tube::Tube;

use crate::say::{WIDTH, wrapped_to};

/// Narrowest that is written for.
const NARROW: usize = 32;

/// Columns there are: of the terminal, or as `COLUMNS` says, at most 80.
pub fn width() -> usize {
    static COLUMNS: OnceLock<usize> = OnceLock::new();
    *COLUMNS.get_or_init(|| {
        let said = std::env::var("COLUMNS").ok().and_then(|c| c.parse().ok());
        let seen = std::io::stdout()
            .is_terminal()
            .then(terminal_size::terminal_size)
            .flatten()
            .map(|(w, _)| usize::from(w.0));
        seen.or(said).unwrap_or(WIDTH).clamp(NARROW, WIDTH)
    })
}

/// A paragraph.
pub fn para(text: &str) -> String {
    wrapped_to(width(), "", "", text)
}

/// A paragraph with a mark before it and its other lines under its text.
pub fn item(mark: &str, text: &str) -> String {
    let rest = " ".repeat(mark.chars().count());
    wrapped_to(width(), mark, &rest, text)
}

/// The beginning of a hash, in groups that can be copied by hand.
pub fn short(hash: &str) -> String {
    let first: Vec<char> = hash.chars().take(16).collect();
    let groups: Vec<String> = first.chunks(4).map(|c| c.iter().collect()).collect();
    groups.join(" ")
}

/// A tube as it is called: `3/8 in`.
pub fn tube(tube: Tube) -> String {
    tube_of(tube.outside_m())
}

/// A tube by its outside diameter, m.
pub fn tube_of(outside_m: f64) -> String {
    let eighths = (outside_m / 0.0254 * 8.0).round() as i64;
    match eighths {
        2 => "1/4 in".to_owned(),
        4 => "1/2 in".to_owned(),
        6 => "3/4 in".to_owned(),
        n => format!("{n}/8 in"),
    }
}
