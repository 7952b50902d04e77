//! Floors over a vented crawl space.

use super::{GroundError, within};

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
