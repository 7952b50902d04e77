//! The outdoor wall: each unit on its base with snow, ice and eave, and beneath it every rule of
//! the place as measured, wanted, verdict.

use jobfile::Job;
use units::{Dim, System, show};

use super::judged::{LEFT, RIGHT, WIDTH, table};
use super::page::{Cell, cell, fitted, page, path, rect, text};
use crate::Plan;

/// Height of an elevation.
const TALL: f64 = 300.0;
/// Most of the wall that is drawn, m up.
pub(super) const UP_M: f64 = 2.9;

/// The elevation of every outdoor unit; `None` without one, or before the installation is begun.
pub fn wall(plan: &Plan, job: &Job, system: System) -> Option<String> {
    drawn(plan, job, system, true)
}

/// As [`wall`], without the rules: for a sheet that lists them itself.
pub fn wall_alone(plan: &Plan, job: &Job, system: System) -> Option<String> {
    drawn(plan, job, system, false)
}

fn drawn(plan: &Plan, job: &Job, system: System, rules: bool) -> Option<String> {
    let done = plan.install.done()?;
    let units = &job.equipment.outdoors;
    if units.is_empty() {
        return None;
    }
    let mut out = String::new();
    let title = "The outdoor wall: snow, base, free space";
    text(&mut out, 16.0, 26.0, "start", "bold", title);
    let mut y = 34.0;
    for unit in units {
        elevation(&Seen::of(plan, job, &unit.name), y, system, &mut out);
        y += TALL + 22.0;
        if rules {
            let here = format!("outdoor.{}", unit.name);
            let rows = done.place.iter().filter(|j| j.place == here);
            y = table(rows, y, &mut out);
        }
    }
    if rules {
        let heard = done.place.iter();
        let heard = heard.filter(|j| j.place.starts_with("listener"));
        y = table(heard, y + 4.0, &mut out);
    }
    let cells = title_block(plan, job, system);
    Some(page(WIDTH, y + 12.0, title, &cells, &out))
}

/// The title block: of the first unit.
pub(super) fn title_block(plan: &Plan, job: &Job, system: System) -> [Cell; 3] {
    let first = job.equipment.outdoors.first();
    let first = first.map_or("", |u| u.name.as_str());
    let of = |k: &str| {
        let v = plan.value(&format!("outdoors.{first}.{k}"));
        v.map_or("not known".to_owned(), |(v, d)| show(v, d, system))
    };
    [
        cell("To scale, but for what is not measured", plan.name.clone()),
        cell("Meltwater of a year", of("water")),
        cell("Base wanted", of("base-least")),
    ]
}

/// What there is of a unit on its wall, m.
pub(super) struct Seen<'j> {
    pub name: &'j str,
    /// Width and height; the usual where the sheet does not say.
    pub size: (f64, f64),
    /// Whether the sheet says it.
    pub sized: bool,
    pub bracket: bool,
    /// Eave or valley, where it drips from one.
    pub drip: Option<&'j str>,
    pub snow: f64,
    pub ice: Option<f64>,
    pub base: Option<f64>,
    pub least: Option<f64>,
    pub above: Option<f64>,
}

impl<'j> Seen<'j> {
    pub fn of(plan: &Plan, job: &'j Job, name: &'j str) -> Self {
        let size = plan.chosen.iter().flat_map(|c| &c.systems);
        let size = size.filter(|s| s.name == name).find_map(|s| {
            let z = &s.pumps.outdoor.sheet.size;
            Some((z.width_m?, z.height_m?))
        });
        let mut places = job.installation.outdoors.iter();
        let place = places.find(|p| p.outdoor == name);
        let value = |k: &str| plan.book.value(&format!("outdoors.{name}.{k}"));
        let drip = place.and_then(|p| p.roof_drip.as_deref());
        Self {
            name,
            size: size.unwrap_or((0.9, 0.7)),
            sized: size.is_some(),
            bracket: place.is_some_and(|p| p.on == "bracket"),
            drip: drip.filter(|w| matches!(*w, "eave" | "valley")),
            snow: value("snow").unwrap_or(0.0),
            ice: value("ice"),
            base: value("base"),
            least: value("base-least"),
            above: value("above"),
        }
    }
}

