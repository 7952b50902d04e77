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
        let text = text.replace(&input.issue.hash, "HASH");
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
