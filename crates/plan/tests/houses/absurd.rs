//! What counts as absurd. Wide of any honest answer: a line here is a defect, not an opinion.
//!
//! Long because: one list of everything that is asked of a plan.

use climate::Weather;
use plan::{Catalogue, Plan, why};
use season::Year;
use units::Dim;

/// Rounding over 8,760 hours of sums; more is heat made or lost.
const CLOSED: f64 = 1e-6;
/// W/(m2 K) of floor between a house of foam and a shed of one pane.
const LOSS_PER_FLOOR: (f64, f64) = (0.1, 12.0);
/// Share of hours whose iteration may fail to settle.
const UNSETTLED: f64 = 0.01;

pub struct Judge<'a> {
    plan: &'a Plan,
    weather: &'a Weather,
    catalogue: &'a Catalogue,
    said: Vec<String>,
}

/// Everything absurd about a plan; empty where nothing is.
pub fn absurd(plan: &Plan, weather: &Weather, catalogue: &Catalogue) -> Vec<String> {
    let mut judge = Judge {
        plan,
        weather,
        catalogue,
        said: Vec::new(),
    };
    judge.stages();
    judge.figures();
    judge.formulas();
    judge.loads();
    judge.ideal();
    judge.floats();
    if let Some(season) = plan.season.done() {
        for (name, year) in &season.years {
            match year {
                Ok(year) => judge.year(year),
                Err(why) => judge.say(format!("year of {name}: {why}")),
            }
        }
        if let Some(base) = &season.baseline {
            judge.year(base);
        }
    }
    judge.said
}

