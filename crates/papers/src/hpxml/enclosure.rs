//! Walls, floors, windows, doors and leaks.

use house::describe::Leakage;
use house::model::{Behind, Model, Surface, SurfaceKind, WindowPane};
use reckon::{Book, in_key};
use units::Dim;

use super::export::{identifier, number};
use super::tree::Element;
use crate::desk::Input;

/// The pressure of the test that the format names, Pa.
const TEST_PA: f64 = 50.0;

pub(super) fn enclosure(input: &Input<'_>) -> Element {
    let mut out = Element::new("Enclosure");
    out = out.holds_all("AirInfiltration", leaks(input));
    let Some(model) = input.plan.model.done() else {
        return out;
    };
    let of = Surfaces {
        model,
        book: &input.plan.book,
    };
    out.holds_all("Roofs", of.all("Roof", is_roof))
        .holds_all("Walls", of.all("Wall", is_wall))
        .holds_all("FoundationWalls", of.all("FoundationWall", is_foundation))
        .holds_all(
            "Floors",
            of.all("Floor", |s, m| floor_faces(s, m).is_some()),
        )
        .holds_all("Slabs", of.all("Slab", is_slab))
        .holds_all("Windows", of.windows())
        .holds_all("Doors", of.all("Door", is_door))
}

fn leaks(input: &Input<'_>) -> Vec<Element> {
    // The format knows cfm and air changes at a pressure; another pressure is said as it is.
    let (flow, pa) = match &input.job.house.leakage {
        Leakage::BlowerDoor {
            flow_m3_per_s,
            at_pa,
            ..
        } => (*flow_m3_per_s, *at_pa),
        Leakage::Fixed { .. } => return Vec::new(),
    };
    let leak = Element::new("BuildingAirLeakage")
        .says("UnitofMeasure", "CFM")
        .says("AirLeakage", number(flow, Dim::VolumeFlow));
    let pressure = if (pa - TEST_PA).abs() < 1e-9 {
        "50".to_owned()
    } else {
        format!("{pa}")
    };
    vec![
        Element::new("AirInfiltrationMeasurement")
            .holds(identifier("SystemIdentifier", "leakage", ""))
            .says("TypeOfInfiltrationMeasurement", "blower door")
            .says("HousePressure", pressure)
            .holds(leak),
    ]
}

fn is_roof(s: &Surface, _: &Model) -> bool {
    s.kind == SurfaceKind::Roof
}

fn is_wall(s: &Surface, _: &Model) -> bool {
    s.kind == SurfaceKind::Wall && matches!(s.behind, Behind::Outdoor { .. })
}

fn is_foundation(s: &Surface, _: &Model) -> bool {
    s.kind == SurfaceKind::BasementWall
}

fn is_slab(s: &Surface, _: &Model) -> bool {
    s.kind == SurfaceKind::Floor && matches!(s.behind, Behind::Ground(_))
}

fn is_door(s: &Surface, _: &Model) -> bool {
    s.kind == SurfaceKind::Door && matches!(s.behind, Behind::Outdoor { .. })
}

/// The two sides of a floor or ceiling between heated and unheated: what lies beyond, and which
/// of the two it is for the heated room.
fn floor_faces(s: &Surface, model: &Model) -> Option<(&'static str, &'static str)> {
    let Behind::Zone(beyond) = s.behind else {
        return None;
    };
    let (own, other) = (model.zones.get(s.zone)?, model.zones.get(beyond)?);
    if own.heated.is_none() || other.heated.is_some() {
        return None;
    }
    match s.kind {
        SurfaceKind::InnerFloor | SurfaceKind::Floor if other.middle_m < own.middle_m => {
            Some(("basement - unconditioned", "floor"))
        }
        SurfaceKind::Ceiling | SurfaceKind::InnerFloor | SurfaceKind::Floor => {
            Some(("attic", "ceiling"))
        }
        _ => None,
    }
}

struct Surfaces<'a> {
    model: &'a Model,
    book: &'a Book,
}

fn azimuth(degrees: f64) -> String {
    let whole = libm::round(degrees).rem_euclid(360.0);
    format!("{whole:.0}")
}

