//! Sun on tilted surfaces against the reference library.

use climate::sun::{Facet, SunYear, on_facets_with};
use climate::{Columns, Station, Weather};

fn station() -> Station {
    Station {
        name: "Testplace".into(),
        place: "none".into(),
        wmo: "0".into(),
        latitude_deg: 45.0,
        longitude_deg: -90.0,
        utc_offset_h: -6.0,
        elevation_m: 0.0,
        source: "test".into(),
    }
}

/// reference library (pvlib 0.16.1, Perez, all sites composite 1990); 1 % of the total, and
/// 0.2 W/m2 where there is nearly nothing. The same model with the same numbers, so this is a
/// check of our lines, not of the model.
#[test]
fn perez_on_a_grid() {
    let values = include_str!("../../../checks/values/climate_tilted.csv");
    let n = 8760;
    let mut checked = 0;
    let mut columns = Columns {
        dry_bulb_c: vec![0.0; n],
        dew_point_c: vec![-5.0; n],
        pressure_pa: vec![101_325.0; n],
        ghi_w_per_m2: vec![0.0; n],
        dni_w_per_m2: vec![0.0; n],
        dhi_w_per_m2: vec![0.0; n],
        infrared_w_per_m2: vec![250.0; n],
        wind_speed_m_per_s: vec![0.0; n],
        wind_dir_deg: vec![0.0; n],
        sky_cover: vec![0.0; n],
    };
    let mut sun = SunYear {
        east: vec![0.0; n],
        north: vec![0.0; n],
        up: vec![0.0; n],
        sunlit: vec![0.0; n],
        extraterrestrial_w_per_m2: vec![1366.1; n],
    };
    // Each row of the grid is put into an hour of its own of an invented year.
    let rows: Vec<Vec<f64>> = values
        .lines()
        .filter(|l| l.starts_with(|c: char| c.is_ascii_digit()))
        .map(|l| l.split(',').map(|f| f.parse().expect("a number")).collect())
        .collect();
    for (h, r) in rows.iter().enumerate() {
        let (zenith, azimuth) = (r[0].to_radians(), r[1].to_radians());
        sun.up[h] = zenith.cos();
        sun.east[h] = zenith.sin() * azimuth.sin();
        sun.north[h] = zenith.sin() * azimuth.cos();
        sun.sunlit[h] = 1.0;
        columns.dni_w_per_m2[h] = r[2];
        columns.dhi_w_per_m2[h] = r[3];
        columns.ghi_w_per_m2[h] = r[7];
    }
    let weather = Weather::from_columns(station(), columns).expect("columns fit");
    for (h, r) in rows.iter().enumerate() {
        if h % 8 != 0 {
            continue;
        }
        let facets: Vec<Facet> = rows[h..h + 8]
            .iter()
            .map(|r| Facet {
                tilt_deg: r[5],
                azimuth_deg: r[6],
            })
            .collect();
        let got = on_facets_with(&sun, &weather, &facets, 0.2).expect("facets fit");
        for (k, r) in rows[h..h + 8].iter().enumerate() {
            let total = r[8] + r[9] + r[10];
            let ours = got[k].total_w_per_m2(h + k);
            assert!(
                (ours - total).abs() < 0.01 * total + 0.2,
                "{r:?}: {ours} against {total}"
            );
            let sky = got[k].sky_diffuse_w_per_m2[h + k];
            assert!((sky - r[9]).abs() < 0.01 * r[9] + 0.2, "{r:?}: sky {sky}");
            assert!(
                sky >= 0.0 && got[k].around_sun_w_per_m2[h + k] >= 0.0,
                "{r:?}"
            );
            checked += 1;
        }
        assert_eq!(r.len(), 11);
    }
    assert_eq!(checked, 2048);
}
