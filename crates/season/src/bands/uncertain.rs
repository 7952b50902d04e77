//! What of a job is not known for certain, and how wide it may be.

use heatpump::Sheet;
use house::describe::{Construction, Layer, Setting};
use house::glazing::Glass;
use house::model::{Behind, Model};
use jobfile::{Carrier, Job};
use reckon::Known;

use super::sequence::MOST_DIRECTIONS;
use crate::input::Catalogue;

/// What an uncertain input is.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum What {
    /// Resistance of the layers of a construction.
    Construction(usize),
    /// Conductance of the glass of a glazing.
    Glazing(usize),
    /// Leakage of the house.
    Leakage,
    /// Free heat.
    Gains,
    /// Heating settings as they are kept.
    Settings,
    /// Heat that the contents of rooms store.
    Contents,
    /// Heat through the ground.
    Ground,
    /// What units give.
    Capacity,
    /// What units draw.
    Electricity,
    /// What heaters give for what they burn.
    Heaters,
    /// Price of a carrier.
    Price(Carrier),
}

/// An uncertain input: one time in ten it is below `low`, one time in ten above `high`. A factor on
/// what the job says; for settings a difference in K.
#[derive(Debug, Clone, PartialEq)]
pub struct Uncertain {
    /// What, in words.
    pub name: String,
    /// How it is known.
    pub known: Known,
    /// One time in ten it is below this.
    pub low: f64,
    /// One time in ten it is above this.
    pub high: f64,
    /// Difference in K instead of a factor.
    pub difference: bool,
    pub(crate) what: What,
}

impl Uncertain {
    /// Its value for a normal score: a factor is spread by its logarithm.
    ///
    /// **Equation** f = (l h)^0.5 (h / l)^(z / 2.5631); a difference: (l + h) / 2 + (h - l) z / 2.5631
    ///
    /// **Symbols** l, h: low and high; z: normal score, 1.2816 at nine in ten
    ///
    /// **Range** l and h above 0 for a factor
    ///
    /// **Source** `common-practice`: log-normal for what cannot be below 0
    ///
    /// **Example** 0.8 to 1.25 at z = 0: 1
    pub(crate) fn at(&self, score: f64) -> f64 {
        const NINE_IN_TEN: f64 = 1.281_551_565_544_6;
        let part = score / NINE_IN_TEN;
        if self.difference {
            0.5 * (self.low + self.high) + 0.5 * (self.high - self.low) * part
        } else {
            let (l, h) = (libm::log(self.low), libm::log(self.high));
            libm::exp(0.5 * (l + h) + 0.5 * (h - l) * part)
        }
    }
}

/// Low and high of a factor, symmetrical by its logarithm: `share` up is as likely as as much down.
fn either_way(share: f64) -> (f64, f64) {
    (1.0 / (1.0 + share), 1.0 + share)
}

/// Everything uncertain in a job. All widths are from memory or common practice, none from a
/// source; `docs/decisions` has the table with reasons.
pub(crate) fn uncertain(job: &Job, model: &Model) -> Vec<Uncertain> {
    use Known::{Assumed, Label, Seen};
    let mut all = Vec::new();
    let mut add = |what: What, name: String, known: Known, (low, high): (f64, f64)| {
        all.push(Uncertain {
            name,
            known,
            low,
            high,
            difference: what == What::Settings,
            what,
        });
    };
    let by = |known: Known, widths: [f64; 3]| {
        let [seen, label, assumed] = widths;
        either_way(match known {
            Seen => seen,
            Label => label,
            Assumed => assumed,
        })
    };
    add(
        What::Leakage,
        "leakage of the house".to_owned(),
        model.leak.known,
        by(model.leak.known, [0.15, 0.20, 0.50]),
    );
    let settings = (-0.8, 0.8);
    add(
        What::Settings,
        "temperature people keep".to_owned(),
        Assumed,
        settings,
    );
    add(
        What::Gains,
        "free heat of people and appliances".to_owned(),
        Assumed,
        either_way(0.40),
    );
    // The sheet is a test of one unit at steady state; the field draws more, seldom less.
    add(
        What::Electricity,
        "electricity of the units against their sheets".to_owned(),
        Label,
        (0.95, 1.25),
    );
    add(
        What::Capacity,
        "what the units give against their sheets".to_owned(),
        Label,
        (0.90, 1.03),
    );
    let used = |c: usize| model.surfaces.iter().any(|s| s.construction == c);
    for (i, c) in model
        .constructions
        .iter()
        .enumerate()
        .filter(|(i, _)| used(*i))
    {
        add(
            What::Construction(i),
            format!("resistance of {}", c.name),
            c.known,
            by(c.known, [0.12, 0.12, 0.40]),
        );
    }
    for (i, g) in model.glazings.iter().enumerate() {
        add(
            What::Glazing(i),
            format!("glass of {}", g.name.trim_start_matches("of ")),
            g.known,
            by(g.known, [0.12, 0.08, 0.30]),
        );
    }
    if model
        .surfaces
        .iter()
        .any(|s| matches!(s.behind, Behind::Ground(_)))
    {
        add(
            What::Ground,
            "heat through the ground".to_owned(),
            Assumed,
            either_way(0.40),
        );
    }
    add(
        What::Contents,
        "heat stored in contents".to_owned(),
        Assumed,
        either_way(0.50),
    );
    if let Some(known) = job
        .heaters_beside()
        .chain(&job.existing)
        .map(|h| h.known)
        .max()
    {
        add(
            What::Heaters,
            "efficiency of the heaters".to_owned(),
            known,
            by(known, [0.05, 0.05, 0.10]),
        );
    }
    for (carrier, _) in &job.prices.by_carrier {
        add(
            What::Price(*carrier),
            format!("price of {}", carrier.word()),
            Assumed,
            either_way(0.15),
        );
    }
    all.truncate(MOST_DIRECTIONS);
    all
}

