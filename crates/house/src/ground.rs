//! Heat through the ground by ISO 13370: slab, basement, crawl space, and the virtual ground
//! temperature that gives the hourly balance the same monthly mean flow.

mod contact;
mod crawl;

pub use contact::{floor_contact, swing_depth_m, virtual_temperatures_c, wall_contact};
pub use crawl::{Crawl, crawl_air_m3_per_s, suspended_floor_u_w_per_m2k};

use crate::describe::Soil;
use core::f64::consts::PI;

/// How a surface meets the ground.
#[derive(Debug, Clone, PartialEq)]
pub struct GroundContact {
    /// Soil layer carried in the hourly model, m (ISO 52016-1 uses 0.5 m).
    pub soil_m: f64,
    /// Resistance of the virtual layer between soil and virtual ground temperature, m2 K/W.
    pub virtual_r_m2k_per_w: f64,
    /// Steady transmittance of the whole path by ISO 13370, W/(m2 K), films included.
    pub u_w_per_m2k: f64,
    /// Periodic coefficient outdoors (heat flow amplitude per K of outdoor amplitude), W/(m2 K).
    pub periodic_w_per_m2k: f64,
    /// How many months the heat flow lags behind the outdoor temperature.
    pub lag_months: f64,
    /// What it was made of.
    pub path: GroundPath,
}

/// What heat meets on its way to the ground, beside the construction itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum GroundPath {
    /// A floor.
    Floor {
        /// Area of the whole ground floor, m2.
        area_m2: f64,
        /// Its exposed perimeter, m.
        perimeter_m: f64,
        /// Depth under grade, m.
        depth_m: f64,
    },
    /// A wall under grade.
    Wall {
        /// Depth of its foot under grade, m.
        depth_m: f64,
        /// Resistance of the floor at its foot without films, m2 K/W.
        floor_r_m2k_per_w: f64,
    },
}

/// Why ground heat flow cannot be computed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{what} is {got}, usable: {usable}")]
pub struct GroundError {
    /// Which quantity.
    pub what: &'static str,
    /// What it is.
    pub got: f64,
    /// What it may be.
    pub usable: &'static str,
}

/// Films of a floor on the ground, m2 K/W. Source: `iso-13370`, table 8.
const FILM_IN_DOWN_M2K_PER_W: f64 = 0.17;
/// Inside film of a basement wall, m2 K/W. Source: `iso-13370`, table 8.
const FILM_IN_LEVEL_M2K_PER_W: f64 = 0.13;
/// Outside film, m2 K/W. Source: `iso-13370`, table 8.
const FILM_OUT_M2K_PER_W: f64 = 0.04;

fn within(
    what: &'static str,
    got: f64,
    lo: f64,
    hi: f64,
    usable: &'static str,
) -> Result<(), GroundError> {
    if got >= lo && got <= hi {
        Ok(())
    } else {
        Err(GroundError { what, got, usable })
    }
}

fn check_soil(soil: &Soil) -> Result<(), GroundError> {
    within(
        "soil conductivity, W/(m K)",
        soil.k_w_per_mk,
        0.1,
        10.0,
        "0.1 to 10",
    )?;
    within(
        "soil heat capacity, J/(m3 K)",
        soil.capacity_j_per_m3k,
        1e5,
        1e7,
        "1e5 to 1e7",
    )?;
    within(
        "wall thickness at the ground, m",
        soil.wall_thickness_m,
        0.0,
        3.0,
        "0 to 3",
    )
}

/// Characteristic dimension of a floor, m.
///
/// **Equation** `B = A/(P/2)`.
/// **Symbols** A floor area (m2), P exposed perimeter (m).
/// **Range** both over zero.
/// **Source** `iso-13370`, 8.1.
/// **Example** 10 m by 10 m, all round exposed: B = 5 m.
/// ```
/// assert_eq!(house::ground::characteristic_m(100.0, 40.0), Ok(5.0));
/// ```
///
/// # Errors
/// Area or perimeter not over zero.
pub fn characteristic_m(area_m2: f64, perimeter_m: f64) -> Result<f64, GroundError> {
    within(
        "floor area, m2",
        area_m2,
        f64::MIN_POSITIVE,
        1e6,
        "over 0 to 1e6",
    )?;
    within(
        "exposed perimeter, m",
        perimeter_m,
        f64::MIN_POSITIVE,
        1e5,
        "over 0 to 1e5",
    )?;
    Ok(area_m2 / (0.5 * perimeter_m))
}

