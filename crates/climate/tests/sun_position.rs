//! The sun's place against the reference library's NREL SPA, 1950 to 2100.

use climate::sun::{Instant, position, refraction_deg};

const VALUES: &str = include_str!("../../../checks/values/climate_sun_position.csv");

fn rows() -> impl Iterator<Item = Vec<f64>> {
    VALUES
        .lines()
        .filter(|l| l.starts_with(|c: char| c.is_ascii_digit() || c == '-'))
        .map(|l| l.split(',').map(|f| f.parse().expect("a number")).collect())
}

/// Angle between two directions given by zenith and azimuth, degrees.
fn apart(z1: f64, a1: f64, z2: f64, a2: f64) -> f64 {
    let (z1, z2, a) = (z1.to_radians(), z2.to_radians(), (a1 - a2).to_radians());
    let sin_z = ((z1 - z2) / 2.0).sin().powi(2);
    let sin_a = z1.sin() * z2.sin() * (a / 2.0).sin().powi(2);
    2.0 * (sin_z + sin_a).sqrt().min(1.0).asin().to_degrees()
}

/// reference library (pvlib 0.16.1, NREL SPA); 0.01 degrees is what is asked of us, and a
/// hundredth of the sun's own width by two.
#[test]
fn within_a_hundredth_of_a_degree() {
    let mut worst: f64 = 0.0;
    let mut worst_equation: f64 = 0.0;
    let mut count = 0;
    for r in rows() {
        let [
            lat,
            lon,
            _,
            year,
            month,
            day,
            hour,
            zenith,
            _,
            azimuth,
            equation,
        ] = r[..]
        else {
            panic!("row of {} fields", r.len())
        };
        let when = Instant {
            year: year as i32,
            month: month as u8,
            day: day as u8,
            hour_utc: hour,
        };
        let p = position(lat, lon, when);
        worst = worst.max(apart(p.zenith_deg, p.azimuth_deg, zenith, azimuth));
        worst_equation = worst_equation.max((p.equation_of_time_min - equation).abs());
        count += 1;
    }
    assert_eq!(count, 1248);
    assert!(worst < 0.01, "{worst} degrees");
    assert!(worst_equation < 0.05, "{worst_equation} min");
}

/// reference library; the lift at 12 C and the pressure of the height. Near the horizon it grows
/// by 0.2 a degree, so the sun's 0.005 degrees show as 0.001 there.
#[test]
fn refraction_as_the_reference() {
    let mut checked = 0;
    for r in rows() {
        let [_, _, height, _, _, _, _, zenith, apparent, _, _] = r[..] else {
            panic!("row")
        };
        if zenith < 90.5 {
            let lift = refraction_deg(90.0 - zenith, climate::altitude::pressure_pa(height), 12.0);
            let want = zenith - apparent;
            assert!(
                (lift - want).abs() < 0.002,
                "zenith {zenith}: {lift} against {want}"
            );
            checked += 1;
        }
    }
    assert!(checked > 500);
}

/// reference library (pvlib 0.16.1), the values handed to the project: printed to 0.0001 degrees,
/// two places over four days. Extraterrestrial sun within 0.2 %: theirs is a Fourier series.
#[test]
fn the_days_handed_to_the_project() {
    let table = include_str!("../../../checks/values/climate_reference_solar_position.csv");
    let mut count = 0;
    for row in table.lines().filter(|l| l.starts_with("site_")) {
        let cells: Vec<&str> = row.split(',').collect();
        let number = |at: usize| cells[at].parse::<f64>().expect("a number");
        let (date, time) = cells[4].split_once(' ').expect("a stamp");
        let parts: Vec<f64> = date
            .split('-')
            .chain(time.split(':'))
            .map(|p| p.parse().expect("a number"))
            .collect();
        let when = Instant {
            year: parts[0] as i32,
            month: parts[1] as u8,
            day: parts[2] as u8,
            hour_utc: parts[3] + parts[4] / 60.0 - number(5),
        };
        let p = position(number(1), number(2), when);
        let off = apart(p.zenith_deg, p.azimuth_deg, number(6), number(9));
        assert!(off < 0.01, "{row}: {off} degrees");
        assert!((p.elevation_deg() - number(8)).abs() < 0.01, "{row}");
        let outside = climate::sun::extraterrestrial_w_per_m2(p.distance_au);
        assert!(
            (outside - number(11)).abs() < 0.002 * outside,
            "{row}: {outside}"
        );
        count += 1;
    }
    assert!(count > 150, "{count} rows");
}

/// reference library (pvlib 0.16.1, printed to the second): at its sunrise and sunset the sun's
/// middle stands 0.8333 degrees under the horizon. 0.01 degrees is under four seconds of time.
#[test]
fn sunrise_and_sunset_as_the_reference() {
    let table = include_str!("../../../checks/values/climate_reference_sunrise_set.csv");
    let mut count = 0;
    for row in table.lines().filter(|l| l.starts_with("site_")) {
        let cells: Vec<&str> = row.split(',').collect();
        let (lat, lon, zone) = match cells[0] {
            "site_a" => (44.88, -93.22, -6.0),
            _ => (64.82, -147.86, -9.0),
        };
        let date: Vec<i32> = cells[1]
            .split('-')
            .map(|p| p.parse().expect("a number"))
            .collect();
        for time in [cells[2], cells[4]] {
            let t: Vec<f64> = time
                .split(':')
                .map(|p| p.parse().expect("a number"))
                .collect();
            let hour_utc = t[0] + t[1] / 60.0 + t[2] / 3600.0 - zone;
            // The reference looks for the sunset of the universal date: in the west that is the
            // evening before.
            let evening_before = u8::from(hour_utc >= 24.0);
            let when = Instant {
                year: date[0],
                month: date[1] as u8,
                day: date[2] as u8 - evening_before,
                hour_utc,
            };
            let zenith = position(lat, lon, when).zenith_deg;
            // The printed instant is without parallax, which lowers the sun by 0.0024 degrees.
            assert!((zenith - 90.8333).abs() < 0.01, "{row}: {zenith} at {time}");
            count += 1;
        }
    }
    assert_eq!(count, 16);
}
