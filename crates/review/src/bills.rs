//! Bill periods in order, and what is odd about them.

use jobfile::Carrier;

use crate::Refused;
use crate::calendar::iso;

/// Use over whole days.
#[derive(Debug, Clone, PartialEq)]
pub struct Period {
    /// First day, see [`crate::calendar`].
    pub from: i32,
    /// Day after the last.
    pub to: i32,
    /// Energy used, J (higher heating value for fuels).
    pub energy_j: f64,
    /// The reading at the end was estimated.
    pub estimated: bool,
    /// Line or entry it was read from, counted from 1.
    pub line: usize,
}

impl Period {
    /// Length, days.
    pub fn days(&self) -> i32 {
        self.to - self.from
    }

    /// Mean power, W.
    pub fn mean_w(&self) -> f64 {
        self.energy_j / (f64::from(self.days()) * 86_400.0)
    }
}

/// A remark on bills: each changes how far to trust them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Note {
    /// Line it is about, counted from 1, where there is one.
    pub line: Option<usize>,
    /// The remark.
    pub text: String,
}

impl std::fmt::Display for Note {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if let Some(line) = self.line.filter(|l| *l > 0) {
            write!(f, "line {line}: ")?;
        }
        f.write_str(&self.text)
    }
}

impl Note {
    pub(crate) fn new(line: Option<usize>, text: impl Into<String>) -> Self {
        Self {
            line,
            text: text.into(),
        }
    }
}

/// Bills of one carrier, in order of time, without overlap.
#[derive(Debug, Clone, PartialEq)]
pub struct Bills {
    /// What was bought.
    pub carrier: Carrier,
    /// Periods in order of time. None is estimated: an estimate is joined with what follows it
    /// up to the next true reading.
    pub periods: Vec<Period>,
    /// Remarks.
    pub notes: Vec<Note>,
    /// The house makes electricity of its own that is on no bill.
    pub behind_sun: bool,
    /// Periods run between full fills of a tank, and may be long.
    pub deliveries: bool,
    /// Periods are months put together from days, and may be parts of one.
    pub from_days: bool,
}

impl Bills {
    /// Puts periods in order, drops doubles, joins estimates with the reading that mends them.
    ///
    /// # Errors
    /// A period that ends before it begins or is longer than 400 days, use below nothing, two
    /// that overlap, nothing at all.
    pub fn from_periods(
        carrier: Carrier,
        periods: Vec<Period>,
        notes: Vec<Note>,
    ) -> Result<Self, Refused> {
        Self::ordered(carrier, periods, notes, true)
    }

    /// As [`Bills::from_periods`] where the ends are certain: nothing is guessed about them.
    ///
    /// # Errors
    /// As [`Bills::from_periods`].
    pub fn from_exact(
        carrier: Carrier,
        periods: Vec<Period>,
        notes: Vec<Note>,
    ) -> Result<Self, Refused> {
        Self::ordered(carrier, periods, notes, false)
    }

    fn ordered(
        carrier: Carrier,
        mut periods: Vec<Period>,
        mut notes: Vec<Note>,
        guess: bool,
    ) -> Result<Self, Refused> {
        for p in &periods {
            check(carrier, p)?;
        }
        if !periods.is_sorted_by_key(|p| p.from) {
            periods.sort_by_key(|p| (p.from, p.to));
            notes.push(Note::new(
                None,
                "the bills were out of order and were put in order of time",
            ));
        }
        drop_doubles(&mut periods, &mut notes);
        if guess {
            last_days_inclusive(&mut periods, &mut notes);
        }
        for pair in periods.windows(2) {
            let [a, b] = pair else { continue };
            if b.from < a.to {
                return Err(Refused::new(
                    "two bills overlap",
                    format!(
                        "{} to {} and {} to {}",
                        iso(a.from),
                        iso(a.to),
                        iso(b.from),
                        iso(b.to)
                    ),
                    "each day on one bill only",
                    "one may be a corrected bill: keep the corrected one",
                )
                .at(b.line));
            }
            if b.from > a.to {
                notes.push(Note::new(
                    Some(b.line),
                    format!("no bill covers {} to {}", iso(a.to), iso(b.from)),
                ));
            }
        }
        let periods = join_estimates(periods, &mut notes);
        if periods.is_empty() {
            return Err(Refused::new(
                "no usable bill",
                "none",
                "at least one period that ends with a true reading",
                "give bills with meter readings",
            ));
        }
        Ok(Self {
            carrier,
            periods,
            notes,
            behind_sun: false,
            deliveries: false,
            from_days: false,
        })
    }