/// Transmittance of a floor on the ground, `depth_m` 0 for a slab on grade, else a basement floor.
///
/// **Equation** `d = w + k (Rsi + Rf + Rse)`, `e = d + z/2`;
/// `e < B`: `U = 2k/(pi B + e) ln(pi B/e + 1)`, else `U = k/(0.457 B + e)`.
/// **Symbols** k soil conductivity (W/(m K)), w wall thickness (m), Rf floor without films
/// (m2 K/W), Rsi 0.17, Rse 0.04, z depth of the floor (m), B characteristic dimension (m).
/// **Range** soil k 0.1 to 10, depth 0 to 10 m, B over 0.
/// **Source** `iso-13370`, 9.1 and 9.3.2.
/// **Example** k 1.5, w 0.3, no insulation, P/A 0.5 (B = 4): 0.70 W/(m2 K).
/// ```
/// use house::{describe::Soil, ground};
/// let soil = Soil { k_w_per_mk: 1.5, capacity_j_per_m3k: 3e6, wall_thickness_m: 0.3 };
/// let u = ground::floor_u_w_per_m2k(&soil, 4.0, 0.0, 0.0).unwrap();
/// assert_eq!((u * 100.0).round(), 70.0);
/// ```
///
/// # Errors
/// A value outside its range.
pub fn floor_u_w_per_m2k(
    soil: &Soil,
    characteristic_m: f64,
    floor_r_m2k_per_w: f64,
    depth_m: f64,
) -> Result<f64, GroundError> {
    check_soil(soil)?;
    within(
        "characteristic dimension, m",
        characteristic_m,
        f64::MIN_POSITIVE,
        1e6,
        "over 0",
    )?;
    within(
        "floor resistance, m2 K/W",
        floor_r_m2k_per_w,
        0.0,
        100.0,
        "0 to 100",
    )?;
    within("depth, m", depth_m, 0.0, 10.0, "0 to 10")?;
    let k = soil.k_w_per_mk;
    let b = characteristic_m;
    let e = floor_equivalent_m(soil, floor_r_m2k_per_w) + 0.5 * depth_m;
    Ok(if e < b {
        2.0 * k / (PI * b + e) * libm::log(PI * b / e + 1.0)
    } else {
        k / (0.457 * b + e)
    })
}

/// Transmittance of a basement wall under grade, mean over its depth.
///
/// **Equation** `dw = k (Rsi + Rw + Rse)`, `d = min(floor d, dw)`,
/// `U = 2k/(pi z) (1 + 0.5 d/(d + z)) ln(z/dw + 1)`.
/// **Symbols** as [`floor_u_w_per_m2k`]; Rw wall without films (m2 K/W), Rsi 0.13.
/// **Range** depth over 0 to 10 m.
/// **Source** `iso-13370`, 9.3.3.
/// **Example** deeper is warmer:
/// ```
/// use house::{describe::Soil, ground};
/// let soil = Soil::default();
/// let shallow = ground::basement_wall_u_w_per_m2k(&soil, 0.2, 0.2, 0.5).unwrap();
/// let deep = ground::basement_wall_u_w_per_m2k(&soil, 0.2, 0.2, 2.5).unwrap();
/// assert!(deep < shallow);
/// ```
///
/// # Errors
/// A value outside its range.
pub fn basement_wall_u_w_per_m2k(
    soil: &Soil,
    wall_r_m2k_per_w: f64,
    floor_r_m2k_per_w: f64,
    depth_m: f64,
) -> Result<f64, GroundError> {
    check_soil(soil)?;
    within(
        "wall resistance, m2 K/W",
        wall_r_m2k_per_w,
        0.0,
        100.0,
        "0 to 100",
    )?;
    within(
        "floor resistance, m2 K/W",
        floor_r_m2k_per_w,
        0.0,
        100.0,
        "0 to 100",
    )?;
    within("depth, m", depth_m, 1e-6, 10.0, "over 0 to 10")?;
    let k = soil.k_w_per_mk;
    let dw = wall_equivalent_m(soil, wall_r_m2k_per_w);
    let d = floor_equivalent_m(soil, floor_r_m2k_per_w).min(dw);
    Ok(2.0 * k / (PI * depth_m) * (1.0 + 0.5 * d / (d + depth_m)) * libm::log(depth_m / dw + 1.0))
}

/// Equivalent thickness of a floor, m.
fn floor_equivalent_m(soil: &Soil, floor_r_m2k_per_w: f64) -> f64 {
    soil.wall_thickness_m
        + soil.k_w_per_mk * (FILM_IN_DOWN_M2K_PER_W + floor_r_m2k_per_w + FILM_OUT_M2K_PER_W)
}

/// Equivalent thickness of a basement wall, m.
fn wall_equivalent_m(soil: &Soil, wall_r_m2k_per_w: f64) -> f64 {
    soil.k_w_per_mk * (FILM_IN_LEVEL_M2K_PER_W + wall_r_m2k_per_w + FILM_OUT_M2K_PER_W)
}
