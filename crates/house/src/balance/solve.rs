//! Solving one step.

use super::openings::beyond_constant_w;
use super::pace::Pace;
use super::quad::{clear, copy, each};
use super::thermostats::Thermostats;
use super::{AIR_SETTLED_W, Balance, MOST_ITERATIONS, SETTLED_W, Supply};

impl Balance<'_> {
    /// Solves step `h` of the drive with this supply. Nothing moves on until [`Balance::accept`].
    pub fn step(&mut self, h: usize, supply: &[Supply]) -> Outcome<'_> {
        let processor = self.processor;
        processor.dispatch(Solving {
            balance: self,
            step: h,
            supply,
        });
        Outcome {
            heat_w: self.thermostats.heat_w(),
            air_c: self.thermostats.air_c(),
            stats: &self.thermostats,
        }
    }

    /// [`Balance::step`] with the arithmetic of whoever calls it.
    #[inline(always)]
    fn step_here(&mut self, h: usize, supply: &[Supply]) {
        self.prepare(h);
        self.thermostats.offer(supply);
        let mut settled = false;
        let mut pace = Pace::new();
        for _ in 0..MOST_ITERATIONS {
            self.iterations += 1;
            let air_settled = self.once(h, supply);
            let (n, w) = (&self.network, &mut self.work);
            let moved = w.hours.answers(n, &w.air, &w.star);
            if moved < SETTLED_W {
                settled = air_settled;
                break;
            }
            pace.take(moved);
            w.hours.take_films(pace.step);
        }
        if !settled {
            self.unsettled_steps += 1;
        }
    }

    /// What does not change while the step is iterated.
    #[inline(always)]
    fn prepare(&mut self, h: usize) {
        let (n, d, w) = (&self.network, self.drive, &mut self.work);
        let of_day = usize::from(d.hour_of_day[h]) % 24;
        self.outside.weather(d, h);
        self.outside.drive_faces(&n.outer_bank, &mut w.hours);
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
        w.hours.begin(n, &w.beam, &w.diffuse, radiant);
        let zones = w.base.iter_mut().zip(&w.zones).zip(&w.owed);
        let to_out = self.outdoor[self.of_hour[of_day]].iter();
        let given = to_out.zip(&self.gains_air[of_day]).zip(&self.air_then);
        for (((base, z), owed), ((to_out, gains), air)) in zones.zip(given) {
            let kept = each(|i| z.capacity[i] * air[i] + gains[i]);
            *base = each(|i| kept[i] + to_out[i] * outdoor - owed[i]);
        }
    }

    /// One solution with the films as they are. Air through leaks and doors ties only zones, so it
    /// is iterated on the small matrix alone; false if that did not settle.
    #[inline(always)]
    fn once(&mut self, h: usize, supply: &[Supply]) -> bool {
        let (n, w) = (&self.network, &mut self.work);
        let (zones, quads) = (n.zones, n.zone_quads());
        let of_day = usize::from(self.drive.hour_of_day[h]) % 24;
        let which = self.of_hour[of_day];
        let response = &self.responses[which];
        w.hours.gifts(n, &w.base, &mut w.right);
        clear(&mut w.free);
        response.add_product(0, &w.right, &mut w.free);
        let outdoor = self.drive.outdoor_c[h];
        let wind = self.drive.wind_m_per_s[h];
        let mut settled = false;
        let mut pace = Pace::new();
        for _ in 0..MOST_ITERATIONS {
            for (q, z) in w.heat.iter_mut().zip(&w.zones) {
                *q = each(|i| z.lag_leak[i] + z.lag_doors[i]);
            }
            copy(&mut w.free_air, &w.free);
            response.add_product(0, &w.heat.as_flattened()[..zones], &mut w.free_air);
            self.thermostats
                .solve(&w.free_air, response, self.version + which, supply);
            let air = self.thermostats.air_c();
            let (stack, by_wind) = self.leakage.whole_w_per_k(air, outdoor, wind);
            beyond_constant_w(&self.passages, air, &mut w.next_doors);
            let mut most = 0.0;
            let (air, _) = self.thermostats.quads();
            for ((z, doors), air) in w.zones.iter_mut().zip(&w.next_doors).zip(air) {
                let was = *z;
                let leak = each(|i| stack * was.stack_share[i] + by_wind * was.wind_share[i]);
                let next = each(|i| (leak[i] - was.leak_nominal[i]) * (outdoor - air[i]));
                z.leak = leak;
                z.next_leak = next;
                let leaks = each(|i| next[i] - was.lag_leak[i]);
                let moved = each(|i| (leaks[i] + doors[i] - was.lag_doors[i]).abs());
                for moved in moved {
                    most = if moved > most { moved } else { most };
                }
            }
            if most < AIR_SETTLED_W {
                settled = true;
                break;
            }
            pace.take(most);
            w.take_air(pace.step);
        }
        let (air, supply) = self.thermostats.quads();
        copy(&mut w.air, air);
        for (q, supply) in w.heat.iter_mut().zip(supply) {
            let was = *q;
            *q = each(|i| was[i] + supply[i]);
        }
        copy(&mut w.star, &w.free[quads..]);
        response.add_product(quads, &w.heat.as_flattened()[..zones], &mut w.star);
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

impl pulp::WithSimd for Solving<'_, '_, '_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) {
        self.balance.step_here(self.step, self.supply);
    }
}

/// The same for moving on.
pub(super) struct Accepting<'b, 'a> {
    pub balance: &'b mut Balance<'a>,
    pub step: usize,
}

impl pulp::WithSimd for Accepting<'_, '_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) {
        self.balance.accept_here(self.step);
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
