//! From the line of the bills to the heat loss of the house and its load on the design night.

use jobfile::{Carrier, Heater, HeaterKind};
use reckon::Known;

use crate::line::Line;
use crate::{Band, Refused, YearOfDays, product, sum};

/// Something the bills do not say, with its range.
#[derive(Debug, Clone, PartialEq)]
pub struct Unknown {
    /// Stable name: `efficiency`.
    pub name: &'static str,
    /// In words.
    pub what: String,
    /// Its range; shares and ratios plain.
    pub band: Band,
    /// How it is known.
    pub known: Known,
}

/// What is bought for heat, and its line.
#[derive(Debug, Clone, PartialEq)]
pub struct Heats {
    /// What.
    pub carrier: Carrier,
    /// Its line.
    pub line: Line,
    /// Heat that the house gets per energy bought.
    pub efficiency: Band,
    /// Heat loss that it carries, W/K.
    pub loss_w_per_k: Band,
}

/// Heat loss by the bills.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatLoss {
    /// Carriers, the largest first.
    pub heats: Vec<Heats>,
    /// Heat from wood, W/K.
    pub wood_w_per_k: Band,
    /// Hot water that grows in winter with the cold mains, W/K; taken off.
    pub mains_w_per_k: Band,
    /// Of the house, W/K.
    pub loss_w_per_k: Band,
    /// Balance point of the largest carrier, C.
    pub balance_c: Band,
    /// Load on the design night without free heat, W.
    pub load_w: Band,
    /// Load on the design night with the free heat of an average day, W.
    pub with_free_heat_w: Band,
    /// What the bills do not say.
    pub unknowns: Vec<Unknown>,
}

/// What else is known.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked<'a> {
    /// What burns the fuel.
    pub heater: Option<&'a Heater>,
    /// Wood of a winter, J; `None` where nothing was said.
    pub wood_j: Option<f64>,
    /// Indoor less outdoor on the design night, K: of the survey, or of the settings.
    pub across_k: f64,
    /// Outdoor on the design night, C.
    pub design_c: f64,
    /// A typical year, for wood.
    pub year: &'a YearOfDays,
}

/// Heat from wood that reaches the rooms, share of its heating value: open fire to good stove.
const WOOD: Band = Band {
    low: 0.45,
    mid: 0.60,
    high: 0.75,
};
/// Share by which the hot water's use grows from the yearly mean to the cold months.
const MAINS_SHARE: Band = Band {
    low: 0.0,
    mid: 0.05,
    high: 0.10,
};
/// Degrees between the yearly mean and the cold months, K.
const MAINS_SPAN_K: f64 = 12.0;

/// Range of what a heater gives over a season, by how its efficiency is known.
///
/// **Equation** a test or a plate says the steady burning; a season loses to standing and starting
///
/// **Symbols**
/// - efficiency: as the job says it, by the higher heating value
///
/// **Range** 0.1 to 1
///
/// **Source** `trade-cards`, F1 (0.78 to 0.86 for an old oil boiler); the width `common-practice`
///
/// **Example** 80 % on a label: 72 to 82 %
pub fn season_efficiency(
    carrier: Carrier,
    kind: HeaterKind,
    efficiency: f64,
    known: Known,
) -> Band {
    if carrier == Carrier::Electricity {
        return Band::exact(efficiency);
    }
    let (down, up) = match (known, kind) {
        (Known::Assumed, _) => (0.12, 0.06),
        (_, HeaterKind::Stove) => (0.10, 0.05),
        _ => (0.08, 0.02),
    };
    // no boiler gives more than it is fed
    Band::new(
        efficiency - down,
        efficiency,
        (efficiency + up).min(0.99).max(efficiency),
    )
}

