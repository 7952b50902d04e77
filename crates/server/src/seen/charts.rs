//! Series of the charts: what the units can give against what the house asks, hours by bin,
//! choices side by side.

use plan::Plan;
use season::{BinWidth, Regime, Row, Year};
use serde::Serialize;
use utoipa::ToSchema;

use super::said::finite;

/// Hours of a span of outdoor temperature.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct HoursBin {
    /// Lower end, C; it belongs to the bin.
    pub low_c: f64,
    /// Upper end, C.
    pub high_c: f64,
    /// Beginning of the keys of its figures: `.hours`, `.asks`, `.by-heads`, `.hours-cycling`,
    /// `.hours-full`.
    pub key: String,
    /// Hours.
    pub hours: u32,
    /// Unit hours cycling in them.
    pub cycling_h: u32,
    /// Unit hours at full output.
    pub full_h: u32,
    /// Mean heat of the house, all sources, W.
    pub heat_w: f64,
    /// Mean heat by heads, W.
    pub heads_w: f64,
}

/// One outdoor unit.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct UnitLine {
    /// Name in the job.
    pub name: String,
    /// Unit.
    pub unit: String,
    /// What its rooms ask at 0 C, W.
    pub need_at_0c_w: Option<f64>,
    /// How much more for every kelvin colder, W/K.
    pub need_per_k_w: Option<f64>,
    /// Outdoor temperature at which its most equals what its rooms ask, C.
    pub balance_c: Option<f64>,
    /// Above this outdoor temperature it goes on and off, C.
    pub cycles_above_c: Option<f64>,
    /// Least and most at the design temperature, W; null where the sheet cannot tell.
    pub at_design_w: Option<[f64; 2]>,
    /// Coldest and mildest outdoor temperature its sheet has an answer for, C.
    pub span_c: Option<[f64; 2]>,
    /// Heat it gives in the year, kWh.
    pub heat_kwh: f64,
    /// Seasonal COP with waiting.
    pub seasonal_cop: Option<f64>,
    /// Hours by what it does: off, cycling, modulating, full, too cold to work, cannot tell,
    /// switched off, cooling.
    pub hours: std::collections::BTreeMap<String, u32>,
}

/// What the units can give against what the house asks.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct CapacityView {
    /// Outdoor temperature of the points of the curves, C. Beyond the coldest point no sheet
    /// tells.
    pub outdoor_c: Vec<f64>,
    /// Least of all units together while running, W.
    pub least_w: Vec<f64>,
    /// Most of all units together, W.
    pub most_w: Vec<f64>,
    /// What the house asks at 0 C, W.
    pub need_at_0c_w: Option<f64>,
    /// How much more for every kelvin colder, W/K.
    pub need_per_k_w: Option<f64>,
    /// Where all units together give what the house asks, C.
    pub balance_c: Option<f64>,
    /// Design temperature, C.
    pub design_c: Option<f64>,
    /// Heating load at the design temperature, W.
    pub design_load_w: Option<f64>,
    /// The units.
    pub units: Vec<UnitLine>,
    /// Hours by outdoor temperature in spans of 5 F, coldest first.
    pub hours: Vec<HoursBin>,
}

/// One choice of equipment beside the others.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct OptionRow {
    /// Choice; what heats now comes first.
    pub choice: String,
    /// Outdoor units.
    pub units: usize,
    /// Heads.
    pub heads: usize,
    /// Share of the heat that comes from heads.
    pub heads_share: Option<f64>,
    /// Seasonal COP of all units, waiting included.
    pub seasonal_cop: Option<f64>,
    /// Unit hours cycling.
    pub cycling_h: u32,
    /// Unit hours at full output.
    pub full_h: u32,
    /// Unit hours beyond the sheets.
    pub cannot_tell_h: u32,
    /// Electricity of the year, kWh.
    pub electricity_kwh: f64,
    /// Fuel of the year, kWh.
    pub fuel_kwh: f64,
    /// Money; null where a price is missing.
    pub cost: Option<f64>,
    /// Carbon, kg.
    pub carbon_kg: Option<f64>,
    /// Largest electric hour, W.
    pub electric_peak_w: f64,
    /// Coldest heated room.
    pub coldest_room: Option<String>,
    /// Its least temperature, C.
    pub coldest_c: Option<f64>,
    /// Room hours more than 2 K below setting.
    pub short_2k_h: u32,
}

