//! What falls on a tilted surface, hour by hour.

use super::perez::{LEAST_COS_ZENITH, brightness};
use super::year::SunYear;
use crate::{Weather, WeatherError};

const DEG: f64 = core::f64::consts::PI / 180.0;

/// The way a surface looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Facet {
    /// Direction it faces, degrees from north clockwise; of no matter for a flat roof.
    pub azimuth_deg: f64,
    /// 0 looks up, 90 is a wall, 180 looks down.
    pub tilt_deg: f64,
}

/// Sun on one surface, mean over each hour, W/m2 of its area.
#[derive(Debug, Clone, PartialEq)]
pub struct FacetSun {
    /// Straight from the sun's disc.
    pub beam_w_per_m2: Vec<f64>,
    /// From the whole sky, the ring around the sun included.
    pub sky_diffuse_w_per_m2: Vec<f64>,
    /// The part of the sky's light that comes from around the sun and is shaded like the beam.
    /// Under odd skies it can exceed the whole, when the model darkens the horizon.
    pub around_sun_w_per_m2: Vec<f64>,
    /// Thrown back by the ground.
    pub ground_w_per_m2: Vec<f64>,
    /// Cosine of the angle between the sun and the surface's normal; below 0 behind it, 0 in a
    /// dark hour.
    pub cos_incidence: Vec<f64>,
}

impl FacetSun {
    /// Everything together in hour `h`, W/m2; 0 past the end.
    pub fn total_w_per_m2(&self, h: usize) -> f64 {
        let at = |c: &[f64]| c.get(h).copied().unwrap_or(0.0);
        at(&self.beam_w_per_m2) + at(&self.sky_diffuse_w_per_m2) + at(&self.ground_w_per_m2)
    }
}

/// Sun on surfaces over the year of a weather file.
///
/// **Equation** beam = B max(0, cos i); sky = D ((1 - F1)(1 + cos t)/2 + F1 a/b + F2 sin t),
/// not below 0; ground = G r (1 - cos t)/2; a = max(0, cos i), b = max(cos 85, cos z); with the
/// sun down the sky is even
///
/// **Symbols**
/// - B, D, G: beam facing the sun, diffuse and global on the horizontal, W/m2
/// - i: angle between sun and normal; t: tilt; z: zenith angle
/// - F1, F2: around the sun and horizon, see [`super::brightness`]; r: reflectance of the ground
///
/// **Range** reflectance 0 to 1, tilt 0 to 180
///
/// **Source** `perez-1990`, eq. 9
///
/// **Example**
/// ```
/// use climate::sun::{Facet, on_facets};
/// # let station = climate::Station { name: "a".into(), place: "b".into(), wmo: "0".into(),
/// #   latitude_deg: 45.0, longitude_deg: -90.0, utc_offset_h: -6.0, elevation_m: 100.0, source: "test".into() };
/// let weather = climate::Weather::constant(station, 0.0, -5.0, 2.0, 250.0)?;
/// let south = Facet { azimuth_deg: 180.0, tilt_deg: 90.0 };
/// let sun = on_facets(&weather, &[south], 0.2)?;
/// assert_eq!(sun[0].total_w_per_m2(12), 0.0);
/// # Ok::<(), climate::WeatherError>(())
/// ```
///
/// # Errors
/// Columns of unlike length, reflectance or tilt out of range.
pub fn on_facets(
    weather: &Weather,
    facets: &[Facet],
    ground_albedo: f64,
) -> Result<Vec<FacetSun>, WeatherError> {
    on_facets_with(&SunYear::of(weather), weather, facets, ground_albedo)
}

/// As [`on_facets`], with the sun's year worked out before.
///
/// # Errors
/// As [`on_facets`].
pub fn on_facets_with(
    sun: &SunYear,
    weather: &Weather,
    facets: &[Facet],
    ground_albedo: f64,
) -> Result<Vec<FacetSun>, WeatherError> {
    let n = weather.len();
    for (column, got) in [
        ("sun position", sun.up.len()),
        ("global horizontal", weather.ghi_w_per_m2.len()),
        ("direct normal", weather.dni_w_per_m2.len()),
        ("diffuse horizontal", weather.dhi_w_per_m2.len()),
    ] {
        if got != n {
            return Err(WeatherError::ColumnLength {
                column,
                got,
                want: n,
            });
        }
    }
    if !(0.0..=1.0).contains(&ground_albedo) {
        return Err(WeatherError::Value {
            column: "ground reflectance",
            hour: 0,
            got: ground_albedo,
            usable: "0 to 1",
        });
    }
    let surfaces = facets
        .iter()
        .map(Surface::of)
        .collect::<Result<Vec<_>, _>>()?;
    let sky = Sky::of(sun, weather);
    Ok(surfaces
        .iter()
        .map(|s| s.fill(sun, weather, &sky, ground_albedo))
        .collect())
}

