//! The numbers of the catalogue as they are, four digits of each: a change of any of them is seen
//! and must be meant. What is right is held elsewhere; here it is held that nothing moves unseen.

#[path = "../../../checks/rounded.rs"]
mod rounded;
mod support;

use std::fmt::Write as _;

use heatpump::{
    Conditions, Duty, Head, Kind, NotASystem, OutdoorUnit, Performance, Running, Sheet, System,
    capability, sheet_ratings,
};
use rounded::rounded;
use support::all_sheets;

/// Four digits; what is nothing is a bare 0. Sentences beside it keep what they say.
fn n(x: f64) -> String {
    if x == 0.0 {
        return "0".to_owned();
    }
    rounded(&format!("{x:?}"))
}

fn some(x: Option<f64>) -> String {
    x.map_or_else(|| "none".to_owned(), n)
}

fn run(r: Running) -> String {
    format!("{}/{}", n(r.capacity_w), n(r.electric_w))
}

fn of(outdoor: &str, heads: &[&str]) -> Result<System, NotASystem> {
    let all = all_sheets();
    let take = |name: &str| -> Sheet {
        let sheet = all.iter().find(|s| s.name == name);
        sheet.expect("a sheet").clone()
    };
    let heads = heads.iter().map(|h| Head::new(take(h)).expect("a head"));
    System::new(
        OutdoorUnit::new(take(outdoor)).expect("an outdoor unit"),
        heads.collect(),
    )
}

fn at_temperatures(s: &System, duty: Duty, out: &mut String) {
    let (indoor_c, from_f, to_f) = match duty {
        Duty::Heating => (20.5, -25, 65),
        Duty::Cooling => (25.0, 60, 115),
    };
    let mut conditions = Conditions::at_sea_level(indoor_c);
    conditions.pressure_pa = 98_000.0;
    for outdoor_f in (from_f..=to_f).step_by(9) {
        let outdoor_c = (f64::from(outdoor_f) - 32.0) / 1.8;
        let _ = match capability(s, duty, outdoor_c, conditions) {
            Err(why) => writeln!(out, "  {outdoor_f} F: {why}"),
            Ok(c) => writeln!(
                out,
                "  {outdoor_f} F: {} {} {} rated {} pan {} waits {} frost {} cd {} sensible {}",
                run(c.min),
                run(c.middle),
                run(c.max),
                c.rated.map_or("none".to_owned(), run),
                n(c.base_pan_w),
                n(c.waiting_w),
                n(c.frost_share),
                n(c.cd),
                some(c.sensible_share)
            ),
        };
    }
    let Ok(table) = Performance::new(s, duty, conditions) else {
        return;
    };
    let (cold_c, warm_c) = table.span_c();
    let _ = writeln!(out, "  table {} to {} C", n(cold_c), n(warm_c));
    for share in [0.1, 0.5, 0.9] {
        let outdoor_c = cold_c + share * (warm_c - cold_c);
        let heads = s.heads.len();
        for need in [200.0, 2_000.0, 5_000.0, 20_000.0] {
            // the first head asks for half as much as the others
            let mut need_w = vec![need; heads];
            if let Some(first) = need_w.first_mut() {
                *first = 0.5 * need;
            }
            for calling in 1..=heads {
                let asks: Vec<f64> = (0..heads)
                    .map(|h| if h < calling { need_w[h] } else { 0.0 })
                    .collect();
                let mut gives = vec![0.0; heads];
                let o = table.share(outdoor_c, &asks, &mut gives);
                let gives: Vec<String> = gives.into_iter().map(n).collect();
                let _ = writeln!(
                    out,
                    "  {} C asks {} of {calling}: {:?} {} W takes {} on {} frost {}; {}",
                    n(outdoor_c),
                    n(need),
                    o.mode,
                    n(o.delivered_w),
                    n(o.electric_w),
                    n(o.on_fraction),
                    n(o.frost_electric_w),
                    gives.join(" ")
                );
            }
        }
        let range = table.range(outdoor_c);
        let _ = writeln!(
            out,
            "  {} C from {} to {} sensible {}",
            n(outdoor_c),
            some(range.map(|r| r.min_w)),
            some(range.map(|r| r.max_w)),
            some(table.sensible_share(outdoor_c))
        );
    }
}

fn told(s: &Result<System, NotASystem>, out: &mut String) {
    let s = match s {
        Ok(s) => s,
        Err(why) => {
            let _ = writeln!(out, "  {why}");
            return;
        }
    };
    let _ = match sheet_ratings(s) {
        Err(why) => writeln!(out, "  {why}"),
        Ok(r) => writeln!(
            out,
            "  hspf2 {} seer2 {} scop {}",
            some(r.hspf2),
            some(r.seer2),
            some(r.scop)
        ),
    };
    for duty in [Duty::Heating, Duty::Cooling] {
        let _ = writeln!(out, " {}", duty.word());
        at_temperatures(s, duty, out);
    }
}

#[test]
fn units_with_one_head() {
    let mut out = String::new();
    for sheet in &all_sheets() {
        if sheet.kind == Kind::OutdoorSingle {
            let _ = writeln!(out, "{}", sheet.name);
            told(&of(&sheet.name, &["Teal 9"]), &mut out);
        }
    }
    insta::assert_snapshot!(out);
}

/// Sums of heads on a row of the combination table, between two, and outside.
#[test]
fn units_with_several_heads() {
    let mut out = String::new();
    for sheet in &all_sheets() {
        if sheet.kind != Kind::OutdoorMulti {
            continue;
        }
        for heads in [
            &["Teal 9", "Teal 9"][..],
            &["Teal 6", "Teal 12"],
            &["Teal 9", "Bittern 12"],
            &["Teal 9", "Teal 9", "Bittern 12"],
            &["Teal 6", "Teal 6", "Teal 9", "Teal 12"],
        ] {
            let _ = writeln!(out, "{} with {}", sheet.name, heads.join(", "));
            told(&of(&sheet.name, heads), &mut out);
        }
    }
    insta::assert_snapshot!(out);
}
