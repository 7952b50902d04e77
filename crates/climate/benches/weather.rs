//! Sun on eight surfaces and reading a file.

use climate::sun::{Facet, SunYear, on_facets};

fn main() {
    divan::main();
}

fn station() -> climate::Station {
    climate::Station {
        name: "Bench".into(),
        place: "none".into(),
        wmo: "0".into(),
        latitude_deg: 45.0,
        longitude_deg: -93.0,
        utc_offset_h: -6.0,
        elevation_m: 250.0,
        source: "bench".into(),
    }
}

fn sunny() -> climate::Weather {
    let mut w = climate::Weather::constant(station(), 0.0, -5.0, 3.0, 250.0).expect("fits");
    let sun = SunYear::of(&w);
    for h in 0..w.len() {
        if sun.up[h] > 0.0 {
            w.dni_w_per_m2[h] = 500.0;
            w.dhi_w_per_m2[h] = 100.0;
            w.ghi_w_per_m2[h] = 100.0 + 500.0 * sun.up[h];
        }
    }
    w
}

#[divan::bench]
fn sun_positions_of_a_year(bencher: divan::Bencher) {
    let w = sunny();
    bencher.bench(|| SunYear::of(&w));
}

#[divan::bench]
fn sun_on_eight_facets(bencher: divan::Bencher) {
    let w = sunny();
    let facets: Vec<Facet> = (0..8)
        .map(|k| Facet {
            azimuth_deg: 45.0 * f64::from(k),
            tilt_deg: if k < 6 { 90.0 } else { 30.0 },
        })
        .collect();
    bencher.bench(|| on_facets(&w, &facets, 0.2).expect("fits"));
}

fn unpacked(name: &str) -> Vec<u8> {
    use std::io::Read as _;
    let path = format!("{}/../../weather/{name}.gz", env!("CARGO_MANIFEST_DIR"));
    let packed = std::fs::read(path).expect("shipped");
    let mut plain = Vec::new();
    flate2::read::GzDecoder::new(&packed[..])
        .read_to_end(&mut plain)
        .expect("gzip");
    plain
}

#[divan::bench]
fn read_epw(bencher: divan::Bencher) {
    let bytes = unpacked("denver-725650.epw");
    bencher.bench(|| climate::read_epw(&bytes).expect("reads"));
}

#[divan::bench]
fn read_tmy3(bencher: divan::Bencher) {
    let bytes = unpacked("greensboro-723170.tmy3.csv");
    bencher.bench(|| climate::read_tmy3(&bytes).expect("reads"));
}
