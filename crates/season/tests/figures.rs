//! Figures, findings and charts of a year.

mod support;

use jobfile::Carrier;
use reckon::{Book, Level};
use season::{BinWidth, Bought, Crossing, Regime, break_even_cop};
use support::{Site, choice, job, lake_street, weather};

/// kWh, therm and Btu in J.
const KWH_J: f64 = 3.6e6;
const BTU_J: f64 = 1055.055853;

#[test]
fn break_even_as_card_f9_has_it() {
    // Card F9, worked numbers, printed to two decimals: half a hundredth.
    for (electric, fuel, btu, efficiency, want) in [
        (0.25, 2.80, 91_300.0, 0.85, 2.03),  // propane
        (0.25, 3.90, 138_500.0, 0.82, 2.13), // oil
        (0.25, 1.60, 100_000.0, 0.92, 4.21), // gas
        (0.14, 1.20, 100_000.0, 0.92, 3.15), // gas, cheap electricity
    ] {
        let got = break_even_cop(electric / KWH_J, fuel / (btu * BTU_J), efficiency);
        assert!((got - want).abs() <= 0.0051, "{got} against {want}");
    }
}

#[test]
fn the_book_says_what_the_year_says() {
    let site = Site::lake_street();
    for c in &site.job.choices() {
        let year = site.year(c);
        let mut book = Book::new();
        season::explain(&site.input(c), &year, &mut book).expect("formulas read");
        let key = |rest: &str| format!("season.{}.{rest}", c.name.replace(' ', "-"));
        let value = |rest: &str| book.value(&key(rest)).unwrap_or(f64::NAN);
        // Sums in another order: rounding.
        let same = |rest: &str, want: f64| {
            let got = value(rest);
            assert!(
                (got - want).abs() <= 1e-9 * want.abs(),
                "{rest}: {got}, {want}"
            );
        };
        same("house.heat", year.heat_j);
        same("house.heads-share", year.heads_share().expect("heat"));
        same("house.cost", year.cost().expect("prices"));
        same("house.carbon", year.carbon_kg().expect("carbon"));
        same("house.cop", year.seasonal_cop().expect("heat"));
        let shares = value("house.heads-share") + value("house.heaters-share");
        assert!((shares - 1.0).abs() < 1e-12, "{shares}");
        let by_source: f64 = book
            .iter()
            .filter(|f| {
                f.key.starts_with(&key("")) && f.key.split('.').next_back() == Some("share")
            })
            .map(|f| f.value)
            .sum();
        assert!((by_source - 1.0).abs() < 1e-12, "{by_source}");
        same("house.peak", year.heating_peak.w);
        let cycling = f64::from(year.hours_in(Regime::Cycling)) * 3600.0;
        same("house.hours-cycling", cycling);
        let most: Option<f64> = year
            .units
            .iter()
            .map(|u| u.at_design.map(|g| g.max_w))
            .sum();
        match most {
            Some(w) => same("house.units-give", w),
            None => assert!(book.get(&key("house.units-give")).is_none()),
        }
        for unit in &year.units {
            let of = |what: &str| format!("unit.{}.{what}", unit.name.replace(' ', "-"));
            same(&of("cop"), unit.seasonal_cop().expect("heat"));
            same(&of("electric"), unit.electric.total_j());
            let shares: f64 = ["cycling", "modulating", "full"]
                .map(|r| value(&of(&format!("{r}-share"))))
                .iter()
                .sum();
            assert!((shares - 1.0).abs() < 1e-9, "{shares}");
        }
        // Every input of every figure, and every figure of every finding, is in the book.
        for figure in book.iter() {
            for input in &figure.inputs {
                assert!(
                    book.get(&input.key).is_some(),
                    "{} wants {}",
                    figure.key,
                    input.key
                );
            }
            assert!(
                figure.value.is_finite(),
                "{} is {}",
                figure.key,
                figure.value
            );
            assert!(!figure.what.is_empty());
        }
        for finding in season::findings(&site.input(c), &year) {
            for key in &finding.figures {
                assert!(book.get(key).is_some(), "{} names {key}", finding.rule);
            }
            for text in [
                &finding.says,
                &finding.found,
                &finding.required,
                &finding.mend,
            ] {
                assert!(!text.is_empty(), "{}", finding.rule);
            }
            assert_eq!(finding.level == Level::Ask, !finding.would_tell.is_empty());
        }
    }
}

fn rules(text: &str, c: Option<jobfile::Choice>) -> Vec<(String, Level)> {
    let site = Site::new(job(text), weather("chicago-725300.epw.gz"));
    let c = c.unwrap_or_else(|| site.job.choices().remove(0));
    let year = site.year(&c);
    let mut book = Book::new();
    season::explain(&site.input(&c), &year, &mut book).expect("formulas read");
    season::findings(&site.input(&c), &year)
        .into_iter()
        .inspect(|f| {
            for key in &f.figures {
                assert!(book.get(key).is_some(), "{} names {key}", f.rule);
            }
        })
        .map(|f| (f.rule, f.level))
        .collect()
}

