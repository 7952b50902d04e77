//! What the year of the demo comes to, four digits of each number: a change of any of them is seen
//! and must be meant. What is right is held elsewhere; here it is held that nothing moves unseen.

#[path = "../../../checks/rounded.rs"]
mod rounded;
mod support;

use std::fmt::Write as _;

use reckon::Book;
use rounded::rounded;
use season::bands::{Asked, bands};
use season::choose::{Wishes, search};
use season::{BinWidth, Year};
use support::{Site, choice, job, lake_street, line_of_days, weather, weeks};

/// A year without its hours.
fn summed(year: &Year) -> Year {
    let mut out = year.clone();
    out.outdoor_c.clear();
    out.heads_w.clear();
    out.heaters_w.clear();
    out.electric_w.clear();
    for unit in &mut out.units {
        unit.by_hour.clear();
    }
    out.closure = 0.0;
    out
}

#[test]
fn years_side_by_side() {
    let site = Site::lake_street();
    let choices = site.job.choices();
    let all = season::compare(&site.input(&choices[0])).expect("runs");
    let mut out = format!("{:#?}\n", all.rows());
    let years = all.years.iter().flat_map(|(_, year)| year);
    for hourly in all.baseline.iter().chain(years) {
        let year = summed(hourly);
        for room in &year.rooms {
            let _ = writeln!(out, "{room:?}");
        }
        let _ = writeln!(out, "{:#?}", (&year.units, &year.heaters, &year.bought));
        for bin in hourly.bins(BinWidth::Fahrenheit5) {
            let _ = writeln!(out, "{bin:?}");
        }
    }
    insta::assert_snapshot!(rounded(&out));
}

/// Short of heat in a colder place: heads behind, heaters locked out, a unit that cuts out.
#[test]
fn a_winter_that_is_too_cold() {
    let site = Site::new(job(&lake_street()), weather("northway-702910.epw.gz"));
    let weak = choice(
        "weak",
        &[("out", "Heron 12")],
        &[("living", "Teal 9", "out")],
    );
    let year = site.year(&weak);
    let input = site.input(&weak);
    let mut book = Book::new();
    season::explain(&input, &year, &mut book).expect("formulas read");
    let mut out = format!("{:#?}\n", summed(&year));
    for f in season::findings(&input, &year) {
        let _ = writeln!(
            out,
            "{:?} {}: {} | {} | {}",
            f.level, f.rule, f.says, f.found, f.required
        );
    }
    for f in book.iter() {
        let _ = writeln!(out, "{} = {:?}", f.key, f.value);
    }
    insta::assert_snapshot!(rounded(&out));
}

#[test]
fn backup_and_cold_snap() {
    let text = format!(
        "{}\n[tariff]\ntiers = [{{ price = \"0.15 /kWh\", up_to = \"400 kWh\" }}, {{ price = \"0.25 /kWh\" }}]\nfixed = \"10 /month\"\nother = \"5000 kWh\"\ndemand = \"6 /kW\"\n",
        lake_street()
    );
    let site = Site::new(job(&text), weather("chicago-725300.epw.gz"));
    let choices = site.job.choices();
    let mut found = season::backup::backup(&site.input(&choices[0])).expect("runs");
    found.year = summed(&found.year);
    insta::assert_snapshot!(rounded(&format!("{found:#?}")));
}

/// The search and the bands, over a week of each month.
#[test]
fn search_and_bands() {
    let text = lake_street();
    let site = Site::new(job(&text), weeks(&weather("chicago-725300.epw.gz")));
    let choices = site.job.choices();
    let input = site.input(&choices[0]);
    let prices = site.catalogue.values().enumerate().map(|(i, sheet)| {
        // invented: another for each
        (sheet.name.clone(), 800.0 + 130.0 * i as f64)
    });
    let wishes = Wishes {
        rooms: ["living", "landing", "bed 1"].map(str::to_owned).to_vec(),
        prices: prices.collect(),
        ..Wishes::default()
    };
    let mut found = search(&input, &wishes).expect("runs");
    let mut out = String::new();
    for s in &found.survivors {
        let e = &s.choice.equipment;
        let units = e.outdoors.iter().map(|o| o.unit.as_str());
        let heads = e.heads.iter().map(|h| format!("{} in {}", h.unit, h.room));
        let beside = s.beside.as_ref().map(|b| (&b.choice.name, &b.differs));
        let beaten = s.runner_up.as_ref().map(|b| (&b.choice.name, &b.differs));
        let _ = writeln!(
            out,
            "{}: {}; {}\n  {:?}\n  {:?}\n  best {:?}\n  beside {beside:?}\n  before {beaten:?}",
            s.choice.name,
            units.collect::<Vec<_>>().join(", "),
            heads.collect::<Vec<_>>().join(", "),
            s.measure,
            s.row,
            s.best_in,
        );
    }
    found.survivors.clear();
    let asked = Asked {
        samples: 6,
        ..Asked::default()
    };
    let of = bands(&input, &choices[..1], &asked, &line_of_days).expect("runs");
    let _ = writeln!(out, "{found:#?}\n{of:#?}");
    insta::assert_snapshot!(rounded(&out));
}
