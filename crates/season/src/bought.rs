//! What is bought over the year, what it costs, what carbon it carries.

use jobfile::{Carrier, Prices};
use reckon::Source;
use units::constants::{BTU_IT_J, KWH_J, THERM_J};

/// One carrier over the year.
#[derive(Debug, Clone, PartialEq)]
pub struct Bought {
    /// What.
    pub carrier: Carrier,
    /// Energy bought, J (higher heating value for fuels).
    pub energy_j: f64,
    /// Unit it is sold in, and energy of one, J.
    pub sold_in: SoldUnit,
    /// Cost; None if the job has no price.
    pub cost: Option<f64>,
    /// Carbon, kg; None if nothing is known of it.
    pub carbon_kg: Option<f64>,
}

impl Bought {
    pub(crate) fn of(carrier: Carrier, energy_j: f64, prices: &Prices) -> Self {
        Self {
            carrier,
            energy_j,
            sold_in: SoldUnit::of(carrier, prices),
            cost: prices.per_j(carrier).map(|p| p * energy_j),
            carbon_kg: prices.carbon_of(carrier).map(|c| c.kg_per_j * energy_j),
        }
    }

    /// How many units of sale.
    pub fn amount(&self) -> f64 {
        self.energy_j / self.sold_in.joule
    }
}

/// A unit of sale: kWh, gal, therm.
#[derive(Debug, Clone, PartialEq)]
pub struct SoldUnit {
    /// Name: `gal`.
    pub name: String,
    /// Energy of one, J.
    pub joule: f64,
}

impl SoldUnit {
    /// The unit of the price as typed; without a price kWh, therm or million Btu.
    pub fn of(carrier: Carrier, prices: &Prices) -> Self {
        let typed = prices
            .by_carrier
            .iter()
            .find(|(c, _)| *c == carrier)
            .and_then(|(_, p)| Self::of_price(&p.typed, p.per_j));
        typed.unwrap_or_else(|| {
            let (name, joule) = match carrier {
                Carrier::Electricity => ("kWh", KWH_J),
                Carrier::Gas => ("therm", THERM_J),
                Carrier::Oil | Carrier::Propane | Carrier::Wood => ("MMBtu", 1e6 * BTU_IT_J),
            };
            Self {
                name: name.to_owned(),
                joule,
            }
        })
    }

    /// Where the energy of one comes from: heating values of fuels, or the unit itself.
    pub fn source(&self) -> Source {
        match self.name.as_str() {
            "gal" | "L" | "ccf" | "m3" => Source::new("40-cfr-98", "table C-1"),
            "cord" => Source::new("from-memory", "a cord of hardwood"),
            _ => Source::new("nist-sp811", "appendix B"),
        }
    }

    /// The price in money a unit over the price in money a joule is the joules of the unit.
    fn of_price(typed: &str, per_j: f64) -> Option<Self> {
        let (money, name) = typed.split_once('/')?;
        let cents = if money.contains("cent") { 0.01 } else { 1.0 };
        let digits: String = money
            .chars()
            .filter(|c| c.is_ascii_digit() || *c == '.')
            .collect();
        let price = digits.parse::<f64>().ok()? * cents;
        let joule = price / per_j;
        (joule.is_finite() && joule > 0.0).then(|| Self {
            name: name.trim().to_owned(),
            joule,
        })
    }
}
