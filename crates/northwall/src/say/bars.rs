//! Bars and small plots of block characters.

const EIGHTHS: [char; 8] = ['▏', '▎', '▍', '▌', '▋', '▊', '▉', '█'];
const HEIGHTS: [char; 9] = [' ', '▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];

/// A level bar: `share` of `width` characters, to an eighth of one.
pub fn bar(share: f64, width: usize) -> String {
    if !share.is_finite() || share <= 0.0 {
        return String::new();
    }
    let eighths = (share.min(1.0) * (width * 8) as f64).round() as usize;
    let mut out = "█".repeat(eighths / 8);
    if !eighths.is_multiple_of(8)
        && let Some(c) = EIGHTHS.get(eighths % 8 - 1)
    {
        out.push(*c);
    }
    if out.is_empty() {
        out.push(EIGHTHS[0]);
    }
    out
}

/// Upright bars on one line, one character each, of the greatest.
pub fn columns(values: &[f64]) -> String {
    let most = values.iter().copied().fold(0.0, f64::max);
    values
        .iter()
        .map(|v| {
            let share = if most > 0.0 {
                (v / most).clamp(0.0, 1.0)
            } else {
                0.0
            };
            HEIGHTS[(share * 8.0).round() as usize]
        })
        .collect()
}

/// A small plot of marks over columns: each series has a mark, and a value for each column (not a
/// number where it has none). `top` is the value at the upper edge. Later series are drawn over
/// earlier ones.
pub fn plot(
    series: &[(char, Vec<f64>)],
    top: f64,
    rows: usize,
    label: &dyn Fn(f64) -> String,
) -> String {
    let columns = series.iter().map(|(_, v)| v.len()).max().unwrap_or(0);
    let mut grid = vec![vec![' '; columns]; rows];
    for (mark, values) in series {
        for (c, v) in values.iter().enumerate() {
            if v.is_finite() && *v >= 0.0 && *v <= top {
                let row = ((1.0 - v / top) * (rows - 1) as f64).round() as usize;
                if let Some(cell) = grid.get_mut(row).and_then(|r| r.get_mut(c)) {
                    *cell = *mark;
                }
            }
        }
    }
    let labels: Vec<String> = (0..rows)
        .map(|r| {
            if r == 0 || r == rows - 1 || r == (rows - 1) / 2 {
                label(top * (1.0 - r as f64 / (rows - 1) as f64))
            } else {
                String::new()
            }
        })
        .collect();
    let width = labels.iter().map(|l| l.chars().count()).max().unwrap_or(0);
    let mut out = String::new();
    for (line, label) in grid.iter().zip(&labels) {
        let body: String = line.iter().collect();
        out.push_str(&format!("  {label:>width$} │{}\n", body.trim_end()));
    }
    let foot = "─".repeat(columns);
    out.push_str(&format!("  {:>width$} └{foot}\n", ""));
    out
}

#[cfg(test)]
mod tests {
    use super::{bar, columns};

    #[test]
    fn bars_end_on_eighths() {
        assert_eq!(bar(0.5, 4), "██");
        assert_eq!(bar(0.53125, 4), "██▏");
        assert_eq!(bar(0.0, 4), "");
        assert_eq!(bar(f64::NAN, 4), "");
        assert_eq!(bar(7.0, 3), "███");
        assert_eq!(columns(&[0.0, 4.0, 8.0]), " ▄█");
    }
}
