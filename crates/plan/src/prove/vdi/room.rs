//! The test room as a model: one outer wall, one inner mass, a window that only lets sun in.

use house::describe::{Construction, Gain, Layer, Shade, Shelter, Soil, Use};
use house::model::{Behind, Leak, Model, StatedFilm, Surface, SurfaceKind, WindowPane, Zone};
use reckon::Known;
use serde_json::Value;

use super::{STEPS, number};

/// A wall; `sun` is the share of the room's sun it takes.
fn wall(name: &str, out_r: f64, c_j_per_k: f64, in_r: f64, area_m2: f64, sun: f64) -> Construction {
    Construction {
        name: name.into(),
        layers: vec![
            Layer::Resistance {
                name: "outer".into(),
                r_m2k_per_w: out_r * area_m2,
            },
            Layer::Solid {
                name: "store".into(),
                thickness_m: 0.1,
                k_w_per_mk: 500.0,
                density_kg_per_m3: c_j_per_k / area_m2 / 100.0,
                cp_j_per_kgk: 1000.0,
            },
            Layer::Resistance {
                name: "inner".into(),
                r_m2k_per_w: in_r * area_m2,
            },
        ],
        sun_absorptance_out: 0.5,
        emittance_out: 0.9,
        sun_absorptance_in: sun,
        emittance_in: 0.9,
        known: Known::Seen,
    }
}

fn surface(name: &str, construction: usize, area_m2: f64, behind: Behind) -> Surface {
    Surface {
        name: name.into(),
        zone: 0,
        kind: SurfaceKind::Wall,
        area_m2,
        tilt_deg: 90.0,
        construction,
        behind,
        ends_m: None,
    }
}

/// The window only lets sun in; its own heat stands in the outer wall, so it is made next to
/// nothing.
pub(super) const PANE_M2: f64 = 1e-6;

/// The room: one outer wall, one inner mass, gains by hour (convective and radiant, W).
pub(super) fn room(case: &Value, convective: [f64; 24], radiant: [f64; 24]) -> Option<Model> {
    let (a_out, a_in) = (number(case, "AExt")?, number(case, "AInt")?);
    // 5 W/(m2 K) of the smaller area, all of it at the inner walls; the outer wall's end of the
    // star has next to no resistance.
    let star = number(case, "hRad")? * a_out.min(a_in);
    let film = |construction, convection: &str, radiant_w_per_m2k| {
        Some(StatedFilm {
            construction,
            convection_w_per_m2k: number(case, convection)?,
            radiant_w_per_m2k,
        })
    };
    Some(Model {
        zones: vec![Zone {
            name: "room".into(),
            storey: None,
            room: None,
            floor_m2: 17.5,
            volume_m3: 1e-3,
            middle_m: 1.5,
            heated: None,
            cooled: None,
            gains: vec![
                Gain {
                    by_hour_w: convective,
                    radiant: 0.0,
                },
                Gain {
                    by_hour_w: radiant,
                    radiant: 1.0,
                },
            ],
            contents_j_per_k: 0.0,
            fixed_air_m3_per_s: 0.0,
            leak_share: 0.0,
            leak_weight: 0.0,
            used_for: Use::Living,
            people: 0.0,
        }],
        surfaces: vec![
            surface(
                "outer wall",
                0,
                a_out,
                Behind::Outdoor {
                    azimuth_deg: 0.0,
                    sun: false,
                    wind: false,
                },
            ),
            surface("inner walls", 1, a_in, Behind::Adiabatic),
        ],
        panes: vec![WindowPane {
            name: "window".into(),
            zone: 0,
            in_surface: 0,
            area_m2: PANE_M2,
            width_m: 1e-3,
            height_m: 1e-3,
            sill_m: 1.0,
            count: 1,
            azimuth_deg: 0.0,
            tilt_deg: 90.0,
            glazing: 0,
            shade: Shade::default(),
            known: Known::Seen,
        }],
        openings: Vec::new(),
        constructions: vec![
            wall(
                "outer",
                number(case, "RExtRem")?,
                number(case, "CExt")?,
                number(case, "RExt")?,
                a_out,
                0.0,
            ),
            wall(
                "inner",
                1e-3,
                number(case, "CInt")?,
                number(case, "RInt")?,
                a_in,
                1.0,
            ),
        ],
        glazings: Vec::new(),
        leak: Leak {
            c_m3_per_s_pa_n: 0.0,
            tested: (0.0, 0.0),
            n: 0.65,
            bottom_m: 0.0,
            top_m: 3.0,
            known: Known::Seen,
        },
        vents: Vec::new(),
        soil: Soil::default(),
        shelter: Shelter::NoWind,
        ground_albedo: 0.2,
        stated_films: vec![film(0, "hConExt", 1e5)?, film(1, "hConInt", star / a_in)?],
        steps_an_hour: STEPS,
        top_m: 3.0,
    })
}