    /// Days covered.
    pub fn days(&self) -> i32 {
        self.periods.iter().map(Period::days).sum()
    }

    /// Only the periods that lie wholly in `from..to`.
    #[must_use]
    pub fn within(&self, from: i32, to: i32) -> Self {
        let inside = |p: &&Period| p.from >= from && p.to <= to;
        Self {
            carrier: self.carrier,
            periods: self.periods.iter().filter(inside).cloned().collect(),
            notes: self.notes.clone(),
            ..*self
        }
    }
}

fn check(carrier: Carrier, p: &Period) -> Result<(), Refused> {
    if p.to <= p.from {
        return Err(Refused::new(
            "the bill ends before it begins",
            format!("{} to {}", iso(p.from), iso(p.to)),
            "an end after the begin",
            "check both days, and the order of day and month",
        )
        .at(p.line));
    }
    if p.days() > 400 {
        return Err(Refused::new(
            "one bill covers more than a year",
            format!("{} days", p.days()),
            "up to 400 days",
            "give the single bills, or check the year",
        )
        .at(p.line));
    }
    if !p.energy_j.is_finite() {
        return Err(Refused::new(
            "the use is not a number",
            "nothing",
            "a number",
            "check the amount",
        )
        .at(p.line));
    }
    if p.energy_j < 0.0 {
        let mend = if carrier == Carrier::Electricity {
            "net metering hides the use: give what was delivered and what was sent back apart, or the gross meter"
        } else {
            "a credit or a corrected bill: enter the corrected use"
        };
        return Err(Refused::new(
            "use below nothing",
            format!("{:.3} GJ", p.energy_j / 1e9),
            "0 or more",
            mend,
        )
        .at(p.line));
    }
    Ok(())
}

fn drop_doubles(periods: &mut Vec<Period>, notes: &mut Vec<Note>) {
    let mut kept: Vec<Period> = Vec::with_capacity(periods.len());
    for p in periods.drain(..) {
        let same = |k: &Period| k.from == p.from && k.to == p.to && k.energy_j == p.energy_j;
        if kept.last().is_some_and(same) {
            notes.push(Note::new(
                Some(p.line),
                format!(
                    "the bill from {} stands twice; one was left out",
                    iso(p.from)
                ),
            ));
        } else {
            kept.push(p);
        }
    }
    *periods = kept;
}

/// Some bills name the last day used, others the day of the reading. If most begin on the day
/// after the last one ended, the last day counts.
fn last_days_inclusive(periods: &mut [Period], notes: &mut Vec<Note>) {
    let one_apart = periods
        .windows(2)
        .filter(|w| w[1].from == w[0].to + 1)
        .count();
    let touching = periods.windows(2).filter(|w| w[1].from == w[0].to).count();
    if one_apart > 0 && one_apart > touching {
        for p in periods.iter_mut() {
            p.to += 1;
        }
        notes.push(Note::new(
            None,
            "guessed: the last day named on each bill belongs to it, since the next begins on the day after",
        ));
    }
}

