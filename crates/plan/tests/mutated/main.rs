//! The shipped files damaged, thousands of ways: every reader answers or refuses in words, and
//! what it lets through goes on to the next stage without a fall. `checks/damaged` runs as many
//! as asked (`NORTHWALL_DAMAGED`, `NORTHWALL_DAMAGED_FROM`) and keeps the table.

mod damage;

use std::io::Read as _;
use std::panic::{AssertUnwindSafe, catch_unwind};

use damage::{Damage, Tally};
use review::{Asked, Days};
use startup::logger::{Layout, TimeColumn, Wanted};
use units::Dim;

/// A reader: true where it let the bytes through, false where it refused in words.
type Reader = fn(&[u8]) -> bool;

/// Longest refusal, bytes: it quotes what it found, not the file.
const LONGEST: usize = 2500;

fn bytes(path: &str) -> Vec<u8> {
    let full = format!("{}/../../{path}", env!("CARGO_MANIFEST_DIR"));
    std::fs::read(full).expect("a file of the project")
}

fn unpacked(path: &str) -> Vec<u8> {
    let mut plain = Vec::new();
    flate2::read::GzDecoder::new(&bytes(path)[..])
        .read_to_end(&mut plain)
        .expect("gzip");
    plain
}

fn in_words(said: &dyn std::fmt::Display) {
    let text = said.to_string();
    let start: String = text.chars().take(300).collect();
    assert!(
        text.len() > 10 && text.len() < LONGEST,
        "a refusal of {} bytes: {start}",
        text.len()
    );
}

fn job(bytes: &[u8]) -> bool {
    let lines = bytes.split(|b| *b == b'\n').count();
    match jobfile::read_bytes(bytes) {
        Ok(job) => {
            if let Err(errors) = house::geometry::model(&job.house) {
                assert!(!errors.is_empty());
            }
            true
        }
        Err(problems) => {
            assert!(!problems.is_empty());
            for p in &problems {
                assert!((1..=lines).contains(&p.line()), "{p}");
                in_words(p);
            }
            false
        }
    }
}

fn sheet(bytes: &[u8]) -> bool {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return false;
    };
    match heatpump::read_sheet("a sheet", text) {
        Ok(sheet) => {
            let _ = heatpump::check_sheet(&sheet, units::System::Us);
            true
        }
        Err(errors) => {
            for e in &errors {
                in_words(e);
            }
            false
        }
    }
}

fn weather(bytes: &[u8]) -> bool {
    match climate::read_any(bytes) {
        Ok(read) => {
            let w = &read.value;
            assert!(
                w.dry_bulb_c
                    .iter()
                    .all(|c| c.is_finite() && c.abs() < 100.0)
            );
            assert!(
                w.wind_speed_m_per_s
                    .iter()
                    .all(|v| *v >= 0.0 && v.is_finite())
            );
            true
        }
        Err(refused) => {
            in_words(&refused);
            false
        }
    }
}

fn meter(bytes: &[u8]) -> bool {
    let asked = Asked::default();
    if let Err(refused) = review::kind_of(bytes) {
        in_words(&refused);
    }
    if let Err(refused) = review::read_deliveries(bytes, &asked) {
        in_words(&refused);
    }
    match Days::read_csv(bytes) {
        Ok(days) => assert!(days.mean_c.iter().flatten().all(|c| c.is_finite())),
        Err(refused) => in_words(&refused),
    }
    match review::read_meter(bytes, &asked) {
        Ok(read) => {
            let right = |p: &review::Period| p.days() > 0 && p.energy_j >= 0.0;
            assert!(read.bills.periods.iter().all(right));
            true
        }
        Err(refused) => {
            in_words(&refused);
            false
        }
    }
}

fn feed(bytes: &[u8]) -> bool {
    match review::read_espi(bytes, Some(-21_600)) {
        Ok(_) => true,
        Err(refused) => {
            in_words(&refused);
            false
        }
    }
}

fn logger(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes);
    let layout = Layout {
        time: TimeColumn::Stamp("Time".into(), Some(0)),
        wanted: vec![Wanted {
            column: "P".into(),
            dim: Dim::Pressure,
            unit: "psi".into(),
        }],
        separator: ',',
        decimal_comma: false,
    };
    match startup::logger::read(&text, &layout) {
        Ok(log) => {
            assert!(log.rows.windows(2).all(|w| w[0].at_s < w[1].at_s));
            let values = log.rows.iter().flat_map(|r| r.values.iter().flatten());
            assert!(values.copied().all(f64::is_finite));
            true
        }
        Err(refused) => {
            in_words(&refused);
            false
        }
    }
}

