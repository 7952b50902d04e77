//! The plan of the demo after an edit, with the plan before at hand: of a landmark, of a head, of
//! a wall. Target: 20 ms (design, section 7). Beside it the whole plan made anew, the same without
//! the years of the options, and one house-year with ideal heating and cooling: the plan is mostly
//! such years.

use divan::{Bencher, black_box};
use plan::{Before, Catalogue, Years, ideal_year, plan, plan_after, plan_of_chosen};

/// As the program has it.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    divan::main();
}

fn read(path: &str) -> String {
    let full = format!("{}/../../{path}", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(full).expect("a file of the project")
}

fn demo() -> (jobfile::Job, Catalogue, climate::Weather) {
    let job = jobfile::read(&read("jobs/lake-street/job.toml")).expect("reads");
    let names = [
        "grebe-30", "grebe-42", "loon-9", "loon-12", "swift-9", "teal-6", "teal-9", "teal-12",
    ];
    let texts: Vec<(&str, String)> = names
        .iter()
        .map(|n| (*n, read(&format!("catalogue/{n}.toml"))))
        .collect();
    let catalogue = Catalogue::read(texts.iter().map(|(n, t)| (*n, t.as_str()))).expect("reads");
    let bytes = plan::shipped::weather("chicago-725300").expect("ships");
    (
        job,
        catalogue,
        climate::read_any(bytes).expect("reads").value,
    )
}

#[divan::bench(sample_count = 20)]
fn whole(bencher: Bencher<'_, '_>) {
    let (job, catalogue, weather) = demo();
    bencher.bench_local(|| plan(black_box(&job), &catalogue, &weather));
}

#[divan::bench(sample_count = 20)]
fn of_chosen(bencher: Bencher<'_, '_>) {
    let (job, catalogue, weather) = demo();
    bencher.bench_local(|| plan_of_chosen(black_box(&job), &catalogue, &weather));
}

#[divan::bench(sample_count = 20)]
fn one_ideal_year(bencher: Bencher<'_, '_>) {
    let (job, _, weather) = demo();
    let model = house::geometry::model(&job.house).expect("builds");
    bencher.bench_local(|| ideal_year(black_box(&model), &weather));
}

/// Plans anew after an edit of the demo's job.
fn edited(bencher: Bencher<'_, '_>, edit: impl FnOnce(&mut jobfile::Job)) {
    let (job, catalogue, weather) = demo();
    let first = plan_of_chosen(&job, &catalogue, &weather);
    let before = Before {
        job: &job,
        catalogue: &catalogue,
        weather: &weather,
        plan: &first,
    };
    let mut after = job.clone();
    edit(&mut after);
    bencher.bench_local(|| {
        plan_after(
            black_box(&after),
            &catalogue,
            &weather,
            Years::Chosen,
            Some(&before),
        )
    });
}

#[divan::bench(sample_count = 20)]
fn after_edit_of_site(bencher: Bencher<'_, '_>) {
    edited(bencher, |job| job.installation.landmarks.truncate(3));
}

#[divan::bench(sample_count = 20)]
fn after_edit_of_heads(bencher: Bencher<'_, '_>) {
    edited(bencher, |job| job.equipment.heads.truncate(1));
}

#[divan::bench(sample_count = 20)]
fn after_edit_of_house(bencher: Bencher<'_, '_>) {
    edited(bencher, |job| job.house.rooms[1].heated = None);
}
