//! What energy is sold by: the units of prices and bills, heating values, carbon.
//!
//! The figures are in `data/fuels.toml` and `data/grid_carbon.toml`, with their sources.

use toml_edit::Document;
use units::constants::{BTU_IT_J, FOOT_M, GALLON_M3, KWH_J, POUND_KG, THERM_J};

use crate::{Carbon, Carrier};

static FUELS: &str = include_str!("../../../data/fuels.toml");
static GRID: &str = include_str!("../../../data/grid_carbon.toml");

/// Energy in one unit of what is sold, J (higher heating value for fuels), by the unit's name.
///
/// **Equation** `J = Btu x 1055.056`, and for litres and cubic metres by volume.
/// **Symbols** Btu: heating value of the unit, Btu (international table).
/// **Range** the units listed.
/// **Source** `40-cfr-98` table C-1; wood `from-memory`, a cord `common-practice`.
/// **Example** a gallon of oil is 138,000 Btu, 145.6 MJ.
pub(crate) fn sold_by(carrier: Carrier) -> Vec<(&'static str, f64)> {
    let mmbtu = ("MMBtu", 1e6 * BTU_IT_J);
    let litre = 0.001 / GALLON_M3;
    match carrier {
        Carrier::Electricity => vec![("kWh", KWH_J), ("MWh", 1000.0 * KWH_J)],
        Carrier::Oil | Carrier::Propane => {
            let gallon = heating_value(carrier, "gal");
            vec![("gal", gallon), ("L", gallon * litre), mmbtu]
        }
        Carrier::Gas => {
            let foot = heating_value(carrier, "ft3");
            vec![
                ("therm", THERM_J),
                ("ccf", 100.0 * foot),
                ("m3", foot / (FOOT_M * FOOT_M * FOOT_M)),
                ("kWh", KWH_J),
                mmbtu,
            ]
        }
        Carrier::Wood => vec![
            ("cord", heating_value(carrier, "cord")),
            ("ton", heating_value(carrier, "ton")),
            mmbtu,
        ],
    }
}

/// Heating value, J per unit. Zero, and so no unit at all, if the table in `data/` lacks it.
fn heating_value(carrier: Carrier, unit: &str) -> f64 {
    let btu = Document::parse(FUELS).ok().and_then(|d| {
        d.as_table()
            .get(carrier.word())?
            .get("btu")?
            .get(unit)?
            .as_float()
    });
    btu.unwrap_or(0.0) * BTU_IT_J
}

/// Names of price units: `/gal`.
pub(crate) fn price_units(carrier: Carrier) -> Vec<String> {
    sold_by(carrier)
        .iter()
        .map(|(name, _)| format!("/{name}"))
        .collect()
}

/// How a price is written.
pub(crate) fn price_example(carrier: Carrier) -> &'static str {
    match carrier {
        Carrier::Electricity => "0.22 /kWh",
        Carrier::Oil => "3.90 /gal",
        Carrier::Propane => "2.80 /gal",
        Carrier::Gas => "1.60 /therm",
        Carrier::Wood => "350 /cord",
    }
}

/// Reads a price to money per J. `None` if it does not read, or is not above nothing.
pub(crate) fn price_per_j(text: &str, carrier: Carrier) -> Option<f64> {
    let (money, unit) = text.split_once('/')?;
    let money = money.trim().trim_start_matches(['$', '€', '£']).trim();
    let (money, hundredth) = match money.strip_suffix("cents").or(money.strip_suffix("cent")) {
        Some(cents) => (cents.trim(), 0.01),
        None => (money, 1.0),
    };
    let money: f64 = money
        .parse()
        .ok()
        .filter(|m: &f64| m.is_finite() && *m >= 0.0)?;
    let joules = unit_of(unit.trim(), carrier)?;
    Some(money * hundredth / joules)
}

/// Reads an amount bought, `620 gal`, to J (higher heating value). `None` if it does not read.
pub fn amount_j(text: &str, carrier: Carrier) -> Option<f64> {
    let text = text.trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ','))?;
    let (number, unit) = text.split_at_checked(end)?;
    let number: f64 = number.replace(',', "").parse().ok()?;
    Some(number * unit_of(unit.trim(), carrier)?).filter(|j| j.is_finite())
}

fn unit_of(name: &str, carrier: Carrier) -> Option<f64> {
    let wanted = name.to_lowercase();
    let found = sold_by(carrier).into_iter().find(|(n, _)| {
        let n = n.to_lowercase();
        wanted == n || (wanted == format!("{n}s"))
    });
    found.map(|(_, joules)| joules).filter(|j| *j > 0.0)
}

