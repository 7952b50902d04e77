//! Words that must not stand in the text, and how long a file may be.

use crate::Complaint;
use crate::layers::is_engine;
use crate::text::File;

/// Word, and what to do instead. Pieces are joined so that this list does not find itself.
const FORBIDDEN: &[(&str, &str)] = &[
    (
        concat!("todo", "!("),
        "finish it, or leave it out and say so in the changelog",
    ),
    (
        concat!("unimplemented", "!("),
        "finish it, or return an error",
    ),
    (concat!("dbg", "!("), "take it out"),
    (
        concat!("FIX", "ME"),
        "mend it, or write what is so and why it may stay",
    ),
    (concat!("TO", "DO"), "do it, or write an issue"),
    (
        concat!("X", "XX"),
        "mend it, or write what is so and why it may stay",
    ),
];

/// Only the command may print, read files, ask the clock or the environment; nothing but tests may
/// panic on data.
const NOT_IN_ENGINE: &[(&str, &str)] = &[
    ("println!(", "return the text; the command prints"),
    (
        "eprintln!(",
        "return an error or a finding; the command prints",
    ),
    ("print!(", "return the text; the command prints"),
    ("std::fs", "take &str or &[u8]; the command reads files"),
    ("std::env", "take the value as an argument"),
    ("std::net", "the engine does not reach out"),
    ("SystemTime", "take the time as an argument"),
    ("Instant::now", "time it in a benchmark"),
    ("static mut", "hand the state in"),
    (
        ".unwrap()",
        "return an error with what came and what is usable",
    ),
    (
        ".expect(",
        "return an error with what came and what is usable",
    ),
    (
        "panic!(",
        "return an error with what came and what is usable",
    ),
    ("unreachable!(", "let the types say it, or return an error"),
];

/// `f64` methods whose bits differ between platforms, and maps whose order differs between runs.
const UNLIKE_BITS: &[(&str, &str)] = &[
    (
        "HashMap",
        "use BTreeMap or Vec: the order must be the same every time",
    ),
    (
        "HashSet",
        "use BTreeSet or Vec: the order must be the same every time",
    ),
    (".powf(", "libm::pow"),
    (".exp()", "libm::exp"),
    (".exp2()", "libm::exp2"),
    (".exp_m1()", "libm::expm1"),
    (".ln()", "libm::log"),
    (".ln_1p()", "libm::log1p"),
    (".log10()", "libm::log10"),
    (".log2()", "libm::log2"),
    (".log(", "libm::log with a quotient"),
    (".sin()", "libm::sin"),
    (".cos()", "libm::cos"),
    (".sin_cos()", "libm::sincos"),
    (".tan()", "libm::tan"),
    (".asin()", "libm::asin"),
    (".acos()", "libm::acos"),
    (".atan()", "libm::atan"),
    (".atan2(", "libm::atan2"),
    (".sinh()", "libm::sinh"),
    (".cosh()", "libm::cosh"),
    (".tanh()", "libm::tanh"),
    (".cbrt()", "libm::cbrt"),
    (".hypot(", "libm::hypot"),
    // `sqrt`, `abs`, `floor` and the like are exact by IEEE 754 and may stay. `mul_add` is exact
    // too but slow where the machine lacks it, and tempting to mix with the two-step form.
    (".mul_add(", "a * b + c, in two roundings everywhere"),
    ("fma(", "a * b + c, in two roundings everywhere"),
];

/// Files that may use such words, and why.
const MAY: &[(&str, &str, &str)] = &[
    // Rounded once on purpose, as its wide twin is; see decision 6.
    (
        "crates/house/src/balance/eight.rs",
        ".mul_add(",
        "the plain way of Eight::plus",
    ),
];

const LONGEST: usize = 400;

fn search(files: &[File], words: &[(&str, &str)], engine_only: bool) -> Vec<Complaint> {
    let mut found = Vec::new();
    for file in files {
        let is_engine_source = file.engine_source_of().is_some_and(is_engine);
        if !file.is_rust() || engine_only && !is_engine_source {
            continue;
        }
        for (number, line) in file.code() {
            for (word, instead) in words {
                let may = MAY
                    .iter()
                    .any(|(path, w, _)| *path == file.path && w == word);
                if !may && has_word(line, word) {
                    let says = format!("`{word}` may not stand here");
                    found.push(Complaint::at(file, number, says, instead));
                }
            }
        }
    }
    found
}

/// Whether the word stands in the line and is not the tail of a longer one.
fn has_word(line: &str, word: &str) -> bool {
    line.match_indices(word).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        let starts_itself = !word.starts_with(|c: char| c.is_alphanumeric());
        starts_itself || before.is_none_or(|c| !c.is_alphanumeric() && c != '_')
    })
}

