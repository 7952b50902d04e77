//! Heat between a surface and the air or the surfaces around it.
//!
//! Inside: the natural convection of TARP (Walton), because it knows the direction of heat flow
//! and the tilt, needs nothing but the temperature difference, and is what the reference
//! programs of Standard 140 use or resemble. Outside: the DOE-2 combination of that natural
//! part with wind measured on houses (`MoWiTT`), scaled by roughness, because the wind numbers
//! come from low-rise walls out of doors and not from a wind tunnel.

use crate::OutOfRange;
use crate::range::within;

/// Stefan-Boltzmann constant, W/(m2 K4). Exact since the 2019 SI.
pub const STEFAN_BOLTZMANN: f64 = 5.670374419e-8;

/// Natural convection between a surface and still air.
///
/// # Equation
/// Vertical `h = 1.31 d^(1/3)`; heat going with gravity's help (warm floor, cold ceiling)
/// `h = 9.482 d^(1/3) / (7.238 - |c|)`; against it (cold floor, warm ceiling)
/// `h = 1.810 d^(1/3) / (1.382 + |c|)`.
/// # Symbols
/// `d` absolute temperature difference of surface and air, K; `c` upward part of the unit normal
/// that points from the surface into the air: floor 1, wall 0, ceiling -1; `h` W/(m2 K).
/// # Range
/// Differences up to 200 K, `c` from -1 to 1.
/// # Source
/// `walton-1983`, TARP reference manual, natural convection (from memory).
/// # Example
/// ```
/// let h = physics::film::natural_w_per_m2k(-8.0, 0.0).unwrap();
/// assert!((h - 2.62).abs() < 1e-12);
/// ```
/// # Errors
/// An input outside the range.
#[inline]
pub fn natural_w_per_m2k(surface_minus_air_k: f64, normal_up: f64) -> Result<f64, OutOfRange> {
    let d = within(
        "surface to air difference",
        "K",
        surface_minus_air_k,
        -200.0,
        200.0,
    )?;
    let c = within("upward part of the normal", "of 1", normal_up, -1.0, 1.0)?;
    let root = libm::cbrt(d.abs());
    // |c| below this is a wall: 0.001 is a tilt of 0.06 degrees.
    Ok(if c.abs() < 1e-3 {
        1.31 * root
    } else if d * c > 0.0 {
        9.482 * root / (7.238 - c.abs())
    } else {
        1.810 * root / (1.382 + c.abs())
    })
}

/// How rough an outside surface is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Roughness {
    /// Stucco.
    VeryRough,
    /// Brick, shingles.
    Rough,
    /// Concrete.
    MediumRough,
    /// Clear pine, lap siding.
    MediumSmooth,
    /// Smooth plaster, metal.
    Smooth,
    /// Glass, paint on pine.
    VerySmooth,
}

impl Roughness {
    /// Multiplier on the wind's part, 1. `walton-1983`, after ASHRAE wind tunnel data (from
    /// memory).
    pub fn multiplier(self) -> f64 {
        match self {
            Roughness::VeryRough => 2.17,
            Roughness::Rough => 1.67,
            Roughness::MediumRough => 1.52,
            Roughness::MediumSmooth => 1.13,
            Roughness::Smooth => 1.11,
            Roughness::VerySmooth => 1.00,
        }
    }
}

/// Whether the wind blows at the surface or comes round the house.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum WindSide {
    /// Within 90 degrees of the wind, and all near-horizontal surfaces.
    Windward,
    /// The rest.
    Leeward,
}

/// Convection of an outside surface by wind and buoyancy together.
///
/// # Equation
/// `hg = sqrt(hn^2 + (a v^b)^2)`, `h = hn + r (hg - hn)`
/// # Symbols
/// `hn` natural convection as inside, W/(m2 K); `v` wind at the surface's height, m/s; `a`, `b`
/// 3.26 and 0.89 windward, 3.55 and 0.617 leeward; `r` roughness multiplier; `h` W/(m2 K).
/// # Range
/// Wind 0 to 60 m/s.
/// # Source
/// `yazdanian-klems-1994` (the wind part), combined as in the DOE-2 program (from memory).
/// # Example
/// ```
/// use physics::film::{outside_w_per_m2k, Roughness, WindSide};
/// let h = outside_w_per_m2k(5.0, 3.0, 0.0, WindSide::Windward, Roughness::VerySmooth).unwrap();
/// assert!((h - 8.9515).abs() < 1e-3);
/// ```
/// # Errors
/// An input outside the range.
#[inline]
pub fn outside_w_per_m2k(
    surface_minus_air_k: f64,
    wind_m_per_s: f64,
    normal_up: f64,
    side: WindSide,
    roughness: Roughness,
) -> Result<f64, OutOfRange> {
    let v = within("wind", "m/s", wind_m_per_s, 0.0, 60.0)?;
    let natural = natural_w_per_m2k(surface_minus_air_k, normal_up)?;
    let wind = match side {
        WindSide::Windward => 3.26 * libm::pow(v, 0.89),
        WindSide::Leeward => 3.55 * libm::pow(v, 0.617),
    };
    let glass = libm::sqrt(natural * natural + wind * wind);
    Ok(natural + roughness.multiplier() * (glass - natural))
}

/// Longwave radiation made linear: heat per degree between two grey surfaces that see only each
/// other.
///
/// # Equation
/// `h = 4 e s Tm^3`
/// # Symbols
/// `e` emittance (of the pair), 1; `s` Stefan-Boltzmann constant; `Tm` mean temperature, K;
/// `h` W/(m2 K).
/// # Range
/// Emittance 0 to 1, -100 to 200 C. Within 0.3 % of the fourth powers for 30 K apart.
/// # Source
/// `iso-6946`, annex C (radiative coefficient of a surface).
/// # Example
/// ```
/// let h = physics::film::longwave_w_per_m2k(0.9, 20.0).unwrap();
/// assert!((h - 5.143).abs() < 1e-3);
/// ```
/// # Errors
/// An input outside the range.
#[inline]
pub fn longwave_w_per_m2k(emittance: f64, mean_c: f64) -> Result<f64, OutOfRange> {
    let e = within("emittance", "of 1", emittance, 0.0, 1.0)?;
    let t = within("mean surface temperature", "C", mean_c, -100.0, 200.0)? + 273.15;
    Ok(4.0 * e * STEFAN_BOLTZMANN * t * t * t)
}

/// Which way heat flows through a building element.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HeatFlow {
    /// Through walls: within 30 degrees of horizontal.
    Horizontal,
    /// Up through a ceiling or roof.
    Up,
    /// Down through a floor.
    Down,
}

/// Conventional film resistances for U-values.
///
/// # Equation
/// table: inside 0.13 horizontal, 0.10 up, 0.17 down; outside 0.04.
/// # Symbols
/// results: inside and outside resistance, m2 K/W.
/// # Range
/// Plane surfaces of emittance 0.9; outside wind 4 m/s.
/// # Source
/// `iso-6946`, table 7.
/// # Example
/// ```
/// use physics::film::{surface_resistances_m2k_per_w, HeatFlow};
/// assert_eq!(surface_resistances_m2k_per_w(HeatFlow::Horizontal), (0.13, 0.04));
/// ```
pub fn surface_resistances_m2k_per_w(flow: HeatFlow) -> (f64, f64) {
    let inside = match flow {
        HeatFlow::Horizontal => 0.13,
        HeatFlow::Up => 0.10,
        HeatFlow::Down => 0.17,
    };
    (inside, 0.04)
}
