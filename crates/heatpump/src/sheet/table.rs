//! Walks the TOML of a sheet, keeping line numbers, and collects every complaint at once.

use std::collections::BTreeMap;
use std::ops::Range;

use serde::Serialize;
use toml::Spanned;
use toml::de::{DeTable, DeValue};
use units::Dim;

/// One complaint about a sheet file: place, value, what is allowed, how to mend it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, thiserror::Error)]
#[error("{file}:{line}: {place}: got {got}; allowed: {allowed}. {mend}")]
pub struct SheetError {
    /// File.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// Dotted path, as `heating[2].max`.
    pub place: String,
    /// What stands there.
    pub got: String,
    /// What may stand there.
    pub allowed: String,
    /// What to do.
    pub mend: String,
}

/// A usable range in SI with the words that say it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Usable {
    pub lo: f64,
    pub hi: f64,
    pub words: &'static str,
}

/// One table of the file being read, and the keys already taken from it.
pub(super) struct Table<'t> {
    map: &'t DeTable<'t>,
    pub place: String,
    pub line: usize,
    used: Vec<String>,
}

impl<'t> Table<'t> {
    pub(super) fn new(map: &'t DeTable<'t>, place: String, line: usize) -> Self {
        Self {
            map,
            place,
            line,
            used: Vec::new(),
        }
    }

    fn path(&self, key: &str) -> String {
        if self.place.is_empty() {
            key.to_owned()
        } else {
            format!("{}.{key}", self.place)
        }
    }

    fn take(&mut self, key: &str) -> Option<&'t Spanned<DeValue<'t>>> {
        self.used.push(key.to_owned());
        self.map.get(key)
    }

    pub(super) fn has(&self, key: &str) -> bool {
        self.map.get(key).is_some()
    }
}

/// The reading of one file: where lines begin, what was complained about, what stood where.
pub(super) struct Reading<'t> {
    file: String,
    text: &'t str,
    /// Byte places of the line ends, so that a line is found without counting from the top.
    line_ends: Vec<usize>,
    pub errors: Vec<SheetError>,
    pub lines_of: BTreeMap<String, usize>,
    pub typed: BTreeMap<String, String>,
}

impl<'t> Reading<'t> {
    pub(super) fn new(file: &str, text: &'t str) -> Self {
        Self {
            file: file.to_owned(),
            text,
            line_ends: text.match_indices('\n').map(|(at, _)| at).collect(),
            errors: Vec::new(),
            lines_of: BTreeMap::new(),
            typed: BTreeMap::new(),
        }
    }

    pub(super) fn line_at(&self, offset: usize) -> usize {
        1 + self.line_ends.partition_point(|end| *end < offset)
    }

    fn raw(&self, span: Range<usize>) -> String {
        let raw = self.text.get(span).unwrap_or("");
        units::cut(raw, 60)
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ")
    }

    pub(super) fn complain(
        &mut self,
        line: usize,
        place: &str,
        got: impl Into<String>,
        allowed: impl Into<String>,
        mend: impl Into<String>,
    ) {
        self.errors.push(SheetError {
            file: self.file.clone(),
            line,
            place: place.to_owned(),
            got: units::cut(&got.into(), 90),
            allowed: allowed.into(),
            mend: units::cut(&mend.into(), 400),
        });
    }

    pub(super) fn missing(&mut self, table: &Table<'_>, key: &str, allowed: &str) {
        let place = table.path(key);
        let mend = format!("Write {key} from the sheet");
        self.complain(table.line, &place, "nothing", allowed, mend);
    }

    fn find(
        &mut self,
        table: &mut Table<'t>,
        key: &str,
    ) -> Option<(&'t DeValue<'t>, String, usize, String)> {
        let value = table.take(key)?;
        let place = table.path(key);
        let line = self.line_at(value.span().start);
        self.lines_of.insert(place.clone(), line);
        Some((value.get_ref(), place, line, self.raw(value.span())))
    }

    pub(super) fn text(&mut self, table: &mut Table<'t>, key: &str) -> Option<String> {
        let (value, place, line, raw) = self.find(table, key)?;
        match value.as_str().map(str::trim) {
            Some(text) if !text.is_empty() => Some(text.to_owned()),
            _ => {
                self.complain(line, &place, raw, "words in quotes", "Write it in quotes");
                None
            }
        }
    }

    pub(super) fn texts(&mut self, table: &mut Table<'t>, key: &str) -> Vec<String> {
        let Some((value, place, line, raw)) = self.find(table, key) else {
            return Vec::new();
        };
        let Some(list) = value.as_array() else {
            self.complain(
                line,
                &place,
                raw,
                "a list of words in quotes",
                "Put it in [ ]",
            );
            return Vec::new();
        };
        let mut out = Vec::new();
        for item in list {
            if let Some(text) = item.get_ref().as_str() {
                out.push(text.to_owned());
            } else {
                let got = self.raw(item.span());
                self.complain(line, &place, got, "words in quotes", "Write it in quotes");
            }
        }
        out
    }

    pub(super) fn flag(&mut self, table: &mut Table<'t>, key: &str) -> Option<bool> {
        let (value, place, line, raw) = self.find(table, key)?;
        let flag = value.as_bool();
        if flag.is_none() {
            self.complain(
                line,
                &place,
                raw,
                "true or false",
                "Write true or false, no quotes",
            );
        }
        flag
    }

