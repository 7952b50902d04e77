//! The installation stage itself, on a small job: rooms and refrigerant, circuit, panel, charge.

use install::{Input, Installation, installation};
use reckon::Verdict;
use season::Catalogue;

use super::Check;

/// What stands in the job besides the room.
const MORE: &str = r#"
[codes]
electrical = "2023"
room_area = "older"
[[line]]
head = "living"
pieces = [{ name = "wall", length = "12 m", rise = "1 m" }]
[[drain]]
head = "living"
pieces = [{ name = "wall", length = "3 m", fall = "10 cm" }]
[[circuit]]
outdoor = "out"
wire = 12
breaker = "35 A"
length = "80 ft"
volts = "240 V"
[panel]
rating = "100 A"
volts = "240 V"
floor = "1800 ft2"
small_circuits = 3
appliances = [{ name = "range", power = "8000 W" }, { name = "dryer", power = "5000 W" }, { name = "water heater", power = "4500 W" }, { name = "dishwasher", power = "1200 W" }]
peak = "9.2 kW"
interval = "0.25 h"
days = 365
solar = false
"#;

const ROOM: &str = include_str!("../../../../checks/one-room.toml");

fn job() -> String {
    format!("{ROOM}{MORE}")
}
const OUT: &str = include_str!("../../../../catalogue/loon-12.toml");
const HEAD: &str = include_str!("../../../../catalogue/teal-12.toml");
const ROOMS: &str = "IEC/UL 60335-2-40 annex GG, older form, printed table (second hand)";
const CARD_16: &str = "trade card F16";
const CARD_18: &str = "trade card F18, test vectors";
const CARD_19: &str = "trade cards F19 and F20";
const QUIZ: &str = "code quiz in the trade press (second hand)";

pub(super) fn checks() -> Vec<Check> {
    match all() {
        Some(checks) => checks,
        None => vec![
            Check::new(
                "install-job",
                "the small job of the installation",
                "northwall",
            )
            .cannot_tell("", "job or sheet did not read"),
        ],
    }
}

/// The small job with its sheets: 12 g/m on 1/4 in, 7.5 m free, 18 A; then changed.
fn worked(text: &str, change: impl FnOnce(&mut Catalogue)) -> Option<Installation> {
    let job = jobfile::read(text).ok()?;
    let mut out = heatpump::read_sheet("out", OUT).ok()?;
    let mut head = heatpump::read_sheet("head", HEAD).ok()?;
    head.head.as_mut()?.cooling_max_w = Some(12_000.0 * 0.293_071_07);
    for p in &mut out.cooling {
        p.sensible_share = None;
    }
    let charge = out.charge.as_mut()?;
    charge.factory_kg = 1.0;
    charge.free_length_m = Some(7.5);
    let rate = charge.rates.first_mut()?;
    (rate.liquid_line_m, rate.kg_per_m) = (0.006_35, 0.012);
    out.refrigerant = Some("R-32".to_owned());
    out.lines.liquid_m = Some(0.006_35);
    out.plate.mca_a = Some(18.0);
    let mut catalogue: Catalogue = [("OUT".to_owned(), out), ("HEAD".to_owned(), head)].into();
    change(&mut catalogue);
    let model = house::geometry::model(&job.house).ok()?;
    installation(&Input {
        job: &job,
        catalogue: &catalogue,
        model: Some(&model),
        year: None,
        glass: &[],
        winter_wind_deg: None,
        design_c: -20.0,
    })
    .ok()
}

fn all() -> Option<Vec<Check>> {
    let usual = worked(&job(), |_| {})?;
    let value = |key: &str| usual.book.value(key).unwrap_or(f64::NAN);
    let mut all = vec![
        Check::new(
            "charge-trim",
            "12 m of 1/4 in liquid line, 7.5 m free, R-32: to add",
            CARD_16,
        )
        .near(54.0, 0.01, value("charge.out.trim") * 1000.0, 1, "g"),
        Check::new("charge-free", "R-32 charge without an area rule", ROOMS).near(
            1.84,
            0.005,
            value("charge.out.free-limit"),
            2,
            "kg",
        ),
        Check::new(
            "voltage-drop",
            "18 A, 80 ft of 12 AWG, 240 V: voltage lost",
            CARD_18,
        )
        .near(2.37, 0.006, value("wires.out.drop") * 100.0, 2, "%"),
        Check::new(
            "panel-calculated",
            "1,800 ft2 and 18 A by calculation",
            CARD_19,
        )
        .near(85.7, 0.05, value("panel.calculated"), 1, "A"),
        Check::new(
            "drain-rate",
            "12,000 Btu/h at the usual sensible share: water",
            "trade card F26",
        )
        .near(
            2.8,
            0.05,
            value("drain.living.rate") * 3600.0 / 0.453_592_37,
            2,
            "lb/h",
        ),
        Check::new(
            "panel-measured",
            "9.2 kW peak and 18 A by measurement",
            CARD_19,
        )
        .near(65.9, 0.05, value("panel.measured"), 1, "A"),
    ];
    for (height, want) in [(0.6, 28.81), (1.8, 3.20), (2.2, 2.14)] {
        let done = worked(&job(), |c| {
            if let Some(charge) = c.get_mut("OUT").and_then(|s| s.charge.as_mut()) {
                // 12 m of line adds 54 g: together just over 1.84 kg
                charge.factory_kg = 1.8421 - 0.054;
            }
            if let Some(h) = c.get_mut("HEAD").and_then(|s| s.head.as_mut()) {
                h.release_height_m = Some(height);
            }
        })?;
        let area = done.book.value("charge.living.area").unwrap_or(f64::NAN);
        let scaled = area * (1.84_f64 / 1.8421).powi(2);
        let what = format!("1.84 kg of R-32 released {height} m up: least floor");
        all.push(
            Check::new(format!("room-area-{height}"), what, ROOMS)
                .near(want, 0.01, scaled, 2, "m2"),
        );
    }
    // compressor 20 A, fan 2.5 A: 27.5 A least, 45 A at most: a 35 A breaker holds, 50 A does not
    for (amps, want) in [(35, Verdict::Holds), (50, Verdict::Fails)] {
        let text = job().replace("35 A", &format!("{amps} A"));
        let done = worked(&text, |c| {
            if let Some(s) = c.get_mut("OUT") {
                s.plate.mca_a = physics::electricity::minimum_ampacity_a(20.0, 2.5).ok();
                let over = physics::electricity::overcurrent_a(20.0, 2.5).ok();
                s.plate.mocp_a = over.map(|o| o.at_most_a);
            }
        })?;
        let got = done.wires.iter().find(|j| j.rule == "breaker-large");
        let word = |v: Verdict| match v {
            Verdict::Holds => "holds",
            Verdict::Fails => "fails",
            Verdict::CannotTell => "cannot tell",
        };
        let mut check = Check::new(
            format!("circuit-breaker-{amps}"),
            format!("compressor 20 A, fan 2.5 A: a breaker of {amps} A"),
            QUIZ,
        );
        word(want).clone_into(&mut check.expected);
        let got = got.map_or(Verdict::CannotTell, |j| j.verdict);
        word(got).clone_into(&mut check.got);
        check.verdict = super::verdict(got == want);
        all.push(check);
    }
    Some(all)
}
