//! `northwall review`: the second winter.

use std::path::Path;

use jobfile::Carrier;
use plan::Plan;
use reckon::Verdict;
use review::{Bills, Fit, Normal, Review, Said, Winters};
use units::Dim;

use super::gather::{Gathered, gather};
use super::shown::banded;
use crate::arguments::{BillsGiven, Usual};
use crate::files::{self, Loaded};
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::{Say, Table, command_line, heading, typed_path, wrapped};
use crate::view::{NormalView, ReviewView, UntoldView, VERSION};

/// A review with what could not be fitted.
pub struct Reviewed {
    pub review: Review,
    pub not_fitted: Vec<String>,
    /// Bills behind each carrier: before, after.
    pub bills: Vec<(Carrier, usize, usize)>,
}

pub fn answer(path: &Path, given: &BillsGiven, usual: &Usual) -> Result<Report, Refusal> {
    let loaded = files::load(path, usual)?;
    let gathered = gather(&loaded, path, given)?;
    if gathered.installed.is_none() {
        return Err(Fault::file(
            &path.display().to_string(),
            "nothing says when the heat pump began to heat",
        )
        .allowed("[winters] with installed = \"2024-10-15\"")
        .mend("write the day of the first run; bills before and after it are compared")
        .into());
    }
    let plan = plan::plan_of_chosen(&loaded.job, &loaded.catalogue, &loaded.weather);
    let reviewed = reviewed(&loaded, &gathered, &plan);
    let say = Say::new(usual.si);
    let view = view(&plan, &loaded, &gathered, &reviewed);
    Ok(Report::new(
        text(&plan, &loaded, &gathered, &reviewed, path, say),
        &view,
    ))
}

fn side(
    bills: &Bills,
    gathered: &Gathered,
    from: i32,
    to: i32,
    word: &str,
    untold: &mut Vec<String>,
) -> Option<(Bills, Fit)> {
    let part = bills.within(from, to);
    if part.periods.is_empty() {
        return None;
    }
    let (seen, notes) = review::observations(&part, &gathered.days);
    let name = part.carrier.word();
    untold.extend(notes.iter().map(|n| format!("{name}: {n}")));
    match review::fit(
        seen,
        part.carrier == Carrier::Electricity,
        gathered.days.typical,
    ) {
        Ok(fit) => Some((part, fit)),
        Err(why) => {
            untold.push(format!("{name} {word}: {why}"));
            None
        }
    }
}

pub fn reviewed(loaded: &Loaded, gathered: &Gathered, plan: &Plan) -> Reviewed {
    let job = &loaded.job;
    let day = gathered.installed.unwrap_or(i32::MAX);
    let mut not_fitted = Vec::new();
    let mut bills = Vec::new();
    let winters: Vec<Winters> = gathered
        .sets
        .iter()
        .map(|s| {
            let mut own = s.bills.clone();
            own.behind_sun |= own.carrier == Carrier::Electricity && job.winters.sun;
            let before = side(&own, gathered, i32::MIN, day, "before", &mut not_fitted);
            let after = side(&own, gathered, day, i32::MAX, "after", &mut not_fitted);
            let count = |s: &Option<(Bills, Fit)>| s.as_ref().map_or(0, |(_, f)| f.bills());
            bills.push((own.carrier, count(&before), count(&after)));
            let heater = job.existing.as_ref().filter(|h| h.carrier == own.carrier);
            Winters {
                carrier: own.carrier,
                before,
                after,
                efficiency: heater.map_or(review::Band::new(0.65, 0.80, 0.95), |h| {
                    review::season_efficiency(h.carrier, h.kind, h.efficiency, h.known)
                }),
            }
        })
        .collect();
    let said = Said {
        changed: job.winters.changed.clone(),
        wood_j: (job.winters.wood_before_j, job.winters.wood_after_j),
        backup_metered: job.winters.backup_metered,
        promised_cop: plan.year().and_then(season::Year::seasonal_cop),
    };
    Reviewed {
        review: review::second_winter(&winters, &gathered.year, &said),
        not_fitted,
        bills,
    }
}

fn text(
    plan: &Plan,
    loaded: &Loaded,
    gathered: &Gathered,
    r: &Reviewed,
    path: &Path,
    say: Say,
) -> String {
    let mut out = heading(&plan.name);
    let installed = loaded.job.winters.installed.clone().unwrap_or_default();
    out.push_str(&wrapped(
        "",
        &format!(
            "The heat pump heats since {installed}. Temperatures: {}.",
            gathered.days_from
        ),
    ));
    out.push_str(&wrapped(
        "",
        &format!(
            "Both sides on the days of {}.",
            plan.site.station.name.trim()
        ),
    ));
    for note in &gathered.notes {
        out.push_str(&wrapped("", note));
    }
    out.push('\n');
    out.push_str(&heading("In the same typical year"));
    let mut table = Table::new(["", "before", "low", "high", "after", "low", "high", "bills"]);
    for n in &r.review.normal {
        let count = r.bills.iter().find(|(c, ..)| *c == n.carrier);
        let bills = count.map_or(String::new(), |(_, b, a)| format!("{b} and {a}"));
        rows(n, bills, say, &mut table);
    }
    out.push_str(&table.text());
    for line in &r.not_fitted {
        out.push_str(&wrapped("  ", line));
    }
    out.push('\n');
    verdicts(r, say, &mut out);
    out.push_str(&format!(
        "\nWhy:\n{}",
        command_line(&format!("why {} review", typed_path(path)))
    ));
    out
}

