//! Logger files of several layouts, and what is wrong with others, word for word.

use startup::logger::{Layout, TimeColumn, Wanted, read};
use units::Dim;

fn wanted(column: &str, dim: Dim, unit: &str) -> Wanted {
    Wanted {
        column: column.into(),
        dim,
        unit: unit.into(),
    }
}

fn plain() -> Layout {
    Layout {
        time: TimeColumn::Stamp("Time".into(), Some(-300)),
        wanted: vec![
            wanted("P", Dim::Pressure, "psi"),
            wanted("T", Dim::Temperature, "F"),
        ],
        separator: ',',
        decimal_comma: false,
    }
}

#[test]
fn five_layouts_read_the_same() {
    let mut layouts = vec![(
        "Serial 12\n\nTime,P,T\n2026-11-25T10:00:00,550.0,70\n2026-11-25T10:10:00,549.5,69.5\n",
        plain(),
    )];
    let mut b = plain();
    b.separator = ';';
    b.decimal_comma = true;
    layouts.push((
        "T;Time;P\n70;2026-11-25 10:00-05:00;550,0\n69,5;2026-11-25 10:10-05:00;549,5\n",
        b,
    ));
    let mut c = plain();
    c.time = TimeColumn::Split("Date".into(), "Clock".into(), -300);
    c.separator = '\t';
    layouts.push(("Date\tClock\tP\tT\n11/25/2026\t10:00:00 AM\t550\t70\n11/25/2026\t10:10:00 AM\t549.5\t69.5\n", c));
    let mut d = plain();
    d.time = TimeColumn::Minutes("min".into());
    d.wanted = vec![
        wanted("kPa", Dim::Pressure, "kPa"),
        wanted("degC", Dim::Temperature, "C"),
    ];
    layouts.push((
        "min,kPa,degC\n0,3792.1165,21.11111\n10,3788.6691,20.83333\n",
        d,
    ));
    let mut e = plain();
    e.time = TimeColumn::Seconds("s".into());
    e.wanted = vec![
        wanted("P", Dim::Pressure, ""),
        wanted("T", Dim::Temperature, ""),
    ];
    layouts.push(("s,x,P,T\n0,,550 psi,70 F\n600,,549.5 psi,69.5 F\n", e));
    for (text, layout) in layouts {
        let log = read(text, &layout).unwrap_or_else(|e| panic!("{text}: {e}"));
        assert_eq!(log.rows.len(), 2);
        assert!((log.rows[1].at_s - log.rows[0].at_s - 600.0).abs() < 1e-9);
        // 550 psi and 70 F by the definition of both; the metric file has seven digits
        assert!((log.rows[0].values[0].expect("there") - 3_792_116.5).abs() < 1.0);
        assert!((log.rows[1].values[1].expect("there") - 20.83333).abs() < 1e-4);
    }
}

#[test]
fn a_row_put_in_twice_is_left_out_and_said() {
    let log = read(
        "Time,P,T\n2026-11-25T10:00,550,70\n2026-11-25T10:00,550,70\n",
        &plain(),
    )
    .expect("usable");
    assert_eq!(
        log.notes,
        ["line 3 is the same as the one before: left out"]
    );
}

/// Bad files: text, what is said.
#[test]
fn bad_files_say_the_line() {
    let t = "Time,P,T\n";
    let cases: &[(&str, &str)] = &[
        ("", "line 1, Time: there is no such column"),
        (
            "Time,P\n2026-11-25T10:00,550\n",
            "line 1, T: there is no such column",
        ),
        ("Zeit;P;T\n", "line 1, Time: there is no such column"),
        (t, "line 1, row: there are no readings"),
        (
            "Time,P,T\n2026-11-25T10:00,abc,70\n",
            "line 2, P: it is not a number",
        ),
        (
            "Time,P,T\n2026-11-25T10:00,550 bar,70\n",
            "line 2, P: it is not a number",
        ),
        (
            "Time,P,T\n2026-11-25T10:00,inf,70\n",
            "line 2, P: it is not a number",
        ),
        (
            "Time,P,T\n2026-11-25T10:00,550,NaN\n",
            "line 2, T: it is not a number",
        ),
        (
            "Time,P,T\n2026-11-25T10:00,550,-500\n",
            "line 2, T: `-500 F` is below absolute zero (-459.67 F, -273.15 C)",
        ),
        (
            "Time,P,T\n25.11.2026 10:00,550,70\n",
            "line 2, Time: a date has year, month and day",
        ),
        (
            "Time,P,T\n2026-13-01T10:00,550,70\n",
            "line 2, Time: there is no such month",
        ),
        (
            "Time,P,T\n2026-02-29T10:00,550,70\n",
            "line 2, Time: there is no such day in that month",
        ),
        (
            "Time,P,T\n2026-11-25,550,70\n",
            "line 2, Time: there is no time of day",
        ),
        (
            "Time,P,T\n2026-11-25T25:00,550,70\n",
            "line 2, Time: there is no such time of day",
        ),
        (
            "Time,P,T\n2026-11-25T13:00 PM,550,70\n",
            "line 2, Time: with AM or PM the hour is 1 to 12",
        ),
        (
            "Time,P,T\n2026-11-25T10:00+99:00,550,70\n",
            "line 2, Time: the offset is not usable",
        ),
        (
            "Time,P,T\n1970-01-01T00:00,550,70\n",
            "line 2, Time: the year is outside 1990 to 2200",
        ),
        (
            "Time,P,T\n2026-11-25T10:00,550,70\n2026-11-25T09:59,550,70\n",
            "line 3, time: it is earlier than the line before",
        ),
        (
            "Time,P,T\n2026-11-01T01:50,550,70\n2026-11-01T01:00,550,70\n",
            "line 3, time: it is earlier than the line before",
        ),
        (
            "Time,P,T\n2026-11-25T10:00,550,70\n2026-11-25T10:00,551,70\n",
            "line 3, time: the same time has other values on the line before",
        ),
    ];
    for (text, says) in cases {
        let e = read(text, &plain()).expect_err(text);
        assert_eq!(e.to_string(), *says, "{text}");
        assert!(!e.mend.is_empty());
    }
    let mut layout = plain();
    layout.time = TimeColumn::Stamp("Time".into(), None);
    let e = read("Time,P,T\n2026-11-25T10:00,550,70\n", &layout).expect_err("no offset");
    assert_eq!(
        e.says,
        "there is no offset from UTC, and clocks change twice a year"
    );
    layout.wanted[0].unit = "F".into();
    layout.time = TimeColumn::Stamp("Time".into(), Some(0));
    let e = read("Time,P,T\n2026-11-25T10:00,550,70\n", &layout).expect_err("unit of another kind");
    assert!(
        e.says
            .contains("is a unit of temperature, and this is a pressure"),
        "{}",
        e.says
    );
    layout.separator = 'é';
    assert!(read("Time", &layout).is_err());
}
