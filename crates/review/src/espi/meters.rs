//! Entries to meters, readings to days and months.

use jobfile::Carrier;

use super::codes::{Flow, carrier, flow, is_delta, is_estimate, one_j, ten_to};
use super::demand::{Demand, demand};
use super::feed::{Entry, Holds, Reading, entries};
use super::spans::{DAY_S, LONG_S, Span, doubles, long_ones, whole_days};
use crate::runs::months;
use crate::{Bills, Note, Refused};

/// A meter of a feed.
#[derive(Debug, Clone, PartialEq)]
pub struct EspiMeter {
    /// Title of its usage point, or of the reading.
    pub title: String,
    /// Line of its reading in the file.
    pub line: usize,
    /// Its use.
    pub bills: Bills,
    /// Sum of all values as they stand, in the unit of the feed times its power of ten.
    pub sum: f64,
    /// Number of readings.
    pub readings: usize,
    /// Energy sent back, J; 0 where nothing was.
    pub back_j: f64,
    /// Highest demand, where the readings are intervals of electricity.
    pub demand: Option<Demand>,
}

/// Reads a Green Button feed. `zone_s` is the house's standard time, seconds east of Greenwich;
/// it counts where the feed does not say its own.
///
/// # Errors
/// What the feed refuses (size, document types, broken XML); no energy in it; units that are no
/// energy; registers that only grow; a net meter below nothing; an hour that stands twice with
/// unlike values outside the end of daylight saving; and what [`Bills::from_periods`] refuses.
pub fn read_espi(bytes: &[u8], zone_s: Option<i64>) -> Result<Vec<EspiMeter>, Refused> {
    let all = entries(bytes)?;
    let of = |holds: Holds| all.iter().filter(move |e| e.holds == holds);
    let zone = of(Holds::LocalTime).find_map(|e| e.number("tzOffset"));
    if let Some(z) = zone
        && !(-14 * 3600..=14 * 3600).contains(&z)
    {
        return Err(Refused::new(
            "tzOffset is no time zone",
            format!("{z} s"),
            "-50400 to 50400 seconds",
            "the feed is damaged: ask the utility for it again",
        ));
    }
    let readings: Vec<&Entry> = of(Holds::MeterReading).collect();
    let types: Vec<&Entry> = of(Holds::ReadingType).collect();
    let points: Vec<&Entry> = of(Holds::UsagePoint).collect();
    let blocks: Vec<&Entry> = of(Holds::Block).collect();
    if readings.is_empty() || blocks.is_empty() {
        return Err(Refused::new(
            "the feed holds no meter reading",
            format!("{} readings, {} blocks", readings.len(), blocks.len()),
            "a MeterReading with IntervalBlocks",
            "ask for usage data, not for customer data",
        ));
    }
    let mut parts: Vec<Part> = Vec::new();
    for meter in &readings {
        let own = own_type(meter, &types, readings.len())?;
        let point = points
            .iter()
            .position(|p| p.is_parent_of(meter))
            .or((points.len() == 1).then_some(0));
        let kind = point
            .and_then(|p| points.get(p))
            .and_then(|p| p.number("kind"));
        let Some(carrier) = carrier(kind, own.number("commodity")) else {
            continue;
        };
        if !is_delta(own.number("accumulationBehaviour")) {
            return Err(Refused::new(
                "this meter reading is a register that only grows",
                format!(
                    "accumulationBehaviour {}",
                    own.number("accumulationBehaviour").unwrap_or(0)
                ),
                "4, amounts between two times",
                "ask the utility for interval or billing data",
            )
            .at(own.line));
        }
        let (unit_j, is_power) = one_j(own.number("uom").unwrap_or(0), carrier, own.line)?;
        let ten = ten_to(own.number("powerOfTenMultiplier").unwrap_or(0), own.line)?;
        let mut taken: Vec<Reading> = blocks
            .iter()
            .filter(|b| meter.is_parent_of(b) || readings.len() == 1)
            .flat_map(|b| b.readings.iter().copied())
            .collect();
        taken.sort_by_key(|r| (r.start, r.line));
        parts.push(Part {
            point,
            title: point
                .and_then(|p| points.get(p))
                .map(|p| p.title.clone())
                .filter(|t| !t.is_empty())
                .unwrap_or_else(|| meter.title.clone()),
            line: meter.line,
            carrier,
            flow: flow(own.number("flowDirection")),
            one_j: unit_j * ten,
            ten,
            is_power,
            interval_s: own.number("intervalLength"),
            quality: own.number("defaultQuality"),
            readings: taken,
        });
    }
    if parts.iter().all(|p| p.readings.is_empty()) {
        return Err(Refused::new(
            "no block of readings belongs to an energy meter",
            format!("{} blocks", blocks.len()),
            "blocks whose links name a MeterReading of electricity, gas or propane",
            "ask the utility for the whole feed, with its links",
        ));
    }
    let mut meters = Vec::new();
    for part in parts.iter().filter(|p| !p.readings.is_empty()) {
        if matches!(part.flow, Flow::Back | Flow::Other) {
            continue;
        }
        let back_j: f64 = parts
            .iter()
            .filter(|p| p.flow == Flow::Back && p.point == part.point)
            .flat_map(|p| {
                p.readings
                    .iter()
                    .filter_map(|r| Some(r.value? as f64 * p.one_j))
            })
            .sum();
        meters.push(part.meter(zone, zone_s, back_j)?);
    }
    if meters.is_empty() {
        return Err(Refused::new(
            "the feed holds only energy sent to the grid",
            "flowDirection 19",
            "a reading of what came to the house, flowDirection 1",
            "ask the utility for the delivered energy too",
        ));
    }
    Ok(meters)
}

