//! The project's own text files.

use std::fs;
use std::path::Path;

/// A text file of the project.
pub struct File {
    /// Path from the top of the project, with forward slashes.
    pub path: String,
    /// Its lines.
    pub lines: Vec<String>,
}

impl File {
    /// The crate a Rust source belongs to, if it is under `crates/<name>/src`.
    pub fn engine_source_of(&self) -> Option<&str> {
        let (name, rest) = self.path.strip_prefix("crates/")?.split_once('/')?;
        let source = self.is_rust() && rest.starts_with("src/") && !rest.ends_with("tests.rs");
        source.then_some(name)
    }

    /// Whether it is Rust.
    pub fn is_rust(&self) -> bool {
        self.has_ending("rs")
    }

    /// Whether its name ends so.
    pub fn has_ending(&self, ending: &str) -> bool {
        Path::new(&self.path)
            .extension()
            .is_some_and(|e| e == ending)
    }

    /// Code lines with their numbers (from 1), comments cut off, up to the unit tests.
    pub fn code(&self) -> impl Iterator<Item = (usize, &str)> {
        self.lines
            .iter()
            .enumerate()
            .take_while(|(_, line)| line.trim() != "#[cfg(test)]")
            .map(|(i, line)| (i + 1, without_comment(line)))
    }
}

/// The line up to a `//` that is not inside a string.
fn without_comment(line: &str) -> &str {
    let bytes = line.as_bytes();
    let mut quoted = false;
    let mut i = 0;
    while i < bytes.len() {
        match bytes[i] {
            b'\\' if quoted => i += 1,
            // the char literal '"' does not open a string
            b'"' if !(i > 0 && bytes[i - 1] == b'\'' && bytes.get(i + 1) == Some(&b'\'')) => {
                quoted = !quoted;
            }
            b'/' if !quoted && bytes.get(i + 1) == Some(&b'/') => return &line[..i],
            _ => {}
        }
        i += 1;
    }
    line
}

/// All text files, in order of path; what git does not keep is left out.
pub fn files() -> Vec<File> {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut found = Vec::new();
    walk(&top, "", &mut found);
    found.sort_by(|a, b| a.path.cmp(&b.path));
    found
}

fn walk(folder: &Path, prefix: &str, found: &mut Vec<File>) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        let path = if prefix.is_empty() {
            name.clone()
        } else {
            format!("{prefix}/{name}")
        };
        let Ok(kind) = entry.file_type() else {
            continue;
        };
        if kind.is_dir() {
            let hidden = name.starts_with('.') && name != ".ci" && name != ".cargo";
            let made = matches!(
                name.as_str(),
                "target" | "node_modules" | "dist" | "__pycache__"
            );
            if !hidden && !made {
                walk(&entry.path(), &path, found);
            }
        } else if kind.is_file() {
            // What is not text (compressed weather) has nothing for us to read.
            if let Ok(text) = fs::read_to_string(entry.path()) {
                found.push(File {
                    path,
                    lines: text.lines().map(str::to_owned).collect(),
                });
            }
        }
    }
}

#[test]
fn comments_are_cut_and_strings_kept() {
    assert_eq!(without_comment("let a = 1; // b"), "let a = 1; ");
    assert_eq!(
        without_comment(r#"let a = "x // y"; // b"#),
        r#"let a = "x // y"; "#
    );
    assert_eq!(without_comment(r#"c == '"' // b"#), r#"c == '"' "#);
    assert_eq!(without_comment(r#""\"// in" // out"#), r#""\"// in" "#);
}
