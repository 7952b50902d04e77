//! `northwall sheet`: a data sheet looked at.

use std::path::Path;

use heatpump::{
    Conditions, Duty, PlotData, Sheet, SheetRatings, System, charge_trim_kg, check_sheet,
    plot_data, sheet_ratings,
};
use plan::Numbered;
use reckon::Level;
use units::Dim;

use crate::arguments::{DutyWord, Usual};
use crate::files;
use crate::refusal::Refusal;
use crate::report::Report;
use crate::say::{Say, Table, heading, plot, wrapped};
use crate::view::{CurveView, FindingView, RatingView, SheetView, VERSION};

pub fn answer(path: &Path, duty: DutyWord, usual: &Usual) -> Result<Report, Refusal> {
    let (sheet, _) = files::sheet(path)?;
    let say = Say::new(usual.si);
    let duty = match duty {
        DutyWord::Heating => Duty::Heating,
        DutyWord::Cooling => Duty::Cooling,
    };
    let looked = Looked::new(sheet, duty, say);
    let mut report = Report::new(looked.text(say), &looked.view());
    if looked
        .findings
        .iter()
        .any(|f| f.finding.level == Level::Stop)
    {
        report.code = crate::STOPPED;
    }
    if usual.svg.is_some() {
        report.svg = looked
            .curve
            .as_ref()
            .ok()
            .map(|c| plan::draw::sheet(c, say.system));
    }
    Ok(report)
}

struct Looked {
    sheet: Sheet,
    findings: Vec<Numbered>,
    ratings: Option<SheetRatings>,
    curve: Result<PlotData, String>,
    charge_kg: Option<f64>,
}

fn system_of(sheet: &Sheet) -> Result<System, String> {
    System::alone(sheet).map_err(|_| {
        format!(
            "{} is a {}: what it gives is on the outdoor unit's sheet.",
            sheet.name,
            sheet.kind.words()
        )
    })
}

impl Looked {
    fn new(sheet: Sheet, duty: Duty, say: Say) -> Self {
        let indoor_c = match duty {
            Duty::Heating => 190.0 / 9.0,
            Duty::Cooling => 80.0 / 3.0,
        };
        let system = system_of(&sheet);
        let curve = system.clone().and_then(|s| {
            plot_data(&s, duty, Conditions::at_sea_level(indoor_c)).map_err(|e| e.to_string())
        });
        let findings = check_sheet(&sheet, say.system)
            .into_iter()
            .enumerate()
            .map(|(i, finding)| Numbered {
                number: i + 1,
                finding,
            })
            .collect();
        Self {
            ratings: system.ok().and_then(|s| sheet_ratings(&s).ok()),
            charge_kg: example(&sheet),
            sheet,
            findings,
            curve,
        }
    }

    fn ratings(&self) -> Vec<RatingView> {
        let r = self.ratings;
        let p = &self.sheet.printed;
        [
            ("HSPF2", r.and_then(|r| r.hspf2), p.hspf2),
            ("SEER2", r.and_then(|r| r.seer2), p.seer2),
            ("SCOP", r.and_then(|r| r.scop), p.scop),
        ]
        .into_iter()
        .map(|(rating, computed, printed)| RatingView {
            rating,
            computed,
            printed,
        })
        .collect()
    }

    fn view(&self) -> SheetView {
        SheetView {
            northwall: VERSION,
            file: self.sheet.file.clone(),
            name: self.sheet.name.clone(),
            kind: self.sheet.kind.words(),
            sheet: self.sheet.sheet_id.clone(),
            invented: self.sheet.invented,
            charge_example_kg: self.charge_kg,
            charge_printed_kg: self.printed_kg(),
            ratings: self.ratings(),
            curve: self.curve.as_ref().map_or(Vec::new(), |c| {
                c.curves
                    .iter()
                    .map(|p| CurveView {
                        outdoor_c: p.outdoor_c,
                        min_w: p.min_w,
                        max_w: p.max_w,
                        min_cop: p.min_cop,
                        max_cop: p.max_cop,
                    })
                    .collect()
            }),
            cannot_tell: self.curve.as_ref().err().cloned(),
            findings: self
                .findings
                .iter()
                .map(|f| FindingView::new(f.number, &f.finding, line_of(&f.finding.place)))
                .collect(),
        }
    }

    fn printed_kg(&self) -> Option<f64> {
        Some(self.sheet.charge.as_ref()?.example.as_ref()?.printed_kg)
    }

