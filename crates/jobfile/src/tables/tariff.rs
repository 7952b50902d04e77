//! `[tariff]`: how electricity is charged, where it is more than one price.

use units::Dim;

use super::Desk;
use crate::Carrier;
use crate::cell::{Row, Value};
use crate::check::Says;
use crate::field::{Kind, OddUnits, Table, may, must, usual};
use crate::{PricePeriod, Tariff, Tier};

/// Money a month.
static A_MONTH: OddUnits = OddUnits {
    what: "money a month",
    units: &[("/month", 1.0)],
    example: "12.00 /month",
};

/// Money for the largest hour of a month; per W inside.
static DEMAND: OddUnits = OddUnits {
    what: "a demand charge",
    units: &[("/kW", 1e-3)],
    example: "9.50 /kW",
};

static TIER: Table = Table {
    name: "tiers",
    about: "A step of a month's use; the last has no end",
    label: &["price"],
    assumed: false,
    fields: &[
        may(
            "up_to",
            Kind::Q(Dim::ElectricEnergy, 3.6e6, 3.6e11),
            "Up to this much in a month; all the rest if not given",
        ),
        must("price", Kind::Price(Carrier::Electricity), "Price"),
    ],
};

static PERIOD: Table = Table {
    name: "periods",
    about: "Hours with a price of their own, in place of the steps",
    label: &["name"],
    assumed: false,
    fields: &[
        must("name", Kind::NewName, "Name: peak"),
        must("on", Kind::OnHours, "Hours of the day"),
        may(
            "months",
            Kind::List(&Kind::Whole(1, 12), 1),
            "Months, 1 to 12; all if not given",
        ),
        must("price", Kind::Price(Carrier::Electricity), "Price"),
    ],
};

pub(super) static TABLE: Table = Table {
    name: "tariff",
    about: "How electricity is charged, where it is more than one price",
    label: &[],
    assumed: false,
    fields: &[
        may(
            "fixed",
            Kind::Odd(&A_MONTH, 0.0, 1000.0),
            "Money a month, whatever is used",
        ),
        may("tiers", Kind::Rows(&TIER), "Steps of a month's use"),
        may(
            "periods",
            Kind::Rows(&PERIOD),
            "Hours with a price of their own",
        ),
        may(
            "demand",
            Kind::Odd(&DEMAND, 0.0, 1.0),
            "Charge for the month's largest hour",
        ),
        usual(
            "other",
            Kind::Q(Dim::ElectricEnergy, 0.0, 3.6e12),
            "0 kWh",
            "What else the house uses in a year; steps and largest hours count it too",
        ),
    ],
};

pub(super) fn read(row: &Row, desk: &mut Desk) -> Tariff {
    let tiers: Vec<Tier> = row
        .rows("tiers")
        .map(|r| Tier {
            up_to_j: r.si("up_to"),
            per_j: r.si("price").unwrap_or(0.0),
        })
        .collect();
    let ends: Vec<Option<f64>> = tiers.iter().map(|t| t.up_to_j).collect();
    let rising = ends.windows(2).all(|w| match (w.first(), w.last()) {
        (Some(Some(a)), Some(Some(b))) => a < b,
        (Some(Some(_)), Some(None)) => true,
        _ => false,
    });
    let open = ends.last().is_none_or(Option::is_none);
    if !(rising && open) {
        let says = Says::new("these steps leave some use without a price, or name it twice")
            .allowed("steps that rise, and a last one without `up_to`")
            .mend("order them by `up_to`, and give the last only a price");
        desk.at(row, "tiers", says);
    }
    let periods: Vec<PricePeriod> = row
        .rows("periods")
        .map(|r| PricePeriod {
            name: r.words("name"),
            on: r.by_hour("on").unwrap_or([None; 24]).map(|h| h.is_some()),
            months: r
                .list("months")
                .iter()
                .filter_map(|c| match c.value {
                    Value::Whole(m) => u8::try_from(m).ok(),
                    _ => None,
                })
                .collect(),
            per_j: r.si("price").unwrap_or(0.0),
        })
        .collect();
    for (i, a) in periods.iter().enumerate() {
        for b in periods.iter().skip(i + 1) {
            let both = (1..=12).any(|m| (0..24).any(|h| a.holds(m, h) && b.holds(m, h)));
            if both {
                let says = Says::new("two periods claim the same hour")
                    .got(format!("{} and {}", a.name, b.name))
                    .allowed("every hour of every month in one period at most")
                    .mend("take the hours or months out of one of them");
                desk.at(row, "periods", says);
            }
        }
    }
    Tariff {
        fixed_a_month: row.si_or_0("fixed"),
        tiers,
        periods,
        demand_per_w: row.si_or_0("demand"),
        other_j: row.si_or_0("other"),
    }
}
