//! A system tabled over outdoor temperature, so that a year of hours costs next to nothing.

use serde::Serialize;

use crate::cannot_tell::{CannotTell, Reason};
use crate::capability::{Capability, Conditions, Duty, Ready};
use crate::part_load::{DEFAULT_CD, cycling_w, modulating_w};
use crate::system::System;

/// Step of the table, K: whole degrees of both scales fall on it (1 F is five steps).
const STEP_K: f64 = 1.0 / 9.0;

/// How the outdoor unit works in an hour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mode {
    /// Nothing asked.
    Off,
    /// Less asked than the least it gives: on and off.
    Cycling,
    /// Between least and most.
    Modulating,
    /// As much asked as it gives, or more.
    Full,
    /// Outside its operating limits: gives nothing, and that is known.
    CutOut,
    /// Beyond its published points: what it gives is not known; counted as nothing.
    CannotTell,
}

/// What the outdoor unit does in an hour.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Operating {
    /// How.
    pub mode: Mode,
    /// Heat (or cold) given, mean over the hour, W.
    pub delivered_w: f64,
    /// Electricity taken, mean over the hour, W, with base-pan heater and waiting.
    pub electric_w: f64,
    /// Share of the hour the compressor runs, 0 to 1.
    pub on_fraction: f64,
    /// Part of the electricity that makes up for frost, W.
    pub frost_electric_w: f64,
}

/// Least and most at one outdoor temperature, W.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Range {
    /// Least while running, one head calling, W.
    pub min_w: f64,
    /// Most, W.
    pub max_w: f64,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Row {
    nodes: [(f64, f64); 3],
    waiting_w: f64,
    frost_share: f64,
}

/// Limits of one head, W.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct HeadLimits {
    /// Least when open, W; zero where the sheet does not say.
    pub min_w: f64,
    /// Most, W; infinite where the sheet does not say.
    pub max_w: f64,
}

/// A system tabled for one duty, indoor temperature and air pressure.
#[derive(Debug, Clone, PartialEq)]
pub struct Performance {
    duty: Duty,
    cold_c: f64,
    warm_c: f64,
    cut_below_c: f64,
    cut_above_c: f64,
    cd: f64,
    rows: Vec<Row>,
    /// Waiting power below and above the table, W.
    waiting_w: (f64, f64),
    heads: Vec<HeadLimits>,
    /// Least with one head calling over least with all calling.
    one_head: f64,
    sensible_share: Vec<Option<f64>>,
}

/// Between the two rows around a temperature.
#[inline]
fn between(a: &Row, b: &Row, w: f64) -> Row {
    let mix = |x: f64, y: f64| x + w * (y - x);
    let pair = |(q, e): (f64, f64), (r, f): (f64, f64)| (mix(q, r), mix(e, f));
    let [a0, a1, a2] = a.nodes;
    let [b0, b1, b2] = b.nodes;
    Row {
        nodes: [pair(a0, b0), pair(a1, b1), pair(a2, b2)],
        waiting_w: mix(a.waiting_w, b.waiting_w),
        frost_share: mix(a.frost_share, b.frost_share),
    }
}

impl Performance {
    /// Tables a system. Humidity of `conditions` stands for every hour.
    ///
    /// # Errors
    /// The sheets cannot tell at any temperature: see [`CannotTell`].
    pub fn new(system: &System, duty: Duty, conditions: Conditions) -> Result<Self, CannotTell> {
        let ready = Ready::new(system, duty, conditions)?;
        let sheet = &system.outdoor.sheet;
        let (cold_c, warm_c) = ready.span_c();
        if cold_c.partial_cmp(&warm_c) != Some(std::cmp::Ordering::Less) {
            let reason = Reason::CutOut {
                outdoor_c: cold_c,
                limit_c: warm_c,
            };
            return Err(CannotTell::new(reason, sheet, duty));
        }
        let steps = ((warm_c - cold_c) / STEP_K).ceil() as usize;
        let mut rows = Vec::with_capacity(steps + 1);
        let mut sensible_share = Vec::with_capacity(steps + 1);
        let mut cd = DEFAULT_CD;
        for i in 0..=steps {
            let c: Capability = ready.at((cold_c + i as f64 * STEP_K).min(warm_c))?;
            let pair = |r: crate::sheet::Running| (r.capacity_w, r.electric_w);
            cd = c.cd;
            rows.push(Row {
                nodes: [pair(c.min), pair(c.middle), pair(c.max)],
                waiting_w: c.waiting_w,
                frost_share: c.frost_share,
            });
            sensible_share.push(c.sensible_share);
        }
        let heads = system
            .heads
            .iter()
            .map(|h| {
                let (min, max) = match duty {
                    Duty::Heating => (h.data.heating_min_w, h.data.heating_max_w),
                    Duty::Cooling => (h.data.cooling_min_w, h.data.cooling_max_w),
                };
                // One head on its own outdoor unit: the outdoor sheet was tested with it.
                if system.outdoor.several {
                    HeadLimits {
                        min_w: min.unwrap_or(0.0),
                        max_w: max.unwrap_or(f64::INFINITY),
                    }
                } else {
                    HeadLimits {
                        min_w: 0.0,
                        max_w: f64::INFINITY,
                    }
                }
            })
            .collect();
        let limits = &sheet.limits;
        let (cut_below_c, cut_above_c) = match duty {
            Duty::Heating => (limits.heating_cut_out_c, Some(warm_c)),
            Duty::Cooling => (Some(cold_c), limits.cooling_highest_c),
        };
        Ok(Self {
            duty,
            cold_c,
            warm_c,
            cut_below_c: cut_below_c.unwrap_or(f64::NEG_INFINITY),
            cut_above_c: cut_above_c.unwrap_or(f64::INFINITY),
            cd,
            waiting_w: (ready.waiting_w(cold_c - 1.0), ready.waiting_w(warm_c + 1.0)),
            heads,
            one_head: one_head(system, duty),
            rows,
            sensible_share,
        })
    }

