//! Different spellings of the same thing, brought to one.

/// Signs that are not on every keyboard, to plain ones.
pub(crate) fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '°' | 'º' => out.push_str(" deg"),
            '²' => out.push('2'),
            '³' => out.push('3'),
            '·' | '⋅' | '×' | '\u{a0}' | '\u{202f}' | '\u{2009}' => out.push(' '),
            '−' | '–' => out.push('-'),
            '′' | '’' => out.push('\''),
            '″' | '”' | '“' => out.push('"'),
            'µ' | 'μ' => out.push('u'),
            '½' => out.push_str(" 1/2"),
            '¼' => out.push_str(" 1/4"),
            '¾' => out.push_str(" 3/4"),
            '⅛' => out.push_str(" 1/8"),
            '⅜' => out.push_str(" 3/8"),
            '⅝' => out.push_str(" 5/8"),
            '⅞' => out.push_str(" 7/8"),
            _ => out.push(c),
        }
    }
    out.trim().to_owned()
}

/// A unit without what does not matter: case, spaces, brackets, dots, and the second stroke.
pub(crate) fn key(unit: &str) -> String {
    let mut out = String::with_capacity(unit.len());
    let mut stroke = false;
    for c in unit.chars() {
        match c {
            '(' | ')' | '.' | '-' | '*' | '^' | '_' => {}
            '/' if stroke => {}
            '/' => {
                stroke = true;
                out.push('/');
            }
            c if c.is_whitespace() => {}
            c => out.extend(c.to_lowercase()),
        }
    }
    // Longest first, so that "square feet" does not lose its "square".
    for (from, to) in [
        ("squarefeet", "ft2"),
        ("squarefoot", "ft2"),
        ("sqft", "ft2"),
        ("cubicfeet", "ft3"),
        ("cuft", "ft3"),
        ("hour", "h"),
        ("hr", "h"),
        ("degf", "f"),
        ("degc", "c"),
    ] {
        if out.contains(from) {
            out = out.replace(from, to);
        }
    }
    out
}

/// How many letters must change to turn one word into the other.
pub fn distance(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, ca) in a.chars().enumerate() {
        let mut next = vec![i + 1];
        for (j, cb) in b.iter().enumerate() {
            let change = row.get(j).copied().unwrap_or(0) + usize::from(ca != *cb);
            let drop = row.get(j + 1).copied().unwrap_or(0) + 1;
            let add = next.get(j).copied().unwrap_or(0) + 1;
            next.push(change.min(drop).min(add));
        }
        row = next;
    }
    row.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::distance;

    #[test]
    fn counts_edits() {
        for (a, b, want) in [
            ("max", "max", 0),
            ("outdor", "outdoor", 1),
            ("", "abc", 3),
            ("abc", "", 3),
        ] {
            assert_eq!(distance(a, b), want, "{a} {b}");
        }
    }
}
