//! Reads a sheet file. All complaints come back together, each with its line.

use toml::de::DeTable;

use super::body::{defrost, printed, size, sound};
use super::charge::charge;
use super::head::head;
use super::lines::lines;
use super::multi::multi;
use super::plate::plate;
use super::point::{limits, points};
use super::start_up::start_up;
use super::table::{Reading, SheetError, Table};
use super::usable::SHARE;
use super::{Kind, Sheet};

/// Reads one sheet. `file` is only for messages.
///
/// # Errors
/// Every complaint about the file: text that is not TOML, unknown keys, values without or with
/// wrong units, values outside what such a unit can have, missing values nothing works without.
pub fn read_sheet(file: &str, text: &str) -> Result<Sheet, Vec<SheetError>> {
    let mut r = Reading::new(file, text);
    if text.trim().is_empty() {
        r.complain(
            1,
            "file",
            "an empty file",
            "a data sheet in TOML",
            "Start from a sheet of the catalogue",
        );
        return Err(r.errors);
    }
    if text.len() > 1_000_000 {
        let got = format!("{} bytes", text.len());
        r.complain(
            1,
            "file",
            got,
            "at most 1,000,000 bytes",
            "This is not a data sheet",
        );
        return Err(r.errors);
    }
    let parsed = match DeTable::parse(text) {
        Ok(parsed) => parsed,
        Err(why) => {
            let span = why.span().unwrap_or(0..0);
            let line = r.line_at(span.start);
            // a damaged file may be one endless line
            let at = text.lines().nth(line - 1).unwrap_or("").trim();
            let mend = why.message().to_owned();
            r.complain(
                line,
                "file",
                format!("`{}`", units::cut(at, 60)),
                "TOML",
                mend,
            );
            return Err(r.errors);
        }
    };
    let mut top = Table::new(parsed.get_ref(), String::new(), 1);
    let sheet = whole_sheet(&mut r, &mut top, file);
    r.finish(&top);
    match sheet {
        Some(mut sheet) if r.errors.is_empty() => {
            sheet.lines_of = r.lines_of;
            sheet.typed = r.typed;
            Ok(sheet)
        }
        _ => Err(r.errors),
    }
}

fn whole_sheet<'t>(r: &mut Reading<'t>, t: &mut Table<'t>, file: &str) -> Option<Sheet> {
    let version = r.whole(t, "northwall_sheet", 1, 1);
    if version.is_none() && !t.has("northwall_sheet") {
        r.missing(t, "northwall_sheet", "1, the version of this format");
    }
    let name = r.text(t, "name");
    if name.is_none() && !t.has("name") {
        r.missing(t, "name", "the name of the unit in quotes");
    }
    let sheet_id = r.text(t, "sheet");
    if sheet_id.is_none() && !t.has("sheet") {
        r.missing(t, "sheet", "number and revision of the sheet in quotes");
    }
    let invented = r.flag(t, "invented").unwrap_or(false);
    let kind = kind(r, t);
    let year = r.whole(t, "year", 1980, 2100);
    let refrigerant = r.text(t, "refrigerant");
    let tested_with = r.texts(t, "tested_with");
    let cycling_cd = r.ratio(t, "cycling_cd", SHARE);
    let heating = points(r, t, "heating");
    let cooling = points(r, t, "cooling");
    let limits = limits(r, t);
    let charge = charge(r, t);
    let lines = lines(r, t);
    let plate = plate(r, t);
    let start_up = start_up(r, t);
    let sound = sound(r, t);
    let size = size(r, t);
    let defrost = defrost(r, t);
    let head = head(r, t, kind);
    let multi = multi(r, t, kind);
    let printed = printed(r, t);
    if matches!(kind, Some(Kind::OutdoorSingle | Kind::OutdoorMulti))
        && heating.is_empty()
        && cooling.is_empty()
        && r.errors.is_empty()
    {
        r.missing(
            t,
            "heating",
            "test points, one [[heating]] for each outdoor temperature",
        );
    }
    Some(Sheet {
        file: file.to_owned(),
        name: name?,
        sheet_id: sheet_id?,
        invented,
        kind: kind?,
        year,
        refrigerant,
        tested_with,
        heating,
        cooling,
        cycling_cd,
        limits,
        charge,
        lines,
        plate,
        start_up,
        sound,
        size,
        defrost,
        head,
        multi,
        printed,
        lines_of: std::collections::BTreeMap::new(),
        typed: std::collections::BTreeMap::new(),
    })
}

fn kind<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Option<Kind> {
    let allowed = Kind::ALL.map(Kind::words).join(", ");
    if !t.has("kind") {
        r.missing(t, "kind", &allowed);
        return None;
    }
    let text = r.text(t, "kind")?;
    let kind = Kind::ALL.into_iter().find(|k| k.words() == text);
    if kind.is_none() {
        let line = r.lines_of.get("kind").copied().unwrap_or(1);
        r.complain(
            line,
            "kind",
            format!("\"{text}\""),
            allowed,
            "Write one of these",
        );
    }
    kind
}
