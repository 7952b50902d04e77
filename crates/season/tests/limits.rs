//! Each rule just within its limit is silent and just past it speaks. One year of the demo house is
//! run; then what the rule looks at is set by hand. The limits are those the page of each rule names.

mod support;

use std::sync::LazyLock;

use house::describe::Use;
use jobfile::Choice;
use reckon::{Finding, Level};
use season::{CopPoint, Crossing, Design, Gives, NeedLine, Regime, Year};
use support::{Site, choice, job, lake_street, weather};

/// 62 F.
const TOO_COLD_C: f64 = (62.0 - 32.0) / 1.8;
/// Less than anybody would tell apart.
const A_LITTLE: f64 = 1e-6;

struct Ran {
    site: Site,
    choice: Choice,
    year: Year,
}

/// One unit with two heads and the boiler behind.
static RAN: LazyLock<Ran> = LazyLock::new(|| {
    let site = Site::lake_street();
    let choice = choice(
        "two",
        &[("out", "Grebe 20")],
        &[("living", "Teal 9", "out"), ("landing", "Teal 6", "out")],
    );
    let year = site.year(&choice);
    Ran { site, choice, year }
});

/// What a rule says of the year changed so.
fn said(rule: &str, change: impl FnOnce(&mut Year)) -> Vec<Finding> {
    let mut year = RAN.year.clone();
    change(&mut year);
    let all = season::findings(&RAN.site.input(&RAN.choice), &year);
    assert!(all.is_sorted_by_key(|f| f.level), "loudest first");
    all.into_iter().filter(|f| f.rule == rule).collect()
}

fn levels(rule: &str, change: impl FnOnce(&mut Year)) -> Vec<Level> {
    said(rule, change).into_iter().map(|f| f.level).collect()
}

fn at_design(year: &mut Year, outdoor_c: f64) {
    year.design = Some(Design {
        outdoor_c,
        from: "the test".to_owned(),
        typed: true,
    });
}

/// A line of so many W at every temperature.
fn always(w: f64) -> NeedLine {
    NeedLine {
        at_0c_w: w,
        per_k_w: 0.0,
        hours: 100,
    }
}

/// Only this room is left.
fn only<'y>(year: &'y mut Year, room: &str) -> &'y mut season::RoomYear {
    year.rooms.retain(|r| r.name == room);
    &mut year.rooms[0]
}

#[test]
fn a_tenth_of_the_heat_cycling_is_let_pass() {
    let with = |share: f64| {
        said("unit-cycles", |y| {
            let unit = &mut y.units[0];
            unit.heat_j = 1e11;
            unit.heat_by_regime_j[Regime::Cycling as usize] = share * 1e11;
            unit.cycles_above = Crossing::At(5.0);
        })
    };
    assert!(with(0.1).is_empty());
    let found = with(0.2);
    assert_eq!(found[0].level, Level::Fix);
    // 5 C is 41 F.
    assert!(
        found[0].says.contains("warmer than about 41 F"),
        "{found:?}"
    );
    assert!(found[0].found.contains("20 %"), "{found:?}");
    // With two heads another outdoor unit helps; with one only a smaller one.
    assert!(found[0].mend.contains("for each head"), "{found:?}");
    let one = said("unit-cycles", |y| {
        y.units[0].heads.truncate(1);
        y.units[0].heat_by_regime_j[Regime::Cycling as usize] = y.units[0].heat_j;
    });
    assert!(one[0].mend.contains("smaller least"), "{one:?}");
    // A unit that gave nothing does not cycle.
    assert!(levels("unit-cycles", |y| y.units[0].heat_j = 0.0).is_empty());
}

