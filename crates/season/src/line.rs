//! What rooms ask for over outdoor temperature, and where it crosses what a unit gives.

/// Warmest outdoor temperature that counts for the line, C: in milder nights stored sun and free
/// heat hide what the house loses.
pub const MILDEST_C: f64 = 10.0;
/// Fewest hours a line is drawn through.
pub const FEWEST_HOURS: u32 = 48;

/// A straight line of need over outdoor temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NeedLine {
    /// Need at 0 C outdoors, W.
    pub at_0c_w: f64,
    /// How much more for every kelvin colder, W/K.
    pub per_k_w: f64,
    /// Hours it is drawn through.
    pub hours: u32,
}

impl NeedLine {
    /// Need at an outdoor temperature, W; not below 0.
    pub fn at(&self, outdoor_c: f64) -> f64 {
        (self.at_0c_w - self.per_k_w * outdoor_c).max(0.0)
    }
}

/// Sums for the line.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct LineSums {
    n: u32,
    t: f64,
    q: f64,
    tt: f64,
    tq: f64,
}

impl LineSums {
    #[inline]
    pub fn take(&mut self, outdoor_c: f64, need_w: f64) {
        self.n += 1;
        self.t += outdoor_c;
        self.q += need_w;
        self.tt += outdoor_c * outdoor_c;
        self.tq += outdoor_c * need_w;
    }

    /// Line through the hours taken, by least squares; None when too few, or when it does not
    /// rise with cold.
    ///
    /// **Equation** b = (sum(tq) - sum(t)sum(q)/n) / (sum(tt) - sum(t)^2/n); q = a + b t
    ///
    /// **Symbols** t outdoor temperature, C; q heat asked, W; n hours
    ///
    /// **Range** [`FEWEST_HOURS`] and more
    ///
    /// **Source** `common-practice`: least squares
    ///
    /// **Example** hours on q = 1000 - 50 t give back 1000 W and 50 W/K
    pub fn line(&self) -> Option<NeedLine> {
        if self.n < FEWEST_HOURS {
            return None;
        }
        let n = f64::from(self.n);
        let spread = self.tt - self.t * self.t / n;
        if spread <= 1e-6 {
            return None;
        }
        let slope = (self.tq - self.t * self.q / n) / spread;
        (slope < 0.0).then(|| NeedLine {
            at_0c_w: (self.q - slope * self.t) / n,
            per_k_w: -slope,
            hours: self.n,
        })
    }
}

/// Where two curves over outdoor temperature cross.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Crossing {
    /// At this outdoor temperature, C.
    At(f64),
    /// Already crossed at the coldest point of the sheet, C: they cross further down, where the
    /// sheet cannot tell.
    ColderThan(f64),
    /// Not crossed at the mildest temperature looked at, C.
    WarmerThan(f64),
    /// There is no line or no curve.
    None,
}

impl Crossing {
    /// The temperature, where there is one, C.
    pub fn at_c(self) -> Option<f64> {
        match self {
            Self::At(c) => Some(c),
            _ => None,
        }
    }
}

/// Step of the search, K.
const STEP_K: f64 = 0.25;

/// The coldest temperature from which on what is given stays at or over what is asked. Looks from
/// the mild end down; between two steps a straight line.
pub(crate) fn crossing(
    span_c: (f64, f64),
    asked_w: impl Fn(f64) -> f64,
    given_w: impl Fn(f64) -> Option<f64>,
) -> Crossing {
    let (cold, mild) = span_c;
    let mut before: Option<(f64, f64)> = None;
    let steps = ((mild - cold) / STEP_K).max(0.0) as usize;
    for i in (0..=steps).rev() {
        let t = cold + i as f64 * STEP_K;
        let Some(given) = given_w(t) else { continue };
        let over = given - asked_w(t);
        if over < 0.0 {
            return match before {
                None => Crossing::WarmerThan(t),
                Some((at, o)) => Crossing::At(t + (at - t) * (-over) / (o - over)),
            };
        }
        before = Some((t, over));
    }
    match before {
        Some((t, _)) => Crossing::ColderThan(t),
        None => Crossing::None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn line_gives_back_what_it_was_drawn_from() {
        let mut sums = LineSums::default();
        for i in 0..100 {
            let t = -20.0 + 0.3 * f64::from(i);
            sums.take(t, 1000.0 - 50.0 * t);
        }
        let line = sums.line().expect("enough hours");
        // Exact in arithmetic; rounding of sums of 1e5 leaves 1e-9.
        assert!((line.at_0c_w - 1000.0).abs() < 1e-8 && (line.per_k_w - 50.0).abs() < 1e-9);
    }

    #[test]
    fn crossing_of_two_lines() {
        // 5000 + 100 t against 1000 - 100 t: equal at -20 C.
        let asked = |t: f64| 1000.0 - 100.0 * t;
        let given = |t: f64| Some(5000.0 + 100.0 * t);
        let got = crossing((-30.0, 15.0), asked, given).at_c();
        assert!(got.is_some_and(|c| (c + 20.0).abs() < 1e-9), "{got:?}");
        let got = crossing((-10.0, 15.0), asked, given);
        assert_eq!(got, Crossing::ColderThan(-10.0));
    }
}
