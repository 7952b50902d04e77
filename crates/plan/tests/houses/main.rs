//! Houses by the hundred: random plausible houses as job files, from the mild coast to the
//! Arctic; the whole plan of each, and nothing absurd in it. A few dozen here; hundreds with
//! `checks/houses`, which names the range of seeds and keeps the table.

mod absurd;
mod dice;
mod equipment;
mod shape;
#[path = "../support/mod.rs"]
mod support;
mod written;

use climate::Weather;
use jobfile::Job;
use plan::{Catalogue, Plan, plan};
use season::Year;
use support::catalogue;
use written::{CHANGES, Change, House, house};

fn weathers() -> Vec<(&'static str, Weather)> {
    written::STATIONS
        .iter()
        .map(|name| {
            let bytes = plan::shipped::weather(name).expect("ships");
            (*name, climate::read_any(bytes).expect("reads").value)
        })
        .collect()
}

fn weather<'a>(all: &'a [(&'static str, Weather)], house: &House) -> &'a Weather {
    &all.iter()
        .find(|(n, _)| *n == house.station)
        .expect("a station")
        .1
}

fn read(house: &House) -> Job {
    jobfile::read(&house.text).unwrap_or_else(|problems| {
        panic!(
            "{}",
            problems
                .iter()
                .map(ToString::to_string)
                .collect::<Vec<_>>()
                .join("\n")
        )
    })
}

/// Seeds to run: a few dozen, or those asked for.
fn seeds(usual: u64) -> std::ops::Range<u64> {
    let asked = |name: &str| std::env::var(name).ok().and_then(|v| v.parse::<u64>().ok());
    let first = asked("NORTHWALL_HOUSES_FROM").unwrap_or(0);
    first..first + asked("NORTHWALL_HOUSES").unwrap_or(usual)
}

fn heat_w(plan: &Plan) -> Option<f64> {
    plan.loads.done().map(|l| l.heating.heat_w)
}

#[test]
fn nothing_absurd() {
    let (catalogue, weathers) = (catalogue(), weathers());
    let mut said = Vec::new();
    for seed in seeds(24) {
        let house = house(seed, Change::None);
        let job = read(&house);
        let weather = weather(&weathers, &house);
        let plan = plan(&job, &catalogue, weather);
        if let Ok(folder) = std::env::var("NORTHWALL_HOUSES_TO") {
            std::fs::write(format!("{folder}/house-{seed}.toml"), &house.text)
                .expect("a folder to write to");
        }
        let row = plan.loads.done().map(|l| {
            let floor: f64 = l.heating.rooms.iter().map(|r| r.floor_m2).sum();
            (floor, l.design.outdoor_c, l.heating.heat_w)
        });
        let (floor, design_c, heat_w) = row.unwrap_or_default();
        let year = plan.year();
        let cop = year.and_then(Year::seasonal_cop).unwrap_or(f64::NAN);
        let share = year.and_then(Year::heads_share).unwrap_or(f64::NAN);
        let found = absurd::absurd(&plan, weather, &catalogue);
        println!(
            "row;{seed};{};{};{floor:.0};{design_c:.1};{heat_w:.0};{share:.3};{cop:.2};{};{}",
            house.form,
            house.station,
            plan.book.len(),
            found.len()
        );
        said.extend(
            found
                .into_iter()
                .map(|s| format!("house {seed} ({}, {}): {s}", house.form, house.station)),
        );
    }
    assert!(
        said.is_empty(),
        "{} absurd\n{}",
        said.len(),
        said.join("\n")
    );
}

/// A worse house never asks less; a turned one asks the same but for the sun, which a design
/// night has none of.
#[test]
fn worse_is_never_better() {
    let weathers = weathers();
    let mut said = Vec::new();
    for seed in seeds(6) {
        let before = house(seed, Change::None);
        let typed = before.text.contains("heating_design =");
        let of = |h: &House| {
            plan::plan_of_chosen(&read(h), &Catalogue::default(), weather(&weathers, h))
        };
        let Some(was) = heat_w(&of(&before)) else {
            continue;
        };
        for (i, change) in CHANGES.into_iter().enumerate() {
            if change == Change::ColderNight && !typed {
                continue;
            }
            let after = of(&house(seed, change));
            let Some(is) = heat_w(&after) else { continue };
            let right = match change {
                Change::Turned => (is - was).abs() < 0.05 * was,
                _ => is >= was * (1.0 - 1e-9),
            };
            if !right {
                said.push(format!(
                    "house {seed}: change {i} takes {was:.1} W to {is:.1} W"
                ));
            }
        }
    }
    assert!(said.is_empty(), "{}", said.join("\n"));
}

/// The same file gives the same figures, to the bit.
#[test]
fn the_same_again() {
    let (catalogue, weathers) = (catalogue(), weathers());
    for seed in seeds(4) {
        let house = house(seed, Change::None);
        let job = read(&house);
        let once = plan(&job, &catalogue, weather(&weathers, &house));
        let again = plan(&job, &catalogue, weather(&weathers, &house));
        assert_eq!(once.book.len(), again.book.len());
        for (a, b) in once.book.iter().zip(again.book.iter()) {
            assert_eq!((&a.key, a.value.to_bits()), (&b.key, b.value.to_bits()));
        }
    }
}
