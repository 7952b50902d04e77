//! What must hold for any sheet that is in order, any temperature and any need.

mod support;

use std::fmt::Write as _;

use heatpump::{
    Conditions, Duty, Head, Mode, OutdoorUnit, Performance, System, capability, check_sheet,
    read_sheet,
};
use proptest::prelude::*;
use support::{catalogue, grebe_30, loon_9};

/// A made-up sheet in order: outputs rising from min to max, COP falling with output and cold.
fn sheet_text(gaps_k: &[f64], min_w: f64, spread: f64, cop: f64, fall: f64) -> String {
    let mut text = String::from(
        "northwall_sheet = 1\nname = \"Any\"\nkind = \"outdoor single-zone\"\nsheet = \"ANY\"\n",
    );
    let mut outdoor_c = 10.0;
    for (i, gap_k) in gaps_k.iter().enumerate() {
        let level = cop * libm_pow(fall, i as f64);
        let (rated_w, max_w) = (min_w * spread, min_w * spread * 1.5);
        let fade = libm_pow(0.97, i as f64);
        let _ = write!(
            text,
            "[[heating]]\noutdoor = \"{outdoor_c} C\"\nindoor = \"21 C\"\nmin = \"{} W\"\n\
             min_cop = {}\nrated = \"{} W\"\nrated_cop = {}\nmax = \"{} W\"\nmax_cop = {}\n",
            min_w * fade,
            level * 1.1,
            rated_w * fade,
            level,
            max_w * fade,
            level * 0.8,
        );
        outdoor_c -= gap_k;
    }
    text
}

fn libm_pow(base: f64, exponent: f64) -> f64 {
    base.powf(exponent)
}

prop_compose! {
    fn any_system()(
        gaps_k in prop::collection::vec(3.0..12.0_f64, 2..5),
        min_w in 300.0..3000.0_f64,
        spread in 1.6..4.0_f64,
        cop in 3.0..5.0_f64,
        fall in 0.75..0.98_f64,
    ) -> System {
        let text = sheet_text(&gaps_k, min_w, spread, cop, fall);
        let outdoor = OutdoorUnit::new(read_sheet("any.toml", &text).expect("reads")).expect("outdoor");
        System::new(outdoor, vec![Head::new(catalogue("teal-9")).expect("head")]).expect("system")
    }
}

