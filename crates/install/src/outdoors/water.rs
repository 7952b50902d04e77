//! Meltwater of a winter, and the ice it would make.

use jobfile::OutdoorPlace;
use reckon::{Figure, Level, Source};
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card};

/// Share of the heat taken from frosting air that is frost. Common practice between 0.1 and 0.25.
const FROST_SHARE: f64 = 0.2;
/// Outdoor temperatures between which the coil frosts, C.
const FROST_BAND_C: (f64, f64) = (-10.0, 5.5);

const ICE: Rule = Rule {
    name: "ice-sheet",
    level: Level::Note,
    what: "ice if all of the winter's water stays",
    mend: "Gravel that drains, or a larger area; chip nothing off the pan.",
    tell: "The area the water spreads over, and a season.",
};

const ICE_WALK: Rule = Rule {
    name: "ice-walk",
    level: Level::Stop,
    what: "walk, against how far the ice spreads",
    mend: "Lead the water away from the walk, or move the unit: people fall on it.",
    tell: "The ground its water spreads over, and where people walk (a [[landmark]]).",
};

/// Water of a winter and the ice it would make.
pub(super) fn judge(
    input: &Input<'_>,
    desk: &mut Desk,
    p: &OutdoorPlace,
    name: &str,
    key: &dyn Fn(&str) -> String,
    place: &str,
) {
    let unit = input
        .year
        .and_then(|y| Some((y, y.units.iter().find(|u| u.name == name)?)));
    if let Some((year, unit)) = unit {
        // heating regimes: cycling, modulating, full
        let (mut frosting, mut heating) = (0.0, 0.0);
        for (r, t) in unit.by_hour.iter().zip(&year.outdoor_c) {
            if (1..=3).contains(r) {
                heating += 1.0;
                if *t > FROST_BAND_C.0 && *t < FROST_BAND_C.1 {
                    frosting += 1.0;
                }
            }
        }
        let of_year = || Source::new("common-practice", "hourly balance, trade card F8");
        let of_unit = |what: &str| season::key_of_unit(jobfile::CHOSEN, name, what);
        let (heat, electric) = (of_unit("heat"), of_unit("heating-electric"));
        let hours = ["hours-cycling", "hours-modulating", "hours-full"].map(of_unit);
        for (k, what, value, dim, formula, of) in [
            (
                "heat",
                "heat given by the unit",
                unit.heat_j,
                Dim::Heat,
                "q",
                [("q", heat.as_str())].as_slice(),
            ),
            (
                "electric",
                "electricity for it",
                unit.electric.heating_j(),
                Dim::ElectricEnergy,
                "q",
                &[("q", &electric)],
            ),
            (
                "hours-heating",
                "heating hours",
                heating * 3600.0,
                Dim::Hours,
                "sum()",
                &hours.each_ref().map(|k| ("t", k.as_str())),
            ),
        ] {
            desk.book
                .solved(key(k), what, value, dim, formula, of, of_year());
        }
        desk.book.put(Figure {
            key: key("hours-frosting"),
            what: "heating hours between 14 F (-10 C) and 42 F (5.6 C) outdoors".to_owned(),
            value: frosting * 3600.0,
            dim: Dim::Hours,
            formula: "over the year: those of the heating hours in which it is so cold".into(),
            inputs: vec![reckon::Input {
                symbol: "h".into(),
                key: key("hours-heating"),
            }],
            source: of_year(),
            known: None,
        });
        let of = || {
            Source::new(
                "common-practice",
                "share of frost 0.2 of the heat from the air, usual 0.1 to 0.25; 2.83 MJ to a kilogram of frost",
            )
        };
        desk.given(
            key("frost-share"),
            "share of that heat that is frost",
            FROST_SHARE,
            Dim::Share,
            of(),
        );
        desk.given(
            key("ice-heat"),
            "heat of frost",
            2.834e6,
            Dim::LatentHeat,
            Source::new(
                "ashrae-fundamentals-2017",
                "chapter 1, sublimation near 0 C",
            ),
        );
        if heating > 0.0 {
            desk.reckon(
                key("water"),
                "meltwater of a year",
                Dim::Mass,
                "s * (Q - E) * f / h / c",
                &[
                    ("s", &key("frost-share")),
                    ("Q", &key("heat")),
                    ("E", &key("electric")),
                    ("f", &key("hours-frosting")),
                    ("h", &key("hours-heating")),
                    ("c", &key("ice-heat")),
                ],
                of(),
            );
        }
    }
    let area = p.ice_area_m2.map(|a| {
        desk.measured(
            key("ice-area"),
            "ground it spreads over",
            a,
            Dim::Area,
            format!("outdoor_place.{name}.ice_area"),
        );
        key("ice-area")
    });
    let thick = area.and_then(|a| {
        desk.given(
            key("ice-density"),
            "ice",
            917.0,
            Dim::Density,
            Source::new("from-memory", "ice at 0 C"),
        );
        desk.reckon(
            key("ice"),
            "ice if nothing drains or thaws",
            Dim::Length,
            "m / (r * A)",
            &[("m", &key("water")), ("r", &key("ice-density")), ("A", &a)],
            card("F13"),
        )?;
        Some(key("ice"))
    });
    let most = desk.given(
        key("ice-most"),
        "usual most under a bracket",
        0.1524,
        Dim::Length,
        Source::new("common-practice", "4 to 6 in of ice where it drains"),
    );
    desk.at_most(
        &ICE,
        place,
        thick.as_deref(),
        Some(&most),
        Source::new("common-practice", "4 to 6 in of ice where it drains"),
    );
    let reach = p.ice_area_m2.and_then(|_| {
        desk.reckon(
            key("ice-reach"),
            "how far the ice spreads on level ground",
            Dim::Length,
            "sqrt(2 * A / 3.141592653589793)",
            &[("A", &key("ice-area"))],
            Source::new("common-practice", "half a disc before the wall"),
        )
    });
    let walk = desk.book.get(&key("walk")).map(|_| key("walk"));
    desk.at_least(
        &ICE_WALK,
        place,
        walk.as_deref(),
        reach.map(|_| key("ice-reach")).as_deref(),
        Source::new("common-practice", "nobody walks on the ice of a unit"),
    );
}
