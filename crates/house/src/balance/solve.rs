//! Solving one step.

use super::arithmetic::{Arithmetic, Task, run};
use super::eight::{clear, copy, most_of};
use super::openings::beyond_constant_w;
use super::pace::Pace;
use super::thermostats::Thermostats;
use super::work::{inside_c, take_air};
use super::{AIR_SETTLED_W, Balance, MOST_ITERATIONS, SETTLED_W, Supply};

impl Balance<'_> {
    /// Solves step `h` of the drive with this supply. Nothing moves on until [`Balance::accept`].
    pub fn step(&mut self, h: usize, supply: &[Supply]) -> Outcome<'_> {
        let task = Solving {
            balance: self,
            step: h,
            supply,
        };
        run(task.balance.processor, task);
        Outcome {
            heat_w: self.thermostats.heat_w(),
            air_c: self.thermostats.air_c(),
            stats: &self.thermostats,
        }
    }

    /// [`Balance::step`] with the arithmetic of whoever calls it.
    #[inline(always)]
    fn step_here<S: Arithmetic>(&mut self, s: S, h: usize, supply: &[Supply]) {
        self.prepare(s, h);
        self.thermostats.offer(supply);
        let mut settled = false;
        let mut pace = Pace::new();
        let octs = self.network.zone_octs();
        for _ in 0..MOST_ITERATIONS {
            self.iterations += 1;
            let air_settled = match octs {
                1 => self.once::<S, 1>(s, h, supply),
                2 => self.once::<S, 2>(s, h, supply),
                3 => self.once::<S, 3>(s, h, supply),
                4 => self.once::<S, 4>(s, h, supply),
                _ => self.once::<S, 0>(s, h, supply),
            };
            let (n, w) = (&self.network, &mut self.work);
            let moved = w.hours.answers(s, n, &w.air, &w.star);
            if moved < SETTLED_W {
                settled = air_settled;
                break;
            }
            pace.take(moved);
            w.hours.take_films(s, pace.step);
        }
        if !settled {
            self.unsettled_steps += 1;
        }
    }

    /// What does not change while the step is iterated.
    #[inline(always)]
    fn prepare<S: Arithmetic>(&mut self, s: S, h: usize) {
        let (n, d, w) = (&self.network, self.drive, &mut self.work);
        let of_day = usize::from(d.hour_of_day[h]) % 24;
        self.outside.weather(d, h);
        self.outside.drive_faces(s, &n.outer_bank, &mut w.hours);
        n.drive_partitions(&mut w.hours);
        clear(&mut w.beam);
        clear(&mut w.diffuse);
        let (beam, diffuse) = (w.beam.as_flattened_mut(), w.diffuse.as_flattened_mut());
        let outdoor = d.outdoor_c[h];
        let first = h * d.apertures;
        let given = w.hours.given.as_flattened_mut();
        let slack = w.hours.slack.as_flattened_mut();
        for x in &n.windows {
            let (a, f) = (first + x.aperture, x.face);
            let (film, felt) = self.outside.at(x.outside);
            let area = n.area[f];
            let core = (x.core[0] + x.core[1] * (0.5 * (outdoor + 20.0) - 10.0)).max(0.1);
            let den = 1.0 / (film + core);
            let out = film * felt + d.outer_w_per_m2[a];
            given[f] = core * den * out + d.inner_w_per_m2[a];
            slack[f] = n.y[f] - core * film * den;
            beam[x.zone] += d.beam_w_per_m2[a] * area;
            diffuse[x.zone] += d.diffuse_w_per_m2[a] * area;
        }
        let radiant = &self.gains_radiant[of_day];
        w.hours.begin(s, n, &w.beam, &w.diffuse, radiant);
        // The air through the leaks is guessed with the wind of this hour and the rooms of the last.
        let inside = inside_c(s, &w.zones, &self.air_then);
        let wind = self.leakage.wind_w_per_k(d.wind_m_per_s[h]);
        let (stack, by_wind) = self.leakage.whole_w_per_k(inside - outdoor, wind);
        let outdoor = s.all(outdoor);
        let zones = w.base.iter_mut().zip(&mut w.zones).zip(&w.owed);
        let to_out = self.outdoor[self.of_hour[of_day]].iter();
        let given = to_out.zip(&self.gains_air[of_day]).zip(&self.air_then);
        for (((base, z), owed), ((to_out, gains), air)) in zones.zip(given) {
            let air = s.take(air);
            let leak = s.take(&z.stack_share) * stack + s.take(&z.wind_share) * by_wind;
            z.lag_leak = ((leak - s.take(&z.leak_nominal)) * (outdoor - air)).put();
            let kept = s.take(&z.capacity) * air + s.take(gains);
            *base = (kept + s.take(to_out) * outdoor - s.take(owed)).put();
        }
    }

    /// One solution with the films as they are. Air through leaks and doors ties only zones, so it
    /// is iterated on the small matrix alone; false if that did not settle. For houses of up to
    /// sixteen zones the number of their octs, `B`, is known beforehand; for larger ones it is 0.
    #[inline(always)]
    fn once<S: Arithmetic, const B: usize>(&mut self, s: S, h: usize, supply: &[Supply]) -> bool {
        let (n, w) = (&self.network, &mut self.work);
        let (zones, octs) = (n.zones, if B > 0 { B } else { n.zone_octs() });
        let of_day = usize::from(self.drive.hour_of_day[h]) % 24;
        let which = self.of_hour[of_day];
        let response = &self.responses[which];
        w.hours.gifts(s, n, &w.base, &mut w.right);
        let (free, star) = (&mut w.free[..octs], &mut w.free_star[..octs]);
        clear(free);
        clear(star);
        response.air.add_product::<S, B>(s, &w.right, free);
        response.star.add_product::<S, B>(s, &w.right, star);
        let (free_air, heat) = (&mut w.free_air[..octs], &mut w.heat[..octs]);
        let (of_zone, next_doors) = (&mut w.zones[..octs], &mut w.next_doors[..octs]);
        let outdoor = self.drive.outdoor_c[h];
        let wind = self.leakage.wind_w_per_k(self.drive.wind_m_per_s[h]);
        let mut settled = false;
        let mut pace = Pace::new();
        for _ in 0..MOST_ITERATIONS {
            for (q, z) in heat.iter_mut().zip(&*of_zone) {
                *q = (s.take(&z.lag_leak) + s.take(&z.lag_doors)).put();
            }
            copy(free_air, free);
            let heat_w = &heat.as_flattened()[..zones];
            response.air.add_product::<S, B>(s, heat_w, free_air);
            let version = self.version + which;
            self.thermostats
                .solve::<S, B>(s, free_air, &response.air, version, supply);
            let (air, _) = self.thermostats.octs();
            let air = &air[..octs];
            let inside = inside_c(s, of_zone, air);
            let (stack, by_wind) = self.leakage.whole_w_per_k(inside - outdoor, wind);
            beyond_constant_w(s, &self.passage_octs, air.as_flattened(), next_doors);
            let mut moved = s.all(0.0);
            for ((z, doors), air) in of_zone.iter_mut().zip(&*next_doors).zip(air) {
                let leak = s.take(&z.stack_share) * stack + s.take(&z.wind_share) * by_wind;
                let next = (leak - s.take(&z.leak_nominal)) * (s.all(outdoor) - s.take(air));
                z.leak = leak.put();
                z.next_leak = next.put();
                let leaks = next - s.take(&z.lag_leak);
                let here = (leaks + (s.take(doors) - s.take(&z.lag_doors))).abs();
                moved = moved.below(here, here, moved);
            }
            let most = most_of(moved.put());
            if most < AIR_SETTLED_W {
                settled = true;
                break;
            }
            pace.take(most);
            take_air(s, of_zone, next_doors, pace.step);
        }
        let (air, supply) = self.thermostats.octs();
        copy(&mut w.air[..octs], air);
        for (q, supply) in heat.iter_mut().zip(supply) {
            *q = (s.take(q) + s.take(supply)).put();
        }
        let heat_w = &heat.as_flattened()[..zones];
        response.star.add_product::<S, B>(s, heat_w, star);
        copy(&mut w.star[..octs], star);
        settled
    }
}