/// Heat loss of a house from the lines of what it buys for heat.
///
/// **Equation** `H = sum(slope x efficiency) + wood - mains`, `Q = H (Ti - Td)`,
/// with free heat `H (Tb - Td)`
///
/// **Symbols**
/// - H: heat loss, W/K; slope: of each carrier, W/K
/// - wood: heat of the winter's wood over its degree days, W/K
/// - mains: what hot water takes more in winter, W/K
/// - Ti, Td, Tb: indoors, design night, balance point, C
///
/// **Range** at least one line; slopes whose band stays above 0
///
/// **Source** `trade-cards`, F1 and F2; bands of parts put together by `zou-donner-2008`
///
/// **Example** 780 gal of oil, 60 of them hot water, 80 %, 7,400 F d: 449 Btu/(h F)
///
/// # Errors
/// No line, or a slope that may be nothing.
pub fn heat_loss(lines: Vec<(Carrier, Line)>, asked: &Asked) -> Result<HeatLoss, Refused> {
    let mut heats = Vec::new();
    let mut unknowns = Vec::new();
    let mut mains_w_per_k = Band::exact(0.0);
    for (carrier, line) in lines {
        let heater = asked.heater.filter(|h| h.carrier == carrier);
        let efficiency = match heater {
            Some(h) => season_efficiency(carrier, h.kind, h.efficiency, h.known),
            None if carrier == Carrier::Electricity => Band::exact(1.0),
            None => Band::new(0.65, 0.80, 0.95),
        };
        if carrier != Carrier::Electricity {
            let whose = heater.map_or("heater nobody named", |h| h.kind.word());
            unknowns.push(Unknown {
                name: "efficiency",
                what: format!(
                    "what the {whose} gives of the {} over a season",
                    carrier.word()
                ),
                band: efficiency,
                known: heater.map_or(Known::Assumed, |h| h.known),
            });
            if heater.is_some_and(|h| h.hot_water) {
                let share = line.base_w.mid * efficiency.mid / MAINS_SPAN_K;
                mains_w_per_k = MAINS_SHARE.times(share.max(0.0));
                unknowns.push(Unknown {
                    name: "hot-water",
                    what: "how much more the hot water takes in winter".to_owned(),
                    band: MAINS_SHARE,
                    known: Known::Assumed,
                });
            }
        }
        let loss_w_per_k = product(&[line.slope_w_per_k, efficiency])?;
        heats.push(Heats {
            carrier,
            line,
            efficiency,
            loss_w_per_k,
        });
    }
    heats.sort_by(|a, b| b.loss_w_per_k.mid.total_cmp(&a.loss_w_per_k.mid));
    let Some(first) = heats.first() else {
        return Err(Refused::new(
            "no bill speaks of heat",
            "none",
            "bills of what heats the house",
            "give the oil, gas, propane or electricity bills of a winter",
        ));
    };
    let balance_c = first.line.balance_c;
    let k_s = asked.year.heating_k_d(balance_c.mid) * 86_400.0;
    let wood_w_per_k = asked.wood_j.map_or(Band::exact(0.0), |j| {
        let amount = Band::new(0.7 * j, j, 1.3 * j);
        if j > 0.0 && k_s > 0.0 {
            product(&[amount, WOOD]).map_or(Band::exact(0.0), |b| b.times(1.0 / k_s))
        } else {
            Band::exact(0.0)
        }
    });
    if asked.wood_j.is_some_and(|j| j > 0.0) {
        unknowns.push(Unknown {
            name: "wood",
            what: "how much of the wood's heat reached the rooms".to_owned(),
            band: WOOD,
            known: Known::Assumed,
        });
    }
    let mut parts: Vec<Band> = heats.iter().map(|h| h.loss_w_per_k).collect();
    parts.push(wood_w_per_k);
    parts.push(mains_w_per_k.times(-1.0));
    let loss_w_per_k = sum(&parts);
    let free = Band::new(
        (balance_c.low - asked.design_c).max(0.1),
        (balance_c.mid - asked.design_c).max(0.1),
        (balance_c.high - asked.design_c).max(0.1),
    );
    Ok(HeatLoss {
        load_w: loss_w_per_k.times(asked.across_k),
        // slope and balance point lean on each other, so this end is wider than it need be
        with_free_heat_w: product(&[loss_w_per_k, free])?,
        heats,
        wood_w_per_k,
        mains_w_per_k,
        loss_w_per_k,
        balance_c,
        unknowns,
    })
}
