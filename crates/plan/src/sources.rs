//! The bibliography, so that a source key can be said in words.

/// An entry of `docs/sources.toml`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SourceEntry {
    /// Title.
    pub title: String,
    /// Edition.
    pub edition: String,
    /// `standard`, `paper`, `handbook`, `library`, `public data` or `common practice`.
    pub kind: String,
}

const TEXT: &str = include_str!("../../../docs/sources.toml");

/// The entry of a source key. The file is ours and simple: a header a source, three lines each.
pub fn source(key: &str) -> Option<SourceEntry> {
    let mut entry: Option<SourceEntry> = None;
    for line in TEXT.lines() {
        let line = line.trim();
        if let Some(name) = line.strip_prefix('[').and_then(|l| l.strip_suffix(']')) {
            if entry.is_some() {
                return entry;
            }
            if name.trim_matches('"') == key {
                entry = Some(SourceEntry {
                    title: String::new(),
                    edition: String::new(),
                    kind: String::new(),
                });
            }
        } else if let (Some(entry), Some((name, value))) = (entry.as_mut(), line.split_once('=')) {
            let value = value.trim().trim_matches('"').to_owned();
            match name.trim() {
                "title" => entry.title = value,
                "edition" => entry.edition = value,
                "kind" => entry.kind = value,
                _ => {}
            }
        }
    }
    entry
}

#[cfg(test)]
mod tests {
    use super::source;

    #[test]
    fn says_a_source_in_words() {
        let iso = source("iso-13370").expect("is there");
        assert!(iso.title.contains("13370") || iso.title.to_lowercase().contains("ground"));
        assert_eq!(iso.kind, "standard");
        assert_eq!(source("no-such"), None);
    }
}
