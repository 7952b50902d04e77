//! The few numbers that stand first.

use season::Year;
use units::{Dim, System, show};

use crate::making::Plan;

/// Headline numbers; none where they are not there yet.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Headline {
    /// Outdoor temperature of the heating load, C.
    pub design_outdoor_c: Option<f64>,
    /// Heating load of the house, W.
    pub heating_load_w: Option<f64>,
    /// Sensible cooling load of the house, W.
    pub cooling_load_w: Option<f64>,
    /// Heat the house needs in the year, kWh.
    pub heating_need_kwh: Option<f64>,
    /// Most of all units at the design temperature, W; none where a sheet cannot tell.
    pub units_give_w: Option<f64>,
    /// Share of the year's heat that comes from heads, 0 to 1.
    pub heads_share: Option<f64>,
    /// Seasonal COP of all units, waiting included.
    pub seasonal_cop: Option<f64>,
    /// Unit hours cycling.
    pub cycling_hours: Option<u32>,
    /// Cost of the year, in the job's currency, and with what heats now, alone.
    pub cost: Option<f64>,
    /// See `cost`.
    pub cost_now: Option<f64>,
    /// Rooms left cold, of those with a setting; and with what heats now, alone.
    pub rooms_cold: Option<usize>,
    /// See `rooms_cold`.
    pub rooms_cold_now: Option<usize>,
    /// Carbon of the year, kg, and with what heats now.
    pub carbon_kg: Option<f64>,
    /// See `carbon_kg`.
    pub carbon_now_kg: Option<f64>,
    /// Largest electric hour, W.
    pub electric_peak_w: Option<f64>,
}

impl Plan {
    /// The headline numbers of this plan.
    pub fn headline(&self) -> Headline {
        let finite = |v: f64| Some(v).filter(|v| v.is_finite());
        let (loads, year) = (self.loads.done(), self.year());
        let now = self.year_now();
        let need = self.ideal.done().map(|y| y.house.heating_j);
        Headline {
            design_outdoor_c: finite(self.site.heating.used_c),
            heating_load_w: loads.and_then(|l| finite(l.heating.heat_w)),
            cooling_load_w: loads.and_then(|l| finite(l.cooling.sensible_w)),
            heating_need_kwh: need.and_then(|j| finite(j / units::constants::KWH_J)),
            units_give_w: year.filter(|y| !y.units.is_empty()).and_then(|y| {
                let most = y.units.iter().map(|u| u.at_design.map(|g| g.max_w));
                most.sum()
            }),
            heads_share: year.and_then(Year::heads_share),
            seasonal_cop: year.and_then(Year::seasonal_cop),
            cycling_hours: year.map(|y| y.hours_in(season::Regime::Cycling)),
            cost: year.and_then(Year::cost),
            cost_now: now.and_then(Year::cost),
            rooms_cold: year.map(Year::rooms_left_cold),
            rooms_cold_now: now.map(Year::rooms_left_cold),
            carbon_kg: year.and_then(Year::carbon_kg),
            carbon_now_kg: now.and_then(Year::carbon_kg),
            electric_peak_w: year.map(|y| y.electric_peak.w),
        }
    }

    /// The year with what heats now, alone; none where nothing does.
    pub fn year_now(&self) -> Option<&Year> {
        self.season.done()?.baseline.as_ref()
    }

    /// Key of a figure of the house with what heats now, alone; none where that has no year.
    pub fn key_now(&self, what: &str) -> Option<String> {
        Some(season::key_of_house(&self.year_now()?.choice, what))
    }

    /// Rooms left cold, in words: with what is chosen, and as it is now; none where no room is.
    pub fn says_left_cold(&self, system: System) -> Option<String> {
        let year = self.year()?;
        let cold = year.rooms_left_cold();
        let now = self.year_now().map(Year::rooms_left_cold);
        if cold + now.unwrap_or(0) == 0 {
            return None;
        }
        let heated = year.rooms.iter().filter(|r| r.heated).count();
        let by = show(2.0, Dim::TemperatureDifference, system);
        let some = |n: usize| match n {
            0 => "none".to_owned(),
            n => n.to_string(),
        };
        let after = now.map_or(String::new(), |n| format!("; as it is now {}", some(n)));
        Some(format!(
            "{} of {heated} rooms, {by} under their setting more than 5 % of the year{after}",
            some(cold)
        ))
    }

    /// How many findings are of a level.
    pub fn count(&self, level: reckon::Level) -> usize {
        let of_level = |f: &&crate::Numbered| f.finding.level == level;
        self.findings.iter().filter(of_level).count()
    }
}
