//! Settings of every zone through the day.

use house::describe::Setting;
use house::model::Model;

/// Heating and cooling setting of each zone in each hour of the day, at its end; C.
#[derive(Debug, Clone)]
pub(crate) struct Schedule {
    zones: usize,
    heat_c: Vec<f64>,
    cool_c: Vec<f64>,
}

impl Schedule {
    pub fn new(model: &Model) -> Self {
        let zones = model.zones.len();
        let at = |set: &Option<Setting>, hour: usize| set.as_ref().and_then(|s| s.at(hour, 1.0));
        let mut heat_c = Vec::with_capacity(24 * zones);
        let mut cool_c = Vec::with_capacity(24 * zones);
        for hour in 0..24 {
            for zone in &model.zones {
                heat_c.push(at(&zone.heated, hour).unwrap_or(f64::NEG_INFINITY));
                cool_c.push(at(&zone.cooled, hour).unwrap_or(f64::INFINITY));
            }
        }
        Self {
            zones,
            heat_c,
            cool_c,
        }
    }

    /// Heating settings of an hour of the day, C; `-inf` where off.
    #[inline]
    pub fn heat_c(&self, hour: usize) -> &[f64] {
        let first = hour % 24 * self.zones;
        &self.heat_c[first..first + self.zones]
    }

    /// Cooling settings of an hour of the day, C; `inf` where off.
    #[inline]
    pub fn cool_c(&self, hour: usize) -> &[f64] {
        let first = hour % 24 * self.zones;
        &self.cool_c[first..first + self.zones]
    }

    /// Mean heating setting of some zones over the hours it is on, C.
    pub fn mean_heat_c(&self, of: &[usize]) -> Option<f64> {
        mean(&self.heat_c, self.zones, of)
    }

    /// Mean cooling setting of some zones over the hours it is on, C.
    pub fn mean_cool_c(&self, of: &[usize]) -> Option<f64> {
        mean(&self.cool_c, self.zones, of)
    }
}

fn mean(all: &[f64], zones: usize, of: &[usize]) -> Option<f64> {
    let (mut sum, mut n) = (0.0, 0.0);
    for row in all.chunks(zones.max(1)) {
        for z in of {
            if let Some(c) = row.get(*z).filter(|c| c.is_finite()) {
                sum += c;
                n += 1.0;
            }
        }
    }
    (n > 0.0).then(|| sum / n)
}
