//! Units of heat, electricity, money and carbon.

use crate::constants::{BTU_IT_J, BTU_PER_H_W, KWH_J, POUND_KG, THERM_J, TON_COOLING_W};
use crate::table::{Digits, Quantity, Shown, Unit, always, quantity, unit, way};

const BTU_PER_H: Unit = unit("Btu/h", &["btuh"], BTU_PER_H_W);
const KBTU_PER_H: Unit = unit("kBtu/h", &["kbtuh", "MBH"], 1000.0 * BTU_PER_H_W);
const TON: Unit = unit("ton", &["tons"], TON_COOLING_W);
const W: Unit = unit("W", &["watt", "watts"], 1.0);
const KW: Unit = unit("kW", &[], 1000.0);

pub(crate) const POWER: Quantity = quantity(
    "a heat flow",
    &[BTU_PER_H, KBTU_PER_H, TON, W, KW],
    "9000 Btu/h",
    always(BTU_PER_H, Digits::Significant(3)),
    Shown {
        column: way(KW, Digits::Significant(3)),
        below: &[(999.5, way(W, Digits::Significant(3)))],
    },
);

const ELECTRIC_SHOWN: Shown = Shown {
    column: way(KW, Digits::Significant(3)),
    below: &[(999.5, way(W, Digits::Significant(3)))],
};

pub(crate) const ELECTRIC_POWER: Quantity = quantity(
    "an electric power",
    &[W, KW],
    "1.2 kW",
    ELECTRIC_SHOWN,
    ELECTRIC_SHOWN,
);

const KWH: Unit = unit("kWh", &[], KWH_J);
const WH: Unit = unit("Wh", &[], 3600.0);
const MWH: Unit = unit("MWh", &[], 1000.0 * KWH_J);
const J: Unit = unit("J", &["joule", "joules"], 1.0);
const KJ: Unit = unit("kJ", &[], 1e3);
const MJ: Unit = unit("MJ", &[], 1e6);
const GJ: Unit = unit("GJ", &[], 1e9);
const BTU: Unit = unit("Btu", &["btus"], BTU_IT_J);
const KBTU: Unit = unit("kBtu", &[], 1e3 * BTU_IT_J);
const MMBTU: Unit = unit("MMBtu", &["million Btu"], 1e6 * BTU_IT_J);
const THERM: Unit = unit("therm", &["therms"], THERM_J);

pub(crate) const HEAT: Quantity = quantity(
    "an amount of heat",
    &[MMBTU, KBTU, BTU, THERM, KWH, MWH, WH, GJ, MJ, KJ, J],
    "12 MMBtu",
    Shown {
        column: way(MMBTU, Digits::Fixed(1)),
        below: &[
            // none is none of any size
            (f64::MIN_POSITIVE, way(MMBTU, Digits::Significant(3))),
            (999.5 * BTU_IT_J, way(BTU, Digits::Significant(3))),
            (999.5e3 * BTU_IT_J, way(KBTU, Digits::Significant(3))),
        ],
    },
    KWH_SHOWN,
);

const KWH_SHOWN: Shown = always(KWH, Digits::Whole(3));

pub(crate) const ELECTRIC_ENERGY: Quantity = quantity(
    "an amount of electricity",
    &[KWH, MWH, WH, GJ, MJ, J],
    "640 kWh",
    KWH_SHOWN,
    KWH_SHOWN,
);

const AMP: Unit = unit("A", &["amp", "amps", "ampere", "amperes"], 1.0);
const MILLIAMP: Unit = unit("mA", &[], 0.001);
const VOLT: Unit = unit("V", &["volt", "volts", "vac"], 1.0);

pub(crate) const CURRENT: Quantity = quantity(
    "a current",
    &[AMP, MILLIAMP],
    "18 A",
    always(AMP, Digits::Significant(3)),
    always(AMP, Digits::Significant(3)),
);

pub(crate) const VOLTAGE: Quantity = quantity(
    "a voltage",
    &[VOLT],
    "240 V",
    always(VOLT, Digits::Significant(3)),
    always(VOLT, Digits::Significant(3)),
);

