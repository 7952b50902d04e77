//! The stations that ship with the project, against values worked out elsewhere.

use climate::design::{DegreeDays, design_temperatures, heating_degree_days, percentile_c};
use climate::{DesignKind, NoteKind, Read, Weather, read_any};

fn read(name: &str) -> Read<Weather> {
    let path = format!("{}/../../weather/{name}.gz", env!("CARGO_MANIFEST_DIR"));
    let bytes = std::fs::read(&path).unwrap_or_else(|e| panic!("{path}: {e}"));
    read_any(&bytes).unwrap_or_else(|e| panic!("{name}: {e}"))
}

const SHIPPED: [(&str, &str); 6] = [
    (
        "denver-725650.epw",
        "ochre/defaults/Weather/USA_CO_Denver.Intl.AP.725650_TMY3.epw",
    ),
    ("northway-702910.epw", "USA_AK_Northway.AP.702910_TMY3.epw"),
    (
        "chicago-725300.epw",
        "USA_IL_Chicago-OHare.Intl.AP.725300_TMY3.epw",
    ),
    (
        "aurora-buckley-724695.epw",
        "USA_CO_Aurora-Buckley.Field.ANGB.724695_TMY3.epw",
    ),
    (
        "port-angeles-727885.epw",
        "USA_WA_Port.Angeles-William.R.Fairchild.Intl.AP.727885_TMY3.epw",
    ),
    ("greensboro-723170.tmy3.csv", "pvlib/data/723170TYA.CSV"),
];

/// Cells of a csv line; commas within quotes stay.
fn cells(line: &str) -> Vec<String> {
    let mut inside = false;
    line.split(|c: char| {
        inside ^= c == '"';
        c == ',' && !inside
    })
    .map(|c| c.trim_matches('"').to_owned())
    .collect()
}

/// reference (numpy 2.4.6 on the same files): order statistics exact to the printed digit,
/// degree days to half the last digit.
#[test]
fn percentiles_and_degree_days_as_computed_elsewhere() {
    let table = include_str!("../../../checks/values/climate_reference_design.csv");
    for (name, path) in SHIPPED {
        let row = table
            .lines()
            .find(|l| l.contains(path))
            .map(cells)
            .expect(path);
        let number = |at: usize| row[at].parse::<f64>().ok();
        let w = read(name).value;
        assert_eq!(w.len(), 8760);
        let own = |k| percentile_c(&w, k).expect("a year");
        let near = |got: f64, at: usize, tolerance: f64| {
            let want = number(at).unwrap_or_else(|| panic!("{name}: column {at}: {}", row[at]));
            assert!(
                (got - want).abs() <= tolerance,
                "{name}, column {at}: {got} against {want}"
            );
        };
        near(own(DesignKind::Heating996), 10, 0.0051);
        near(own(DesignKind::Heating99), 11, 0.0051);
        near(own(DesignKind::Cooling1), 15, 0.011);
        near(own(DesignKind::Cooling04), 16, 0.011);
        near(w.dry_bulb_c.iter().sum::<f64>() / 8760.0, 17, 0.0051);
        // Its base is 65 F.
        near(
            heating_degree_days(&w, 33.0 / 1.8).by_daily_mean_k_d,
            19,
            1.0,
        );
        let below = |t: f64| w.dry_bulb_c.iter().filter(|x| **x < t).count() as f64;
        near(below(-15.0), 20, 0.0);
        near(below(-25.0), 22, 0.0);
        if number(7).is_some() {
            near(w.station.elevation_m, 7, 0.0);
        }
        if let Some(header) = number(12) {
            let all = design_temperatures(&w);
            let of = |k| all.iter().find(|d| d.kind == k).expect("all kinds").header;
            assert_eq!(
                of(DesignKind::Heating996).map(|h| h.dry_bulb_c),
                Some(header),
                "{name}"
            );
            assert_eq!(
                of(DesignKind::Heating99).map(|h| h.dry_bulb_c),
                number(13),
                "{name}"
            );
            let source = w.header_design.as_ref().map(|h| h.source.clone());
            assert_eq!(source.as_deref(), Some(row[14].as_str()), "{name}");
            let summer = of(DesignKind::Cooling1).expect("in the header");
            assert!(
                summer
                    .coincident_wet_bulb_c
                    .is_some_and(|w| w < summer.dry_bulb_c)
            );
        } else {
            assert!(w.header_design.is_none(), "{name}");
        }
    }
}

