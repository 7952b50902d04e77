//! A year of the demo house with its equipment, beside the same house with ideal heating: what is
//! between the two is what heads, heaters, limits and sums cost. Target: 4 to 8 ms a choice.

#[path = "../tests/support/mod.rs"]
mod support;

use divan::{Bencher, black_box};
use house::balance::Doors;
use support::Site;

/// As the program has it.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    divan::main();
}

fn choice_year(bencher: Bencher<'_, '_>, number: usize) {
    let site = Site::lake_street();
    let choices = site.job.choices();
    let choice = &choices[number];
    bencher.bench_local(|| season::year(black_box(&site.input(choice))));
}

#[divan::bench]
fn two_heads_on_one(bencher: Bencher<'_, '_>) {
    choice_year(bencher, 0);
}

#[divan::bench]
fn one_outdoor_a_head(bencher: Bencher<'_, '_>) {
    choice_year(bencher, 1);
}

#[divan::bench]
fn five_heads_on_one(bencher: Bencher<'_, '_>) {
    choice_year(bencher, 2);
}

#[divan::bench]
fn ideal_heating(bencher: Bencher<'_, '_>) {
    let site = Site::lake_street();
    bencher.bench_local(|| {
        house::ideal::year_on(
            black_box(&site.model),
            &site.glasses,
            &site.drive,
            Doors::AsUsual,
        )
    });
}