/// Carbon of a fuel by the table; `None` for electricity, which depends on the grid.
pub(crate) fn fuel_carbon(carrier: Carrier) -> Option<Carbon> {
    let document = Document::parse(FUELS).ok()?;
    let fuel = document.as_table().get(carrier.word())?;
    Some(Carbon {
        kg_per_j: fuel.get("kg_per_mmbtu")?.as_float()? / (1e6 * BTU_IT_J),
        source: fuel.get("source")?.as_str()?.to_owned(),
        place: fuel.get("place")?.as_str()?.to_owned(),
    })
}

/// Carbon of electricity in a state, by its name or two letters.
pub(crate) fn grid_carbon(state: &str) -> Option<Carbon> {
    let wanted = state.trim().to_lowercase();
    let document = Document::parse(GRID).ok()?;
    let (name, row) =
        document
            .as_table()
            .get("state")?
            .as_table()?
            .iter()
            .find(|(name, row)| {
                let code = row
                    .get("code")
                    .and_then(toml_edit::Item::as_str)
                    .unwrap_or("");
                *name == wanted || code.to_lowercase() == wanted
            })?;
    let rate = row.get("lb_per_mwh")?;
    let lb_per_mwh = rate
        .as_float()
        .or_else(|| rate.as_integer().map(|i| i as f64))?;
    Some(Carbon {
        kg_per_j: lb_per_mwh * POUND_KG / (1000.0 * KWH_J),
        source: "egrid2023".to_owned(),
        place: format!("field STC2ERTA, {name}"),
    })
}

/// Names of the states of [`grid_carbon`].
pub(crate) fn grid_states() -> Vec<String> {
    let Ok(document) = Document::parse(GRID) else {
        return Vec::new();
    };
    let states = document
        .as_table()
        .get("state")
        .and_then(toml_edit::Item::as_table);
    states.map_or_else(Vec::new, |t| {
        t.iter().map(|(name, _)| name.to_owned()).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Values: 40 CFR 98 table C-1 as in checks/published.md section 10. Exact, same arithmetic.
    #[test]
    fn fuels_are_as_published() {
        assert_eq!(
            price_per_j("3.90 /gal", Carrier::Oil),
            Some(3.9 / (138_000.0 * BTU_IT_J))
        );
        assert_eq!(
            price_per_j("$2.80/gal", Carrier::Propane),
            Some(2.8 / (91_000.0 * BTU_IT_J))
        );
        assert_eq!(
            price_per_j("22 cents/kWh", Carrier::Electricity),
            Some(22.0 * 0.01 / 3.6e6)
        );
        assert_eq!(
            amount_j("1,000 ccf", Carrier::Gas),
            Some(1000.0 * (100.0 * (1026.0 * BTU_IT_J)))
        );
        assert_eq!(amount_j("620 gal", Carrier::Electricity), None);
        assert_eq!(price_per_j("-1 /gal", Carrier::Oil), None);
        for (carrier, kg) in [
            (Carrier::Oil, 73.96),
            (Carrier::Propane, 62.87),
            (Carrier::Gas, 53.06),
        ] {
            let carbon = fuel_carbon(carrier).map(|c| c.kg_per_j);
            assert_eq!(carbon, Some(kg / (1e6 * BTU_IT_J)), "{}", carrier.word());
        }
    }

    /// Every state to the last digit that eGRID2023 prints, as codecarbon 3.3.2 carries it
    /// (checks/grid_codecarbon.py); lb/MWh and back leaves the last bits.
    #[test]
    fn states_are_as_published() {
        let kept = include_str!("../../../checks/values/grid_carbon.csv");
        let rows = kept.lines().filter(|l| !l.starts_with('#')).skip(1);
        let mut read = Vec::new();
        for (state, lb) in rows.filter_map(|row| row.rsplit_once(',')) {
            let lb: f64 = lb.parse().unwrap_or(f64::NAN);
            let got = grid_carbon(state).map_or(0.0, |c| c.kg_per_j);
            let got = got * 1000.0 * KWH_J / POUND_KG;
            assert!(
                (got - lb).abs() < 1e-12 * lb,
                "{state}: {got}, printed {lb}"
            );
            read.push(state.to_owned());
        }
        let mut ours = grid_states();
        read.sort();
        ours.sort();
        assert_eq!(read, ours);
        assert_eq!(
            grid_carbon("VT").map(|c| c.kg_per_j),
            grid_carbon("Vermont").map(|c| c.kg_per_j)
        );
        assert_eq!(grid_states().len(), 52);
        assert!(grid_carbon("atlantis").is_none());
    }
}
