//! The jets of a head, warm and cold, by the physics of jets.

use heatpump::Sheet;
use jobfile::{HeadChoice, HeadPlace};
use physics::jet::{Jet, Point, path};
use reckon::Source;
use units::Dim;

use super::room::{self, toward};
use crate::Input;
use crate::desk::{Desk, sheet};
use crate::rules::{Indoors, Outlet};

/// Farthest a jet is followed, m.
const FARTHEST_M: f64 = 15.0;

/// Warm or cold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Duty {
    Heating,
    Cooling,
}

impl Duty {
    pub(super) const BOTH: [Duty; 2] = [Duty::Heating, Duty::Cooling];

    pub(super) fn word(self) -> &'static str {
        match self {
            Duty::Heating => "heating",
            Duty::Cooling => "cooling",
        }
    }
}

/// What a head blows in one duty.
#[derive(Debug)]
pub(super) struct Blown {
    pub duty: Duty,
    pub room_c: f64,
    /// Plan directions of its jets, degrees; empty where not said.
    pub toward_deg: Vec<f64>,
    /// Where they leave, above the floor, m.
    pub from_m: f64,
    /// Where they leave, on the plan.
    pub at_m: Option<[f64; 2]>,
    /// Middle line, the same for each.
    pub line: Vec<Point>,
    /// Keys it rests on.
    pub rests: Vec<(&'static str, String)>,
}

impl Blown {
    /// Along and beside of a place to a jet, m.
    pub(super) fn seen_from(&self, deg: f64, place: [f64; 2]) -> Option<(f64, f64)> {
        let at = self.at_m?;
        let [e, n] = toward(deg);
        let (de, dn) = (place[0] - at[0], place[1] - at[1]);
        Some((de * e + dn * n, (de * n - dn * e).abs()))
    }

