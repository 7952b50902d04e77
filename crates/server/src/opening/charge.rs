//! Weighing in, release, label, and the balance of the cylinders.

use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use startup::Stamp;
use startup::charge::{Movement, WeighIn, balance, label, weigh_in};
use startup::record::Record;
use units::Dim;
use utoipa::ToSchema;

use super::BeforeView;
use super::asked::Unit;
use crate::given::line;
use crate::judging::{refrigerant, value, wrong};
use crate::refused::Refused;

/// A weighing-in; values are texts with their unit.
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema)]
pub struct ChargeIn {
    /// UUID made by the client; the same again changes nothing.
    pub id: String,
    /// Judged only; nothing is kept.
    #[serde(default)]
    pub trial: bool,
    /// When, RFC 3339 with the offset of the place.
    #[serde(default)]
    pub at: Option<String>,
    /// Who.
    #[serde(default)]
    pub who: Option<String>,
    /// Outdoor unit by its name in the job.
    pub outdoor: String,
    /// Cylinder, by its number.
    pub cylinder: String,
    /// Cylinder on the scale before: `9.462 kg`.
    pub before: String,
    /// And after.
    pub after: String,
    /// Limit of error of the scale: `5 g`.
    pub scale_within: String,
    /// Charge from the factory, where sheet and job do not say.
    #[serde(default)]
    pub factory: Option<String>,
    /// What the lines ask for, signed, where job and sheet do not say.
    #[serde(default)]
    pub trim: Option<String>,
    /// Refrigerant, where the sheet does not say.
    #[serde(default)]
    pub refrigerant: Option<String>,
    /// Initials of who opened the valves and put the caps on.
    #[serde(default)]
    pub opened: Option<String>,
    /// Number of the record this one corrects.
    #[serde(default)]
    pub corrects: Option<u64>,
    /// Why, for a correction.
    #[serde(default)]
    pub why: Option<String>,
}

/// Cylinders against systems.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct LedgerView {
    /// `holds` or `fails`.
    pub verdict: String,
    /// Not accounted for, kg; null where a movement is missing.
    pub unaccounted_kg: Option<f64>,
    /// In words.
    pub says: String,
}

/// What the scale said.
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema)]
pub struct WeighedView {
    /// `holds`, `fails`, `cannot tell`.
    pub verdict: String,
    /// Charge from the factory, kg.
    pub factory_kg: f64,
    /// What the lines ask for, signed, kg.
    pub trim_kg: f64,
    /// Went in, signed, and its limit of error, kg.
    pub added_kg: (f64, f64),
    /// In the system now, kg.
    pub total_kg: f64,
    /// In words.
    pub says: String,
    /// What to do.
    pub mend: String,
}

/// A weighing with its verdict.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ChargeView {
    /// Number of its record; null for a trial.
    pub n: Option<u64>,
    /// When.
    pub at: String,
    /// Who.
    pub who: String,
    /// Outdoor unit.
    pub outdoor: String,
    /// Whether weighing and release are in order: fails where the valves were opened before both
    /// tests hold.
    pub verdict: String,
    /// In words, the release with it.
    pub says: String,
    /// What to do, or what would tell.
    pub would_tell: String,
    /// The weighing alone.
    pub weighed: WeighedView,
    /// The tests as they stood then.
    pub before: Vec<BeforeView>,
    /// Who opened the valves.
    pub opened: Option<String>,
    /// Text of the label.
    pub label: String,
    /// As it was sent.
    pub typed: ChargeIn,
}

fn mass(place: &str, text: &str) -> Result<f64, Refused> {
    value(place, text, Dim::Mass)
}

fn known(place: &str, typed: Option<&String>, known: Option<f64>) -> Result<f64, Refused> {
    match (known, typed.filter(|t| !t.trim().is_empty())) {
        (Some(kg), _) => Ok(kg),
        (None, Some(t)) => mass(place, t),
        (None, None) => Err(Refused::bad(format!("{place} is missing"))
            .mend("neither sheet nor job say it: write it with its mass, as in 1.1 kg")),
    }
}