    pub(super) fn whole(
        &mut self,
        table: &mut Table<'t>,
        key: &str,
        lo: u32,
        hi: u32,
    ) -> Option<u32> {
        let (value, place, line, raw) = self.find(table, key)?;
        let number = value
            .as_integer()
            .and_then(|i| i.as_str().parse::<u32>().ok());
        match number {
            Some(n) if (lo..=hi).contains(&n) => Some(n),
            _ => {
                let allowed = format!("a whole number from {lo} to {hi}");
                self.complain(line, &place, raw, allowed, "Write the number, no quotes");
                None
            }
        }
    }

    /// A plain ratio such as a COP, as number or in quotes.
    pub(super) fn ratio(
        &mut self,
        table: &mut Table<'t>,
        key: &str,
        usable: Usable,
    ) -> Option<f64> {
        let (value, place, line, raw) = self.find(table, key)?;
        let number = match value {
            DeValue::Integer(i) => i.as_str().parse::<f64>().ok(),
            DeValue::Float(x) => x.as_str().parse::<f64>().ok(),
            DeValue::String(s) => s.trim().parse::<f64>().ok(),
            _ => None,
        };
        match number {
            Some(x) if x >= usable.lo && x <= usable.hi => Some(x),
            _ => {
                self.complain(line, &place, raw, usable.words, "Look at the sheet again");
                None
            }
        }
    }

    /// A value with a unit, in quotes.
    pub(super) fn quantity(
        &mut self,
        table: &mut Table<'t>,
        key: &str,
        dim: Dim,
        usable: Usable,
    ) -> Option<f64> {
        let (value, place, line, raw) = self.find(table, key)?;
        let Some(text) = value.as_str() else {
            let mend = format!("Write it in quotes with its unit, as {key} = \"{raw} ...\"");
            self.complain(line, &place, raw, usable.words, mend);
            return None;
        };
        self.typed.insert(place.clone(), text.to_owned());
        self.amount(text, &place, line, dim, usable)
    }

    pub(super) fn amount(
        &mut self,
        text: &str,
        place: &str,
        line: usize,
        dim: Dim,
        usable: Usable,
    ) -> Option<f64> {
        match units::parse(text, dim) {
            Ok(x) if x.is_finite() && x >= usable.lo && x <= usable.hi => Some(x),
            Ok(_) => {
                let got = format!("\"{text}\"");
                self.complain(line, place, got, usable.words, "Look at the sheet again");
                None
            }
            Err(why) => {
                let got = format!("\"{text}\"");
                self.complain(line, place, got, usable.words, format!("{why}"));
                None
            }
        }
    }

    pub(super) fn quantities(
        &mut self,
        table: &mut Table<'t>,
        key: &str,
        dim: Dim,
        usable: Usable,
    ) -> Vec<f64> {
        let path = table.path(key);
        let line = table.line;
        let list = self.texts(table, key);
        let line = self.lines_of.get(&path).copied().unwrap_or(line);
        list.iter()
            .filter_map(|text| self.amount(text, &path, line, dim, usable))
            .collect()
    }

    pub(super) fn sub(&mut self, table: &mut Table<'t>, key: &str) -> Option<Table<'t>> {
        let (value, place, line, raw) = self.find(table, key)?;
        if let Some(map) = value.as_table() {
            return Some(Table::new(map, place, line));
        }
        self.complain(
            line,
            &place,
            raw,
            "a table",
            format!("Write [{key}] on a line of its own"),
        );
        None
    }

    pub(super) fn rows(&mut self, table: &mut Table<'t>, key: &str) -> Vec<Table<'t>> {
        let Some((value, place, line, raw)) = self.find(table, key) else {
            return Vec::new();
        };
        let mut out = Vec::new();
        let Some(list) = value.as_array() else {
            let mend = format!("Write [[{key}]] once for each row");
            self.complain(line, &place, raw, "rows", mend);
            return out;
        };
        for (i, item) in list.iter().enumerate() {
            let here = format!("{place}[{}]", i + 1);
            let line = self.line_at(item.span().start);
            self.lines_of.insert(here.clone(), line);
            if let Some(map) = item.get_ref().as_table() {
                out.push(Table::new(map, here, line));
            } else {
                let got = self.raw(item.span());
                let mend = format!("Write [[{key}]] once for each row");
                self.complain(line, &here, got, "a row", mend);
            }
        }
        out
    }

    /// Complains about every key nobody asked for: a misspelt key is a lost value.
    pub(super) fn finish(&mut self, table: &Table<'t>) {
        for (key, value) in table.map {
            let name = key.get_ref().as_ref();
            if table.used.iter().any(|u| u == name) {
                continue;
            }
            let line = self.line_at(key.span().start);
            let near = table.used.iter().min_by_key(|u| units::distance(u, name));
            let mend = match near {
                Some(u) if units::distance(u, name) <= 3 => format!("Did you mean `{u}`?"),
                _ => "Take it out, or write it as a # comment".to_owned(),
            };
            let mut known = table.used.clone();
            known.sort();
            known.dedup();
            let got = format!("`{name}` = {}", self.raw(value.span()));
            self.complain(line, &table.path(name), got, known.join(", "), mend);
        }
    }
}
