//! Reads the tables of `data/`: lines of fields with `;` between, `#` begins a comment.

/// The lines of a table, each as its fields.
pub(super) fn rows(text: &'static str) -> impl Iterator<Item = Vec<&'static str>> {
    text.lines()
        .map(str::trim)
        .filter(|l| !l.is_empty() && !l.starts_with('#'))
        .map(|l| l.split(';').map(str::trim).collect())
}

/// Is `asked` this name or one of the other names, whatever the case and spacing?
pub(super) fn is_called(asked: &str, name: &str, others: &str) -> bool {
    let asked = plain(asked);
    plain(name) == asked
        || others
            .split('|')
            .any(|o| !o.is_empty() && plain(o) == asked)
}

/// Lower case, single spaces, hyphens as spaces.
fn plain(text: &str) -> String {
    text.to_lowercase()
        .replace('-', " ")
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}
