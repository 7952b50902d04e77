//! The two ASHRAE single-zone leakage models, for checks against their worked examples.

use crate::OutOfRange;
use crate::leak::PowerLaw;
use crate::range::within;

/// How many storeys above ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Storeys {
    /// One.
    One,
    /// Two.
    Two,
    /// Three.
    Three,
}

impl Storeys {
    /// Stack factor of the enhanced model for a house on a slab or basement, (Pa/K)^n.
    /// `ashrae-fundamentals-2017`, chapter 16, table 5 (second hand).
    pub fn stack_factor(self, flue: Flue) -> f64 {
        self.pick(match flue {
            Flue::Without => [0.054, 0.078, 0.098],
            Flue::With => [0.069, 0.089, 0.107],
        })
    }

    /// Wind factor of the enhanced model for a house on a slab or basement, (Pa s2/m2)^n.
    /// `ashrae-fundamentals-2017`, chapter 16, table 5 (second hand).
    pub fn wind_factor(self, flue: Flue) -> f64 {
        self.pick(match flue {
            Flue::Without => [0.156, 0.170, 0.170],
            Flue::With => [0.142, 0.156, 0.167],
        })
    }

    fn pick(self, of: [f64; 3]) -> f64 {
        let [one, two, three] = of;
        match self {
            Storeys::One => one,
            Storeys::Two => two,
            Storeys::Three => three,
        }
    }
}

/// Shelter from wind, ASHRAE classes 1 to 5.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Shelter {
    /// 1: no obstructions.
    None,
    /// 2: light: an isolated rural house.
    Light,
    /// 3: moderate: buildings across the street.
    Moderate,
    /// 4: heavy: urban, obstructions within one house height more than away.
    Heavy,
    /// 5: very heavy: obstructions closer than one house height.
    VeryHeavy,
}

/// Whether a flue or chimney is open to the house.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Flue {
    /// None.
    Without,
    /// At least one.
    With,
}

/// The basic (Sherman and Grimsrud) model.
///
/// # Equation
/// `Q = (A / 1000) sqrt(Cs dT + Cw U^2)`
/// # Symbols
/// `A` effective leakage area at 4 Pa, cm2; `dT` indoor minus outdoor temperature (its size), K;
/// `U` wind at the weather station, m/s; `Cs`, `Cw` table values; `Q` m3/s.
/// # Range
/// Area 0 to 1 m2, difference 0 to 90 K, wind 0 to 60 m/s. Hours of ordinary weather: at a cold
/// design hour the power law with its own stack is used instead.
/// # Source
/// `ashrae-fundamentals-2017`, chapter 16, equation 48, tables 4 and 6 (second hand).
/// # Example
/// ```
/// use physics::leak::{basic_m3_per_s, Shelter, Storeys};
/// // Two storeys, 500 cm2, 340 m3, class 3, 39 K, 6.7 m/s: 0.78 air changes an hour.
/// let q = basic_m3_per_s(0.05, Storeys::Two, Shelter::Moderate, 39.0, 6.7).unwrap();
/// assert!((q * 3600.0 / 340.0 - 0.78).abs() < 0.005);
/// ```
/// # Errors
/// An input outside the range.
pub fn basic_m3_per_s(
    leakage_area_m2: f64,
    storeys: Storeys,
    shelter: Shelter,
    difference_k: f64,
    wind_m_per_s: f64,
) -> Result<f64, OutOfRange> {
    let area_cm2 = within("leakage area", "m2", leakage_area_m2, 0.0, 1.0)? * 1e4;
    let d = within(
        "indoor to outdoor difference",
        "K",
        difference_k,
        -90.0,
        90.0,
    )?
    .abs();
    let u = within("wind", "m/s", wind_m_per_s, 0.0, 60.0)?;
    let cs = storeys.pick([0.000145, 0.000290, 0.000435]);
    let cw = storeys.pick(match shelter {
        Shelter::None => [0.000319, 0.000420, 0.000494],
        Shelter::Light => [0.000246, 0.000325, 0.000382],
        Shelter::Moderate => [0.000174, 0.000231, 0.000271],
        Shelter::Heavy => [0.000104, 0.000137, 0.000161],
        Shelter::VeryHeavy => [0.000032, 0.000042, 0.000049],
    });
    Ok(area_cm2 / 1000.0 * libm::sqrt(cs * d + cw * u * u))
}

