//! Circuit from the plate, and the panel by calculation and by measurement.

mod circuit;
mod fault;
mod panel;

use jobfile::Circuit;
use reckon::Level;
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card, sheet};
use crate::rules::Rules;

const EDITION: Rule = Rule {
    name: "electrical-edition",
    level: Level::Ask,
    what: "edition of the electrical code",
    mend: "Write electrical in [codes].",
    tell: "Ask the building office; the default is used until then.",
};
const PLATE: Rule = Rule {
    name: "plate-order",
    level: Level::Stop,
    what: "largest breaker of the plate against its least ampacity",
    mend: "The plate is typed wrong: look again.",
    tell: "Read MCA and MOCP from the plate.",
};

/// Judges circuits and panel.
pub(crate) fn judge(input: &Input<'_>, rules: &Rules, desk: &mut Desk) {
    if input.job.equipment.outdoors.is_empty() {
        return;
    }
    let codes = &input.job.installation.codes;
    let name = codes
        .electrical
        .as_deref()
        .unwrap_or(&rules.electrical.default);
    let edition = rules.electrical.edition.get(name);
    if codes.electrical.is_none() {
        desk.must(
            &EDITION,
            "codes",
            None,
            &format!("default: {name}"),
            "the edition in force",
            card("finding 4"),
        );
    } else if edition.is_none() {
        desk.must(
            &EDITION,
            "codes",
            None,
            name,
            "an edition of data/rules/electrical",
            card("finding 4"),
        );
    }
    let none = Circuit::default();
    let mut ampacities = Vec::new();
    for (outdoor, unit) in input.outdoors() {
        let all = &input.job.installation.circuits;
        let circuit = all
            .iter()
            .find(|c| c.outdoor == outdoor.name)
            .unwrap_or(&none);
        let place = format!("outdoor.{}", outdoor.name);
        let key = |what: &str| format!("wires.{}.{what}", outdoor.name);
        if let Some(unit) = unit {
            let of = sheet(&unit.name, unit.plate.page.as_ref());
            for (k, what, v, dim) in [
                (
                    "mca",
                    "least ampacity of the circuit",
                    unit.plate.mca_a,
                    Dim::Current,
                ),
                ("mocp", "largest breaker", unit.plate.mocp_a, Dim::Current),
                (
                    "plate-volts",
                    "voltage of the plate",
                    unit.plate.volts_v,
                    Dim::Voltage,
                ),
            ] {
                if let Some(v) = v {
                    desk.given(key(k), what, v, dim, of.clone());
                }
            }
            desk.at_least(&PLATE, &place, Some(&key("mocp")), Some(&key("mca")), of);
        }
        ampacities.push(key("mca"));
        circuit::judge(desk, circuit, &key, &place);
        fault::judge(input, desk, circuit, name, edition, &place);
    }
    panel::judge(input, desk, name, edition, &ampacities);
}