/// A step on its way into the arithmetic of this processor. All that is called from here is
/// inlined, for only then is it compiled for it.
struct Solving<'b, 'a, 's> {
    balance: &'b mut Balance<'a>,
    step: usize,
    supply: &'s [Supply],
}

impl Task for Solving<'_, '_, '_> {
    #[inline(always)]
    fn run<S: Arithmetic>(self, by: S) {
        self.balance.step_here(by, self.step, self.supply);
    }
}

/// The same for moving on.
pub(super) struct Accepting<'b, 'a> {
    pub balance: &'b mut Balance<'a>,
    pub step: usize,
}

impl Task for Accepting<'_, '_> {
    #[inline(always)]
    fn run<S: Arithmetic>(self, by: S) {
        self.balance.accept_here(by, self.step);
    }
}

/// What an hour came to, before it is accepted.
#[derive(Debug)]
pub struct Outcome<'b> {
    /// Heat into each zone's air, W; cooling below zero.
    pub heat_w: &'b [f64],
    /// Air of each zone at the end of the hour, C.
    pub air_c: &'b [f64],
    stats: &'b Thermostats,
}

impl Outcome<'_> {
    /// The part of a zone's heat that is backup, W.
    pub fn backup_w(&self, zone: usize, supply: &Supply) -> f64 {
        self.stats.backup_w(zone, supply)
    }
}
