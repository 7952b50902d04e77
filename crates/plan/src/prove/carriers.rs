//! What energy carries in carbon and heat, and at which COP two kinds of heat cost the same.

use jobfile::{Carrier, amount_j};
use season::break_even_cop;
use units::constants::{BTU_IT_J, KWH_J, POUND_KG, THERM_J};

use super::Check;

const FUELS: &str = "40 CFR 98, table C-1";
const GRID: &str = "eGRID2023, state total output rate";
const CARD: &str = "trade card F9";
static JOB: &str = include_str!("../../../../jobs/lake-street/job.toml");

pub(super) fn checks() -> Vec<Check> {
    let mut all = Vec::new();
    for (carrier, unit, btu) in [
        (Carrier::Oil, "1 gal", 138_000.0),
        (Carrier::Propane, "1 gal", 91_000.0),
        (Carrier::Gas, "1 ccf", 102_600.0),
    ] {
        let check = Check::new(
            format!("heat-{}", carrier.word()),
            format!("heat of {unit} of {}, higher value", carrier.word()),
            FUELS,
        );
        all.push(match amount_j(unit, carrier) {
            // Exact: the same factor read and divided out again; a billionth is rounding.
            Some(j) => check.near(btu, 1e-6, j / BTU_IT_J, 0, "Btu"),
            None => check.cannot_tell("", "the amount does not read"),
        });
    }
    for (carrier, kg) in [
        (Carrier::Oil, 73.96),
        (Carrier::Propane, 62.87),
        (Carrier::Gas, 53.06),
    ] {
        let what = format!("carbon of {} a million Btu", carrier.word());
        let check = Check::new(format!("carbon-{}", carrier.word()), what, FUELS);
        all.push(match carbon("illinois", carrier) {
            Some(c) => check.near(kg, 1e-9, c * 1e6 * BTU_IT_J, 2, "kg"),
            None => check.cannot_tell("", "the job does not read"),
        });
    }
    for (state, lb) in [
        ("minnesota", 752.3),
        ("vermont", 52.2),
        ("maine", 316.8),
        ("usa", 770.9),
    ] {
        let what = format!("carbon of electricity in {state}, a MWh");
        let check = Check::new(format!("grid-{state}"), what, GRID);
        all.push(match carbon(state, Carrier::Electricity) {
            // The list prints one decimal.
            Some(c) => check.near(lb, 0.05, c * 1000.0 * KWH_J / POUND_KG, 1, "lb"),
            None => check.cannot_tell("", "the job does not read"),
        });
    }
    let gallon = |btu: f64| btu * BTU_IT_J;
    for (id, what, electricity, fuel_per_j, efficiency, want) in [
        (
            "propane",
            "propane at 2.80 a gallon",
            0.25,
            2.80 / gallon(91_300.0),
            0.85,
            2.03,
        ),
        (
            "oil",
            "oil at 3.90 a gallon",
            0.25,
            3.90 / gallon(138_500.0),
            0.82,
            2.13,
        ),
        (
            "gas",
            "gas at 1.60 a therm",
            0.25,
            1.60 / THERM_J,
            0.92,
            4.21,
        ),
        (
            "gas-cheap",
            "gas at 1.20 a therm, power at 0.14",
            0.14,
            1.20 / THERM_J,
            0.92,
            3.15,
        ),
    ] {
        let check = Check::new(
            format!("break-even-{id}"),
            format!("COP of equal cost: {what}"),
            CARD,
        );
        let got = break_even_cop(electricity / KWH_J, fuel_per_j, efficiency);
        // Printed to two decimals there.
        all.push(check.near(want, 0.006, got, 2, ""));
    }
    all
}

/// Carbon of a carrier by the job file of the example, in a state, kg/J.
fn carbon(state: &str, carrier: Carrier) -> Option<f64> {
    let text = JOB.replace("grid = \"illinois\"", &format!("grid = \"{state}\""));
    let job = jobfile::read(&text).ok()?;
    job.prices.carbon_of(carrier).map(|c| c.kg_per_j)
}
