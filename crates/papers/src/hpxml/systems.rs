//! What heats: the plant that stays, and the heat pumps with the points of their sheets.

use heatpump::{Running, Sheet, TestPoint};
use jobfile::{Carrier, Heater, HeaterKind, OutdoorChoice};
use units::Dim;

use super::export::{identifier, number};
use super::tree::Element;
use crate::desk::Input;
use reckon::in_key;

pub(super) fn systems(input: &Input<'_>) -> Element {
    let mut plant = Element::new("HVACPlant");
    let existing = input.job.existing.iter().filter(|h| h.stays);
    let heaters: Vec<&Heater> = existing.chain(input.job.backup.iter()).collect();
    for (i, h) in heaters.iter().enumerate() {
        plant = plant.holds(heater(input, i, h));
    }
    for (i, o) in input.job.equipment.outdoors.iter().enumerate() {
        plant = plant.holds(heat_pump(input, i, o, !heaters.is_empty()));
    }
    let hvac = if plant.children.is_empty() {
        Element::new("HVAC")
    } else {
        Element::new("HVAC").holds(plant)
    };
    Element::new("Systems").holds(hvac)
}

fn fuel(carrier: Carrier) -> &'static str {
    match carrier {
        Carrier::Electricity => "electricity",
        Carrier::Gas => "natural gas",
        Carrier::Oil => "fuel oil",
        Carrier::Propane => "propane",
        Carrier::Wood => "wood",
    }
}

fn heater(input: &Input<'_>, at: usize, h: &Heater) -> Element {
    let kind = match h.kind {
        HeaterKind::Boiler => "Boiler",
        HeaterKind::Furnace => "Furnace",
        HeaterKind::Baseboard => "ElectricResistance",
        HeaterKind::Stove => "Stove",
    };
    let efficiency = Element::new("AnnualHeatingEfficiency")
        .says("Units", "Percent")
        .says("Value", number_of_share(h.efficiency));
    let share = input
        .plan
        .value(&format!("season.chosen.heater.{}.share", in_key(&h.name)));
    Element::new("HeatingSystem")
        .holds(identifier(
            "SystemIdentifier",
            &format!("heater-{}", at + 1),
            &h.name,
        ))
        .holds(Element::new("HeatingSystemType").holds(Element::new(kind)))
        .says("HeatingSystemFuel", fuel(h.carrier))
        .may_say(
            "HeatingCapacity",
            h.capacity_w.map(|w| number(w, Dim::Power)),
        )
        .holds(efficiency)
        .may_say(
            "FractionHeatLoadServed",
            share.map(|s| number_of_share(s.0)),
        )
}

/// A share of one, in hundredths.
fn number_of_share(share: f64) -> String {
    format!("{:.2}", share.clamp(0.0, 1.0))
}

fn heat_pump(input: &Input<'_>, at: usize, o: &OutdoorChoice, backup: bool) -> Element {
    let sheet = input.catalogue.get(&o.unit);
    let paperwork = &input.job.paperwork;
    let certificate = paperwork.programme.as_ref().and_then(|p| {
        let found = p.certificates.iter().find(|(of, _)| *of == o.name);
        found.map(|(_, number)| number.clone())
    });
    let path = format!("outdoor.{}", o.name);
    let unit = input.units().into_iter().find(|u| u.path == path);
    let serial = unit
        .as_ref()
        .and_then(|u| u.serials.first().map(|s| (*s).to_owned()));
    let made = unit.and_then(|u| u.made).map(|y| y.to_string());
    let rated = |f: f64| {
        sheet
            .and_then(|s| rated_near(s, f))
            .map(|w| number(w, Dim::Power))
    };
    let share = input
        .plan
        .value(&format!("season.chosen.unit.{}.share", in_key(&o.name)));
    let mut out = Element::new("HeatPump")
        .holds(identifier(
            "SystemIdentifier",
            &format!("heat-pump-{}", at + 1),
            &o.name,
        ))
        .may_say("ModelYear", made)
        .says("ModelNumber", o.unit.clone())
        .may_say("SerialNumber", serial)
        .may_say("AHRINumber", certificate)
        .says("HeatPumpType", "mini-split")
        .says("HeatPumpFuel", "electricity")
        .may_say("HeatingCapacity", rated(47.0))
        .may_say("HeatingCapacity17F", rated(17.0));
    if backup {
        out = out
            .says("BackupType", "separate")
            .holds(Element::new("BackupSystem").with("idref", "heater-1"));
    }
    out = out.may_say(
        "FractionHeatLoadServed",
        share.map(|s| number_of_share(s.0)),
    );
    let points: Vec<Element> = sheet
        .map(|s| s.heating.iter().flat_map(points).collect())
        .unwrap_or_default();
    out.holds_all("HeatingDetailedPerformanceData", points)
}

/// Rated output at this outdoor temperature, F, where the sheet has that point; what it gives at
/// the most where it has no rated state there.
fn rated_near(sheet: &Sheet, outdoor_f: f64) -> Option<f64> {
    let near = |p: &&TestPoint| (p.outdoor_c * 1.8 + 32.0 - outdoor_f).abs() < 0.6;
    let point = sheet.heating.iter().find(near)?;
    point.rated.or(point.max).map(|r| r.capacity_w)
}

fn points(p: &TestPoint) -> Vec<Element> {
    let states: [(&str, Option<Running>); 3] =
        [("minimum", p.min), ("nominal", p.rated), ("maximum", p.max)];
    let said = |(word, running): (&str, Option<Running>)| {
        let running = running?;
        let mut out = Element::new("PerformanceDataPoint")
            .says("OutdoorTemperature", number(p.outdoor_c, Dim::Temperature))
            .says("Capacity", number(running.capacity_w, Dim::Power))
            .says("CapacityDescription", word);
        let cop = running.cop();
        if cop.is_finite() && cop > 0.0 {
            let efficiency = Element::new("Efficiency")
                .says("Units", "COP")
                .says("Value", number(cop, Dim::Ratio));
            out = out.holds(efficiency);
        }
        Some(out)
    };
    states.into_iter().filter_map(said).collect()
}
