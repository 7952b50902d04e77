//! Two clocks: the one on the wall, which goes on under a closed lid, and the running one, which
//! nobody can set. Both come in with each reading; neither is read here.

use serde::{Deserialize, Serialize};

use crate::stamp::span;

/// The two may differ by so much between readings before it is said, s.
const APART_S: f64 = 3.0;
/// And by this share of the time between: a good clock of a computer holds 100 s in a million.
const APART_SHARE: f64 = 1e-4;
/// An hour that was set by hand is met within this, s.
const HOUR_WITHIN_S: f64 = 120.0;

/// Both clocks at one moment.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Tick {
    /// The clock on the wall, seconds since 1970, UTC.
    pub wall_s: f64,
    /// Seconds since the program was begun; stands still under a closed lid.
    pub running_s: f64,
    /// Which run of the program: the running clock means nothing from one to the next.
    pub session: f64,
}

/// A reading's place in time.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Placed {
    /// Time of the reading, seconds since 1970: by the wall, unless that was set back.
    pub at_s: f64,
    /// The clocks as they stood.
    #[serde(flatten)]
    pub tick: Tick,
}

/// What the clocks did between two readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Moved {
    /// They agree.
    No,
    /// The wall gained on the running one, s: a closed lid, or a clock that was set forward.
    Forward(f64),
    /// The wall lost, s: it was set back, and the running clock is taken.
    Back(f64),
    /// The program was begun anew; only the wall is left.
    Anew,
}

/// Why a reading cannot be placed in time.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{0}")]
pub struct NoPlace(String);

fn hour(seconds: f64) -> &'static str {
    if (seconds.abs() - 3600.0).abs() < HOUR_WITHIN_S {
        ": an hour, as when summer time begins or ends"
    } else {
        ""
    }
}

impl Moved {
    /// In words, for a reading at a time; `None` where there is nothing to say.
    pub fn words(self, at: &str) -> Option<String> {
        match self {
            Self::No => None,
            Self::Forward(s) => Some(format!(
                "Before the reading at {at} the clock on the wall gained {}{}: a closed lid, or a \
                 clock set forward.",
                span(s),
                hour(s)
            )),
            Self::Back(s) => Some(format!(
                "Before the reading at {at} the clock on the wall was set back {}{}; the time is \
                 the running clock's.",
                span(s),
                hour(s)
            )),
            Self::Anew => Some(format!(
                "The program was begun anew before the reading at {at}; its time is the wall's."
            )),
        }
    }
}

/// What the clocks did from one reading to the next.
pub fn moved(last: &Tick, now: &Tick) -> Moved {
    if last.session.to_bits() != now.session.to_bits() {
        return Moved::Anew;
    }
    let run = now.running_s - last.running_s;
    let gained = now.wall_s - last.wall_s - run;
    let limit = APART_S + APART_SHARE * run.abs();
    if gained > limit {
        Moved::Forward(gained)
    } else if gained < -limit {
        Moved::Back(-gained)
    } else {
        Moved::No
    }
}

