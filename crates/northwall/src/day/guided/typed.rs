//! What is typed at the keyboard: a reading, or a correction of one.

use serde_json::{Value, json};
use units::Dim;

/// `550.2 psi, 70.1 F` or `480 micron` to values.
pub(super) fn parsed(text: &str, what: &str, example: &str) -> Result<Value, String> {
    let mut parts = text.split(',');
    let pressure = parts.next().unwrap_or("").trim();
    let pa = units::parse(pressure, Dim::Pressure)
        .map_err(|e| format!("{e}. Write `{example}`, or `help`."))?;
    let more = parts.next();
    if what == "vacuum" {
        return match more {
            None => Ok(json!({ "pa": pa })),
            Some(_) => Err(format!("one pressure, like `{example}`")),
        };
    }
    let Some(temperature) = more else {
        return Err(format!(
            "the temperature of the lines is missing: `{example}`"
        ));
    };
    let line_c = units::parse(temperature, Dim::Temperature).map_err(|e| e.to_string())?;
    Ok(json!({ "pa": pa, "line_c": line_c }))
}

/// A line as it was meant.
pub(super) struct Meant<'a> {
    /// The reading.
    pub reading: &'a str,
    /// Number of the record it corrects, and why.
    pub corrects: Option<(u64, &'a str)>,
    /// It is so, though it looks odd.
    pub sure: bool,
}

pub(super) fn meant<'a>(line: &'a str, example: &str) -> Result<Meant<'a>, String> {
    let (line, sure) = match line.strip_suffix('!') {
        Some(rest) => (rest.trim(), true),
        None => (line, false),
    };
    let Some(rest) = line.strip_prefix("fix ") else {
        return Ok(Meant {
            reading: line,
            corrects: None,
            sure,
        });
    };
    let mut parts = rest.splitn(3, ':').map(str::trim);
    let number = parts.next().and_then(|n| n.parse::<u64>().ok());
    match (number, parts.next(), parts.next()) {
        (Some(n), Some(reading), Some(why)) if !why.is_empty() => Ok(Meant {
            reading,
            corrects: Some((n, why)),
            sure,
        }),
        _ => Err(format!(
            "a correction is written `fix 3: {example}: misread`"
        )),
    }
}
