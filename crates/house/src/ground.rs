//! Heat through the ground by ISO 13370: slab, basement, crawl space, and the virtual ground
//! temperature that gives the hourly balance the same monthly mean flow.

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

/// Soil carried in the hourly model, m. Source: `iso-52016-1`, 6.5.8.2.
const SOIL_M: f64 = 0.5;
/// Seconds in a year as the standard takes it. Source: `iso-13370`, annex H.
const YEAR_S: f64 = 3.15e7;
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

/// Transmittance of a floor over a ventilated crawl space, ground included.
///
/// **Equation** `1/U = 1/Uf + 1/(Ug + Ux)`, `Ux = 2 h Uw/B + 1450 e v f/B`.
/// **Symbols** Uf floor (W/(m2 K)), Ug ground under it, h crawl wall height over grade (m), Uw
/// crawl wall (W/(m2 K)), e vent opening per perimeter (m2/m), v mean wind at 10 m (m/s), f wind
/// shielding (1): 0.02 sheltered, 0.05 average, 0.10 exposed.
/// **Range** all over zero, h 0 to 3 m.
/// **Source** `iso-13370`, 9.2 and annex E.
/// **Example** Uf 0.3, Ug 0.4, h 0.5, Uw 1.5, B 5, e 0.0015, v 4, f 0.05: 0.217 W/(m2 K).
/// ```
/// use house::ground::{Crawl, suspended_floor_u_w_per_m2k};
/// let crawl = Crawl { height_m: 0.5, wall_u_w_per_m2k: 1.5, vent_m2_per_m: 0.0015,
///     wind_m_per_s: 4.0, wind_shielding: 0.05 };
/// let u = suspended_floor_u_w_per_m2k(0.3, 0.4, 5.0, &crawl).unwrap();
/// assert!((u - 0.2172).abs() < 0.0005, "{u}");
/// ```
///
/// # Errors
/// A value outside its range.
pub fn suspended_floor_u_w_per_m2k(
    floor_u_w_per_m2k: f64,
    ground_u_w_per_m2k: f64,
    characteristic_m: f64,
    crawl: &Crawl,
) -> Result<f64, GroundError> {
    within(
        "floor transmittance, W/(m2 K)",
        floor_u_w_per_m2k,
        1e-3,
        10.0,
        "0.001 to 10",
    )?;
    within(
        "ground transmittance, W/(m2 K)",
        ground_u_w_per_m2k,
        1e-3,
        10.0,
        "0.001 to 10",
    )?;
    within(
        "characteristic dimension, m",
        characteristic_m,
        f64::MIN_POSITIVE,
        1e6,
        "over 0",
    )?;
    within("crawl wall height, m", crawl.height_m, 0.0, 3.0, "0 to 3")?;
    let ux = 2.0 * crawl.height_m * crawl.wall_u_w_per_m2k / characteristic_m
        + vent_w_per_mk(crawl) / characteristic_m;
    Ok(1.0 / (1.0 / floor_u_w_per_m2k + 1.0 / (ground_u_w_per_m2k + ux)))
}

/// A ventilated crawl space.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crawl {
    /// Height of its walls over grade, m.
    pub height_m: f64,
    /// Transmittance of those walls, W/(m2 K).
    pub wall_u_w_per_m2k: f64,
    /// Vent opening per metre of perimeter, m2/m.
    pub vent_m2_per_m: f64,
    /// Mean wind at 10 m, m/s.
    pub wind_m_per_s: f64,
    /// Wind shielding factor.
    pub wind_shielding: f64,
}

/// `1450 e v f`, W/(m K).
fn vent_w_per_mk(crawl: &Crawl) -> f64 {
    1450.0 * crawl.vent_m2_per_m * crawl.wind_m_per_s * crawl.wind_shielding
}