// Money is in the job's currency whatever the sign written; nothing converts currencies.
const MONEY_UNIT: Unit = unit(
    "$",
    &["€", "£", "USD", "CAD", "EUR", "GBP", "dollar", "dollars"],
    1.0,
);
const CENT: Unit = unit("cent", &["cents", "¢"], 0.01);
const MONEY_SHOWN: Shown = Shown {
    column: way(MONEY_UNIT, Digits::Fixed(0)),
    below: &[(99.995, way(MONEY_UNIT, Digits::Fixed(2)))],
};

pub(crate) const MONEY: Quantity = quantity(
    "an amount of money",
    &[MONEY_UNIT, CENT],
    "$1,200",
    MONEY_SHOWN,
    MONEY_SHOWN,
);

const PER_KWH: Unit = unit(
    "$/kWh",
    &[
        "/kWh", "€/kWh", "£/kWh", "USD/kWh", "CAD/kWh", "EUR/kWh", "GBP/kWh", "per kWh",
    ],
    1.0 / KWH_J,
);
const CENT_PER_KWH: Unit = unit("cent/kWh", &["cents/kWh", "c/kWh", "¢/kWh"], 0.01 / KWH_J);
const PER_MWH: Unit = unit("$/MWh", &["/MWh"], 0.001 / KWH_J);
const PER_THERM: Unit = unit("$/therm", &["/therm"], 1.0 / THERM_J);
const PER_MMBTU: Unit = unit("$/MMBtu", &["/MMBtu"], 1e-6 / BTU_IT_J);
const PER_GJ: Unit = unit("$/GJ", &["/GJ"], 1e-9);
const PER_MJ: Unit = unit("$/MJ", &["/MJ"], 1e-6);

pub(crate) const ENERGY_PRICE: Quantity = quantity(
    "a price of energy",
    &[
        PER_KWH,
        CENT_PER_KWH,
        PER_MWH,
        PER_THERM,
        PER_MMBTU,
        PER_GJ,
        PER_MJ,
    ],
    "0.25 /kWh",
    always(PER_KWH, Digits::Significant(3)),
    always(PER_KWH, Digits::Significant(3)),
);

const LB_CO2: Unit = unit("lb", &["lbs", "lb CO2", "lb CO2e"], POUND_KG);
const KG_CO2: Unit = unit("kg", &["kg CO2", "kg CO2e"], 1.0);
const TONNE_CO2: Unit = unit("t", &["tonne", "tonnes"], 1000.0);

pub(crate) const CARBON: Quantity = quantity(
    "an amount of carbon dioxide",
    &[LB_CO2, KG_CO2, TONNE_CO2],
    "3,400 lb",
    always(LB_CO2, Digits::Significant(3)),
    always(KG_CO2, Digits::Significant(3)),
);

const LB_PER_KWH: Unit = unit("lb/kWh", &["lbs/kWh"], POUND_KG / KWH_J);
const LB_PER_MWH: Unit = unit("lb/MWh", &["lbs/MWh"], POUND_KG / (1000.0 * KWH_J));
const KG_PER_KWH: Unit = unit("kg/kWh", &[], 1.0 / KWH_J);
const G_PER_KWH: Unit = unit("g/kWh", &[], 0.001 / KWH_J);
const KG_PER_MMBTU: Unit = unit("kg/MMBtu", &[], 1e-6 / BTU_IT_J);
const LB_PER_MMBTU: Unit = unit("lb/MMBtu", &[], 1e-6 * POUND_KG / BTU_IT_J);

pub(crate) const CARBON_INTENSITY: Quantity = quantity(
    "a carbon intensity",
    &[
        LB_PER_KWH,
        LB_PER_MWH,
        KG_PER_KWH,
        G_PER_KWH,
        KG_PER_MMBTU,
        LB_PER_MMBTU,
    ],
    "536 lb/MWh",
    always(LB_PER_KWH, Digits::Significant(3)),
    always(KG_PER_KWH, Digits::Significant(3)),
);
