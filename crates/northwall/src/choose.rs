//! `northwall choose`: which heads in which rooms, on which outdoor units.

mod shown;
mod units;

use std::collections::BTreeMap;
use std::path::Path;

use heatpump::HeadKind;
use season::choose::{Care, Found, Wishes, search};

use crate::arguments::{HeadWord, Looking, Usual};
use crate::files;
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::Say;
use crate::view::{ChooseView, MeasureView, SurvivorView, VERSION};

/// Most bytes of a price list.
const MOST_PRICES: u64 = 1_000_000;

pub fn answer(path: &Path, looking: &Looking, usual: &Usual) -> Result<Report, Refusal> {
    let mut loaded = files::load(path, usual)?;
    if loaded.catalogue.is_empty() {
        loaded.catalogue = files::catalogue(path, usual)?;
    }
    if loaded.catalogue.is_empty() {
        let shown = path.display().to_string();
        return Err(Fault::file(&shown, "there is no catalogue to choose from")
            .mend("put a folder named catalogue beside the job or above it, or name one with --catalogue")
            .into());
    }
    let wishes = wishes(looking)?;
    let house = crate::house_of::house_of(&loaded, path)?;
    let nothing = jobfile::Choice {
        name: String::new(),
        equipment: jobfile::Equipment::default(),
    };
    let input = house.input(&loaded.job, &loaded.catalogue, &loaded.weather, &nothing);
    let found = search(&input, &wishes).map_err(|why| {
        let fault = Fault::flag("choose", why.to_string());
        match why {
            season::SeasonError::NoRoom { .. } => {
                let rooms: Vec<&str> = loaded
                    .job
                    .house
                    .rooms
                    .iter()
                    .map(|r| r.name.as_str())
                    .collect();
                fault
                    .allowed(rooms.join(", "))
                    .mend("name rooms of the job with --rooms")
            }
            _ => fault,
        }
    })?;
    let say = Say::for_job(&loaded.job);
    let text = shown::text(&found, &loaded, looking.show, say);
    Ok(Report::new(text, &view(&found, &loaded)))
}

fn wishes(looking: &Looking) -> Result<Wishes, Refusal> {
    let prices = match &looking.prices {
        Some(path) => price_list(path)?,
        None => BTreeMap::new(),
    };
    Ok(Wishes {
        rooms: looking.rooms.clone(),
        most_heads: looking.most_heads,
        kind: match looking.kind {
            HeadWord::Wall => HeadKind::Wall,
            HeadWord::Floor => HeadKind::FloorConsole,
            HeadWord::Ceiling => HeadKind::CeilingCassette,
            HeadWord::Duct => HeadKind::SlimDuct,
        },
        most: looking.most,
        prices,
        grain: None,
        care: if looking.sure {
            Care::Sure
        } else {
            Care::Quick
        },
        threads: season::cores(),
    })
}

/// A list of unit and price, one a line, with a comma between.
fn price_list(path: &Path) -> Result<BTreeMap<String, f64>, Refusal> {
    let bytes = files::bytes(path, MOST_PRICES, "price list")?;
    let shown = path.display().to_string();
    let text = String::from_utf8_lossy(&bytes);
    let mut all = BTreeMap::new();
    let mut refused = Vec::new();
    for (i, line) in text.lines().enumerate() {
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        let fault = |says: &str| Fault {
            line: Some(i + 1),
            got: line.to_owned(),
            allowed: "name of a unit, a comma, money: Loon 12, 1850".to_owned(),
            ..Fault::file(&shown, says)
        };
        let Some((name, money)) = line.rsplit_once(',') else {
            refused.push(fault("this line has no comma"));
            continue;
        };
        let price = money
            .trim()
            .trim_start_matches(['$', '€', '£'])
            .trim()
            .parse::<f64>();
        match price {
            Ok(price) if price.is_finite() && price >= 0.0 => {
                if all.insert(name.trim().to_owned(), price).is_some() {
                    refused.push(fault("this unit has a price already"));
                }
            }
            _ => refused.push(fault("this price does not read")),
        }
    }
    if refused.is_empty() {
        Ok(all)
    } else {
        Err(Refusal::from(refused))
    }
}

fn view(found: &Found, loaded: &files::Loaded) -> ChooseView {
    let measure = |m: &season::choose::Measure| MeasureView {
        comfort_k_h: m.comfort_k_h,
        cycling_hours: m.cycling_h,
        cost: m.cost,
        carbon_kg: m.carbon_kg,
        equipment: m.equipment,
        holes: m.holes,
    };
    ChooseView {
        northwall: VERSION,
        job: loaded.job.name.clone(),
        station: loaded.weather.station.name.clone(),
        sheets: loaded.catalogue.len(),
        looked_at: found.looked_at,
        layouts: found.layouts,
        systems: found.systems,
        run_whole: found.run_whole,
        weighed: found.aims.iter().map(|a| a.word()).collect(),
        without_price: found.without_price.clone(),
        survivors: found
            .survivors
            .iter()
            .map(|s| SurvivorView {
                units: units::systems(&s.choice.equipment),
                measure: measure(&s.measure),
                heads_share: s.row.heads_share,
                seasonal_cop: s.row.seasonal_cop,
                full_hours: s.row.full_h,
                cannot_tell_hours: s.row.cannot_tell_h,
                coldest_room: s.row.coldest_room.as_ref().map(|(n, _)| n.clone()),
                coldest_c: s.row.coldest_room.as_ref().map(|(_, c)| *c),
                best_in: s.best_in.iter().map(|a| a.word()).collect(),
                beside: s
                    .beside
                    .as_ref()
                    .map(|b| units::against(b, measure(&b.measure))),
                runner_up: s
                    .runner_up
                    .as_ref()
                    .map(|b| units::against(b, measure(&b.measure))),
            })
            .collect(),
    }
}
