//! The headline: the few numbers that stand on the first sheet.

use plan::Plan;
use serde::Serialize;
use units::Dim;
use utoipa::ToSchema;

use super::said::Said;

/// One line, ready to print.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Line {
    /// What it is.
    pub what: String,
    /// Value in the units asked for.
    pub shown: String,
    /// Key of the figure, for `why`; empty where there is none.
    pub figure: String,
}

/// Headline numbers; null where they are not there yet.
#[derive(Debug, Clone, Default, Serialize, ToSchema)]
pub struct HeadlineView {
    /// Outdoor temperature of the heating load, C.
    pub design_outdoor_c: Option<f64>,
    /// Heating load of the house, W.
    pub heating_load_w: Option<f64>,
    /// Sensible cooling load of the house, W.
    pub cooling_load_w: Option<f64>,
    /// Heat the house needs in the year, kWh.
    pub heating_need_kwh: Option<f64>,
    /// Most of all units at the design temperature, W; null where a sheet cannot tell.
    pub units_give_w: Option<f64>,
    /// Share of the year's heat that comes from heads, 0 to 1.
    pub heads_share: Option<f64>,
    /// Seasonal COP of all units, waiting included.
    pub seasonal_cop: Option<f64>,
    /// Unit hours cycling.
    pub cycling_hours: Option<u32>,
    /// Name of the year with what heats now, alone, as it stands beside the choices.
    pub now: Option<String>,
    /// Cost of the year, in the job's currency.
    pub cost: Option<f64>,
    /// Cost of the year with what heats now, alone.
    pub cost_now: Option<f64>,
    /// Rooms more than 2 K under their setting in more than 438 hours.
    pub rooms_cold: Option<usize>,
    /// The same with what heats now, alone.
    pub rooms_cold_now: Option<usize>,
    /// Carbon of the year, kg.
    pub carbon_kg: Option<f64>,
    /// Carbon of the year with what heats now, kg.
    pub carbon_now_kg: Option<f64>,
    /// Largest electric hour, W.
    pub electric_peak_w: Option<f64>,
    /// The same in words, in the units asked for.
    pub lines: Vec<Line>,
}

/// The headline of a plan.
pub fn headline(plan: &Plan, currency: &str, say: Said) -> HeadlineView {
    let numbers = plan.headline();
    let mut of = HeadlineView {
        design_outdoor_c: numbers.design_outdoor_c,
        heating_load_w: numbers.heating_load_w,
        cooling_load_w: numbers.cooling_load_w,
        heating_need_kwh: numbers.heating_need_kwh,
        units_give_w: numbers.units_give_w,
        heads_share: numbers.heads_share,
        seasonal_cop: numbers.seasonal_cop,
        cycling_hours: numbers.cycling_hours,
        now: plan.year_now().map(|y| y.choice.clone()),
        cost: numbers.cost,
        cost_now: numbers.cost_now,
        rooms_cold: numbers.rooms_cold,
        rooms_cold_now: numbers.rooms_cold_now,
        carbon_kg: numbers.carbon_kg,
        carbon_now_kg: numbers.carbon_now_kg,
        electric_peak_w: numbers.electric_peak_w,
        lines: Vec::new(),
    };
    of.lines = lines(plan, &of, currency, say);
    of
}

fn lines(plan: &Plan, of: &HeadlineView, currency: &str, say: Said) -> Vec<Line> {
    let mut out = Vec::new();
    let mut line = |what: &str, shown: String, figure: &str| {
        let figure = plan.book.get(figure).map_or("", |_| figure);
        out.push(Line {
            what: what.to_owned(),
            shown,
            figure: figure.to_owned(),
        });
    };
    let at = of.design_outdoor_c.map(|c| say.temperature(c));
    let at = at.unwrap_or_default();
    if let Some(w) = of.heating_load_w {
        line(
            "House loses",
            format!("{} at {at}", say.load(w)),
            "loads.house.heating",
        );
    }
    if let Some(w) = of.cooling_load_w {
        line("Cooling, sensible", say.load(w), "loads.house.cooling");
    }
    if let Some(kwh) = of.heating_need_kwh {
        let shown = say.of(kwh * units::constants::KWH_J, Dim::Heat);
        line("Needs a year", shown, "year.ideal.house.heating");
    }
    if plan.year().is_some() {
        let shown = match of.units_give_w {
            Some(w) => format!("{} at {at}", say.load(w)),
            None => format!("cannot tell at {at}: a sheet ends before it"),
        };
        line("Units give", shown, "season.chosen.house.units-give");
    }
    if let Some(share) = of.heads_share {
        line(
            "Heads carry",
            say.of(share, Dim::Share),
            "season.chosen.house.heads-share",
        );
    }
    if let Some(cop) = of.seasonal_cop {
        line(
            "Seasonal COP",
            format!("{cop:.2}"),
            "season.chosen.house.cop",
        );
    }
    if let Some(hours) = of.cycling_hours {
        let shown = format!("{} unit hours of cycling", units::whole(f64::from(hours)));
        line("On and off", shown, "season.chosen.house.hours-cycling");
    }
    let now = |what: &str| plan.key_now(what).unwrap_or_default();
    let money = |v: f64| format!("{currency}{}", units::whole(v.max(0.0)));
    if let Some(cost) = of.cost {
        line("Costs a year", money(cost), "season.chosen.house.cost");
    }
    if let Some(cost) = of.cost_now {
        line("Costs as it is now", money(cost), &now("cost"));
    }
    if let Some(cold) = plan.says_left_cold(say.system) {
        line("Left cold", cold, "season.chosen.house.rooms-left-cold");
    }
    let carbon = |kg: f64| say.of(kg, Dim::Carbon);
    if let Some(kg) = of.carbon_kg {
        line("Carbon a year", carbon(kg), "season.chosen.house.carbon");
    }
    if let Some(kg) = of.carbon_now_kg {
        line("Carbon as it is now", carbon(kg), &now("carbon"));
    }
    out
}
