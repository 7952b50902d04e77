//! How bright the sky is around the sun and along the horizon.

/// Split of the sky's light: a ring around the sun, a band along the horizon, the rest even.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Brightness {
    /// Share of the diffuse light that comes from around the sun, 0 or more.
    pub around_sun: f64,
    /// Brightening (or darkening) of the horizon, as a share of the diffuse light.
    pub horizon: f64,
}

/// Coefficients F11 F12 F13 F21 F22 F23 for each class of sky clearness.
const CLASSES: [[f64; 6]; 8] = [
    [-0.008, 0.588, -0.062, -0.060, 0.072, -0.022],
    [0.130, 0.683, -0.151, -0.019, 0.066, -0.029],
    [0.330, 0.487, -0.221, 0.055, -0.064, -0.026],
    [0.568, 0.187, -0.295, 0.109, -0.152, -0.014],
    [0.873, -0.392, -0.362, 0.226, -0.462, 0.001],
    [1.132, -1.237, -0.412, 0.288, -0.823, 0.056],
    [1.060, -1.600, -0.359, 0.264, -1.127, 0.131],
    [0.678, -0.327, -0.250, 0.156, -1.377, 0.251],
];

/// Upper ends of the classes of clearness but the last.
const CLASS_ENDS: [f64; 7] = [1.065, 1.230, 1.500, 1.950, 2.800, 4.500, 6.200];

/// Smallest cosine of the zenith angle that the light around the sun is divided by: 85 degrees.
pub(crate) const LEAST_COS_ZENITH: f64 = 0.087_155_742_747_658_17;

const DEG: f64 = core::f64::consts::PI / 180.0;

/// Brightness of the sky by the all-weather model of 1990.
///
/// **Equation** e = ((D + B)/D + 1.041 z^3)/(1 + 1.041 z^3); s = D m / E;
/// around = max(0, F11 + F12 s + F13 z); horizon = F21 + F22 s + F23 z, F by class of e;
/// m = 1/(cos z + 0.50572 (a + 6.07995)^-1.6364)
///
/// **Symbols**
/// - e: clearness; s: brightness; z: zenith angle, rad; m: air mass
/// - D: diffuse on the horizontal, W/m2; B: beam facing the sun, W/m2
/// - E: sun outside the air, W/m2; a: apparent elevation of the sun, degrees
///
/// **Range** sun above the horizon, D above 0
///
/// **Source** `perez-1990`, tables 1 and 6, eq. 1, 2, 6 to 9; air mass `kasten-young-1989`;
/// table compared with `pvlib`, irradiance.perez, all sites composite 1990
///
/// **Example**
/// ```
/// let clear = climate::sun::brightness(0.7, 800.0, 100.0, 1366.1);
/// assert!(clear.around_sun > 0.3);
/// ```
pub fn brightness(
    cos_zenith: f64,
    dni_w_per_m2: f64,
    dhi_w_per_m2: f64,
    extraterrestrial_w_per_m2: f64,
) -> Brightness {
    if cos_zenith <= 0.0 || dhi_w_per_m2 <= 0.0 {
        return Brightness {
            around_sun: 0.0,
            horizon: 0.0,
        };
    }
    let zenith = libm::acos(cos_zenith.min(1.0));
    let cube = 1.041 * zenith * zenith * zenith;
    let clearness = ((dhi_w_per_m2 + dni_w_per_m2) / dhi_w_per_m2 + cube) / (1.0 + cube);
    let brightness = dhi_w_per_m2 * air_mass(cos_zenith, zenith) / extraterrestrial_w_per_m2;
    let class = CLASS_ENDS
        .iter()
        .take_while(|end| clearness >= **end)
        .count();
    let [f11, f12, f13, f21, f22, f23] = CLASSES[class];
    Brightness {
        around_sun: (f11 + f12 * brightness + f13 * zenith).max(0.0),
        horizon: f21 + f22 * brightness + f23 * zenith,
    }
}

/// Air mass; the apparent elevation takes the lift of standard air.
fn air_mass(cos_zenith: f64, zenith: f64) -> f64 {
    let true_deg = 90.0 - zenith / DEG;
    // The lift only counts where the sun is low; above 15 degrees it moves the air mass by
    // less than 0.3 per cent.
    let lift = if true_deg < 15.0 {
        super::refraction_deg(true_deg, 101_325.0, 12.0)
    } else {
        0.0
    };
    let apparent_deg = true_deg + lift;
    let sine = if lift > 0.0 {
        libm::sin(apparent_deg * DEG)
    } else {
        cos_zenith
    };
    // exp and log, because libm's pow is three times as slow and its last bits are not wanted.
    1.0 / (sine + 0.50572 * libm::exp(-1.6364 * libm::log(apparent_deg + 6.07995)))
}
