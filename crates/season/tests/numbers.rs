//! What the year of the demo comes to, four digits of each number: a change of any of them is seen
//! and must be meant. What is right is held elsewhere; here it is held that nothing moves unseen.

#[path = "../../../checks/rounded.rs"]
mod rounded;
mod support;

use std::fmt::Write as _;

use reckon::Book;
use rounded::rounded;
use season::{BinWidth, Year};
use support::{Site, choice, job, lake_street};

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
    let site = Site::new(
        job(&lake_street()),
        support::weather("northway-702910.epw.gz"),
    );
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
    let site = Site::new(job(&text), support::weather("chicago-725300.epw.gz"));
    let choices = site.job.choices();
    let mut found = season::backup::backup(&site.input(&choices[0])).expect("runs");
    found.year = summed(&found.year);
    insta::assert_snapshot!(rounded(&format!("{found:#?}")));
}
