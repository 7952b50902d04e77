//! A year of hours for one system. Target: 20 to 30 ns an hour (design, section 7: look-ups inside
//! the house-year). Beside it the exact way, which builds the curve anew each time.

use divan::{Bencher, black_box};
use heatpump::{Conditions, Duty, Head, OutdoorUnit, Performance, System, capability, read_sheet};

fn main() {
    divan::main();
}

fn sheet(text: &str) -> heatpump::Sheet {
    read_sheet("bench.toml", text).expect("catalogue sheet")
}

fn single() -> System {
    let outdoor = sheet(include_str!("../../../catalogue/loon-12.toml"));
    let head = sheet(include_str!("../../../catalogue/teal-12.toml"));
    System::new(
        OutdoorUnit::new(outdoor).expect("outdoor"),
        vec![Head::new(head).expect("head")],
    )
    .expect("system")
}

fn several() -> System {
    let outdoor = sheet(include_str!("../../../catalogue/grebe-30.toml"));
    let head = sheet(include_str!("../../../catalogue/teal-9.toml"));
    let heads = (0..4)
        .map(|_| Head::new(head.clone()).expect("head"))
        .collect();
    System::new(OutdoorUnit::new(outdoor).expect("outdoor"), heads).expect("system")
}

/// Outdoor temperature and need of 1,000 made-up hours.
fn hours() -> Vec<(f64, f64)> {
    (0..1000_u32)
        .map(|i| {
            let wave = f64::from((i * 37) % 101) / 101.0;
            let outdoor_c = -25.0 + 45.0 * wave;
            (
                outdoor_c,
                180.0 * (18.0 - outdoor_c).max(0.0) * f64::from((i * 13) % 7) / 6.0,
            )
        })
        .collect()
}

#[divan::bench]
fn operate_1000_hours(bencher: Bencher) {
    let p = Performance::new(&single(), Duty::Heating, Conditions::at_sea_level(21.0))
        .expect("performance");
    let hours = hours();
    bencher.bench(|| {
        let mut sum = 0.0;
        for (outdoor_c, need_w) in black_box(&hours) {
            sum += p.operate(*outdoor_c, *need_w).electric_w;
        }
        sum
    });
}

#[divan::bench]
fn share_four_heads_1000_hours(bencher: Bencher) {
    let p = Performance::new(&several(), Duty::Heating, Conditions::at_sea_level(21.0))
        .expect("performance");
    let hours = hours();
    bencher.bench(|| {
        let mut sum = 0.0;
        let mut given = [0.0; 4];
        for (outdoor_c, need_w) in black_box(&hours) {
            let need = [*need_w, 0.5 * need_w, 0.2 * need_w, 0.0];
            sum += p.share(*outdoor_c, &need, &mut given).electric_w;
        }
        sum
    });
}

#[divan::bench]
fn capability_once(bencher: Bencher) {
    let s = single();
    bencher.bench(|| {
        capability(
            &s,
            Duty::Heating,
            black_box(-7.3),
            Conditions::at_sea_level(21.0),
        )
        .is_ok()
    });
}

#[divan::bench]
fn table_a_system(bencher: Bencher) {
    let s = single();
    bencher.bench(|| Performance::new(&s, Duty::Heating, Conditions::at_sea_level(21.0)).is_ok());
}

#[divan::bench]
fn read_one_sheet() -> bool {
    read_sheet(
        "bench.toml",
        black_box(include_str!("../../../catalogue/loon-12.toml")),
    )
    .is_ok()
}