    fn text(&self, say: Say) -> String {
        let mut out = heading(&format!("{}, {}", self.sheet.name, self.sheet.kind.words()));
        let invented = if self.sheet.invented {
            " Invented, for demonstration."
        } else {
            ""
        };
        out.push_str(&wrapped(
            "  ",
            &format!("Sheet {}.{invented}", self.sheet.sheet_id),
        ));
        if let (Some(kg), Some(printed)) = (self.charge_kg, self.printed_kg()) {
            let done = say.of(kg, Dim::Mass);
            let printed = say.of(printed, Dim::Mass);
            out.push_str(&wrapped(
                "  ",
                &format!("Charge example done again: {done}; the sheet prints {printed}."),
            ));
        }
        if self.ratings.is_some() {
            let mut table = Table::new(["rating", "from its points", "printed"]);
            let of = |v: Option<f64>| v.map_or("cannot tell".to_owned(), |v| format!("{v:.2}"));
            for r in self.ratings() {
                let printed = r.printed.map_or("-".to_owned(), |v| format!("{v:.2}"));
                table.row([r.rating.to_owned(), of(r.computed), printed]);
            }
            out.push_str(&table.text());
        }
        out.push('\n');
        match &self.curve {
            Ok(curve) => curves(curve, say, &mut out),
            Err(why) => out.push_str(&wrapped("  ", &format!("No curve: {why}"))),
        }
        out.push('\n');
        if self.findings.is_empty() {
            out.push_str(&heading("Nothing odd about it"));
        }
        for f in &self.findings {
            let word = f.finding.level.word();
            out.push_str(&heading(&format!(
                "{} {word}  {}",
                f.number, f.finding.place
            )));
            out.push_str(&wrapped("    ", &f.finding.says));
            let found = [("found", &f.finding.found), ("wanted", &f.finding.required)];
            let facts: Vec<String> = found
                .iter()
                .filter(|(_, t)| !t.is_empty())
                .map(|(w, t)| format!("{w} {t}"))
                .collect();
            if !facts.is_empty() {
                out.push_str(&wrapped("    ", &format!("{}.", facts.join("; "))));
            }
            out.push_str(&wrapped("    ", &format!("→ {}", f.finding.mend)));
        }
        out
    }
}

/// `file.toml:12` stands on line 12.
fn line_of(place: &str) -> Option<usize> {
    place.rsplit_once(':')?.1.parse().ok()
}

/// The sheet's worked example of the charge, done again by its own rate, kg.
fn example(sheet: &Sheet) -> Option<f64> {
    let charge = sheet.charge.as_ref()?;
    let example = charge.example.as_ref()?;
    let rate = match example.liquid_line_m {
        Some(line) => charge
            .rates
            .iter()
            .find(|r| (r.liquid_line_m - line).abs() < 1e-4)?,
        None => charge.rates.first()?,
    };
    Some(charge_trim_kg(
        rate.kg_per_m,
        example.length_m,
        charge.free_length_m?,
    ))
}

fn curves(curve: &PlotData, say: Say, out: &mut String) {
    let (Some(first), Some(last)) = (curve.curves.first(), curve.curves.last()) else {
        return;
    };
    let columns = 60;
    let span = (last.outdoor_c - first.outdoor_c).max(1e-9);
    let at = |of: &dyn Fn(&heatpump::PlotPoint) -> f64| -> Vec<f64> {
        (0..columns)
            .map(|i| {
                let c = first.outdoor_c + span * i as f64 / (columns - 1) as f64;
                let near = curve
                    .curves
                    .iter()
                    .min_by(|a, b| (a.outdoor_c - c).abs().total_cmp(&(b.outdoor_c - c).abs()));
                near.map_or(f64::NAN, of)
            })
            .collect()
    };
    let mut marks = vec![f64::NAN; columns];
    for m in &curve.marks {
        let i = ((m.outdoor_c - first.outdoor_c) / span * (columns - 1) as f64).round();
        if i >= 0.0
            && let Some(cell) = marks.get_mut(i as usize)
        {
            *cell = m.capacity_w;
        }
    }
    let top = curve.curves.iter().map(|p| p.max_w).fold(0.0, f64::max) * 1.05;
    let series = vec![
        ('·', at(&|p| p.min_w)),
        ('─', at(&|p| p.max_w)),
        ('◆', marks),
    ];
    out.push_str(&heading(&format!(
        "What it gives over outdoor temperature, {}",
        curve.duty.word()
    )));
    out.push_str(&plot(&series, top, 9, &|w| say.load_number(w)));
    let left = say.load_number(top).chars().count();
    let ends = (
        say.degrees(first.outdoor_c),
        say.temperature(last.outdoor_c),
    );
    let gap = columns.saturating_sub(ends.0.chars().count() + ends.1.chars().count());
    out.push_str(&format!(
        "  {:>left$}  {}{}{}\n",
        "",
        ends.0,
        " ".repeat(gap),
        ends.1
    ));
    let cop = if curve.duty == heatpump::Duty::Heating {
        " COP with frost and base-pan heat, as the year counts it."
    } else {
        ""
    };
    let legend = format!("─ most   · least   ◆ printed on the sheet.{cop}");
    out.push_str(&wrapped("  ", &legend));
    let mut table = Table::new(["outdoors", "least", "most", "COP least", "COP most"]);
    let step = (curve.curves.len() / 6).max(1);
    for p in curve.curves.iter().step_by(step) {
        table.row([
            say.temperature(p.outdoor_c),
            say.load(p.min_w),
            say.load(p.max_w),
            format!("{:.2}", p.min_cop),
            format!("{:.2}", p.max_cop),
        ]);
    }
    out.push_str(&table.text());
}