#[test]
fn a_day_of_the_year_past_a_limit_is_let_pass_and_the_design_night_is_not() {
    let limit_c = RAN.site.catalogue["Grebe 20"].limits.heating_cut_out_c;
    let limit_c = limit_c.expect("the sheet says");
    let with = |design_c: f64, hours: u32, backed: bool| {
        levels("stops-in-cold", |y| {
            at_design(y, design_c);
            y.units[0].hours[Regime::CutOut as usize] = hours;
            if !backed {
                y.rooms.iter_mut().for_each(|r| r.heaters = 0);
            }
        })
    };
    assert!(with(limit_c, 24, true).is_empty());
    assert_eq!(with(limit_c, 25, true), [Level::Note]);
    assert_eq!(with(limit_c - A_LITTLE, 0, true), [Level::Fix]);
    assert_eq!(with(limit_c - A_LITTLE, 0, false), [Level::Stop]);
    assert_eq!(with(limit_c, 25, false), [Level::Stop]);
}

#[test]
fn a_sheet_need_not_tell_what_never_comes() {
    let limit_c = RAN.site.catalogue["Grebe 20"].limits.heating_cut_out_c;
    let limit_c = limit_c.expect("the sheet says");
    let with = |ends_c: f64, design_c: f64, hours: u32| {
        levels("sheet-ends-too-warm", |y| {
            at_design(y, design_c);
            y.units[0].span_c = Some((ends_c, 20.0));
            y.units[0].hours[Regime::CannotTell as usize] = hours;
        })
    };
    let ends_c = limit_c + 5.0;
    assert!(with(ends_c, ends_c, 0).is_empty());
    assert_eq!(with(ends_c, ends_c, 1), [Level::Ask]);
    assert_eq!(with(ends_c, ends_c - 1.0, 0), [Level::Ask]);
    assert_eq!(with(ends_c, limit_c, 0), [Level::Ask]);
    // Colder than it works the sheet has said all there is.
    assert!(with(ends_c, limit_c - 1.0, 0).is_empty());
}

#[test]
fn fifty_hours_short_in_spite_of_a_head_are_let_pass() {
    let with = |heads: usize, hours: u32| {
        levels("room-short", |y| {
            let room = only(y, "living");
            (room.heads, room.short_2k_h) = (heads, hours);
        })
    };
    assert!(with(1, 50).is_empty());
    assert_eq!(with(1, 51), [Level::Fix]);
    assert!(with(0, 51).is_empty());
}

#[test]
fn a_fiftieth_short_at_design_is_within_what_a_load_is_known_to() {
    let with = |gives_w: f64, backed: bool| {
        levels("short-at-design", |y| {
            let unit = &mut y.units[0];
            unit.need_at_design_w = Some(5000.0);
            unit.at_design = Some(Gives {
                made_of: None,
                min_w: 1000.0,
                max_w: gives_w,
            });
            if !backed {
                y.rooms.iter_mut().for_each(|r| r.heaters = 0);
            }
        })
    };
    assert!(with(4900.0, false).is_empty());
    assert_eq!(with(4899.0, true), [Level::Note]);
    assert_eq!(with(4899.0, false), [Level::Stop]);
    let found = said("short-at-design", |y| {
        y.units[0].need_at_design_w = Some(5000.0);
        y.units[0].at_design = Some(Gives {
            made_of: None,
            min_w: 1000.0,
            max_w: 4000.0,
        });
    });
    // 1000 W are 3,412 Btu/h.
    assert!(found[0].mend.contains("3,410 Btu/h"), "{found:?}");
}

