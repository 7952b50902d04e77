//! Units of size, mass, time, angle and plain numbers.

use crate::constants::{FOOT_M, FOOT_POUND_NM, GALLON_M3, INCH_M, OUNCE_KG, POUND_KG};
use crate::table::{Digits, Quantity, Shown, Unit, always, quantity, unit, way};

const FT: Unit = unit("ft", &["feet", "foot", "'"], FOOT_M);
const IN: Unit = unit("in", &["inch", "inches", "\"", "''"], INCH_M);
const M: Unit = unit("m", &["metre", "meter", "metres", "meters"], 1.0);
const CM: Unit = unit("cm", &[], 0.01);
const MM: Unit = unit("mm", &[], 0.001);
const YD: Unit = unit("yd", &["yard", "yards"], 3.0 * FOOT_M);
const MI: Unit = unit("mi", &["mile", "miles"], 5280.0 * FOOT_M);
const KM: Unit = unit("km", &[], 1000.0);

pub(crate) const LENGTH: Quantity = Quantity {
    parts: true,
    ..quantity(
        "a length",
        &[FT, IN, M, CM, MM, YD, MI, KM],
        "12 ft 6 in",
        // Above 100 ft it is an elevation or a distance: whole feet.
        Shown {
            column: way(FT, Digits::Fixed(1)),
            below: &[
                (100.0 * FOOT_M, way(FT, Digits::FeetInches)),
                (f64::INFINITY, way(FT, Digits::Fixed(0))),
            ],
        },
        Shown {
            column: way(M, Digits::Fixed(2)),
            below: &[
                (0.0995, way(MM, Digits::Fixed(0))),
                (100.0, way(M, Digits::Fixed(2))),
                (f64::INFINITY, way(M, Digits::Fixed(0))),
            ],
        },
    )
};

pub(crate) const SMALL_LENGTH: Quantity = Quantity {
    parts: true,
    ..quantity(
        "a small length",
        &[IN, MM, CM, M, FT],
        "3.5 in",
        // Under an inch it is a tube or the wall of one: 0.311 in, 6.35 mm.
        Shown {
            column: way(IN, Digits::UpTo(2)),
            below: &[(0.9995 * INCH_M, way(IN, Digits::UpTo(3)))],
        },
        Shown {
            column: way(MM, Digits::UpTo(1)),
            below: &[(0.9995 * INCH_M, way(MM, Digits::UpTo(2)))],
        },
    )
};

const FT2: Unit = unit(
    "ft2",
    &["sf", "square foot", "sq foot", "sq feet"],
    FOOT_M * FOOT_M,
);
const IN2: Unit = unit(
    "in2",
    &["sq in", "square inch", "square inches"],
    INCH_M * INCH_M,
);
const M2: Unit = unit("m2", &["sq m", "square metre", "square meter"], 1.0);
const CM2: Unit = unit("cm2", &["sq cm"], 1e-4);

pub(crate) const AREA: Quantity = quantity(
    "an area",
    &[FT2, M2, IN2, CM2],
    "120 ft2",
    always(FT2, Digits::Significant(3)),
    always(M2, Digits::Significant(3)),
);

const FT3: Unit = unit(
    "ft3",
    &["cf", "cubic foot", "cubic feet"],
    FOOT_M * FOOT_M * FOOT_M,
);
const M3: Unit = unit("m3", &["cubic metre", "cubic meter"], 1.0);
const LITRE: Unit = unit("L", &["litre", "liter", "litres", "liters"], 0.001);
const GAL: Unit = unit("gal", &["gallon", "gallons", "US gal"], GALLON_M3);

pub(crate) const VOLUME: Quantity = quantity(
    "a volume",
    &[FT3, M3, LITRE, GAL],
    "9,600 ft3",
    always(FT3, Digits::Significant(3)),
    Shown {
        column: way(M3, Digits::Significant(3)),
        below: &[(0.09995, way(LITRE, Digits::Significant(3)))],
    },
);

const NEWTON_METRE: Unit = unit("N m", &["newton metre"], 1.0);
const FOOT_POUND: Unit = unit("ft lb", &["lb ft", "ft lbf", "lbf ft"], FOOT_POUND_NM);
const INCH_POUND: Unit = unit(
    "in lb",
    &["lb in", "in lbf", "lbf in"],
    FOOT_POUND_NM / 12.0,
);

