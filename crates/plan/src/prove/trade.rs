//! Facts of the trade that a calculation must not contradict.

use physics::electricity::{minimum_ampacity_a, overcurrent_a};
use physics::sound::{Surroundings, level_at_db};
use physics::standard_air::{density_ratio, pressure_pa};

use super::Check;

const AIR: &str = "ASHRAE Fundamentals 2017, chapter 1 (second hand)";
const PRESS: &str = "code quiz in the trade press (second hand)";
const MANUAL: &str = "planning manual, worked example (second hand)";
const CARD: &str = "trade card, air constant at elevation";

pub(super) fn checks() -> Vec<Check> {
    let mut all = Vec::new();
    for (m, want) in [(500.0, 95_461.0), (1000.0, 89_875.0)] {
        let check = Check::new(
            format!("pressure-{m}"),
            format!("standard pressure at {m} m"),
            AIR,
        );
        all.push(match pressure_pa(m) {
            Ok(pa) => check.near(want, 1.0, pa, 0, "Pa"),
            Err(why) => check.cannot_tell("", why.to_string()),
        });
    }
    let thin = Check::new("air-at-5000-ft", "air at 5,000 ft against sea level", CARD);
    all.push(match density_ratio(5000.0 * 0.3048) {
        Ok(r) => thin.near(0.83, 0.005, r, 2, ""),
        Err(why) => thin.cannot_tell("0.83", why.to_string()),
    });
    let sound = Check::new("sound-10-m", "67 dB(A) source, Q 4, at 10 m", MANUAL);
    all.push(match level_at_db(67.0, Surroundings::Wall, 10.0) {
        Ok(db) => sound.near(42.0, 0.5, db, 0, "dB(A)"),
        Err(why) => sound.cannot_tell("42 dB(A)", why.to_string()),
    });
    let amps = Check::new(
        "circuit-ampacity",
        "compressor 20 A, fan 2.5 A: wire for",
        PRESS,
    );
    all.push(match minimum_ampacity_a(20.0, 2.5) {
        Ok(a) => amps.near(27.5, 0.01, a, 1, "A"),
        Err(why) => amps.cannot_tell("27.5 A", why.to_string()),
    });
    let fuse = Check::new(
        "circuit-breaker",
        "compressor 20 A, fan 2.5 A: breaker",
        PRESS,
    );
    all.push(match overcurrent_a(20.0, 2.5) {
        Ok(o) => fuse.near(35.0, 0.01, o.usual_a, 0, "A"),
        Err(why) => fuse.cannot_tell("35 A", why.to_string()),
    });
    all
}