#[test]
fn a_room_people_live_in_is_too_cold_below_62_f() {
    let with = |used_for: Use, [heads, heaters]: [usize; 2], alone_c: f64, hours: u32| {
        levels("room-too-cold", |y| {
            let room = only(y, "living");
            room.used_for = used_for;
            (room.heads, room.heaters) = (heads, heaters);
            (room.heads_alone_c, room.under_62f_h) = (Some(alone_c), hours);
        })
    };
    let colder = TOO_COLD_C - A_LITTLE;
    assert!(with(Use::Sleeping, [0, 1], TOO_COLD_C + A_LITTLE, 0).is_empty());
    assert_eq!(with(Use::Sleeping, [0, 1], colder, 0), [Level::Stop]);
    assert_eq!(with(Use::Passage, [0, 1], colder, 0), [Level::Fix]);
    // With a head and a boiler the boiler answers; with a head alone nothing does.
    assert!(with(Use::Living, [1, 1], colder, 0).is_empty());
    assert_eq!(with(Use::Living, [1, 0], colder, 0), [Level::Stop]);
    assert_eq!(with(Use::Passage, [1, 0], colder, 0), [Level::Fix]);
    // Hours of the year count where no heater answers.
    assert!(with(Use::Kitchen, [0, 0], 20.0, 24).is_empty());
    assert_eq!(with(Use::Kitchen, [0, 0], 20.0, 25), [Level::Stop]);
    assert!(with(Use::Kitchen, [0, 1], 20.0, 25).is_empty());
    // What to do: a boiler that is there can have a zone there.
    for (heaters, zone) in [(0, false), (1, true)] {
        let found = said("room-too-cold", |y| {
            at_design(y, -20.0);
            let room = only(y, "bed 1");
            (room.heads, room.heaters, room.heads_alone_c) = (0, heaters, Some(10.0));
            room.need = Some(always(1000.0));
        });
        assert_eq!(found[0].mend.contains("boiler zone"), zone, "{found:?}");
        // 1000 W are 3,412 Btu/h.
        assert!(
            found[0].mend.contains("A head or a panel heater in "),
            "{found:?}"
        );
    }
    // A heater of its own answers to the room itself; a room without a setting is nobody's.
    for change in [
        |r: &mut season::RoomYear| r.own_heater = true,
        |r: &mut season::RoomYear| r.heated = false,
    ] {
        let found = levels("room-too-cold", |y| {
            let room = only(y, "bed 1");
            room.heads_alone_c = Some(10.0);
            change(room);
        });
        assert!(found.is_empty());
    }
}

#[test]
fn a_room_floats_without_head_and_heater_while_it_stays_warm() {
    let with = |[heads, heaters]: [usize; 2], alone_c: f64| {
        levels("room-floats", |y| {
            let room = only(y, "bed 1");
            (room.heads, room.heaters) = (heads, heaters);
            room.heads_alone_c = Some(alone_c);
        })
    };
    assert_eq!(with([0, 0], TOO_COLD_C + A_LITTLE), [Level::Note]);
    assert!(with([0, 0], TOO_COLD_C - A_LITTLE).is_empty());
    assert!(with([1, 0], 20.0).is_empty());
    assert!(with([0, 1], 20.0).is_empty());
    assert_eq!(
        levels("head-without-setting", |y| only(y, "living").heated = false),
        [Level::Ask]
    );
    assert!(levels("head-without-setting", |_| ()).is_empty());
}

#[test]
fn a_head_may_give_at_least_what_its_room_asks_at_design() {
    let with = |need: Option<NeedLine>, peak_w: f64, min_w: f64| {
        levels("head-minimum-over-load", |y| {
            y.units[0].heads.truncate(1);
            y.units[0].heads[0].min_w = min_w;
            let room = only(y, "living");
            room.need = need;
            room.heating_peak.w = peak_w;
        })
    };
    assert!(with(Some(always(800.0)), 0.0, 800.0).is_empty());
    assert_eq!(with(Some(always(800.0)), 9000.0, 801.0), [Level::Fix]);
    // Too few hours for a line: the largest hour.
    assert!(with(None, 800.0, 800.0).is_empty());
    assert_eq!(with(None, 800.0, 801.0), [Level::Fix]);
}

#[test]
fn the_smallest_room_of_a_multi_is_held_against_its_least() {
    let with = |heads: usize, least_w: f64| {
        said("multi-zone-minimum", |y| {
            y.units[0].least_w = Some(least_w);
            y.units[0].heads.truncate(heads);
            for room in &mut y.rooms {
                let asks = if room.name == "landing" {
                    700.0
                } else {
                    2500.0
                };
                room.need = Some(always(asks));
            }
        })
    };
    assert!(with(2, 700.0).is_empty());
    let found = with(2, 701.0);
    assert_eq!(found[0].level, Level::Fix);
    assert!(found[0].mend.contains("Put landing on"), "{found:?}");
    // One head on one unit has its own rule.
    assert!(with(1, 9000.0).is_empty());
}

