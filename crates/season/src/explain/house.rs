//! Figures of the whole house.

use jobfile::Carrier;
use reckon::{FormulaError, Source, in_key};
use units::Dim;

use super::heater::{self, dim_of};
use super::pen::Pen;
use crate::bought::Bought;
use crate::input::Input;
use crate::line::Crossing;
use crate::year::LEFT_COLD_HOURS;

pub(super) fn write(input: &Input<'_>, pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    heat(pen)?;
    of_units(pen)?;
    money(input, pen)?;
    left_cold(pen);
    heater::break_even(pen)?;
    let year = pen.year;
    let electric = year.electric_peak;
    let what = "outdoor air in the hour of the largest electric power";
    if electric.w > 0.0 && pen.outdoor("house.peak-outdoor", what, electric.hour) {
        pen.over_year_with(
            "house.peak-electric",
            "largest electric power of units and electric heaters together",
            electric.w,
            Dim::ElectricPower,
            &format!("largest hour, {}", pen.hour(electric.hour)),
            &[("To", "house.peak-outdoor")],
        );
    }
    largest_heat(pen)?;
    if let Some(line) = year.need {
        super::room::line("house.need", "all rooms", line, pen);
        if year.design.is_some() {
            super::room::at_design("house.need", "all rooms", pen)?;
        }
    }
    if let Crossing::At(c) = year.balance {
        pen.over_year_with(
            "house.balance",
            "outdoor temperature at which all units together give what the house asks",
            c,
            Dim::Temperature,
            "where the greatest output of all units crosses the line of need",
            &[("q0", "house.need-at-0c"), ("b", "house.need-per-k")],
        );
    }
    Ok(())
}

/// The hour of the largest heat, by its own terms.
fn largest_heat(pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    let year = pen.year;
    let hour = year.heating_peak.hour;
    let at = |v: &[f64]| v.get(hour).copied().unwrap_or(0.0);
    let words = format!("{}, the largest of the house", pen.hour(hour));
    let what = "outdoor air in the hour of the largest heat";
    if !pen.outdoor("house.peak-heat-outdoor", what, hour) {
        return Ok(());
    }
    let outdoor = [("To", "house.peak-heat-outdoor")];
    for (key, what, value) in [
        (
            "house.peak-by-heads",
            "heat by heads in that hour",
            at(&year.heads_w),
        ),
        (
            "house.peak-by-heaters",
            "heat by heaters in that hour",
            at(&year.heaters_w),
        ),
    ] {
        pen.over_year_with(key, what, value, Dim::Power, &words, &outdoor);
    }
    pen.add_up(
        "house.peak",
        "largest hour of heat of the house",
        Dim::Power,
        &[
            "house.peak-by-heads".to_owned(),
            "house.peak-by-heaters".to_owned(),
        ],
    )?;
    Ok(())
}

/// Heat, by source, and shares.
fn heat(pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    let year = pen.year;
    let units: Vec<String> = year
        .units
        .iter()
        .map(|u| format!("unit.{}", in_key(&u.name)))
        .collect();
    let of = |what: &str| -> Vec<String> { units.iter().map(|u| format!("{u}.{what}")).collect() };
    let heaters: Vec<String> = year
        .heaters
        .iter()
        .map(|h| format!("heater.{}.heat", in_key(&h.name)))
        .collect();
    let called = year.units.iter().map(|u| &u.name);
    let called = called.chain(year.heaters.iter().map(|h| &h.name));
    pen.add_up(
        "house.heat-by-heads",
        "heat by heads",
        Dim::Heat,
        &of("heat"),
    )?;
    pen.add_up(
        "house.heat-by-heaters",
        "heat by heaters",
        Dim::Heat,
        &heaters,
    )?;
    pen.add_up(
        "house.heat",
        "heat into the house",
        Dim::Heat,
        &[
            "house.heat-by-heads".to_owned(),
            "house.heat-by-heaters".to_owned(),
        ],
    )?;
    if pen.some("house.heat") {
        for (key, what, part) in [
            (
                "house.heads-share",
                "share of the heat that comes from heads",
                "house.heat-by-heads",
            ),
            (
                "house.heaters-share",
                "share of the heat that comes from heaters",
                "house.heat-by-heaters",
            ),
        ] {
            let place = "trade card F8: share of heat";
            pen.reckon(
                key,
                what,
                Dim::Share,
                "Qs / Q",
                &[("Qs", part), ("Q", "house.heat")],
                place,
            )?;
        }
    }
    if pen.some("house.heat") {
        let sources = of("heat").into_iter().chain(heaters);
        for (heat, name) in sources.zip(called) {
            let base = heat.trim_end_matches(".heat");
            let share = format!("{base}.share");
            let what = format!("share of the house's heat that comes from {name}");
            let inputs = [("Qs", heat.as_str()), ("Q", "house.heat")];
            pen.reckon(
                &share,
                &what,
                Dim::Share,
                "Qs / Q",
                &inputs,
                "trade card F8: share of heat",
            )?;
        }
    }
    if units.is_empty() {
        return Ok(());
    }
    pen.add_up(
        "house.heating-electric",
        "electricity of units for heating",
        Dim::ElectricEnergy,
        &of("heating-electric"),
    )?;
    pen.add_up(
        "house.standby",
        "electricity of units for waiting",
        Dim::ElectricEnergy,
        &of("standby"),
    )?;
    if pen.some("house.heat-by-heads") && pen.some("house.heating-electric") {
        pen.reckon(
            "house.cop",
            "seasonal COP of all units, waiting included",
            Dim::Ratio,
            "Q / (E + W)",
            &[
                ("Q", "house.heat-by-heads"),
                ("E", "house.heating-electric"),
                ("W", "house.standby"),
            ],
            "seasonal COP: heat over electricity",
        )?;
    }
    Ok(())
}

