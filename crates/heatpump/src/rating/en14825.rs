//! SCOP by EN 14825.

/// A heating climate of EN 14825: bins and hours.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnClimate {
    /// Design temperature, C.
    pub design_c: f64,
    /// Coldest bin, C; the next are 1 K warmer each.
    pub first_bin_c: i32,
    /// Hours by bin.
    pub hours: &'static [u16],
    /// Equivalent heating hours, h.
    pub equivalent_h: f64,
}

/// Average climate (design -10 C).
pub const EN_AVERAGE: EnClimate = EnClimate {
    design_c: -10.0,
    first_bin_c: -10,
    hours: &[
        1, 25, 23, 24, 27, 68, 91, 89, 165, 173, 240, 280, 320, 357, 356, 303, 330, 326, 348, 335,
        315, 215, 169, 151, 105, 74,
    ],
    equivalent_h: 2066.0,
};

/// Colder climate (design -22 C).
pub const EN_COLDER: EnClimate = EnClimate {
    design_c: -22.0,
    first_bin_c: -22,
    hours: &[
        1, 6, 13, 17, 19, 26, 39, 41, 35, 52, 37, 41, 43, 54, 90, 125, 169, 195, 278, 306, 454,
        385, 490, 533, 380, 228, 261, 279, 229, 269, 233, 230, 243, 191, 146, 150, 97, 61,
    ],
    equivalent_h: 2465.0,
};

/// One declared point: what the unit gives and its COP there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RatedPoint {
    /// Outdoor temperature, C.
    pub outdoor_c: f64,
    /// Capacity declared, W.
    pub capacity_w: f64,
    /// COP at that capacity.
    pub cop: f64,
}

/// How less than the declared capacity is paid for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Cycling {
    /// Air to air: `1 - Cd (1 - CR)`.
    Cd(f64),
    /// Air to water: `CR / (Cc CR + 1 - Cc)`.
    Cc(f64),
}

/// Hours and powers of the modes without output.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct OffHours {
    /// Thermostat off, h and W.
    pub thermostat_off: (f64, f64),
    /// Standby, h and W.
    pub standby: (f64, f64),
    /// Off, h and W.
    pub off: (f64, f64),
    /// Crankcase heater, h and W.
    pub crankcase: (f64, f64),
}

/// A seasonal COP and what it is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScopResult {
    /// Seasonal COP.
    pub scop: f64,
    /// Active-mode seasonal COP with its own electric backup.
    pub scop_on: f64,
    /// Yearly heat, kWh.
    pub heat_kwh: f64,
    /// Yearly electricity, kWh.
    pub electric_kwh: f64,
}

/// Straight line through the two points around a temperature, carried on past the ends as the
/// standard does.
fn line(points: &[RatedPoint], t: f64) -> Option<(f64, f64)> {
    if points.len() < 2 {
        return None;
    }
    let next = points
        .iter()
        .position(|p| p.outdoor_c >= t)
        .unwrap_or(points.len() - 1)
        .max(1);
    let (a, b) = (points.get(next - 1)?, points.get(next)?);
    let w = (t - a.outdoor_c) / (b.outdoor_c - a.outdoor_c);
    let capacity_w = a.capacity_w + w * (b.capacity_w - a.capacity_w);
    let cop = a.cop + w * (b.cop - a.cop);
    (capacity_w > 0.0 && cop > 0.0).then_some((capacity_w, cop))
}

/// Active-mode seasonal COP with electric backup below capacity (SCOPon) of an air-to-water unit.
///
/// # Equation
/// `Ph(t) = Pdesign (t - 16) / (tdesign - 16)`; `elbu = max(0, Ph - P(t))`;
/// at each declared point `CR = min(1, Ph / P)` and `COPbin = COP CR / (Cc CR + 1 - Cc)`; between
/// and beyond the points `P` and `COPbin` in straight lines over outdoor temperature;
/// `SCOPon = sum(h Ph) / sum(h ((Ph - elbu) / COPbin + elbu))`
/// # Symbols
/// `h` hours of the bin; `Pdesign` design load, W; `P`, `COP` declared capacity, W, and COP;
/// `elbu` electric backup, W; `Cc` degradation coefficient, 1 (0.9 by default).
/// # Range
/// At least two points, rising in temperature, positive capacity and COP in every bin;
/// `0 <= Cc <= 1`; else `None`.
/// # Source
/// `en-14825` clause 7 and annex H, second hand.
/// # Departures
/// Annex H prints 3.61 for its example; its own numbers recompute to 3.598.
/// # Example
/// Annex H, fixed capacity, average climate:
/// ```
/// use heatpump::{EN_AVERAGE, RatedPoint, scop_on};
/// let points = [(-10.0, 7.8, 2.6), (-7.0, 9.55, 3.26), (-6.0, 9.7, 3.3), (2.0, 11.17, 4.0),
///     (7.0, 12.66, 4.91), (12.0, 14.3, 5.5)]
///     .map(|(outdoor_c, kw, cop)| RatedPoint { outdoor_c, capacity_w: kw * 1000.0, cop });
/// let got = scop_on(&EN_AVERAGE, 11_460.0, &points, 0.9).unwrap();
/// assert!((got - 3.598).abs() < 0.0005);
/// ```
pub fn scop_on(
    climate: &EnClimate,
    design_load_w: f64,
    points: &[RatedPoint],
    cc: f64,
) -> Option<f64> {
    season(climate, design_load_w, points, Cycling::Cc(cc)).map(|(heat, electric)| heat / electric)
}

