//! `northwall loads`: the design night and the worst clear day.

use std::path::Path;

use house::balance::Doors;
use house::loads::Through;
use plan::{DesignChoice, DesignFrom, Loads, Plan};
use units::Dim;

use crate::arguments::{LoadsChart, Usual};
use crate::files::{self, Loaded};
use crate::refusal::Refusal;
use crate::report::Report;
use crate::say::{Say, Table, bar, cut, heading, wrapped};
use crate::view::{
    DesignView, FloatView, GlassView, LoadsView, PartView, RoomLoadView, VERSION, WaitView,
};

pub fn answer(path: &Path, chart: LoadsChart, usual: &Usual) -> Result<Report, Refusal> {
    let loaded = files::load(path, usual)?;
    let plan = plan::plan_of_chosen(&loaded.job, &loaded.catalogue, &loaded.weather);
    let say = Say::for_job(&loaded.job);
    let mut report = Report::new(text(&plan, &loaded, say), &view(&plan, &loaded));
    if usual.svg.is_some() {
        report.svg = match chart {
            LoadsChart::Plan => crate::draw::storeys(&plan, &loaded, say),
            LoadsChart::Bars => crate::draw::bars(&plan, say),
        };
    }
    Ok(report)
}

fn from_words(choice: &DesignChoice) -> String {
    match &choice.from {
        DesignFrom::Typed(words) => words.clone(),
        DesignFrom::Header(words) => {
            format!(
                "{} of the weather file's header ({words})",
                choice.kind.name()
            )
        }
        DesignFrom::Hours => format!("{} of the weather file's own hours", choice.kind.name()),
    }
}

/// Station and design temperature in a line or two.
pub fn site_line(plan: &Plan, say: Say) -> String {
    let site = &plan.site;
    let text = format!(
        "{}, {}. Design {}: {}.",
        site.station.name.trim(),
        say.of(site.elevation_m, Dim::Length),
        say.temperature(site.heating.used_c),
        from_words(&site.heating),
    );
    wrapped("", &text)
}

fn rivals(choice: &DesignChoice, say: Say) -> String {
    let c = |c: Option<f64>| c.map_or("none".to_owned(), |c| say.temperature(c));
    format!(
        "{}: typed {}, header {}, own hours {}. Used: {} ({}).",
        choice.kind.name(),
        c(choice.typed_c),
        c(choice.header_c),
        c(choice.hours_c),
        say.temperature(choice.used_c),
        from_words(choice),
    )
}

/// Columns of the table: several ways out together.
const COLUMNS: [(&str, &[Through]); 5] = [
    ("walls,\ndoors", &[Through::Walls, Through::Doors]),
    ("\nglass", &[Through::Windows]),
    (
        "ceiling,\nfloor",
        &[Through::Ceiling, Through::Floor, Through::Ground],
    ),
    ("spaces\nbeside", &[Through::Inner]),
    ("leaks,\nfans", &[Through::Leaks, Through::Fans]),
];

fn part(room: &house::loads::RoomHeating, through: &[Through]) -> f64 {
    room.parts
        .iter()
        .filter(|p| through.contains(&p.through))
        .map(|p| p.heat_w)
        .sum()
}

fn text(plan: &Plan, loaded: &Loaded, say: Say) -> String {
    let mut out = heading(&plan.name);
    out.push_str(&site_line(plan, say));
    out.push('\n');
    let Some(loads) = plan.loads.done() else {
        for w in plan.loads.waits() {
            out.push_str(&wrapped("  ", &format!("Waits for {}. {}", w.what, w.how)));
        }
        return out;
    };
    heating(loads, plan, say, &mut out);
    bars(loads, say, &mut out);
    cooling(loads, loaded, say, &mut out);
    floats(loads, say, &mut out);
    glass(loads, plan, say, &mut out);
    out
}