fn rows(n: &Normal, bills: String, say: Say, table: &mut Table) {
    let electric = n.carrier == Carrier::Electricity;
    let of = |j: f64| {
        if electric {
            say.number(j, Dim::ElectricEnergy)
        } else {
            say.year_heat(j)
        }
    };
    let unit = if electric {
        say.unit(Dim::ElectricEnergy)
    } else {
        say.year_heat_unit()
    };
    let mut row = |what: String, before: review::Band, after: review::Band, bills: String| {
        let cells = [
            before.mid,
            before.low,
            before.high,
            after.mid,
            after.low,
            after.high,
        ];
        let mut all = vec![what];
        all.extend(cells.iter().map(|v| of(*v)));
        all.push(bills);
        table.row(all);
    };
    row(
        format!("{}, {unit}", n.carrier.word()),
        n.before_j,
        n.after_j,
        bills,
    );
    row(
        "  for the cold".to_owned(),
        n.heating_before_j,
        n.heating_after_j,
        String::new(),
    );
}

fn verdicts(r: &Reviewed, say: Say, out: &mut String) {
    let review = &r.review;
    match review.cop {
        Some(cop) => {
            let band = banded(cop, |v| format!("{v:.2}"));
            out.push_str(&heading(&format!("Effective COP {band}")));
        }
        None => out.push_str(&heading("Effective COP: cannot tell")),
    }
    let heat = banded(review.moved_heat_j, |j| say.year_heat(j));
    let more = banded(review.more_electricity_j, |j| {
        say.number(j, Dim::ElectricEnergy)
    });
    out.push_str(&wrapped(
        "  ",
        &format!(
            "Heat that fuel gave and no longer gives: {heat} {}. Electricity for the cold, more \
             than before: {more} {}. Bands hold 9 times in 10.",
            say.year_heat_unit(),
            say.unit(Dim::ElectricEnergy)
        ),
    ));
    if let Some(share) = review.fuel_share {
        let percent = banded(share, |v| format!("{:.0}", v * 100.0));
        out.push_str(&wrapped(
            "  ",
            &format!("Fuel still gives {percent} % of the heat it gave."),
        ));
    }
    if let Some(p) = &review.promise {
        let words = match p.verdict {
            Verdict::Holds => "kept",
            Verdict::Fails => "not kept",
            Verdict::CannotTell => "cannot tell",
        };
        out.push_str(&wrapped(
            "  ",
            &format!("The plan's seasonal COP is {:.2}: {words}.", p.cop),
        ));
    }
    if !review.untold.is_empty() {
        out.push('\n');
        out.push_str(&heading("Cannot tell"));
    }
    for u in &review.untold {
        out.push_str(&wrapped(
            "  ",
            &format!("{}: {}. What would tell: {}", u.what, u.why, u.would_tell),
        ));
    }
}

fn view(plan: &Plan, loaded: &Loaded, gathered: &Gathered, r: &Reviewed) -> ReviewView {
    let review = &r.review;
    ReviewView {
        northwall: VERSION,
        job: plan.name.clone(),
        installed: loaded.job.winters.installed.clone().unwrap_or_default(),
        temperatures: gathered.days_from.clone(),
        typical_year: review
            .normal
            .iter()
            .map(|n| NormalView {
                carrier: n.carrier.word(),
                before_j: n.before_j.into(),
                after_j: n.after_j.into(),
                heating_before_j: n.heating_before_j.into(),
                heating_after_j: n.heating_after_j.into(),
            })
            .collect(),
        moved_heat_j: review.moved_heat_j.into(),
        more_electricity_j: review.more_electricity_j.into(),
        cop: review.cop.map(Into::into),
        fuel_share: review.fuel_share.map(Into::into),
        promised_cop: review.promise.as_ref().map(|p| p.cop),
        promise: review.promise.as_ref().map(|p| p.verdict.words()),
        untold: review
            .untold
            .iter()
            .map(|u| UntoldView {
                what: u.what.clone(),
                why: u.why.clone(),
                would_tell: u.would_tell.clone(),
            })
            .collect(),
        not_fitted: r.not_fitted.clone(),
    }
}
