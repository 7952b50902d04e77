//! Above which outdoor temperature the heat pump is the cheaper heat.

use jobfile::{Carrier, Prices};

use crate::line::Crossing;
use crate::year::{UnitYear, Year};

/// COP at which heat from electricity costs as much as heat from a fuel.
///
/// **Equation** COP = pe eta / pf
///
/// **Symbols** pe, pf price of electricity and of the fuel, money/J; eta heat per energy bought of
/// the fuel's heater
///
/// **Range** prices above 0, efficiency above 0
///
/// **Source** trade-card-f9
///
/// **Example** electricity at 0.25 a kWh against propane at 2.80 a gallon of 91,300 Btu, 0.85:
/// ```
/// let fuel_per_j = 2.80 / (91_300.0 * 1055.05585262);
/// let cop = season::break_even_cop(0.25 / 3.6e6, fuel_per_j, 0.85);
/// assert!((cop - 2.03).abs() < 0.005);
/// ```
pub fn break_even_cop(electricity_per_j: f64, fuel_per_j: f64, efficiency: f64) -> f64 {
    electricity_per_j * efficiency / fuel_per_j
}

/// Heat pump against a heater by price.
#[derive(Debug, Clone, PartialEq)]
pub struct Switchover {
    /// Heater.
    pub heater: String,
    /// What it is called in a sentence.
    pub words: String,
    /// What it burns.
    pub carrier: Carrier,
    /// COP at which both cost the same, at the job's prices.
    pub break_even_cop: f64,
    /// The same with the fuel a fifth dearer and a fifth cheaper.
    pub fuel_dearer_cop: f64,
    /// The same with the fuel a fifth cheaper.
    pub fuel_cheaper_cop: f64,
    /// By unit: outdoor temperature above which it is the cheaper heat.
    pub above: Vec<(String, Crossing)>,
}

/// A fifth up or down, as the card asks.
const BAND: f64 = 0.2;

impl Year {
    /// Switchover against every heater that burns a fuel with a price; empty without prices.
    pub fn switchover(&self, prices: &Prices) -> Vec<Switchover> {
        let Some(electricity) = prices.per_j(Carrier::Electricity) else {
            return Vec::new();
        };
        self.heaters
            .iter()
            .filter(|h| h.carrier != Carrier::Electricity)
            .filter_map(|h| {
                let fuel = prices.per_j(h.carrier).filter(|p| *p > 0.0)?;
                let cop = |factor: f64| break_even_cop(electricity, fuel * factor, h.efficiency);
                Some(Switchover {
                    heater: h.name.clone(),
                    words: h.words.clone(),
                    carrier: h.carrier,
                    break_even_cop: cop(1.0),
                    fuel_dearer_cop: cop(1.0 + BAND),
                    fuel_cheaper_cop: cop(1.0 - BAND),
                    above: self
                        .units
                        .iter()
                        .map(|u| (u.name.clone(), u.cheaper_above(cop(1.0))))
                        .collect(),
                })
            })
            .collect()
    }
}

impl UnitYear {
    /// The outdoor temperature down to which, from mild to cold, its COP by the hours of the year
    /// stays at `cop` or more. Looks at heating hours in steps of 2 K from 10 C down; mild hours
    /// in which it cycles are not looked at.
    pub fn cheaper_above(&self, cop: f64) -> Crossing {
        let mut before: Option<(f64, f64)> = None;
        for point in self.cop_by_bin.iter().rev() {
            if point.cop < cop {
                return match before {
                    None => Crossing::WarmerThan(point.outdoor_c),
                    Some((at, over)) => {
                        let share = (cop - point.cop) / (over - point.cop);
                        Crossing::At(point.outdoor_c + share * (at - point.outdoor_c))
                    }
                };
            }
            before = Some((point.outdoor_c, point.cop));
        }
        before.map_or(Crossing::None, |(c, _)| Crossing::ColderThan(c))
    }
}
