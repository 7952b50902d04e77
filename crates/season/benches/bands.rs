//! The sampler: bands of the demo house over how many houses this could be and how many threads
//! share them. Each house is one sampled year, so cost should grow with houses and shrink with cores.

#[path = "../tests/support/mod.rs"]
mod support;

use divan::{Bencher, black_box};
use season::bands::{Asked, bands};
use support::Site;

/// As the program has it.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    divan::main();
}

fn of(bencher: Bencher<'_, '_>, samples: usize, threads: usize) {
    let site = Site::lake_street();
    let choices = site.job.choices();
    let asked = Asked {
        samples,
        threads,
        ..Asked::default()
    };
    bencher.bench_local(|| {
        bands(
            black_box(&site.input(&choices[0])),
            &choices[..1],
            &asked,
            &support::line_of_days,
        )
    });
}

#[divan::bench(args = [64, 128, 256], sample_count = 3, sample_size = 1)]
fn houses_on_one_core(bencher: Bencher<'_, '_>, samples: usize) {
    of(bencher, samples, 1);
}

#[divan::bench(args = [64, 128, 256], sample_count = 3, sample_size = 1)]
fn houses_on_two_cores(bencher: Bencher<'_, '_>, samples: usize) {
    of(bencher, samples, 2);
}
