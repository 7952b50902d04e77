//! Heat between a face and the air, ready for the hourly loop: the formulas of
//! [`physics::film`], their constant parts worked out once.

use physics::film::{Roughness, WindSide, natural_w_per_m2k, outside_w_per_m2k};

/// Which way an inside face looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Looks {
    /// Sideways (a wall).
    Level,
    /// Down into the room (a ceiling).
    Down,
    /// Up into the room (a floor).
    Up,
}

impl Looks {
    /// For an inside face whose outside face has this tilt (0 roof, 90 wall, 180 floor).
    pub fn of_tilt(tilt_deg: f64) -> Self {
        if tilt_deg < 30.0 {
            Self::Down
        } else if tilt_deg > 150.0 {
            Self::Up
        } else {
            Self::Level
        }
    }

    /// Natural convection at a difference of 1 K, W/(m2 K), with the air warmer and with the face
    /// warmer; it grows with the cube root of the difference.
    pub fn natural_at_1_k(self) -> [f64; 2] {
        // Upward part of the normal that points into the room.
        let up = match self {
            Self::Level => 0.0,
            Self::Down => -1.0,
            Self::Up => 1.0,
        };
        [-1.0, 1.0].map(|face_minus_air| natural_w_per_m2k(face_minus_air, up).unwrap_or(0.0))
    }

    /// How fast the heat grows with the difference of air and face, W/(m2 K).
    pub fn slope_w_per_m2k(self, air_minus_face_k: f64) -> f64 {
        let [air_warmer, face_warmer] = self.natural_at_1_k();
        let at_1_k = if air_minus_face_k > 0.0 {
            air_warmer
        } else {
            face_warmer
        };
        4.0 / 3.0 * at_1_k * libm::cbrt(air_minus_face_k.abs())
    }

    /// Coefficient that stands in the constant matrix; the formula's difference to it goes to the
    /// right-hand side. At least half of the steepest slope met in a house, so that the
    /// iteration settles.
    pub fn constant_w_per_m2k(self) -> f64 {
        match self {
            Self::Level => 2.2,
            Self::Down | Self::Up => 1.8,
        }
    }
}

/// Convection outside, tabulated so that a face costs two look-ups an hour.
#[derive(Debug, Clone)]
pub struct OutsideFilm {
    /// Wind part over wind speed, windward and leeward, W/(m2 K).
    wind: [Vec<f64>; 2],
    /// Cube root over temperature difference.
    root: Vec<f64>,
}

/// Steps of the table of cube roots per kelvin.
const ROOTS_PER_K: f64 = 8.0;
/// Steps of the wind table per m/s, and its reach, m/s.
const WIND_STEPS: f64 = 10.0;
const WIND_REACH: usize = 60;

impl OutsideFilm {
    /// Tabulates the parts of [`physics::film::outside_w_per_m2k`].
    pub fn new() -> Self {
        let wind = |side| {
            (0..=WIND_REACH * WIND_STEPS as usize)
                .map(|i| {
                    let v = i as f64 / WIND_STEPS;
                    outside_w_per_m2k(0.0, v, 0.0, side, Roughness::VerySmooth).unwrap_or(0.0)
                })
                .collect()
        };
        Self {
            wind: [wind(WindSide::Windward), wind(WindSide::Leeward)],
            root: (0..=40 * ROOTS_PER_K as i32)
                .map(|i| libm::cbrt(f64::from(i) / ROOTS_PER_K))
                .collect(),
        }
    }

    /// Wind part, W/(m2 K), before roughness.
    #[inline]
    pub fn wind_w_per_m2k(&self, v_m_per_s: f64, side: WindSide) -> f64 {
        look_up(
            &self.wind[usize::from(side == WindSide::Leeward)],
            v_m_per_s * WIND_STEPS,
        )
    }

    /// Wind and buoyancy together; `warmer_k` is face minus air.
    #[inline]
    pub fn both_w_per_m2k(&self, wind_part: f64, warmer_k: f64, shape: &OuterShape) -> f64 {
        let root = look_up(&self.root, warmer_k.abs() * ROOTS_PER_K);
        let natural = root
            * if warmer_k > 0.0 {
                shape.when_warm
            } else {
                shape.when_cold
            };
        let glass = (natural * natural + wind_part * wind_part).sqrt();
        natural + shape.roughness * (glass - natural)
    }
}

impl Default for OutsideFilm {
    fn default() -> Self {
        Self::new()
    }
}

/// What an outside face's tilt and roughness come to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OuterShape {
    /// Natural coefficient at 1 K, face warmer than air.
    pub when_warm: f64,
    /// Natural coefficient at 1 K, face colder than air.
    pub when_cold: f64,
    /// Multiplier on the wind's part.
    pub roughness: f64,
}

impl OuterShape {
    /// For a face of this tilt (0 looks up).
    pub fn new(tilt_deg: f64, roughness: Roughness) -> Self {
        let up = libm::cos(tilt_deg.to_radians());
        Self {
            when_warm: natural_w_per_m2k(1.0, up).unwrap_or(1.31),
            when_cold: natural_w_per_m2k(-1.0, up).unwrap_or(1.31),
            roughness: roughness.multiplier(),
        }
    }
}

#[inline]
fn look_up(table: &[f64], x: f64) -> f64 {
    let i = (x.max(0.0) as usize).min(table.len() - 2);
    table[i] + (x - i as f64) * (table[i + 1] - table[i])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Vertical 1.31 d^(1/3); a warm floor 9.482 / 6.238, a cold floor 1.810 / 2.382 (Walton, TARP).
    #[test]
    fn looks_tell_help_from_hindrance() {
        assert_eq!(Looks::Level.natural_at_1_k(), [1.31; 2]);
        let [cold, warm] = Looks::Up.natural_at_1_k();
        assert!((warm - 9.482 / 6.238).abs() < 1e-12 && (cold - 1.810 / 2.382).abs() < 1e-12);
        assert_eq!(Looks::Down.natural_at_1_k(), [warm, cold]);
        let heat = |dt: f64| warm * libm::cbrt(dt) * dt;
        let slope = (heat(2.001) - heat(1.999)) / 0.002;
        assert!((Looks::Up.slope_w_per_m2k(-2.0) - slope).abs() < 1e-6);
    }

    #[test]
    fn tables_follow_the_formula() {
        let outside = OutsideFilm::new();
        let shape = OuterShape::new(90.0, Roughness::Rough);
        for v in [0.3, 2.0, 7.77, 20.0] {
            for dt in [-9.0, -1.0, 3.3, 25.0] {
                let want =
                    outside_w_per_m2k(dt, v, 0.0, WindSide::Leeward, Roughness::Rough).unwrap();
                let part = outside.wind_w_per_m2k(v, WindSide::Leeward);
                let got = outside.both_w_per_m2k(part, dt, &shape);
                assert!(
                    (got / want - 1.0).abs() < 0.01,
                    "{v} m/s, {dt} K: {got} against {want}"
                );
            }
        }
    }
}
