//! The search. Target: 2,000 whole-house candidates, each over the whole year, in 1 s on two cores
//! (design, section 7). Beside it one whole year, and the systems alone. How many a second, with
//! one thread and two, is printed first.

#[path = "../tests/support/mod.rs"]
mod support;

use std::time::Instant;

use divan::{Bencher, black_box};
use heatpump::{Kind, Running, Sheet};
use season::Catalogue;
use season::choose::{Grain, Wishes, among, search};
use support::{Site, choice};

/// As the program has it.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    let site = grown(60);
    let nothing = choice("nothing", &[], &[]);
    for most in [2000, 20_000] {
        for threads in [1, 2] {
            let started = Instant::now();
            let found = search(&site.input(&nothing), &wishes(most, threads)).expect("runs");
            let s = started.elapsed().as_secs_f64();
            println!(
                "{threads} threads: {} candidates of {} sheets in {s:.3} s, {:.0} a second; {} \
                 layouts, {} systems, {} whole years, {} survive",
                found.looked_at,
                site.catalogue.len(),
                found.looked_at as f64 / s,
                found.layouts,
                found.systems,
                found.run_whole,
                found.survivors.len()
            );
        }
    }
    divan::main();
}

/// The demo house with every sheet of the catalogue so many times over, each a little larger or
/// smaller and a little better or worse. Invented like the sheets themselves.
fn grown(times: usize) -> Site {
    let mut site = Site::lake_street();
    let mut all = Catalogue::new();
    for (name, sheet) in &site.catalogue {
        all.insert(name.clone(), sheet.clone());
        if !matches!(sheet.kind, Kind::OutdoorSingle | Kind::OutdoorMulti) {
            continue;
        }
        for i in 1..times {
            // Two steps that never meet, so that the variants fill the square evenly.
            let part = |step: f64| (i as f64 * step).fract() - 0.5;
            let (size, cop) = (
                1.0 + 0.3 * part(0.754_877_666),
                1.0 + 0.2 * part(0.569_840_291),
            );
            let mut other = varied(sheet, size, cop);
            other.name = format!("{name} v{i}");
            all.insert(other.name.clone(), other);
        }
    }
    site.catalogue = all;
    site
}

fn varied(sheet: &Sheet, size: f64, cop: f64) -> Sheet {
    let mut sheet = sheet.clone();
    for point in sheet.heating.iter_mut().chain(&mut sheet.cooling) {
        for running in [&mut point.min, &mut point.rated, &mut point.max]
            .into_iter()
            .flatten()
        {
            *running = Running {
                capacity_w: running.capacity_w * size,
                electric_w: running.electric_w * size / cop,
            };
        }
    }
    sheet
}

fn wishes(most: usize, threads: usize) -> Wishes {
    Wishes {
        most,
        threads,
        ..Wishes::default()
    }
}

fn of_candidates(bencher: Bencher<'_, '_>, most: usize, threads: usize) {
    let site = grown(60);
    let nothing = choice("nothing", &[], &[]);
    let wishes = wishes(most, threads);
    bencher.bench_local(|| search(black_box(&site.input(&nothing)), &wishes));
}

#[divan::bench(args = [500, 2000, 8000], sample_count = 3, sample_size = 1)]
fn candidates_on_one_core(bencher: Bencher<'_, '_>, most: usize) {
    of_candidates(bencher, most, 1);
}

#[divan::bench(args = [500, 2000, 8000], sample_count = 3, sample_size = 1)]
fn candidates_on_two_cores(bencher: Bencher<'_, '_>, most: usize) {
    of_candidates(bencher, most, 2);
}

/// 400 candidates of one layout, coarse enough that few survive: two house-years and 400 systems.
#[divan::bench(sample_count = 5, sample_size = 1)]
fn systems_400(bencher: Bencher<'_, '_>) {
    let site = grown(200);
    let choices: Vec<_> = (1..200)
        .map(|i| {
            let (a, b) = (format!("Loon 12 v{i}"), format!("Loon 9 v{i}"));
            let on = [("a", a.as_str()), ("b", b.as_str())];
            let heads = [("living", "Teal 12", "a"), ("landing", "Teal 9", "b")];
            choice(&i.to_string(), &on, &heads)
        })
        .collect();
    let coarse = Grain {
        comfort_k_h: 1e9,
        cycling_h: 1e9,
        cost: 1e9,
        carbon_kg: 1e9,
        equipment: 1e9,
    };
    let wishes = Wishes {
        grain: Some(coarse),
        ..Wishes::default()
    };
    bencher.bench_local(|| among(black_box(&site.input(&choices[0])), &choices, &wishes));
}

#[divan::bench(sample_count = 20, sample_size = 1)]
fn whole_year(bencher: Bencher<'_, '_>) {
    let site = grown(1);
    let choices = site.job.choices();
    bencher.bench_local(|| season::year(black_box(&site.input(&choices[0]))).is_ok());
}
