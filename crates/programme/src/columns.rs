//! Columns that go out: their names, their units, and the bytes of a part.

use std::sync::Arc;

use bytes::Bytes;
use jobfile::Carrier;
use parquet::basic::{Compression, LogicalType, Repetition, Type as Physical, ZstdLevel};
use parquet::data_type::{ByteArray, ByteArrayType, DoubleType, Int64Type};
use parquet::errors::ParquetError;
use parquet::file::metadata::KeyValue;
use parquet::file::properties::WriterProperties;
use parquet::file::reader::{FileReader, SerializedFileReader};
use parquet::file::writer::{SerializedColumnWriter, SerializedFileWriter};
use parquet::record::Field;
use parquet::schema::types::Type;
use units::constants::KWH_J;

use crate::line::{Line, Numbers, State};

/// What a column holds and where it comes from.
#[derive(Debug, Clone, Copy)]
pub enum Kind {
    /// Text.
    Text(fn(&Line) -> Option<&str>),
    /// A whole number.
    Whole(fn(&Line) -> Option<u64>),
    /// A number.
    Number(fn(&Line) -> Option<f64>),
}

/// A column that goes out.
#[derive(Debug, Clone, Copy)]
pub struct Column {
    /// Its name, with the unit in it.
    pub name: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// What it says, in words.
    pub says: &'static str,
}

impl Column {
    /// The word for what it holds, as `docs/many.md` has it.
    pub fn word(&self) -> &'static str {
        match self.kind {
            Kind::Text(_) => "text",
            Kind::Whole(_) => "whole number",
            Kind::Number(_) => "number",
        }
    }
}

const fn text(name: &'static str, says: &'static str, of: fn(&Line) -> Option<&str>) -> Column {
    let kind = Kind::Text(of);
    Column { name, kind, says }
}

const fn whole(name: &'static str, says: &'static str, of: fn(&Line) -> Option<u64>) -> Column {
    let kind = Kind::Whole(of);
    Column { name, kind, says }
}

const fn number(name: &'static str, says: &'static str, of: fn(&Line) -> Option<f64>) -> Column {
    let kind = Kind::Number(of);
    Column { name, kind, says }
}

fn year(line: &Line) -> Option<&Numbers> {
    line.year.as_ref()
}

fn kwh(of: Option<&Numbers>, carrier: Carrier) -> Option<f64> {
    let at = Carrier::ALL.iter().position(|c| *c == carrier)?;
    of?.bought_j.get(at).map(|j| j / KWH_J)
}

/// Every column, in the order of the file. Only `row`, `id` and `state` are always there.
pub const COLUMNS: &[Column] = &[
    whole("row", "row of the file that came in, 0 first", |l| {
        Some(l.row)
    }),
    text("id", "id, as it came in", |l| Some(&l.id)),
    text("state", "done, waits, refused or defect", |l| {
        Some(l.state.word())
    }),
    text("says", "what is missing or wrong; empty where done", |l| {
        l.says.as_deref()
    }),
    text("name", "name of the job", |l| l.name.as_deref()),
    text("station", "station of the weather", |l| {
        l.station.as_deref()
    }),
    number(
        "design_outdoor_c",
        "outdoor temperature of the heating load, C",
        |l| l.design_outdoor_c,
    ),
    number("heating_load_w", "heating load of the house, W", |l| {
        l.heating_load_w
    }),
    number(
        "cooling_load_w",
        "sensible cooling load of the house, W",
        |l| l.cooling_load_w,
    ),
    number("heat_kwh", "heat of all sources in the year, kWh", |l| {
        Some(year(l)?.heat_j / KWH_J)
    }),
    number("cooling_kwh", "sensible cooling in the year, kWh", |l| {
        Some(year(l)?.cooling_j / KWH_J)
    }),
    number(
        "heads_share",
        "share of the heat that heads give, 0 to 1",
        |l| year(l)?.heads_share,
    ),
    number(
        "seasonal_cop",
        "COP of all units in the year, waiting included",
        |l| year(l)?.seasonal_cop,
    ),
    whole(
        "short_2k_hours",
        "room hours more than 2 K under the setting",
        |l| Some(u64::from(year(l)?.short_2k_h)),
    ),
    number(
        "short_k_h",
        "kelvin under the setting times hours, all rooms",
        |l| Some(year(l)?.short_k_h),
    ),
    number(
        "coldest_c",
        "least air temperature of a heated room, C",
        |l| year(l)?.coldest_c,
    ),
    whole("cycling_hours", "unit hours going on and off", |l| {
        Some(u64::from(year(l)?.cycling_h))
    }),
    whole("full_hours", "unit hours at full output", |l| {
        Some(u64::from(year(l)?.full_h))
    }),
    whole(
        "cannot_tell_hours",
        "unit hours beyond the data sheets",
        |l| Some(u64::from(year(l)?.cannot_tell_h)),
    ),
    number(
        "electric_peak_w",
        "largest electric hour of heating and cooling, W",
        |l| Some(year(l)?.electric_peak_w),
    ),
    number("electricity_kwh", "electricity bought, kWh", |l| {
        kwh(year(l), Carrier::Electricity)
    }),
    number("oil_kwh", "oil bought, kWh (higher heating value)", |l| {
        kwh(year(l), Carrier::Oil)
    }),
    number(
        "propane_kwh",
        "propane bought, kWh (higher heating value)",
        |l| kwh(year(l), Carrier::Propane),
    ),
    number("gas_kwh", "gas bought, kWh (higher heating value)", |l| {
        kwh(year(l), Carrier::Gas)
    }),
    number("wood_kwh", "wood bought, kWh (higher heating value)", |l| {
        kwh(year(l), Carrier::Wood)
    }),
    text("currency", "money that costs are in", |l| {
        l.currency.as_deref()
    }),
    number(
        "cost",
        "cost of the year; empty where a price is missing",
        |l| year(l)?.cost,
    ),
    number(
        "carbon_kg",
        "carbon of the year, kg; empty where an intensity is missing",
        |l| year(l)?.carbon_kg,
    ),
    number(
        "now_bought_kwh",
        "bought with what heats now alone, all carriers, kWh",
        |l| Some(l.now.as_ref()?.bought_j.iter().sum::<f64>() / KWH_J),
    ),
    number(
        "now_cost",
        "cost of the year with what heats now alone",
        |l| l.now.as_ref()?.cost,
    ),
    number(
        "now_carbon_kg",
        "carbon of the year with what heats now alone, kg",
        |l| l.now.as_ref()?.carbon_kg,
    ),
];

