//! Reading the demo job, beside what the TOML reader alone takes; and one edit.

const TEXT: &str = include_str!("../../../jobs/lake-street/job.toml");

fn main() {
    divan::main();
}

#[divan::bench]
fn read_job(bencher: divan::Bencher) {
    bencher.bench(|| jobfile::read(divan::black_box(TEXT)).is_ok());
}

/// The floor: the same text to a tree of TOML with places, nothing understood.
#[divan::bench]
fn toml_alone(bencher: divan::Bencher) {
    bencher.bench(|| toml_edit::Document::parse(divan::black_box(TEXT)).is_ok());
}

#[divan::bench]
fn edit_one_value(bencher: divan::Bencher) {
    bencher.bench(|| {
        jobfile::edit::set(divan::black_box(TEXT), "room.living.heated_to", "\"69 F\"").is_ok()
    });
}
