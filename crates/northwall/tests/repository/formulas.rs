//! A formula's doc comment is a small reference page with set headings, and its source is a key
//! of the bibliography.

use std::collections::BTreeSet;

use crate::Complaint;
use crate::text::File;

/// Headings of a formula, in the order in which they are written. Each begins a paragraph.
const HEADINGS: [&str; 5] = ["Equation", "Symbols", "Range", "Source", "Example"];

/// A run of `///` or `//!` lines.
struct Page<'a> {
    first_line: usize,
    lines: Vec<&'a str>,
    /// What is documented: the first line after it that is not an attribute.
    item: &'a str,
}

impl Page<'_> {
    /// Whether the line begins a paragraph of that heading: `**Range** …`, `# Range`, or several
    /// at once that are those of another page: `**Symbols, Range** as [other]`.
    fn begins(line: &str, heading: &str) -> bool {
        if let Some(title) = line.strip_prefix('#') {
            return title.trim_start_matches('#').trim() == heading;
        }
        let bold = line.strip_prefix("**").and_then(|l| l.split_once("**"));
        bold.is_some_and(|(title, _)| title.split(", ").any(|t| t == heading))
    }

    fn line_of(&self, heading: &str) -> Option<usize> {
        self.lines.iter().position(|l| Self::begins(l, heading))
    }
}

fn pages(file: &File) -> Vec<Page<'_>> {
    let mut pages: Vec<Page<'_>> = Vec::new();
    let mut open = false;
    for (i, line) in file.lines.iter().enumerate() {
        let line = line.trim();
        if let Some(text) = line
            .strip_prefix("///")
            .or_else(|| line.strip_prefix("//!"))
        {
            if !open {
                pages.push(Page {
                    first_line: i + 1,
                    lines: Vec::new(),
                    item: "",
                });
            }
            if let Some(page) = pages.last_mut() {
                page.lines.push(text.trim());
            }
            open = true;
        } else {
            open = false;
            if let Some(page) = pages.last_mut()
                && page.item.is_empty()
                && !line.starts_with("#[")
            {
                page.item = line;
            }
        }
    }
    pages
}

pub fn missing_headings(files: &[File]) -> Vec<Complaint> {
    let mut found = Vec::new();
    for file in files.iter().filter(|f| f.engine_source_of().is_some()) {
        let keys = named_in_docs(file);
        for page in pages(file) {
            let Some(at) = page.line_of("Equation") else {
                continue;
            };
            for heading in HEADINGS {
                // what others cannot call may leave the example to the tests
                let wanted = heading != "Example" || page.item.starts_with("pub fn");
                if wanted && page.line_of(heading).is_none() {
                    found.push(Complaint::at(
                        file,
                        page.first_line + at,
                        format!("this formula has no **{heading}**"),
                        "write a paragraph that begins with it; CONTRIBUTING.md, a formula",
                    ));
                }
            }
            let (first, last) = (page.first_line, page.first_line + page.lines.len());
            let named = keys.iter().any(|(line, _)| (first..last).contains(line));
            if !named
                && let Some(source) = page.line_of("Source")
                && !page.lines[source].contains("** as [")
            {
                found.push(Complaint::at(
                    file,
                    first + source,
                    "this **Source** names no key",
                    "begin it with a key of docs/sources.toml in backticks, then the exact place",
                ));
            }
        }
    }
    found
}

/// Keys of `docs/sources.toml`.
fn bibliography(files: &[File]) -> BTreeSet<&str> {
    files
        .iter()
        .filter(|f| f.path == "docs/sources.toml")
        .flat_map(|f| &f.lines)
        .filter_map(|l| l.trim().strip_prefix('[')?.strip_suffix(']'))
        .collect()
}

