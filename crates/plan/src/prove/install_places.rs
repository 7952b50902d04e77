//! Places: sound, glass, jets, snow, condensate, against standards, cards and published jets.

use physics::downdraught::{dew_point_c, saturation_pa, speed_m_per_s, surface_c};
use physics::jet::{Jet, path};
use physics::moist_air::{MoistAir, saturation_humidity_ratio};
use physics::snow::density_kg_per_m3;
use physics::sound::reflect::{Wall, ways};
use physics::sound::{Surroundings, distance_for_m, level_at_db, together_db};

use super::Check;

const ISO_9613: &str = "ISO 9613-2, divergence and image sources";
const CARD_14: &str = "trade card F14 and test vectors";
const ISO_13788: &str = "ISO 13788 by trade card F12";
const KOESTEL: &str = "Koestel 1955, level jets (coefficient from memory)";
const TURNER: &str = "Turner 1966, fountains (coefficient from memory)";

pub(super) fn checks() -> Vec<Check> {
    let mut all = sound();
    all.extend(glass());
    all.extend(jets());
    all.extend(water());
    all
}

fn sound() -> Vec<Check> {
    let mut all = Vec::new();
    for (around, q, want, far) in [
        (Surroundings::Ground, 2, 47.5, 4.0),
        (Surroundings::Wall, 4, 50.5, 5.6),
        (Surroundings::Corner, 8, 53.5, 8.0),
    ] {
        let what = format!("65 dB(A), factor {q}, at 3 m");
        let check = Check::new(format!("sound-3-m-{q}"), what, CARD_14);
        all.push(match level_at_db(65.0, around, 3.0) {
            Ok(db) => check.near(want, 0.05, db, 1, "dB(A)"),
            Err(why) => check.cannot_tell("", why.to_string()),
        });
        let what = format!("65 dB(A), factor {q}: 45 dB(A) from");
        let check = Check::new(format!("sound-45-db-{q}"), what, CARD_14);
        all.push(match distance_for_m(65.0, around, 45.0) {
            Ok(m) => check.near(far, 0.05, m, 1, "m"),
            Err(why) => check.cannot_tell("", why.to_string()),
        });
    }
    let two = together_db(&[46.0, 46.0]) - 46.0;
    let check = Check::new("sound-two-units", "two equal units over one", ISO_9613);
    all.push(check.near(3.01, 0.005, two, 2, "dB"));
    // Close to a long hard wall and far from it: the image counts like the source.
    let hard = |ends_m| Wall {
        ends_m,
        throws_back: 1.0,
    };
    let walls = [
        hard([[0.0, -500.0], [0.0, 500.0]]),
        hard([[0.0, 0.0], [500.0, 0.0]]),
    ];
    let gain = |walls: &[Wall]| {
        let all = ways([0.3, 0.3], [40.0, 40.0], walls);
        let open = all.first().map_or(f64::NAN, |w| w.length_m);
        let sum: f64 = all.iter().map(|w| w.left / w.length_m.powi(2)).sum();
        10.0 * libm::log10(sum * open * open)
    };
    for (id, what, walls, want) in [
        (
            "sound-wall",
            "hard wall behind the unit, listener far off",
            &walls[..1],
            3.01,
        ),
        (
            "sound-corner",
            "corner of two hard walls, listener far off",
            &walls[..],
            6.02,
        ),
    ] {
        all.push(Check::new(id, what, ISO_9613).near(want, 0.1, gain(walls), 2, "dB"));
    }
    all
}

fn glass() -> Vec<Check> {
    let mut all = Vec::new();
    for (u, want) in [(2.8, 6.0), (1.8, 11.0), (1.2, 15.0), (0.8, 17.0)] {
        let what = format!("face of glass U {u}, 21 C inside, -20 C outside");
        let check = Check::new(format!("glass-face-{u}"), what, ISO_13788);
        all.push(match surface_c(21.0, -20.0, u, 0.13) {
            Ok(c) => check.near(want, 0.5, c, 1, "C"),
            Err(why) => check.cannot_tell("", why.to_string()),
        });
    }
    for (percent, want) in [(25, 0.2), (30, 2.8), (35, 5.0), (40, 6.9)] {
        let what = format!("dew point of 21 C at {percent} %");
        let check = Check::new(format!("dew-{percent}"), what, ISO_13788);
        let got = saturation_pa(21.0).and_then(|p| dew_point_c(p * f64::from(percent) / 100.0));
        all.push(match got {
            Ok(c) => check.near(want, 0.06, c, 1, "C"),
            Err(why) => check.cannot_tell("", why.to_string()),
        });
    }
    let check = Check::new(
        "glass-falls",
        "air falling down 1.5 m of U 2.8",
        "trade card F12",
    );
    all.push(match speed_m_per_s(1.5, 14.9, 0.0) {
        Ok(v) => check.near(0.26, 0.005, v, 2, "m/s"),
        Err(why) => check.cannot_tell("0.26 m/s", why.to_string()),
    });
    all
}

