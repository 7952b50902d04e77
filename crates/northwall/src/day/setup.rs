//! What the tests rest on, from the start-up file.

use std::path::Path;

use startup::logger::{Layout, Log, TimeColumn, Wanted, read};
use startup::pressure::PressureTest;
use startup::vacuum::{Criterion, GaugePlace, VacuumTest};
use units::Dim;

use super::Day;
use super::sheet::{LoggerIn, Text, VacuumIn};
use crate::files;
use crate::refusal::{Fault, Refusal};

const MOST: u64 = 200_000_000;

/// What the pressure test rests on, and the pressure it goes up to, Pa above the air. The plate is
/// the lowest of what the sheets say and what was read on the units.
pub fn pressure_test(day: &Day, on: i64) -> Result<(PressureTest, f64), Refusal> {
    let from = (day.file.pressure.as_ref()).ok_or_else(|| {
        day.missing(
            "pressure",
            "a table [pressure] with worth, and plate and target where the job has none",
        )
    })?;
    let gauge = (day.file.gauge.as_ref())
        .ok_or_else(|| day.missing("gauge", "a table [gauge] with id, accuracy and step"))?;
    let thermo = (day.file.thermometer.as_ref()).ok_or_else(|| {
        day.missing(
            "thermometer",
            "a table [thermometer] with id, accuracy and step",
        )
    })?;
    let grams = day.value("pressure.worth", &from.worth, Dim::Mass)? * 1000.0;
    let known = |key: &str, text: &Option<Text>| match text {
        Some(t) => day.value(key, t, Dim::Pressure).map(Some),
        None => Ok(None),
    };
    let job = day.job.as_ref();
    let read = known("pressure.plate", &from.plate)?;
    let plate_pa = match (read, job.and_then(|j| j.asked.plate_pa)) {
        (Some(a), Some(b)) => a.min(b),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => {
            return Err(day.missing(
                "pressure.plate",
                "plate = \"600 psi\", the lowest of all plates; the sheet has no high_side",
            ));
        }
    };
    let target = known("pressure.target", &from.target)?
        .or_else(|| job.and_then(|j| j.asked.target_pa))
        .ok_or_else(|| {
            day.missing(
                "pressure.target",
                "target = \"550 psi\", or test_pressure in the job's [[line]]",
            )
        })?;
    let test = PressureTest {
        volume: day.volume()?,
        plate_pa,
        air_pa: day.air_pa()?,
        gauge: day.instrument("gauge", gauge, Dim::Pressure)?,
        thermometer: day.instrument("thermometer", thermo, Dim::TemperatureDifference)?,
        wander_k: day.value_or(
            "pressure.wander",
            from.wander.as_ref(),
            Dim::TemperatureDifference,
            1.0,
        )?,
        refrigerant: day.refrigerant()?,
        service_c: day.value_or(
            "pressure.service",
            from.service.as_ref(),
            Dim::Temperature,
            20.0,
        )?,
        worth_g_per_year: grams,
        settle_s: day.value_or("pressure.settle", from.settle.as_ref(), Dim::Hours, 600.0)?,
        day: on,
    };
    Ok((test, target))
}

/// When the sheet calls the evacuation done: from the unit's sheet, or as typed.
fn criterion(day: &Day, from: &VacuumIn) -> Result<Criterion, Refusal> {
    let sheet = day.job.as_ref().map(|j| &j.asked.unit);
    if let Some((sheet, asked)) = sheet.and_then(|s| Some((s, s.start_up.vacuum?))) {
        let page = (sheet.start_up.page.as_ref()).map_or(String::new(), |p| format!(", page {p}"));
        return Ok(Criterion {
            reach_pa: asked.reach_pa,
            limit_pa: asked.limit_pa,
            hold_s: asked.hold_s,
            source: format!("{}{page}", sheet.sheet_id),
        });
    }
    let typed = |key: &str, text: &Option<Text>, example: &str, dim: Dim| match text {
        Some(t) => day.value(key, t, dim),
        None => Err(day.missing(
            key,
            &format!("{example}, as the unit's sheet says; or a [start_up.vacuum] in its sheet"),
        )),
    };
    let source = (from.source.as_ref())
        .ok_or_else(|| day.missing("vacuum.source", "source = \"...\", the sheet: they differ"))?;
    Ok(Criterion {
        reach_pa: typed(
            "vacuum.reach",
            &from.reach,
            "reach = \"500 micron\"",
            Dim::Pressure,
        )?,
        limit_pa: typed(
            "vacuum.limit",
            &from.limit,
            "limit = \"700 micron\"",
            Dim::Pressure,
        )?,
        hold_s: typed("vacuum.hold", &from.hold, "hold = \"15 min\"", Dim::Hours)?,
        source: source.get_ref().clone(),
    })
}

