//! What is drawn of a year: bins of outdoor temperature, capacity against need, duration.

use heatpump::{Conditions, Duty, Head, OutdoorUnit, Performance, System};
use house::model::Model;

use crate::input::Input;
use crate::regime::Regime;
use crate::year::Year;

/// Width of a bin.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BinWidth {
    /// 2 C, on even degrees.
    Kelvin2,
    /// 5 F, on multiples of 5 F.
    Fahrenheit5,
}

impl BinWidth {
    /// Number of the bin a temperature falls into; its lower end belongs to it.
    pub(crate) fn number(self, c: f64) -> i32 {
        // A reading like 5.0 C is 41.00000000000001 F; a billionth keeps it in its bin.
        let x = match self {
            Self::Kelvin2 => c / 2.0,
            Self::Fahrenheit5 => (c * 1.8 + 32.0) / 5.0,
        };
        libm::floor(x + 1e-9) as i32
    }

    /// Lower end of a bin, C.
    pub(crate) fn low_c(self, number: i32) -> f64 {
        match self {
            Self::Kelvin2 => 2.0 * f64::from(number),
            Self::Fahrenheit5 => (5.0 * f64::from(number) - 32.0) / 1.8,
        }
    }
}

/// Hours of a span of outdoor temperature and what happened in them.
#[derive(Debug, Clone, PartialEq)]
pub struct YearBin {
    /// Lower end, C; it belongs to the bin.
    pub low_c: f64,
    /// Upper end, C.
    pub high_c: f64,
    /// Hours.
    pub hours: u32,
    /// Unit hours in each regime, in the order of [`Regime::ALL`].
    pub by_regime: [u32; 8],
    /// Mean heat of the house, all sources, W.
    pub heat_w: f64,
    /// Mean heat by heads, W.
    pub heads_w: f64,
    /// Mean electricity, W.
    pub electric_w: f64,
}

/// Most and least of all units and what the house asks at one outdoor temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AgainstNeed {
    /// Outdoor air, C.
    pub outdoor_c: f64,
    /// Least while running of the unit that turns down furthest, W; None where no sheet tells.
    pub min_w: Option<f64>,
    /// Most of all units together, W; None where a sheet cannot tell.
    pub max_w: Option<f64>,
    /// What the house asks by its line, W.
    pub need_w: Option<f64>,
}

impl Year {
    /// Hours by outdoor temperature, coldest first; empty bins left out.
    pub fn bins(&self, width: BinWidth) -> Vec<YearBin> {
        let numbers: Vec<i32> = self.outdoor_c.iter().map(|c| width.number(*c)).collect();
        let (Some(first), Some(last)) = (numbers.iter().min(), numbers.iter().max()) else {
            return Vec::new();
        };
        let empty = |k: i32| YearBin {
            low_c: width.low_c(k),
            high_c: width.low_c(k + 1),
            hours: 0,
            by_regime: [0; 8],
            heat_w: 0.0,
            heads_w: 0.0,
            electric_w: 0.0,
        };
        let mut found: Vec<YearBin> = (*first..=*last).map(empty).collect();
        for (h, k) in numbers.iter().enumerate() {
            let bin = &mut found[(k - first) as usize];
            let at = |v: &[f64]| v.get(h).copied().unwrap_or(0.0);
            bin.hours += 1;
            bin.heads_w += at(&self.heads_w);
            bin.heat_w += at(&self.heads_w) + at(&self.heaters_w);
            bin.electric_w += at(&self.electric_w);
            for unit in &self.units {
                let regime = unit.by_hour.get(h).and_then(|n| Regime::from_number(*n));
                if let Some(regime) = regime {
                    bin.by_regime[regime as usize] += 1;
                }
            }
        }
        found
            .into_iter()
            .filter(|b| b.hours > 0)
            .map(|b| {
                let n = f64::from(b.hours);
                YearBin {
                    heat_w: b.heat_w / n,
                    heads_w: b.heads_w / n,
                    electric_w: b.electric_w / n,
                    ..b
                }
            })
            .collect()
    }

    /// Heat of the house in each hour, greatest first, at `points` even places of the year: the
    /// first is the greatest hour, the last the least. Fewer than two points give nothing.
    pub fn duration_w(&self, points: usize) -> Vec<f64> {
        let mut hours = self.heat_w();
        if points < 2 || hours.is_empty() {
            return Vec::new();
        }
        hours.sort_by(|a, b| b.total_cmp(a));
        let last = hours.len() - 1;
        (0..points)
            .map(|i| hours[i * last / (points - 1)])
            .collect()
    }

    /// What all units give against what the house asks, every kelvin from the coldest hour to
    /// 20 C. The units are tabled anew, as the year did.
    pub fn against_need(&self, input: &Input<'_>) -> Vec<AgainstNeed> {
        let tables: Vec<Option<Performance>> = input
            .choice
            .equipment
            .outdoors
            .iter()
            .map(|o| table(input, &o.name, &o.unit))
            .collect();
        let coldest = self.outdoor_c.iter().copied().fold(20.0, f64::min);
        let first = libm::floor(coldest) as i32;
        (first..=20)
            .map(|c| {
                let outdoor_c = f64::from(c);
                let ranges: Vec<_> = tables
                    .iter()
                    .map(|t| t.as_ref().and_then(|t| t.range(outdoor_c)))
                    .collect();
                let all: Option<f64> = ranges.iter().map(|r| r.map(|r| r.max_w)).sum();
                AgainstNeed {
                    outdoor_c,
                    min_w: ranges
                        .iter()
                        .flatten()
                        .map(|r| r.min_w)
                        .min_by(f64::total_cmp),
                    max_w: all.filter(|_| !ranges.is_empty()),
                    need_w: self.need.map(|line| line.at(outdoor_c)),
                }
            })
            .collect()
    }
}

fn table(input: &Input<'_>, name: &str, unit: &str) -> Option<Performance> {
    let heads = input
        .choice
        .equipment
        .heads_on(name)
        .map(|h| Head::new(input.catalogue.get(&h.unit)?.clone()).ok())
        .collect::<Option<Vec<Head>>>()?;
    let outdoor = OutdoorUnit::new(input.catalogue.get(unit)?.clone()).ok()?;
    let system = System::new(outdoor, heads).ok()?;
    let hours = input.weather.len().max(1) as f64;
    let conditions = Conditions {
        indoor_c: indoor_c(input.model, input, name),
        pressure_pa: input.weather.pressure_pa.iter().sum::<f64>() / hours,
        humidity: None,
    };
    Performance::new(&system, Duty::Heating, conditions).ok()
}

fn indoor_c(model: &Model, input: &Input<'_>, name: &str) -> f64 {
    let zones: Vec<usize> = input
        .choice
        .equipment
        .heads_on(name)
        .filter_map(|h| model.zones.iter().position(|z| z.name == h.room))
        .collect();
    crate::plant::Schedule::new(model)
        .mean_heat_c(&zones)
        .unwrap_or(crate::plant::TESTED_INDOOR_C)
}
