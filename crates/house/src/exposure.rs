//! What stands around a house: the land and its wind, the sky it sees, plates at its windows.

use climate::shade::{Fin, Overhang, ShadedWindow};
use climate::wind::{Terrain, at_height_factor};

use crate::describe::{Shade, Shelter};
use crate::drive::{Aperture, cos_deg};
use crate::model::Model;

/// Longwave view of the sky.
///
/// **Equation** F = (1 + cos t)/2 * cos(t/2)
///
/// **Symbols** t tilt (0 looks up); the second factor is the part of that view that is cold sky
/// and not air near the ground
///
/// **Range** 0 to 180 degrees
///
/// **Source** walton-1983: split of sky and air (from memory)
pub(crate) fn sky_view(tilt_deg: f64) -> f64 {
    0.5 * (1.0 + cos_deg(tilt_deg)) * cos_deg(tilt_deg / 2.0).abs()
}

/// Height of a weather mast, m, over open land.
const MAST_M: f64 = 10.0;

/// Wind at a height of the house over the wind at the station, by the land around.
pub(crate) fn wind_factor(shelter: Shelter, height_m: f64) -> f64 {
    let site = match shelter {
        Shelter::NoWind => return 0.0,
        Shelter::Open | Shelter::Country => Terrain::Open,
        Shelter::Suburban => Terrain::Suburb,
        Shelter::Town => Terrain::City,
    };
    at_height_factor(Terrain::Open, MAST_M, site, height_m.max(1.0))
}

/// Wind at the leaks over wind at the station, after terrain and shelter.
pub fn wind_at_leaks_factor(model: &Model) -> f64 {
    wind_factor(model.shelter, model.top_m) * shelter_share(model.shelter)
}

/// What buildings and trees nearby leave of the wind that presses on the leaks.
fn shelter_share(shelter: Shelter) -> f64 {
    match shelter {
        Shelter::NoWind => 0.0,
        Shelter::Open => climate::wind::Shelter::None.share(),
        Shelter::Country => climate::wind::Shelter::Light.share(),
        Shelter::Suburban => climate::wind::Shelter::Heavy.share(),
        Shelter::Town => climate::wind::Shelter::VeryHeavy.share(),
    }
}

/// A window with its plates as [`climate::shade`] wants it. `None` for a window without plates or
/// one in a roof, where they shade nothing.
pub(crate) fn shaded_window(a: &Aperture) -> Option<ShadedWindow> {
    if a.shade == Shade::default() || !(60.0..=120.0).contains(&a.tilt_deg) {
        return None;
    }
    let s = a.shade;
    let fin = (s.fin_depth_m > 0.0).then_some(Fin {
        depth_m: s.fin_depth_m,
        beside_m: s.fin_gap_m,
        past_top_m: s.fin_above_m,
        past_bottom_m: s.fin_below_m,
    });
    ShadedWindow {
        width_m: a.width_m,
        height_m: a.height_m,
        overhang: (s.overhang_depth_m > 0.0).then_some(Overhang {
            depth_m: s.overhang_depth_m,
            above_m: s.overhang_gap_m,
            past_left_m: s.overhang_past_m,
            past_right_m: s.overhang_past_m,
        }),
        left_fin: fin,
        right_fin: fin,
    }
    .checked()
    .ok()
}
