//! What the hourly balance needs: soil, virtual layer, virtual temperature.

use super::{
    FILM_IN_DOWN_M2K_PER_W, FILM_IN_LEVEL_M2K_PER_W, GroundContact, GroundError, GroundPath,
    basement_wall_u_w_per_m2k, characteristic_m, check_soil, floor_equivalent_m, floor_u_w_per_m2k,
    wall_equivalent_m,
};
use crate::describe::Soil;
use core::f64::consts::PI;

/// Soil carried in the hourly model, m. Source: `iso-52016-1`, 6.5.8.2.
const SOIL_M: f64 = 0.5;

/// Seconds in a year as the standard takes it. Source: `iso-13370`, annex H.
const YEAR_S: f64 = 3.15e7;

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
        GroundPath::Floor {
            area_m2,
            perimeter_m,
            depth_m,
        },
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
        GroundPath::Wall {
            depth_m,
            floor_r_m2k_per_w,
        },
    ))
}

/// Splits what is left of `1/u` after film and construction into soil and virtual layer.
fn contact(soil: &Soil, u: f64, inner_r: f64, hpe_per_m2: f64, path: GroundPath) -> GroundContact {
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
        path,
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