    /// Heating or cooling.
    pub fn duty(&self) -> Duty {
        self.duty
    }

    /// Coldest and warmest outdoor temperature with an answer, C.
    pub fn span_c(&self) -> (f64, f64) {
        (self.cold_c, self.warm_c)
    }

    /// Limits of the heads, in the order of the system.
    pub fn heads(&self) -> &[HeadLimits] {
        &self.heads
    }

    /// Row at a temperature, or how the unit stands outside the table.
    #[inline]
    fn row(&self, outdoor_c: f64) -> Result<Row, Mode> {
        if outdoor_c >= self.cold_c && outdoor_c <= self.warm_c {
            let x = (outdoor_c - self.cold_c) * (1.0 / STEP_K);
            let i = x as usize;
            let a = self.rows.get(i).ok_or(Mode::CannotTell)?;
            return Ok(match self.rows.get(i + 1) {
                Some(b) => between(a, b, x - i as f64),
                None => *a,
            });
        }
        let cut = outdoor_c < self.cut_below_c || outdoor_c > self.cut_above_c;
        Err(if cut { Mode::CutOut } else { Mode::CannotTell })
    }

    fn resting(&self, outdoor_c: f64, mode: Mode) -> Operating {
        let (below, above) = self.waiting_w;
        let electric_w = if outdoor_c > self.warm_c {
            above
        } else {
            below
        };
        Operating {
            mode,
            delivered_w: 0.0,
            electric_w,
            on_fraction: 0.0,
            frost_electric_w: 0.0,
        }
    }

    /// Least (one head calling) and most at an outdoor temperature; `None` outside the table.
    pub fn range(&self, outdoor_c: f64) -> Option<Range> {
        let row = self.row(outdoor_c).ok()?;
        let [min, _, max] = row.nodes;
        Some(Range {
            min_w: (min.0 * self.one_head).min(max.0),
            max_w: max.0,
        })
    }

    /// Sensible share of cooling at an outdoor temperature, 0 to 1, where the sheet gives it.
    pub fn sensible_share(&self, outdoor_c: f64) -> Option<f64> {
        let x = (outdoor_c - self.cold_c) / STEP_K;
        if !(x >= 0.0 && outdoor_c <= self.warm_c) {
            return None;
        }
        self.sensible_share
            .get(x.round() as usize)
            .copied()
            .flatten()
    }

    /// What the outdoor unit does in an hour when all heads together ask `need_w`.
    ///
    /// Outside the table it gives nothing and the mode says whether that is known
    /// ([`Mode::CutOut`]) or not ([`Mode::CannotTell`]). A need that is not a number is
    /// [`Mode::CannotTell`].
    #[inline]
    pub fn operate(&self, outdoor_c: f64, need_w: f64) -> Operating {
        self.run(outdoor_c, need_w, 1.0, 0.0)
    }

