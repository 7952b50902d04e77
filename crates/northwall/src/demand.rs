//! The highest demand of the meter's own readings, for the panel by measurement.

use std::path::Path;

use jobfile::Job;
use review::{Demand, EspiMeter, read_espi};

use crate::bills::fault;
use crate::files;
use crate::refusal::{Fault, Refusal};

/// Most bytes of a file of readings: a year of minutes.
const MOST_BYTES: u64 = 200_000_000;

/// Fills the panel's peak, interval and days from the file that the job names; gives remarks.
pub fn fill(job: &mut Job, job_path: &Path, zone_s: i64) -> Result<Vec<String>, Refusal> {
    let Some(panel) = &mut job.installation.panel else {
        return Ok(Vec::new());
    };
    let Some(name) = panel.readings.clone() else {
        return Ok(Vec::new());
    };
    let shown = job_path.display().to_string();
    let said = [
        ("peak", panel.peak_w.is_some()),
        ("interval", panel.interval_s.is_some()),
        ("days", panel.days.is_some()),
    ];
    if let Some((key, _)) = said.iter().find(|s| s.1) {
        let mut fault = Fault::file(&shown, "the readings tell this already");
        fault.place = format!("panel.{key}");
        return Err(fault
            .got(format!("{key} beside readings = \"{name}\""))
            .allowed("one of the two")
            .mend("take one of the two out")
            .into());
    }
    let path = job_path.parent().unwrap_or(Path::new("")).join(&name);
    let bytes = files::bytes(&path, MOST_BYTES, "file of readings")?;
    let meters = read_espi(&bytes, Some(zone_s)).map_err(|why| fault(&path, &bytes, why))?;
    let told: Vec<(&EspiMeter, Demand)> =
        meters.iter().filter_map(|m| Some((m, m.demand?))).collect();
    let Some((meter, demand)) = told
        .iter()
        .copied()
        .max_by(|a, b| a.1.peak_w.total_cmp(&b.1.peak_w))
    else {
        return Err(Fault::file(
            &path.display().to_string(),
            "these are bills or days, not readings of intervals",
        )
        .allowed("electricity in intervals of 15 minutes or less")
        .mend("ask the utility for interval data")
        .into());
    };
    panel.peak_w = Some(demand.peak_w);
    panel.interval_s = Some(demand.interval_s as f64);
    panel.days = Some(f64::from(demand.days));
    if meter.bills.behind_sun {
        panel.solar = Some(true);
    }
    let mut notes = vec![format!(
        "{name}: highest {:.0} minutes {:.2} kW, over {} days.",
        demand.interval_s as f64 / 60.0,
        demand.peak_w / 1000.0,
        demand.days
    )];
    if demand.estimates {
        notes.push(format!(
            "{name}: part of the readings is estimated by the utility."
        ));
    }
    if told.len() > 1 {
        notes.push(format!(
            "{name}: {} meters; the one with the highest demand is taken. If they feed one panel, \
             ask for the sum.",
            told.len()
        ));
    }
    Ok(notes)
}
