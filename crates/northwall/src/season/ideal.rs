//! The year with ideal heating and cooling, for the terminal.

use plan::{Plan, RoomYear};

use crate::files::Loaded;
use crate::say::{Say, Table, cut, field, heading, wrapped};

pub fn text(plan: &Plan, loaded: &Loaded, say: Say) -> String {
    let mut out = heading(&plan.name);
    out.push_str(&wrapped(
        "",
        &format!(
            "{}. The year with ideal heating and cooling: what rooms need, whatever gives it.",
            plan.site.station.name.trim()
        ),
    ));
    out.push('\n');
    let Some(year) = plan.ideal.done() else {
        for w in plan.ideal.waits() {
            out.push_str(&wrapped("  ", &format!("Waits for {}. {}", w.what, w.how)));
        }
        return out;
    };
    let heat = say.year_heat_unit();
    let peak = say.load_unit();
    let heads = [
        "room".to_owned(),
        format!("heating\n{heat}"),
        format!("cooling\n{heat}"),
        format!("most heat\n{peak}"),
        format!("most cool\n{peak}"),
        format!("least\n{}", say.degree()),
        format!("mean\n{}", say.degree()),
        format!("most\n{}", say.degree()),
    ];
    let mut table = Table::new(heads.iter().map(String::as_str));
    let row = |r: &RoomYear| {
        [
            cut(&r.name, 16),
            say.year_heat(r.heating_j),
            say.year_heat(r.cooling_j),
            say.load_number(r.heating_peak.heat_w),
            say.load_number(r.cooling_peak.heat_w),
            say.degrees(r.least_c.0),
            say.degrees(r.mean_c),
            say.degrees(r.greatest_c.0),
        ]
    };
    for r in year.rooms.iter().filter(|r| r.drawn) {
        table.row(row(r));
    }
    table.rule();
    table.row(row(&year.house));
    out.push_str(&table.text());
    let mut peaks = Vec::new();
    for (word, p) in [
        ("heating", year.house.heating_peak),
        ("cooling", year.house.cooling_peak),
    ] {
        if p.heat_w > 0.0 {
            peaks.push(format!(
                "most {word} in the hour of {}",
                loaded.weather.stamp(p.hour)
            ));
        }
    }
    if !peaks.is_empty() {
        out.push_str(&wrapped("  ", &format!("House: {}.", peaks.join("; "))));
    }
    let most = year.house.heating_peak.heat_w;
    if most > 0.0 {
        out.push('\n');
        out.push_str(&heading(
            "The year as a field of hours: heating, of its greatest hour",
        ));
        let hours = year.hourly_heat_w.len();
        let share = |h: usize| {
            year.hourly_heat_w
                .get(h)
                .map_or(0.0, |w| (w / most).max(0.0))
        };
        out.push_str(&field(hours, &share));
    }
    out
}
