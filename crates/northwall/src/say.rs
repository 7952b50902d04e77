//! How things are laid out for a terminal of 80 columns.

mod bars;
mod hours;
mod numbers;
mod table;

pub use bars::{bar, columns, plot};
pub use hours::field;
pub use numbers::Say;
pub use table::Table;
pub use units::cut;

/// Columns we write for.
pub const WIDTH: usize = 80;

/// Text broken at spaces to the width, each line with the margin before it.
pub fn wrapped(margin: &str, text: &str) -> String {
    wrapped_to(WIDTH, margin, margin, text)
}

/// Text broken to a width of its own, with one margin before the first line of a paragraph and
/// another, as wide, before the rest.
pub fn wrapped_to(width: usize, first: &str, rest: &str, text: &str) -> String {
    let room = width.saturating_sub(first.chars().count()).max(20);
    let mut out = String::new();
    for paragraph in text.split('\n') {
        let mut line = String::new();
        let mut margin = first;
        for word in paragraph.split_whitespace() {
            let long = line.chars().count() + 1 + word.chars().count() > room;
            if long && !line.is_empty() {
                out.push_str(margin);
                out.push_str(&line);
                out.push('\n');
                margin = rest;
                line.clear();
            }
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        }
        out.push_str(margin);
        out.push_str(&line);
        out.push('\n');
    }
    out
}

/// A word of a command line that is to be copied: in quotes where a shell would break it.
pub fn typed(word: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || "._-/:,+@%=".contains(c);
    if !word.is_empty() && word.chars().all(plain) {
        word.to_owned()
    } else if word.contains(['"', '$', '`', '\\', '!']) {
        format!("'{}'", word.replace('\'', "'\\''"))
    } else {
        format!("\"{word}\"")
    }
}

/// As [`typed`], of a path.
pub fn typed_path(path: &std::path::Path) -> String {
    typed(&path.display().to_string())
}

/// A command to be copied, on a line of its own: it is longer than the terminal is wide only where
/// the command alone is.
pub fn command_line(words: &str) -> String {
    format!("  northwall {words}\n")
}

/// A heading, bold where the terminal can.
pub fn heading(text: &str) -> String {
    format!("\x1b[1m{text}\x1b[0m\n")
}

/// Left text and right text on one line.
pub fn ends(left: &str, right: &str) -> String {
    let gap = WIDTH
        .saturating_sub(left.chars().count() + right.chars().count())
        .max(1);
    format!("{left}{}{right}\n", " ".repeat(gap))
}
