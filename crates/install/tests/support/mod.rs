//! A job of one room and one unit, and its sheets, from text.

use heatpump::{Sheet, read_sheet};
use install::{Input, Installation, installation};
use season::Catalogue;

const HOUSE: &str = include_str!("../../../../checks/one-room.toml");

/// Text of a job with these tables after it.
pub fn job_text(more: &str) -> String {
    format!("{HOUSE}{more}")
}

#[allow(dead_code)] // as above
pub fn catalogue() -> Catalogue {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../catalogue/");
    let sheet = |file: &str, name: &str| -> Sheet {
        let text = std::fs::read_to_string(format!("{folder}{file}")).expect("sheet");
        let mut sheet = read_sheet(file, &text).expect("sheet reads");
        name.clone_into(&mut sheet.name);
        sheet
    };
    let mut out = sheet("loon-12.toml", "OUT");
    // the trade's own figures: 12 g/m on 1/4 in, 7.5 m free, taken out when shorter
    let charge = out.charge.as_mut().expect("charge");
    charge.factory_kg = 1.0;
    charge.free_length_m = Some(7.5);
    charge.most_kg = Some(2.5);
    charge.remove_below_free = Some(true);
    if let Some(rate) = charge.rates.first_mut() {
        rate.liquid_line_m = 0.00635;
        rate.kg_per_m = 0.012;
    }
    out.refrigerant = Some("R-32".to_owned());
    out.lines.liquid_m = Some(0.00635);
    out.lines.gas_m = Some(0.009525);
    let head = sheet("teal-12.toml", "HEAD");
    [("OUT".to_owned(), out), ("HEAD".to_owned(), head)].into()
}

/// The installation of the job with these tables, its sheets changed by `change`.
#[allow(dead_code)] // not every test file asks all of it
pub fn with(more: &str, change: impl FnOnce(&mut Catalogue)) -> Installation {
    let job = jobfile::read(&job_text(more)).unwrap_or_else(|p| panic!("{p:?}"));
    let model = house::geometry::model(&job.house).ok();
    let mut catalogue = catalogue();
    change(&mut catalogue);
    let input = Input {
        job: &job,
        catalogue: &catalogue,
        model: model.as_ref(),
        year: None,
        glass: &[],
        winter_wind_deg: None,
        design_c: -20.0,
    };
    installation(&input).expect("no defect")
}

/// As [`with`], sheets as they are.
#[allow(dead_code)] // as above
pub fn of(more: &str) -> Installation {
    with(more, |_| {})
}
