//! Saturation: pressure, temperature and what liquid and vapour are there.

use super::fit::Side;
use super::points::{BubbleC, BubblePa, DewC, DewPa};
use super::{Refrigerant, tables};
use crate::OutOfRange;
use crate::range::within;

const PRESSURE: usize = 0;
pub(super) const DENSITY: usize = 1;
pub(super) const ENTHALPY: usize = 2;

/// Liquid about to boil.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SaturatedLiquid {
    /// Its pressure.
    pub pressure: BubblePa,
    /// Density, kg/m3.
    pub density_kg_per_m3: f64,
    /// Enthalpy, J/kg; 200 kJ/kg for bubble liquid at 0 C.
    pub enthalpy_j_per_kg: f64,
    /// Specific heat at constant pressure, J/(kg K).
    pub specific_heat_j_per_kgk: f64,
    /// Viscosity, Pa s.
    pub viscosity_pa_s: f64,
}

/// Vapour about to condense.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SaturatedVapour {
    /// Its pressure.
    pub pressure: DewPa,
    /// Density, kg/m3.
    pub density_kg_per_m3: f64,
    /// Enthalpy, J/kg; 200 kJ/kg for bubble liquid at 0 C.
    pub enthalpy_j_per_kg: f64,
    /// Specific heat at constant pressure, J/(kg K).
    pub specific_heat_j_per_kgk: f64,
    /// Viscosity, Pa s.
    pub viscosity_pa_s: f64,
}

