//! Reads a sheet file. All complaints come back together, each with its line.

use toml::de::DeTable;
use units::Dim;

use super::table::{Reading, SheetError, Table, Usable};
use super::{
    Charge, ChargeExample, ChargeRate, Combination, DefrostMethod, HeadData, Kind, Limits,
    LineLimits, MultiZone, Plate, Printed, Running, Sheet, Size, Sound, TestPoint,
};

const OUTDOOR: Usable = Usable {
    lo: -60.0,
    hi: 60.0,
    words: "a temperature from -76 F to 140 F",
};
const INDOOR: Usable = Usable {
    lo: 5.0,
    hi: 40.0,
    words: "a temperature from 41 F to 104 F",
};
const HEAT: Usable = Usable {
    lo: 50.0,
    hi: 60_000.0,
    words: "heat from 170 to 200,000 Btu/h",
};
const POWER: Usable = Usable {
    lo: 0.0,
    hi: 30_000.0,
    words: "electric power from 0 W to 30 kW, as \"850 W\"",
};
const COP: Usable = Usable {
    lo: 0.05,
    hi: 40.0,
    words: "a plain number, as 3.2",
};
const SHARE: Usable = Usable {
    lo: 0.0,
    hi: 1.0,
    words: "a plain number from 0 to 1",
};
const RATING: Usable = Usable {
    lo: 0.5,
    hi: 60.0,
    words: "a plain number from 0.5 to 60",
};
const MASS: Usable = Usable {
    lo: 0.05,
    hi: 30.0,
    words: "a mass from 0.05 to 30 kg",
};
const TRIM: Usable = Usable {
    lo: -10.0,
    hi: 10.0,
    words: "a mass from -10 to 10 kg",
};
const TUBE: Usable = Usable {
    lo: 0.003,
    hi: 0.06,
    words: "a tube from 1/8 in to 2 in",
};
const RUN: Usable = Usable {
    lo: 0.0,
    hi: 200.0,
    words: "a length from 0 to 650 ft",
};
const SIZE: Usable = Usable {
    lo: 0.0,
    hi: 5.0,
    words: "a length from 0 to 16 ft",
};
const AMPS: Usable = Usable {
    lo: 0.1,
    hi: 200.0,
    words: "a current from 0.1 to 200 A",
};
const VOLTS: Usable = Usable {
    lo: 90.0,
    hi: 700.0,
    words: "a voltage from 90 to 700 V",
};
const SOUND: Usable = Usable {
    lo: 5.0,
    hi: 100.0,
    words: "a sound power from 5 to 100 dB(A)",
};
const WEIGHT: Usable = Usable {
    lo: 1.0,
    hi: 400.0,
    words: "a weight from 2 to 880 lb",
};
const AIR: Usable = Usable {
    lo: 0.01,
    hi: 1.5,
    words: "an air flow from 21 to 3,200 cfm",
};

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
            let got = text.lines().nth(line - 1).unwrap_or("").trim().to_owned();
            let mend = why.message().to_owned();
            r.complain(line, "file", format!("`{got}`"), "TOML", mend);
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

fn points<'t>(r: &mut Reading<'t>, t: &mut Table<'t>, key: &str) -> Vec<TestPoint> {
    let mut out: Vec<TestPoint> = Vec::new();
    for mut row in r.rows(t, key) {
        let outdoor_c = r.quantity(&mut row, "outdoor", Dim::Temperature, OUTDOOR);
        if outdoor_c.is_none() && !row.has("outdoor") {
            r.missing(&row, "outdoor", OUTDOOR.words);
        }
        let indoor_c = r.quantity(&mut row, "indoor", Dim::Temperature, INDOOR);
        if indoor_c.is_none() && !row.has("indoor") {
            r.missing(&row, "indoor", INDOOR.words);
        }
        let wet_bulb_c = r.quantity(&mut row, "wet_bulb", Dim::Temperature, OUTDOOR);
        let defrost_included = r.flag(&mut row, "defrost_included");
        let min = running(r, &mut row, "min");
        let rated = running(r, &mut row, "rated");
        let max = running(r, &mut row, "max");
        let sensible_share = r.ratio(&mut row, "sensible_share", SHARE);
        let page = r.text(&mut row, "page");
        if !row.has("min") && !row.has("rated") && !row.has("max") {
            r.missing(&row, "max", "at least one of min, rated and max");
        }
        r.finish(&row);
        if let (Some(outdoor_c), Some(indoor_c)) = (outdoor_c, indoor_c) {
            if out.iter().any(|p| p.outdoor_c == outdoor_c) {
                let place = format!("{}.outdoor", row.place);
                let got = format!("{outdoor_c:.1} C twice");
                r.complain(
                    row.line,
                    &place,
                    got,
                    "each outdoor temperature once",
                    "Keep one row",
                );
            }
            let line = row.line;
            out.push(TestPoint {
                outdoor_c,
                wet_bulb_c,
                indoor_c,
                defrost_included,
                min,
                rated,
                max,
                sensible_share,
                page,
                line,
            });
        }
    }
    out.sort_by(|a, b| a.outdoor_c.total_cmp(&b.outdoor_c));
    out
}

