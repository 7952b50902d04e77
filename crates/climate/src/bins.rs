//! Hours of the year by outdoor temperature.

use crate::Weather;
use physics::OutOfRange;
use physics::moist_air::MoistAir;

/// Hours within a span of outdoor temperature, and what the air was like in them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bin {
    /// Lower end, C; it belongs to the bin, the upper end does not.
    pub low_c: f64,
    /// Upper end, C.
    pub high_c: f64,
    /// Hours of the year.
    pub hours: u32,
    /// Mean dry bulb of these hours, C.
    pub mean_c: f64,
    /// Mean relative humidity of these hours, 0 to 1.
    pub mean_rel_humidity: f64,
    /// Mean water per dry air of these hours, kg/kg; the file's relative humidity read over ice
    /// below 0 C.
    pub mean_humidity_ratio: f64,
    /// Mean wet bulb of these hours, C.
    pub mean_wet_bulb_c: f64,
}

/// Bins of 2 C, on even degrees.
///
/// # Errors
/// Air outside the range of the moist-air functions; not for a [`Weather`] that was read.
pub fn bins_2_c(weather: &Weather) -> Result<Vec<Bin>, OutOfRange> {
    bins(weather, |t| t, |t| t, 2.0)
}

/// Bins of 5 F, on multiples of 5 F.
///
/// # Errors
/// As [`bins_2_c`].
pub fn bins_5_f(weather: &Weather) -> Result<Vec<Bin>, OutOfRange> {
    bins(weather, fahrenheit, celsius, WIDTH_F)
}

/// The lower end of each bin of [`bins_5_f`], C, and its hours, without looking at the water in
/// the air: the wet bulb takes nearly all the time of [`bins_5_f`].
pub fn hours_5_f(weather: &Weather) -> Vec<(f64, u32)> {
    let mut found = std::collections::BTreeMap::<i32, u32>::new();
    for t in &weather.dry_bulb_c {
        *found.entry(place(fahrenheit(*t), WIDTH_F)).or_default() += 1;
    }
    found
        .into_iter()
        .map(|(k, hours)| (celsius(f64::from(k) * WIDTH_F), hours))
        .collect()
}

/// Width of the bins in F.
const WIDTH_F: f64 = 5.0;

fn fahrenheit(c: f64) -> f64 {
    c * 1.8 + 32.0
}

fn celsius(f: f64) -> f64 {
    (f - 32.0) / 1.8
}

/// Which bin. A reading like 5.0 C is 41.00000000000001 F; a billionth keeps it in its bin.
fn place(t: f64, width: f64) -> i32 {
    libm::floor((t + 1e-9) / width) as i32
}

/// Bins from the coldest to the warmest hour, empty ones left out.
///
/// **Equation** bin k holds the hours with k w <= t < (k + 1) w
///
/// **Symbols**
/// - t: dry bulb in the scale of the bins; w: width
///
/// **Range** any year
///
/// **Source** `common-practice`
///
/// **Example** -0.1 C falls into -2 to 0 C, 0 C into 0 to 2 C
fn bins(
    weather: &Weather,
    to_scale: impl Fn(f64) -> f64,
    from_scale: impl Fn(f64) -> f64,
    width: f64,
) -> Result<Vec<Bin>, OutOfRange> {
    let mut found = std::collections::BTreeMap::<i32, Bin>::new();
    let columns = weather
        .dry_bulb_c
        .iter()
        .zip(&weather.rel_humidity)
        .zip(&weather.pressure_pa);
    for ((&t, &phi), &p) in columns {
        // Files print up to 110 %: fog, which is saturated air to us.
        let air = MoistAir::from_relative_humidity(t, phi.min(1.0), p)?;
        let k = place(to_scale(t), width);
        let bin = found.entry(k).or_insert_with(|| Bin {
            low_c: from_scale(f64::from(k) * width),
            high_c: from_scale(f64::from(k + 1) * width),
            hours: 0,
            mean_c: 0.0,
            mean_rel_humidity: 0.0,
            mean_humidity_ratio: 0.0,
            mean_wet_bulb_c: 0.0,
        });
        bin.hours += 1;
        bin.mean_c += t;
        bin.mean_rel_humidity += phi;
        bin.mean_humidity_ratio += air.humidity_ratio();
        bin.mean_wet_bulb_c += air.wet_bulb_c()?;
    }
    Ok(found
        .into_values()
        .map(|b| {
            let n = f64::from(b.hours);
            Bin {
                mean_c: b.mean_c / n,
                mean_rel_humidity: b.mean_rel_humidity / n,
                mean_humidity_ratio: b.mean_humidity_ratio / n,
                mean_wet_bulb_c: b.mean_wet_bulb_c / n,
                ..b
            }
        })
        .collect())
}
