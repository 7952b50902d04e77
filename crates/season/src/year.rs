//! What a year comes to. Energy in J, power in W, hours counted in whole hours of the year.

use heatpump::CannotTell;
use house::describe::Use;
use jobfile::Carrier;

use crate::bought::Bought;
use crate::input::Design;
use crate::line::{Crossing, NeedLine};
use crate::regime::Regime;

/// The largest hour of something.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Peak {
    /// W.
    pub w: f64,
    /// Hour of the year, 0 first.
    pub hour: usize,
}

impl Peak {
    pub(crate) fn take(&mut self, w: f64, hour: usize) {
        if w > self.w {
            *self = Self { w, hour };
        }
    }
}

/// A room's year.
#[derive(Debug, Clone, PartialEq)]
pub struct RoomYear {
    /// Room name.
    pub name: String,
    /// Index in the zones of the model.
    pub zone: usize,
    /// What it is used for.
    pub used_for: Use,
    /// Has a heating setting.
    pub heated: bool,
    /// Has a cooling setting.
    pub cooled: bool,
    /// Heads in it.
    pub heads: usize,
    /// Heaters (boiler, panel) that serve it.
    pub heaters: usize,
    /// A heater of its own serves it: baseboard or stove, not a boiler or furnace.
    pub own_heater: bool,
    /// Heat from heads, J.
    pub by_heads_j: f64,
    /// Heat from heaters, J.
    pub by_heaters_j: f64,
    /// Sensible cooling by heads, J.
    pub cooling_j: f64,
    /// Largest hour of heat.
    pub heating_peak: Peak,
    /// Largest hour of cooling.
    pub cooling_peak: Peak,
    /// Hours more than 1 K below its setting; 0 without a setting.
    pub short_1k_h: u32,
    /// Hours more than 2 K below its setting.
    pub short_2k_h: u32,
    /// Kelvin below the setting times hours, K h.
    pub short_k_h: f64,
    /// Hours under 62 F, day and night; 0 without a setting.
    pub under_62f_h: u32,
    /// Hours its heads gave all they could.
    pub head_full_h: u32,
    /// Least air temperature, C.
    pub least_c: f64,
    /// Hour of the least.
    pub least_hour: usize,
    /// Mean air temperature, C.
    pub mean_c: f64,
    /// Greatest air temperature, C.
    pub greatest_c: f64,
    /// Hour of the greatest.
    pub greatest_hour: usize,
    /// Air at the coldest hour of the year outdoors, C.
    pub at_coldest_c: f64,
    /// Least air in the three coldest days if no heater answered, C; None without heads.
    pub heads_alone_c: Option<f64>,
    /// Heat asked over outdoor temperature at night.
    pub need: Option<NeedLine>,
}

/// Hours a year, a twentieth of it, that a room may be more than 2 K under its setting and not count
/// as left cold. Common practice, no source.
pub(crate) const LEFT_COLD_HOURS: u32 = 438;

impl RoomYear {
    /// Whether it is more than 2 K under its setting in more than a twentieth of the year.
    pub fn left_cold(&self) -> bool {
        self.heated && self.short_2k_h > LEFT_COLD_HOURS
    }
}

/// Electricity of an outdoor unit by what it is for, J.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Purposes {
    /// Compressor and fans, heating.
    pub compressor_j: f64,
    /// Making up for frost where the sheet does not include it.
    pub defrost_j: f64,
    /// Base-pan heater.
    pub base_pan_j: f64,
    /// Waiting: standby and crankcase heater.
    pub standby_j: f64,
    /// Compressor and fans, cooling.
    pub cooling_j: f64,
}

impl Purposes {
    /// Everything, J.
    pub fn total_j(&self) -> f64 {
        self.heating_j() + self.standby_j + self.cooling_j
    }

    /// For heating, without waiting, J.
    pub fn heating_j(&self) -> f64 {
        self.compressor_j + self.defrost_j + self.base_pan_j
    }
}

/// COP of a unit in the hours of a span of outdoor temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CopPoint {
    /// Mean outdoor air of the hours, C.
    pub outdoor_c: f64,
    /// Heat over electricity in them, waiting included.
    pub cop: f64,
    /// Hours.
    pub hours: u32,
}

/// The heating hours of a unit in 5 F of outdoor temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpanOfUnit {
    /// Lower end, C; it belongs to the span.
    pub low_c: f64,
    /// Heat, J.
    pub heat_j: f64,
    /// Electricity of compressor and fans, J.
    pub compressor_j: f64,
    /// Hours, s.
    pub time_s: f64,
}