fn join_estimates(periods: Vec<Period>, notes: &mut Vec<Note>) -> Vec<Period> {
    let mut out: Vec<Period> = Vec::with_capacity(periods.len());
    let mut waiting: Option<Period> = None;
    for mut p in periods {
        if let Some(w) = waiting.take() {
            if w.to == p.from {
                p.from = w.from;
                p.energy_j += w.energy_j;
            } else {
                notes.push(Note::new(
                    Some(w.line),
                    format!(
                        "estimated reading of {} has no true reading after it; left out",
                        iso(w.to)
                    ),
                ));
            }
        }
        if p.estimated {
            waiting = Some(p);
        } else {
            out.push(p);
        }
    }
    if let Some(w) = waiting {
        notes.push(Note::new(
            Some(w.line),
            format!("the last reading, {}, is estimated; left out", iso(w.to)),
        ));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bill(from: i32, to: i32, energy_j: f64, estimated: bool, line: usize) -> Period {
        Period {
            from,
            to,
            energy_j,
            estimated,
            line,
        }
    }

    fn refusal(carrier: Carrier, periods: Vec<Period>) -> String {
        Bills::from_periods(carrier, periods, Vec::new())
            .map_or_else(|r| r.to_string(), |_| "read".to_owned())
    }

    /// Estimates are joined with the reading that mends them: `caltrack-2`. Exact sums.
    #[test]
    fn an_estimate_waits_for_a_true_reading() {
        let periods = vec![
            bill(90, 120, 4.0, true, 4),
            bill(0, 30, 1.0, false, 1),
            bill(30, 60, 2.0, true, 2),
            bill(60, 90, 3.0, false, 3),
            bill(0, 30, 1.0, false, 5),
        ];
        let got = Bills::from_periods(Carrier::Gas, periods, Vec::new());
        let bills = got.unwrap_or_else(|r| panic!("{r}"));
        assert_eq!(
            bills.periods,
            [bill(0, 30, 1.0, false, 1), bill(30, 90, 5.0, false, 3)]
        );
        let said: Vec<&str> = bills.notes.iter().map(|n| n.text.as_str()).collect();
        assert_eq!(
            said,
            [
                "the bills were out of order and were put in order of time",
                "the bill from 1970-01-01 stands twice; one was left out",
                "the last reading, 1970-05-01, is estimated; left out",
            ]
        );
    }

    #[test]
    fn last_days_that_belong_to_the_bill_are_counted() {
        let periods = vec![bill(0, 29, 1.0, false, 1), bill(30, 59, 1.0, false, 2)];
        let days = Bills::from_periods(Carrier::Oil, periods, Vec::new()).map(|b| b.days());
        assert_eq!(days, Ok(60));
    }

    #[test]
    fn what_cannot_be_used_is_refused_word_for_word() {
        assert_eq!(
            refusal(
                Carrier::Gas,
                vec![bill(0, 30, 1.0, false, 1), bill(20, 50, 1.0, false, 2)]
            ),
            "line 2: two bills overlap: got 1970-01-01 to 1970-01-31 and 1970-01-21 to \
             1970-02-20; usable: each day on one bill only; one may be a corrected bill: keep the \
             corrected one"
        );
        assert_eq!(
            refusal(Carrier::Electricity, vec![bill(0, 30, -3.6e9, false, 1)]),
            "line 1: use below nothing: got -3.600 GJ; usable: 0 or more; net metering hides the \
             use: give what was delivered and what was sent back apart, or the gross meter"
        );
        assert_eq!(
            refusal(Carrier::Oil, vec![bill(30, 30, 1.0, false, 7)]),
            "line 7: the bill ends before it begins: got 1970-01-31 to 1970-01-31; usable: an end \
             after the begin; check both days, and the order of day and month"
        );
        assert_eq!(
            refusal(Carrier::Gas, vec![bill(0, 30, 1.0, true, 1)]),
            "no usable bill: got none; usable: at least one period that ends with a true reading; \
             give bills with meter readings"
        );
        assert_eq!(
            refusal(Carrier::Gas, vec![bill(0, 401, 1.0, false, 1)]),
            "line 1: one bill covers more than a year: got 401 days; usable: up to 400 days; give \
             the single bills, or check the year"
        );
        assert!(
            refusal(Carrier::Gas, vec![bill(0, 9, f64::NAN, false, 1)]).contains("not a number")
        );
    }
}
