//! The year as a condensed field.

use climate::MONTHS;

const SHADES: [char; 5] = ['·', '░', '▒', '▓', '█'];

/// The year as a field: a line for every three hours of the day, a column for every five days.
/// `share` is what an hour counts, 0 to 1.
pub fn field(hours: usize, share: &dyn Fn(usize) -> f64) -> String {
    let days = hours / 24;
    let columns = days.div_ceil(5);
    let mut out = String::new();
    for row in 0..8 {
        let mut line = String::new();
        for c in 0..columns {
            let (mut sum, mut n) = (0.0, 0.0);
            for d in c * 5..((c + 1) * 5).min(days) {
                for h in row * 3..row * 3 + 3 {
                    sum += share(d * 24 + h);
                    n += 1.0;
                }
            }
            let mean: f64 = if n > 0.0 { sum / n } else { 0.0 };
            let step = if mean <= 0.02 {
                0
            } else {
                1 + ((mean * 4.0) as usize).min(3)
            };
            line.push(SHADES.get(step).copied().unwrap_or('█'));
        }
        out.push_str(&format!("  {:02} │{line}\n", row * 3));
    }
    let mut months = String::new();
    for (m, name) in MONTHS.iter().enumerate() {
        let at = (m as f64 * columns as f64 / 12.0).round() as usize;
        while months.len() < at {
            months.push(' ');
        }
        months.push_str(name);
    }
    out.push_str(&format!("      {months}\n"));
    out
}
