//! What of sky and ground a shaded window still sees.

use super::{ShadedWindow, SunSide, sunlit_share};

/// Shares of what the bare window would get, 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SkyShares {
    /// Of an evenly bright sky.
    pub sky: f64,
    /// Of the band along the horizon.
    pub horizon: f64,
    /// Of the ground.
    pub ground: f64,
}

/// Steps in each direction over half a disc.
const STEPS: usize = 24;

/// How much of the sky's and the ground's light passes the plates.
///
/// **Equation** share = mean over the hemisphere of the sunlit share, each direction weighted
/// with the cosine of its incidence; the upper half for the sky, the lower for the ground, the
/// rim for the horizon
///
/// **Symbols** result: light with plates over light without, 0 to 1
///
/// **Range** as [`sunlit_share`]; the plates themselves are taken as dark, so light plates
/// return a little more than this
///
/// **Source** `common-practice`: view factor by equal areas of the unit disc; within 0.003 of
/// the crossed-strings value of a long overhang (tested)
///
/// **Example** no plates: 1, 1, 1
pub fn sky_shares(window: &ShadedWindow) -> SkyShares {
    let fins = window.left_fin.is_some() || window.right_fin.is_some();
    if window.overhang.is_none() && !fins {
        return SkyShares {
            sky: 1.0,
            horizon: 1.0,
            ground: 1.0,
        };
    }
    // Directions whose feet on the wall's plane are even over the unit disc are weighted with
    // the cosine by themselves.
    let half = |sign: f64| {
        let mut sum = 0.0;
        for i in 0..STEPS {
            let square = (i as f64 + 0.5) / STEPS as f64;
            let foot = libm::sqrt(square);
            let out = libm::sqrt(1.0 - square);
            for k in 0..STEPS {
                let turn = core::f64::consts::PI * (k as f64 + 0.5) / STEPS as f64;
                let (sine, cosine) = libm::sincos(turn);
                let sun = SunSide {
                    across: foot * cosine,
                    up: sign * foot * sine,
                    out,
                };
                sum += sunlit_share(window, sun);
            }
        }
        sum / (STEPS * STEPS) as f64
    };
    let mut horizon = 0.0;
    for k in 0..STEPS {
        // Even steps of the sine are weighted with the cosine.
        let across = -1.0 + 2.0 * (k as f64 + 0.5) / STEPS as f64;
        let out = libm::sqrt(1.0 - across * across);
        horizon += sunlit_share(
            window,
            SunSide {
                across,
                up: 0.0,
                out,
            },
        );
    }
    SkyShares {
        sky: half(1.0),
        horizon: horizon / STEPS as f64,
        ground: if fins { half(-1.0) } else { 1.0 },
    }
}