pub(crate) const TORQUE: Quantity = quantity(
    "a torque",
    &[NEWTON_METRE, FOOT_POUND, INCH_POUND],
    "16 N m",
    always(FOOT_POUND, Digits::Significant(3)),
    always(NEWTON_METRE, Digits::Significant(3)),
);

const LB: Unit = unit("lb", &["lbs", "pound", "pounds"], POUND_KG);
const OZ: Unit = unit("oz", &["ounce", "ounces"], OUNCE_KG);
const KG: Unit = unit("kg", &["kilogram", "kilograms"], 1.0);
const G: Unit = unit("g", &["gram", "grams"], 0.001);

pub(crate) const MASS: Quantity = Quantity {
    parts: true,
    ..quantity(
        "a mass",
        &[LB, OZ, KG, G],
        "2 lb 4 oz",
        Shown {
            column: way(LB, Digits::Significant(3)),
            below: &[
                (POUND_KG, way(OZ, Digits::Fixed(1))),
                (20.0 * POUND_KG, way(LB, Digits::PoundsOunces)),
            ],
        },
        Shown {
            column: way(KG, Digits::Significant(3)),
            below: &[(1.0, way(G, Digits::Significant(3)))],
        },
    )
};

const OZ_PER_FT: Unit = unit("oz/ft", &[], OUNCE_KG / FOOT_M);
const KG_PER_M: Unit = unit("kg/m", &[], 1.0);
const G_PER_M: Unit = unit("g/m", &[], 0.001);

pub(crate) const MASS_PER_LENGTH: Quantity = quantity(
    "a mass per length",
    &[OZ_PER_FT, KG_PER_M, G_PER_M],
    "0.22 oz/ft",
    always(OZ_PER_FT, Digits::Significant(3)),
    always(G_PER_M, Digits::Significant(3)),
);

const H: Unit = unit("h", &["hours"], 3600.0);
const MIN: Unit = unit("min", &["minute", "minutes"], 60.0);
const S: Unit = unit("s", &["sec", "second", "seconds"], 1.0);
const DAY: Unit = unit("day", &["days", "d"], 86_400.0);
const HOURS_SHOWN: Shown = Shown {
    column: way(H, Digits::Whole(3)),
    below: &[
        // no time at all is no hours
        (f64::MIN_POSITIVE, way(H, Digits::Significant(3))),
        (60.0, way(S, Digits::Significant(2))),
        (3600.0, way(MIN, Digits::Significant(2))),
    ],
};

pub(crate) const HOURS: Quantity = Quantity {
    parts: true,
    ..quantity(
        "a time",
        &[H, MIN, S, DAY],
        "16 h",
        HOURS_SHOWN,
        HOURS_SHOWN,
    )
};

const DEG: Unit = unit("deg", &["degree", "degrees"], std::f64::consts::PI / 180.0);
const RAD: Unit = unit("rad", &["radian", "radians"], 1.0);

pub(crate) const ANGLE: Quantity = quantity(
    "an angle",
    &[DEG, RAD],
    "45 deg",
    always(DEG, Digits::UpTo(1)),
    always(DEG, Digits::UpTo(1)),
);

const ONE: Unit = unit("", &[], 1.0);
const PERCENT: Unit = unit("%", &["percent", "pct"], 0.01);
const SHARE_SHOWN: Shown = Shown {
    column: way(PERCENT, Digits::Fixed(0)),
    below: &[(0.0995, way(PERCENT, Digits::Fixed(1)))],
};

pub(crate) const RATIO: Quantity = Quantity {
    bare: true,
    ..quantity(
        "a plain number",
        &[PERCENT],
        "0.9",
        always(ONE, Digits::Significant(3)),
        always(ONE, Digits::Significant(3)),
    )
};

pub(crate) const SHARE: Quantity = Quantity {
    bare: true,
    ..quantity(
        "a share of one",
        &[PERCENT],
        "30 %",
        SHARE_SHOWN,
        SHARE_SHOWN,
    )
};

pub(crate) const COUNT: Quantity = Quantity {
    bare: true,
    ..quantity(
        "a whole number",
        &[],
        "3",
        always(ONE, Digits::Fixed(0)),
        always(ONE, Digits::Fixed(0)),
    )
};