fn table(system: &System) -> Performance {
    Performance::new(system, Duty::Heating, Conditions::at_sea_level(21.0)).expect("table")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    #[test]
    fn more_need_never_takes_less(
        system in any_system(),
        outdoor_c in -60.0..60.0_f64,
        a in 0.0..20_000.0_f64,
        b in 0.0..20_000.0_f64,
    ) {
        let p = table(&system);
        let (low, high) = (a.min(b), a.max(b));
        let (less, more) = (p.operate(outdoor_c, low), p.operate(outdoor_c, high));
        // A hair for rounding.
        prop_assert!(less.electric_w <= more.electric_w * (1.0 + 1e-9), "{less:?} {more:?}");
        prop_assert!(less.delivered_w <= more.delivered_w);
        prop_assert!(more.delivered_w <= high);
        prop_assert!((0.0..=1.0).contains(&more.on_fraction));
        prop_assert!((0.0..=more.electric_w).contains(&more.frost_electric_w));
    }

    #[test]
    fn power_has_no_step_over_need(system in any_system(), share in 0.01..0.99_f64) {
        let p = table(&system);
        let (cold, warm) = p.span_c();
        let outdoor_c = cold + share * (warm - cold);
        let range = p.range(outdoor_c).expect("inside");
        for w in [range.min_w, range.max_w] {
            let (below, above) = (p.operate(outdoor_c, w * (1.0 - 1e-9)), p.operate(outdoor_c, w));
            prop_assert!((below.electric_w / above.electric_w - 1.0).abs() < 1e-6, "{below:?} {above:?}");
        }
    }

    /// COP at full output: no jump over outdoor temperature. 0.01 K apart, a COP falls by less
    /// than 0.5 % (the steepest is the base-pan heater coming on over 1 K).
    #[test]
    fn cop_has_no_step_over_temperature(system in any_system(), share in 0.0..0.999_f64) {
        for (p, name) in [(table(&system), "any"), (table(&loon_9()), "loon")] {
            let (cold, warm) = p.span_c();
            let outdoor_c = cold + share * (warm - cold - 0.01);
            let cop = |t: f64| {
                let run = p.operate(t, 1e9);
                run.delivered_w / run.electric_w
            };
            let (a, b) = (cop(outdoor_c), cop(outdoor_c + 0.01));
            prop_assert!((a / b - 1.0).abs() < 0.005, "{name} {outdoor_c} {a} {b}");
        }
    }

    /// The table against the exact curve: its step is 1/9 K, over which a bend is worth little.
    #[test]
    fn the_table_says_what_the_curve_says(system in any_system(), share in 0.0..1.0_f64) {
        let p = table(&system);
        let (cold, warm) = p.span_c();
        let outdoor_c = cold + share * (warm - cold);
        let exact = capability(&system, Duty::Heating, outdoor_c, Conditions::at_sea_level(21.0))
            .expect("inside");
        let full = p.operate(outdoor_c, 1e9);
        prop_assert!((full.delivered_w / exact.max.capacity_w - 1.0).abs() < 2e-3);
        prop_assert!((full.electric_w / exact.max.electric_w - 1.0).abs() < 2e-3);
    }

    #[test]
    fn shares_add_up(
        outdoor_c in -40.0..40.0_f64,
        need in prop::collection::vec(-100.0..8000.0_f64, 3),
    ) {
        let p = table(&grebe_30());
        let mut given = [0.0; 3];
        let all = p.share(outdoor_c, &need, &mut given);
        let sum: f64 = given.iter().sum();
        prop_assert!((sum - all.delivered_w).abs() <= 1e-9 * (1.0 + sum), "{given:?} {all:?}");
        for ((give, want), head) in given.iter().zip(&need).zip(p.heads()) {
            prop_assert!(*give >= 0.0 && *give <= want.max(0.0) + 1e-9 && *give <= head.max_w + 1e-9);
        }
        if matches!(all.mode, Mode::CutOut | Mode::CannotTell | Mode::Off) {
            prop_assert_eq!(sum, 0.0);
        }
    }

    #[test]
    fn any_number_gets_an_answer(outdoor_c in any::<f64>(), need_w in any::<f64>(), indoor_c in any::<f64>()) {
        let system = loon_9();
        let p = table(&system);
        let run = p.operate(outdoor_c, need_w);
        prop_assert!(run.electric_w.is_finite() && run.delivered_w.is_finite(), "{run:?}");
        let c = capability(&system, Duty::Heating, outdoor_c, Conditions::at_sea_level(indoor_c));
        if let Ok(c) = c {
            prop_assert!(c.min.capacity_w <= c.max.capacity_w && c.max.electric_w > 0.0);
        }
    }

    #[test]
    fn any_text_reads_or_complains(text in "\\PC{0,200}") {
        if let Err(errors) = read_sheet("any.toml", &text) {
            prop_assert!(!errors.is_empty());
        }
    }

    /// One line of a good sheet dropped or doubled: a sheet or complaints, and the rules hold out.
    #[test]
    fn a_torn_sheet_never_breaks_it(line in 0..60_usize, twice in any::<bool>()) {
        let good = support::good_text();
        let mut lines: Vec<&str> = good.lines().collect();
        let Some(text) = lines.get(line).copied() else { return Ok(()); };
        if twice { lines.insert(line, text) } else { lines.remove(line); }
        match read_sheet("torn.toml", &lines.join("\n")) {
            Ok(sheet) => prop_assert!(check_sheet(&sheet, units::System::Us).iter().all(|x| !x.says.is_empty())),
            Err(errors) => prop_assert!(errors.iter().all(|e| e.line >= 1 && !e.mend.is_empty())),
        }
    }
}