/// reference (psychrolib 2.5.0 on the same files): hours exact, means to the printed digit and a
/// little for its wet-bulb iteration (0.001 K) and the gap between its saturation curve's
/// branches.
#[test]
fn bins_as_computed_elsewhere() {
    let table = include_str!("../../../checks/values/climate_reference_bins.csv");
    for (site, name) in [
        ("Northway_AK", "northway-702910.epw"),
        ("Chicago_IL", "chicago-725300.epw"),
        ("Port_Angeles_WA", "port-angeles-727885.epw"),
        ("Aurora_CO", "aurora-buckley-724695.epw"),
    ] {
        let bins = climate::bins::bins_2_c(&read(name).value).expect("air in range");
        let rows: Vec<Vec<f64>> = table
            .lines()
            .filter(|l| l.split(',').next() == Some(site))
            .map(|l| {
                l.split(',')
                    .skip(1)
                    .map(|f| f.parse().expect("a number"))
                    .collect()
            })
            .collect();
        assert_eq!(bins.len(), rows.len(), "{site}");
        for (b, r) in bins.iter().zip(&rows) {
            let [low, hours, t, rh, ratio, wet] = r[..] else {
                panic!("{r:?}")
            };
            assert_eq!((b.low_c, f64::from(b.hours)), (low, hours), "{site}");
            assert!((b.mean_c - t).abs() < 0.00051, "{site} {low}: {}", b.mean_c);
            let humid = 100.0 * b.mean_rel_humidity;
            assert!(
                (humid - rh).abs() < 0.0051,
                "{site} {low}: {humid} against {rh}"
            );
            assert!(
                (b.mean_humidity_ratio - ratio).abs() < 2e-7 + 0.001 * ratio,
                "{site} {low}: {} against {ratio}",
                b.mean_humidity_ratio
            );
            assert!(
                (b.mean_wet_bulb_c - wet).abs() < 0.02,
                "{site} {low}: wet bulb {} against {wet}",
                b.mean_wet_bulb_c
            );
        }
    }
    let denver = read("denver-725650.epw").value;
    let fahrenheit = climate::bins::bins_5_f(&denver).expect("in range");
    let hours: Vec<(f64, u32)> = fahrenheit.iter().map(|b| (b.low_c, b.hours)).collect();
    assert_eq!(climate::bins::hours_5_f(&denver), hours);
    assert_eq!(fahrenheit.iter().map(|b| b.hours).sum::<u32>(), 8760);
    assert!(
        fahrenheit
            .iter()
            .all(|b| (b.high_c - b.low_c - 5.0 / 1.8).abs() < 1e-9)
    );
}

/// published (checks/published.md, 1): 8760 rows, -19.4 to 40.0 C, mean 10.875 C.
#[test]
fn denver_is_the_published_one() {
    let read = read("denver-725650.epw");
    let w = &read.value;
    let least = w.dry_bulb_c.iter().copied().fold(f64::INFINITY, f64::min);
    let most = w
        .dry_bulb_c
        .iter()
        .copied()
        .fold(f64::NEG_INFINITY, f64::max);
    assert_eq!((least, most), (-19.4, 40.0));
    assert!((w.dry_bulb_c.iter().sum::<f64>() / 8760.0 - 10.875).abs() < 0.0005);
    assert_eq!(
        (
            w.station.latitude_deg,
            w.station.longitude_deg,
            w.station.utc_offset_h
        ),
        (39.83, -104.65, -7.0)
    );
    assert_eq!(
        (w.month[0], w.day[0], w.hour[0], w.year[0]),
        (1, 1, 0, 1995)
    );
    assert_eq!((w.month[8759], w.day[8759], w.hour[8759]), (12, 31, 23));
    assert_eq!(w.rel_humidity[0], 0.85);
    assert_eq!(w.infrared_w_per_m2[0], 181.0);
    // The header lies 3 K below the typical year at 99 %: to be said, not hidden.
    assert!(
        read.notes.iter().any(|n| n.kind == NoteKind::DesignApart),
        "{:?}",
        read.notes
    );
}

/// From the file itself: December of Northway has days of one and the same whole degree.
#[test]
fn a_filled_december_is_doubted() {
    let notes = read("northway-702910.epw").notes;
    let doubt = notes
        .iter()
        .find(|n| n.kind == NoteKind::Doubtful)
        .map(|n| n.text.as_str());
    assert!(
        doubt.is_some_and(|t| t.starts_with("dry bulb stays at -20.0 C for 25 h")),
        "{notes:?}"
    );
}

/// By hand: a steady 8.3 C is 10 K below 18.3 C on 365 days.
#[test]
fn degree_days_of_a_steady_year() {
    let station = read("denver-725650.epw").value.station;
    let w = Weather::constant(station, 8.3, 0.0, 1.0, 250.0).expect("in range");
    let DegreeDays {
        by_daily_mean_k_d,
        by_hour_k_d,
    } = heating_degree_days(&w, 18.3);
    assert!(
        (by_daily_mean_k_d - 3650.0).abs() < 1e-6,
        "{by_daily_mean_k_d}"
    );
    assert!((by_hour_k_d - 3650.0).abs() < 1e-6, "{by_hour_k_d}");
}
