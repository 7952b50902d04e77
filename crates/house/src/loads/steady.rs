//! The house as plain conductances, for hours in which nothing changes.

use reckon::{Book, Source, in_key};
use units::Dim;

use super::{Design, LoadError, areas, contact};
use crate::assembly::Flow;
use crate::glazing::Glass;
use crate::leakage::Leakage;
use crate::model::{Behind, Model, Surface, SurfaceKind};

/// What a heat flow passes through.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Through {
    /// Outside walls.
    Walls,
    /// Windows.
    Windows,
    /// Outer doors.
    Doors,
    /// Roof, or ceiling under an attic.
    Ceiling,
    /// Lowest floor and floors over unheated spaces.
    Floor,
    /// Walls and floors below grade.
    Ground,
    /// Walls and floors to other rooms and spaces.
    Inner,
    /// Outdoor air through leaks.
    Leaks,
    /// Outdoor air by fans or fixed changes.
    Fans,
}

impl Through {
    /// The word in tables.
    pub fn word(self) -> &'static str {
        match self {
            Self::Walls => "walls",
            Self::Windows => "windows",
            Self::Doors => "outer doors",
            Self::Ceiling => "ceiling and roof",
            Self::Floor => "floor",
            Self::Ground => "ground",
            Self::Inner => "inner walls and floors",
            Self::Leaks => "leaks",
            Self::Fans => "fans",
        }
    }
}

/// Where the other end of a conductance is.
#[derive(Debug, Clone, PartialEq)]
pub enum End {
    /// Outdoor air.
    Outdoor,
    /// The ground, at its coldest month: key of the figure of its temperature.
    Ground(String, f64),
    /// Another zone.
    Zone(usize),
}

/// A steady conductance from a zone to somewhere.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    /// Zone it leaves.
    pub zone: usize,
    /// Where it goes.
    pub end: End,
    /// What it passes.
    pub through: Through,
    /// W/K.
    pub w_per_k: f64,
    /// Key of the figure of the conductance.
    pub key: String,
    /// What it passes, in words: `bed 1, wall south`, `bed 1 west`.
    pub place: String,
}

/// A house as conductances, with their figures in a book.
#[derive(Debug, Clone)]
pub struct SteadyHouse {
    /// All links; a partition between zones stands twice, once from each side.
    pub links: Vec<Link>,
    /// Leakage for the design hour.
    pub leakage: Leakage,
    /// Zone names as they stand in keys.
    pub names: Vec<String>,
    ground: contact::Written,
}

impl SteadyHouse {
    /// Works out every conductance and writes it down: `surface.<name>.u`, `.area`,
    /// `.conductance`; `window.<name>.…`.
    ///
    /// # Errors
    /// A construction that cannot be used.
    pub fn new(
        model: &Model,
        glasses: &[Glass],
        design: &Design,
        book: &mut Book,
    ) -> Result<Self, LoadError> {
        let mut house = Self {
            links: Vec::new(),
            leakage: Leakage::plain(model, design.air_j_per_m3k),
            names: model.zones.iter().map(|z| in_key(&z.name)).collect(),
            ground: Vec::new(),
        };
        areas::of_windows(model, book)?;
        for i in 0..model.surfaces.len() {
            house.surface(i, model, design, book)?;
        }
        for i in 0..model.panes.len() {
            house.pane(i, model, glasses, book)?;
        }
        for (z, zone) in model.zones.iter().enumerate() {
            if zone.fixed_air_m3_per_s > 0.0 {
                let of = (z, zone.name.as_str());
                house.fan(of, zone.fixed_air_m3_per_s, 0.0, "fixed-air", book)?;
            }
        }
        for (i, vent) in model.vents.iter().enumerate() {
            if vent.on.iter().any(|on| *on) {
                let what = format!("fan-{}", i + 1);
                let of = (vent.zone, model.zones[vent.zone].name.as_str());
                house.fan(of, vent.flow_m3_per_s, vent.recovery, &what, book)?;
            }
        }
        Ok(house)
    }

    fn surface(
        &mut self,
        i: usize,
        model: &Model,
        design: &Design,
        book: &mut Book,
    ) -> Result<(), LoadError> {
        let s = &model.surfaces[i];
        let Some(c) = model.constructions.get(s.construction) else {
            return Ok(());
        };
        let key = format!("surface.{}", in_key(&s.name));
        let flow = Flow::of_tilt(s.tilt_deg);
        let (end, through) = match &s.behind {
            Behind::Adiabatic => return Ok(()),
            Behind::Outdoor { .. } => (End::Outdoor, outdoor_kind(s.kind)),
            Behind::Zone(other) => (End::Zone(*other), inner_kind(s.kind, *other, model)),
            Behind::Ground(ground) => {
                let i = s.construction;
                let of = contact::contact(ground.path, i, model, design, &mut self.ground, book)?;
                let at = format!("{of}.coldest");
                let month = book.value(&at).unwrap_or(design.outdoor_c);
                (End::Ground(at, month), Through::Ground)
            }
        };
        let u_key = format!("{key}.u");
        if let End::Ground(at, _) = &end {
            book.reckon(
                u_key.clone(),
                format!("transmittance of {} with the ground", s.called()),
                Dim::UValue,
                "U",
                &[("U", &at.replace(".coldest", ".u"))],
                Source::new("iso-13370", "7 and 8: steady transmittance"),
            )?;
        } else {
            let to_zone = matches!(end, End::Zone(_));
            let r = super::build_up::resistance(c, flow, to_zone, book)?;
            book.reckon(
                u_key.clone(),
                format!("transmittance of {}", s.called()),
                Dim::UValue,
                "1 / R",
                &[("R", &r)],
                Source::new("iso-6946", "6.5"),
            )?;
        }
        areas::of_surface(i, &key, model, book)?;
        conductance(&key, &u_key, &s.called(), book)?;
        self.tie((s.zone, end, through), &key, &s.called(), book);
        Ok(())
    }