#[test]
fn a_backup_set_three_f_under_the_heads_waits_for_them() {
    let with = |below_f: f64, serves: &[&str]| {
        let text = lake_street().replace("\"4 F\"", &format!("\"{below_f} F\""));
        let mut site = Site::new(job(&text), weather("chicago-725300.epw.gz"));
        let boiler = site.job.existing.as_mut().expect("a boiler");
        boiler.serves = serves.iter().map(|r| (*r).to_owned()).collect();
        let all = season::findings(&site.input(&RAN.choice), &RAN.year);
        all.iter().any(|f| f.rule == "backup-set-too-high")
    };
    assert!(!with(3.0, &[]));
    assert!(!with(3.1, &[]));
    assert!(with(2.9, &[]));
    // Where it heats no room with a head it is nobody's rival.
    assert!(with(2.9, &["living"]));
    assert!(!with(2.9, &["bed 1"]));
}

#[test]
fn hot_water_goes_only_with_what_goes_and_makes_it() {
    for (stays, makes, want) in [
        (true, true, false),
        (false, false, false),
        (false, true, true),
    ] {
        let mut site = Site::lake_street();
        let boiler = site.job.existing.as_mut().expect("a boiler");
        (boiler.stays, boiler.hot_water) = (stays, makes);
        let all = season::findings(&site.input(&RAN.choice), &RAN.year);
        assert_eq!(all.iter().any(|f| f.rule == "hot-water-lost"), want);
    }
}

#[test]
fn the_fuel_is_cheaper_below_where_the_cop_crosses() {
    let mut unit = RAN.year.units[0].clone();
    let point = |outdoor_c: f64, cop: f64| CopPoint {
        outdoor_c,
        cop,
        hours: 100,
    };
    unit.cop_by_bin = vec![point(-20.0, 1.5), point(-10.0, 2.5), point(0.0, 3.5)];
    assert_eq!(unit.cheaper_above(2.0), Crossing::At(-15.0));
    assert_eq!(unit.cheaper_above(3.0), Crossing::At(-5.0));
    assert_eq!(unit.cheaper_above(2.5), Crossing::At(-10.0));
    assert_eq!(unit.cheaper_above(1.0), Crossing::ColderThan(-20.0));
    assert_eq!(unit.cheaper_above(4.0), Crossing::WarmerThan(0.0));
    unit.cop_by_bin.clear();
    assert_eq!(unit.cheaper_above(2.0), Crossing::None);
    // Twenty per cent up and down for the fuel: the break-even goes the other way.
    let all = RAN.year.switchover(&RAN.site.job.prices);
    let s = &all[0];
    assert!((s.fuel_dearer_cop * 1.2 / s.break_even_cop - 1.0).abs() < 1e-12);
    assert!((s.fuel_cheaper_cop * 0.8 / s.break_even_cop - 1.0).abs() < 1e-12);
}

#[test]
fn ratios_of_a_year_by_hand() {
    let mut year = RAN.year.clone();
    let unit = &mut year.units[0];
    unit.heat_j = 300.0;
    unit.electric = season::Purposes {
        compressor_j: 80.0,
        defrost_j: 12.0,
        base_pan_j: 8.0,
        standby_j: 20.0,
        cooling_j: 50.0,
    };
    assert_eq!(unit.electric.total_j(), 170.0);
    assert_eq!(unit.seasonal_cop(), Some(3.0));
    assert_eq!(unit.seasonal_cop_with_standby(), Some(2.5));
    year.heat_j = 400.0;
    // Waiting belongs to heat pumps of a house; cooling is another purpose.
    assert_eq!(year.seasonal_cop(), Some(2.5));
    assert_eq!(year.heads_share(), Some(0.75));
    year.units[0].heat_j = 0.0;
    assert_eq!((year.seasonal_cop(), year.heads_share()), (None, None));
    // A line of need falls to nothing and not below.
    let line = NeedLine {
        at_0c_w: 1000.0,
        per_k_w: 50.0,
        hours: 100,
    };
    assert_eq!(
        [-10.0, 10.0, 30.0].map(|c| line.at(c)),
        [1500.0, 500.0, 0.0]
    );
}
