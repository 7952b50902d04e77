//! Houses left to themselves: air through doors and stairs is iterated, and must settle whatever
//! the hour brings.

mod support;

use house::balance::Doors;
use jobfile::new::{Answers, first_job};
use support::weather;

/// A first job of two storeys with a stair ran away to "not a number" on a spring night, when the
/// stair's difference had long been small and then grew. No heat, no cooling, heat alone: every
/// hour of every station must settle and stay between -70 and 70 C.
#[test]
fn stairs_and_doors_settle_on_every_station() {
    let mut job = jobfile::read(&first_job(&Answers::default())).expect("a first job reads");
    let two = job
        .house
        .storeys
        .iter()
        .filter(|s| s.floor_m >= 0.0)
        .count();
    assert!(
        two >= 2 && !job.house.doors.is_empty(),
        "the first job has a stair"
    );
    for station in [
        "northway-702910.epw.gz",
        "chicago-725300.epw.gz",
        "denver-725650.epw.gz",
    ] {
        let weather = weather(station);
        for heated in [true, false] {
            if !heated {
                for room in &mut job.house.rooms {
                    room.heated = None;
                }
            }
            let model = house::geometry::model(&job.house).expect("geometry");
            for doors in [Doors::Open, Doors::AsUsual, Doors::Closed] {
                let year = house::ideal::year(&model, &weather, doors).expect("a year");
                assert_eq!(year.unsettled_steps, 0, "{station}, doors {doors:?}");
                for zone in &year.zones {
                    let fits = zone.least.air_c > -70.0 && zone.greatest.air_c < 70.0;
                    assert!(
                        fits,
                        "{station} {}: {} to {} C",
                        zone.name, zone.least.air_c, zone.greatest.air_c
                    );
                }
                assert!(year.closure.abs() < 1e-4, "ledger open by {}", year.closure);
            }
        }
        job = jobfile::read(&first_job(&Answers::default())).expect("a first job reads");
    }
}
