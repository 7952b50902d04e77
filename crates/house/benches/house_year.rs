//! A year of the demo house with ideal heating, beside the bare arithmetic of the same sizes.
//!
//! The floor holds no films, doors, leaks, sums or thermostats: for every hour (warm-up included) it
//! steps as many modes as the house has, multiplies one matrix of air and stars, takes the faces
//! back from it, clamps as many capacities as there are zones and looks each up in a map. What the
//! house needs above it is what its physics costs.

use std::io::Read;
use std::path::Path;

use divan::{Bencher, black_box};
use house::balance::{Balance, Doors};
use house::drive::Drive;
use house::glazing::Glass;
use house::ideal::{WARM_UP_DAYS, year_on};
use house::model::Model;

/// As the program has it.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    divan::main();
}

struct Demo {
    model: Model,
    glasses: Vec<Glass>,
    weather: climate::Weather,
    drive: Drive,
}

impl Demo {
    fn new() -> Self {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
        let text = std::fs::read_to_string(root.join("jobs/lake-street/job.toml")).expect("job");
        let job = jobfile::read(&text).expect("the demo job reads");
        let packed = std::fs::File::open(root.join("weather/chicago-725300.epw.gz")).expect("file");
        let mut bytes = Vec::new();
        flate2::read::GzDecoder::new(packed)
            .read_to_end(&mut bytes)
            .expect("gzip");
        let weather = climate::read_any(&bytes).expect("weather").value;
        let model = house::geometry::model(&job.house).expect("geometry");
        let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
        let drive = Drive::new(&model, &glasses, &weather).expect("drive");
        Self {
            model,
            glasses,
            weather,
            drive,
        }
    }
}

/// The year on weather that is already worked out for the faces.
#[divan::bench]
fn house_year(bencher: Bencher<'_, '_>) {
    let d = Demo::new();
    bencher.bench_local(|| year_on(black_box(&d.model), &d.glasses, &d.drive, Doors::AsUsual));
}

/// Weather on all faces and windows of the house.
#[divan::bench]
fn weather_on_the_faces(bencher: Bencher<'_, '_>) {
    let d = Demo::new();
    bencher.bench_local(|| Drive::new(black_box(&d.model), &d.glasses, &d.weather));
}

/// A row of rooms like one another, each with a window and a door to the next, on the demo's weather.
fn row_of(rooms: usize, wall: &str) -> (Model, Vec<Glass>, Drive) {
    use std::fmt::Write as _;
    let mut text = format!(
        "northwall = 1\n[job]\nname = \"a row\"\n[place]\nweather = \"none.epw\"\n\
         [[storey]]\nname = \"ground\"\nceiling = \"8 ft\"\n\
         [leakage]\nblower_door = \"{} cfm at 50 Pa\"\n[construction.wall]\nlike = {wall:?}\n",
        400 + 120 * rooms
    );
    for n in 0..rooms {
        let (west, east) = (12 * n, 12 * (n + 1));
        let _ = write!(
            text,
            "[[room]]\nname = \"r{n}\"\nstorey = \"ground\"\nheated_to = \"70 F\"\n\
             outline = [\"{west} ft, 0 ft\", \"{east} ft, 0 ft\", \"{east} ft, 14 ft\", \"{west} ft, 14 ft\"]\n\
             [[window]]\nroom = \"r{n}\"\nwall = \"south\"\nwidth = \"4 ft\"\nheight = \"4 ft\"\n\
             glazing = {{ u = \"0.30 Btu/(h ft2 F)\", shgc = 0.4 }}\n"
        );
        if n > 0 {
            let _ = write!(text, "[[door]]\nrooms = [\"r{}\", \"r{n}\"]\n", n - 1);
        }
    }
    let job = jobfile::read(&text).unwrap_or_else(|problems| {
        let all: Vec<String> = problems.iter().map(ToString::to_string).collect();
        panic!("{}", all.join("\n"))
    });
    let model = house::geometry::model(&job.house).expect("geometry");
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let drive = Drive::new(&model, &glasses, &Demo::new().weather).expect("drive");
    (model, glasses, drive)
}

/// How the year grows with rooms.
#[divan::bench(args = [2, 4, 8, 16, 32])]
fn of_rooms(bencher: Bencher<'_, '_>, rooms: usize) {
    let (model, glasses, drive) = row_of(rooms, LIGHT);
    bencher.bench_local(|| year_on(black_box(&model), &glasses, &drive, Doors::AsUsual));
}