fn jets() -> Vec<Check> {
    let jet = |air_m3_per_s, outlet_m2, heat_w, down_deg| Jet {
        air_m3_per_s,
        outlet_m2,
        heat_w,
        room_c: 21.0,
        down_deg,
        throw_m: None,
        along_ceiling: false,
    };
    let bend = Check::new(
        "jet-bend",
        "bend of a level warm jet, times its decay",
        KOESTEL,
    );
    let level = jet(0.2, 0.04, 1206.0 * 0.2, 0.0);
    let bend = match path(&level, 6.0).ok().and_then(|p| p.last().copied()) {
        Some(end) => {
            let d = libm::sqrt(4.0 * 0.04 / std::f64::consts::PI);
            let archimedes = 9.80665 * d / (294.15 * 25.0);
            let k = 1.0 / (std::f64::consts::SQRT_2 * 0.107);
            let far = end.away_m / d;
            bend.share(
                0.42,
                0.2,
                end.up_m / d / (archimedes * far * far * far) * k,
                2,
                "",
            )
        }
        None => bend.cannot_tell("0.42", "no path"),
    };
    let fountain = Check::new(
        "jet-fountain",
        "height of a heavy jet blown straight up",
        TURNER,
    );
    let up = jet(0.05, 0.01, -6000.0, -90.0);
    let fountain = match path(&up, 20.0) {
        Ok(all) => {
            let high = all.iter().map(|p| p.up_m).fold(0.0, f64::max);
            let heavy = 9.80665 / 294.15 * 6000.0 / 1206.0;
            let length = libm::pow(0.25, 0.75) / libm::sqrt(heavy);
            fountain.share(1.85, 0.2, high / length, 2, "of its own length")
        }
        Err(why) => fountain.cannot_tell("1.85", why.to_string()),
    };
    vec![bend, fountain]
}

fn water() -> Vec<Check> {
    let mut all = Vec::new();
    // 400 cfm of 80 F and 67 F wet bulb leaving saturated at 53 F: the latent heat of the same
    // water, by the air's own change
    let air = MoistAir::from_wet_bulb(26.67, 19.44, 101_325.0);
    let out = saturation_humidity_ratio(11.67, 101_325.0);
    let check = Check::new(
        "drain-air",
        "400 cfm, 80/67 F to wet 53 F: water, card against air",
        "psychrometrics, PsychroLib's equations",
    );
    all.push(match (air, out) {
        (Ok(air), Ok(out)) => {
            let dry = 400.0 * 0.000_471_947 / air.specific_volume_m3_per_kg();
            let kg_per_h = dry * (air.humidity_ratio() - out) * 3600.0;
            let latent_w = dry * (air.humidity_ratio() - out) * 2.501e6;
            let by_card = latent_w / (1060.0 * 2326.0) * 3600.0;
            check.share(kg_per_h, 0.02, by_card, 2, "kg/h")
        }
        _ => check.cannot_tell("", "air outside the range"),
    });
    for (psf, want) in [(20.0, 16.6), (40.0, 19.2), (150.0, 30.0)] {
        let what = format!("snow under {psf} lb/ft2 on the ground");
        let check = Check::new(
            format!("snow-{psf:.0}"),
            what,
            "ASCE 7, equation 7.7-1 (from memory)",
        );
        all.push(match density_kg_per_m3(psf * 47.880_259) {
            Ok(g) => check.near(want, 0.01, g / 16.018_463, 1, "lb/ft3"),
            Err(why) => check.cannot_tell("", why.to_string()),
        });
    }
    all
}