/// What all units together give at design, and their hours on and off.
fn of_units(pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    let units = &pen.year.units;
    if units.is_empty() {
        return Ok(());
    }
    let of = |what: &str| -> Vec<String> {
        let key = |u: &crate::year::UnitYear| format!("unit.{}.{what}", in_key(&u.name));
        units.iter().map(key).collect()
    };
    let (most, cycling) = (of("most-at-design"), of("hours-cycling"));
    // A sum that lacks a unit would be read as that of all.
    if !most.is_empty() && most.iter().all(|k| pen.book.get(&pen.key(k)).is_some()) {
        let what = "most all units give at the design temperature";
        pen.add_up("house.units-give", what, Dim::Power, &most)?;
    }
    let what =
        "unit hours on and off, of all units: the least of a unit is more than its rooms ask";
    pen.add_up("house.hours-cycling", what, Dim::Hours, &cycling)?;
    Ok(())
}

/// How many rooms are under their setting too often.
fn left_cold(pen: &mut Pen<'_>) {
    let year = pen.year;
    let heated = year.rooms.iter().filter(|r| r.heated);
    let of: Vec<String> = heated
        .map(|r| format!("room.{}.hours-short-2k", in_key(&r.name)))
        .collect();
    let of: Vec<(&'static str, &str)> = of.iter().map(|k| ("h", k.as_str())).collect();
    pen.over_year_with(
        "house.rooms-left-cold",
        "rooms that are under their setting too often",
        year.rooms_left_cold() as f64,
        Dim::Count,
        &format!("rooms for which the hours that follow are more than {LEFT_COLD_HOURS}"),
        &of,
    );
}

/// How many gallons or therms of a fuel.
fn amount(bought: &Bought, energy: &str, pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    let (word, sold) = (bought.carrier.word(), &bought.sold_in);
    let (one, all) = (
        format!("house.heat-in-{word}"),
        format!("house.amount-{word}"),
    );
    let what = format!("heat in a {} of {word}", sold.name);
    pen.given(&one, &what, sold.joule, Dim::Heat, sold.source());
    let what = format!("{word} bought, {}", sold.name);
    let inputs = [("E", energy), ("e", one.as_str())];
    let place = "energy over the heat of a unit of sale";
    pen.reckon(&all, &what, Dim::Count, "E / e", &inputs, place)?;
    Ok(())
}

/// Energy, cost and carbon by carrier and in all.
fn money(input: &Input<'_>, pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    let year = pen.year;
    let (mut costs, mut carbons) = (Vec::new(), Vec::new());
    for bought in &year.bought {
        let word = bought.carrier.word();
        let mut parts: Vec<String> = year
            .heaters
            .iter()
            .filter(|h| h.carrier == bought.carrier)
            .map(|h| format!("heater.{}.bought", in_key(&h.name)))
            .collect();
        if bought.carrier == Carrier::Electricity {
            parts.extend(
                year.units
                    .iter()
                    .map(|u| format!("unit.{}.electric", in_key(&u.name))),
            );
        }
        let energy = format!("house.energy-{word}");
        pen.add_up(
            &energy,
            &format!("{word} bought"),
            dim_of(bought.carrier),
            &parts,
        )?;
        if bought.carrier != Carrier::Electricity {
            amount(bought, &energy, pen)?;
        }
        if let Some(per_j) = input.job.prices.per_j(bought.carrier) {
            let (price, cost) = (format!("house.price-{word}"), format!("house.cost-{word}"));
            let source = Source::job(format!("prices.{word}"));
            pen.given(
                &price,
                &format!("price of {word}"),
                per_j,
                Dim::EnergyPrice,
                source,
            );
            let inputs = [("E", energy.as_str()), ("p", price.as_str())];
            pen.reckon(
                &cost,
                &format!("cost of {word}"),
                Dim::Money,
                "E * p",
                &inputs,
                "energy times price",
            )?;
            costs.push(cost);
        }
        if let Some(carbon) = input.job.prices.carbon_of(bought.carrier) {
            let (per, kg) = (
                format!("house.carbon-per-{word}"),
                format!("house.carbon-{word}"),
            );
            let source = Source::new(carbon.source.clone(), carbon.place.clone());
            let what = format!("carbon of {word}");
            pen.given(&per, &what, carbon.kg_per_j, Dim::CarbonIntensity, source);
            let inputs = [("E", energy.as_str()), ("c", per.as_str())];
            pen.reckon(
                &kg,
                &what,
                Dim::Carbon,
                "E * c",
                &inputs,
                "energy times intensity",
            )?;
            carbons.push(kg);
        }
    }
    // A sum that lacks a part would be read as the whole.
    if costs.len() == year.bought.len() {
        pen.add_up("house.cost", "cost of the year", Dim::Money, &costs)?;
    }
    if carbons.len() == year.bought.len() {
        pen.add_up("house.carbon", "carbon of the year", Dim::Carbon, &carbons)?;
    }
    Ok(())
}
