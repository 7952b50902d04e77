//! Bills for programs.

use plan::{Billed, Plan};
use review::{By, Line, Note};

use super::gather::Gathered;
use crate::view::{
    BillView, BillsView, CannotView, CarrierView, CloserView, LineView, LossView, ShortView,
    SurveyView, UnknownView, VERSION,
};

pub fn view(plan: &Plan, gathered: &Gathered, billed: &Billed) -> BillsView {
    BillsView {
        northwall: VERSION,
        job: plan.name.clone(),
        temperatures: gathered.days_from.clone(),
        typical: billed.typical,
        carriers: billed
            .carriers
            .iter()
            .map(|c| carrier(c, gathered))
            .collect(),
        loss: billed.loss.as_ref().ok().map(|l| LossView {
            loss_w_per_k: l.loss_w_per_k.into(),
            load_w: l.load_w.into(),
            with_free_heat_w: l.with_free_heat_w.into(),
            design_c: plan.site.heating.used_c,
            unknowns: l
                .unknowns
                .iter()
                .map(|u| UnknownView {
                    name: u.name,
                    what: u.what.clone(),
                    range: u.band.into(),
                    known: u.known.word(),
                })
                .collect(),
            key: "bills.load",
        }),
        cannot_tell: billed.loss.as_ref().err().map(CannotView::from),
        survey: survey(billed),
        notes: gathered.notes.clone(),
    }
}

fn carrier(c: &plan::BilledCarrier, gathered: &Gathered) -> CarrierView {
    let iso = review::calendar::iso;
    let fit = c.fit.as_ref().ok();
    let set = gathered
        .sets
        .iter()
        .find(|s| s.bills.carrier == c.bills.carrier);
    CarrierView {
        carrier: c.bills.carrier.word(),
        read: set.map_or(Vec::new(), |s| s.how.clone()),
        bills: c
            .bills
            .periods
            .iter()
            .map(|p| {
                let o = fit.and_then(|f| f.observations.iter().find(|o| o.from == p.from));
                BillView {
                    from: iso(p.from),
                    to: iso(p.to),
                    energy_j: p.energy_j,
                    outdoor_c: o.map(review::Observation::mean_c),
                    fitted_w: fit.zip(o).map(|(f, o)| f.fitted_w(o)),
                }
            })
            .collect(),
        line: c.line.as_ref().ok().map(line),
        cannot_tell: c.line.as_ref().err().map(CannotView::from),
        short_of: c
            .complaints
            .iter()
            .map(|s| ShortView {
                rule: s.rule,
                says: s.says.clone(),
                mend: s.mend.clone(),
            })
            .collect(),
        notes: c
            .bills
            .notes
            .iter()
            .chain(&c.notes)
            .map(Note::to_string)
            .collect(),
    }
}

fn line(l: &Line) -> LineView {
    let fit = match &l.by {
        By::Fit(fit) => Some(fit),
        By::FillToFill { .. } => None,
    };
    LineView {
        by: if fit.is_some() { "fit" } else { "fill to fill" },
        slope_w_per_k: l.slope_w_per_k.into(),
        base_w: l.base_w.into(),
        balance_c: l.balance_c.into(),
        r2: fit.map(|f| f.r2),
        cv_rmse: fit.map(|f| f.cv_rmse),
        nmbe: fit.map(|f| f.nmbe),
    }
}

fn survey(billed: &Billed) -> Option<SurveyView> {
    let s = billed.survey.as_ref()?;
    let r = billed.reconciled.as_ref();
    Some(SurveyView {
        loss_w_per_k: s.loss_w_per_k,
        balance_c: s.balance_c,
        load_w: billed.survey_load.map(|(w, _)| w),
        ratio: r.map(|r| r.ratio.into()),
        agree: r.map(|r| r.verdict.words()),
        closers: r.map_or(Vec::new(), |r| {
            r.closers
                .iter()
                .map(|c| CloserView {
                    side: c.side.word(),
                    what: c.what.clone(),
                    place: c.place.clone(),
                    factor: c.factor,
                    known: c.known.word(),
                    strain: c.strain,
                    would_tell: c.would_tell.clone(),
                })
                .collect()
        }),
    })
}
