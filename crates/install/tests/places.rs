//! Places on the plan: jets judged, positions suggested, distances and sound taken from the plan.

mod support;

use install::{Input, Installation, Suggested, suggest};
use reckon::Verdict;
use support::{of, with};

const AT: &str = "[[head_place]]\nhead = \"living\"\nat = \"17.5 ft, 7 ft\"\nblows = \"270 deg\"\nheight = \"7 ft\"\nseats = [\"6 ft, 7 ft\"]\nbeds = [\"16 ft, 2 ft\"]\n";
const UNIT: &str =
    "[[outdoor_place]]\noutdoor = \"out\"\nwall = \"east\"\nalong = \"7 ft\"\nrear = \"8 in\"\n";

fn verdicts(done: &Installation, rule: &str) -> Vec<Verdict> {
    let all = done.place.iter().filter(|j| j.rule == rule);
    all.map(|j| j.verdict).collect()
}

fn suggested(more: &str) -> Vec<Suggested> {
    let job = jobfile::read(&support::job_text(more)).unwrap_or_else(|p| panic!("{p:?}"));
    let model = house::geometry::model(&job.house).expect("model");
    let catalogue = support::catalogue();
    suggest(&Input {
        job: &job,
        catalogue: &catalogue,
        model: Some(&model),
        year: None,
        glass: &[],
        winter_wind_deg: Some(90.0),
        design_c: -20.0,
    })
    .expect("no defect")
}

/// A seat in the middle of the stream is in a draught; a bed behind the head is not. Physics only:
/// the numbers are a regression of nothing, the verdicts must be so.
#[test]
fn a_seat_in_the_stream_is_disturbed_and_a_bed_behind_is_not() {
    assert_eq!(
        verdicts(&of(AT), "seat-draught"),
        [Verdict::Fails, Verdict::Holds]
    );
}

/// A short duct's grille is on no sheet of a head: nothing is guessed.
#[test]
fn a_short_duct_cannot_be_told() {
    let done = with(AT, |c| {
        if let Some(s) = c.get_mut("HEAD") {
            s.kind = heatpump::Kind::Head(heatpump::HeadKind::SlimDuct);
        }
    });
    for rule in ["warm-air-low", "cold-air-falls", "seat-draught"] {
        let all = verdicts(&done, rule);
        assert!(
            all.iter().all(|v| *v == Verdict::CannotTell),
            "{rule} {all:?}"
        );
    }
}

/// A flatter louvre keeps warm air higher.
#[test]
fn the_louvre_of_the_job_wins() {
    let low = |deg: u32| {
        let done = of(&AT.replace("seats", &format!("louvre_heating = \"{deg} deg\"\nseats")));
        done.book.value("indoors.living.heating.low").expect("told")
    };
    assert!(low(20) > low(45) && low(45) > low(60));
}

/// 3, 4 and 5 from a corner of the casing, by hand: the plan's distance where nobody measured.
#[test]
fn distances_come_from_the_plan() {
    // unit 13 in deep, 33 in wide, 8 in off the wall at 18 ft: its north-east corner
    let (east, north) = (18.0 + (8.0 + 13.0) / 12.0 + 3.0, 7.0 + 33.0 / 24.0 + 4.0);
    let mark = format!("[[landmark]]\nwhat = \"dryer\"\nat = \"{east} ft, {north} ft\"\n");
    let done = of(&format!("{UNIT}{mark}"));
    let m = done.book.value("outdoors.out.dryer").expect("told");
    assert!((m / 0.3048 - 5.0).abs() < 1e-6, "{m}");
}

fn night(more: &str) -> f64 {
    let listener = "[[listener]]\nname = \"n\"\nat = \"38 ft, 7 ft\"\nnight = \"45 dB(A)\"\nsource = \"bylaw\"\n";
    let done = of(&format!("{UNIT}{listener}{more}"));
    done.book.value("sound.n.night").expect("told")
}

/// Hard ground and a house wall that throws back four fifths: between factor 2 and factor 4 of
/// `iso-9613-2`; a fence behind the listener adds at most 3 dB.
#[test]
fn sound_comes_off_walls() {
    let metres = (38.0 - (18.0 + (8.0 + 6.5) / 12.0)) * 0.3048;
    let open = |q: f64| 59.0 + 10.0 * (q / (4.0 * std::f64::consts::PI * metres * metres)).log10();
    let level = night("");
    assert!(level > open(2.0) && level < open(4.0), "{level}");
    let fence =
        night("[[landmark]]\nwhat = \"wall\"\nat = \"39 ft, -10 ft\"\nto = \"39 ft, 30 ft\"\n");
    assert!(
        fence > level + 1.0 && fence < level + 3.02,
        "{fence} {level}"
    );
    let soft = night(
        "[[landmark]]\nwhat = \"wall\"\nat = \"39 ft, -10 ft\"\nto = \"39 ft, 30 ft\"\nthrows_back = \"0 %\"\n",
    );
    assert!((soft - level).abs() < 1e-9);
}

/// The same job gives the same positions; the best is never worse than the person's own.
#[test]
fn suggestions_are_steady_and_never_worse() {
    let text = format!(
        "{AT}{UNIT}[[landmark]]\nwhat = \"dryer\"\nat = \"18 ft, 12 ft\"\n[[landmark]]\nwhat = \"eave\"\nat = \"18.5 ft, 0 ft\"\nto = \"18.5 ft, 14 ft\"\n"
    );
    let all = suggested(&text);
    assert_eq!(all, suggested(&text));
    assert_eq!(all.len(), 2);
    for s in &all {
        let best = s.best.first().expect("a position");
        let yours = s.yours.as_ref().expect("on the plan");
        let key = |p: &install::Position| (p.stops, p.fixes, p.notes);
        assert!(key(best) <= key(yours), "{best:?} {yours:?}");
        assert!(s.tried > 20, "{}", s.tried);
        assert!(best.lacks.is_empty());
    }
    let unit = all.iter().find(|s| s.of == "outdoor.out").expect("unit");
    // the wind comes from the east and the eave drips there: the east wall is left
    assert!(unit.best.iter().all(|p| !p.says.starts_with("east")));
    assert!(unit.your_rank > Some(1));
}

/// A cassette is tried over the ceiling, clear of the walls by its sheet.
#[test]
fn a_cassette_is_tried_over_the_ceiling() {
    let job = jobfile::read(&support::job_text(AT)).expect("reads");
    let model = house::geometry::model(&job.house).expect("model");
    let mut catalogue = support::catalogue();
    if let Some(s) = catalogue.get_mut("HEAD") {
        s.kind = heatpump::Kind::Head(heatpump::HeadKind::CeilingCassette);
        s.size.width_m = Some(0.57);
    }
    let all = suggest(&Input {
        job: &job,
        catalogue: &catalogue,
        model: Some(&model),
        year: None,
        glass: &[],
        winter_wind_deg: None,
        design_c: -20.0,
    })
    .expect("no defect");
    let head = all.iter().find(|s| s.of == "head.living").expect("head");
    assert!(head.tried > 100, "{}", head.tried);
    assert!(head.best.iter().all(|p| p.says.starts_with("ceiling")));
}