/// What a unit can give at one outdoor temperature, W.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gives {
    /// Least while running.
    pub min_w: f64,
    /// Most.
    pub max_w: f64,
    /// What the most is made of; none where its terms do not give it.
    pub made_of: Option<heatpump::MadeOf>,
}

/// A head's year.
#[derive(Debug, Clone, PartialEq)]
pub struct HeadYear {
    /// Name in the job.
    pub name: String,
    /// Name of its sheet.
    pub sheet: String,
    /// Room.
    pub room: String,
    /// Heat given, J.
    pub heat_j: f64,
    /// Sensible cooling given, J.
    pub cooling_j: f64,
    /// Least heat of the head while open, W; of the whole unit where it hangs alone on one.
    pub min_w: f64,
}

/// An outdoor unit's year.
#[derive(Debug, Clone, PartialEq)]
pub struct UnitYear {
    /// Name in the job.
    pub name: String,
    /// Name of its sheet.
    pub sheet: String,
    /// Heads on it.
    pub heads: Vec<HeadYear>,
    /// Hours in each regime, in the order of [`Regime::ALL`].
    pub hours: [u32; 8],
    /// Heat given in each regime, J.
    pub heat_by_regime_j: [f64; 8],
    /// Heat given, J.
    pub heat_j: f64,
    /// Sensible cooling given, J.
    pub cooling_j: f64,
    /// How far what its table gives and what the rooms took lie apart, summed over the hours, J:
    /// nothing but rounding.
    pub apart_j: f64,
    /// Electricity.
    pub electric: Purposes,
    /// Largest electric hour.
    pub electric_peak: Peak,
    /// Regime of every hour, as [`Regime`] numbers.
    pub by_hour: Vec<u8>,
    /// Heat its rooms ask over outdoor temperature, at night; None where too few hours tell.
    pub need: Option<NeedLine>,
    /// Outdoor temperature at which its most equals what its rooms ask.
    pub balance: Crossing,
    /// Outdoor temperature above which its least is more than its rooms ask: it cycles.
    pub cycles_above: Crossing,
    /// What it gives at the design temperature; None where the sheet cannot tell or it is off.
    pub at_design: Option<Gives>,
    /// What its rooms ask at the design temperature, by the line, W.
    pub need_at_design_w: Option<f64>,
    /// Coldest and mildest outdoor temperature its sheet has an answer for, C.
    pub span_c: Option<(f64, f64)>,
    /// Why its sheet has no heating answer at all, if so.
    pub no_heating: Option<CannotTell>,
    /// Least while running with one head calling, at 47 F or its mildest point, W.
    pub least_w: Option<f64>,
    /// COP in spans of 2 K up to 10 C, heating hours, coldest first.
    pub cop_by_bin: Vec<CopPoint>,
    /// Its heating hours in spans of 5 F, coldest first; those without any are left out.
    pub spans: Vec<SpanOfUnit>,
}

impl UnitYear {
    /// Hours in a regime.
    pub fn hours_in(&self, regime: Regime) -> u32 {
        self.hours[regime as usize]
    }

    /// Heat given in a regime, J.
    pub fn heat_in_j(&self, regime: Regime) -> f64 {
        self.heat_by_regime_j[regime as usize]
    }

    /// Seasonal COP of heating without waiting; None if it gave no heat.
    pub fn seasonal_cop(&self) -> Option<f64> {
        ratio(self.heat_j, self.electric.heating_j())
    }

    /// Seasonal COP of heating with all waiting of the year.
    pub fn seasonal_cop_with_standby(&self) -> Option<f64> {
        ratio(
            self.heat_j,
            self.electric.heating_j() + self.electric.standby_j,
        )
    }
}

/// A heater's year (boiler, baseboard, panel).
#[derive(Debug, Clone, PartialEq)]
pub struct HeaterYear {
    /// Name in the job.
    pub name: String,
    /// What it is called in a sentence: `the boiler`, or its name.
    pub words: String,
    /// What it draws.
    pub carrier: Carrier,
    /// Heat given, J.
    pub heat_j: f64,
    /// Energy bought for it, J.
    pub bought_j: f64,
    /// Hours in which it gave heat.
    pub hours: u32,
    /// Largest hour of heat.
    pub peak: Peak,
    /// Most it can give, W; infinite where the job does not say.
    pub capacity_w: f64,
    /// Its efficiency.
    pub efficiency: f64,
}

