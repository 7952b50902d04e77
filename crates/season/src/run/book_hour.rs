//! Takes an accepted hour into the sums of the year.

use heatpump::Mode;
use house::ideal::Extreme;
use house::model::Model;

use super::ask::Ask;
use crate::charts::BinWidth;
use crate::input::Input;
use crate::line::{LineSums, MILDEST_C};
use crate::plant::{Plant, Schedule};
use crate::regime::Regime;
use crate::year::{Peak, Purposes};

/// An hour, s.
const HOUR_S: f64 = 3600.0;
/// 62 F, under which a room people live or sleep in counts as too cold (trade card F11).
pub(crate) const TOO_COLD_C: f64 = 150.0 / 9.0;
/// A room this little below its setting still counts as holding it, K.
const HOLDS_K: f64 = 0.1;

/// Spans of 2 K for the COP, from -50 C to 10 C.
pub(crate) const COP_BINS: usize = 30;
/// Cold end of the first span, C.
const COP_FROM_C: f64 = -50.0;

/// Spans of 5 F of outdoor temperature, from -100 F to 140 F.
pub(crate) const SPANS: usize = 48;
/// Number of the first.
pub(crate) const FIRST_SPAN: i32 = -20;

/// Sums by zone.
#[derive(Debug, Clone)]
pub(crate) struct ZoneTally {
    pub by_heads_j: f64,
    pub by_heaters_j: f64,
    pub cooling_j: f64,
    pub heating_peak: Peak,
    pub cooling_peak: Peak,
    pub short_1k_h: u32,
    pub short_2k_h: u32,
    pub short_k_h: f64,
    pub under_62f_h: u32,
    pub head_full_h: u32,
    pub least: Extreme,
    pub greatest: Extreme,
    pub air_c_h: f64,
    pub at_coldest_c: f64,
    pub line: LineSums,
}

impl ZoneTally {
    fn new() -> Self {
        Self {
            by_heads_j: 0.0,
            by_heaters_j: 0.0,
            cooling_j: 0.0,
            heating_peak: Peak::default(),
            cooling_peak: Peak::default(),
            short_1k_h: 0,
            short_2k_h: 0,
            short_k_h: 0.0,
            under_62f_h: 0,
            head_full_h: 0,
            least: Extreme::least(),
            greatest: Extreme::greatest(),
            air_c_h: 0.0,
            at_coldest_c: 0.0,
            line: LineSums::default(),
        }
    }
}

/// Sums by unit.
#[derive(Debug, Clone, Default)]
pub(crate) struct UnitTally {
    pub hours: [u32; 8],
    pub heat_by_regime_j: [f64; 8],
    pub heat_j: f64,
    pub cooling_j: f64,
    pub apart_j: f64,
    pub electric: Purposes,
    pub peak: Peak,
    pub by_hour: Vec<u8>,
    pub line: LineSums,
    /// Heat, electricity, outdoor air and hours of the heating hours in spans of 2 K.
    pub cop: [[f64; 4]; COP_BINS],
    /// Heat, electricity of the compressor and hours of the heating hours in spans of 5 F.
    pub spans: Vec<[f64; 3]>,
}

/// Sums by heater.
#[derive(Debug, Clone, Default)]
pub(crate) struct HeaterTally {
    pub heat_j: f64,
    pub hours: u32,
    pub peak: Peak,
}

/// Everything of the year.
#[derive(Debug, Clone)]
pub(crate) struct Tally {
    pub zones: Vec<ZoneTally>,
    pub units: Vec<UnitTally>,
    pub head_heat_j: Vec<f64>,
    pub head_cool_j: Vec<f64>,
    pub heaters: Vec<HeaterTally>,
    pub line: LineSums,
    pub heating_peak: Peak,
    pub cooling_peak: Peak,
    pub electric_peak: Peak,
    pub heads_w: Vec<f64>,
    pub heaters_w: Vec<f64>,
    pub electric_w: Vec<f64>,
    coldest_c: f64,
    short: Vec<bool>,
    asked: Vec<f64>,
    given: Vec<f64>,
}

impl Tally {
    pub fn new(plant: &Plant, model: &Model, hours: usize) -> Self {
        Self {
            zones: vec![ZoneTally::new(); model.zones.len()],
            units: vec![
                UnitTally {
                    by_hour: Vec::with_capacity(hours),
                    spans: vec![[0.0; 3]; SPANS],
                    ..UnitTally::default()
                };
                plant.units.len()
            ],
            head_heat_j: vec![0.0; plant.heads.len()],
            head_cool_j: vec![0.0; plant.heads.len()],
            heaters: vec![HeaterTally::default(); plant.heaters.len()],
            line: LineSums::default(),
            heating_peak: Peak::default(),
            cooling_peak: Peak::default(),
            electric_peak: Peak::default(),
            heads_w: Vec::with_capacity(hours),
            heaters_w: Vec::with_capacity(hours),
            electric_w: Vec::with_capacity(hours),
            coldest_c: f64::INFINITY,
            short: vec![false; model.zones.len()],
            asked: vec![0.0; plant.heads.len()],
            given: vec![0.0; plant.heads.len()],
        }
    }

