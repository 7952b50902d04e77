//! What a system can give at one outdoor temperature, or why the sheets cannot tell.

use serde::Serialize;

use crate::altitude::{SEA_LEVEL_PA, altitude_factor};
use crate::cannot_tell::{CannotTell, Reason};
use crate::combination::combination_factors;
use crate::curve::Curve;
use crate::frost::{Frost, frost};
use crate::sheet::{Running, Sheet};
use crate::system::System;

/// Heating or cooling.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Duty {
    /// Heating.
    Heating,
    /// Cooling.
    Cooling,
}

impl Duty {
    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Heating => "heating",
            Self::Cooling => "cooling",
        }
    }
}

/// Warmest outdoor temperature heating is carried to where the sheet has no limit, C (75 F).
pub const HEATING_HIGHEST_C: f64 = 43.0 / 1.8;
/// Coolest outdoor temperature cooling is carried to where the sheet has no limit, C (50 F).
pub const COOLING_LOWEST_C: f64 = 10.0;
/// The base-pan heater comes on over this span below its threshold, K, so that yearly sums do not
/// hang on a step.
const BASE_PAN_RAMP_K: f64 = 1.0;
/// Threshold of a base-pan heater whose sheet has none, C. Common practice.
const BASE_PAN_BELOW_C: f64 = 2.0;

/// Air the system works in.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Conditions {
    /// Indoor dry bulb at the head, C.
    pub indoor_c: f64,
    /// Air pressure at the place, Pa.
    pub pressure_pa: f64,
    /// Outdoor relative humidity, 0 to 1, where known; only frost asks.
    pub humidity: Option<f64>,
}

impl Conditions {
    /// Indoor temperature at sea level, humidity not known.
    pub fn at_sea_level(indoor_c: f64) -> Self {
        Self {
            indoor_c,
            pressure_pa: SEA_LEVEL_PA,
            humidity: None,
        }
    }
}

/// What a system can give at one outdoor temperature. Powers include the base-pan heater.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Capability {
    /// Heating or cooling.
    pub duty: Duty,
    /// Outdoor temperature, C.
    pub outdoor_c: f64,
    /// Least while running.
    pub min: Running,
    /// Rated, where the sheet gives it.
    pub rated: Option<Running>,
    /// The bend between min and max used for part load: rated, or half way where none is given.
    pub middle: Running,
    /// Most.
    pub max: Running,
    /// Base-pan heater, W, included in the powers above.
    pub base_pan_w: f64,
    /// Power while not running: standby and crankcase heater, W.
    pub waiting_w: f64,
    /// Share of the electricity that makes up for frost, 0 to 1; zero where the sheet includes it.
    pub frost_share: f64,
    /// Cycling coefficient.
    pub cd: f64,
    /// Sensible share of cooling, 0 to 1, where the sheet gives it.
    pub sensible_share: Option<f64>,
}

/// A system made ready to be asked at many temperatures.
#[derive(Debug, Clone)]
pub(crate) struct Ready<'s> {
    sheet: &'s Sheet,
    duty: Duty,
    curve: Curve,
    conditions: Conditions,
    altitude: f64,
}

impl<'s> Ready<'s> {
    pub(crate) fn new(
        system: &'s System,
        duty: Duty,
        conditions: Conditions,
    ) -> Result<Self, CannotTell> {
        let sheet = &system.outdoor.sheet;
        let mut curve = Curve::new(sheet, duty)?;
        let (capacity, electric) = combination_factors(system, duty)?;
        curve.combine(capacity, electric);
        let Some(altitude) = altitude_factor(conditions.pressure_pa) else {
            let reason = Reason::PressureOutOfRange {
                pressure_pa: conditions.pressure_pa,
            };
            return Err(CannotTell::new(reason, sheet, duty));
        };
        let this = Self {
            sheet,
            duty,
            curve,
            conditions,
            altitude,
        };
        if this
            .curve
            .at(this.curve.warmest_c(), conditions.indoor_c)
            .is_none()
        {
            let reason = Reason::IndoorOutOfRange {
                indoor_c: conditions.indoor_c,
            };
            return Err(CannotTell::new(reason, sheet, duty));
        }
        Ok(this)
    }

    /// Coldest and warmest outdoor temperature with an answer, C. Heating ends at the coldest
    /// point or the cut-out, whichever is warmer; cooling mirrors it at the hot end.
    pub(crate) fn span_c(&self) -> (f64, f64) {
        let limits = &self.sheet.limits;
        match self.duty {
            Duty::Heating => (
                self.curve
                    .coldest_c()
                    .max(limits.heating_cut_out_c.unwrap_or(f64::NEG_INFINITY)),
                limits
                    .heating_highest_c
                    .unwrap_or(HEATING_HIGHEST_C.max(self.curve.warmest_c())),
            ),
            Duty::Cooling => (
                limits
                    .cooling_lowest_c
                    .unwrap_or(COOLING_LOWEST_C.min(self.curve.coldest_c())),
                self.curve
                    .warmest_c()
                    .min(limits.cooling_highest_c.unwrap_or(f64::INFINITY)),
            ),
        }
    }

