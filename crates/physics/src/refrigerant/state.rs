//! States away from saturation, and pressure with enthalpy back to temperature.

use super::Refrigerant;
use super::fit::Side;
use super::points::{BubblePa, DewPa};
use super::saturation::{DENSITY, ENTHALPY, check_ln_pressure, ln_pressure};
use crate::OutOfRange;
use crate::range::within;

/// A state of liquid alone or vapour alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SinglePhase {
    /// Temperature, C.
    pub temperature_c: f64,
    /// Enthalpy, J/kg; 200 kJ/kg for bubble liquid at 0 C.
    pub enthalpy_j_per_kg: f64,
    /// Density, kg/m3.
    pub density_kg_per_m3: f64,
}

/// Where a state lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Phase {
    /// Liquid, so far below its bubble point.
    Liquid {
        /// K.
        subcooling_k: f64,
    },
    /// Liquid and vapour together.
    Wet {
        /// Share of the heat of evaporation taken up, 0 to 1. Within 0.005 of the mass quality.
        quality: f64,
    },
    /// Vapour, so far above its dew point.
    Vapour {
        /// K.
        superheat_k: f64,
    },
}

/// Temperature and phase of a pressure and an enthalpy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct State {
    /// Temperature, C.
    pub temperature_c: f64,
    /// Liquid, wet or vapour.
    pub phase: Phase,
}

impl Refrigerant {
    /// Liquid colder than its bubble point.
    ///
    /// # Equation
    /// `h = hb - d g(ln p, d)`, `r = rb (1 + d k(ln p, d))`, `g` and `k` fitted polynomials
    /// # Symbols
    /// `d` subcooling, K; `hb`, `rb` enthalpy and density at the bubble point; `h` J/kg, `r`
    /// kg/m3.
    /// # Range
    /// Pressures of [`Refrigerant::range_c`], subcooling 0 to 50 K but not more than 10 K colder
    /// than the coldest saturation.
    /// # Source
    /// `coolprop`, single-phase states; bounds in the tables' heads.
    /// # Example
    /// ```
    /// use physics::refrigerant::{BubblePa, Refrigerant};
    /// let s = Refrigerant::R32.subcooled_liquid(BubblePa(2_478_000.0), 5.0).unwrap();
    /// assert!((s.temperature_c - 35.0).abs() < 0.1);
    /// ```
    /// # Errors
    /// Pressure or subcooling outside the range.
    pub fn subcooled_liquid(
        self,
        pressure: BubblePa,
        subcooling_k: f64,
    ) -> Result<SinglePhase, OutOfRange> {
        let side = self.liquid();
        let ln_p = ln_pressure(side, pressure.0)?;
        let bubble = side.temperature_c(ln_p);
        let most = side.enthalpy.reach.min(bubble - side.low_c + 10.0);
        let d = within("subcooling", "K", subcooling_k, 0.0, most)?;
        Ok(single(side, ln_p, bubble, d, -1.0))
    }

    /// Vapour warmer than its dew point.
    ///
    /// # Equation
    /// `h = hd + d g(ln p, d)`, `r = rd (1 + d k(ln p, d))`, `g` and `k` fitted polynomials
    /// # Symbols
    /// `d` superheat, K; `hd`, `rd` enthalpy and density at the dew point; `h` J/kg, `r` kg/m3.
    /// # Range
    /// Pressures of [`Refrigerant::range_c`], superheat 0 to 70 K.
    /// # Source
    /// `coolprop`, single-phase states; bounds in the tables' heads.
    /// # Example
    /// ```
    /// use physics::refrigerant::{DewPa, Refrigerant};
    /// let s = Refrigerant::R454B.superheated_vapour(DewPa(732_420.0), 5.0).unwrap();
    /// assert!((s.temperature_c - 5.0).abs() < 0.01);
    /// ```
    /// # Errors
    /// Pressure or superheat outside the range.
    pub fn superheated_vapour(
        self,
        pressure: DewPa,
        superheat_k: f64,
    ) -> Result<SinglePhase, OutOfRange> {
        let side = self.vapour();
        let ln_p = ln_pressure(side, pressure.0)?;
        let dew = side.temperature_c(ln_p);
        let d = within("superheat", "K", superheat_k, 0.0, side.enthalpy.reach)?;
        Ok(single(side, ln_p, dew, d, 1.0))
    }

