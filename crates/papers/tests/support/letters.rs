//! Where the letters of a PDF stand, and what they say.

use pdf_extract::{Document, MediaBox, OutputDev, OutputError, Transform};

/// Edge of the frame from the edge of the sheet, pt: 9 mm.
const EDGE_PT: f64 = 9.0 / 25.4 * 72.0;

/// Where the letters of a file stand.
#[derive(Default)]
pub struct Letters {
    pub sizes: Vec<(f64, f64)>,
    pub outside: Vec<String>,
    pub count: usize,
    standing: Vec<Standing>,
}

/// A letter with its place on a sheet, pt.
#[derive(Clone)]
struct Standing {
    sheet: usize,
    x: [f64; 2],
    y: f64,
    size: f64,
    text: String,
}

impl Letters {
    /// Letters that stand on another: on one line with half of the narrower covered, or on lines so
    /// near to each other that one goes through the other. *Common practice, no source*: letters of
    /// a line touch by less than a fifth of their width, and lines are a full letter apart.
    pub fn over(&self) -> Vec<String> {
        let mut all: Vec<&Standing> = (self.standing.iter())
            .filter(|s| !s.text.trim().is_empty() && s.x[1] > s.x[0])
            .collect();
        all.sort_by(|a, b| (a.sheet.cmp(&b.sheet)).then(b.y.total_cmp(&a.y)));
        let mut out = Vec::new();
        for (i, a) in all.iter().enumerate() {
            let near = all[i + 1..].iter();
            let near = near.take_while(|b| b.sheet == a.sheet && a.y - b.y < 0.45 * a.size);
            for b in near {
                let both = a.x[1].min(b.x[1]) - a.x[0].max(b.x[0]);
                let narrow = (a.x[1] - a.x[0]).min(b.x[1] - b.x[0]);
                if both > 0.5 * narrow {
                    out.push(format!(
                        "{} on {} on sheet {} at {:.0}, {:.0}",
                        a.text, b.text, a.sheet, b.x[0], b.y
                    ));
                }
            }
        }
        out
    }
}

impl OutputDev for Letters {
    fn begin_page(
        &mut self,
        _: u32,
        media: &MediaBox,
        _: Option<(f64, f64, f64, f64)>,
    ) -> Result<(), OutputError> {
        self.sizes
            .push((media.urx - media.llx, media.ury - media.lly));
        Ok(())
    }
    fn end_page(&mut self) -> Result<(), OutputError> {
        Ok(())
    }
    fn output_character(
        &mut self,
        at: &Transform,
        width: f64,
        _: f64,
        size: f64,
        text: &str,
    ) -> Result<(), OutputError> {
        self.count += 1;
        let (wide, high) = self.sizes.last().copied().unwrap_or_default();
        // the end of the letter along its line; text that stands askew is the word DRAFT
        let end = (
            at.m31 + at.m11 * width * size,
            at.m32 + at.m12 * width * size,
        );
        if at.m12.abs() < 1e-6 {
            self.standing.push(Standing {
                sheet: self.sizes.len(),
                x: [at.m31, end.0],
                y: at.m32,
                size: size * at.m11.abs(),
                text: text.to_owned(),
            });
            for (x, y) in [(at.m31, at.m32), end] {
                let inside = (EDGE_PT - 0.5..=wide - EDGE_PT + 0.5).contains(&x)
                    && (EDGE_PT - 0.5..=high - EDGE_PT + 0.5).contains(&y);
                if !inside && !text.trim().is_empty() {
                    self.outside.push(format!("{text} at {x:.0}, {y:.0}"));
                }
            }
        }
        Ok(())
    }
    fn begin_word(&mut self) -> Result<(), OutputError> {
        Ok(())
    }
    fn end_word(&mut self) -> Result<(), OutputError> {
        Ok(())
    }
    fn end_line(&mut self) -> Result<(), OutputError> {
        Ok(())
    }
}

pub fn letters(pdf: &[u8]) -> Letters {
    let document = Document::load_mem(pdf).expect("it is a PDF");
    let mut letters = Letters::default();
    pdf_extract::output_doc(&document, &mut letters).expect("its text can be taken out");
    letters
}

/// Text of a file, its spaces as one.
pub fn text(pdf: &[u8]) -> String {
    let text = pdf_extract::extract_text_from_mem(pdf).expect("text");
    let text = text.replace('\u{200b}', "");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
