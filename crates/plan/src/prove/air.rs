//! Moist air, leaks and doors.

use physics::leak::{PowerLaw, Shelter, Storeys, basic_m3_per_s, stack_pa};
use physics::moist_air::{MoistAir, saturation_pressure_pa};
use physics::opening::two_way_heat_w;

use super::{Check, number, rows};

const STATES: &str = include_str!("../../../../checks/values/physics_reference_psychro_states.csv");
const LIBRARY: &str = "reference library PsychroLib 2.5.0";
const HANDBOOK: &str = "ASHRAE Fundamentals 2017, chapter 1, as quoted by a library's tests";
const LEAKS: &str = "ASHRAE Fundamentals, chapter 16 (examples from memory)";
const CARD_4: &str = "trade card F4";
const CARD_11: &str = "trade card F11";

pub(super) fn checks() -> Vec<Check> {
    let mut all = moist();
    all.extend(leaks());
    let door = Check::new("door-heat", "open door, 30 by 80 in, 3 K: heat", CARD_11);
    all.push(match two_way_heat_w(0.76, 2.03, 3.0, 21.0, 1.2) {
        Ok(w) => door.near(1860.0, 10.0, w / 0.293_071, 0, "Btu/h"),
        Err(why) => door.cannot_tell("1860 Btu/h", why.to_string()),
    });
    all
}

fn moist() -> Vec<Check> {
    let mut worst = [0.0_f64; 3];
    let mut n = 0;
    for r in rows(STATES) {
        let made = MoistAir::from_relative_humidity(number(&r, 2), number(&r, 3), number(&r, 1));
        let Ok(air) = made else { continue };
        n += 1;
        let apart = |got: f64, want: f64| (got / want - 1.0).abs();
        worst[0] = worst[0].max(apart(air.humidity_ratio(), number(&r, 4)));
        worst[1] = worst[1].max((air.enthalpy_j_per_kg() / 1000.0 - number(&r, 8)).abs());
        worst[2] = worst[2].max(apart(air.density_kg_per_m3(), number(&r, 11)));
    }
    let mut all = vec![
        Check::new("air-humidity", "humidity ratio over the grid", LIBRARY).worst(
            1e-5,
            worst[0],
            n,
            "of the value",
        ),
        Check::new("air-enthalpy", "enthalpy over the grid", LIBRARY)
            .worst(1e-3, worst[1], n, "kJ/kg"),
        Check::new("air-density", "density over the grid", LIBRARY).worst(
            1e-5,
            worst[2],
            n,
            "of the value",
        ),
    ];
    for (c, want) in [
        (-5.0, 401.74),
        (5.0, 872.6),
        (25.0, 3169.7),
        (50.0, 12351.3),
    ] {
        let check = Check::new(
            format!("saturation-{c}"),
            format!("saturation pressure at {c} C"),
            HANDBOOK,
        );
        all.push(match saturation_pressure_pa(c) {
            Ok(pa) => check.share(want, 0.0003, pa, 1, "Pa"),
            Err(why) => check.cannot_tell("", why.to_string()),
        });
    }
    all
}

fn leaks() -> Vec<Check> {
    let mut all = Vec::new();
    for (id, what, area, storeys, shelter, k, wind, volume, want) in [
        (
            "leak-two-storeys",
            "two storeys, 500 cm2, 39 K, 6.7 m/s",
            0.05,
            Storeys::Two,
            Shelter::Moderate,
            39.0,
            6.7,
            340.0,
            0.78,
        ),
        (
            "leak-one-storey",
            "one storey, 690 cm2, 16.7 K, 2.7 m/s",
            0.069,
            Storeys::One,
            Shelter::Heavy,
            16.7,
            2.7,
            255.0,
            0.55,
        ),
    ] {
        let check = Check::new(id, what, LEAKS);
        all.push(match basic_m3_per_s(area, storeys, shelter, k, wind) {
            Ok(q) => check.near(want, 0.006, q * 3600.0 / volume, 2, "air changes an hour"),
            Err(why) => check.cannot_tell("", why.to_string()),
        });
    }
    let cfm = |q: f64| q / (0.3048 * 0.3048 * 0.3048 / 60.0);
    let card = || {
        let law = PowerLaw::from_test(2160.0 * 0.3048 * 0.3048 * 0.3048 / 60.0, 50.0, 0.65)?;
        let pa = stack_pa(21.11, -20.56, 5.5, 101_325.0)?;
        Ok::<_, physics::OutOfRange>((pa, law))
    };
    match card() {
        Ok((pa, law)) => {
            all.push(
                Check::new(
                    "card-f4-stack",
                    "stack over 5.5 m, 70 F inside, -5 F outside",
                    CARD_4,
                )
                .near(10.7, 0.15, pa, 1, "Pa"),
            );
            all.push(
                Check::new(
                    "card-f4-even",
                    "2160 cfm at 50 Pa, leaks spread evenly",
                    CARD_4,
                )
                .near(
                    153.0,
                    2.0,
                    cfm(law.stack_flow_spread_m3_per_s(pa)),
                    0,
                    "cfm",
                ),
            );
            all.push(
                Check::new(
                    "card-f4-ends",
                    "2160 cfm at 50 Pa, leaks at top and bottom",
                    CARD_4,
                )
                .near(252.0, 3.0, cfm(law.stack_flow_ends_m3_per_s(pa)), 0, "cfm"),
            );
        }
        Err(why) => all.push(
            Check::new("card-f4", "blower door at the design hour", CARD_4)
                .cannot_tell("", why.to_string()),
        ),
    }
    all
}
