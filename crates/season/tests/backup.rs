//! Backup of the demo house: it adds up, and colder or without power is never warmer.

mod support;

use season::backup::{Set, backup};
use season::{Crossing, Input};
use support::{Site, job, lake_street};

/// Sums in another order: rounding only.
const ROUNDING: f64 = 1e-9;

#[test]
fn backup_of_the_demo_house() {
    let text = format!(
        "{}\n[tariff]\ntiers = [{{ price = \"0.22 /kWh\" }}]\nfixed = \"10 /month\"\nother = \"5000 kWh\"\n",
        lake_street()
    );
    let site = Site::new(job(&text), support::weather("chicago-725300.epw.gz"));
    let choices = site.job.choices();
    let found = backup(&site.input(&choices[0])).expect("runs");
    let heat: f64 = found.carried.iter().map(|c| c.heat_j).sum();
    assert!((heat / found.year.heat_j - 1.0).abs() < ROUNDING);
    // One step at the flat price is the flat price; the fixed part is paid anyway.
    let charged = found.charged.expect("a tariff");
    let flat = 0.22 * found.year.bought_j(jobfile::Carrier::Electricity) / 3.6e6;
    assert!(
        (charged.energy / flat - 1.0).abs() < ROUNDING,
        "{charged:?} {flat}"
    );
    assert!(charged.fixed.abs() < 1e-9 && charged.demand == 0.0);
    let needed = found.needed.expect("a design temperature");
    let units = needed.units_w.unwrap_or(0.0);
    assert!((needed.adds_w - (needed.asks_w - units).max(0.0)).abs() < ROUNDING);
    // 10 C is nearer to outdoors than the settings: holding it takes less than heating.
    assert!(needed.holds_w > 0.0 && needed.holds_w < needed.asks_w);
    let snap = found.snap.expect("a cold snap");
    assert_eq!(snap.outdoor_c, needed.design_c);
    for room in &snap.rooms {
        assert!(room.heads_alone_c <= room.least_c + 0.05, "{room:?}");
        if let (Some(held), Some(freezes)) = (room.at_10c_h, room.freezes_h) {
            assert!(held < freezes, "{room:?}");
        }
        // A house of wood and plaster at -20 C is not at 10 C within the hour, and is within days.
        if room.heated {
            let held = room.at_10c_h.expect("within two weeks");
            assert!((2..120).contains(&held), "{room:?}");
        }
    }
    // Dearer electricity moves the temperature up, dearer fuel down.
    for s in &found.sensitivity {
        let at = |i: usize| match s.cases[i].3 {
            Crossing::At(c) | Crossing::WarmerThan(c) | Crossing::ColderThan(c) => c,
            Crossing::None => f64::NAN,
        };
        assert!(s.cases[1].2 < s.cases[0].2 && s.cases[2].2 > s.cases[0].2);
        assert!(
            at(1) <= at(0) + ROUNDING && at(0) <= at(2) + ROUNDING,
            "{s:?}"
        );
        assert!(
            at(4) <= at(0) + ROUNDING && at(0) <= at(3) + ROUNDING,
            "{s:?}"
        );
    }
    // The boiler heats rooms without a head: it must not be locked out.
    let lockout = found
        .settings
        .iter()
        .find(|s| s.control == "lockout of the boiler");
    assert_eq!(lockout.map(|s| s.set), Some(Set::Off));
    let water = found.hot_water.expect("the boiler makes it");
    assert!(!water.lost && water.people == 4.0);
    // 365 x 4 x 50 kg x 4186 J/(kg K) x 40 K, exact.
    assert!((water.heat_j - 365.0 * 4.0 * 50.0 * 4186.0 * 40.0).abs() < 1.0);
}

#[test]
fn an_outage_is_shorter_in_a_colder_night() {
    let hours = |design: &str| {
        let text = lake_street().replace(
            "heating_design = \"-4 F\"",
            &format!("heating_design = \"{design}\""),
        );
        let site = Site::new(job(&text), support::weather("chicago-725300.epw.gz"));
        let choices = site.job.choices();
        let input: Input<'_> = site.input(&choices[0]);
        let snap = backup(&input).expect("runs").snap.expect("a snap");
        snap.rooms
            .iter()
            .find(|r| r.room == "living")
            .expect("living")
            .clone()
    };
    let (mild, cold) = (hours("14 F"), hours("-22 F"));
    assert!(
        cold.at_10c_h.expect("cold") < mild.at_10c_h.expect("mild"),
        "{cold:?} {mild:?}"
    );
    assert!(cold.least_c <= mild.least_c);
}
