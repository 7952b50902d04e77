//! From line lengths to added charge, total, the smallest room, the label and the ledger.

mod ledger;
mod rooms;
mod trim;

use heatpump::Sheet;
use jobfile::OutdoorChoice;

use crate::Input;
use crate::desk::Desk;
use crate::rules::Rules;

/// Judges charge; gives the label texts.
pub(crate) fn judge(input: &Input<'_>, rules: &Rules, desk: &mut Desk) -> Vec<String> {
    let mut labels = Vec::new();
    for (outdoor, unit) in input.outdoors() {
        let Some(unit) = unit else { continue };
        let place = format!("outdoor.{}", outdoor.name);
        ledger::legal(input, rules, desk, unit, &place);
        let total = trim::total(input, desk, outdoor, unit, &place);
        rooms::judge(input, rules, desk, outdoor, unit, total.is_some());
        ledger::judge(input, desk, outdoor, unit, &place);
        if total.is_some() {
            labels.push(label(input, desk, outdoor, unit));
        }
    }
    labels
}

fn key_of(outdoor: &OutdoorChoice, what: &str) -> String {
    format!("charge.{}.{what}", outdoor.name)
}

fn label(input: &Input<'_>, desk: &Desk, outdoor: &OutdoorChoice, unit: &Sheet) -> String {
    let w = |what: &str| desk.words(&key_of(outdoor, what));
    let added = if desk.book.get(&key_of(outdoor, "built")).is_some() {
        "built"
    } else {
        "to-weigh"
    };
    format!(
        "{} | {} | factory charge {} | added {} | total {} | installed {}",
        outdoor.name,
        unit.refrigerant
            .as_deref()
            .unwrap_or("refrigerant not on the sheet"),
        w("factory"),
        w(added),
        w("total"),
        input
            .job
            .installation
            .codes
            .install_day
            .as_deref()
            .unwrap_or("(day)"),
    )
}
