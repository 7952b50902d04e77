//! The sentences of the papers, one file a language.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use crate::reader::Reader;

/// A language the papers can be printed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Language {
    /// English.
    #[default]
    English,
}

impl Language {
    /// Its short name.
    pub fn code(self) -> &'static str {
        match self {
            Self::English => "en",
        }
    }

    /// Whose paper it is, in words.
    pub fn name_of(self, reader: Reader) -> String {
        self.words().say(reader.key())
    }

    pub(crate) fn words(self) -> &'static Words {
        static ENGLISH: OnceLock<Words> = OnceLock::new();
        match self {
            Self::English => ENGLISH.get_or_init(|| Words::read(include_str!("text/en.toml"))),
        }
    }
}

/// Sentences by key.
#[derive(Debug, Default)]
pub(crate) struct Words {
    by_key: BTreeMap<String, String>,
}

impl Words {
    fn read(text: &str) -> Self {
        let parts: BTreeMap<String, BTreeMap<String, String>> =
            toml::from_str(text).unwrap_or_default();
        let by_key = parts
            .into_iter()
            .flat_map(|(part, keys)| {
                keys.into_iter()
                    .map(move |(key, says)| (format!("{part}.{key}"), says))
            })
            .collect();
        Self { by_key }
    }

    /// A sentence; its key in brackets where the language has none, so that it is seen.
    pub fn say(&self, key: &str) -> String {
        self.by_key
            .get(key)
            .cloned()
            .unwrap_or_else(|| format!("[{key}]"))
    }

    /// A sentence with its values put in. A value is put in once and never looked into again, so
    /// braces in it stay as they are.
    pub fn fill(&self, key: &str, values: &[(&str, &str)]) -> String {
        let sentence = self.say(key);
        let mut out = String::with_capacity(sentence.len());
        let mut rest = sentence.as_str();
        while let Some(at) = rest.find('{') {
            let (before, from) = rest.split_at(at);
            out.push_str(before);
            if let Some(after) = from.strip_prefix("{{") {
                out.push('{');
                rest = after;
                continue;
            }
            let end = from.find('}').unwrap_or(from.len());
            let name = from.get(1..end).unwrap_or("");
            match values.iter().find(|(n, _)| *n == name) {
                Some((_, value)) => out.push_str(value),
                None => out.push_str(from.get(..=end).unwrap_or(from)),
            }
            rest = from.get(end + 1..).unwrap_or("");
        }
        out.push_str(rest);
        out.replace("}}", "}")
    }

    #[cfg(test)]
    pub fn keys(&self) -> impl Iterator<Item = (&str, &str)> {
        self.by_key.iter().map(|(k, v)| (k.as_str(), v.as_str()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_are_put_in_and_not_looked_into() {
        let words = Words::read("[a]\nb = \"{x} and {{ y }} and {z}\"\n");
        assert_eq!(words.fill("a.b", &[("x", "{z}")]), "{z} and { y } and {z}");
    }

    /// Every key the program asks for is in the file of the language: keys stand as literals.
    #[test]
    fn every_key_asked_for_is_there() {
        let words = Language::English.words();
        assert!(words.keys().count() > 150, "the file reads");
        let sources = [
            include_str!("gate.rs"),
            include_str!("gate/by_day.rs"),
            include_str!("recorded.rs"),
            include_str!("parts.rs"),
            include_str!("owner.rs"),
            include_str!("inspector.rs"),
            include_str!("rebate.rs"),
            include_str!("crew.rs"),
            include_str!("packet.rs"),
        ];
        let parts: Vec<&str> = words
            .keys()
            .filter_map(|(k, _)| k.split('.').next())
            .collect();
        let mut asked = 0;
        for source in sources {
            for text in source.split('"').skip(1).step_by(2) {
                let Some((part, key)) = text.split_once('.') else {
                    continue;
                };
                let is_key = parts.contains(&part)
                    && !key.is_empty()
                    && key
                        .chars()
                        .all(|c| c.is_ascii_lowercase() || c == '-' || c == '_');
                if is_key {
                    asked += 1;
                    assert!(words.by_key.contains_key(text), "{text} is not in en.toml");
                }
            }
        }
        assert!(asked > 120, "{asked}");
    }
}