/// A year of a house with equipment.
#[derive(Debug, Clone, PartialEq)]
pub struct Year {
    /// Name of the choice.
    pub choice: String,
    /// Hours.
    pub hours: usize,
    /// Rooms, in the order of the job (made attics and crawl spaces left out).
    pub rooms: Vec<RoomYear>,
    /// Outdoor units, in the order of the choice.
    pub units: Vec<UnitYear>,
    /// Heaters beside them.
    pub heaters: Vec<HeaterYear>,
    /// Heat into the house, J.
    pub heat_j: f64,
    /// Sensible cooling, J.
    pub cooling_j: f64,
    /// Largest hour of heat, all sources.
    pub heating_peak: Peak,
    /// Largest hour of sensible cooling.
    pub cooling_peak: Peak,
    /// Largest hour of electricity, units and electric heaters.
    pub electric_peak: Peak,
    /// What is bought, in the order of [`Carrier::ALL`]; carriers not used are left out.
    pub bought: Vec<Bought>,
    /// Design temperature.
    pub design: Option<Design>,
    /// Heat the house asks over outdoor temperature, at night.
    pub need: Option<NeedLine>,
    /// Outdoor temperature at which all units together give what the house asks.
    pub balance: Crossing,
    /// Outdoor air of each hour, C.
    pub outdoor_c: Vec<f64>,
    /// Heat by heads of each hour, W.
    pub heads_w: Vec<f64>,
    /// Heat by heaters of each hour, W.
    pub heaters_w: Vec<f64>,
    /// Electricity of each hour, W.
    pub electric_w: Vec<f64>,
    /// Heat in minus out minus stored, over heat through.
    pub closure: f64,
    /// Hours whose iteration did not settle.
    pub unsettled_hours: usize,
}

impl Year {
    /// Heat by heads and heaters of each hour, W.
    pub fn heat_w(&self) -> Vec<f64> {
        let both = self.heads_w.iter().zip(&self.heaters_w);
        both.map(|(a, b)| a + b).collect()
    }

    /// Heat from heads, J.
    pub fn by_heads_j(&self) -> f64 {
        self.units.iter().map(|u| u.heat_j).sum()
    }

    /// Share of the heat that comes from heads; None without heat.
    pub fn heads_share(&self) -> Option<f64> {
        ratio(self.by_heads_j(), self.heat_j)
    }

    /// Rooms with a setting that are under it too often: a year that leaves rooms cold is cheap.
    pub fn rooms_left_cold(&self) -> usize {
        self.rooms.iter().filter(|r| r.left_cold()).count()
    }

    /// Cost of the year; None if a price is missing.
    pub fn cost(&self) -> Option<f64> {
        self.bought.iter().map(|b| b.cost).sum()
    }

    /// Carbon of the year, kg; None if an intensity is missing.
    pub fn carbon_kg(&self) -> Option<f64> {
        self.bought.iter().map(|b| b.carbon_kg).sum()
    }

    /// Energy bought of a carrier, J.
    pub fn bought_j(&self, carrier: Carrier) -> f64 {
        self.bought
            .iter()
            .find(|b| b.carrier == carrier)
            .map_or(0.0, |b| b.energy_j)
    }

    /// Seasonal COP of all units together, waiting included.
    pub fn seasonal_cop(&self) -> Option<f64> {
        let electric: f64 = self
            .units
            .iter()
            .map(|u| u.electric.heating_j() + u.electric.standby_j)
            .sum();
        ratio(self.by_heads_j(), electric)
    }

    /// A room by name.
    pub fn room(&self, name: &str) -> Option<&RoomYear> {
        self.rooms.iter().find(|r| r.name == name)
    }

    /// How many units are in a regime in an hour.
    pub fn units_in(&self, regime: Regime, hour: usize) -> u8 {
        let is = |u: &&UnitYear| u.by_hour.get(hour) == Some(&(regime as u8));
        self.units.iter().filter(is).count() as u8
    }

    /// Hours in a regime, all units added.
    pub fn hours_in(&self, regime: Regime) -> u32 {
        self.units.iter().map(|u| u.hours_in(regime)).sum()
    }
}

pub(crate) fn ratio(a: f64, b: f64) -> Option<f64> {
    (b > 0.0 && a > 0.0).then(|| a / b)
}