fn record(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes);
    match startup::record::verify(&text) {
        Ok(_) => true,
        Err(broken) => {
            in_words(&broken);
            false
        }
    }
}

fn a_log() -> Vec<u8> {
    let rows = (0..90).map(|m| {
        let (h, min, p) = (9 + m / 60, m % 60, 500.0 - f64::from(m) * 0.01);
        format!("2026-11-20T{h:02}:{min:02}:00,{p:.2}\n")
    });
    format!("Logger 7, gauge 2\nTime,P\n{}", rows.collect::<String>()).into_bytes()
}

fn a_record() -> Vec<u8> {
    let mut chain = startup::record::verify("").expect("empty");
    let mut file = String::new();
    for n in 0..6_u32 {
        let entry = startup::record::Entry {
            at: startup::Stamp {
                epoch_s: 1_760_000_000.0 + f64::from(n) * 60.0,
                offset_min: -360,
            },
            who: "A. Fitter",
            kind: "pressure-reading",
            says: serde_json::json!({ "pressure_pa": 3.4e6, "note": "held", "list": [1, 2, n] }),
            corrects: (n == 4).then_some((2, "misread")),
        };
        let (record, line) = chain.next(&entry).expect("usable");
        chain.records.push(record);
        file.push_str(&line);
    }
    file.into_bytes()
}

struct Kind {
    name: &'static str,
    reader: Reader,
    seeds: Vec<Vec<u8>>,
    /// One in so many of the count: large files take longer.
    one_in: u64,
}

fn kinds() -> Vec<Kind> {
    let files = |paths: &[&str]| paths.iter().map(|p| bytes(p)).collect::<Vec<_>>();
    let kind = |name, reader, seeds, one_in| Kind {
        name,
        reader,
        seeds,
        one_in,
    };
    let jobs = [
        "jobs/lake-street/job.toml",
        "jobs/standard-140/600.toml",
        "jobs/standard-140/960.toml",
    ];
    let sheets = [
        "catalogue/loon-12.toml",
        "catalogue/grebe-30.toml",
        "catalogue/teal-9.toml",
        "catalogue/heron-12.toml",
    ];
    let bills = [
        "jobs/lake-street/bills/electricity.csv",
        "jobs/lake-street/bills/oil-slips.csv",
        "jobs/lake-street/bills/days.csv",
    ];
    let feeds = [
        "crates/review/tests/feeds/gas.xml",
        "crates/review/tests/feeds/house.xml",
        "crates/review/tests/feeds/sun.xml",
        "jobs/lake-street/bills/second-winter.xml",
    ];
    let epw = unpacked("weather/denver-725650.epw.gz");
    let tmy3 = unpacked("weather/greensboro-723170.tmy3.csv.gz");
    let packed = bytes("weather/northway-702910.epw.gz");
    vec![
        kind("job", job as Reader, files(&jobs), 1),
        kind("sheet", sheet, files(&sheets), 1),
        kind("weather", weather, vec![epw, tmy3, packed], 20),
        kind("bills, days", meter, files(&bills), 1),
        kind("Green Button", feed, files(&feeds), 2),
        kind("logger", logger, vec![a_log()], 1),
        kind("record", record, vec![a_record()], 1),
    ]
}

#[test]
fn the_good_files_are_read() {
    for kind in kinds().iter().filter(|k| k.name != "bills, days") {
        for (i, seed) in kind.seeds.iter().enumerate() {
            assert!((kind.reader)(seed), "{} {i}", kind.name);
        }
    }
}

#[test]
fn a_damaged_file_is_answered() {
    let mut fell = Vec::new();
    for kind in kinds() {
        let seeds = damage::seeds(kind.one_in);
        let mut tally = Tally::new(kind.name, &seeds);
        for seed in seeds {
            let mut damage = Damage::new(seed);
            let at = damage.below(kind.seeds.len());
            let Some(good) = kind.seeds.get(at) else {
                continue;
            };
            let bad = damage.done_to(good);
            tally.begin();
            let read = catch_unwind(AssertUnwindSafe(|| (kind.reader)(&bad)));
            tally.done(seed, matches!(read, Ok(true)));
            if read.is_err() {
                fell.push(format!("{}, seed {seed}", kind.name));
            }
        }
        tally.row();
    }
    assert!(fell.is_empty(), "{}", fell.join("\n"));
}
