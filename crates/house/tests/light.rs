//! Light on a window is let through, soaked up or thrown back: never more than falls on it, and in
//! the shares that the glass says.

mod support;

use climate::sun::{Facet, on_facets};
use house::drive::Drive;
use house::glazing::Glass;
use jobfile::new::{Answers, first_job};
use support::weather;

#[test]
fn what_falls_on_a_pane_is_shared_out() {
    let weather = weather("denver-725650.epw.gz");
    let job = jobfile::read(&first_job(&Answers::default())).expect("a first job reads");
    let model = house::geometry::model(&job.house).expect("geometry");
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let drive = Drive::new(&model, &glasses, &weather).expect("drive");
    assert!(!model.panes.is_empty() && drive.apertures > 0);
    let mut hours = 0;
    for (pane, column) in model.panes.iter().zip(&drive.aperture_of_pane) {
        let facet = Facet {
            azimuth_deg: pane.azimuth_deg,
            tilt_deg: pane.tilt_deg,
        };
        let sun = &on_facets(&weather, &[facet], model.ground_albedo).expect("a facet")[0];
        let glass = &glasses[pane.glazing];
        for h in 0..drive.steps {
            let falls = sun.total_w_per_m2(h);
            let i = h * drive.apertures + column;
            let through = drive.beam_w_per_m2[i] + drive.diffuse_w_per_m2[i];
            let soaked = drive.outer_w_per_m2[i] + drive.inner_w_per_m2[i];
            let most = falls * (1.0 + 1e-9);
            assert!(
                through >= 0.0 && soaked >= 0.0 && through + soaked <= most,
                "hour {h}: {through} through and {soaked} soaked up of {falls} W/m2"
            );
            // Under an even sky the shares are those of the glass for diffuse light.
            if falls > 20.0 && drive.beam_w_per_m2[i] == 0.0 && sun.beam_w_per_m2[h] == 0.0 {
                hours += 1;
                let d = glass.diffuse;
                let even = drive.diffuse_w_per_m2[i] / d.through;
                assert!(even <= most && even > 0.0, "hour {h}: {even} of {falls}");
                for (what, share, got) in [
                    ("outer", d.outer, drive.outer_w_per_m2[i]),
                    ("inner", d.inner, drive.inner_w_per_m2[i]),
                ] {
                    assert!((got - share * even).abs() < 1e-9, "{what}, hour {h}: {got}");
                }
            }
        }
    }
    assert!(hours > 500, "only {hours} hours of even sky were tried");
}