fn heating(loads: &Loads, plan: &Plan, say: Say, out: &mut String) {
    out.push_str(&heading(&format!(
        "Heat lost at {}, no sun, no free heat",
        say.temperature(loads.design.outdoor_c)
    )));
    out.push_str(&wrapped("  ", &rivals(&plan.site.heating, say)));
    let unit = say.load_unit();
    let per = format!("{unit}\nper {}", say.unit(Dim::Area));
    let total = format!("total\n{unit}");
    let mut heads = vec!["room"];
    heads.extend(COLUMNS.iter().map(|c| c.0));
    heads.extend([total.as_str(), per.as_str()]);
    let mut table = Table::new(heads);
    let row = |name: &str, parts: Vec<f64>, w: f64, m2: f64| -> Vec<String> {
        let mut cells = vec![cut(name, 16)];
        cells.extend(parts.iter().map(|w| say.load_number(*w)));
        cells.push(say.load_number(w));
        cells.push(say.per_area(w, m2));
        cells
    };
    for room in &loads.heating.rooms {
        let parts = COLUMNS.iter().map(|c| part(room, c.1)).collect();
        table.row(row(&room.room, parts, room.heat_w, room.floor_m2));
    }
    table.rule();
    let sums = COLUMNS
        .iter()
        .map(|c| loads.heating.rooms.iter().map(|r| part(r, c.1)).sum())
        .collect();
    let m2 = loads.heating.rooms.iter().map(|r| r.floor_m2).sum();
    table.row(row("house", sums, loads.heating.heat_w, m2));
    out.push_str(&table.text());
    out.push_str(&wrapped(
        "  ",
        &format!(
            "{} per degree. Outdoor air through leaks {}, wind {}.",
            say.of(loads.heating.loss_w_per_k, Dim::Conductance),
            say.of(loads.heating.leak_m3_per_s, Dim::VolumeFlow),
            say.of(loads.design.wind_m_per_s, Dim::Speed),
        ),
    ));
    out.push('\n');
}

fn bars(loads: &Loads, say: Say, out: &mut String) {
    let most = loads
        .heating
        .rooms
        .iter()
        .map(|r| r.heat_w)
        .fold(0.0, f64::max);
    for room in &loads.heating.rooms {
        out.push_str(&format!(
            "  {:<16} {:>7} \x1b[33m{}\x1b[0m\n",
            cut(&room.room, 16),
            say.load_number(room.heat_w),
            bar(room.heat_w / most, 50)
        ));
    }
    out.push('\n');
}

fn cooling(loads: &Loads, loaded: &Loaded, say: Say, out: &mut String) {
    let cooling = &loads.cooling;
    let when = |hour: Option<usize>| hour.map_or("-".to_owned(), |h| loaded.weather.stamp(h));
    out.push_str(&heading("Heat to take out on the worst clear days"));
    let sensible = format!("sensible\n{}", say.load_unit());
    let mut table = Table::new(["room", sensible.as_str(), "when"]).words(&[2]);
    for room in &cooling.rooms {
        table.row([
            cut(&room.room, 16),
            say.load_number(room.sensible_w),
            when(room.hour),
        ]);
    }
    table.rule();
    table.row([
        "house".to_owned(),
        say.load_number(cooling.sensible_w),
        when(cooling.hour),
    ]);
    out.push_str(&table.text());
    let says = match cooling.latent_w {
        Some(w) => format!(
            "Moisture to take out in that hour: {}. The house's peak is less than the sum of \
             the rooms', which come at other hours.",
            say.load(w)
        ),
        None => "No hour of the worst clear days needs cooling.".to_owned(),
    };
    out.push_str(&wrapped("  ", &says));
    out.push('\n');
}

fn doors_word(doors: Doors) -> &'static str {
    match doors {
        Doors::AsUsual => "usual",
        Doors::Open => "open",
        Doors::Closed => "closed",
    }
}

fn floats(loads: &Loads, say: Say, out: &mut String) {
    if loads.floats.is_empty() {
        return;
    }
    out.push_str(&heading(&format!(
        "Rooms without a head, no sun, doors open and closed, {}",
        say.degree()
    )));
    let mut outdoors: Vec<f64> = Vec::new();
    for f in &loads.floats {
        if !outdoors.iter().any(|o| (o - f.outdoor_c).abs() < 1e-9) {
            outdoors.push(f.outdoor_c);
        }
    }
    let heads: Vec<String> = outdoors
        .iter()
        .flat_map(|o| {
            let at = say.temperature(*o);
            [format!("{at}\nopen"), format!("{at}\nclosed")]
        })
        .collect();
    let mut all = vec!["room"];
    all.extend(heads.iter().map(String::as_str));
    let mut table = Table::new(all);
    let mut rooms: Vec<&str> = Vec::new();
    for f in &loads.floats {
        if !rooms.contains(&f.room.as_str()) {
            rooms.push(&f.room);
        }
    }
    for room in rooms {
        let mut cells = vec![cut(room, 16)];
        for o in &outdoors {
            for doors in [Doors::Open, Doors::Closed] {
                let c = loads.float_c(room, *o, doors);
                cells.push(c.map_or("-".to_owned(), |c| say.degrees(c)));
            }
        }
        table.row(cells);
    }
    out.push_str(&table.text());
    out.push('\n');
}