/// Outdoor air through the vents of a crawl space, m3/s.
///
/// **Equation** `V = 1450 e v f (P/2) / 1200`.
/// **Symbols** as [`suspended_floor_u_w_per_m2k`]; P perimeter (m); 1200 J/(m3 K) heat capacity
/// of air.
/// **Range** perimeter over 0.
/// **Source** `iso-13370`, annex E, turned from a heat flow into an air flow.
/// **Example** 40 m, 0.0015 m2/m, 4 m/s, average shielding: 0.0073 m3/s.
///
/// # Errors
/// Perimeter not over zero.
pub fn crawl_air_m3_per_s(crawl: &Crawl, perimeter_m: f64) -> Result<f64, GroundError> {
    within(
        "exposed perimeter, m",
        perimeter_m,
        f64::MIN_POSITIVE,
        1e5,
        "over 0 to 1e5",
    )?;
    Ok(vent_w_per_mk(crawl) * 0.5 * perimeter_m / 1200.0)
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

/// Depth to which the yearly swing reaches, m.
///
/// **Equation** `delta = sqrt(3.15e7 k/(pi C))`.
/// **Symbols** k soil conductivity (W/(m K)), C heat capacity (J/(m3 K)).
/// **Range** soil k 0.1 to 10, C 1e5 to 1e7.
/// **Source** `iso-13370`, annex H.
/// **Example** sand or gravel, 2.0 and 2.0e6: 3.17 m (the standard prints 3.2).
/// ```
/// let d = house::ground::swing_depth_m(&house::describe::Soil::default()).unwrap();
/// assert!((d - 3.2).abs() < 0.05);
/// ```
///
/// # Errors
/// Soil values outside the range.
pub fn swing_depth_m(soil: &Soil) -> Result<f64, GroundError> {
    check_soil(soil)?;
    Ok(libm::sqrt(
        YEAR_S * soil.k_w_per_mk / (PI * soil.capacity_j_per_m3k),
    ))
}

/// A floor on the ground for the hourly balance: slab on grade or basement floor.
///
/// **Equation** `Hpe = 0.37 P k exp(-z/delta) ln(delta/d + 1)`, one month behind; the virtual
/// layer is `Rv = 1/U - Rsi - Rf - soil/k`.
/// **Symbols** P exposed perimeter (m), z depth (m), delta [`swing_depth_m`], d equivalent
/// thickness (m).
/// **Range** as [`floor_u_w_per_m2k`].
/// **Source** `iso-13370`, annex H; `iso-52016-1`, 6.5.8.2. Where so little resistance is left
/// that 0.5 m of soil would overdraw it, half of what is left is soil and half is virtual.
/// **Example** see `tests/ground.rs`.
///
/// # Errors
/// A value outside its range.
pub fn floor_contact(
    soil: &Soil,
    area_m2: f64,
    perimeter_m: f64,
    floor_r_m2k_per_w: f64,
    depth_m: f64,
) -> Result<GroundContact, GroundError> {
    let b = characteristic_m(area_m2, perimeter_m)?;
    let u = floor_u_w_per_m2k(soil, b, floor_r_m2k_per_w, depth_m)?;
    let delta = swing_depth_m(soil)?;
    let d = floor_equivalent_m(soil, floor_r_m2k_per_w);
    let hpe = 0.37
        * perimeter_m
        * soil.k_w_per_mk
        * libm::exp(-depth_m / delta)
        * libm::log(delta / d + 1.0);
    Ok(contact(
        soil,
        u,
        FILM_IN_DOWN_M2K_PER_W + floor_r_m2k_per_w,
        hpe / area_m2,
    ))
}

/// A basement wall under grade for the hourly balance. Per m2 of wall, whatever its length.
///
/// **Equation** `Hpe/(P z) = 0.37 k 2 (1 - exp(-z/delta)) ln(delta/dw + 1)/z`, one month behind.
/// **Symbols, Range, Source** as [`floor_contact`] and [`basement_wall_u_w_per_m2k`].
/// **Example** see `tests/ground.rs`.
///
/// # Errors
/// A value outside its range.
pub fn wall_contact(
    soil: &Soil,
    wall_r_m2k_per_w: f64,
    floor_r_m2k_per_w: f64,
    depth_m: f64,
) -> Result<GroundContact, GroundError> {
    let u = basement_wall_u_w_per_m2k(soil, wall_r_m2k_per_w, floor_r_m2k_per_w, depth_m)?;
    let delta = swing_depth_m(soil)?;
    let dw = wall_equivalent_m(soil, wall_r_m2k_per_w);
    let hpe = 0.37
        * soil.k_w_per_mk
        * 2.0
        * (1.0 - libm::exp(-depth_m / delta))
        * libm::log(delta / dw + 1.0)
        / depth_m;
    Ok(contact(
        soil,
        u,
        FILM_IN_LEVEL_M2K_PER_W + wall_r_m2k_per_w,
        hpe,
    ))
}

/// Splits what is left of `1/u` after film and construction into soil and virtual layer.
fn contact(soil: &Soil, u: f64, inner_r: f64, hpe_per_m2: f64) -> GroundContact {
    let left = 1.0 / u - inner_r;
    let whole = SOIL_M / soil.k_w_per_mk;
    let soil_r = if left > 1.1 * whole {
        whole
    } else {
        0.5 * left
    };
    GroundContact {
        soil_m: soil_r * soil.k_w_per_mk,
        virtual_r_m2k_per_w: left - soil_r,
        u_w_per_m2k: u,
        periodic_w_per_m2k: hpe_per_m2,
        lag_months: 1.0,
    }
}

/// Virtual ground temperature for each month, C: with it behind the virtual layer, the monthly
/// mean flow at a steady indoor temperature is that of ISO 13370.
///
/// **Equation** `flow_m = U (Ti - Te) + Hpe/A (Te - Te_(m-lag))`, so
/// `Tv_m = Te - Hpe/(A U) (Te - Te_(m-lag))`.
/// **Symbols** Te yearly mean outdoors (C), Te_m monthly means (C), Hpe/A and U of the contact.
/// The indoor temperature cancels; swings indoors are carried by the soil layer of the hourly
/// model and not by the standard's internal periodic coefficient.
/// **Range** any lag (the year repeats); between whole months by straight line.
/// **Source** `iso-13370`, annex F and H.
/// **Example** see `tests/ground.rs`.
pub fn virtual_temperatures_c(contact: &GroundContact, monthly_outdoor_c: &[f64; 12]) -> [f64; 12] {
    let mean = monthly_outdoor_c.iter().sum::<f64>() / 12.0;
    let lag = contact.lag_months.rem_euclid(12.0);
    let whole = lag as usize;
    let part = lag - whole as f64;
    let share = contact.periodic_w_per_m2k / contact.u_w_per_m2k;
    let mut out = [0.0; 12];
    for (m, v) in out.iter_mut().enumerate() {
        let near = monthly_outdoor_c[(m + 24 - whole) % 12];
        let far = monthly_outdoor_c[(m + 23 - whole) % 12];
        let then = near * (1.0 - part) + far * part;
        *v = mean - share * (mean - then);
    }
    out
}
