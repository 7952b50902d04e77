//! Walls, ground and glass.

use house::assembly::total_resistance;
use house::describe::{Construction, Glazing, GlazingData, Layer, Pane, Soil};
use house::glazing::Glass;
use house::ground::floor_u_w_per_m2k;
use reckon::Known;

use super::Check;

pub(super) fn checks() -> Vec<Check> {
    let mut all = wall();
    all.extend(ground());
    all.extend(glass());
    all
}

fn solid(name: &str, thickness_m: f64, k_w_per_mk: f64) -> Layer {
    Layer::Solid {
        name: name.to_owned(),
        thickness_m,
        k_w_per_mk,
        density_kg_per_m3: 1000.0,
        cp_j_per_kgk: 1000.0,
    }
}

fn wall() -> Vec<Check> {
    const SOURCE: &str =
        "ISO 6946, worked wall of Scottish Building Standards annex 6.B.2 (second hand)";
    let c = Construction {
        name: "worked wall".to_owned(),
        layers: vec![
            solid("brick", 0.102, 0.77),
            Layer::Resistance {
                name: "cavity".to_owned(),
                r_m2k_per_w: 0.18,
            },
            solid("sheathing", 0.009, 0.13),
            Layer::Framed {
                name: "wool in studs".to_owned(),
                thickness_m: 0.140,
                framing_share: 0.15,
                cavity: [0.04, 20.0, 1000.0],
                framing: [0.12, 500.0, 1600.0],
            },
            solid("plasterboard", 0.0125, 0.21),
        ],
        sun_absorptance_out: 0.6,
        emittance_out: 0.9,
        sun_absorptance_in: 0.6,
        emittance_in: 0.9,
        known: Known::Seen,
    };
    let upper = Check::new("iso6946-upper", "framed wall, upper limit of R", SOURCE);
    let lower = Check::new("iso6946-lower", "framed wall, lower limit of R", SOURCE);
    let u = Check::new("iso6946-u", "framed wall, U", SOURCE);
    match total_resistance(&c, 0.13, 0.04) {
        Ok(r) => vec![
            upper.near(3.435, 0.0006, r.upper_m2k_per_w, 3, "m2K/W"),
            lower.near(3.304, 0.0006, r.lower_m2k_per_w, 3, "m2K/W"),
            u.near(0.297, 0.0006, 1.0 / r.total_m2k_per_w, 3, "W/m2K"),
        ],
        Err(why) => vec![u.cannot_tell("0.297 W/m2K", why.to_string())],
    }
}

fn ground() -> Vec<Check> {
    const SOURCE: &str =
        "ISO 13370, solid floor on clay, table of CIBSE Guide A (from memory, recomputed)";
    let soil = Soil {
        k_w_per_mk: 1.5,
        capacity_j_per_m3k: 3e6,
        wall_thickness_m: 0.3,
    };
    let mut all = Vec::new();
    for (p_over_a, bare, insulated) in [
        (0.1, 0.22, 0.18),
        (0.3, 0.49, 0.38),
        (0.5, 0.70, 0.50),
        (1.0, 1.05, 0.68),
    ] {
        for (r, want) in [(0.0, bare), (0.5, insulated)] {
            let id = format!("iso13370-pa{p_over_a}-r{r}");
            let what = format!("slab, perimeter over area {p_over_a}, R {r}");
            let check = Check::new(id, what, SOURCE);
            all.push(match floor_u_w_per_m2k(&soil, 2.0 / p_over_a, r, 0.0) {
                Ok(u) => check.near(want, 0.006, u, 2, "W/m2K"),
                Err(why) => check.cannot_tell("a transmittance", why.to_string()),
            });
        }
    }
    all
}

/// The older clear double pane: thickness, index, extinction, given as transmittance and
/// reflectance at normal incidence by Fresnel and Bouguer.
fn older_pane() -> Pane {
    let index: f64 = 1.526;
    let half = ((index - 1.0) / (index + 1.0)) * ((index - 1.0) / (index + 1.0));
    let inner = libm::exp(-0.0196 * 3.175);
    let through = inner * (1.0 - half) * (1.0 - half) / (1.0 - half * half * inner * inner);
    let back = half * (1.0 + inner * through);
    Pane {
        thickness_m: 0.003_175,
        k_w_per_mk: 1.06,
        sun_transmittance: through,
        sun_reflectance_out: back,
        sun_reflectance_in: back,
        emittance_out: 0.84,
        emittance_in: 0.84,
    }
}

fn glass() -> Vec<Check> {
    const SOURCE: &str = "Standard 140, older double pane, angle table (second hand)";
    let glazing = Glazing {
        name: "older pair".to_owned(),
        made_of: GlazingData::Panes {
            panes: vec![older_pane(), older_pane()],
            gaps: vec![house::describe::Gap {
                width_m: 0.013,
                gas: house::describe::Gas::Air,
                stated_r_m2k_per_w: None,
            }],
        },
        frame_share: 0.0,
        frame_u_w_per_m2k: 0.0,
        known: Known::Seen,
    };
    let glass = Glass::new(&glazing);
    [
        (0.0_f64, 0.787),
        (40.0, 0.767),
        (55.0, 0.702),
        (70.0, 0.518),
        (80.0, 0.266),
    ]
    .into_iter()
    .map(|(deg, want)| {
        let cosine = libm::cos(deg * core::f64::consts::PI / 180.0);
        Check::new(
            format!("glass-shgc-{deg:.0}"),
            format!("clear pair, SHGC at {deg:.0} degrees"),
            SOURCE,
        )
        .near(want, 0.01, glass.shgc(cosine), 3, "")
    })
    .collect()
}