fn has(all: &[(String, Level)], rule: &str, level: Level) -> bool {
    all.iter().any(|(r, l)| r == rule && *l == level)
}

#[test]
fn the_demo_house_is_stopped_by_its_bedrooms_and_mended_at_its_multi() {
    let all = rules(&lake_street(), None);
    assert!(has(&all, "room-too-cold", Level::Stop), "{all:?}");
    assert!(has(&all, "unit-cycles", Level::Fix), "{all:?}");
    assert!(has(&all, "multi-zone-minimum", Level::Fix), "{all:?}");
    assert!(!has(&all, "no-price", Level::Ask), "{all:?}");
}

#[test]
fn each_rule_speaks_when_its_time_comes() {
    // Backup at the heads' own setting; owner switches off; no price of oil.
    let text = lake_street()
        .replace("set_below = \"4 F\"", "set_below = \"0 F\"")
        .replace("[habits]", "[habits]\noff_below = \"15 F\"")
        .replace("oil = \"3.90 /gal\"\n", "");
    let all = rules(&text, None);
    assert!(has(&all, "backup-set-too-high", Level::Fix), "{all:?}");
    assert!(has(&all, "switched-off-in-cold", Level::Note), "{all:?}");
    assert!(has(&all, "no-price", Level::Ask), "{all:?}");

    // Boiler out, and it made the hot water; the old unit stops at 5 F, design is -4 F.
    let out = lake_street().replace("stays = true", "stays = false");
    let old = choice("old", &[("a", "Heron 12")], &[("living", "Sora 12", "a")]);
    let all = rules(&out, Some(old));
    assert!(has(&all, "hot-water-lost", Level::Fix), "{all:?}");
    assert!(has(&all, "stops-in-cold", Level::Stop), "{all:?}");

    // A large head on a bath that asks next to nothing; a unit far too small for the house.
    let large = choice("large", &[("a", "Loon 18")], &[("bath", "Teal 15", "a")]);
    let all = rules(&out, Some(large));
    assert!(has(&all, "head-minimum-over-load", Level::Fix), "{all:?}");
    let small = choice("small", &[("a", "Loon 6")], &[("living", "Teal 6", "a")]);
    let all = rules(&out, Some(small));
    assert!(has(&all, "short-at-design", Level::Stop), "{all:?}");
    assert!(has(&all, "room-short", Level::Fix), "{all:?}");
}

#[test]
fn past_its_last_point_a_sheet_is_asked_for_more() {
    let mut site = Site::lake_street();
    let mut sheet = site.catalogue["Loon 12"].clone();
    // Without its cold points and without a limit the sheet ends at 17 F and says no more.
    sheet.heating.retain(|p| p.outdoor_c > -9.0);
    sheet.limits.heating_cut_out_c = None;
    site.catalogue.insert("Loon 12".to_owned(), sheet);
    let c = choice("one", &[("a", "Loon 12")], &[("living", "Teal 12", "a")]);
    let year = site.year(&c);
    let unit = &year.units[0];
    let beyond = year
        .outdoor_c
        .iter()
        .filter(|t| **t < unit.span_c.expect("span").0)
        .count();
    assert!(beyond > 0);
    assert_eq!(unit.hours_in(Regime::CannotTell) as usize, beyond);
    assert_eq!(unit.at_design, None);
    let mut book = Book::new();
    season::explain(&site.input(&c), &year, &mut book).expect("formulas read");
    assert!(book.get("season.one.house.units-give").is_none());
    let said = season::findings(&site.input(&c), &year);
    assert!(
        said.iter()
            .any(|f| f.rule == "sheet-ends-too-warm" && f.level == Level::Ask)
    );
}

