//! Figures of the heaters.

use jobfile::Carrier;
use reckon::{FormulaError, Source, in_key};
use units::Dim;

use super::pen::Pen;
use crate::input::Input;

/// Heat of each heater and what is bought for it.
pub(super) fn write(input: &Input<'_>, pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    let year = pen.year;
    for heater in &year.heaters {
        let base = format!("heater.{}", in_key(&heater.name));
        let k = |what: &str| format!("{base}.{what}");
        let name = &heater.name;
        pen.over_year(
            &k("hours"),
            &format!("hours {name} gives heat"),
            f64::from(heater.hours) * 3600.0,
            Dim::Hours,
            "hours with heat from it",
        );
        pen.over_year_with(
            &k("heat"),
            &format!("heat of {name}"),
            heater.heat_j,
            Dim::Heat,
            "what its rooms ask of it in every hour, up to its capacity",
            &[("t", &k("hours"))],
        );
        let existing = input.job.existing.as_ref().is_some_and(|e| e.name == *name);
        let place = if existing {
            "existing.efficiency".to_owned()
        } else {
            format!("backup.{name}.efficiency")
        };
        pen.given(
            &k("efficiency"),
            &format!("heat per energy bought of {name}"),
            heater.efficiency,
            Dim::Share,
            Source::job(place),
        );
        pen.reckon(
            &k("bought"),
            &format!("energy bought for {name}"),
            dim_of(heater.carrier),
            "Q / eta",
            &[("Q", &k("heat")), ("eta", &k("efficiency"))],
            "energy bought: heat over efficiency",
        )?;
    }
    Ok(())
}

pub(super) fn dim_of(carrier: Carrier) -> Dim {
    if carrier == Carrier::Electricity {
        Dim::ElectricEnergy
    } else {
        Dim::Heat
    }
}

/// COP at which heat from electricity costs as much as heat from each fuel.
pub(super) fn break_even(pen: &mut Pen<'_>) -> Result<(), FormulaError> {
    let year = pen.year;
    for heater in &year.heaters {
        let base = format!("heater.{}", in_key(&heater.name));
        let fuel = format!("house.price-{}", heater.carrier.word());
        let electric = "house.price-electricity";
        if heater.carrier == Carrier::Electricity || !pen.some(&fuel) || !pen.some(electric) {
            continue;
        }
        pen.reckon(
            &format!("{base}.break-even-cop"),
            &format!(
                "COP at which the heat pump costs as much as {}",
                heater.name
            ),
            Dim::Ratio,
            "pe * eta / pf",
            &[
                ("pe", electric),
                ("eta", &format!("{base}.efficiency")),
                ("pf", &fuel),
            ],
            "trade card F9",
        )?;
    }
    Ok(())
}