/// Series of the charts. The hours of the year are asked for apart.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ChartsView {
    /// Capacity against need; null where no head is chosen or the sheets have no curve.
    pub capacity: Option<CapacityView>,
    /// Hours of the weather by outdoor temperature in spans of 5 F: lower end, C, and hours.
    pub weather_hours: Vec<(f64, u32)>,
}

pub fn charts(plan: &Plan) -> ChartsView {
    ChartsView {
        capacity: plan.year().map(|y| capacity(plan, y)),
        weather_hours: plan.site.hours_by_5_f.clone(),
    }
}

/// What heats now, what is chosen, and the options whose years are in the plan.
pub fn options(plan: &Plan) -> Vec<OptionRow> {
    let done = plan.season.done();
    done.map_or(Vec::new(), |s| s.rows().into_iter().map(row).collect())
}

fn capacity(plan: &Plan, year: &Year) -> CapacityView {
    let curve = plan::draw::capacity_curve(plan, year);
    CapacityView {
        outdoor_c: curve.iter().map(|p| p.0).collect(),
        least_w: curve.iter().map(|p| p.1).collect(),
        most_w: curve.iter().map(|p| p.2).collect(),
        need_at_0c_w: year.need.map(|n| n.at_0c_w),
        need_per_k_w: year.need.map(|n| n.per_k_w),
        balance_c: year.balance.at_c(),
        design_c: finite(plan.site.heating.used_c),
        design_load_w: plan.loads.done().and_then(|l| finite(l.heating.heat_w)),
        units: year.units.iter().map(unit).collect(),
        hours: year
            .bins(BinWidth::Fahrenheit5)
            .into_iter()
            .map(|b| HoursBin {
                low_c: b.low_c,
                high_c: b.high_c,
                key: season::key_of_span(jobfile::CHOSEN, b.low_c),
                hours: b.hours,
                cycling_h: of_regime(&b.by_regime, Regime::Cycling),
                full_h: of_regime(&b.by_regime, Regime::Full),
                heat_w: b.heat_w,
                heads_w: b.heads_w,
            })
            .collect(),
    }
}

fn of_regime(hours: &[u32; 8], regime: Regime) -> u32 {
    hours.get(regime as usize).copied().unwrap_or(0)
}

fn unit(u: &season::UnitYear) -> UnitLine {
    UnitLine {
        name: u.name.clone(),
        unit: u.sheet.clone(),
        need_at_0c_w: u.need.map(|n| n.at_0c_w),
        need_per_k_w: u.need.map(|n| n.per_k_w),
        balance_c: u.balance.at_c(),
        cycles_above_c: u.cycles_above.at_c(),
        at_design_w: u.at_design.map(|g| [g.min_w, g.max_w]),
        span_c: u.span_c.map(|(a, b)| [a, b]),
        heat_kwh: u.heat_j / units::constants::KWH_J,
        seasonal_cop: u.seasonal_cop_with_standby(),
        hours: Regime::ALL
            .iter()
            .map(|r| (r.word().to_owned(), u.hours_in(*r)))
            .collect(),
    }
}

fn row(r: Row) -> OptionRow {
    OptionRow {
        choice: r.choice,
        units: r.units,
        heads: r.heads,
        heads_share: r.heads_share,
        seasonal_cop: r.seasonal_cop,
        cycling_h: r.cycling_h,
        full_h: r.full_h,
        cannot_tell_h: r.cannot_tell_h,
        electricity_kwh: r.electricity_j / units::constants::KWH_J,
        fuel_kwh: r.fuel_j / units::constants::KWH_J,
        cost: r.cost,
        carbon_kg: r.carbon_kg,
        electric_peak_w: r.electric_peak_w,
        coldest_room: r.coldest_room.as_ref().map(|c| c.0.clone()),
        coldest_c: r.coldest_room.map(|c| c.1),
        short_2k_h: r.short_2k_h,
    }
}