    /// Temperature and phase of a pressure and an enthalpy.
    ///
    /// # Equation
    /// liquid `t = tb - e g(ln p, e)`, vapour `t = td + e g(ln p, e)`, `e` the enthalpy from the
    /// bubble or dew point; wet `t = tb + (td - tb) q (1 - b (1 - q))`
    /// # Symbols
    /// `tb`, `td` bubble and dew temperature, C; `q` share of the heat of evaporation; `b`
    /// curvature of the glide, `0.668 - 0.0054 tb` for R-454B, 0 for the others.
    /// # Range
    /// Pressures of [`Refrigerant::range_c`]; from 50 K of subcooling (not more than 10 K colder
    /// than the coldest saturation) to 70 K of superheat.
    /// # Source
    /// `coolprop`, single-phase states; bounds in the tables' heads; the glide within 0.07 K.
    /// # Example
    /// ```
    /// use physics::refrigerant::{Phase, Refrigerant};
    /// let s = Refrigerant::R32.state(813_900.0, 350_000.0).unwrap();
    /// assert!(matches!(s.phase, Phase::Wet { quality } if (quality - 0.475).abs() < 0.01));
    /// ```
    /// # Errors
    /// Pressure or enthalpy outside the range.
    #[inline]
    pub fn state(self, pressure_pa: f64, enthalpy_j_per_kg: f64) -> Result<State, OutOfRange> {
        let (liquid, vapour) = (self.liquid(), self.vapour());
        let ln_p = ln_pressure(liquid, pressure_pa)?;
        let at_bubble = liquid.enthalpy_at(ln_p);
        let below = at_bubble - enthalpy_j_per_kg;
        if below >= 0.0 {
            let most = liquid.temperature.reach;
            within("enthalpy below the bubble point", "J/kg", below, 0.0, most)?;
            let bubble = liquid.temperature_c(ln_p);
            let d = liquid.away(&liquid.temperature, ln_p, below);
            within(
                "liquid temperature",
                "C",
                bubble - d,
                liquid.low_c - 10.0,
                bubble,
            )?;
            return Ok(State {
                temperature_c: bubble - d,
                phase: Phase::Liquid { subcooling_k: d },
            });
        }
        // A blend's coldest dew point has a lower pressure than its coldest bubble point, and its
        // hottest too: the upper bound is the vapour's.
        check_ln_pressure(vapour, ln_p, pressure_pa)?;
        let dew = vapour.temperature_c(ln_p);
        let at_dew = vapour.enthalpy_at(ln_p);
        let above = enthalpy_j_per_kg - at_dew;
        if above >= 0.0 {
            let most = vapour.temperature.reach;
            within("enthalpy above the dew point", "J/kg", above, 0.0, most)?;
            let d = vapour.away(&vapour.temperature, ln_p, above);
            return Ok(State {
                temperature_c: dew + d,
                phase: Phase::Vapour { superheat_k: d },
            });
        }
        // Not a number reaches this line: it is neither below nor above.
        let heat = within("enthalpy", "J/kg", enthalpy_j_per_kg, at_bubble, at_dew)?;
        let bubble = liquid.temperature_c(ln_p);
        let quality = (heat - at_bubble) / (at_dew - at_bubble);
        let curve = if self.glides() {
            0.668 - 0.0054 * bubble
        } else {
            0.0
        };
        let share = quality * (1.0 - curve * (1.0 - quality));
        Ok(State {
            temperature_c: bubble + (dew - bubble) * share,
            phase: Phase::Wet { quality },
        })
    }
}

/// The state at a distance from saturation; `way` is 1 for warmer, -1 for colder.
fn single(side: &Side, ln_p: f64, saturated_c: f64, distance_k: f64, way: f64) -> SinglePhase {
    let enthalpy = side.away(&side.enthalpy, ln_p, distance_k);
    let density = side.away(&side.density, ln_p, distance_k);
    SinglePhase {
        temperature_c: saturated_c + way * distance_k,
        enthalpy_j_per_kg: side.at(saturated_c, ENTHALPY) + way * enthalpy,
        density_kg_per_m3: side.at(saturated_c, DENSITY) * (1.0 + density),
    }
}
