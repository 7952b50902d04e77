//! Things on a drawing by number, so that names never run over each other: the number stands at
//! the thing, its words in a list beneath.

use super::page::{fitted, text, wide};

/// Numbers and words of one drawing.
#[derive(Default)]
pub(super) struct Numbered {
    taken: Vec<[f64; 4]>,
    words: Vec<String>,
}

/// Half a number's box.
const HALF: f64 = 9.0;

impl Numbered {
    /// Keeps a box free of numbers.
    pub fn keep(&mut self, x: f64, y: f64, w: f64, h: f64) {
        self.taken.push([x, y, x + w, y + h]);
    }

    fn free(&self, b: [f64; 4]) -> bool {
        let apart = |t: &[f64; 4]| b[2] <= t[0] || b[0] >= t[2] || b[3] <= t[1] || b[1] >= t[3];
        self.taken.iter().all(apart)
    }

    /// Words at a place: at the first of these offsets that is free, the first of all if none is.
    pub fn word(&mut self, out: &mut String, at: (f64, f64), class: &str, says: &str) {
        let w = wide(says, 10.5) + 4.0;
        let first = [at.0, at.1 - 11.0, at.0 + w, at.1 + 3.0];
        let shifts = [0.0, 14.0, 28.0, 42.0, -14.0, 56.0];
        let moved = |d: f64| [first[0], first[1] + d, first[2], first[3] + d];
        let d = shifts.into_iter().find(|d| self.free(moved(*d)));
        let d = d.unwrap_or(0.0);
        self.taken.push(moved(d));
        text(out, at.0, at.1 + d, "start", class, says);
    }

    /// A number at a thing, with its words for the list.
    pub fn at(&mut self, out: &mut String, (x, y): (f64, f64), class: &str, says: String) {
        self.words.push(says);
        let number = self.words.len().to_string();
        let steps = [0.0, 20.0, -20.0, 40.0, -40.0, 60.0];
        let spots = steps
            .iter()
            .flat_map(|dy| steps.iter().map(move |dx| (*dx, *dy)));
        let mut all: Vec<(f64, f64)> = spots.collect();
        all.sort_by(|a, b| (a.0.abs() + a.1.abs()).total_cmp(&(b.0.abs() + b.1.abs())));
        let boxed = |dx: f64, dy: f64| {
            let (x, y) = (x + dx, y + dy);
            [x - HALF, y - HALF, x + HALF, y + HALF]
        };
        let spot = all.into_iter().find(|(dx, dy)| self.free(boxed(*dx, *dy)));
        let (dx, dy) = spot.unwrap_or((0.0, 0.0));
        self.taken.push(boxed(dx, dy));
        if dx != 0.0 || dy != 0.0 {
            out.push_str(&format!(
                "<path class=\"ink\" stroke-width=\"0.7\" d=\"M{x:.1} {y:.1}L{:.1} {:.1}\"/>\n",
                x + dx,
                y + dy
            ));
        }
        out.push_str(&format!(
            "<circle class=\"paper\" cx=\"{:.1}\" cy=\"{:.1}\" r=\"8\"/>\n<circle class=\"{class}\" stroke-width=\"1.2\" cx=\"{:.1}\" cy=\"{:.1}\" r=\"8\"/>\n",
            x + dx, y + dy, x + dx, y + dy
        ));
        text(out, x + dx, y + dy + 3.8, "middle", "small", &number);
    }

    /// The list, from a place down; gives where it ends.
    pub fn list(&self, out: &mut String, x: f64, y: f64, room: f64) -> f64 {
        let mut y = y;
        for (i, words) in self.words.iter().enumerate() {
            let says = format!("{}  {words}", i + 1);
            for (n, line) in broken(&says, room).iter().enumerate() {
                let indent = if n == 0 { 0.0 } else { 16.0 };
                text(out, x + indent, y, "start", "small", line);
                y += 14.0;
            }
        }
        y
    }
}

/// Words broken into lines that fit.
pub(super) fn broken(says: &str, room: f64) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in says.split(' ') {
        let Some(line) = lines.last_mut() else { break };
        let longer = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        if wide(&longer, 10.5) <= room - 16.0 || line.is_empty() {
            *line = longer;
        } else {
            lines.push(word.to_owned());
        }
    }
    lines.iter().map(|l| fitted(l, 10.5, room)).collect()
}