#[test]
fn charts_count_every_hour_once() {
    let site = Site::lake_street();
    let c = site.job.choices().remove(1);
    let year = site.year(&c);
    for width in [BinWidth::Kelvin2, BinWidth::Fahrenheit5] {
        let bins = year.bins(width);
        let hours: u32 = bins.iter().map(|b| b.hours).sum();
        assert_eq!(hours as usize, year.hours);
        let regimes: u32 = bins.iter().flat_map(|b| b.by_regime).sum();
        assert_eq!(regimes as usize, year.hours * year.units.len());
        let heat: f64 = bins.iter().map(|b| b.heat_w * f64::from(b.hours)).sum();
        assert!((heat * 3600.0 - year.heat_j).abs() < 1e-6 * year.heat_j);
        assert!(bins.windows(2).all(|w| w[0].high_c <= w[1].low_c + 1e-9));
    }
    let curve = year.duration_w(101);
    assert_eq!(curve.len(), 101);
    assert!(curve.windows(2).all(|w| w[0] >= w[1]));
    // Summed in another order.
    assert!((curve[0] / year.heating_peak.w - 1.0).abs() < 1e-12);
    // The last is the least hour; half of the hours lie at or above the one in the middle.
    let hours = year.heat_w();
    let least = hours.iter().copied().fold(f64::INFINITY, f64::min);
    assert_eq!(curve[100], least);
    let above = hours.iter().filter(|w| **w >= curve[50]).count();
    assert!(above >= hours.len() / 2, "{above}");
    let quarter = year.duration_w(5)[1];
    assert_eq!(quarter, curve[25]);
    assert!(year.duration_w(1).is_empty());
    let against = year.against_need(&site.input(&c));
    // Every whole degree from the coldest hour to 20 C; at design (-4 F is -20 C) what the year says.
    let coldest = year.outdoor_c.iter().copied().fold(f64::INFINITY, f64::min);
    let first = against[0].outdoor_c;
    assert!(
        first <= coldest && coldest < first + 1.0,
        "{first} {coldest}"
    );
    assert_eq!(against.len() as f64, 20.0 - first + 1.0);
    assert!(
        against
            .windows(2)
            .all(|w| w[1].outdoor_c == w[0].outdoor_c + 1.0)
    );
    let design = against.iter().find(|p| p.outdoor_c == -20.0).expect("cold");
    let gives = year.units.iter().map(|u| u.at_design.expect("tells"));
    let (most, least) = gives.fold((0.0, f64::INFINITY), |(most, least), g| {
        (most + g.max_w, f64::min(least, g.min_w))
    });
    // Tabled anew for the mean setting: the same table, read at -20.000000000000004 C.
    let near = |a: Option<f64>, b: f64| (a.expect("tells") / b - 1.0).abs() < 1e-9;
    assert!(near(design.max_w, most), "{design:?} {most}");
    assert!(near(design.min_w, least), "{design:?} {least}");
    assert!(near(design.need_w, year.need.expect("a line").at(-20.0)));
    let Crossing::At(balance) = year.balance else {
        panic!("{:?}", year.balance)
    };
    for point in &against {
        if let (Some(most), Some(need)) = (point.max_w, point.need_w) {
            // A quarter kelvin of search and straight lines within it.
            assert!(point.outdoor_c < balance + 0.5 || most >= need, "{point:?}");
        }
    }
}

#[test]
fn what_is_bought_is_counted_as_it_is_sold() {
    let bought = |text: &str| {
        let site = Site::new(job(text), weather("chicago-725300.epw.gz"));
        let c = site.job.choices().remove(0);
        site.year(&c).bought
    };
    let of = |all: &[Bought], carrier: Carrier| {
        let one = all.iter().find(|b| b.carrier == carrier);
        one.expect("is bought").clone()
    };
    let text = lake_street();
    let all = bought(&text);
    for (carrier, unit, price) in [
        (Carrier::Oil, "gal", 3.90),
        (Carrier::Electricity, "kWh", 0.22),
    ] {
        let b = of(&all, carrier);
        assert_eq!(b.sold_in.name, unit);
        // What is paid is so many units at the price of one: rounding.
        let paid = b.amount() * price;
        assert!(
            (paid / b.cost.expect("a price") - 1.0).abs() < 1e-12,
            "{paid}"
        );
    }
    let kwh = of(&all, Carrier::Electricity);
    assert!((kwh.amount() / (kwh.energy_j / KWH_J) - 1.0).abs() < 1e-12);
    // Heating oil No. 2: 138,500 Btu a gallon (card F9), to a hundredth for what a table rounds.
    let gallon = of(&all, Carrier::Oil).sold_in.joule;
    assert!(
        (gallon / (138_500.0 * BTU_J) - 1.0).abs() < 0.01,
        "{gallon}"
    );
    // In cents it is the same unit; without a price oil is told in millions of Btu.
    let cents = bought(&text.replace("\"0.22 /kWh\"", "\"22 cents/kWh\""));
    assert!((of(&cents, Carrier::Electricity).amount() / kwh.amount() - 1.0).abs() < 1e-12);
    let oil = of(
        &bought(&text.replace("oil = \"3.90 /gal\"\n", "")),
        Carrier::Oil,
    );
    assert_eq!((oil.sold_in.name.as_str(), oil.cost), ("MMBtu", None));
    assert!((oil.amount() * 1e6 * BTU_J / oil.energy_j - 1.0).abs() < 1e-9);
}

#[test]
fn the_comparison_has_a_row_for_what_is_there_and_for_each_choice() {
    let site = Site::lake_street();
    let c = site.job.choices().remove(0);
    let all = season::compare(&site.input(&c)).expect("runs");
    let rows = all.rows();
    let names: Vec<&str> = rows.iter().map(|r| r.choice.as_str()).collect();
    assert_eq!(
        names,
        [
            "boiler alone",
            "chosen",
            "an outdoor unit for each head",
            "a head in every bedroom"
        ]
    );
    assert!(
        rows.iter()
            .all(|r| r.cost.is_some() && r.carbon_kg.is_some())
    );
    assert!(rows[2].cycling_h < rows[1].cycling_h);
}
