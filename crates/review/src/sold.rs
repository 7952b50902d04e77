//! Energy in what is sold, by the unit that utilities print.

use jobfile::Carrier;

use crate::Refused;

/// J (higher heating value) in one unit of a carrier.
///
/// **Equation** `J = value of the unit`
///
/// **Symbols**
/// - carrier: what is bought
/// - unit: name of the unit as printed on the bill
///
/// **Range** kWh, Wh, MWh; gal, L, MMBtu; therm, ccf, Mcf, ft3, m3, dth, GJ; cord, ton
///
/// **Source** `cfr-40-98`, table C-1, through the fuels table of the job file
///
/// **Example** a gallon of oil is 138,000 Btu
/// ```
/// let j = review::unit_j(jobfile::Carrier::Oil, "gal").unwrap();
/// assert_eq!(j, 138_000.0 * units::constants::BTU_IT_J);
/// ```
///
/// # Errors
/// A unit in which that carrier is not sold.
pub fn unit_j(carrier: Carrier, unit: &str) -> Result<f64, Refused> {
    let clean = unit.trim().trim_matches(['(', ')', '.']).to_lowercase();
    let (factor, name) = match clean.as_str() {
        "wh" => (0.001, "kWh"),
        "gallon" | "gallons" | "gals" => (1.0, "gal"),
        "liter" | "litre" | "liters" | "litres" | "l" => (1.0, "L"),
        "therms" | "thm" | "th" => (1.0, "therm"),
        "mcf" => (10.0, "ccf"),
        "cf" | "ft3" => (0.01, "ccf"),
        "hcf" => (1.0, "ccf"),
        "m³" => (1.0, "m3"),
        "dth" | "dekatherm" | "dekatherms" => (1.0, "MMBtu"),
        other => (1.0, other),
    };
    if clean == "gj" {
        return Ok(1e9);
    }
    amount_j(carrier, &format!("1 {name}"))
        .map(|j| j * factor)
        .ok_or_else(|| {
            Refused::new(
                format!("{} is not sold in this unit", carrier.word()),
                format!("\"{}\"", unit.trim()),
                usable(carrier),
                "give the unit that the bill prints",
            )
        })
}

/// An amount bought with its unit, `620 gal`, to J; `None` if it does not read.
pub fn amount_j(carrier: Carrier, text: &str) -> Option<f64> {
    jobfile::amount_j(text, carrier)
}

fn usable(carrier: Carrier) -> &'static str {
    match carrier {
        Carrier::Electricity => "kWh, Wh, MWh",
        Carrier::Oil | Carrier::Propane => "gal, L, MMBtu",
        Carrier::Gas => "therm, ccf, Mcf, ft3, m3, dth, MMBtu, GJ, kWh",
        Carrier::Wood => "cord, ton, MMBtu",
    }
}
