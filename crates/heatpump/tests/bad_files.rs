//! Files that do not read. One changed place each; the message is tested word for word, because
//! it is all the person gets.

mod support;

use heatpump::read_sheet;
use support::good_text;

/// The first complaint about the good sheet with `from` replaced once by `to`.
fn complaint(from: &str, to: &str) -> String {
    let good = good_text();
    assert!(good.contains(from), "`{from}` is not in the good sheet");
    let bad = good.replacen(from, to, 1);
    let errors = read_sheet("bad.toml", &bad).expect_err(from);
    errors.first().map(ToString::to_string).unwrap_or_default()
}

#[test]
fn the_good_one_reads() {
    let sheet = read_sheet("good.toml", &good_text()).expect("good");
    assert_eq!(sheet.heating.len(), 3);
    assert!(
        (sheet.heating[0].outdoor_c - (-37.0 / 1.8)).abs() < 1e-9,
        "coldest first"
    );
    let example = sheet.charge.expect("charge").example.expect("example");
    assert!(
        (example.printed_kg + 0.055).abs() < 1e-12,
        "signs are kept: {example:?}"
    );
}

#[test]
fn messages_word_for_word() {
    let cases = [
        (
            "kind = \"outdoor single-zone\"",
            "kind = \"split\"",
            "bad.toml:4: kind: got \"split\"; allowed: outdoor single-zone, outdoor multi-zone, \
             wall head, floor console, ceiling cassette, slim duct. Write one of these",
        ),
        (
            "name = \"Stilt 9\"\n",
            "",
            "bad.toml:1: name: got nothing; allowed: the name of the unit in quotes. \
             Write name from the sheet",
        ),
        (
            "min_power = \"130 W\"",
            "min_power = 130",
            "bad.toml:13: heating[1].min_power: got 130; allowed: electric power from 0 W to \
             30 kW, as \"850 W\". Write it in quotes with its unit, as min_power = \"130 ...\"",
        ),
        (
            "min_power = \"130 W\"",
            "min_power = \"0 W\"",
            "bad.toml:9: heating[1].min_power: got 0 W; allowed: more than 0 W. \
             A running unit takes power",
        ),
        (
            "outdoor = \"47 F\"",
            "outdoor = \"470 F\"",
            "bad.toml:10: heating[1].outdoor: got \"470 F\"; allowed: a temperature from -76 F to \
             140 F. Look at the sheet again",
        ),
        (
            "outdoor = \"47 F\"",
            "outdor = \"47 F\"",
            "bad.toml:9: heating[1].outdoor: got nothing; allowed: a temperature from -76 F to \
             140 F. Write outdoor from the sheet",
        ),
        (
            "rated_cop = 2.8",
            "rated_cop = \"good\"",
            "bad.toml:27: heating[2].rated_cop: got \"good\"; allowed: a plain number, as 3.2. \
             Look at the sheet again",
        ),
        (
            "rated_cop = 2.8",
            "rated_cop = nan",
            "bad.toml:27: heating[2].rated_cop: got nan; allowed: a plain number, as 3.2. \
             Look at the sheet again",
        ),
        (
            "rated_cop = 2.8",
            "rated_cop = -2.8",
            "bad.toml:27: heating[2].rated_cop: got -2.8; allowed: a plain number, as 3.2. \
             Look at the sheet again",
        ),
        (
            "rated_cop = 2.8",
            "rated_cop = 2.8\nrated_power = \"940 W\"",
            "bad.toml:20: heating[2].rated_cop: got both power and COP; allowed: one of the two. \
             Keep the power",
        ),
        (
            "rated_cop = 2.8\n",
            "",
            "bad.toml:20: heating[2].rated_power: got nothing; allowed: rated_power or rated_cop. \
             Write rated_power from the sheet",
        ),
        (
            "outdoor = \"17 F\"",
            "outdoor = \"47 F\"",
            "bad.toml:20: heating[2].outdoor: got 8.3 C twice; allowed: each outdoor temperature \
             once. Keep one row",
        ),
        (
            "defrost_included = false",
            "defrost_included = \"no\"",
            "bad.toml:23: heating[2].defrost_included: got \"no\"; allowed: true or false. \
             Write true or false, no quotes",
        ),
        (
            "standby = \"5 W\"",
            "stand_by = \"5 W\"",
            "bad.toml:60: plate.stand_by: got `stand_by` = \"5 W\"; allowed: base_pan_below, \
             base_pan_heater, base_pan_included, crankcase_below, crankcase_heater, high_side, mca, \
             mocp, page, phases, standby, volts. Did you mean `standby`?",
        ),
        (
            "[limits]",
            "[colour]\nname = \"grey\"\n[limits]",
            "bad.toml:41: colour: got `colour` = [colour]; allowed: charge, cooling, cycling_cd, \
             defrost, head, heating, invented, kind, limits, lines, multi, name, northwall_sheet, \
             plate, printed, refrigerant, sheet, size, sound, start_up, tested_with, year. Take it \
             out, or write it as a # comment",
        ),
        (
            "northwall_sheet = 1",
            "northwall_sheet = 7",
            "bad.toml:2: northwall_sheet: got 7; allowed: a whole number from 1 to 1. \
             Write the number, no quotes",
        ),
        (
            "tested_with = [\"Teal 9\"]",
            "tested_with = \"Teal 9\"",
            "bad.toml:7: tested_with: got \"Teal 9\"; allowed: a list of words in quotes. \
             Put it in [ ]",
        ),
        (
            "factory = \"0.9 kg\"\n",
            "",
            "bad.toml:44: charge.factory: got nothing; allowed: a mass from 0.05 to 30 kg. \
             Write factory from the sheet",
        ),
        (
            "[plate]",
            "[head]\nnominal = \"9000 Btu/h\"\n[plate]",
            "bad.toml:57: head: got [head]; allowed: only in the sheet of a head. Take it out",
        ),
        (
            "kind = \"outdoor single-zone\"",
            "kind = \"outdoor multi-zone\"",
            "bad.toml:1: multi: got nothing; allowed: a table [multi] with most_heads. \
             Write multi from the sheet",
        ),
    ];
    let mut wrong = Vec::new();
    for (from, to, want) in cases {
        let got = complaint(from, to);
        if got != want {
            wrong.push(format!("{to}\n  got  {got}\n  want {want}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The wording of a unit is the `units` crate's; here only that place, value and a mend are there.
#[test]
fn units_that_do_not_fit() {
    for (from, to, line, value) in [
        ("max = \"15000 Btu/h\"", "max = \"15000\"", 16, "15000"),
        (
            "max = \"15000 Btu/h\"",
            "max = \"15000 Btu\"",
            16,
            "15000 Btu",
        ),
        ("max = \"15000 Btu/h\"", "max = \"inf W\"", 16, "inf W"),
        ("max = \"15000 Btu/h\"", "max = \"-4 kW\"", 16, "-4 kW"),
        ("outdoor = \"47 F\"", "outdoor = \"47\"", 10, "47"),
        ("mca = \"12 A\"", "mca = \"12 W\"", 58, "12 W"),
        (
            "free_length = \"25 ft\"",
            "free_length = \"25 kg\"",
            46,
            "25 kg",
        ),
    ] {
        let got = complaint(from, to);
        assert!(got.starts_with(&format!("bad.toml:{line}: ")), "{got}");
        assert!(
            got.contains(&format!("got \"{value}\"; allowed: ")),
            "{got}"
        );
    }
}

#[test]
fn files_that_are_no_sheets() {
    let got = |text: &str| {
        read_sheet("bad.toml", text)
            .expect_err("no sheet")
            .first()
            .map(ToString::to_string)
    };
    assert_eq!(
        got("  \n").as_deref(),
        Some(
            "bad.toml:1: file: got an empty file; allowed: a data sheet in TOML. \
             Start from a sheet of the catalogue"
        )
    );
    assert_eq!(
        got(&"# far too long\n".repeat(100_000)).as_deref(),
        Some(
            "bad.toml:1: file: got 1500000 bytes; allowed: at most 1,000,000 bytes. \
             This is not a data sheet"
        )
    );
    let broken = got("name = \"x\"\nkind = = 3\n").expect("a message");
    assert!(
        broken.starts_with("bad.toml:2: file: got `kind = = 3`; allowed: TOML. "),
        "{broken}"
    );
}

/// All complaints come at once, in the order they were met.
#[test]
fn all_at_once() {
    let bad = good_text()
        .replace("\"47 F\"", "\"warm\"")
        .replace("\"12 A\"", "12");
    let errors = read_sheet("bad.toml", &bad).expect_err("two");
    assert_eq!(errors.iter().map(|e| e.line).collect::<Vec<_>>(), [10, 58]);
}

const DAY: &str = "
[start_up]
coil = \"0.7 L\"
[start_up.vacuum]
reach = \"500 micron\"
limit = \"700 micron\"
hold = \"15 min\"
[start_up.superheat]
least = \"3 K\"
most = \"8 K\"
[[start_up.flare]]
tube = \"1/4 in\"
least = \"14 N m\"
most = \"13 ft lb\"
";

#[test]
fn the_start_up_table_reads() {
    let sheet = read_sheet("good.toml", &format!("{}{DAY}", good_text())).expect("good");
    let day = &sheet.start_up;
    assert!((day.coil_m3.expect("coil") - 0.0007).abs() < 1e-12);
    let vacuum = day.vacuum.expect("vacuum");
    assert!((vacuum.hold_s - 900.0).abs() < 1e-9 && vacuum.limit_pa > vacuum.reach_pa);
    assert_eq!(day.superheat_k, Some((3.0, 8.0)));
    assert_eq!(day.subcooling_k, None);
    let (least, most) = day.flare_nm(0.00635).expect("a quarter");
    assert!((least - 14.0).abs() < 1e-9 && (most - 17.6256).abs() < 1e-3);
    assert_eq!(day.flare_nm(0.009525), None);
}

#[test]
fn the_start_up_table_word_for_word() {
    let first = good_text().lines().count() + 1;
    for (from, to, line, want) in [
        (
            "limit = \"700 micron\"",
            "limit = \"400 micron\"",
            5,
            "start_up.vacuum.limit: got \"400 micron\"; allowed: at least what the pump reaches. \
             Leave it out where the sheet allows no rise",
        ),
        (
            "hold = \"15 min\"\n",
            "",
            3,
            "start_up.vacuum.hold: got nothing; allowed: a time from 1 min to 48 h. Write hold \
             from the sheet",
        ),
        (
            "reach = \"500 micron\"",
            "reach = \"500 psi\"",
            4,
            "start_up.vacuum.reach: got \"500 psi\"; allowed: a pressure from 40 to 7500 micron. \
             Look at the sheet again",
        ),
        (
            "most = \"13 ft lb\"",
            "most = \"10 N m\"",
            13,
            "start_up.flare[1].most: got \"10 N m\"; allowed: no less than least. least first, then \
             most",
        ),
        (
            "tube = \"1/4 in\"\n",
            "",
            10,
            "start_up.flare[1].tube: got nothing; allowed: a tube from 1/8 in to 2 in. Write tube \
             from the sheet",
        ),
        (
            "coil = \"0.7 L\"",
            "coil = \"700 L\"",
            2,
            "start_up.coil: got \"700 L\"; allowed: a volume from 0.02 to 20 L. Look at the sheet \
             again",
        ),
    ] {
        let text = format!("{}{}", good_text(), DAY.replacen(from, to, 1));
        let errors = read_sheet("bad.toml", &text).expect_err(from);
        let got = errors.first().map(ToString::to_string).unwrap_or_default();
        assert_eq!(got, format!("bad.toml:{}: {want}", first + line));
    }
}
