//! The gas line: velocity, pressure lost and what it costs, oil return.

use heatpump::Sheet;
use jobfile::{HeadChoice, Line};
use physics::pipe::{friction_factor, velocity_m_per_s};
use physics::refrigerant::{BubbleC, DewC, Refrigerant};
use physics::tube::Tube;
use reckon::{Level, Source};
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card, sheet};

/// Drawn tube, m.
const ROUGHNESS_M: f64 = physics::pipe::DRAWN_COPPER_ROUGHNESS_M;
/// State of the gas line in cooling, where its loss costs most: evaporating, superheat,
/// condensing, subcooling. A usual state, from no sheet.
const STATE: (f64, f64, f64, f64) = (5.0, 8.0, 45.0, 5.0);

const FAST: Rule = Rule {
    name: "gas-velocity",
    level: Level::Note,
    what: "gas velocity at the most, cooling",
    mend: "Expect noise and loss; a larger tube only if the sheet names one.",
    tell: "Needs tube size, refrigerant and the head's cooling.",
};
const OIL: Rule = Rule {
    name: "oil-return",
    level: Level::Note,
    what: "gas velocity at the least, for oil in a riser",
    mend: "No trap unless the sheet asks for one; many units run faster now and then to fetch the \
           oil: let the sheet say.",
    tell: "Needs the head's least cooling from its sheet.",
};
const LOSS: Rule = Rule {
    name: "line-loss",
    level: Level::Note,
    what: "cooling capacity lost in the gas line",
    mend: "Shorten the line or take bends out.",
    tell: "Needs tube size, refrigerant and the head's cooling.",
};

/// Refrigerant of a sheet, as the property tables know it.
pub(crate) fn refrigerant(unit: Option<&Sheet>) -> Option<Refrigerant> {
    let name = unit?.refrigerant.as_deref()?;
    Refrigerant::ALL.into_iter().find(|r| r.name() == name)
}

