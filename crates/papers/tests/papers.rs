//! The four papers of the demo: what they say, and the bytes of their PDFs.

mod support;

use papers::{Reader, Size, gaps, paper, sheet};
use support::demo;

/// Regression: every word of each paper of the demo.
#[test]
fn the_demo_says() {
    let input = demo().input(None);
    for reader in Reader::ALL {
        let gaps = gaps(&input, reader);
        let sheet = sheet(&input, reader, Size::Letter, &gaps);
        let text = sheet.text().replace(&input.issue.code, "CODE");
        let text = text.replace(&papers::printable(&input.issue.hash), "HASH");
        let marks = input.issue.marks.iter();
        let text = marks.fold(text, |text, m| text.replace(&m.mark, "MARK"));
        insta::assert_snapshot!(reader.word(), text);
    }
}

/// The same job gives the same bytes, and each paper is set as PDF/A and PDF/UA: the document
/// engine refuses what does not fit them.
#[test]
fn the_same_job_gives_the_same_bytes() {
    let input = demo().input(None);
    for reader in Reader::ALL {
        let one = paper(&input, reader, Size::Letter).expect("it is set");
        assert!(one.pdf.starts_with(b"%PDF-1.7"), "{}", reader.word());
        assert!(!one.gaps.is_empty(), "the demo is a draft");
        if let Some(into) = std::env::var_os("NORTHWALL_PAPERS_INTO") {
            let path = std::path::Path::new(&into).join(format!("{}.pdf", reader.word()));
            std::fs::write(path, &one.pdf).expect("written");
        }
        if reader == Reader::Owner {
            let two = paper(&input, reader, Size::Letter).expect("it is set");
            assert!(one.pdf == two.pdf, "{}", reader.word());
        }
    }
    // For a look at them, and for the checks from outside.
    if let Some(into) = std::env::var_os("NORTHWALL_PAPERS_INTO") {
        use papers::hpxml::{Version, export};
        let into = std::path::Path::new(&into);
        let days = papers::calendar(&input).expect("the job names its day");
        std::fs::write(into.join("calendar.ics"), days).expect("written");
        for (name, version) in [("4", Version::Four), ("5", Version::Five)] {
            let text = export(&input, version, None);
            std::fs::write(into.join(format!("hpxml-{name}.xml")), text).expect("written");
        }
    }
}

/// The record of an invented start-up day, as the command wrote it.
const RECORD: &str = include_str!("record.jsonl");

/// With its record the inspector's paper shows each test with its figures, and the gate asks for
/// none of them; cut short, it asks for what is missing.
#[test]
fn the_start_up_day_as_recorded() {
    let chain = startup::record::verify(RECORD).expect("whole");
    // the demo names a later day of installation than the record
    let mut job = demo().job.clone();
    job.installation.codes.install_day = Some("2026-11-25".to_owned());
    let mut input = demo().input(Some(&chain));
    input.job = &job;
    let open = gaps(&input, Reader::Inspector);
    assert!(open.iter().all(|g| g.place != "records"), "{open:?}");
    let text = sheet(&input, Reader::Inspector, Size::Letter, &open).text();
    for says in [
        "Pressure test: record 9, 2026-11-25 17:30, A. Fitter",
        "Began at: 550 psi at 41 F",
        "198 g of refrigerant a year; 200 g is worth a call-back",
        "Highest 517 micron in 15 min, as INV-GREBE30 rev 1, page 10 asks",
        "Total charge: 4 lb 13.6 oz",
        "living, head, liquid | 16 N m | 14 N m – 18 N m | AF | holds",
        "landing, head, gas | brazed, nitrogen flowing |  | BK | holds",
        "supply less return | 36.0 F | 3.6 F to 81.0 F | inside",
        "power | 900 W | 685 W to 1469 W | inside",
    ] {
        assert!(text.contains(says), "{says}\n{text}");
    }
    // joints alone: pressure, vacuum and charge are asked for
    let cut: String = RECORD.split_inclusive('\n').take(8).collect();
    let chain = startup::record::verify(&cut).expect("whole");
    let input = demo().input(Some(&chain));
    let open = gaps(&input, Reader::Inspector);
    let asked = open.iter().filter(|g| g.place == "records").count();
    assert_eq!(asked, 3, "{open:?}");
}

/// The load by the second method stands beside the first, with its band, under the keys that
/// `review` writes.
#[test]
fn the_load_from_bills() {
    let mut made = support::Made::of(support::demo_text());
    for (key, w) in [
        ("bills.load", 7560.0),
        ("bills.load.low", 6650.0),
        ("bills.load.high", 8210.0),
    ] {
        let from = reckon::Source::job("bills");
        (made.plan.book).given(key, "load by the bills", w, units::Dim::Power, from, None);
    }
    let input = made.input(None);
    let open = gaps(&input, Reader::Rebate);
    assert!(open.iter().all(|g| g.place != "bill"), "{open:?}");
    let text = sheet(&input, Reader::Rebate, Size::Letter, &open).text();
    let says = "From bills: 25,800 Btu/h (22,690 Btu/h to 28,010 Btu/h, 9 times in 10)";
    assert!(text.contains(says), "{text}");
}

/// A promise to the owner stands with its band, under the keys that the command writes; without
/// them it stands alone.
#[test]
fn a_promise_with_its_band() {
    let mut made = support::Made::of(support::demo_text());
    let text =
        |made: &support::Made| sheet(&made.input(None), Reader::Owner, Size::Letter, &[]).text();
    assert!(!text(&made).contains("8 times in 10"));
    for (end, cost) in [("low", 1400.0), ("high", 1900.0)] {
        let (key, from) = (format!("bands.chosen.cost.{end}"), reckon::Source::job("x"));
        (made.plan.book).given(key, "cost of a year", cost, units::Dim::Money, from, None);
    }
    let text = text(&made);
    assert!(
        text.contains("8 times in 10: $1,400 to $1,900; as it was"),
        "{text}"
    );
}

/// Any value of a sheet changes its mark and the code, also one without a unit; where the file lies
/// does not.
#[test]
fn the_code_covers_the_sheets() {
    let made = demo();
    let marks = |change: &dyn Fn(&str, &str) -> (String, String)| {
        let texts = support::sheets();
        let texts: Vec<(String, String)> = texts.iter().map(|(n, t)| change(n, t)).collect();
        let texts = texts.iter().map(|(n, t)| (n.as_str(), t.as_str()));
        let catalogue = plan::Catalogue::read(texts).expect("sheets");
        let beside = papers::beside(&made.job, &catalogue, &made.weather, None, &[]);
        papers::Issue::of(&made.text, &beside)
    };
    let same = marks(&|n, t| (n.to_owned(), t.to_owned()));
    let moved = marks(&|n, t| (format!("elsewhere/{n}"), format!("# a word\n{t}")));
    assert_eq!(same, moved);
    let turn = |t: &str| t.replacen("defrost_included = false", "defrost_included = true", 1);
    let other = marks(&|n, t| (n.to_owned(), turn(t)));
    assert_ne!(other, same);
    assert_eq!(other.verify(&same.code), papers::Verified::OtherSheets);
}