fn running<'t>(r: &mut Reading<'t>, row: &mut Table<'t>, key: &str) -> Option<Running> {
    let power_key = format!("{key}_power");
    let cop_key = format!("{key}_cop");
    let capacity_w = r.quantity(row, key, Dim::Power, HEAT);
    let power = r.quantity(row, &power_key, Dim::ElectricPower, POWER);
    let cop = r.ratio(row, &cop_key, COP);
    if !row.has(key) {
        if row.has(&power_key) || row.has(&cop_key) {
            r.missing(row, key, HEAT.words);
        }
        return None;
    }
    if !row.has(&power_key) && !row.has(&cop_key) {
        let allowed = format!("{power_key} or {cop_key}");
        r.missing(row, &power_key, &allowed);
        return None;
    }
    if row.has(&power_key) && row.has(&cop_key) {
        let place = format!("{}.{cop_key}", row.place);
        r.complain(
            row.line,
            &place,
            "both power and COP",
            "one of the two",
            "Keep the power",
        );
        return None;
    }
    let capacity_w = capacity_w?;
    let electric_w = match (power, cop) {
        (Some(w), _) if w > 0.0 => w,
        (Some(_), _) => {
            let place = format!("{}.{power_key}", row.place);
            r.complain(
                row.line,
                &place,
                "0 W",
                "more than 0 W",
                "A running unit takes power",
            );
            return None;
        }
        (None, Some(cop)) => capacity_w / cop,
        (None, None) => return None,
    };
    Some(Running {
        capacity_w,
        electric_w,
    })
}

fn limits<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Limits {
    let Some(mut s) = r.sub(t, "limits") else {
        return Limits::default();
    };
    let mut temp = |key: &str| r.quantity(&mut s, key, Dim::Temperature, OUTDOOR);
    let heating_cut_out_c = temp("heating_cut_out");
    let heating_highest_c = temp("heating_highest");
    let cooling_lowest_c = temp("cooling_lowest");
    let cooling_highest_c = temp("cooling_highest");
    let page = r.text(&mut s, "page");
    r.finish(&s);
    Limits {
        heating_cut_out_c,
        heating_highest_c,
        cooling_lowest_c,
        cooling_highest_c,
        page,
    }
}

fn charge<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Option<Charge> {
    let mut s = r.sub(t, "charge")?;
    let factory = r.quantity(&mut s, "factory", Dim::Mass, MASS);
    if factory.is_none() && !s.has("factory") {
        r.missing(&s, "factory", MASS.words);
    }
    let free_length_m = r.quantity(&mut s, "free_length", Dim::Length, RUN);
    let most_kg = r.quantity(&mut s, "most", Dim::Mass, MASS);
    let remove_below_free = r.flag(&mut s, "remove_below_free");
    let mut rates = Vec::new();
    for mut row in r.rows(&mut s, "rate") {
        let liquid = r.quantity(&mut row, "liquid_line", Dim::SmallLength, TUBE);
        let trim = r.quantity(&mut row, "trim", Dim::Mass, TRIM);
        let per = r.quantity(&mut row, "per", Dim::Length, RUN);
        for key in ["liquid_line", "trim", "per"] {
            if !row.has(key) {
                r.missing(&row, key, "trim = \"0.65 oz\" with per = \"5 ft\"");
            }
        }
        r.finish(&row);
        if let (Some(liquid_line_m), Some(trim), Some(per)) = (liquid, trim, per)
            && per > 0.0
        {
            rates.push(ChargeRate {
                liquid_line_m,
                kg_per_m: trim / per,
            });
        }
    }
    let example = r.sub(&mut s, "example").and_then(|mut e| {
        let length = r.quantity(&mut e, "length", Dim::Length, RUN);
        let liquid_line_m = r.quantity(&mut e, "liquid_line", Dim::SmallLength, TUBE);
        let printed = r.quantity(&mut e, "printed", Dim::Mass, TRIM);
        let printed_again_kg = r.quantity(&mut e, "printed_again", Dim::Mass, TRIM);
        let page = r.text(&mut e, "page");
        for key in ["length", "printed"] {
            if !e.has(key) {
                r.missing(
                    &e,
                    key,
                    "the length and the trim of the sheet's own example",
                );
            }
        }
        r.finish(&e);
        Some(ChargeExample {
            length_m: length?,
            liquid_line_m,
            printed_kg: printed?,
            printed_again_kg,
            page,
            line: e.line,
        })
    });
    let page = r.text(&mut s, "page");
    r.finish(&s);
    Some(Charge {
        factory_kg: factory?,
        free_length_m,
        most_kg,
        rates,
        remove_below_free,
        example,
        page,
    })
}