fn season(
    climate: &EnClimate,
    design_load_w: f64,
    points: &[RatedPoint],
    cycling: Cycling,
) -> Option<(f64, f64)> {
    let mut heat_wh = 0.0;
    let mut electric_wh = 0.0;
    let ordered = points
        .windows(2)
        .all(|w| matches!(w, [a, b] if a.outdoor_c < b.outdoor_c));
    let usable = match cycling {
        Cycling::Cc(c) | Cycling::Cd(c) => (0.0..=1.0).contains(&c),
    };
    if !ordered || !usable || design_load_w <= 0.0 || !design_load_w.is_finite() {
        return None;
    }
    let need_at = |t: f64| design_load_w * (t - 16.0) / (climate.design_c - 16.0);
    let at_load: Vec<RatedPoint> = points
        .iter()
        .map(|p| {
            let cr = (need_at(p.outdoor_c) / p.capacity_w).min(1.0);
            let factor = match cycling {
                Cycling::Cc(cc) => cr / (cc * cr + 1.0 - cc),
                Cycling::Cd(cd) => 1.0 - cd * (1.0 - cr),
            };
            RatedPoint {
                cop: p.cop * factor,
                ..*p
            }
        })
        .collect();
    for (i, hours) in climate.hours.iter().enumerate() {
        let t = f64::from(climate.first_bin_c) + i as f64;
        let need_w = need_at(t);
        if need_w <= 0.0 {
            continue;
        }
        let (capacity_w, cop) = line(&at_load, t)?;
        let backup_w = (need_w - capacity_w).max(0.0);
        let h = f64::from(*hours);
        heat_wh += h * need_w;
        electric_wh += h * ((need_w - backup_w) / cop + backup_w);
    }
    (electric_wh > 0.0).then_some((heat_wh, electric_wh))
}

/// Seasonal COP of an air-to-air unit, with the modes without output.
///
/// # Equation
/// `SCOP = Qh / (Qh / SCOPon + sum(hours power))`, `Qh = Pdesign He`;
/// at a declared point `COPbin = COP (1 - Cd (1 - CR))`.
/// # Symbols
/// `Pdesign` design load, W; `He` equivalent heating hours, h; `Cd` cycling coefficient, 1
/// (0.25 by default); the rest as [`scop_on`]. Declared capacities of a modulating unit are those
/// at part load, so `CR` is 1 wherever it can turn down to the load.
/// # Range
/// As [`scop_on`]; `None` outside.
/// # Source
/// `en-14825` clauses 6 and 7, second hand; the hours of the modes are the caller's.
/// # Example
/// ```
/// use heatpump::{EN_AVERAGE, OffHours, RatedPoint, scop};
/// let points = [(-10.0, 3.0, 2.0), (12.0, 1.0, 2.0)]
///     .map(|(outdoor_c, kw, cop)| RatedPoint { outdoor_c, capacity_w: kw * 1000.0, cop });
/// // the same COP everywhere and no cycling loss: the seasonal COP is that COP
/// let got = scop(&EN_AVERAGE, 3_000.0, &points, 0.0, OffHours::default()).unwrap();
/// assert!((got.scop - 2.0).abs() < 1e-12);
/// ```
pub fn scop(
    climate: &EnClimate,
    design_load_w: f64,
    points: &[RatedPoint],
    cd: f64,
    off: OffHours,
) -> Option<ScopResult> {
    let (heat, electric) = season(climate, design_load_w, points, Cycling::Cd(cd))?;
    let scop_on = heat / electric;
    let heat_kwh = design_load_w * climate.equivalent_h / 1000.0;
    let modes = [off.thermostat_off, off.standby, off.off, off.crankcase];
    let idle_kwh: f64 = modes.iter().map(|(h, w)| h * w / 1000.0).sum();
    let electric_kwh = heat_kwh / scop_on + idle_kwh;
    Some(ScopResult {
        scop: heat_kwh / electric_kwh,
        scop_on,
        heat_kwh,
        electric_kwh,
    })
}