impl Judge<'_> {
    fn say(&mut self, what: String) {
        self.said.push(what);
    }

    fn hold(&mut self, holds: bool, what: impl FnOnce() -> String) {
        if !holds {
            self.said.push(what());
        }
    }

    /// A whole job gives a whole plan.
    fn stages(&mut self) {
        for wait in self.plan.waits() {
            let line = format!("waits for {} at {}: {}", wait.what, wait.place, wait.how);
            self.said.push(line);
        }
    }

    fn figures(&mut self) {
        for f in self.plan.book.iter() {
            // A trim is signed, and so is the fall of a drain: below zero they are findings.
            let signed = [".trim", ".to-weigh", ".slope"];
            if signed.iter().any(|s| f.key.contains(s)) {
                continue;
            }
            let (low, high) = match f.dim {
                Dim::Temperature => (-90.0, 120.0),
                Dim::Share => (-1e-9, 1.0 + 1e-9),
                // hours of several units added up: a year for each
                Dim::Hours if f.formula == "sum()" => {
                    (0.0, 8784.0 * 3600.0 * f.inputs.len() as f64)
                }
                Dim::Hours => (0.0, 8784.0 * 3600.0),
                Dim::Area
                | Dim::Volume
                | Dim::VolumeFlow
                | Dim::Mass
                | Dim::UValue
                | Dim::RValue
                | Dim::Conductivity
                | Dim::Density
                | Dim::SpecificHeat
                | Dim::Conductance
                | Dim::ElectricEnergy
                | Dim::ElectricPower
                | Dim::Current
                | Dim::Voltage => (0.0, 1e15),
                _ => (-1e15, 1e15),
            };
            if !(f.value >= low && f.value <= high) {
                self.said.push(format!(
                    "figure {} is {} {:?}: {}",
                    f.key, f.value, f.dim, f.formula
                ));
            }
        }
    }

    /// The why of every figure gives the figure.
    fn formulas(&mut self) {
        for f in self.plan.book.iter() {
            let words = ["over the year:", "step by step:"]
                .iter()
                .any(|w| f.formula.starts_with(w));
            if f.formula.is_empty() || words {
                continue;
            }
            let named: Vec<(&str, f64)> = f
                .inputs
                .iter()
                .map(|i| {
                    (
                        i.symbol.as_ref(),
                        self.plan.book.value(&i.key).unwrap_or(f64::NAN),
                    )
                })
                .collect();
            let off = match reckon::evaluate(&f.formula, &named) {
                Ok(got) => (got - f.value).abs() > 1e-9 * f.value.abs().max(1e-12) || got.is_nan(),
                Err(_) => true,
            };
            if off {
                self.said.push(format!(
                    "why of {}: {} does not give {} from {named:?}",
                    f.key, f.formula, f.value
                ));
            }
        }
        for key in ["year.ideal.house.heating", "site.design.heating"] {
            let known = why(self.plan, key).is_ok();
            self.hold(known, || format!("no why of {key}"));
        }
    }

    fn loads(&mut self) {
        let Some(loads) = self.plan.loads.done() else {
            return;
        };
        let h = &loads.heating;
        let floor: f64 = h.rooms.iter().map(|r| r.floor_m2).sum();
        let per_floor = h.loss_w_per_k / floor;
        self.hold(
            per_floor > LOSS_PER_FLOOR.0 && per_floor < LOSS_PER_FLOOR.1,
            || format!("loss {per_floor} W/K for each m2 of floor"),
        );
        let sum: f64 = h.rooms.iter().map(|r| r.heat_w).sum();
        self.hold((sum - h.heat_w).abs() < 1e-6 * sum.abs(), || {
            format!("rooms come to {sum} W, house {}", h.heat_w)
        });
        let warmest = h.rooms.iter().map(|r| r.inside_c).fold(f64::MIN, f64::max);
        for (zone, c) in &h.unheated {
            let ground_c = 15.0_f64;
            let high = warmest.max(ground_c) + 0.5;
            self.hold(*c >= loads.design.outdoor_c - 0.01 && *c <= high, || {
                format!("unheated zone {zone} at {c} C")
            });
        }
        for r in &h.rooms {
            let parts: f64 = r.parts.iter().map(|p| p.heat_w).sum();
            self.hold(
                (parts - r.heat_w).abs() < 1e-6 * parts.abs().max(1.0),
                || format!("parts of {} come to {parts} W, not {}", r.room, r.heat_w),
            );
            let per = r.heat_w / r.floor_m2;
            self.hold(per > -100.0 && per < 600.0, || {
                format!("room {} asks {per} W/m2", r.room)
            });
        }
        self.hold(
            h.leak_m3_per_s >= 0.0 && h.leak_m3_per_s / floor < 0.02,
            || format!("leaks {} m3/s over {floor} m2", h.leak_m3_per_s),
        );
        let c = &loads.cooling;
        self.hold(
            c.sensible_w >= 0.0
                && c.latent_w.unwrap_or(0.0) >= -1e-6
                && c.sensible_w / floor < 400.0,
            || format!("cooling {} W and {:?} W", c.sensible_w, c.latent_w),
        );
        for p in &loads.glass {
            self.hold(format!("{p:?}").find("NaN").is_none(), || format!("{p:?}"));
        }
    }

    fn coldest(&self) -> f64 {
        self.weather
            .dry_bulb_c
            .iter()
            .copied()
            .fold(f64::MAX, f64::min)
    }

    fn ideal(&mut self) {
        let coldest = self.coldest();
        let Some(year) = self.plan.ideal.done() else {
            return;
        };
        let model = self.plan.model.done();
        self.hold(year.closure.abs() < CLOSED, || {
            format!("ideal year does not close: {}", year.closure)
        });
        let sum: f64 = year.rooms.iter().map(|r| r.heating_j).sum();
        self.hold((sum - year.house.heating_j).abs() <= 1e-6 * sum, || {
            format!("rooms need {sum} J, house {}", year.house.heating_j)
        });
        for (i, r) in year.rooms.iter().enumerate() {
            self.hold(r.heating_j >= 0.0 && r.cooling_j >= 0.0, || {
                format!("{} needs {} and {} J", r.name, r.heating_j, r.cooling_j)
            });
            // Roofs under a clear sky go below the air; a room hardly.
            let low = coldest - if r.drawn { 1.0 } else { 8.0 };
            self.hold(
                r.least_c.0 >= low
                    && r.greatest_c.0 < 75.0
                    && r.mean_c >= r.least_c.0 - 1e-9
                    && r.mean_c <= r.greatest_c.0 + 1e-9,
                || {
                    format!(
                        "{}: {} / {} / {} C, outdoors down to {coldest}",
                        r.name, r.least_c.0, r.mean_c, r.greatest_c.0
                    )
                },
            );
            let set = model
                .and_then(|m| m.zones.get(i))
                .and_then(|z| z.heated.as_ref());
            if let Some(set) = set {
                let least = set
                    .by_hour_c
                    .iter()
                    .flatten()
                    .copied()
                    .fold(f64::MAX, f64::min);
                self.hold(r.least_c.0 > least - 0.05, || {
                    format!(
                        "{} is held at {least} C and falls to {} C",
                        r.name, r.least_c.0
                    )
                });
            }
        }
    }

    fn floats(&mut self) {
        let Some(loads) = self.plan.loads.done() else {
            return;
        };
        // ISO 13370 lets the ground behind a floor be colder than a mild day outdoors.
        let ground_c = self
            .plan
            .book
            .iter()
            .filter(|f| f.key.starts_with("ground.") && f.key.ends_with(".coldest"))
            .map(|f| f.value)
            .fold(f64::MAX, f64::min);
        let warmest = loads
            .heating
            .rooms
            .iter()
            .map(|r| r.inside_c)
            .fold(f64::MIN, f64::max);
        for f in &loads.floats {
            let low = f.outdoor_c.min(warmest).min(ground_c) - 0.05;
            self.hold(
                f.air_c >= low && f.air_c <= warmest.max(f.outdoor_c) + 0.5,
                || {
                    format!(
                        "{} floats at {} C, {} outdoors, {:?}",
                        f.room, f.air_c, f.outdoor_c, f.doors
                    )
                },
            );
        }
    }

    fn year(&mut self, y: &Year) {
        let at = &y.choice;
        let coldest = self.coldest();
        self.hold(y.closure.abs() < CLOSED, || {
            format!("{at}: does not close: {}", y.closure)
        });
        let unsettled = y.unsettled_hours as f64 / y.hours as f64;
        self.hold(unsettled <= UNSETTLED, || {
            format!("{at}: {} hours did not settle", y.unsettled_hours)
        });
        let by_heaters: f64 = y.heaters.iter().map(|h| h.heat_j).sum();
        let parts = y.by_heads_j() + by_heaters;
        self.hold((parts - y.heat_j).abs() <= 1e-6 * y.heat_j.max(1.0), || {
            format!(
                "{at}: heads and heaters give {parts} J, house got {}",
                y.heat_j
            )
        });
        if let Some(share) = y.heads_share() {
            self.hold((0.0..=1.0 + 1e-9).contains(&share), || {
                format!("{at}: share of heads {share}")
            });
        }
        for b in &y.bought {
            self.hold(b.energy_j >= 0.0 && b.cost.is_none_or(|c| c >= 0.0), || {
                format!("{at}: bought {b:?}")
            });
        }
        for (name, list) in [
            ("heads", &y.heads_w),
            ("heaters", &y.heaters_w),
            ("electric", &y.electric_w),
        ] {
            let bad = list.iter().position(|w| !(w.is_finite() && *w >= -1e-6));
            self.hold(bad.is_none(), || format!("{at}: {name} in hour {bad:?}"));
        }
        for r in &y.rooms {
            self.hold(
                r.least_c >= coldest - 1.0 && r.greatest_c < 75.0 && r.mean_c.is_finite(),
                || {
                    format!(
                        "{at}: {} {} / {} / {} C",
                        r.name, r.least_c, r.mean_c, r.greatest_c
                    )
                },
            );
            self.hold(
                r.short_2k_h <= r.short_1k_h
                    && r.short_1k_h as usize <= y.hours
                    && r.by_heads_j >= 0.0
                    && r.by_heaters_j >= 0.0,
                || format!("{at}: {} short {} {}", r.name, r.short_1k_h, r.short_2k_h),
            );
        }
        for h in &y.heaters {
            let right = h.heat_j >= 0.0
                && h.peak.w <= h.capacity_w * (1.0 + 1e-9) + 1e-6
                && (h.bought_j * h.efficiency - h.heat_j).abs() <= 1e-6 * h.heat_j.max(1.0)
                && h.hours as usize <= y.hours;
            self.hold(right, || format!("{at}: heater {h:?}"));
        }
        for u in &y.units {
            self.unit(at, y, u);
        }
    }

    fn unit(&mut self, at: &str, y: &Year, u: &season::UnitYear) {
        let hours: u32 = u.hours.iter().sum();
        self.hold(
            hours as usize == y.hours && u.by_hour.len() == y.hours,
            || format!("{at}: {} has {hours} hours", u.name),
        );
        let heat: f64 = u.heat_by_regime_j.iter().sum();
        self.hold(
            (heat - u.heat_j).abs() <= 1e-6 * heat.max(1.0)
                && u.heat_j >= 0.0
                && u.cooling_j >= 0.0,
            || format!("{at}: {} heat {} by regime {heat}", u.name, u.heat_j),
        );
        self.hold(u.apart_j.abs() <= 1e-6 * heat.max(1.0), || {
            format!(
                "{at}: {} table and rooms apart by {} of {heat} J",
                u.name, u.apart_j
            )
        });
        let e = &u.electric;
        let all = [
            e.compressor_j,
            e.defrost_j,
            e.base_pan_j,
            e.standby_j,
            e.cooling_j,
        ];
        self.hold(all.iter().all(|j| *j >= 0.0 && j.is_finite()), || {
            format!("{at}: {} electric {e:?}", u.name)
        });
        // The best of the sheet at any point; mild hours past it may gain a third.
        let best = self.catalogue.get(&u.sheet).map_or(0.0, |s| {
            s.heating
                .iter()
                .flat_map(|p| [p.min, p.rated, p.max])
                .flatten()
                .filter_map(|r| Some(r.cop()).filter(|c| c.is_finite()))
                .fold(0.0, f64::max)
        });
        if let Some(cop) = u.seasonal_cop() {
            self.hold(cop > 0.8 && cop <= best * 1.05, || {
                format!("{at}: {} seasonal COP {cop}, sheet at most {best}", u.name)
            });
        }
        for b in &u.cop_by_bin {
            self.hold(
                b.cop >= 0.0 && b.cop <= best * 1.34 && b.hours as usize <= y.hours,
                || format!("{at}: {} {b:?}, sheet at most {best}", u.name),
            );
        }
        if let Some(g) = u.at_design {
            self.hold(g.min_w >= 0.0 && g.min_w <= g.max_w * (1.0 + 1e-9), || {
                format!("{at}: {} gives {g:?}", u.name)
            });
        }
    }
}