/// The sky of each hour, shared by all surfaces.
struct Sky {
    /// Diffuse spread evenly, W/m2 horizontal.
    even: Vec<f64>,
    /// Diffuse around the sun, facing it, W/m2.
    around: Vec<f64>,
    /// Horizon band, W/m2.
    horizon: Vec<f64>,
}

impl Sky {
    fn of(sun: &SunYear, weather: &Weather) -> Self {
        let n = weather.len();
        let mut sky = Self {
            even: weather.dhi_w_per_m2.clone(),
            around: vec![0.0; n],
            horizon: vec![0.0; n],
        };
        for h in 0..n {
            let (up, dhi) = (sun.up[h], weather.dhi_w_per_m2[h]);
            if up > 0.0 && dhi > 0.0 {
                let b = brightness(
                    up,
                    weather.dni_w_per_m2[h],
                    dhi,
                    sun.extraterrestrial_w_per_m2[h],
                );
                sky.even[h] = dhi * (1.0 - b.around_sun);
                sky.around[h] = dhi * b.around_sun / up.max(LEAST_COS_ZENITH);
                sky.horizon[h] = dhi * b.horizon;
            }
        }
        sky
    }
}

/// A facet's fixed numbers.
struct Surface {
    east: f64,
    north: f64,
    up: f64,
    sine: f64,
}

impl Surface {
    fn of(facet: &Facet) -> Result<Self, WeatherError> {
        let bad = |column, got, usable| WeatherError::Value {
            column,
            hour: 0,
            got,
            usable,
        };
        if !(0.0..=180.0).contains(&facet.tilt_deg) {
            return Err(bad("tilt of a surface", facet.tilt_deg, "0 to 180 degrees"));
        }
        if !(-360.0..=360.0).contains(&facet.azimuth_deg) {
            return Err(bad(
                "azimuth of a surface",
                facet.azimuth_deg,
                "-360 to 360 degrees",
            ));
        }
        let (sine, up) = libm::sincos(facet.tilt_deg * DEG);
        let (sin_a, cos_a) = libm::sincos(facet.azimuth_deg * DEG);
        Ok(Self {
            east: sine * sin_a,
            north: sine * cos_a,
            up,
            sine,
        })
    }

    fn fill(&self, sun: &SunYear, weather: &Weather, sky: &Sky, albedo: f64) -> FacetSun {
        let n = weather.len();
        let sees_sky = 0.5 * (1.0 + self.up);
        let sees_ground = albedo * 0.5 * (1.0 - self.up);
        let cos_incidence: Vec<f64> = sun
            .east
            .iter()
            .zip(&sun.north)
            .zip(&sun.up)
            .map(|((e, n), u)| e * self.east + n * self.north + u * self.up)
            .collect();
        let mut of = FacetSun {
            beam_w_per_m2: Vec::with_capacity(n),
            sky_diffuse_w_per_m2: Vec::with_capacity(n),
            around_sun_w_per_m2: Vec::with_capacity(n),
            ground_w_per_m2: weather
                .ghi_w_per_m2
                .iter()
                .map(|g| g * sees_ground)
                .collect(),
            cos_incidence,
        };
        let front = || of.cos_incidence.iter().map(|c| c.max(0.0));
        of.beam_w_per_m2
            .extend(front().zip(&weather.dni_w_per_m2).map(|(c, b)| c * b));
        of.around_sun_w_per_m2
            .extend(front().zip(&sky.around).map(|(c, a)| c * a));
        of.sky_diffuse_w_per_m2.extend(
            sky.even
                .iter()
                .zip(&sky.horizon)
                .zip(&of.around_sun_w_per_m2)
                .map(|((e, h), a)| (e * sees_sky + h * self.sine + a).max(0.0)),
        );
        of
    }
}