pub fn unknown_keys(files: &[File]) -> Vec<Complaint> {
    let known = bibliography(files);
    let mut found = Vec::new();
    for file in files
        .iter()
        .filter(|f| f.is_rust() && !f.path.contains("/tests/repository/"))
    {
        for (line, key) in named_in_code(file).into_iter().chain(named_in_docs(file)) {
            if !known.contains(key) {
                found.push(Complaint::at(
                    file,
                    line,
                    format!("source `{key}` is not in docs/sources.toml"),
                    "append it there with title, edition and kind, or name the key that is meant",
                ));
            }
        }
    }
    for file in files.iter().filter(|f| f.path == "docs/sources.toml") {
        let mut seen = BTreeSet::new();
        for (i, line) in file.lines.iter().enumerate() {
            if line.trim().starts_with('[') && !seen.insert(line.trim()) {
                found.push(Complaint::at(
                    file,
                    i + 1,
                    format!("{} stands twice", line.trim()),
                    "keep one of the two",
                ));
            }
        }
    }
    found
}

/// `Source::new("key"`, on one line or broken after the bracket.
fn named_in_code(file: &File) -> Vec<(usize, &str)> {
    let mut keys = Vec::new();
    let mut waiting = false;
    for (number, line) in file.code() {
        let mut rest = if waiting {
            Some(line.trim_start())
        } else {
            None
        };
        waiting = false;
        let mut after = line;
        loop {
            if let Some(key) = rest
                .and_then(|r| r.strip_prefix('"'))
                .and_then(|r| r.split_once('"'))
            {
                keys.push((number, key.0));
            }
            let Some((_, tail)) = after.split_once("Source::new(") else {
                break;
            };
            after = tail;
            waiting = tail.trim().is_empty();
            rest = Some(tail);
        }
    }
    keys
}

/// Words in backticks that look like keys, in the paragraph after `**Source**` (without backticks
/// its first word), and the one after `Source:` in running text.
fn named_in_docs(file: &File) -> Vec<(usize, &str)> {
    let mut keys = Vec::new();
    for page in pages(file) {
        let mut inside = false;
        for (i, line) in page.lines.iter().enumerate() {
            let (line, number) = (*line, page.first_line + i);
            inside = Page::begins(line, "Source")
                || inside && !line.is_empty() && !line.starts_with(['#', '*', '`'])
                || inside && line.starts_with('`') && !line.starts_with("```");
            if inside {
                if !line.contains('`') && Page::begins(line, "Source") {
                    let word = line
                        .trim_start_matches("**Source**")
                        .split_whitespace()
                        .next();
                    let key = word.unwrap_or("").trim_end_matches([',', ':', ';', '.']);
                    keys.extend(looks_like_key(key).then_some((number, key)));
                }
                let quoted = line.split('`').skip(1).step_by(2);
                keys.extend(quoted.filter(|k| looks_like_key(k)).map(|k| (number, k)));
            } else if let Some((_, tail)) = line.split_once("Source: `") {
                // one key only: the sentence may go on to other things
                keys.extend(tail.split_once('`').map(|(k, _)| (number, k)));
            }
        }
    }
    keys
}

fn looks_like_key(word: &str) -> bool {
    // shorter ones are symbols
    word.len() > 2
        && word.starts_with(|c: char| c.is_ascii_lowercase())
        && word
            .chars()
            .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
}

#[test]
fn reads_a_formula_page() {
    let text = "/// Heat.\n///\n/// **Equation** q = U A (a - b)\n///\n/// **Source** `iso-6946`, 6.5;\n\
                /// `that`, `1 - x`\n/// ```\n/// `no`\n///\n/// **Range** `U` above 0\npub fn q() { Source::new(\n    \
                \"far\", \"\"); Source::new(\"near\", \"\") }\n/// X. Source: `nist` B, `not a key`.";
    let file = File {
        path: "crates/house/src/q.rs".into(),
        lines: text.lines().map(str::to_owned).collect(),
    };
    let docs: Vec<_> = named_in_docs(&file).into_iter().map(|(_, k)| k).collect();
    assert_eq!(docs, ["iso-6946", "that", "nist"]);
    assert_eq!(named_in_code(&file), [(12, "far"), (12, "near")]);
    let missing: Vec<_> = missing_headings(&[file])
        .into_iter()
        .map(|c| (c.line, c.says))
        .collect();
    let says = |h: &str| (3, format!("this formula has no **{h}**"));
    assert_eq!(missing, [says("Symbols"), says("Example")]);
}