/// What the vacuum test rests on.
pub fn vacuum_test(day: &Day, on: i64) -> Result<VacuumTest, Refusal> {
    let from = (day.file.vacuum.as_ref()).ok_or_else(|| {
        day.missing(
            "vacuum",
            "a table [vacuum] with reach, limit, hold and source",
        )
    })?;
    let gauge = (day.file.vacuum_gauge.as_ref()).ok_or_else(|| {
        day.missing(
            "vacuum_gauge",
            "a table [vacuum_gauge] with id, accuracy and step",
        )
    })?;
    let place = match from.gauge_at.as_ref().map(|t| (t, t.get_ref().as_str())) {
        None => GaugePlace::NotSaid,
        Some((_, "system")) => GaugePlace::System,
        Some((_, "pump")) => GaugePlace::Pump,
        Some((t, _)) => {
            let fault = day.fault("vacuum.gauge_at", t, "the place of the gauge is not known");
            return Err(fault.allowed("system, pump").into());
        }
    };
    let coldest_c = match &from.coldest {
        Some(t) => Some(day.value("vacuum.coldest", t, Dim::Temperature)?),
        None => None,
    };
    let saw = match &from.pressure_test_saw {
        Some(t) => Some(1000.0 * day.value("vacuum.pressure_test_saw", t, Dim::Mass)?),
        None => None,
    };
    let test = VacuumTest {
        criterion: criterion(day, from)?,
        gauge: day.instrument("vacuum_gauge", gauge, Dim::Pressure)?,
        gauge_share: day.value_or("vacuum_gauge.share", gauge.share.as_ref(), Dim::Share, 0.05)?,
        place,
        coldest_c,
        coldest_k: day.value_or(
            "vacuum.coldest_within",
            from.coldest_within.as_ref(),
            Dim::TemperatureDifference,
            1.0,
        )?,
        volume: day.volume()?,
        air_pa: day.air_pa()?,
        refrigerant: day.refrigerant()?,
        service_c: 20.0,
        pressure_test_g_per_year: saw,
        day: on,
    };
    Ok(test)
}

/// The logger file by the mapping of the start-up file. The vacuum gauge's logger may have columns
/// of its own.
pub fn log(day: &Day, path: &Path, temperature: bool) -> Result<Log, Refusal> {
    let own = (day.file.vacuum_logger.as_ref()).filter(|_| !temperature);
    let from: &LoggerIn = own
        .or(day.file.logger.as_ref())
        .ok_or_else(|| day.missing("logger", "a table [logger] that names the columns"))?;
    let offset = day
        .file
        .offset
        .as_ref()
        .map(|_| day.offset_min())
        .transpose()?;
    let time = match (
        &from.time,
        &from.date,
        &from.clock,
        &from.seconds,
        &from.minutes,
    ) {
        (Some(t), ..) => TimeColumn::Stamp(t.clone(), offset),
        (_, Some(d), Some(c), ..) => TimeColumn::Split(d.clone(), c.clone(), day.offset_min()?),
        (_, _, _, Some(s), _) => TimeColumn::Seconds(s.clone()),
        (.., Some(m)) => TimeColumn::Minutes(m.clone()),
        _ => {
            return Err(day.missing(
                "logger.time",
                "time, or date and clock, or seconds, or minutes",
            ));
        }
    };
    let mut wanted = vec![Wanted {
        column: from.pressure.clone(),
        dim: Dim::Pressure,
        unit: from.pressure_unit.clone(),
    }];
    if temperature {
        let column = (from.temperature.clone()).ok_or_else(|| {
            day.missing("logger.temperature", "the column of the line temperature")
        })?;
        wanted.push(Wanted {
            column,
            dim: Dim::Temperature,
            unit: from.temperature_unit.clone(),
        });
    }
    let separator = match from.separator.as_deref() {
        None => ',',
        Some("tab") => '\t',
        Some(s) => s.chars().next().unwrap_or(','),
    };
    let layout = Layout {
        time,
        wanted,
        separator,
        decimal_comma: from.decimal_comma,
    };
    let shown = path.display().to_string();
    let bytes = files::bytes(path, MOST, "logger file")?;
    let text = String::from_utf8_lossy(&bytes);
    let read = read(&text, &layout).map(|mut log| {
        // a logger that skipped a beat: nothing is put in its place
        let empty = |r: &startup::logger::Row| r.values.first().copied().flatten().is_none();
        for row in log.rows.iter().filter(|r| empty(r)) {
            log.notes
                .push(format!("line {} has no pressure: left out", row.line));
        }
        log.rows.retain(|r| !empty(r));
        log
    });
    read.map_err(|e| {
        let mut fault = Fault::file(&shown, e.says.clone())
            .got(e.got.clone())
            .mend(e.mend.clone());
        fault.line = Some(e.line);
        fault.place.clone_from(&e.column);
        text.lines()
            .nth(e.line.saturating_sub(1))
            .unwrap_or("")
            .clone_into(&mut fault.text);
        fault.into()
    })
}