/// Places a reading in time after the one before.
///
/// # Equation
/// wall: `t = t0 + (w - w0)`; where the wall was set back in one run of the program:
/// `t = t0 + (r - r0)`
/// # Symbols
/// `t0`, `w0`, `r0` time, wall and running clock of the reading before; `w`, `r` of this one, s.
/// # Range
/// Times that go forward; else refused.
/// # Source
/// `common-practice`: a clock that cannot be set measures what one that can does not.
/// # Example
/// ```
/// use startup::clock::{Moved, Placed, Tick, place};
/// let tick = |wall_s, running_s| Tick { wall_s, running_s, session: 1.0 };
/// let first = place(None, tick(1000.0, 0.0)).unwrap().0;
/// // set back an hour while ten minutes went by
/// let (then, moved) = place(Some(&first), tick(1000.0 - 3600.0 + 600.0, 600.0)).unwrap();
/// assert_eq!(then.at_s, 1600.0);
/// assert_eq!(moved, Moved::Back(3600.0));
/// ```
/// # Errors
/// The wall is earlier than at the reading before and no running clock bridges it, or both
/// readings are of one moment.
pub fn place(last: Option<&Placed>, now: Tick) -> Result<(Placed, Moved), NoPlace> {
    let at = |at_s| Placed { at_s, tick: now };
    let Some(last) = last else {
        return Ok((at(now.wall_s), Moved::No));
    };
    let moved = moved(&last.tick, &now);
    let by_wall = now.wall_s - last.tick.wall_s;
    let by_running = now.running_s - last.tick.running_s;
    let passed = match moved {
        Moved::Back(_) => by_running,
        Moved::No if by_wall <= 0.0 => by_running,
        Moved::No | Moved::Forward(_) | Moved::Anew => by_wall,
    };
    if passed > 0.0 {
        return Ok((at(last.at_s + passed), moved));
    }
    Err(NoPlace(match moved {
        Moved::Anew => format!(
            "the clock on the wall is {}{} earlier than at the last reading, and the program was \
             begun anew: set the clock right first",
            span(by_wall),
            hour(by_wall)
        ),
        _ => "there is a reading of this very moment".to_owned(),
    }))
}

/// Times of readings, and what the clocks did.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Timeline {
    /// The same times with all that may not have passed taken out, s; `None` where the clocks
    /// leave no doubt.
    pub shortest_s: Option<Vec<f64>>,
    /// What to know.
    pub notes: Vec<String>,
}

/// Looks through the readings of a test taken with both clocks. `written` says a time.
pub fn timeline(kept: &[Placed], written: &dyn Fn(f64) -> String) -> Timeline {
    let mut notes = Vec::new();
    let mut short: Vec<f64> = kept.first().map(|k| k.at_s).into_iter().collect();
    let mut doubt = false;
    for pair in kept.windows(2) {
        let [a, b] = pair else { continue };
        let what = moved(&a.tick, &b.tick);
        notes.extend(what.words(&written(b.at_s)));
        let mut passed = b.at_s - a.at_s;
        if let Moved::Forward(s) = what {
            passed = (passed - s).max(1e-3);
            doubt = true;
        }
        short.push(short.last().copied().unwrap_or(a.at_s) + passed);
    }
    Timeline {
        shortest_s: doubt.then_some(short),
        notes,
    }
}

/// Looks through the times of a logger file. `local` when its clock is that of the place, without
/// an offset from UTC; `now_s` the clock of this machine, where the times are of a calendar.
pub fn logged(
    at_s: &[f64],
    local: bool,
    now_s: Option<f64>,
    written: &dyn Fn(f64) -> String,
) -> Timeline {
    let mut notes = Vec::new();
    let mut gaps: Vec<f64> = at_s
        .windows(2)
        .filter_map(|w| match w {
            [a, b] => Some(b - a),
            _ => None,
        })
        .collect();
    let each = gaps.clone();
    gaps.sort_by(f64::total_cmp);
    let middle = gaps.get(gaps.len() / 2).copied().unwrap_or(0.0);
    let mut short: Vec<f64> = at_s.first().copied().into_iter().collect();
    let mut doubt = false;
    for (at, gap) in at_s.iter().zip(&each) {
        let mut passed = *gap;
        let hour_more = (gap - 3600.0 - middle).abs() <= 0.5 * middle;
        if local && each.len() >= 4 && middle <= 1200.0 && hour_more {
            passed -= 3600.0;
            doubt = true;
            notes.push(format!(
                "An hour is missing after {}. If the clocks went forward then, no hour passed: \
                 export the file with its offset from UTC.",
                written(*at)
            ));
        }
        short.push(short.last().copied().unwrap_or(*at) + passed);
    }
    if let (Some(now), Some(last)) = (now_s, at_s.last())
        && last - now > 120.0
    {
        notes.push(format!(
            "The last reading is {} later than this machine's clock: one of the two is wrong; the \
             length of the test does not hang on it.",
            span(last - now)
        ));
    }
    Timeline {
        shortest_s: doubt.then_some(short),
        notes,
    }
}
