//! Where a line runs on the plan, how far the ice of a unit spreads, what the words are in.

mod support;

use install::Installation;
use reckon::Verdict;
use support::of;

const UNIT: &str = r#"
[[head_place]]
head = "living"
at = "2 m, 3 m"
[[outdoor_place]]
outdoor = "out"
wall = "east"
along = "3 m"
rear = "0.2 m"
ice_area = "20 ft2"
"#;

fn verdicts(i: &Installation, rule: &str) -> Vec<Verdict> {
    let all = i.place.iter().chain(&i.lines);
    all.filter(|j| j.rule == rule).map(|j| j.verdict).collect()
}

fn line(pieces: &str) -> String {
    format!("{UNIT}\n[[line]]\nhead = \"living\"\npieces = [{pieces}]\n")
}

/// Half a disc of 20 ft2: `sqrt(2 x 1.858 / pi)` is 1.088 m.
#[test]
fn the_ice_and_the_walk() {
    let i = of(UNIT);
    let reach = i.book.value("outdoors.out.ice-reach").expect("a figure");
    assert!((reach - 1.0876).abs() < 1e-3, "{reach}");
    assert_eq!(verdicts(&i, "ice-walk"), [Verdict::CannotTell]);
    for (walk, wanted) in [("1.0 m", Verdict::Fails), ("1.2 m", Verdict::Holds)] {
        let i = of(&format!("{UNIT}walk = \"{walk}\"\n"));
        assert_eq!(verdicts(&i, "ice-walk"), [wanted], "{walk}");
    }
}

/// A piece is not shorter than the way between its ends: 3 m over and 4 m up are 5 m, less a hand.
#[test]
fn a_piece_against_the_plan() {
    let first = "{ name = \"along\", length = \"9 m\", rise = \"0 m\", to = \"5 m, 3 m\" }";
    for (length, wanted) in [("4.8 m", Verdict::Fails), ("4.9 m", Verdict::Holds)] {
        let i = of(&line(&format!(
            "{first}, {{ name = \"up\", length = \"{length}\", rise = \"4 m\", to = \"2 m, 3 m\" }}"
        )));
        assert_eq!(
            verdicts(&i, "line-on-plan"),
            [Verdict::Holds, wanted],
            "{length}"
        );
        assert_eq!(verdicts(&i, "line-ends-at-head"), [Verdict::Holds]);
    }
    // an end that nobody measured: what follows it cannot be judged, and is not
    let i = of(&line(&format!(
        "{{ name = \"up\", length = \"1 m\" }}, {first}"
    )));
    assert!(verdicts(&i, "line-on-plan").is_empty());
    assert_eq!(verdicts(&i, "line-ends-at-head"), [Verdict::Fails]);
}

#[test]
fn studs_for_the_sleeve() {
    assert_eq!(verdicts(&of(UNIT), "head-studs"), [Verdict::CannotTell]);
    for (more, wanted) in [
        ("bay = \"80 mm\"", vec![Verdict::Fails]),
        ("bay = \"14.5 in\"", vec![Verdict::Holds]),
        ("fixed_to = \"masonry\"", vec![]),
    ] {
        let i = of(&UNIT.replacen(
            "at = \"2 m, 3 m\"",
            &format!("at = \"2 m, 3 m\"\n{more}"),
            1,
        ));
        assert_eq!(verdicts(&i, "head-studs"), wanted, "{more}");
    }
}

/// Findings and verdicts speak in the units of the job.
#[test]
fn words_are_in_the_units_of_the_job() {
    let room = |si: bool| {
        let mut job = jobfile::read(&support::job_text(UNIT)).expect("reads");
        if si {
            job.units = units::System::Si;
        }
        let catalogue = support::catalogue();
        let model = house::geometry::model(&job.house).ok();
        let i = install::installation(&install::Input {
            job: &job,
            catalogue: &catalogue,
            model: model.as_ref(),
            year: None,
            glass: &[],
            winter_wind_deg: None,
            design_c: -20.0,
        })
        .expect("no defect");
        let found = i
            .place
            .iter()
            .find(|j| j.rule == "ice-walk")
            .expect("there");
        found.required.clone()
    };
    assert_eq!(room(false), "at least 3 ft 7 in");
    assert_eq!(room(true), "at least 1.09 m");
    let told =
        jobfile::read(&support::job_text(UNIT).replacen("[job]", "[job]\nunits = \"si\"", 1));
    assert_eq!(told.expect("reads").units, units::System::Si);
}