impl Refrigerant {
    pub(super) fn liquid(self) -> &'static Side {
        match self {
            Refrigerant::R32 => &tables::r32_liquid::SIDE,
            Refrigerant::R410A => &tables::r410a_liquid::SIDE,
            Refrigerant::R454B => &tables::r454b_liquid::SIDE,
            Refrigerant::R290 => &tables::r290_liquid::SIDE,
        }
    }

    pub(super) fn vapour(self) -> &'static Side {
        match self {
            Refrigerant::R32 => &tables::r32_vapour::SIDE,
            Refrigerant::R410A => &tables::r410a_vapour::SIDE,
            Refrigerant::R454B => &tables::r454b_vapour::SIDE,
            Refrigerant::R290 => &tables::r290_vapour::SIDE,
        }
    }

    /// Usable saturation temperatures, C: coldest and hottest.
    pub fn range_c(self) -> (f64, f64) {
        (self.liquid().low_c, self.liquid().high_c)
    }

    /// Pressure at which liquid of a temperature begins to boil.
    ///
    /// # Equation
    /// fit: a polynomial of degree 5 in each of 13 equal steps of temperature
    /// # Symbols
    /// bubble temperature, C; result, Pa absolute.
    /// # Range
    /// [`Refrigerant::range_c`]: -60 C (R-454B -50 C) to 60 C (R-32 65 C, R-290 70 C).
    /// # Source
    /// `coolprop`, saturation at quality 0; bound in the table's head.
    /// # Example
    /// ```
    /// use physics::refrigerant::{BubbleC, Refrigerant};
    /// // Handbook table: R-32 at 20 C, 14.759 bar.
    /// let p = Refrigerant::R32.bubble_pressure(BubbleC(20.0)).unwrap();
    /// assert!((p.0 / 1e5 - 14.759).abs() < 0.02);
    /// ```
    /// # Errors
    /// Temperature outside the range.
    #[inline]
    pub fn bubble_pressure(self, bubble: BubbleC) -> Result<BubblePa, OutOfRange> {
        let side = self.liquid();
        Ok(BubblePa(side.at(temperature(side, bubble.0)?, PRESSURE)))
    }

    /// Pressure at which vapour of a temperature begins to condense.
    ///
    /// # Equation
    /// fit: as [`Refrigerant::bubble_pressure`]
    /// # Symbols
    /// dew temperature, C; result, Pa absolute.
    /// # Range
    /// [`Refrigerant::range_c`].
    /// # Source
    /// `coolprop`, saturation at quality 1; bound in the table's head.
    /// # Example
    /// ```
    /// use physics::refrigerant::{DewC, Refrigerant};
    /// // Reference: R-454B at 0 C, dew 732.42 kPa (bubble 767.41).
    /// let p = Refrigerant::R454B.dew_pressure(DewC(0.0)).unwrap();
    /// assert!((p.0 - 732_420.0).abs() < 10.0);
    /// ```
    /// # Errors
    /// Temperature outside the range.
    #[inline]
    pub fn dew_pressure(self, dew: DewC) -> Result<DewPa, OutOfRange> {
        let side = self.vapour();
        Ok(DewPa(side.at(temperature(side, dew.0)?, PRESSURE)))
    }

    /// Temperature at which liquid of a pressure begins to boil.
    ///
    /// # Equation
    /// fit over `ln p`: a polynomial of degree 5 in each of 13 equal steps
    /// # Symbols
    /// pressure at the liquid line, Pa absolute; result, C.
    /// # Range
    /// The pressures of [`Refrigerant::range_c`].
    /// # Source
    /// `coolprop`, saturation at quality 0; bound in the table's head.
    /// # Example
    /// ```
    /// use physics::refrigerant::{BubblePa, Refrigerant};
    /// let t = Refrigerant::R32.bubble_temperature(BubblePa(1_475_900.0)).unwrap();
    /// assert!((t.0 - 20.0).abs() < 0.05);
    /// ```
    /// # Errors
    /// Pressure outside the range.
    #[inline]
    pub fn bubble_temperature(self, pressure: BubblePa) -> Result<BubbleC, OutOfRange> {
        let side = self.liquid();
        Ok(BubbleC(side.temperature_c(ln_pressure(side, pressure.0)?)))
    }

    /// Temperature at which vapour of a pressure begins to condense.
    ///
    /// # Equation
    /// fit: as [`Refrigerant::bubble_temperature`]
    /// # Symbols
    /// pressure at the vapour line, Pa absolute; result, C.
    /// # Range
    /// The pressures of [`Refrigerant::range_c`].
    /// # Source
    /// `coolprop`, saturation at quality 1; bound in the table's head.
    /// # Example
    /// ```
    /// use physics::refrigerant::{DewPa, Refrigerant};
    /// let t = Refrigerant::R454B.dew_temperature(DewPa(732_420.0)).unwrap();
    /// assert!(t.0.abs() < 0.01);
    /// ```
    /// # Errors
    /// Pressure outside the range.
    #[inline]
    pub fn dew_temperature(self, pressure: DewPa) -> Result<DewC, OutOfRange> {
        let side = self.vapour();
        Ok(DewC(side.temperature_c(ln_pressure(side, pressure.0)?)))
    }

    /// Liquid about to boil: density, enthalpy, specific heat, viscosity.
    ///
    /// # Equation
    /// fit: as [`Refrigerant::bubble_pressure`]
    /// # Symbols
    /// bubble temperature, C; results as named in [`SaturatedLiquid`].
    /// # Range
    /// [`Refrigerant::range_c`].
    /// # Source
    /// `coolprop`, saturation at quality 0. Viscosity of R-454B: molar-log mixing of the pure
    /// liquids, because the library's mixture value is impossible; the same rule gives R-410A
    /// within 6.2 % at -40 C and 1.1 % from 0 to 55 C.
    /// # Example
    /// ```
    /// use physics::refrigerant::{BubbleC, Refrigerant};
    /// let l = Refrigerant::R32.saturated_liquid(BubbleC(0.0)).unwrap();
    /// assert!((l.enthalpy_j_per_kg - 200_000.0).abs() < 5.0);
    /// ```
    /// # Errors
    /// Temperature outside the range.
    #[inline]
    pub fn saturated_liquid(self, bubble: BubbleC) -> Result<SaturatedLiquid, OutOfRange> {
        let side = self.liquid();
        let [pressure, density, enthalpy, heat, viscosity] = side.all(temperature(side, bubble.0)?);
        Ok(SaturatedLiquid {
            pressure: BubblePa(pressure),
            density_kg_per_m3: density,
            enthalpy_j_per_kg: enthalpy,
            specific_heat_j_per_kgk: heat,
            viscosity_pa_s: viscosity,
        })
    }

    /// Vapour about to condense: density, enthalpy, specific heat, viscosity.
    ///
    /// # Equation
    /// fit: as [`Refrigerant::bubble_pressure`]
    /// # Symbols
    /// dew temperature, C; results as named in [`SaturatedVapour`].
    /// # Range
    /// [`Refrigerant::range_c`].
    /// # Source
    /// `coolprop`, saturation at quality 1. Viscosity of R-454B: Wilke's mixing of the pure
    /// vapours; the same rule gives R-410A within 5.7 %.
    /// # Example
    /// ```
    /// use physics::refrigerant::{DewC, Refrigerant};
    /// // Handbook table: R-32 vapour at 0 C, 21.997 kg/m3.
    /// let v = Refrigerant::R32.saturated_vapour(DewC(0.0)).unwrap();
    /// assert!((v.density_kg_per_m3 - 21.997).abs() < 0.1);
    /// ```
    /// # Errors
    /// Temperature outside the range.
    #[inline]
    pub fn saturated_vapour(self, dew: DewC) -> Result<SaturatedVapour, OutOfRange> {
        let side = self.vapour();
        let [pressure, density, enthalpy, heat, viscosity] = side.all(temperature(side, dew.0)?);
        Ok(SaturatedVapour {
            pressure: DewPa(pressure),
            density_kg_per_m3: density,
            enthalpy_j_per_kg: enthalpy,
            specific_heat_j_per_kgk: heat,
            viscosity_pa_s: viscosity,
        })
    }
}

#[inline]
fn temperature(side: &Side, t_c: f64) -> Result<f64, OutOfRange> {
    within("saturation temperature", "C", t_c, side.low_c, side.high_c)
}

#[inline]
pub(super) fn ln_pressure(side: &Side, pa: f64) -> Result<f64, OutOfRange> {
    let ln_p = libm::log(pa);
    check_ln_pressure(side, ln_p, pa)?;
    Ok(ln_p)
}

#[inline]
pub(super) fn check_ln_pressure(side: &Side, ln_p: f64, pa: f64) -> Result<(), OutOfRange> {
    if ln_p >= side.ln_low && ln_p <= side.ln_high {
        Ok(())
    } else {
        Err(outside(side, pa))
    }
}

#[cold]
fn outside(side: &Side, got: f64) -> OutOfRange {
    OutOfRange {
        what: "saturation pressure",
        unit: "Pa",
        got,
        low: libm::exp(side.ln_low),
        high: libm::exp(side.ln_high),
    }
}
