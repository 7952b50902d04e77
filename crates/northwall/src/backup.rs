//! `northwall backup`: who carries which hours at which price, when to switch over, what to set,
//! and what happens in the cold and without power.

mod shown;

use std::path::Path;

use season::Crossing;
use season::backup::{Backup, Set, backup};

use crate::arguments::Usual;
use crate::files;
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::Say;
use crate::view::{
    BackupView, CarriedView, CaseView, InColdView, NeededView, SettingView, SwitchView, TariffView,
    VERSION,
};

pub fn answer(path: &Path, option: Option<&str>, usual: &Usual) -> Result<Report, Refusal> {
    let loaded = files::load(path, usual)?;
    let choices = loaded.job.choices();
    let name = option.unwrap_or(jobfile::CHOSEN);
    let choice = choices.iter().find(|c| c.name == name);
    let choice = choice
        .filter(|c| !c.equipment.heads.is_empty())
        .ok_or_else(|| {
            let names: Vec<&str> = choices.iter().map(|c| c.name.as_str()).collect();
            match option {
                Some(option) => Fault::flag("--option", "the job has no such option with heads")
                    .got(option)
                    .allowed(names.join(", ")),
                None => Fault::file(
                    &path.display().to_string(),
                    "the job has no heads to back up",
                )
                .mend("choose units: an [[outdoor]] and a [[head]] for each; `choose` finds some"),
            }
        })?;
    let house = crate::house_of::house_of(&loaded, path)?;
    let found = backup(&house.input(&loaded.job, &loaded.catalogue, &loaded.weather, choice))
        .map_err(|why| Fault::flag("backup", why.to_string()))?;
    let text = shown::text(&found, &loaded, name, Say::for_job(&loaded.job));
    Ok(Report::new(text, &view(&found, &loaded, name)))
}

fn view(found: &Backup, loaded: &files::Loaded, name: &str) -> BackupView {
    BackupView {
        northwall: VERSION,
        job: loaded.job.name.clone(),
        choice: name.to_owned(),
        carried: found
            .carried
            .iter()
            .map(|c| CarriedView {
                by: c.by.clone(),
                carrier: c.carrier.word(),
                hours: c.hours,
                heat_j: c.heat_j,
                bought_j: c.bought_j,
                cost: c.cost,
            })
            .collect(),
        tariff: found.charged.map(|c| TariffView {
            energy: c.energy,
            demand: c.demand,
            fixed: c.fixed,
        }),
        needed: found.needed.map(|n| NeededView {
            design_c: n.design_c,
            asks_w: n.asks_w,
            units_w: n.units_w,
            adds_w: n.adds_w,
            holds_w: n.holds_w,
            there_is_w: Some(n.there_is_w).filter(|w| w.is_finite()),
        }),
        switchover: found
            .sensitivity
            .iter()
            .map(|s| SwitchView {
                heater: s.heater.clone(),
                unit: s.unit.clone(),
                cases: s
                    .cases
                    .iter()
                    .map(|(electricity, fuel, cop, at)| CaseView {
                        electricity: *electricity,
                        fuel: *fuel,
                        cop: *cop,
                        above_c: at.at_c(),
                        says: match at {
                            Crossing::At(_) => "at",
                            Crossing::ColderThan(_) => "everywhere-down-to-the-coldest-hours",
                            Crossing::WarmerThan(_) => "nowhere",
                            Crossing::None => "cannot-tell",
                        },
                    })
                    .collect(),
            })
            .collect(),
        settings: found
            .settings
            .iter()
            .map(|s| SettingView {
                control: s.control.clone(),
                set: set(&s.set),
                job_has: s.job_has.as_ref().map(set),
                why: s.why.clone(),
            })
            .collect(),
        cold_c: found.snap.as_ref().map(|s| s.outdoor_c),
        cold_heads_j: found.snap.as_ref().map(|s| s.heads_j),
        cold_heaters_j: found.snap.as_ref().map(|s| s.heaters_j),
        cold_heaters_most_w: found.snap.as_ref().map(|s| s.heaters_most_w),
        rooms: found
            .snap
            .iter()
            .flat_map(|s| &s.rooms)
            .map(|r| InColdView {
                room: r.room.clone(),
                heated: r.heated,
                least_c: r.least_c,
                heads_alone_c: r.heads_alone_c,
                at_10c_hours: r.at_10c_h,
                freezes_hours: r.freezes_h,
            })
            .collect(),
        hot_water_lost: found.hot_water.map(|w| w.lost),
        hot_water_j: found.hot_water.map(|w| w.heat_j),
    }
}

/// A setting in SI words, stable.
fn set(of: &Set) -> String {
    match of {
        Set::Room(c) => format!("{c:.1} C"),
        Set::Below(k) => format!("{k:.1} K below the heads"),
        Set::BelowBetween(a, b) => format!("{a:.0} to {b:.0} K below the heads"),
        Set::OffAbove(c) => format!("off above {c:.1} C"),
        Set::Never => "never".to_owned(),
        Set::Off => "none".to_owned(),
    }
}