    /// Why there is no answer at this temperature, if there is none.
    pub(crate) fn outside(&self, outdoor_c: f64) -> Option<Reason> {
        if !outdoor_c.is_finite() {
            return Some(Reason::NotANumber);
        }
        let limits = &self.sheet.limits;
        let (lowest, highest) = match self.duty {
            Duty::Heating => (limits.heating_cut_out_c, limits.heating_highest_c),
            Duty::Cooling => (limits.cooling_lowest_c, limits.cooling_highest_c),
        };
        if let Some(limit_c) = lowest
            && outdoor_c < limit_c
        {
            return Some(Reason::CutOut { outdoor_c, limit_c });
        }
        if let Some(limit_c) = highest
            && outdoor_c > limit_c
        {
            return Some(Reason::CutOut { outdoor_c, limit_c });
        }
        let (cold_c, warm_c) = self.span_c();
        if outdoor_c < cold_c || outdoor_c > warm_c {
            // The mild end without a limit on the sheet is our own stated limit.
            let mild = match self.duty {
                Duty::Heating => outdoor_c > warm_c,
                Duty::Cooling => outdoor_c < cold_c,
            };
            let last_c = if outdoor_c < cold_c { cold_c } else { warm_c };
            return Some(if mild {
                Reason::CutOut {
                    outdoor_c,
                    limit_c: last_c,
                }
            } else {
                Reason::BeyondPoints { outdoor_c, last_c }
            });
        }
        None
    }

    /// Whether frost has still to be taken off what the sheet prints.
    pub(crate) fn frost_to_take(&self) -> bool {
        self.curve.frost_to_take
    }

    pub(crate) fn waiting_w(&self, outdoor_c: f64) -> f64 {
        let plate = &self.sheet.plate;
        let crankcase = match plate.crankcase_below_c {
            Some(below_c) if outdoor_c >= below_c => 0.0,
            _ => plate.crankcase_w.unwrap_or(0.0),
        };
        plate.standby_w.unwrap_or(0.0) + crankcase
    }

    fn base_pan_w(&self, outdoor_c: f64) -> f64 {
        let plate = &self.sheet.plate;
        if self.duty == Duty::Cooling || plate.base_pan_included {
            return 0.0;
        }
        let below_c = plate.base_pan_below_c.unwrap_or(BASE_PAN_BELOW_C);
        let on = ((below_c - outdoor_c) / BASE_PAN_RAMP_K).clamp(0.0, 1.0);
        plate.base_pan_w.unwrap_or(0.0) * on
    }

    pub(crate) fn at(&self, outdoor_c: f64) -> Result<Capability, CannotTell> {
        if let Some(reason) = self.outside(outdoor_c) {
            return Err(CannotTell::new(reason, self.sheet, self.duty));
        }
        let Some(levels) = self.curve.at(outdoor_c, self.conditions.indoor_c) else {
            let reason = Reason::IndoorOutOfRange {
                indoor_c: self.conditions.indoor_c,
            };
            return Err(CannotTell::new(reason, self.sheet, self.duty));
        };
        let loss = if self.curve.frost_to_take {
            frost(outdoor_c, self.conditions.humidity)
        } else {
            Frost::NONE
        };
        let base_pan_w = self.base_pan_w(outdoor_c);
        let [min, middle, max] = levels.map(|run| Running {
            capacity_w: run.capacity_w * self.altitude * loss.capacity,
            electric_w: run.electric_w * loss.electric + base_pan_w,
        });
        Ok(Capability {
            duty: self.duty,
            outdoor_c,
            min,
            rated: self.curve.has_rated.then_some(middle),
            middle,
            max,
            base_pan_w,
            waiting_w: self.waiting_w(outdoor_c),
            frost_share: loss.electric_share(),
            cd: self
                .sheet
                .cycling_cd
                .unwrap_or(crate::part_load::DEFAULT_CD),
            sensible_share: self.curve.sensible_share(outdoor_c),
        })
    }
}

/// What a system can give at an outdoor temperature.
///
/// # Equation
/// Capacity in straight lines between published points; COP as the ideal COP of the lift times a
/// share of the ideal, the share in straight lines between published points; then frost (where the
/// sheet does not include it), altitude, indoor temperature, base-pan heater.
/// # Symbols
/// See [`Capability`] and [`Conditions`].
/// # Range
/// Never colder than the coldest heating point (or hotter than the hottest cooling point). Past
/// the mild end capacity and share of the ideal are held, up to the sheet's limit, or 75 F heating
/// and 50 F cooling.
/// # Source
/// `common-practice` (straight lines, F7); `from-memory` (shape by lift and share of the ideal).
/// # Example
/// The tests read a sheet and ask: at a published temperature the answer is the published figure.
///
/// # Errors
/// [`CannotTell`] with the reason and what would tell.
pub fn capability(
    system: &System,
    duty: Duty,
    outdoor_c: f64,
    conditions: Conditions,
) -> Result<Capability, CannotTell> {
    Ready::new(system, duty, conditions)?.at(outdoor_c)
}