/// A light wall and one of brick, which stores more and takes more modes.
const LIGHT: &str = "2x6 wall with batt";
const HEAVY: &str = "solid brick wall";

/// How it grows with what the walls store.
#[divan::bench(args = [LIGHT, HEAVY])]
fn of_walls(bencher: Bencher<'_, '_>, wall: &str) {
    let (model, glasses, drive) = row_of(8, wall);
    bencher.bench_local(|| year_on(black_box(&model), &glasses, &drive, Doors::AsUsual));
}

/// How it grows with steps: one, two and four an hour.
#[divan::bench(args = [1, 2, 4])]
fn of_steps(bencher: Bencher<'_, '_>, steps: usize) {
    let (model, glasses, drive) = row_of(8, LIGHT);
    let drive = if steps > 1 { drive.finer(steps) } else { drive };
    bencher.bench_local(|| year_on(black_box(&model), &glasses, &drive, Doors::AsUsual));
}

/// The bare arithmetic of the same sizes.
#[divan::bench]
fn floor(bencher: Bencher<'_, '_>) {
    let d = Demo::new();
    let balance = Balance::new(&d.model, &d.glasses, &d.drive, Doors::AsUsual).expect("a balance");
    let n = balance.network();
    let modes = n.outer_bank.modes() + n.partition_bank.modes();
    let (two, zones) = (2 * n.zones, n.zones);
    let faces = n.area.iter().filter(|a| **a > 0.0).count();
    let hours = d.drive.steps + WARM_UP_DAYS * 24;
    let keep: Vec<f64> = (0..modes).map(|i| 0.9 - 0.001 * i as f64).collect();
    let take = vec![0.01; modes];
    let matrix: Vec<f64> = (0..two * two).map(|i| 1e-3 / (1.0 + i as f64)).collect();
    let back = vec![0.3; faces];
    let map: Vec<[f64; 2]> = (0..64).map(|i| [f64::from(i) * 10.0, 10.0]).collect();
    let floor = Floor {
        steps: d.drive.steps,
        hours,
        outdoor_c: &d.drive.outdoor_c,
        keep: &keep,
        take: &take,
        matrix: &matrix,
        back: &back,
        map: &map,
        zones,
    };
    bencher.bench_local(|| pulp::Arch::new().dispatch(black_box(floor)));
}

/// The floor's numbers; it gets the same arithmetic of the processor as the balance.
#[derive(Clone, Copy)]
struct Floor<'a> {
    steps: usize,
    hours: usize,
    outdoor_c: &'a [f64],
    keep: &'a [f64],
    take: &'a [f64],
    matrix: &'a [f64],
    back: &'a [f64],
    map: &'a [[f64; 2]],
    zones: usize,
}

impl pulp::WithSimd for Floor<'_> {
    type Output = f64;

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) -> f64 {
        let two = 2 * self.zones;
        let mut state = vec![20.0; self.keep.len()];
        let mut right = vec![1.0; two];
        let mut answer = vec![0.0; two];
        let mut face = vec![20.0; self.back.len()];
        let mut sum = 0.0;
        for h in 0..self.hours {
            let out = self.outdoor_c[h % self.steps];
            let mut give = [0.0; 4];
            for (s, (k, t)) in state
                .chunks_exact_mut(4)
                .zip(self.keep.chunks_exact(4).zip(self.take.chunks_exact(4)))
            {
                for i in 0..4 {
                    s[i] = k[i] * s[i] + t[i] * out;
                    give[i] += t[i] * s[i];
                }
            }
            right[h % two] = give.iter().sum();
            answer.fill(0.0);
            for (column, x) in self.matrix.chunks_exact(two).zip(&right) {
                for (y, m) in answer.iter_mut().zip(column) {
                    *y += m * x;
                }
            }
            for (f, b) in face.iter_mut().zip(self.back) {
                *f = b * answer[0] + (1.0 - b) * *f;
            }
            for q in &answer[..self.zones] {
                let ask = q.clamp(0.0, 5000.0);
                let x = ((out + 40.0) * 0.5).clamp(0.0, 62.0);
                let [at, slope] = self.map[x as usize & 63];
                sum += ask.min(at + slope * (x - x.floor()));
            }
        }
        black_box((&face, &state));
        sum
    }
}
