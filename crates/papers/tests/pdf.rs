//! The PDFs themselves: size, tags, fonts inside, text that can be taken out, nothing over the
//! edge; hostile text; a house of 25 rooms with long names.

mod support;

use papers::{Reader, Size, paper};
use pdf_extract::{Document, Object};
use support::letters::{letters, text};
use support::{Made, demo, demo_text, rooms_25};

/// ISO 216 and ANSI sizes, pt.
#[test]
fn sheets_have_their_size_and_nothing_is_over_the_edge() {
    let input = demo().input(None);
    for reader in Reader::ALL {
        for (size, wide, high) in [(Size::Letter, 612.0, 792.0), (Size::A4, 595.276, 841.89)] {
            if size == Size::A4 && reader != Reader::Inspector {
                continue;
            }
            let pdf = paper(&input, reader, size).expect("set").pdf;
            let letters = letters(&pdf);
            assert!(letters.count > 2000, "{}", letters.count);
            for (w, h) in &letters.sizes {
                assert!(
                    (w - wide).abs() < 0.01 && (h - high).abs() < 0.01,
                    "{w} {h}"
                );
            }
            assert_eq!(letters.outside, Vec::<String>::new(), "{}", reader.word());
            assert_eq!(letters.over(), Vec::<String>::new(), "{}", reader.word());
        }
    }
}

/// What PDF/A-2a and PDF/UA-1 ask that can be read off: the mark of both, a tree of tags with
/// headings, tables and drawings said in words, the language, a title, and every font inside.
#[test]
fn tagged_with_fonts_inside() {
    let pdf = paper(&demo().input(None), Reader::Owner, Size::Letter)
        .expect("set")
        .pdf;
    let document = Document::load_mem(&pdf).expect("it is a PDF");
    let catalog = document.catalog().expect("catalog");
    assert_eq!(
        catalog.get(b"Lang").and_then(Object::as_str).expect("Lang"),
        b"en"
    );
    let marked = document
        .get_dict_in_dict(catalog, b"MarkInfo")
        .expect("MarkInfo");
    assert!(
        marked
            .get(b"Marked")
            .and_then(Object::as_bool)
            .expect("Marked")
    );
    assert!(catalog.has(b"StructTreeRoot"));
    let metadata = catalog
        .get(b"Metadata")
        .and_then(Object::as_reference)
        .expect("Metadata");
    let metadata = document
        .get_object(metadata)
        .and_then(Object::as_stream)
        .expect("stream");
    let said = String::from_utf8_lossy(&metadata.content).into_owned();
    for mark in [
        "<pdfaid:part>2<",
        "<pdfaid:conformance>A<",
        "<pdfuaid:part>1<",
    ] {
        assert!(said.contains(mark), "{mark} is not in {said}");
    }
    let (mut fonts, mut kinds, mut drawings) = (0, Vec::new(), 0);
    for object in document.objects.values() {
        let Ok(dict) = object.as_dict() else { continue };
        if dict.has_type(b"FontDescriptor") {
            fonts += 1;
            assert!(
                dict.has(b"FontFile2") || dict.has(b"FontFile3"),
                "a font is not inside"
            );
        }
        if let Ok(kind) = dict.get(b"S").and_then(Object::as_name)
            && dict.has(b"K")
        {
            let kind = String::from_utf8_lossy(kind).into_owned();
            if kind == "Figure" {
                drawings += 1;
                assert!(dict.has(b"Alt"), "a drawing without words");
            }
            kinds.push(kind);
        }
    }
    assert!(fonts >= 2, "{fonts}");
    assert!(drawings >= 2, "{drawings}");
    for kind in ["H1", "H2", "Table", "TH", "TD", "P"] {
        assert!(kinds.iter().any(|k| k == kind), "no {kind} among the tags");
    }
}

#[test]
fn the_words_can_be_taken_out() {
    let input = demo().input(None);
    let pdf = paper(&input, Reader::Rebate, Size::Letter)
        .expect("set")
        .pdf;
    let text = text(&pdf);
    let load = input.plan.value("loads.house.heating").expect("a load");
    let load = units::show_figure(load.0, load.1, units::System::Us);
    for wanted in [
        "M. Aldous-Beringer",
        "R-26-0915",
        load.as_str(),
        input.issue.code.as_str(),
        "DRAFT",
        "Total",
    ] {
        assert!(text.contains(wanted), "{wanted} is not in\n{text}");
    }
}

/// Nothing of the job is markup, turns text around, or takes the place of another sign.
#[test]
fn hostile_text_prints_as_itself() {
    let evil = "#panic() *b* $x$ <b>&amp; _i_ \\\\ [l](http://a) `c` @ref";
    let hebrew = "\u{5e8}\u{5d7}\u{5d5}\u{5d1} 12";
    let turned = "AB\u{202e}21";
    let long = "W".repeat(400);
    let text_of_job = demo_text()
        .replace(
            "name = \"M. Aldous-Beringer\"",
            &format!("name = \"{evil} \u{1f600}\""),
        )
        .replace(
            "address = \"12 Lake Street, Harrow Point\"",
            &format!("address = \"{hebrew} {long}\""),
        )
        .replace("licence = \"HV-2207\"", &format!("licence = \"{turned}\""));
    assert_ne!(text_of_job, demo_text());
    let made = Made::of(text_of_job);
    let input = made.input(None);
    for reader in [Reader::Rebate, Reader::Inspector] {
        let pdf = paper(&input, reader, Size::Letter).expect("set").pdf;
        let letters = letters(&pdf);
        assert_eq!(letters.outside, Vec::<String>::new(), "{}", reader.word());
        assert_eq!(letters.over(), Vec::<String>::new(), "{}", reader.word());
        let text = text(&pdf);
        for wanted in ["#panic() *b* $x$ <b>&amp; _i_", "[U+1F600]", "AB[U+202E]21"] {
            assert!(text.contains(wanted), "{wanted} is not in\n{text}");
        }
        assert!(text.chars().filter(|c| *c == 'W').count() >= 400);
    }
}

/// Five by five rooms with names as long as a name may be.
#[test]
fn a_house_of_25_rooms_with_long_names_fits() {
    let made = Made::of(rooms_25());
    let input = made.input(None);
    for reader in Reader::ALL {
        let pdf = paper(&input, reader, Size::Letter).expect("set").pdf;
        let letters = letters(&pdf);
        assert_eq!(letters.outside, Vec::<String>::new(), "{}", reader.word());
        assert_eq!(letters.over(), Vec::<String>::new(), "{}", reader.word());
        if reader == Reader::Rebate {
            let text = text(&pdf);
            for i in 0..25 {
                let name = format!("the {i:02} room of the great-grandmother");
                assert!(text.contains(&name), "{name} is not in\n{text}");
            }
        }
    }
}