    /// The point of the middle line nearest to so far away.
    pub(super) fn point(&self, away_m: f64) -> Option<&Point> {
        let near = |p: &&Point| (p.away_m - away_m).abs();
        let p = self
            .line
            .iter()
            .min_by(|a, b| near(a).total_cmp(&near(b)))?;
        ((p.away_m - away_m).abs() < 0.2).then_some(p)
    }
}

/// How figures of jets are made.
pub(super) const ALONG: &str = "along the middle of the jet";

/// Where jets are from.
pub(super) fn source() -> Source {
    Source::new("rodi-1982", "physics::jet::path: momentum and warmth kept")
}

/// Jets in both duties, as far as sheet and job tell.
pub(super) fn of(
    input: &Input<'_>,
    rules: &Indoors,
    desk: &mut Desk,
    head: &HeadChoice,
    p: &HeadPlace,
    unit: Option<&Sheet>,
) -> Vec<Blown> {
    let outlet = unit.and_then(|u| rules.outlet.get(u.kind.words()));
    let Some((outlet, unit)) = outlet.zip(unit) else {
        return Vec::new();
    };
    let all = Duty::BOTH.into_iter();
    all.filter_map(|duty| one(input, rules, desk, head, p, (unit, outlet), duty))
        .collect()
}

fn one(
    input: &Input<'_>,
    rules: &Indoors,
    desk: &mut Desk,
    head: &HeadChoice,
    p: &HeadPlace,
    (unit, outlet): (&Sheet, &Outlet),
    duty: Duty,
) -> Option<Blown> {
    let data = unit.head.as_ref()?;
    let key = |what: &str| format!("indoors.{}.{}.{what}", head.name, duty.word());
    let (heat, down, typed, from) = match duty {
        Duty::Heating => (
            data.heating_max_w?,
            outlet.heating_down_deg,
            p.louvre_heating_deg,
            outlet.heating_height_m.or(p.height_m)?,
        ),
        Duty::Cooling => (
            -data.cooling_max_w?,
            outlet.cooling_down_deg,
            p.louvre_cooling_deg,
            p.height_m?,
        ),
    };
    let slots = f64::from(outlet.slots);
    let width = unit.size.width_m?;
    let room_c = setting(input, &head.room, duty);
    let jet = Jet {
        air_m3_per_s: *data.air_m3_per_s.last()? / slots,
        outlet_m2: outlet.width_share * width * outlet.slot_m,
        heat_w: heat / slots,
        room_c,
        down_deg: typed.unwrap_or(down),
        throw_m: data.throw_m,
        along_ceiling: duty == Duty::Cooling && outlet.cools_along_ceiling,
    };
    let of = sheet(&head.unit, data.page.as_ref());
    let usual = || Source::new(rules.source.clone(), "data/rules/indoors, outlets");
    let louvre = match typed {
        Some(_) => Source::job(format!("head_place.{}.louvre_{}", head.name, duty.word())),
        None => usual(),
    };
    let mut rests = Vec::new();
    let air = *data.air_m3_per_s.last()?;
    for (k, what, v, dim, of) in [
        (
            "air-all",
            "air of the head at the highest speed",
            air,
            Dim::VolumeFlow,
            of.clone(),
        ),
        (
            "heat-all",
            "heat of the head at the most; cooling below zero",
            heat,
            Dim::Power,
            of.clone(),
        ),
        ("slots", "outlets", slots, Dim::Count, usual()),
        (
            "slot-share",
            "length of an outlet, of the width of the head",
            outlet.width_share,
            Dim::Share,
            usual(),
        ),
        ("width", "width of the head", width, Dim::Length, of.clone()),
        (
            "slot",
            "height of an outlet",
            outlet.slot_m,
            Dim::SmallLength,
            usual(),
        ),
        (
            "louvre",
            "louvre below level",
            jet.down_deg.to_radians(),
            Dim::Angle,
            louvre,
        ),
        (
            "room",
            "air of the room, as it is set",
            room_c,
            Dim::Temperature,
            Source::job(format!("room.{}", head.room)),
        ),
    ] {
        desk.given(key(k), what, v, dim, of);
    }
    for (symbol, k, what, dim, formula, of) in [
        (
            "q",
            "air",
            "air of a jet at the highest speed",
            Dim::VolumeFlow,
            "q / n",
            [("q", "air-all"), ("n", "slots")].as_slice(),
        ),
        (
            "Q",
            "heat",
            "heat of a jet at the most; cooling below zero",
            Dim::Power,
            "Q / n",
            &[("Q", "heat-all"), ("n", "slots")],
        ),
        (
            "A",
            "outlet",
            "outlet of a jet",
            Dim::Area,
            "k * w * s",
            &[("k", "slot-share"), ("w", "width"), ("s", "slot")],
        ),
    ] {
        let inputs: Vec<_> = of.iter().map(|(s, k)| (*s, key(k))).collect();
        let inputs: Vec<(&'static str, &str)> = inputs.iter().map(|(s, k)| (*s, &**k)).collect();
        desk.reckon(key(k), what, dim, formula, &inputs, usual())?;
        rests.push((symbol, key(k)));
    }
    rests.push(("a", key("louvre")));
    rests.push(("T", key("room")));
    if let Some(throw) = jet.throw_m {
        let k = format!("indoors.{}.throw", head.name);
        rests.push((
            "X",
            desk.given(k, "throw of the sheet", throw, Dim::Length, of),
        ));
    }
    let first = p.blows_deg;
    let toward_deg = first.map_or(Vec::new(), |deg| {
        let part = 360.0 / slots;
        (0..outlet.slots)
            .map(|i| deg + part * f64::from(i))
            .collect()
    });
    Some(Blown {
        duty,
        room_c,
        toward_deg,
        from_m: from,
        at_m: p.at_m,
        line: path(&jet, FARTHEST_M).ok()?,
        rests,
    })
}

/// What the room is held at, C; where nothing is said 21 in winter and 24 in summer.
fn setting(input: &Input<'_>, name: &str, duty: Duty) -> f64 {
    let room = room::named(input.job, name);
    let set = match duty {
        Duty::Heating => room.and_then(|r| r.heated.as_ref()),
        Duty::Cooling => room.and_then(|r| r.cooled.as_ref()),
    };
    let all = set.map(|s| s.by_hour_c.iter().flatten().copied());
    let usual = if duty == Duty::Heating { 21.0 } else { 24.0 };
    all.and_then(|mut t| {
        let first = t.next()?;
        Some(t.fold(
            first,
            if duty == Duty::Heating {
                f64::max
            } else {
                f64::min
            },
        ))
    })
    .unwrap_or(usual)
}
