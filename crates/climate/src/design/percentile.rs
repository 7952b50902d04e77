//! Percentiles of the hours.

use crate::{DesignKind, HeaderValue, Weather};

/// One design temperature, both ways. **Percentiles of a typical year are not design
/// temperatures**: a typical year is made of average months. Show both; use the header's or a
/// value typed from the code.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DesignTemperature {
    /// Which.
    pub kind: DesignKind,
    /// From the hours of the file, C.
    pub own_c: f64,
    /// As the header prints it.
    pub header: Option<HeaderValue>,
}

impl DesignTemperature {
    /// The header's value, else that of the hours, C.
    pub fn preferred_c(&self) -> f64 {
        self.header.map_or(self.own_c, |h| h.dry_bulb_c)
    }

    /// Hours less header, K; none without a header.
    pub fn apart_k(&self) -> Option<f64> {
        self.header.map(|h| self.own_c - h.dry_bulb_c)
    }
}

/// All five, cold to mild, the header's beside.
pub fn design_temperatures(weather: &Weather) -> Vec<DesignTemperature> {
    let mut hours = weather.dry_bulb_c.clone();
    let of = |kind| {
        let own_c = of_hours(&mut hours, kind)?;
        let header = weather.header_design.as_ref().and_then(|h| h.get(kind));
        Some(DesignTemperature {
            kind,
            own_c,
            header,
        })
    };
    DesignKind::ALL.into_iter().filter_map(of).collect()
}

/// Design temperature from the hours.
///
/// **Equation** the value of rank n p, rounded, of the sorted hours, counted from 0 at the coldest
/// for heating and from the warmest for cooling
///
/// **Symbols**
/// - n: hours of the year; p: share of hours beyond: 0.004, 0.01, 0.02
///
/// **Range** any whole year; none for an empty one
///
/// **Source** `common-practice`: order statistic, rank 35 for 99.6 % and 88 for 99 % of 8760
/// hours, counted from 0
///
/// **Example** 8760 hours from 0 up by 0.001: 99.6 % heating 0.035
pub fn percentile_c(weather: &Weather, kind: DesignKind) -> Option<f64> {
    of_hours(&mut weather.dry_bulb_c.clone(), kind)
}

/// The same from hours in any order; they are put partly in order, which makes the next call
/// quick.
fn of_hours(hours: &mut [f64], kind: DesignKind) -> Option<f64> {
    let (per_mille, from_warm) = match kind {
        DesignKind::Heating996 => (4, false),
        DesignKind::Heating99 => (10, false),
        DesignKind::Cooling04 => (4, true),
        DesignKind::Cooling1 => (10, true),
        DesignKind::Cooling2 => (20, true),
    };
    let rank = (hours.len() * per_mille + 500) / 1000;
    let rank = if from_warm {
        hours.len().checked_sub(1 + rank)?
    } else {
        rank
    };
    if rank >= hours.len() {
        return None;
    }
    let (_, value, _) = hours.select_nth_unstable_by(rank, f64::total_cmp);
    Some(*value)
}
