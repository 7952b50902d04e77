//! `northwall bands`: the year of the houses this could be.

mod figures;
mod shown;

pub use figures::figures;

use std::path::Path;

use reckon::Verdict;
use season::bands::{Asked, Band, Bands, Told};
use units::Dim;

use crate::arguments::{Houses, Usual};
use crate::files;
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::{Say, typed_path};
use crate::view::{
    AgreedView, BandsView, ChoiceBandsView, MattersView, RangeView, UncertainView, VERSION,
};

pub fn answer(path: &Path, houses: &Houses, usual: &Usual) -> Result<Report, Refusal> {
    let loaded = files::load(path, usual)?;
    let choices = loaded.job.choices();
    if choices.iter().all(|c| c.equipment.heads.is_empty()) {
        let shown = path.display().to_string();
        return Err(Fault::file(
            &shown,
            "the job has no heads, so there is no year to put a band on",
        )
        .mend("choose units: an [[outdoor]] and a [[head]] for each; `choose` finds some")
        .into());
    }
    let say = Say::for_job(&loaded.job);
    let (told, bills) = match houses.heat_loss.as_deref() {
        Some(text) => (Some(told(text)?), None),
        None if houses.without_bills => (None, None),
        None => of_bills(&loaded, path, say, || {
            plan::plan_of_chosen(&loaded.job, &loaded.catalogue, &loaded.weather)
        }),
    };
    let asked = Asked {
        samples: houses.houses,
        seed: houses.seed,
        told,
        threads: season::cores(),
    };
    let found = plan::banded(
        &loaded.job,
        &loaded.catalogue,
        &loaded.weather,
        &choices,
        &asked,
        &|_| true,
    )
    .map_err(|why| {
        let shown = path.display().to_string();
        Fault::file(&shown, why).mend("`check` says what the job waits for")
    })?;
    let text = shown::text(&found, &loaded, bills.as_deref(), say);
    Ok(Report::new(text, &view(&found, &loaded, bills)))
}

/// What the job's bills tell, and the words for it: from what, or why they tell nothing. Neither
/// where the job names no bills: then no plan to set them beside is asked for.
fn of_bills(
    loaded: &files::Loaded,
    path: &Path,
    say: Say,
    plan: impl FnOnce() -> plan::Plan,
) -> (Option<Told>, Option<String>) {
    if !loaded.job.has_bills() {
        return (None, None);
    }
    let told = crate::bills::of_job(loaded, path, &mut plan())
        .map(|all| all.and_then(|b| b.loss.map_err(|why| why.says)));
    match told {
        None => (None, None),
        Some(Ok(loss)) => {
            let (band, from) = (loss.loss_w_per_k, crate::bills::heats(&loss));
            let words = format!(
                "The bills of the job ({from}) tell a heat loss of {} to {}; --without-bills leaves \
                 them out.",
                say.number(band.low, Dim::Conductance),
                say.of(band.high, Dim::Conductance)
            );
            (Some(Told::of_band(band.low, band.high)), Some(words))
        }
        Some(Err(why)) => (
            None,
            Some(format!(
                "Not narrowed by the bills of the job: {why}. Ask on: northwall bills {}",
                typed_path(path)
            )),
        ),
    }
}

/// `380 to 470 Btu/(h F)`, the 90 % band that `bills` prints.
fn told(text: &str) -> Result<Told, Refusal> {
    let fault = |says: &str| {
        Fault::flag("--heat-loss", says)
            .got(text)
            .allowed("two values with a unit, the lesser first: \"380 to 470 Btu/(h F)\"")
            .mend("take the band of the heat loss that `northwall bills` prints")
    };
    let (low, high) = text
        .split_once(" to ")
        .ok_or_else(|| fault("this is not a band"))?;
    let high_si = units::parse(high.trim(), Dim::Conductance).map_err(|e| fault(&e.to_string()))?;
    let unit = high
        .trim()
        .trim_start_matches(|c: char| c.is_ascii_digit() || ".,".contains(c));
    let low = low.trim();
    let plain = low.chars().all(|c| c.is_ascii_digit() || ".,".contains(c));
    let low = if plain {
        format!("{low} {}", unit.trim())
    } else {
        low.to_owned()
    };
    let low_si = units::parse(&low, Dim::Conductance).map_err(|e| fault(&e.to_string()))?;
    if !(low_si > 0.0 && low_si < high_si) {
        return Err(fault("the band has no width, or stands on its head").into());
    }
    Ok(Told::of_band(low_si, high_si))
}

fn range(b: &Band) -> RangeView {
    RangeView {
        as_entered: b.as_entered,
        low: b.low,
        middle: b.middle,
        high: b.high,
    }
}

fn view(found: &Bands, loaded: &files::Loaded, bills: Option<String>) -> BandsView {
    let matters = |all: &[season::bands::Matters]| {
        all.iter()
            .take(5)
            .map(|m| MattersView {
                name: m.name.clone(),
                share: m.share,
            })
            .collect()
    };
    BandsView {
        northwall: VERSION,
        job: loaded.job.name.clone(),
        station: loaded.weather.station.name.clone(),
        houses: found.samples,
        seed: found.seed,
        inputs: found
            .inputs
            .iter()
            .map(|u| UncertainView {
                name: u.name.clone(),
                known: u.known.word(),
                low: u.low,
                high: u.high,
                difference: u.difference,
            })
            .collect(),
        loss_w_per_k: range(&found.house.loss_w_per_k),
        load_w: found.house.load_w.as_ref().map(range),
        load_matters: matters(&found.house.matters),
        bills,
        agreed: found.agreed.map(|a| AgreedView {
            effective: a.effective,
            verdict: match a.verdict {
                Verdict::CannotTell => "cannot-tell",
                _ => "holds",
            },
            survey_w_per_k: range(&a.survey_w_per_k),
        }),
        choices: found
            .choices
            .iter()
            .map(|(name, of)| {
                let ok = of.as_ref().ok();
                ChoiceBandsView {
                    name: name.clone(),
                    no_year: of.as_ref().err().map(ToString::to_string),
                    carries: ok.map(|c| c.carries),
                    carries_as_entered: ok.map(|c| c.carries_as_entered),
                    short_hours: ok.map(|c| range(&c.short_h)),
                    cycling_hours: ok.map(|c| range(&c.cycling_h)),
                    cop: ok.and_then(|c| c.cop.as_ref().map(range)),
                    cost: ok.and_then(|c| c.cost.as_ref().map(range)),
                    heads_share: ok.and_then(|c| c.heads_share.as_ref().map(range)),
                    least_c: ok.map(|c| range(&c.least_c)),
                    cost_matters: ok.map_or_else(Vec::new, |c| matters(&c.cost_matters)),
                }
            })
            .collect(),
    }
}
