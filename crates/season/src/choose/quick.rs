//! The year of one system on a layout, without solving the house again.

use heatpump::Mode;

use super::layout::{LayoutYear, Served};
use super::sag::Sagged;
use crate::input::Input;
use crate::plant::{Plant, Unit};
use crate::regime::Regime;

/// An hour, s.
const HOUR_S: f64 = 3600.0;
/// A room this little below its setting still counts as holding it, K.
const HOLDS_K: f64 = 0.1;

/// A system's year on a layout.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct SystemYear {
    /// Electricity, J.
    pub electric_j: f64,
    /// Heat given, J.
    pub heat_j: f64,
    /// Hours cycling.
    pub cycling_h: u32,
    /// Kelvin below the setting times hours that come of its shortness, K h.
    pub short_k_h: f64,
    /// Room hours below the setting for it.
    pub short_h: u32,
    /// Heat asked and not given, J.
    pub lacked_j: f64,
    /// Heat of heaters that stands in for it, J.
    pub heater_j: Vec<f64>,
    /// Hours colder than its sheet tells.
    pub cannot_tell_h: u32,
}

/// A head of the system in a room of the layout.
struct At<'l> {
    room: &'l Served,
    most_w: f64,
    sagged: Sagged,
    above_k: f64,
    want_w: f64,
    gives_w: f64,
}

/// Runs the one unit of `plant` whose heads are in the layout's `rooms`, by index and in the order
/// of the plant's heads. Each room sags by [`super::sag::Sag`] when its head gives less than it
/// asks; a heater behind it steps in at its own setting.
pub(crate) fn system_year(
    input: &Input<'_>,
    layout: &LayoutYear,
    plant: &Plant,
    rooms: &[usize],
) -> SystemYear {
    let heaters = layout.heater_j.len();
    let mut year = SystemYear {
        heater_j: vec![0.0; heaters],
        ..SystemYear::default()
    };
    let Some(unit) = plant.units.first() else {
        return year;
    };
    let mut heads: Vec<At<'_>> = rooms
        .iter()
        .zip(&plant.heads)
        .filter_map(|(i, head)| {
            Some(At {
                room: layout.rooms.get(*i)?,
                most_w: head.heat_most_w,
                sagged: Sagged::default(),
                above_k: 0.0,
                want_w: 0.0,
                gives_w: 0.0,
            })
        })
        .collect();
    let cool_most: Vec<f64> = plant.heads.iter().map(|h| h.cool_most_w).collect();
    let (mut asked, mut given) = (vec![0.0; heads.len()], vec![0.0; heads.len()]);
    for (h, &outdoor_c) in input.drive.outdoor_c.iter().enumerate() {
        let off = outdoor_c < plant.off_below_c;
        let range = unit.heating.as_ref().ok().and_then(|p| p.range(outdoor_c));
        let most_w = range.filter(|_| !off).map_or(0.0, |r| r.max_w);
        let (mut want, mut cool) = (0.0, 0.0);
        for head in &mut heads {
            let need = head.room.need_w.get(h).copied().unwrap_or(0.0);
            head.above_k = head.room.above_k.get(h).copied().unwrap_or(0.0);
            let sag = &head.room.sag;
            let under = head.sagged.carried_k(sag) - head.above_k;
            let again = if under > 1e-6 {
                under / sag.at_once_k_per_w().max(1e-12)
            } else {
                0.0
            };
            head.want_w = need.max(0.0) + again;
            head.gives_w = head.want_w.min(head.most_w).min(most_w);
            want += head.gives_w;
            cool += (-need).max(0.0);
        }
        let cut = want > most_w;
        if cut {
            for head in &mut heads {
                head.gives_w *= most_w / want;
            }
        }
        let heat = want.min(most_w);
        for head in &mut heads {
            year.sag(head, h, outdoor_c);
        }
        if want > 0.0 && cool > want {
            // One outdoor unit either heats or cools: the greater asking wins, and the few hours
            // of it are left to the whole year.
            year.cools(
                unit,
                h,
                &heads,
                &cool_most,
                outdoor_c,
                (&mut asked, &mut given),
            );
        } else if heat > 0.0 {
            let hair = if cut { 1.0 + 1e-9 } else { 1.0 };
            for (a, head) in asked.iter_mut().zip(&heads) {
                *a = head.gives_w * hair;
            }
            if let Ok(heating) = &unit.heating {
                let ran = heating.share(outdoor_c, &asked, &mut given);
                year.electric_j += ran.electric_w * HOUR_S;
                year.heat_j += heat * HOUR_S;
                let full = heat >= most_w || ran.mode == Mode::Full;
                year.cycling_h += u32::from(!full && ran.mode == Mode::Cycling);
            }
        } else if cool > 0.0 {
            year.cools(
                unit,
                h,
                &heads,
                &cool_most,
                outdoor_c,
                (&mut asked, &mut given),
            );
        } else if let Ok(heating) = &unit.heating {
            let rests = heating.operate(outdoor_c, 0.0);
            year.electric_j += rests.electric_w * HOUR_S;
            if outdoor_c < heating.span_c().0 && !off {
                let mode = Regime::of_heating(heating.operate(outdoor_c, 1.0).mode);
                year.cannot_tell_h += u32::from(mode == Regime::CannotTell);
            }
        } else {
            year.cannot_tell_h += 1;
        }
    }
    year
}

impl SystemYear {
    /// A room that got less than it wanted sags; the heater behind it holds it at its own setting.
    fn sag(&mut self, head: &mut At<'_>, h: usize, outdoor_c: f64) {
        let need = head.room.need_w.get(h).copied().unwrap_or(0.0);
        if need <= 0.0 && head.want_w <= 0.0 {
            head.sagged.take(&head.room.sag, 0.0);
            return;
        }
        let sag = &head.room.sag;
        let lacked = need.max(0.0) - head.gives_w;
        let mut stood_in = 0.0;
        if let Some((below_k, most_w, heater, locked_c)) = head.room.backup
            && outdoor_c <= locked_c
        {
            let would = head.sagged.carried_k(sag) + sag.at_once_k_per_w() * lacked;
            let over = would - head.above_k - below_k;
            if over > 0.0 {
                stood_in = (over / sag.at_once_k_per_w().max(1e-12)).min(most_w);
                if let Some(j) = self.heater_j.get_mut(heater) {
                    *j += stood_in * HOUR_S;
                }
            }
        }
        let k = head.sagged.take(sag, lacked - stood_in) - head.above_k;
        if k > 0.0 {
            self.short_k_h += k * (1.0 + sag.others);
            self.short_h += u32::from(k > HOLDS_K);
        }
        if lacked > 0.0 {
            self.lacked_j += lacked * HOUR_S;
            for (j, share) in self.heater_j.iter_mut().zip(&head.room.others) {
                *j += share * (lacked - stood_in).max(0.0) * HOUR_S;
            }
        }
    }

    fn cools(
        &mut self,
        unit: &Unit,
        h: usize,
        heads: &[At<'_>],
        most_w: &[f64],
        outdoor_c: f64,
        (asked, given): (&mut [f64], &mut [f64]),
    ) {
        let Some(cooling) = &unit.cooling else { return };
        let sensible = cooling.sensible_share(outdoor_c).unwrap_or(1.0);
        for ((a, head), most) in asked.iter_mut().zip(heads).zip(most_w) {
            let need = head.room.need_w.get(h).copied().unwrap_or(0.0);
            *a = ((-need).max(0.0) / sensible).min(*most);
        }
        self.electric_j += cooling.share(outdoor_c, asked, given).electric_w * HOUR_S;
    }
}