pub fn forbidden(files: &[File]) -> Vec<Complaint> {
    let mut found = search(files, FORBIDDEN, false);
    found.extend(search(files, NOT_IN_ENGINE, true));
    // in comments too, and in every text that people write
    for file in files.iter().filter(|f| f.is_rust() || f.has_ending("md")) {
        for (i, line) in file.lines.iter().enumerate() {
            for word in [
                concat!("FIX", "ME"),
                concat!("TO", "DO:"),
                concat!("TO", "DO("),
            ] {
                if line.contains(word)
                    && !found.iter().any(|c| c.file == file.path && c.line == i + 1)
                {
                    let says = format!("`{word}` may not stand here");
                    found.push(Complaint::at(file, i + 1, says, "do it, or write an issue"));
                }
            }
        }
    }
    found
}

pub fn unlike_bits(files: &[File]) -> Vec<Complaint> {
    search(files, UNLIKE_BITS, true)
}

pub fn too_long(files: &[File]) -> Vec<Complaint> {
    files
        .iter()
        .filter(|f| f.is_rust() && f.lines.len() > LONGEST)
        .filter(|f| {
            !f.lines
                .iter()
                .take(12)
                .any(|l| l.starts_with("//! Long because:"))
        })
        .map(|f| {
            let says = format!("{} lines; {LONGEST} is the most", f.lines.len());
            let mend = "divide it by what it is about, or begin a line of its heading with \
                        `//! Long because:` and the reason";
            Complaint::at(f, LONGEST + 1, says, mend)
        })
        .collect()
}

/// Text that only makes sense on one machine, or names where packages were fetched from.
pub fn machine_marks(files: &[File]) -> Vec<Complaint> {
    let marks = [
        concat!("/wo", "rk/"),
        concat!("/tm", "p/nw"),
        concat!("/ro", "ot/"),
        concat!("/ho", "me/"),
        concat!("index.cra", "tes.io"),
        concat!("static.cra", "tes.io"),
        concat!("py", "pi.org"),
        concat!("files.python", "hosted.org"),
        concat!("registry.npm", "js.org"),
        concat!("deb.deb", "ian.org"),
    ];
    let mut found = Vec::new();
    for file in files {
        for (i, line) in file.lines.iter().enumerate() {
            for mark in marks.iter().filter(|m| stands_alone(line, m)) {
                let mend = "use a path from the top of the project; name a package, not its host \
                            (npm: omit-lockfile-registry-resolved=true in .npmrc)";
                found.push(Complaint::at(
                    file,
                    i + 1,
                    format!("`{mark}` is a mark of a machine"),
                    mend,
                ));
            }
        }
    }
    found
}

/// A path counts only where it begins: not where it ends a longer one.
fn stands_alone(line: &str, mark: &str) -> bool {
    line.match_indices(mark).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        !mark.starts_with('/')
            || before.is_none_or(|c| !c.is_alphanumeric() && !"._-*})".contains(c))
    })
}

#[test]
fn finds_words_where_they_begin() {
    assert!(has_word("    let a = x.exp();", ".exp()"));
    assert!(has_word("println!(\"a\")", "println!("));
    assert!(!has_word("eprintln!(\"a\")", "println!("));
    assert!(stands_alone("cd /ro".to_owned().as_str(), "/ro"));
    assert!(!stands_alone("frame/wo", "/wo"));
}

#[test]
fn finds_what_is_planted() {
    let file = |path: &str, text: &str| File {
        path: path.into(),
        lines: text.lines().map(str::to_owned).collect(),
    };
    let engine = "use std::collections::HashMap;\nlet y = x.powf(2.0);\n#[cfg(test)]\nx.exp();";
    let found = unlike_bits(&[file("crates/physics/src/a.rs", engine)]);
    assert_eq!(found.iter().map(|c| c.line).collect::<Vec<_>>(), [1, 2]);
    assert!(unlike_bits(&[file("crates/northwall/src/a.rs", engine)]).is_empty());

    let long = "x\n".repeat(LONGEST + 1);
    assert_eq!(too_long(&[file("crates/plan/src/a.rs", &long)]).len(), 1);
    let told = format!("//! Table.\n//! Long because: one publication.\n{long}");
    assert!(too_long(&[file("crates/plan/src/a.rs", &told)]).is_empty());

    let prints = format!("// a\n{}ln!(\"a\");", "print");
    assert_eq!(forbidden(&[file("crates/plan/src/a.rs", &prints)]).len(), 1);
    assert_eq!(
        machine_marks(&[file("a.md", concat!("see `/wo", "rk/x`"))]).len(),
        1
    );
}
