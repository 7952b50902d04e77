//! Names: the nearest known one to a mistyped one.

/// The known name most like the one written, if any is like it.
pub(crate) fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = word.to_lowercase();
    let mut best: Option<(&str, f64)> = None;
    for name in known {
        let likeness = strsim::jaro_winkler(&word, &name.to_lowercase());
        if likeness > best.map_or(0.75, |b| b.1) {
            best = Some((name, likeness));
        }
    }
    best.map(|b| b.0)
}

/// Mend for an unknown name.
pub(super) fn did_you_mean<'a>(
    word: &str,
    known: impl IntoIterator<Item = &'a str> + Clone,
    else_do: &str,
) -> String {
    match nearest(word, known) {
        Some(near) => format!("did you mean \"{near}\"?"),
        None => else_do.to_owned(),
    }
}

/// The known names in a row, for "allowed".
pub(super) fn listed<'a>(known: impl IntoIterator<Item = &'a str>) -> String {
    let all: Vec<&str> = known.into_iter().collect();
    if all.is_empty() {
        return "none is given".to_owned();
    }
    let shown = all
        .iter()
        .take(12)
        .map(|n| format!("\"{n}\""))
        .collect::<Vec<_>>()
        .join(", ");
    if all.len() > 12 {
        format!("{shown} and {} more", all.len() - 12)
    } else {
        shown
    }
}