fn lines<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> LineLimits {
    let Some(mut s) = r.sub(t, "lines") else {
        return LineLimits::default();
    };
    let liquid_m = r.quantity(&mut s, "liquid", Dim::SmallLength, TUBE);
    let gas_m = r.quantity(&mut s, "gas", Dim::SmallLength, TUBE);
    let mut run = |key: &str| r.quantity(&mut s, key, Dim::Length, RUN);
    let longest_m = run("longest");
    let shortest_m = run("shortest");
    let total_m = run("total");
    let height_outdoor_above_m = run("height_outdoor_above");
    let height_outdoor_below_m = run("height_outdoor_below");
    let height_between_heads_m = run("height_between_heads");
    let page = r.text(&mut s, "page");
    r.finish(&s);
    LineLimits {
        liquid_m,
        gas_m,
        longest_m,
        shortest_m,
        total_m,
        height_outdoor_above_m,
        height_outdoor_below_m,
        height_between_heads_m,
        page,
    }
}

fn plate<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Plate {
    let Some(mut s) = r.sub(t, "plate") else {
        return Plate::default();
    };
    let plate = Plate {
        mca_a: r.quantity(&mut s, "mca", Dim::Current, AMPS),
        mocp_a: r.quantity(&mut s, "mocp", Dim::Current, AMPS),
        volts_v: r.quantity(&mut s, "volts", Dim::Voltage, VOLTS),
        phases: r.whole(&mut s, "phases", 1, 3),
        standby_w: r.quantity(&mut s, "standby", Dim::ElectricPower, POWER),
        crankcase_w: r.quantity(&mut s, "crankcase_heater", Dim::ElectricPower, POWER),
        crankcase_below_c: r.quantity(&mut s, "crankcase_below", Dim::Temperature, OUTDOOR),
        base_pan_w: r.quantity(&mut s, "base_pan_heater", Dim::ElectricPower, POWER),
        base_pan_below_c: r.quantity(&mut s, "base_pan_below", Dim::Temperature, OUTDOOR),
        base_pan_included: r.flag(&mut s, "base_pan_included").unwrap_or(false),
        page: r.text(&mut s, "page"),
    };
    r.finish(&s);
    plate
}

fn sound<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Sound {
    let Some(mut s) = r.sub(t, "sound") else {
        return Sound::default();
    };
    let sound = Sound {
        power_heating_db: r.quantity(&mut s, "power_heating", Dim::Sound, SOUND),
        power_cooling_db: r.quantity(&mut s, "power_cooling", Dim::Sound, SOUND),
        power_quiet_db: r.quantity(&mut s, "power_quiet", Dim::Sound, SOUND),
        page: r.text(&mut s, "page"),
    };
    r.finish(&s);
    sound
}

fn size<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Size {
    let Some(mut s) = r.sub(t, "size") else {
        return Size::default();
    };
    let weight_kg = r.quantity(&mut s, "weight", Dim::Mass, WEIGHT);
    let mut length = |key: &str| r.quantity(&mut s, key, Dim::SmallLength, SIZE);
    let size = Size {
        width_m: length("width"),
        depth_m: length("depth"),
        height_m: length("height"),
        weight_kg,
        clear_rear_m: length("clear_rear"),
        clear_side_m: length("clear_side"),
        clear_service_m: length("clear_service"),
        clear_front_m: length("clear_front"),
        clear_above_m: length("clear_above"),
        page: r.text(&mut s, "page"),
    };
    r.finish(&s);
    size
}

fn defrost<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Option<DefrostMethod> {
    let text = r.text(t, "defrost")?;
    match text.as_str() {
        "reverse cycle" => Some(DefrostMethod::ReverseCycle),
        "hot gas" => Some(DefrostMethod::HotGas),
        _ => {
            let line = r.lines_of.get("defrost").copied().unwrap_or(1);
            let got = format!("\"{text}\"");
            r.complain(
                line,
                "defrost",
                got,
                "reverse cycle, hot gas",
                "Write one of these",
            );
            None
        }
    }
}