    pub fn take(
        &mut self,
        h: usize,
        plant: &Plant,
        ask: &Ask,
        input: &Input<'_>,
        schedule: &Schedule,
    ) {
        let outdoor_c = input.drive.outdoor_c[h];
        let settings = schedule.heat_c(usize::from(input.drive.hour_of_day[h]));
        let coldest = outdoor_c < self.coldest_c;
        if coldest {
            self.coldest_c = outdoor_c;
        }
        // Nights only: the line is of what the house loses, not of what the sun gives.
        let counts = outdoor_c <= MILDEST_C && input.weather.ghi_w_per_m2[h] <= 0.0;
        let (heat, cool) = self.zones(h, plant, ask, settings, coldest, counts, outdoor_c);
        self.heating_peak.take(heat, h);
        self.cooling_peak.take(cool, h);
        if counts && heat > 0.0 && !self.short.iter().any(|s| *s) {
            self.line.take(outdoor_c, heat);
        }
        let mut electric = self.units(h, plant, ask, outdoor_c, counts);
        let by_heads: f64 = ask.head_heat_w.iter().sum();
        for (i, q) in ask.head_heat_w.iter().enumerate() {
            self.head_heat_j[i] += q * HOUR_S;
            self.head_cool_j[i] += ask.head_cool_w[i] * HOUR_S;
        }
        let mut by_heaters = 0.0;
        for (heater, tally) in plant.heaters.iter().zip(&mut self.heaters) {
            let q: f64 = ask.tap_w[heater.first_tap..heater.end_tap].iter().sum();
            if q > 0.0 {
                tally.heat_j += q * HOUR_S;
                tally.hours += 1;
                tally.peak.take(q, h);
                by_heaters += q;
                if heater.carrier == jobfile::Carrier::Electricity {
                    electric += q / heater.efficiency;
                }
            }
        }
        self.electric_peak.take(electric, h);
        self.heads_w.push(by_heads);
        self.heaters_w.push(by_heaters);
        self.electric_w.push(electric);
    }

    /// Rooms; returns heat and sensible cooling of the house, W.
    #[allow(clippy::too_many_arguments)] // one hour's facts, named where they are made
    fn zones(
        &mut self,
        h: usize,
        plant: &Plant,
        ask: &Ask,
        settings: &[f64],
        coldest: bool,
        counts: bool,
        outdoor_c: f64,
    ) -> (f64, f64) {
        let (mut heat, mut cool) = (0.0, 0.0);
        for (z, zone) in self.zones.iter_mut().enumerate() {
            let (q, air) = (ask.zone_w[z], ask.air_c[z]);
            if q > 0.0 {
                let by_heads: f64 = plant.heads_of[z].iter().map(|i| ask.head_heat_w[*i]).sum();
                zone.by_heads_j += by_heads * HOUR_S;
                zone.by_heaters_j += (q - by_heads) * HOUR_S;
                zone.heating_peak.take(q, h);
                heat += q;
            } else if q < 0.0 {
                zone.cooling_j -= q * HOUR_S;
                zone.cooling_peak.take(-q, h);
                cool -= q;
            }
            let below = settings[z] - air;
            let served = !plant.heads_of[z].is_empty();
            self.short[z] = below > HOLDS_K && served;
            if below > 0.0 {
                zone.short_k_h += below;
                zone.short_1k_h += u32::from(below > 1.0);
                zone.short_2k_h += u32::from(below > 2.0);
            }
            if settings[z].is_finite() && air < TOO_COLD_C {
                zone.under_62f_h += 1;
            }
            if served && ask.head_full(z, plant) {
                zone.head_full_h += 1;
            }
            // A room without a head is held at its heater's own setting.
            let held_k = if served {
                HOLDS_K
            } else {
                HOLDS_K + plant.set_below_k(z).unwrap_or(0.0)
            };
            if counts && q > 0.0 && below <= held_k {
                zone.line.take(outdoor_c, q);
            }
            if coldest {
                zone.at_coldest_c = air;
            }
            zone.air_c_h += air;
            zone.least.take(air, h, outdoor_c);
            zone.greatest.take(air, h, outdoor_c);
        }
        (heat, cool)
    }