/// The enhanced model, for houses on a slab or basement.
///
/// # Equation
/// `Qs = c Cs dT^n`, `Qw = c Cw (s G U)^(2n)`, `Q = sqrt(Qs^2 + Qw^2)`
/// # Symbols
/// `c`, `n` the house's power law, m3/(s Pa^n); `Cs` (Pa/K)^n, `Cw` (Pa s2/m2)^n table values;
/// `s` shelter factor, `G` wind speed multiplier, 1; `U` wind at the station, m/s; `Q` m3/s.
/// # Range
/// Difference 0 to 90 K, wind 0 to 60 m/s, shelter factor and multiplier 0 to 1.5.
/// # Source
/// `ashrae-fundamentals-2017`, chapter 16, equations 49 and 50, tables 5, 7 (second hand).
/// # Example
/// ```
/// use physics::leak::{enhanced_m3_per_s, Flue, PowerLaw, Storeys};
/// let house = PowerLaw::from_test(1.0, 50.0, 0.65).unwrap();
/// let q = enhanced_m3_per_s(&house, Storeys::Two, Flue::Without, 40.0, 0.0, 0.5, 0.59).unwrap();
/// assert!((q - house.coefficient() * 0.078 * 40.0_f64.powf(0.65)).abs() < 1e-12);
/// ```
/// # Errors
/// An input outside the range.
pub fn enhanced_m3_per_s(
    house: &PowerLaw,
    storeys: Storeys,
    flue: Flue,
    difference_k: f64,
    wind_m_per_s: f64,
    shelter_factor: f64,
    wind_multiplier: f64,
) -> Result<f64, OutOfRange> {
    let d = within(
        "indoor to outdoor difference",
        "K",
        difference_k,
        -90.0,
        90.0,
    )?
    .abs();
    let u = within("wind", "m/s", wind_m_per_s, 0.0, 60.0)?;
    let s = within("shelter factor", "of 1", shelter_factor, 0.0, 1.5)?;
    let g = within("wind speed multiplier", "of 1", wind_multiplier, 0.0, 1.5)?;
    let (cs, cw) = (storeys.stack_factor(flue), storeys.wind_factor(flue));
    let (c, n) = (house.coefficient(), house.exponent());
    let stack = c * cs * libm::pow(d, n);
    let wind = c * cw * libm::pow(s * g * u, 2.0 * n);
    Ok(super::combined_m3_per_s(stack, wind))
}

/// Effective leakage area of a house at the customary 4 Pa.
///
/// # Equation
/// `A = Q(4 Pa) sqrt(r / (2 x 4 Pa))`
/// # Symbols
/// `Q` flow at 4 Pa by the power law, m3/s; `r` air density, kg/m3; `A` m2.
/// # Range
/// Density 0.5 to 2 kg/m3. Discharge coefficient 1.
/// # Source
/// `ashrae-fundamentals-2017`, chapter 16, equation 42.
/// # Example
/// ```
/// let house = physics::leak::PowerLaw::from_test(1.0, 50.0, 0.65).unwrap();
/// let area = physics::leak::effective_area_m2(&house, 1.2).unwrap();
/// assert!((area - 0.07502).abs() < 1e-4);
/// ```
/// # Errors
/// Density outside the range.
pub fn effective_area_m2(house: &PowerLaw, density_kg_per_m3: f64) -> Result<f64, OutOfRange> {
    let r = within("air density", "kg/m3", density_kg_per_m3, 0.5, 2.0)?;
    Ok(house.flow_m3_per_s(4.0) * libm::sqrt(r / 8.0))
}
