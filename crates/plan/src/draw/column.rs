//! Drawings for a phone: one column, as wide as a small screen, all words in full on as many lines
//! as they need.

use std::fmt::Write as _;

use install::Judged;

use super::judged::said;
use super::page::{Cell, STYLE, path, rect, safe, text};

/// Width of the column: about that of a phone's screen, so that it stands there as large as here.
pub(super) const WIDTH: f64 = 360.0;
/// Left and right edge of what is drawn.
pub(super) const LEFT: f64 = 14.0;
pub(super) const RIGHT: f64 = WIDTH - 14.0;
/// From one line of words to the next.
pub(super) const ROW: f64 = 17.0;
/// Sizes of words, plain and small: on a screen of 340 px small is still 12 px.
const PLAIN: f64 = 14.0;
pub(super) const SMALL: f64 = 13.0;

/// Share of its size that a letter takes; from memory of common faces, rather too much.
fn em(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' | ' ' => 0.33,
        'm' | 'w' | 'M' | 'W' | '%' | '@' | '—' => 0.95,
        c if c.is_uppercase() => 0.72,
        // letters of the east fill their square
        c if c > '\u{1100}' => 1.05,
        _ => 0.58,
    }
}

/// At most so wide are words of a size.
pub(super) fn wide(says: &str, size: f64) -> f64 {
    says.chars().map(em).sum::<f64>() * size
}

/// Words broken into lines that fit; a word that is longer than a line is broken within.
pub(super) fn lines(says: &str, size: f64, room: f64) -> Vec<String> {
    let mut all = Vec::new();
    let mut line = String::new();
    for word in says.split_whitespace() {
        let longer = format!("{line} {word}");
        if !line.is_empty() && wide(&longer, size) <= room {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            all.push(std::mem::take(&mut line));
        }
        for c in word.chars() {
            if !line.is_empty() && wide(&line, size) + em(c) * size > room {
                all.push(std::mem::take(&mut line));
            }
            line.push(c);
        }
    }
    if !line.is_empty() {
        all.push(line);
    }
    all
}

/// Words on as many lines as they need; gives where the next line stands.
pub(super) fn words(out: &mut String, at: (f64, f64), class: &str, room: f64, says: &str) -> f64 {
    let size = if class.contains("small") {
        SMALL
    } else {
        PLAIN
    };
    let bold = if class.contains("bold") { 1.06 } else { 1.0 };
    let mut y = at.1;
    for line in lines(says, size * bold, room) {
        text(out, at.0, y, "start", class, &line);
        y += ROW;
    }
    y
}

/// Rules one beneath the other: what and verdict, beneath it what was found and what is wanted.
/// Gives where they end.
pub(super) fn table<'j>(rows: impl Iterator<Item = &'j Judged>, top: f64, out: &mut String) -> f64 {
    let mut y = top;
    let mut place = "";
    for j in rows {
        if j.place != place {
            place = &j.place;
            y = words(out, (LEFT, y + 10.0), "small bold", RIGHT - LEFT, place);
        }
        path(
            out,
            "hair",
            1.0,
            &format!("M{LEFT} {:.1}H{RIGHT}", y - ROW + 5.0),
        );
        let (verdict, class) = said(j.verdict);
        y += 3.0;
        text(out, RIGHT, y, "end", class, verdict);
        let room = RIGHT - LEFT - wide(verdict, SMALL) - 12.0;
        y = words(out, (LEFT, y), "small", room, &j.what);
        let says = format!("{}; wanted {}", j.found, j.required);
        y = words(out, (LEFT, y), "small soft", RIGHT - LEFT, &says) + 3.0;
    }
    y
}

/// The sheet: `body` in a field of this height, and beneath it the title block, a cell a row.
pub(super) fn page(height: f64, label: &str, cells: &[Cell], body: &str) -> String {
    let mut foot = String::new();
    let mut y = height;
    for (i, c) in cells.iter().enumerate() {
        if i > 0 {
            path(
                &mut foot,
                "hair",
                1.0,
                &format!("M1.5 {y:.1}H{}", WIDTH - 1.5),
            );
        }
        y += 19.0;
        for (class, says) in [("small soft", &c.small), ("", &c.says)] {
            y = words(&mut foot, (LEFT, y), class, RIGHT - LEFT, says);
        }
        y -= 7.0;
    }
    let all = y;
    let label = safe(label);
    let mut out = String::with_capacity(body.len() + 4096);
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {all:.1}\" \
         width=\"{WIDTH}\" height=\"{all:.1}\" role=\"img\" aria-label=\"{label}\">\n\
         <title>{label}</title>\n<style>{STYLE}text{{font-size:{PLAIN}px}}.small{{font-size:{SMALL}px}}</style>"
    );
    rect(&mut out, "paper", 0.0, 0.0, WIDTH, all);
    out.push_str(body);
    out.push_str(&foot);
    let frame = format!(
        "M.75 .75H{r}V{b:.2}H.75ZM.75 {height:.1}H{r}",
        r = WIDTH - 0.75,
        b = all - 0.75
    );
    path(&mut out, "ink", 1.5, &frame);
    out.push_str("</svg>\n");
    out
}