/// A house and its units as they could be.
#[derive(Debug, Clone)]
pub(crate) struct Could {
    pub job: Job,
    pub model: Model,
    pub glasses: Vec<Glass>,
    pub catalogue: Catalogue,
}

impl Could {
    /// Sets an input to its value: a factor, or K for settings.
    pub fn set(&mut self, what: &What, value: f64) {
        match what {
            What::Construction(i) => {
                if let Some(c) = self.model.constructions.get_mut(*i) {
                    resist(c, value);
                }
            }
            What::Glazing(i) => {
                if let Some(glass) = self.glasses.get_mut(*i) {
                    glass.core_w_per_m2k *= value;
                    glass.core_slope *= value;
                }
            }
            What::Leakage => {
                self.model.leak.c_m3_per_s_pa_n *= value;
                for zone in &mut self.model.zones {
                    if zone.heated.is_some() {
                        zone.fixed_air_m3_per_s *= value;
                    }
                }
            }
            What::Gains => {
                for gain in self.model.zones.iter_mut().flat_map(|z| &mut z.gains) {
                    for w in &mut gain.by_hour_w {
                        *w *= value;
                    }
                }
            }
            What::Settings => {
                for zone in &mut self.model.zones {
                    if let Some(heated) = &mut zone.heated {
                        shift(heated, value);
                    }
                }
            }
            What::Contents => {
                for zone in &mut self.model.zones {
                    zone.contents_j_per_k *= value;
                }
            }
            What::Ground => {
                for surface in &mut self.model.surfaces {
                    if let Behind::Ground(ground) = &mut surface.behind {
                        ground.virtual_r_m2k_per_w /= value;
                        ground.u_w_per_m2k *= value;
                        ground.periodic_w_per_m2k *= value;
                    }
                }
            }
            What::Capacity => self.sheets(value, value),
            What::Electricity => self.sheets(1.0, value),
            What::Heaters => {
                let heaters = self.job.existing.iter_mut().chain(&mut self.job.backup);
                for heater in heaters.filter(|h| h.carrier != Carrier::Electricity) {
                    heater.efficiency = (heater.efficiency * value).min(1.0);
                }
            }
            What::Price(carrier) => {
                for (c, price) in &mut self.job.prices.by_carrier {
                    if c == carrier {
                        price.per_j *= value;
                    }
                }
            }
        }
    }

    fn sheets(&mut self, heat: f64, electricity: f64) {
        for sheet in self.catalogue.values_mut() {
            scale(sheet, heat, electricity);
        }
    }
}

fn scale(sheet: &mut Sheet, heat: f64, electricity: f64) {
    for point in sheet.heating.iter_mut().chain(&mut sheet.cooling) {
        let values = [&mut point.min, &mut point.rated, &mut point.max];
        for running in values.into_iter().flatten() {
            running.capacity_w *= heat;
            running.electric_w *= electricity;
        }
    }
}

fn resist(construction: &mut Construction, factor: f64) {
    for layer in &mut construction.layers {
        match layer {
            Layer::Solid { k_w_per_mk, .. } => *k_w_per_mk /= factor,
            Layer::Resistance { r_m2k_per_w, .. } => *r_m2k_per_w *= factor,
            Layer::Framed {
                cavity, framing, ..
            } => {
                cavity[0] /= factor;
                framing[0] /= factor;
            }
        }
    }
}

fn shift(setting: &mut Setting, by_k: f64) {
    for c in setting.by_hour_c.iter_mut().flatten() {
        *c += by_k;
    }
}

#[cfg(test)]
mod tests;