fn own_type<'a>(meter: &Entry, types: &[&'a Entry], meters: usize) -> Result<&'a Entry, Refused> {
    types
        .iter()
        .find(|t| meter.is_parent_of(t))
        .or(if types.len() == 1 && meters == 1 {
            types.first()
        } else {
            None
        })
        .copied()
        .ok_or_else(|| {
            Refused::new(
                "nothing says in what this meter reading counts",
                format!("{} reading types", types.len()),
                "a ReadingType that its links name",
                "ask the utility for the whole feed, with its links",
            )
            .at(meter.line)
        })
}

/// Readings of one kind of one meter.
struct Part {
    point: Option<usize>,
    title: String,
    line: usize,
    carrier: Carrier,
    flow: Flow,
    one_j: f64,
    ten: f64,
    is_power: bool,
    interval_s: Option<i64>,
    quality: Option<i64>,
    readings: Vec<Reading>,
}

impl Part {
    fn meter(
        &self,
        zone: Option<i64>,
        house: Option<i64>,
        back_j: f64,
    ) -> Result<EspiMeter, Refused> {
        let mut notes = Vec::new();
        let mut spans = Vec::with_capacity(self.readings.len());
        let mut sum = 0.0;
        for r in &self.readings {
            let span = self.span(r)?;
            sum += r.value.unwrap_or(0) as f64 * self.ten;
            spans.push(span);
        }
        let zone_s = self.zone(zone, house, &spans, &mut notes);
        doubles(&mut spans, zone_s, &mut notes)?;
        let demand = (self.carrier == Carrier::Electricity)
            .then(|| demand(&spans, zone_s))
            .flatten();
        if self.flow == Flow::Net {
            notes.push(Note::new(
                Some(self.line),
                "a net meter: what the house used of its own sun is on no reading",
            ));
        }
        if back_j > 0.0 {
            notes.push(Note::new(
                Some(self.line),
                format!(
                    "{:.0} kWh were sent back: what the house used of its own sun is on no reading",
                    back_j / units::constants::KWH_J
                ),
            ));
        }
        let estimates = spans.iter().filter(|s| s.estimate).count();
        let long = spans.iter().filter(|s| s.long_s >= LONG_S).count() * 2 > spans.len();
        let (count, line) = (self.readings.len(), self.line);
        let mut bills = if long {
            let (periods, from_days) = long_ones(&spans, zone_s, &mut notes);
            let mut bills = Bills::from_exact(self.carrier, periods, notes)?;
            bills.from_days = from_days;
            bills
        } else {
            if estimates > 0 {
                notes.push(Note::new(
                    Some(line),
                    format!("{estimates} of {count} readings are estimates"),
                ));
            }
            let days = whole_days(&spans, zone_s, &mut notes);
            let periods = months(&days, &mut notes);
            let mut bills = Bills::from_exact(self.carrier, periods, notes)?;
            bills.from_days = true;
            bills
        };
        bills.behind_sun = back_j > 0.0 || self.flow == Flow::Net;
        Ok(EspiMeter {
            title: self.title.clone(),
            line,
            bills,
            sum,
            readings: count,
            back_j,
            demand,
        })
    }