/// Columns that are never empty.
const ALWAYS: [&str; 3] = ["row", "id", "state"];

fn schema() -> Result<Type, ParquetError> {
    let fields = COLUMNS
        .iter()
        .map(|c| {
            let (physical, logical) = match c.kind {
                Kind::Text(_) => (Physical::BYTE_ARRAY, Some(LogicalType::String)),
                Kind::Whole(_) => (Physical::INT64, None),
                Kind::Number(_) => (Physical::DOUBLE, None),
            };
            let repetition = if ALWAYS.contains(&c.name) {
                Repetition::REQUIRED
            } else {
                Repetition::OPTIONAL
            };
            Type::primitive_type_builder(c.name, physical)
                .with_logical_type(logical)
                .with_repetition(repetition)
                .build()
                .map(Arc::new)
        })
        .collect::<Result<Vec<_>, _>>()?;
    Type::group_type_builder("houses")
        .with_fields(fields)
        .build()
}

/// The bytes of a part: one row group, the same bytes for the same lines. What each column says
/// stands in the file's own metadata.
///
/// # Errors
/// What the format cannot hold; none is known.
pub fn part(lines: &[Line], version: &str) -> Result<Vec<u8>, ParquetError> {
    let mut told = vec![KeyValue::new("northwall".to_owned(), version.to_owned())];
    told.extend(
        COLUMNS
            .iter()
            .map(|c| KeyValue::new(format!("northwall.{}", c.name), c.says.to_owned())),
    );
    let properties = WriterProperties::builder()
        .set_compression(Compression::ZSTD(ZstdLevel::try_new(3)?))
        .set_key_value_metadata(Some(told))
        .build();
    let mut out = Vec::new();
    let mut writer =
        SerializedFileWriter::new(&mut out, Arc::new(schema()?), Arc::new(properties))?;
    let mut group = writer.next_row_group()?;
    for column in COLUMNS {
        if let Some(mut to) = group.next_column()? {
            write(column, lines, &mut to)?;
            to.close()?;
        }
    }
    group.close()?;
    writer.close()?;
    Ok(out)
}

fn write(
    column: &Column,
    lines: &[Line],
    to: &mut SerializedColumnWriter<'_>,
) -> Result<(), ParquetError> {
    let always = ALWAYS.contains(&column.name);
    let levels = |there: &dyn Fn(&Line) -> bool| -> Option<Vec<i16>> {
        (!always).then(|| lines.iter().map(|l| i16::from(there(l))).collect())
    };
    match column.kind {
        Kind::Text(of) => {
            let values: Vec<ByteArray> = lines.iter().filter_map(of).map(ByteArray::from).collect();
            let levels = levels(&|l| of(l).is_some());
            to.typed::<ByteArrayType>()
                .write_batch(&values, levels.as_deref(), None)?;
        }
        Kind::Whole(of) => {
            let values: Vec<i64> = lines
                .iter()
                .filter_map(of)
                .map(|n| i64::try_from(n).unwrap_or(i64::MAX))
                .collect();
            let levels = levels(&|l| of(l).is_some());
            to.typed::<Int64Type>()
                .write_batch(&values, levels.as_deref(), None)?;
        }
        Kind::Number(of) => {
            let values: Vec<f64> = lines.iter().filter_map(of).collect();
            let levels = levels(&|l| of(l).is_some());
            to.typed::<DoubleType>()
                .write_batch(&values, levels.as_deref(), None)?;
        }
    }
    Ok(())
}

/// Houses by how far they came, in the order of [`State::ALL`].
pub type Counts = [u64; 4];

/// Houses of a part that is there, if it is whole and holds the rows from `first` on.
pub fn counts(bytes: Vec<u8>, first: u64, rows: u64) -> Option<Counts> {
    let file = SerializedFileReader::new(Bytes::from(bytes)).ok()?;
    let mut counts = Counts::default();
    let mut at = first;
    for record in file.get_row_iter(None).ok()? {
        let record = record.ok()?;
        let mut cells = record.get_column_iter();
        let Some((_, Field::Long(row))) = cells.next() else {
            return None;
        };
        let Some((_, Field::Str(state))) = cells.nth(1) else {
            return None;
        };
        if u64::try_from(*row).ok()? != at {
            return None;
        }
        at += 1;
        let of = State::ALL.iter().position(|s| s.word() == state)?;
        *counts.get_mut(of)? += 1;
    }
    (at == first + rows).then_some(counts)
}