    fn pane(
        &mut self,
        i: usize,
        model: &Model,
        glasses: &[Glass],
        book: &mut Book,
    ) -> Result<(), LoadError> {
        let p = &model.panes[i];
        let Some(g) = glasses.get(p.glazing) else {
            return Ok(());
        };
        let key = format!("window.{}", in_key(&p.name));
        let u_key = format!("{key}.u");
        let of = &model.glazings[p.glazing];
        let u = super::glazed::transmittance(of, g, book)?;
        book.reckon(
            u_key.clone(),
            format!("transmittance of {}", p.name),
            Dim::UValue,
            "U",
            &[("U", &u)],
            Source::job(format!("glazing {}", of.name)),
        )?;
        conductance(&key, &u_key, &p.name, book)?;
        let link = (p.zone, End::Outdoor, Through::Windows);
        self.tie(link, &key, &p.name, book);
        Ok(())
    }

    fn fan(
        &mut self,
        (zone, room): (usize, &str),
        flow_m3_per_s: f64,
        recovery: f64,
        what: &str,
        book: &mut Book,
    ) -> Result<(), LoadError> {
        let key = format!("air.{}.{what}", self.names[zone]);
        let source = Source::new("job", "leakage, vents and unheated spaces");
        book.given(
            format!("{key}.flow"),
            format!("outdoor air into {room}"),
            flow_m3_per_s,
            Dim::VolumeFlow,
            source.clone(),
            None,
        );
        book.given(
            format!("{key}.recovery"),
            "share of heat recovered",
            recovery,
            Dim::Share,
            source,
            None,
        );
        book.reckon(
            format!("{key}.conductance"),
            format!("heat to warm that air, {room}"),
            Dim::Conductance,
            "d * cp * Q * (1 - r)",
            &[
                ("d", "design.air-density"),
                ("cp", "design.air-heat"),
                ("Q", &format!("{key}.flow")),
                ("r", &format!("{key}.recovery")),
            ],
            Source::new("iso-13789", "8.4"),
        )?;
        let link = (zone, End::Outdoor, Through::Fans);
        self.tie(link, &key, &what.replace('-', " "), book);
        Ok(())
    }

    /// Adds the link (both ways for a zone behind), its conductance read from the book.
    fn tie(
        &mut self,
        (zone, end, through): (usize, End, Through),
        key: &str,
        place: &str,
        book: &Book,
    ) {
        let key = format!("{key}.conductance");
        let w_per_k = book.value(&key).unwrap_or(0.0);
        if let End::Zone(other) = end {
            let back = End::Zone(zone);
            self.links.push(Link {
                zone: other,
                end: back,
                through,
                w_per_k,
                key: key.clone(),
                place: place.to_owned(),
            });
        }
        self.links.push(Link {
            zone,
            end,
            through,
            w_per_k,
            key,
            place: place.to_owned(),
        });
    }

    /// Links of a zone in the order they were made.
    pub fn of(&self, zone: usize) -> impl Iterator<Item = &Link> {
        self.links.iter().filter(move |l| l.zone == zone)
    }
}

/// What a surface is, seen from one of its zones.
pub(super) fn through(s: &Surface, from: usize, model: &Model) -> Through {
    match &s.behind {
        Behind::Outdoor { .. } => outdoor_kind(s.kind),
        Behind::Zone(other) if s.zone == from => inner_kind(s.kind, *other, model),
        Behind::Zone(_) => inner_kind(s.kind, s.zone, model),
        Behind::Ground(_) => Through::Ground,
        Behind::Adiabatic => Through::Inner,
    }
}

/// A ceiling under an attic counts as a ceiling, a floor over a cellar as a floor.
fn inner_kind(kind: SurfaceKind, other: usize, model: &Model) -> Through {
    let unheated = model.zones.get(other).is_some_and(|z| z.heated.is_none());
    match kind {
        SurfaceKind::Ceiling | SurfaceKind::Roof if unheated => Through::Ceiling,
        SurfaceKind::Floor | SurfaceKind::InnerFloor if unheated => Through::Floor,
        _ => Through::Inner,
    }
}

fn outdoor_kind(kind: SurfaceKind) -> Through {
    match kind {
        SurfaceKind::Wall | SurfaceKind::Partition => Through::Walls,
        SurfaceKind::BasementWall => Through::Ground,
        SurfaceKind::Roof | SurfaceKind::Ceiling => Through::Ceiling,
        SurfaceKind::Floor | SurfaceKind::InnerFloor => Through::Floor,
        SurfaceKind::Door => Through::Doors,
    }
}

/// Conductance of a surface or window, from its area.
fn conductance(key: &str, u_key: &str, name: &str, book: &mut Book) -> Result<(), LoadError> {
    book.reckon(
        format!("{key}.conductance"),
        format!("conductance of {name}"),
        Dim::Conductance,
        "U * A",
        &[("U", u_key), ("A", &format!("{key}.area"))],
        Source::new("iso-13789", "8.1"),
    )?;
    Ok(())
}