    /// Units; returns their electricity, W.
    fn units(&mut self, h: usize, plant: &Plant, ask: &Ask, outdoor_c: f64, counts: bool) -> f64 {
        let mut all = 0.0;
        for (u, unit) in plant.units.iter().enumerate() {
            let heads = unit.first_head..unit.end_head;
            let heat: f64 = ask.head_heat_w[heads.clone()].iter().sum();
            let cool: f64 = ask.head_cool_w[heads.clone()].iter().sum();
            let (asked, given) = (
                &mut self.asked[heads.clone()],
                &mut self.given[heads.clone()],
            );
            let tally = &mut self.units[u];
            let waiting = unit
                .heating
                .as_ref()
                .map_or(0.0, |p| p.operate(outdoor_c, 0.0).electric_w);
            let (regime, electric) = match (&unit.heating, &unit.cooling) {
                (_, Some(cooling)) if cool > 0.0 => {
                    for (a, q) in asked.iter_mut().zip(&ask.head_cool_w[heads.clone()]) {
                        *a = q / ask.sensible[u];
                    }
                    let ran = cooling.share(outdoor_c, asked, given);
                    let idle = waiting * (1.0 - ran.on_fraction);
                    tally.electric.cooling_j += (ran.electric_w - idle).max(0.0) * HOUR_S;
                    tally.electric.standby_j += idle.min(ran.electric_w) * HOUR_S;
                    tally.cooling_j += cool * HOUR_S;
                    (Regime::Cooling, ran.electric_w)
                }
                (Err(_), _) => (Regime::CannotTell, 0.0),
                (Ok(heating), _) => {
                    let off = outdoor_c < plant.off_below_c;
                    if off || outdoor_c < heating.span_c().0 {
                        let mode = heating.operate(outdoor_c, 1.0).mode;
                        let why = if off {
                            Regime::SwitchedOff
                        } else {
                            Regime::of_heating(mode)
                        };
                        tally.electric.standby_j += waiting * HOUR_S;
                        (why, waiting)
                    } else if heat > 0.0 {
                        // A hair more where the limit was shared, so that full counts as full.
                        let hair = if ask.cut[u] { 1.0 + 1e-9 } else { 1.0 };
                        for (a, q) in asked.iter_mut().zip(&ask.head_heat_w[heads.clone()]) {
                            *a = q * hair;
                        }
                        let ran = heating.share(outdoor_c, asked, given);
                        tally.apart_j += (ran.delivered_w - heat).abs() * HOUR_S;
                        let idle = (waiting * (1.0 - ran.on_fraction)).min(ran.electric_w);
                        let pan = unit.pan.at(outdoor_c) * ran.on_fraction;
                        let frost = ran.frost_electric_w;
                        tally.electric.base_pan_j += pan * HOUR_S;
                        tally.electric.defrost_j += frost * HOUR_S;
                        tally.electric.standby_j += idle * HOUR_S;
                        let compressor = (ran.electric_w - pan - frost - idle) * HOUR_S;
                        tally.electric.compressor_j += compressor;
                        let span = BinWidth::Fahrenheit5.number(outdoor_c) - FIRST_SPAN;
                        if let Some([q, e, t]) = tally.spans.get_mut(span as usize) {
                            *q += heat * HOUR_S;
                            *e += compressor;
                            *t += HOUR_S;
                        }
                        // The limit of one head is the unit's own most: asked to the bit.
                        let mode = if heat >= ask.unit_heat_w[u] {
                            Mode::Full
                        } else {
                            ran.mode
                        };
                        (Regime::of_heating(mode), ran.electric_w)
                    } else {
                        tally.electric.standby_j += waiting * HOUR_S;
                        (Regime::Off, waiting)
                    }
                }
            };
            tally.hours[regime as usize] += 1;
            tally.heat_by_regime_j[regime as usize] += heat * HOUR_S;
            tally.heat_j += heat * HOUR_S;
            let bin = (outdoor_c - COP_FROM_C) / 2.0;
            if heat > 0.0
                && bin >= 0.0
                && let Some(sums) = tally.cop.get_mut(bin as usize)
            {
                for (sum, x) in sums.iter_mut().zip([heat, electric, outdoor_c, 1.0]) {
                    *sum += x;
                }
            }
            tally.by_hour.push(regime as u8);
            tally.peak.take(electric, h);
            all += electric;
            if counts {
                let rooms = &plant.heads[heads];
                let short = rooms.iter().any(|r| self.short[r.zone]);
                let mut need = 0.0;
                for (i, head) in rooms.iter().enumerate() {
                    // A room with two heads of the unit counts once.
                    if rooms[..i].iter().all(|b| b.zone != head.zone) {
                        need += ask.zone_w[head.zone].max(0.0);
                    }
                }
                if need > 0.0 && !short {
                    tally.line.take(outdoor_c, need);
                }
            }
        }
        all
    }
}