fn glass(loads: &Loads, plan: &Plan, say: Say, out: &mut String) {
    if loads.glass.is_empty() {
        return;
    }
    out.push_str(&heading("Glass on the design night"));
    let face = format!("inside\n{}", say.degree());
    let draught = format!("draught\n{}", say.unit(Dim::AirSpeed));
    let heads = [
        "window",
        face.as_str(),
        "fogs above\nhumidity",
        draught.as_str(),
        "room",
    ];
    let mut table = Table::new(heads).words(&[4]);
    let model = plan.model.done();
    for pane in &loads.glass {
        let room = model
            .and_then(|m| m.zones.get(pane.zone))
            .map_or("", |z| z.name.as_str());
        table.row([
            cut(&pane.window, 28),
            say.degrees(pane.face_c),
            say.of(pane.fogs_at, Dim::Share),
            say.number(pane.draught_m_per_s, Dim::AirSpeed),
            cut(room, 16),
        ]);
    }
    out.push_str(&table.text());
}

fn design_view(choice: &DesignChoice) -> DesignView {
    DesignView {
        used_c: Some(choice.used_c).filter(|c| c.is_finite()),
        from: from_words(choice),
        percentile: choice.kind.name(),
        typed_c: choice.typed_c,
        header_c: choice.header_c,
        hours_c: choice.hours_c,
    }
}

fn view(plan: &Plan, loaded: &Loaded) -> LoadsView {
    let loads = plan.loads.done();
    let model = plan.model.done();
    let at = |h: usize| loaded.weather.stamp(h);
    let rooms = loads.map_or(Vec::new(), |l| {
        l.heating
            .rooms
            .iter()
            .map(|r| {
                let cooling = l.cooling.rooms.iter().find(|c| c.zone == r.zone);
                RoomLoadView {
                    room: r.room.clone(),
                    inside_c: r.inside_c,
                    floor_m2: r.floor_m2,
                    heating_w: r.heat_w,
                    heating_w_per_m2: r.heat_w / r.floor_m2,
                    parts: r
                        .parts
                        .iter()
                        .map(|p| PartView {
                            through: p.through.word(),
                            heat_w: p.heat_w,
                        })
                        .collect(),
                    cooling_sensible_w: cooling.map(|c| c.sensible_w),
                    cooling_peak_at: cooling.and_then(|c| c.hour).map(at),
                    key: r.key.clone(),
                }
            })
            .collect()
    });
    LoadsView {
        northwall: VERSION,
        job: plan.name.clone(),
        heating_design: design_view(&plan.site.heating),
        cooling_design: design_view(&plan.site.cooling),
        design_wind_m_per_s: loads.map(|l| l.design.wind_m_per_s),
        heating_w: loads.map(|l| l.heating.heat_w),
        loss_w_per_k: loads.map(|l| l.heating.loss_w_per_k),
        cooling_sensible_w: loads.map(|l| l.cooling.sensible_w),
        cooling_latent_w: loads.and_then(|l| l.cooling.latent_w),
        cooling_peak_at: loads.and_then(|l| l.cooling.hour).map(at),
        rooms,
        rooms_without_heads: loads.map_or(Vec::new(), |l| {
            l.floats
                .iter()
                .map(|f| FloatView {
                    room: f.room.clone(),
                    outdoor_c: f.outdoor_c,
                    doors: doors_word(f.doors),
                    air_c: f.air_c,
                    key: f.key.clone(),
                })
                .collect()
        }),
        glass: loads.map_or(Vec::new(), |l| {
            l.glass
                .iter()
                .map(|g| GlassView {
                    window: g.window.clone(),
                    room: model
                        .and_then(|m| m.zones.get(g.zone))
                        .map_or(String::new(), |z| z.name.clone()),
                    face_c: g.face_c,
                    fogs_at: g.fogs_at,
                    draught_m_per_s: g.draught_m_per_s,
                })
                .collect()
        }),
        waiting: plan
            .loads
            .waits()
            .iter()
            .map(|w| WaitView {
                what: w.what.clone(),
                place: w.place.clone(),
                how: w.how.clone(),
            })
            .collect(),
    }
}
