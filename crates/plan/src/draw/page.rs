//! The sheet itself: paper, frame, title block, and the words of the drawing.

use std::fmt::Write as _;

/// One cell of the title block: a small word over what it says.
pub(super) struct Cell {
    pub small: String,
    pub says: String,
}

/// A title cell.
pub(super) fn cell(small: &str, says: impl Into<String>) -> Cell {
    Cell {
        small: small.to_owned(),
        says: says.into(),
    }
}

/// Height of the title block.
const FOOT: f64 = 46.0;

/// Colours by class: light, then dark. Ink on warm paper, copper and frost, nothing else.
pub(super) const STYLE: &str = "\
text{font-family:\"Atkinson Hyperlegible Next\",\"Atkinson Hyperlegible\",system-ui,-apple-system,\"Segoe UI\",Roboto,\"DejaVu Sans\",sans-serif;font-size:12px;fill:#1d2629;font-variant-numeric:tabular-nums}\
.paper{fill:#fffdf7}.ink{stroke:#1d2629;fill:none}.inked{fill:#1d2629}.hair{stroke:#cfc8b8;fill:none}\
.copper{stroke:#a8501f;fill:none}.coppered{fill:#a8501f}.copperwash{fill:#f3e2d4}.coppermid{fill:#d39b78}\
.frost{stroke:#2f6480;fill:none}.frosted{fill:#2f6480}.frostwash{fill:#dfeaf0}.frostmid{fill:#8fb3c6}\
.soft{fill:#5c686b}.small{font-size:10.5px}.bold{font-weight:600}.halo{paint-order:stroke;stroke:#fffdf7;stroke-width:3px}\
@media (prefers-color-scheme:dark){text{fill:#e9e4d8}.paper{fill:#171d1f}.ink{stroke:#e9e4d8}.inked{fill:#e9e4d8}\
.hair{stroke:#374144}.copper{stroke:#e39a68}.coppered{fill:#e39a68}.copperwash{fill:#33251c}.coppermid{fill:#8a5c3f}\
.frost{stroke:#8fc1dc}.frosted{fill:#8fc1dc}.frostwash{fill:#1b2a33}.frostmid{fill:#47687a}.soft{fill:#9aa5a6}\
.halo{stroke:#171d1f}.paperline{stroke:#171d1f}}";

/// Text safe inside SVG.
pub(super) fn safe(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

/// About how wide a text of this size is: no font is at hand to measure it.
pub(super) fn wide(text: &str, size: f64) -> f64 {
    text.chars().count() as f64 * size * 0.56
}

/// Text cut to a width, with a mark where something is gone.
pub(super) fn fitted(text: &str, size: f64, room: f64) -> String {
    if wide(text, size) <= room {
        return text.to_owned();
    }
    let most = (room / (size * 0.56)).max(2.0) as usize;
    units::cut(text, most)
}

/// A text at a place; `anchor` is `start`, `middle` or `end`.
pub(super) fn text(out: &mut String, x: f64, y: f64, anchor: &str, class: &str, says: &str) {
    let says = safe(says);
    let _ = writeln!(
        out,
        "<text x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"{anchor}\" class=\"{class}\">{says}</text>"
    );
}

/// A path.
pub(super) fn path(out: &mut String, class: &str, width: f64, d: &str) {
    let _ = writeln!(
        out,
        "<path class=\"{class}\" stroke-width=\"{width}\" d=\"{d}\"/>"
    );
}

/// A rectangle.
pub(super) fn rect(out: &mut String, class: &str, x: f64, y: f64, w: f64, h: f64) {
    let _ = writeln!(
        out,
        "<rect class=\"{class}\" x=\"{x:.1}\" y=\"{y:.1}\" width=\"{w:.1}\" height=\"{h:.1}\"/>"
    );
}

/// Points joined by lines, as path data.
pub(super) fn joined(points: &[(f64, f64)]) -> String {
    let mut d = String::new();
    for (i, (x, y)) in points.iter().enumerate() {
        let _ = write!(d, "{}{x:.1} {y:.1}", if i == 0 { 'M' } else { 'L' });
    }
    d
}

/// Puts the sheet together: `body` is drawn in a field of `width` by `height`; the title block is
/// added below it. `label` says the drawing in words.
pub(super) fn page(width: f64, height: f64, label: &str, cells: &[Cell], body: &str) -> String {
    let all = height + FOOT;
    let label = safe(label);
    let mut out = String::with_capacity(body.len() + 4096);
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {all}\" \
         width=\"{width}\" height=\"{all}\" role=\"img\" aria-label=\"{label}\">\n\
         <title>{label}</title>\n<style>{STYLE}</style>"
    );
    rect(&mut out, "paper", 0.0, 0.0, width, all);
    out.push_str(body);
    let frame = format!(
        "M.75 .75H{r}V{b}H.75ZM.75 {height}H{r}",
        r = width - 0.75,
        b = all - 0.75
    );
    path(&mut out, "ink", 1.5, &frame);
    // The first cell takes what the others leave.
    let widths: Vec<f64> = cells
        .iter()
        .skip(1)
        .map(|c| wide(&c.says, 12.0).max(wide(&c.small, 10.5)) + 26.0)
        .collect();
    let taken: f64 = widths.iter().sum();
    let first = (width - taken).max(120.0);
    let mut x = 0.0;
    for (i, c) in cells.iter().enumerate() {
        let own = if i == 0 {
            first
        } else {
            widths.get(i - 1).copied().unwrap_or(0.0)
        };
        if i > 0 {
            path(
                &mut out,
                "hair",
                1.0,
                &format!("M{x:.1} {height}V{:.1}", all - 1.5),
            );
        }
        let room = own - 22.0;
        text(
            &mut out,
            x + 12.0,
            height + 18.0,
            "start",
            "small soft",
            &fitted(&c.small, 10.5, room),
        );
        text(
            &mut out,
            x + 12.0,
            height + 35.0,
            "start",
            "",
            &fitted(&c.says, 12.0, room),
        );
        x += own;
    }
    out.push_str("</svg>\n");
    out
}