    fn span(&self, r: &Reading) -> Result<Span, Refused> {
        let lacks = |what: &str| {
            Refused::new(
                format!("a reading has no {what}"),
                "nothing",
                "start, duration and value",
                "the feed is damaged: ask the utility for it again",
            )
            .at(r.line)
        };
        let start_s = r.start.ok_or_else(|| lacks("start"))?;
        let long_s = r
            .duration
            .or(self.interval_s)
            .ok_or_else(|| lacks("duration"))?;
        let value = r.value.ok_or_else(|| lacks("value"))?;
        // 1900 to 2200
        if !(-2_208_988_800..=7_258_118_400).contains(&start_s) {
            return Err(Refused::new(
                "a reading begins in no year of ours",
                format!("start {start_s}"),
                "seconds since 1970, from 1900 to 2200",
                "the feed may count milliseconds, or be damaged: ask the utility for it again",
            )
            .at(r.line));
        }
        if !(60..=400 * DAY_S).contains(&long_s) {
            return Err(Refused::new(
                "a reading lasts no usable time",
                format!("{long_s} s"),
                "60 s to 400 days",
                "the feed is damaged: ask the utility for it again",
            )
            .at(r.line));
        }
        let mut energy_j = value as f64 * self.one_j;
        if self.is_power {
            energy_j *= long_s as f64;
        }
        if energy_j < 0.0 {
            return Err(Refused::new(
                "use below nothing",
                format!("{:.3} kWh", energy_j / units::constants::KWH_J),
                "0 or more",
                "a net meter hides the use: ask for delivered and received energy apart",
            )
            .at(r.line));
        }
        Ok(Span {
            start_s,
            long_s,
            energy_j,
            estimate: is_estimate(r.quality.or(self.quality).unwrap_or(0)),
            line: r.line,
        })
    }

    fn zone(
        &self,
        own: Option<i64>,
        house: Option<i64>,
        spans: &[Span],
        notes: &mut Vec<Note>,
    ) -> i64 {
        if let Some(z) = own {
            return z;
        }
        // days and bills begin at midnight, which tells the zone
        let long = spans.iter().find(|s| s.long_s >= LONG_S);
        if let Some(s) = long {
            let since = s.start_s.rem_euclid(DAY_S);
            let z = if since > DAY_S / 2 {
                DAY_S - since
            } else {
                -since
            };
            notes.push(Note::new(
                Some(self.line),
                format!(
                    "the feed names no time zone; its days begin {} h from Greenwich",
                    z / 3600
                ),
            ));
            return z;
        }
        let z = house.unwrap_or(0);
        let whose = if house.is_some() {
            "the weather station's"
        } else {
            "Greenwich"
        };
        notes.push(Note::new(
            Some(self.line),
            format!("the feed names no time zone; {whose} time was used"),
        ));
        z
    }
}