impl Surfaces<'_> {
    fn all(&self, name: &str, which: impl Fn(&Surface, &Model) -> bool) -> Vec<Element> {
        let model = self.model;
        let numbered = model.surfaces.iter().enumerate();
        numbered
            .filter(|(_, s)| which(s, model) && s.area_m2 > 1e-6)
            .map(|(i, s)| self.one(name, i, s))
            .collect()
    }

    fn inside(&self, s: &Surface) -> &'static str {
        let zone = self.model.zones.get(s.zone);
        match zone {
            Some(z) if z.heated.is_some() => "conditioned space",
            Some(z) if z.room.is_none() => "attic",
            _ if s.kind == SurfaceKind::BasementWall || is_slab(s, self.model) => {
                "basement - unconditioned"
            }
            _ => "unconditioned space",
        }
    }

    /// Area with the windows in it, as the format wants it.
    fn gross_m2(&self, at: usize, s: &Surface) -> f64 {
        let panes = self.model.panes.iter().filter(|p| p.in_surface == at);
        s.area_m2 + panes.map(|p| p.area_m2).sum::<f64>()
    }

    /// Resistance with films, from the figure that the load rests on.
    fn resistance(&self, s: &Surface) -> Option<String> {
        let u = self.book.get(&format!("surface.{}.u", in_key(&s.name)))?;
        let r = self.book.get(&u.inputs.first()?.key)?;
        (r.dim == Dim::RValue).then(|| number(r.value, Dim::RValue))
    }

    fn one(&self, name: &str, at: usize, s: &Surface) -> Element {
        let id = format!("surface-{}", at + 1);
        let mut out = Element::new(name).holds(identifier("SystemIdentifier", &id, &s.name));
        let outdoor = match s.behind {
            Behind::Outdoor { azimuth_deg, .. } => Some(azimuth(azimuth_deg)),
            _ => None,
        };
        let area = number(self.gross_m2(at, s), Dim::Area);
        let insulation = self.resistance(s).map(|r| {
            Element::new("Insulation")
                .holds(identifier(
                    "SystemIdentifier",
                    &format!("{id}-insulation"),
                    "",
                ))
                .says("AssemblyEffectiveRValue", r)
        });
        match name {
            "Door" => {
                return out
                    .says("Area", area)
                    .may_say("Azimuth", outdoor)
                    .may_say("RValue", self.resistance(s));
            }
            "Slab" => {
                return out
                    .says("InteriorAdjacentTo", self.inside(s))
                    .says("Area", area);
            }
            "Floor" => {
                let (beyond, which) =
                    floor_faces(s, self.model).unwrap_or(("unconditioned space", "floor"));
                out = out
                    .says("ExteriorAdjacentTo", beyond)
                    .says("InteriorAdjacentTo", "conditioned space")
                    .says("FloorOrCeiling", which)
                    .says("Area", area);
            }
            "FoundationWall" => {
                out = out
                    .says("ExteriorAdjacentTo", "ground")
                    .says("InteriorAdjacentTo", self.inside(s))
                    .says("Area", area);
            }
            "Roof" => {
                out = out
                    .says("InteriorAdjacentTo", self.inside(s))
                    .says("Area", area);
            }
            _ => {
                out = out
                    .says("ExteriorAdjacentTo", "outside")
                    .says("InteriorAdjacentTo", self.inside(s))
                    .says("Area", area)
                    .may_say("Azimuth", outdoor);
            }
        }
        match insulation {
            Some(i) => out.holds(i),
            None => out,
        }
    }

    fn windows(&self) -> Vec<Element> {
        let numbered = self.model.panes.iter().enumerate();
        numbered
            .filter(|(_, p)| p.area_m2 > 1e-6)
            .filter(|(_, p)| {
                let wall = self.model.surfaces.get(p.in_surface);
                wall.is_some_and(|s| is_wall(s, self.model))
            })
            .map(|(i, p)| self.window(i, p))
            .collect()
    }

    fn window(&self, at: usize, p: &WindowPane) -> Element {
        let u = self.book.get(&format!("window.{}.u", in_key(&p.name)));
        let shgc = self.model.glazings.get(p.glazing).and_then(sun_share);
        Element::new("Window")
            .holds(identifier(
                "SystemIdentifier",
                &format!("window-{}", at + 1),
                &p.name,
            ))
            .says("Area", number(p.area_m2, Dim::Area))
            .says("Count", p.count.max(1).to_string())
            .says("Azimuth", azimuth(p.azimuth_deg))
            .may_say("UFactor", u.map(|u| number(u.value, Dim::UValue)))
            .may_say("SHGC", shgc.map(|s| format!("{s:.2}")))
            .holds(
                Element::new("AttachedToWall")
                    .with("idref", format!("surface-{}", p.in_surface + 1)),
            )
    }
}

/// Share of the sun at right angles that comes in, by the label or by the layers.
fn sun_share(glazing: &house::describe::Glazing) -> Option<f64> {
    let glass = house::glazing::Glass::new(glazing);
    let share = glass.shgc(1.0);
    (share > 0.0 && share < 1.0).then_some(share)
}