/// A length, no finer than an inch or a centimetre.
pub(super) fn coarse(v: f64, system: System) -> String {
    let step = if system == System::Us { 0.0254 } else { 0.01 };
    show(libm::round(v / step) * step, Dim::Length, system)
}

fn elevation(seen: &Seen<'_>, top: f64, system: System, out: &mut String) {
    let m = |v: f64| coarse(v, system);
    let scale = (TALL - 40.0) / UP_M;
    let ground = top + TALL - 8.0;
    let up = |h: f64| ground - h * scale;
    path(out, "ink", 1.6, &format!("M{LEFT} {ground:.1}H{RIGHT}"));
    let snow = seen.snow;
    if snow > 0.0 {
        rect(out, "frostwash", LEFT, up(snow), RIGHT - LEFT, snow * scale);
        path(
            out,
            "frost",
            1.2,
            &format!("M{LEFT} {:.1}H{RIGHT}", up(snow)),
        );
        let says = format!("snow {}", m(snow));
        text(
            out,
            LEFT + 6.0,
            up(snow) + 14.0,
            "start",
            "small halo",
            &says,
        );
    }
    let (w, h) = (seen.size.0 * scale, seen.size.1 * scale);
    let x = 0.5 * (LEFT + RIGHT) - 0.5 * w - 30.0;
    if let Some(ice) = seen.ice {
        // more than can be drawn is drawn to the edge and says its depth
        let deep = ice.min(UP_M) * scale;
        rect(out, "frostmid", x - 14.0, ground - deep, w + 28.0, deep);
        let says = format!("ice {}", m(ice));
        let beside = x + w + 22.0;
        text(out, beside, ground - 18.0, "start", "small halo", &says);
        text(
            out,
            beside,
            ground - 5.0,
            "start",
            "small halo soft",
            "if none drains or thaws",
        );
    }
    let base = seen.base;
    let foot = up(base.unwrap_or(0.0));
    let legs = format!(
        "M{:.1} {foot:.1}V{ground:.1}M{:.1} {foot:.1}V{ground:.1}",
        x + 12.0,
        x + w - 12.0
    );
    if seen.bracket {
        path(out, "copper", 2.4, &format!("M{x:.1} {foot:.1}h{w:.1}"));
    } else {
        path(out, "copper", 1.2, &legs);
    }
    rect(out, "copperwash", x, foot - h, w, h);
    path(
        out,
        "copper",
        1.6,
        &format!("M{x:.1} {:.1}h{w:.1}v{h:.1}h-{w:.1}Z", foot - h),
    );
    let inside = fitted(seen.name, 10.5, w - 8.0);
    text(out, x + w / 2.0, foot - h / 2.0, "middle", "small", &inside);
    let size_words = if seen.sized {
        ""
    } else {
        "size not on the sheet"
    };
    text(
        out,
        x + w / 2.0,
        foot - h / 2.0 + 14.0,
        "middle",
        "small soft",
        size_words,
    );
    let base = base.map_or("base not measured".to_owned(), |b| format!("base {}", m(b)));
    if let Some(least) = seen.least {
        let line = format!("M{:.1} {:.1}H{:.1}", x - 26.0, up(least), x + w + 14.0);
        path(out, "ink", 0.8, &line);
        let says = format!("base wanted {}", m(least));
        text(out, x - 30.0, up(least) + 4.0, "end", "small halo", &says);
        // over its line, clear of the snow
        text(out, x + w + 18.0, foot - 4.0, "start", "small halo", &base);
    } else {
        text(out, x + w + 18.0, foot + 4.0, "start", "small halo", &base);
    }
    if let Some(above) = seen.above {
        let (from, to) = (foot - h, (foot - h - above * scale).max(top + 6.0));
        path(
            out,
            "hair",
            1.0,
            &format!("M{:.1} {from:.1}V{to:.1}", x + w / 2.0),
        );
        let says = format!("{} free above", m(above));
        text(
            out,
            x + w / 2.0 + 6.0,
            to + 12.0,
            "start",
            "small halo",
            &says,
        );
    }
    if let Some(word) = seen.drip {
        path(
            out,
            "ink",
            3.0,
            &format!("M{LEFT} {:.1}H{RIGHT}", top + 4.0),
        );
        let says = format!("{word} over it");
        text(out, RIGHT - 4.0, top + 18.0, "end", "small halo", &says);
    }
}
