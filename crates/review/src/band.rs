//! Bands, and how bands of parts become the band of the whole.

use crate::Refused;

/// A value with the ends between which it lies at the stated rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Lower end.
    pub low: f64,
    /// Best value.
    pub mid: f64,
    /// Upper end.
    pub high: f64,
}

impl Band {
    /// A value known exactly.
    pub fn exact(mid: f64) -> Self {
        Self {
            low: mid,
            mid,
            high: mid,
        }
    }

    /// A band from its ends and best value.
    pub fn new(low: f64, mid: f64, high: f64) -> Self {
        Self { low, mid, high }
    }

    /// All three times a factor that is exact; a factor below 0 turns the band round.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        let (a, b) = (self.low * factor, self.high * factor);
        Self {
            low: a.min(b),
            mid: self.mid * factor,
            high: a.max(b),
        }
    }

    /// Whether a value lies in it, ends included.
    pub fn holds(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// Half its width over its middle.
    pub fn share(&self) -> f64 {
        (self.high - self.low) / 2.0 / self.mid.abs()
    }
}

/// Band of a sum of independent parts.
///
/// **Equation** `L = sum - sqrt(sum (m - l)2)`, `U = sum + sqrt(sum (u - m)2)`
///
/// **Symbols**
/// - m, l, u: best value and ends of each part
/// - L, U: ends of the sum
///
/// **Range** parts with the same stated rate, independent
///
/// **Source** `zou-donner-2008`, equations 7 and 8 (MOVER); from memory
///
/// **Example** 10 (8 to 12) and 5 (5 to 6.5): 15 (13 to 17.5)
/// ```
/// use review::{Band, sum};
/// let s = sum(&[Band::new(8.0, 10.0, 12.0), Band::new(5.0, 5.0, 6.5)]);
/// assert_eq!((s.low, s.mid, s.high), (13.0, 15.0, 17.5));
/// ```
pub fn sum(parts: &[Band]) -> Band {
    let mid: f64 = parts.iter().map(|b| b.mid).sum();
    let down: f64 = parts
        .iter()
        .map(|b| (b.mid - b.low) * (b.mid - b.low))
        .sum();
    let up: f64 = parts
        .iter()
        .map(|b| (b.high - b.mid) * (b.high - b.mid))
        .sum();
    Band {
        low: mid - down.sqrt(),
        mid,
        high: mid + up.sqrt(),
    }
}

/// Band of a difference of two independent values.
///
/// **Equation** `L = a - b - sqrt((a - la)2 + (ub - b)2)`, and U likewise
///
/// **Symbols**
/// - a, la, ua; b, lb, ub: best values and ends
///
/// **Range** as [`sum`]
///
/// **Source** `zou-donner-2008`, equations 7 and 8 (MOVER); from memory
///
/// **Example** 10 (7 to 13) less 5 (1 to 9): 5 (0 to 10)
/// ```
/// use review::{Band, difference};
/// let d = difference(Band::new(7.0, 10.0, 13.0), Band::new(1.0, 5.0, 9.0));
/// assert_eq!((d.low, d.mid, d.high), (0.0, 5.0, 10.0));
/// ```
pub fn difference(a: Band, b: Band) -> Band {
    sum(&[a, b.times(-1.0)])
}

/// Band of a product of independent values above 0: the rule of the sum, on logarithms.
///
/// **Equation** `ln L = ln m - sqrt(sum (ln m - ln l)2)`, and U likewise
///
/// **Symbols**
/// - m, l, u: best value and ends of each factor
///
/// **Range** every low end above 0
///
/// **Source** `zou-donner-2008`, section on ratios, by logarithms; from memory
///
/// **Example** 10 (9 to 11) times 1 exactly: 10 (9 to 11)
///
/// # Errors
/// A low end that is not above 0.
pub fn product(parts: &[Band]) -> Result<Band, Refused> {
    let mut mid = 1.0;
    let (mut down, mut up) = (0.0, 0.0);
    for b in parts {
        if b.low.is_nan() || b.low <= 0.0 {
            return Err(Refused::new(
                "a product of values that may be nothing has no band",
                format!("{:.4} to {:.4}", b.low, b.high),
                "values above 0",
                "more bills would narrow it",
            ));
        }
        mid *= b.mid;
        let (d, u) = (libm::log(b.mid / b.low), libm::log(b.high / b.mid));
        down += d * d;
        up += u * u;
    }
    Ok(Band {
        low: mid * libm::exp(-down.sqrt()),
        mid,
        high: mid * libm::exp(up.sqrt()),
    })
}

/// Band of a quotient of two independent values.
///
/// **Equation** `L = (a b - sqrt((a b)2 - la ub (2a - la)(2b - ub))) / (ub (2b - ub))`,
/// `U = (a b + sqrt((a b)2 - ua lb (2a - ua)(2b - lb))) / (lb (2b - lb))`
///
/// **Symbols**
/// - a, la, ua: best value and ends of the dividend
/// - b, lb, ub: best value and ends of the divisor
///
/// **Range** lb above 0 and ub below 2 b; otherwise the quotient has no band: *cannot tell*
///
/// **Source** `donner-zou-2012`, section 2 (MOVER-R); from memory
///
/// **Example** an exact divisor of 2: 10 (8 to 12) gives 5 (4 to 6)
/// ```
/// use review::{Band, quotient};
/// let q = quotient(Band::new(8.0, 10.0, 12.0), Band::exact(2.0)).unwrap();
/// assert!((q.low - 4.0).abs() < 1e-12 && (q.high - 6.0).abs() < 1e-12);
/// ```
pub fn quotient(a: Band, b: Band) -> Option<Band> {
    let (lower, upper) = (
        b.high * (2.0 * b.mid - b.high),
        b.low * (2.0 * b.mid - b.low),
    );
    if !(b.low > 0.0 && lower > 0.0 && upper > 0.0) {
        return None;
    }
    let ab = a.mid * b.mid;
    let under = ab * ab - a.low * (2.0 * a.mid - a.low) * lower;
    let over = ab * ab - a.high * (2.0 * a.mid - a.high) * upper;
    let band = Band {
        // below 0 only by rounding, where both are exact
        low: (ab - under.max(0.0).sqrt()) / lower,
        mid: a.mid / b.mid,
        high: (ab + over.max(0.0).sqrt()) / upper,
    };
    (band.low.is_finite() && band.high.is_finite()).then_some(band)
}