/// Judges a weighing against what the unit's lines ask for.
pub fn judged(
    c: &ChargeIn,
    unit: &Unit,
    at: Stamp,
    who: &str,
    before: Vec<BeforeView>,
) -> Result<ChargeView, Refused> {
    let fluid = match (unit.asked.refrigerant, &c.refrigerant) {
        (Some(f), _) => f,
        (None, Some(t)) => refrigerant(t)?,
        (None, None) => {
            return Err(Refused::bad("refrigerant is missing").mend("the sheet does not say it"));
        }
    };
    let cylinder = line(&c.cylinder, 60);
    if cylinder.is_empty() {
        return Err(Refused::bad("cylinder is missing").mend("write the number on the cylinder"));
    }
    let w = WeighIn {
        factory_kg: known("factory", c.factory.as_ref(), unit.view.factory_kg)?,
        trim_kg: known("trim", c.trim.as_ref(), unit.view.trim_kg)?,
        most_kg: unit.view.most_kg,
        before_kg: mass("before", &c.before)?,
        after_kg: mass("after", &c.after)?,
        scale_kg: mass("scale_within", &c.scale_within)?,
    };
    let a = weigh_in(&w).map_err(wrong)?;
    let opened = c.opened.as_deref().map(|o| line(o, 60));
    let opened = opened.filter(|o| !o.is_empty());
    let early: Vec<&str> = before
        .iter()
        .filter(|b| b.verdict != "holds")
        .map(|b| b.what.as_str())
        .collect();
    // `the pressure test holds`, `the pressure and the vacuum test hold`
    let (early, hold) = (
        early.join(" and the "),
        if early.len() > 1 { "hold" } else { "holds" },
    );
    let mut verdict = a.verdict.words();
    let (mut says, mut would_tell) = (a.says.clone(), a.mend.clone());
    match &opened {
        Some(who) if !early.is_empty() => {
            verdict = reckon::Verdict::Fails.words();
            says = format!(
                "{who} opened the valves, and nothing kept here says that the {early} test {hold}. {says}"
            );
            would_tell = format!(
                "If tested and tight, keep the readings here; if not, recover, and test. {would_tell}"
            );
        }
        Some(who) => says = format!("{says} Valves open, caps on: {who}."),
        None if !early.is_empty() => {
            would_tell =
                format!("Leave the valves shut until the {early} test {hold}. {would_tell}");
        }
        None => {}
    }
    let written = at.written();
    let on = written.get(..10).unwrap_or(&written);
    let text = label(fluid, &w, on, who);
    let typed = ChargeIn {
        cylinder,
        ..c.clone()
    };
    Ok(ChargeView {
        n: None,
        at: written,
        who: who.to_owned(),
        outdoor: unit.view.outdoor.clone(),
        verdict: verdict.to_owned(),
        says,
        would_tell: would_tell.trim().to_owned(),
        weighed: WeighedView {
            verdict: a.verdict.words().to_owned(),
            factory_kg: w.factory_kg,
            trim_kg: w.trim_kg,
            added_kg: a.added_kg,
            total_kg: a.total_kg,
            says: a.says,
            mend: a.mend,
        },
        before,
        opened,
        label: text,
        typed,
    })
}

/// As it is recorded: the form of `northwall charge`, with what was typed beside it.
pub fn says(v: &ChargeView) -> Result<Value, Refused> {
    let movement = Movement {
        cylinder: v.typed.cylinder.clone(),
        before_kg: mass("before", &v.typed.before)?,
        after_kg: mass("after", &v.typed.after)?,
        system_kg: v.weighed.trim_kg,
    };
    let own = ledger_of(&[movement]);
    Ok(json!({
        "outdoor": v.outdoor, "verdict": v.verdict, "says": v.says, "would_tell": v.would_tell,
        "weighed": v.weighed, "before": v.before, "opened": v.opened, "label": v.label,
        "ledger": own, "typed": v.typed,
    }))
}

/// A weighing as it was recorded here.
pub fn kept(r: &Record) -> Option<ChargeView> {
    let text = |at: &str| Some(r.says.pointer(at)?.as_str()?.to_owned());
    let before = r
        .says
        .get("before")?
        .as_array()?
        .iter()
        .map(|b| BeforeView {
            what: b["what"].as_str().unwrap_or_default().to_owned(),
            verdict: b["verdict"].as_str().unwrap_or_default().to_owned(),
            test: b["test"].as_str().map(str::to_owned),
        });
    Some(ChargeView {
        n: Some(r.n),
        at: r.at.clone(),
        who: r.who.clone(),
        outdoor: text("/outdoor")?,
        verdict: text("/verdict")?,
        says: text("/says")?,
        would_tell: text("/would_tell")?,
        weighed: serde_json::from_value(r.says.get("weighed")?.clone()).ok()?,
        before: before.collect(),
        opened: text("/opened"),
        label: text("/label")?,
        typed: serde_json::from_value(r.says.get("typed")?.clone()).ok()?,
    })
}

fn ledger_of(moved: &[Movement]) -> LedgerView {
    match balance(moved) {
        Ok((verdict, off, says)) => LedgerView {
            verdict: verdict.words().to_owned(),
            unaccounted_kg: Some(off),
            says,
        },
        Err(e) => LedgerView {
            verdict: reckon::Verdict::Fails.words().to_owned(),
            unaccounted_kg: None,
            says: format!("{} is {}; usable: {}.", e.what, e.got, e.usable),
        },
    }
}

/// All weighings together, in the order they were made.
pub fn ledger(all: &[ChargeView]) -> Option<LedgerView> {
    let moved: Vec<Movement> = all
        .iter()
        .filter_map(|c| {
            Some(Movement {
                cylinder: c.typed.cylinder.clone(),
                before_kg: mass("before", &c.typed.before).ok()?,
                after_kg: mass("after", &c.typed.after).ok()?,
                system_kg: c.weighed.trim_kg,
            })
        })
        .collect();
    (!moved.is_empty()).then(|| ledger_of(&moved))
}