    #[inline]
    fn run(&self, outdoor_c: f64, need_w: f64, min_factor: f64, heads_min_w: f64) -> Operating {
        let row = match self.row(outdoor_c) {
            Ok(row) => row,
            Err(mode) => return self.resting(outdoor_c, mode),
        };
        if need_w.is_nan() || need_w <= 0.0 {
            let mode = if need_w.is_nan() {
                Mode::CannotTell
            } else {
                Mode::Off
            };
            return Operating {
                mode,
                delivered_w: 0.0,
                electric_w: row.waiting_w,
                on_fraction: 0.0,
                frost_electric_w: 0.0,
            };
        }
        let [(q0, e0), middle, (q2, e2)] = row.nodes;
        // The least of the outdoor unit is scaled along its own COP for fewer heads calling.
        let (floor_w, floor_electric_w) = (q0 * min_factor, e0 * min_factor);
        let nodes = [(floor_w, floor_electric_w), middle, (q2, e2)];
        let mut least = (floor_w, floor_electric_w);
        if heads_min_w > floor_w && heads_min_w < q2 {
            least = (heads_min_w, modulating_w(heads_min_w, nodes));
        }
        if need_w >= q2 {
            return Operating {
                mode: Mode::Full,
                delivered_w: q2,
                electric_w: e2,
                on_fraction: 1.0,
                frost_electric_w: e2 * row.frost_share,
            };
        }
        if need_w >= least.0 {
            let electric_w = modulating_w(need_w, nodes);
            return Operating {
                mode: Mode::Modulating,
                delivered_w: need_w,
                electric_w,
                on_fraction: 1.0,
                frost_electric_w: electric_w * row.frost_share,
            };
        }
        let on_fraction = need_w / least.0;
        let electric_w = cycling_w(need_w, least.0, least.1, self.cd, row.waiting_w);
        Operating {
            mode: Mode::Cycling,
            delivered_w: need_w,
            electric_w,
            on_fraction,
            frost_electric_w: electric_w * row.frost_share,
        }
    }

    /// Shares the outdoor unit among its heads.
    ///
    /// Each head takes at most its own maximum. If together they take more than the outdoor unit
    /// gives, all are cut in the same proportion. The least is the outdoor unit's for the number
    /// of heads calling, or the sum of the least of the calling heads if that is more: below it
    /// the outdoor unit cycles. Calling heads are taken to call at the same time.
    ///
    /// Writes what each head gives into `delivered_w`. If the two slices do not have one place for
    /// each head the mode is [`Mode::CannotTell`] and nothing is written but zeros.
    pub fn share(&self, outdoor_c: f64, need_w: &[f64], delivered_w: &mut [f64]) -> Operating {
        delivered_w.fill(0.0);
        if need_w.len() != self.heads.len()
            || delivered_w.len() != self.heads.len()
            || need_w.iter().any(|n| n.is_nan())
        {
            return self.resting(outdoor_c, Mode::CannotTell);
        }
        let mut asked_w = 0.0;
        let mut heads_min_w = 0.0;
        let mut calling = 0_u32;
        for ((need, head), out) in need_w.iter().zip(&self.heads).zip(delivered_w.iter_mut()) {
            if *need > 0.0 {
                *out = need.min(head.max_w);
                asked_w += *out;
                heads_min_w += head.min_w;
                calling += 1;
            }
        }
        let others = self.heads.len().saturating_sub(1);
        let share = if others == 0 || calling <= 1 {
            if calling <= 1 && others > 0 { 0.0 } else { 1.0 }
        } else {
            f64::from(calling - 1) / others as f64
        };
        let min_factor = self.one_head + share * (1.0 - self.one_head);
        let all = self.run(outdoor_c, asked_w, min_factor, heads_min_w);
        let cut = if asked_w > 0.0 {
            all.delivered_w / asked_w
        } else {
            0.0
        };
        for out in delivered_w.iter_mut() {
            *out *= cut;
        }
        all
    }
}

/// Least with one head calling over the least of the test points, at the mildest point. One where
/// the sheet does not say, or where only one head is connected and the sheet has no such value.
fn one_head(system: &System, duty: Duty) -> f64 {
    let sheet = &system.outdoor.sheet;
    let Some(multi) = sheet.multi.as_ref() else {
        return 1.0;
    };
    let (one, points) = match duty {
        Duty::Heating => (multi.heating_min_one_w, &sheet.heating),
        Duty::Cooling => (multi.cooling_min_one_w, &sheet.cooling),
    };
    let rating_c = if duty == Duty::Heating {
        15.0 / 1.8
    } else {
        35.0
    };
    let at_rating = points
        .iter()
        .filter_map(|p| Some((p.outdoor_c, p.min?.capacity_w)))
        .min_by(|a, b| (a.0 - rating_c).abs().total_cmp(&(b.0 - rating_c).abs()));
    match (one, at_rating) {
        (Some(one), Some((_, all))) if one > 0.0 && all > 0.0 => (one / all).min(1.0),
        _ => 1.0,
    }
}