fn head<'t>(r: &mut Reading<'t>, t: &mut Table<'t>, kind: Option<Kind>) -> Option<HeadData> {
    let wanted = matches!(kind, Some(Kind::Head(_)));
    if !t.has("head") {
        if wanted {
            r.missing(t, "head", "a table [head] with its nominal size and limits");
        }
        return r.sub(t, "head").map(|_| HeadData::default());
    }
    let mut s = r.sub(t, "head")?;
    if kind.is_some() && !wanted {
        r.complain(
            s.line,
            "head",
            "[head]",
            "only in the sheet of a head",
            "Take it out",
        );
    }
    let nominal = r.quantity(&mut s, "nominal", Dim::Power, HEAT);
    if nominal.is_none() && !s.has("nominal") {
        r.missing(&s, "nominal", HEAT.words);
    }
    let data = HeadData {
        nominal_w: nominal.unwrap_or(0.0),
        heating_max_w: r.quantity(&mut s, "heating_max", Dim::Power, HEAT),
        heating_min_w: r.quantity(&mut s, "heating_min", Dim::Power, HEAT),
        cooling_max_w: r.quantity(&mut s, "cooling_max", Dim::Power, HEAT),
        cooling_min_w: r.quantity(&mut s, "cooling_min", Dim::Power, HEAT),
        air_m3_per_s: r.quantities(&mut s, "air", Dim::VolumeFlow, AIR),
        throw_m: r.quantity(&mut s, "throw", Dim::Length, RUN),
        release_height_m: r.quantity(&mut s, "release_height", Dim::Length, SIZE),
        page: r.text(&mut s, "page"),
    };
    r.finish(&s);
    nominal.map(|_| data)
}

fn multi<'t>(r: &mut Reading<'t>, t: &mut Table<'t>, kind: Option<Kind>) -> Option<MultiZone> {
    let wanted = kind == Some(Kind::OutdoorMulti);
    if !t.has("multi") {
        if wanted {
            r.missing(t, "multi", "a table [multi] with most_heads");
        }
        return r.sub(t, "multi").map(|_| MultiZone::default());
    }
    let mut s = r.sub(t, "multi")?;
    if kind.is_some() && !wanted {
        let allowed = "only in the sheet of a multi-zone outdoor unit";
        r.complain(s.line, "multi", "[multi]", allowed, "Take it out");
    }
    let most = r.whole(&mut s, "most_heads", 1, 12);
    if most.is_none() && !s.has("most_heads") {
        r.missing(&s, "most_heads", "a whole number from 1 to 12");
    }
    let least_heads = r.whole(&mut s, "least_heads", 1, 12).unwrap_or(1);
    let heating_min_one_w = r.quantity(&mut s, "heating_min_one", Dim::Power, HEAT);
    let cooling_min_one_w = r.quantity(&mut s, "cooling_min_one", Dim::Power, HEAT);
    let mut combinations: Vec<Combination> = Vec::new();
    for mut row in r.rows(&mut s, "combination") {
        let total = r.quantity(&mut row, "total", Dim::Power, HEAT);
        let heating_max = r.quantity(&mut row, "heating_max", Dim::Power, HEAT);
        let heating_electric_w = r.quantity(&mut row, "heating_power", Dim::ElectricPower, POWER);
        let cooling_max_w = r.quantity(&mut row, "cooling_max", Dim::Power, HEAT);
        for key in ["total", "heating_max"] {
            if !row.has(key) {
                r.missing(&row, key, HEAT.words);
            }
        }
        r.finish(&row);
        if let (Some(total_w), Some(heating_max_w)) = (total, heating_max) {
            let line = row.line;
            combinations.push(Combination {
                total_w,
                heating_max_w,
                heating_electric_w,
                cooling_max_w,
                line,
            });
        }
    }
    combinations.sort_by(|a, b| a.total_w.total_cmp(&b.total_w));
    let page = r.text(&mut s, "page");
    r.finish(&s);
    Some(MultiZone {
        most_heads: most?,
        least_heads,
        heating_min_one_w,
        cooling_min_one_w,
        combinations,
        page,
    })
}

fn printed<'t>(r: &mut Reading<'t>, t: &mut Table<'t>) -> Printed {
    let Some(mut s) = r.sub(t, "printed") else {
        return Printed::default();
    };
    let printed = Printed {
        hspf2: r.ratio(&mut s, "hspf2", RATING),
        seer2: r.ratio(&mut s, "seer2", RATING),
        scop: r.ratio(&mut s, "scop", RATING),
        page: r.text(&mut s, "page"),
    };
    r.finish(&s);
    printed
}
