//! The sheets as pictures: ink inside the frame, paper outside it, no sheet empty, and DRAFT to be
//! seen. The pictures are made by a reader of PDF files that had no part in setting them.

mod support;

use hayro::hayro_interpret::InterpreterSettings;
use hayro::hayro_syntax::Pdf;
use hayro::{RenderCache, RenderSettings, render};
use papers::{Block, Reader, Sheet, Size, gaps, pdf, sheet};
use support::{Made, demo, rooms_25};

/// One sheet, a pixel a point; how dark each is, 0 paper to 255 ink.
struct Picture {
    wide: usize,
    high: usize,
    ink: Vec<u8>,
}

/// Edge of the frame from the edge of the sheet, pixels: 9 mm, and half of its line.
const EDGE: usize = 25 - 1;

fn pictures(bytes: Vec<u8>) -> Vec<Picture> {
    let file = Pdf::new(bytes).expect("a PDF");
    let settings = InterpreterSettings::default();
    let cache = RenderCache::new();
    let pages = file.pages();
    let one = pages.iter().map(|page| {
        let drawn = render(page, &cache, &settings, &RenderSettings::default());
        // no paper is drawn: what is transparent is paper
        let ink = drawn.data_as_u8_slice().chunks_exact(4).map(|p| {
            let light = (u32::from(p[0]) + u32::from(p[1]) + u32::from(p[2])) / 3;
            u8::try_from(u32::from(p[3]).saturating_sub(light)).expect("a byte")
        });
        Picture {
            wide: drawn.width().into(),
            high: drawn.height().into(),
            ink: ink.collect(),
        }
    });
    one.collect()
}

impl Picture {
    /// Pixels with ink outside the frame.
    fn outside(&self) -> usize {
        let inside = |at: usize, of: usize| (EDGE..of - EDGE).contains(&at);
        let lit = self.ink.iter().enumerate().filter(|(_, ink)| **ink > 8);
        lit.filter(|(i, _)| !inside(i % self.wide, self.wide) || !inside(i / self.wide, self.high))
            .count()
    }

    /// Rows between the frame and the title block.
    fn body(&self) -> impl Iterator<Item = &[u8]> {
        let within = self.wide - EDGE - 4;
        let rows = self.ink.chunks_exact(self.wide).take(self.high - EDGE - 40);
        rows.skip(EDGE + 4).map(move |r| &r[EDGE + 4..within])
    }

    /// How many of them have ink.
    fn rows(&self) -> usize {
        self.body().filter(|r| r.iter().any(|i| *i > 60)).count()
    }

    /// Share of them that is ink.
    fn inked(&self) -> f64 {
        let (mut ink, mut all) = (0, 0);
        for row in self.body() {
            ink += row.iter().filter(|i| **i >= 90).count();
            all += row.len();
        }
        ink as f64 / all as f64
    }
}

/// Each sheet of a paper: its place, whether it is the last, and what must be so of any.
fn looked_at(name: &str, sheet: &Sheet) -> Vec<Picture> {
    let all = pictures(pdf(sheet).expect("it is set"));
    if let Some(into) = std::env::var_os("NORTHWALL_PAPERS_INTO") {
        let path = std::path::Path::new(&into).join(format!("{name}.pdf"));
        std::fs::write(path, pdf(sheet).expect("it is set")).expect("written");
    }
    assert!(!all.is_empty(), "{name}");
    for (i, picture) in all.iter().enumerate() {
        let at = format!("{name}, sheet {} of {}", i + 1, all.len());
        assert_eq!(picture.outside(), 0, "{at}: ink outside the frame");
        // seen: 1 to 7 % of a sheet of text is ink; a black one is a fault
        let ink = picture.inked();
        assert!((0.007..0.35).contains(&ink), "{at}: {ink} of it is ink");
        // no sheet holds a line or two alone: the last may be short, the others are used
        let least = if i + 1 == all.len() { 30 } else { 110 };
        assert!(picture.rows() > least, "{at}: {} rows", picture.rows());
    }
    all
}

#[test]
fn the_demo_stands_in_its_frame_on_both_sizes() {
    let input = demo().input(None);
    for reader in Reader::ALL {
        let open = gaps(&input, reader);
        for (size, high) in [(Size::Letter, 792), (Size::A4, 841)] {
            let draft = sheet(&input, reader, size, &open);
            assert!(draft.draft);
            let name = format!("{}-{high}", reader.word());
            let with = looked_at(&name, &draft);
            assert!(with.iter().all(|p| p.high == high), "{name}");
            if size == Size::A4 {
                continue;
            }
            // the same sheets without the word: it is what differs, and it is large
            let mut plain = draft.clone();
            plain.draft = false;
            let without = pictures(pdf(&plain).expect("it is set"));
            assert_eq!(with.len(), without.len());
            for (i, (a, b)) in with.iter().zip(&without).enumerate() {
                let more = |by: u8, rows: usize| {
                    let both = a.ink.iter().zip(&b.ink).take(rows * a.wide);
                    both.filter(|(a, b)| **a > b.saturating_add(by)).count()
                };
                let at = format!("{name}, sheet {}", i + 1);
                // in the corner, where nothing hides it: its strokes alone are some 200 pixels
                let word = more(60, EDGE + 22);
                assert!((100..800).contains(&word), "{at}: DRAFT has {word} pixels");
                // and across the sheet, where no drawing lies on it
                let all = more(8, a.high) as f64 / a.ink.len() as f64;
                assert!((0.002..0.1).contains(&all), "{at}: DRAFT covers {all}");
            }
        }
    }
}

#[test]
fn rooms_with_long_names_stand_in_the_frame_too() {
    let made = Made::of(rooms_25());
    let input = made.input(None);
    for reader in Reader::ALL {
        let open = gaps(&input, reader);
        let of = sheet(&input, reader, Size::Letter, &open);
        looked_at(&format!("{}-25", reader.word()), &of);
    }
}

/// What is tried above would be seen: a sheet without anything on it has hardly any ink.
#[test]
fn an_empty_sheet_is_seen_as_such() {
    let input = demo().input(None);
    let mut bare = sheet(&input, Reader::Crew, Size::Letter, &[]);
    bare.blocks = vec![Block::Turn];
    let all = pictures(pdf(&bare).expect("it is set"));
    assert!(all[0].inked() < 0.006, "{}", all[0].inked());
    assert!(all[0].rows() < 60, "{}", all[0].rows());
}
