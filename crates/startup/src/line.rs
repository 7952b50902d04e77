//! A straight line through readings, and how well its slope is known.

/// A fitted line, about the mean time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Line {
    /// Mean time, s.
    pub mean_s: f64,
    /// Value at the mean time.
    pub level: f64,
    /// Change per second.
    pub slope: f64,
    /// Sum of squared times about the mean, s2.
    pub spread_s2: f64,
    /// Sum of absolute times about the mean, s.
    pub reach_s: f64,
    /// Standard deviation of the residuals; zero with two readings.
    pub scatter: f64,
}

/// Least squares with equal weights.
///
/// # Equation
/// `b = sum((t - tm) y) / sum((t - tm)^2)`, `a = mean(y)`
/// # Symbols
/// `t` s, `tm` their mean; `y` readings; `a` level at `tm`, `b` slope.
/// # Range
/// Two readings or more at different times; else `None`.
/// # Source
/// `common-practice`: least squares.
pub(crate) fn line(points: &[(f64, f64)]) -> Option<Line> {
    let n = points.len() as f64;
    if points.len() < 2 {
        return None;
    }
    let mean_s = points.iter().map(|p| p.0).sum::<f64>() / n;
    let level = points.iter().map(|p| p.1).sum::<f64>() / n;
    let (mut xx, mut xy, mut reach) = (0.0, 0.0, 0.0);
    for (t, y) in points {
        let x = t - mean_s;
        xx += x * x;
        xy += x * (y - level);
        reach += x.abs();
    }
    if xx <= 0.0 {
        return None;
    }
    let slope = xy / xx;
    let squares: f64 = points
        .iter()
        .map(|(t, y)| {
            let e = y - level - slope * (t - mean_s);
            e * e
        })
        .sum();
    let scatter = if points.len() > 2 {
        (squares / (n - 2.0)).sqrt()
    } else {
        0.0
    };
    Some(Line {
        mean_s,
        level,
        slope,
        spread_s2: xx,
        reach_s: reach,
        scatter,
    })
}