/// The gas line at the most and the least.
pub(super) fn judge(
    input: &Input<'_>,
    desk: &mut Desk,
    line: &Line,
    head: &HeadChoice,
    unit: Option<&Sheet>,
    gas_m: Option<f64>,
    place: &str,
) {
    let key = |what: &str| format!("lines.{}.{what}", line.head);
    let data = input.sheet(&head.unit).and_then(|s| s.head.as_ref());
    let tube = gas_m.and_then(|m| {
        Tube::ALL
            .into_iter()
            .find(|t| (t.outside_m() - m).abs() < 2e-4)
    });
    let done = (|| {
        let fluid = refrigerant(unit)?;
        let tube = tube?;
        let most = data?.cooling_max_w?;
        let (low, superheat, high, subcooling) = STATE;
        let dew = fluid.dew_pressure(DewC(low)).ok()?;
        let vapour = fluid.superheated_vapour(dew, superheat).ok()?;
        let viscosity = fluid.saturated_vapour(DewC(low)).ok()?.viscosity_pa_s;
        let bubble = fluid.bubble_pressure(BubbleC(high)).ok()?;
        let liquid = fluid.subcooled_liquid(bubble, subcooling).ok()?;
        let of = Source::new(
            "coolprop",
            "fits of the property tables; evaporating 5 C, superheat 8 K, condensing 45 C, subcooling 5 K: a usual state",
        );
        let heat = vapour.enthalpy_j_per_kg - liquid.enthalpy_j_per_kg;
        desk.given(
            key("heat"),
            "heat taken up by a kilogram of refrigerant",
            heat,
            Dim::LatentHeat,
            of.clone(),
        );
        desk.given(
            key("density"),
            "gas density",
            vapour.density_kg_per_m3,
            Dim::Density,
            of.clone(),
        );
        desk.given(
            key("viscosity"),
            "gas viscosity, millionths of a pascal second",
            1e6 * viscosity,
            Dim::Ratio,
            of.clone(),
        );
        desk.given(
            key("pressure"),
            "suction pressure",
            dew.0,
            Dim::Pressure,
            of,
        );
        desk.given(
            key("inside"),
            "gas tube inside",
            tube.inside_m(),
            Dim::SmallLength,
            Source::new("astm-b280", "table of coil tube"),
        );
        desk.given(
            key("cooling-most"),
            "cooling of the head at the most",
            most,
            Dim::Power,
            sheet(&head.unit, data?.page.as_ref()),
        );
        let flow = desk.reckon(
            key("flow"),
            "refrigerant flow at the most, kg/s",
            Dim::Ratio,
            "Q / h",
            &[("Q", &key("cooling-most")), ("h", &key("heat"))],
            card("F15"),
        )?;
        speed(desk, &key, "flow", "velocity")?;
        let v = velocity_m_per_s(flow, vapour.density_kg_per_m3, tube.inside_m()).ok()?;
        let reynolds = vapour.density_kg_per_m3 * v * tube.inside_m() / viscosity;
        let f = friction_factor(reynolds, ROUGHNESS_M / tube.inside_m()).ok()?;
        desk.reckon(
            key("reynolds"),
            "Reynolds number",
            Dim::Count,
            "1000000 * r * v * D / m",
            &[
                ("r", &key("density")),
                ("v", &key("velocity")),
                ("D", &key("inside")),
                ("m", &key("viscosity")),
            ],
            Source::new("colebrook-1939", "Reynolds number"),
        )?;
        desk.given(
            key("roughness"),
            "roughness of drawn tube, micrometres",
            1e6 * ROUGHNESS_M,
            Dim::Ratio,
            Source::new("crane-410", "drawn tube, from memory"),
        );
        desk.followed(
            key("friction"),
            "friction factor",
            (f, Dim::Ratio),
            &[
                ("R", key("reynolds")),
                ("e", key("roughness")),
                ("D", key("inside")),
            ],
            "the f for which 1 / sqrt(f) = -2 log10(e / (3.7 D) + 2.51 / (R sqrt(f))), e in metres",
            Source::new("colebrook-1939", "transition law"),
        );
        desk.reckon(
            key("drop"),
            "pressure lost in the gas line, cooling at the most",
            Dim::Pressure,
            "f * L / D * r * v^2 / 2",
            &[
                ("f", &key("friction")),
                ("L", &key("with-fittings")),
                ("D", &key("inside")),
                ("r", &key("density")),
                ("v", &key("velocity")),
            ],
            Source::new("colebrook-1939", "with Darcy-Weisbach"),
        )?;
        // a compressor moves volume: gas thinner by dp/p carries that much less heat
        desk.reckon(
            key("capacity-cost"),
            "cooling lost by it",
            Dim::Share,
            "d / p",
            &[("d", &key("drop")), ("p", &key("pressure"))],
            Source::new(
                "common-practice",
                "fixed swept volume; the inverter makes up for it until it is at its most",
            ),
        )
    })();
    let ashrae = || {
        Source::new(
            "ashrae-refrigeration-2010",
            "chapter 1, table 1, suction 4.5 to 20 m/s",
        )
    };
    let ok = done.is_some();
    let fast = desk.given(key("fastest"), "usual most", 20.0, Dim::AirSpeed, ashrae());
    desk.at_most(
        &FAST,
        place,
        ok.then_some(key("velocity").as_str()),
        Some(&fast),
        ashrae(),
    );
    let tenth = desk.given(
        key("cost-usual"),
        "usual most",
        0.05,
        Dim::Share,
        Source::new("common-practice", "about 2 F of saturation"),
    );
    desk.at_most(
        &LOSS,
        place,
        ok.then_some(key("capacity-cost").as_str()),
        Some(&tenth),
        Source::new("common-practice", "about 2 F of saturation"),
    );
    let least = ok
        .then(|| {
            let least = data?.cooling_min_w?;
            desk.given(
                key("cooling-least"),
                "cooling of the head at the least",
                least,
                Dim::Power,
                sheet(&head.unit, data?.page.as_ref()),
            );
            desk.reckon(
                key("flow-least"),
                "refrigerant flow at the least, kg/s",
                Dim::Ratio,
                "Q / h",
                &[("Q", &key("cooling-least")), ("h", &key("heat"))],
                card("F15"),
            )?;
            speed(desk, &key, "flow-least", "velocity-least")
        })
        .flatten();
    let slow = desk.given(
        key("slowest"),
        "usual least in a riser",
        4.5,
        Dim::AirSpeed,
        ashrae(),
    );
    desk.at_least(
        &OIL,
        place,
        least.map(|_| key("velocity-least")).as_deref(),
        Some(&slow),
        ashrae(),
    );
}

fn speed(desk: &mut Desk, key: &dyn Fn(&str) -> String, flow: &str, name: &str) -> Option<f64> {
    desk.reckon(
        key(name),
        "gas velocity",
        Dim::AirSpeed,
        "4 * m / (3.141592653589793 * r * D^2)",
        &[
            ("m", &key(flow)),
            ("r", &key("density")),
            ("D", &key("inside")),
        ],
        Source::new("common-practice", "continuity"),
    )
}
