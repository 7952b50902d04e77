//! The why of a band: the houses behind it, the widths of what is not known, and the plan below.

use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use plan::{Leaf, Why};

use crate::app::App;
use crate::caller::Caller;
use crate::given::{Path, Query, short};
use crate::plans::{Units, WhyView};
use crate::refused::Refused;
use crate::seen::Said;

/// Formula, inputs and source of a number of the bands, down to the job file, the data sheet or the
/// widths of what is not known. There are none until the bands of the job as it stands are there
#[utoipa::path(get, path = "/api/jobs/{id}/bands/why/{key}", tag = "plan",
    params(("id" = String, Path), ("key" = String, Path, description = "Key of a figure of the bands"), Units),
    responses((status = 200, body = WhyView), (status = "default", body = Refused)))]
pub async fn why(
    State(app): State<App>,
    caller: Caller,
    Path((id, key)): Path<(String, String)>,
    Query(units): Query<Units>,
) -> Result<Json<WhyView>, Refused> {
    let row = app.store.job(&caller.firm, &id).await?;
    let found = app.bands.found(&row).ok_or_else(|| {
        Refused::new(
            StatusCode::CONFLICT,
            "waits",
            "the bands of this job as it stands are not there",
        )
        .mend("ask for the bands, and again once they are worked out")
    })?;
    let made = app.desk.whole(&row).await?;
    let measured = crate::bills::measured(&app, &caller.firm, &made.job, &id).await?;
    let tree = app.desk.apart(move || {
        // with the bills' own figures, which the houses are held against
        let plan = crate::bills::with_bills(&made, &measured);
        let book = plan::band_figures(&found.bands, &plan);
        plan::why_beside(&plan, &book, &key)
            .map(|tree| view(&tree, Said::new(units.si)))
            .map_err(|none| {
                let near = none.beginning.into_iter().map(|b| b.0).chain(none.near);
                let near: Vec<String> = near.collect();
                let refused = Refused::not_there("figure", &short(&key));
                if near.is_empty() {
                    refused
                } else {
                    refused.mend(format!("near: {}", near.join(", ")))
                }
            })
    });
    Ok(Json(tree.await??))
}

/// As a why goes out.
fn view(w: &Why, say: Said) -> WhyView {
    let quantity = serde_json::to_value(w.dim).ok();
    let (rests_on, path, line, source) = match &w.leaf {
        Leaf::Job { path, line } => ("job", Some(path.clone()), *line, path.clone()),
        Leaf::Sheet { place } => ("sheet", None, None, format!("data sheet, {place}")),
        Leaf::Weather { place } => ("weather", None, None, format!("weather, {place}")),
        Leaf::Publication { key, title, place } => {
            let title = if title.is_empty() { key } else { title };
            ("publication", None, None, format!("{title}, {place}"))
        }
    };
    WhyView {
        key: w.key.clone(),
        symbol: w.symbol.clone(),
        what: w.what.clone(),
        value: Some(w.value).filter(|v| v.is_finite()),
        quantity: quantity
            .and_then(|q| q.as_str().map(str::to_owned))
            .unwrap_or_default(),
        shown: say.of(w.value, w.dim),
        formula: w.formula.clone(),
        source,
        rests_on: rests_on.to_owned(),
        path,
        line,
        known: w.known.map(|k| k.word().to_owned()),
        again: w.again,
        inputs: w.inputs.iter().map(|i| view(i, say)).collect(),
    }
}
