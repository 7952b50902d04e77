//! What a load is explained with is what the hourly balance has: transmittances layer by layer,
//! ground, glass, areas and leaks of the figures against those of the model, over many houses.

use std::path::Path;

use house::assembly::{FILM_OUT_M2K_PER_W, Flow, total_resistance};
use house::describe::{Glazing, GlazingData, House, Layer};
use house::glazing::Glass;
use house::leakage::Leakage;
use house::loads::{self, Design};
use house::model::{Behind, Model};
use reckon::{Book, Known, Source, in_key};

const OUTDOOR_C: f64 = -20.0;

fn worked_out(house: &House) -> (Model, Vec<Glass>, Design, Book) {
    let model = house::geometry::model(house).expect("a house that can be drawn");
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let design = Design {
        outdoor_c: OUTDOOR_C,
        outdoor_source: Source::job("place.heating_design"),
        outdoor_known: None,
        wind_m_per_s: 4.0,
        wind_source: Source::new("weather", "hours"),
        air_j_per_m3k: 1250.0,
        monthly_outdoor_c: [
            -8.0, -6.0, 0.0, 7.0, 13.0, 18.0, 21.0, 20.0, 16.0, 10.0, 3.0, -4.0,
        ],
    };
    let mut book = Book::new();
    loads::heating(&model, &glasses, &design, &mut book).expect("loads");
    (model, glasses, design, book)
}

fn near(book: &Book, key: &str, want: f64) {
    let got = book.value(key);
    let got = got.unwrap_or_else(|| panic!("no figure {key}"));
    let size = want.abs().max(1e-6);
    assert!(
        (got - want).abs() <= 1e-9 * size,
        "{key}: {got} against {want}"
    );
}

/// Holds all figures of a house against its model; says how many stood in the ground.
fn hold(house: &House) -> usize {
    let (model, glasses, design, book) = worked_out(house);
    let mut under_grade = 0;
    for s in &model.surfaces {
        let key = format!("surface.{}", in_key(&s.name));
        let c = &model.constructions[s.construction];
        let flow = Flow::of_tilt(s.tilt_deg);
        let other = match &s.behind {
            Behind::Adiabatic => continue,
            Behind::Ground(contact) => {
                under_grade += 1;
                near(&book, &format!("{key}.u"), contact.u_w_per_m2k);
                let months =
                    house::ground::virtual_temperatures_c(contact, &design.monthly_outdoor_c);
                let coldest = months.into_iter().fold(f64::INFINITY, f64::min);
                let figure = book.get(&format!("{key}.u")).expect("written");
                let of = figure.inputs[0].key.replace(".u", ".coldest");
                near(&book, &of, coldest);
                near(&book, &format!("{key}.area"), s.area_m2);
                continue;
            }
            Behind::Zone(_) => flow.film_m2k_per_w(),
            Behind::Outdoor { .. } => FILM_OUT_M2K_PER_W,
        };
        let r = total_resistance(c, flow.film_m2k_per_w(), other).expect("usable");
        near(&book, &format!("{key}.u"), 1.0 / r.total_m2k_per_w);
        near(&book, &format!("{key}.area"), s.area_m2);
    }
    for p in &model.panes {
        let key = format!("window.{}", in_key(&p.name));
        near(
            &book,
            &format!("{key}.u"),
            glasses[p.glazing].rated_u_w_per_m2k(),
        );
        near(&book, &format!("{key}.area"), p.area_m2);
    }
    if model.leak.c_m3_per_s_pa_n > 0.0 {
        let leakage = Leakage::plain(&model, design.air_j_per_m3k);
        near(&book, "leaks.c", model.leak.c_m3_per_s_pa_n);
        near(&book, "leaks.stack-factor", leakage.stack_factor());
        for (z, zone) in model.zones.iter().enumerate() {
            if zone.heated.is_some() {
                let (stack, wind) = leakage.shares(z);
                let of = |what: &str| format!("leaks.{}.{what}", in_key(&zone.name));
                near(&book, &of("low"), stack);
                near(&book, &of("wind"), wind);
            }
        }
    }
    under_grade
}

fn jobs(folder: &str) -> Vec<House> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../jobs")
        .join(folder);
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .expect("jobs")
        .flatten()
        .map(|e| e.path())
        .collect();
    files.sort();
    let texts = files.iter().filter_map(|f| std::fs::read_to_string(f).ok());
    texts
        .filter_map(|t| Some(jobfile::read(&t).ok()?.house))
        .collect()
}

fn demo() -> House {
    jobs("lake-street").remove(0)
}

#[test]
fn the_demo_and_the_standard_houses() {
    assert!(hold(&demo()) > 3, "a cellar stands in the ground");
    let standard = jobs("standard-140");
    assert!(standard.len() > 10, "{} jobs", standard.len());
    // houses without any thermostat have no load
    let heated = |h: &&House| h.rooms.iter().any(|r| r.heated.is_some());
    for house in standard.iter().filter(heated) {
        hold(house);
    }
}

/// Layers crossed twice by framing, framing alone, and cavities alone: each way counts once.
#[test]
fn framing_that_crosses() {
    let framed = |share: f64| Layer::Framed {
        name: "fiberglass batt 3.5 in in studs 16 in".to_owned(),
        thickness_m: 0.089,
        framing_share: share,
        cavity: [0.04, 15.0, 800.0],
        framing: [0.12, 500.0, 1630.0],
    };
    for shares in [
        vec![0.25, 0.1],
        vec![0.25, 0.1, 0.2],
        vec![1.0],
        vec![0.0],
        vec![0.0, 0.3],
    ] {
        let mut house = demo();
        let wall = house
            .constructions
            .iter_mut()
            .find(|c| c.name == "wall")
            .expect("a wall");
        wall.layers.extend(shares.iter().map(|s| framed(*s)));
        hold(&house);
    }
}

/// Glass pane by pane, with a frame, with a stated gap, and with what the label leaves.
#[test]
fn glass_pane_by_pane() {
    let standard = jobs("standard-140");
    let panes = standard.iter().flat_map(|h| &h.glazings);
    let made = panes
        .map(|g| &g.made_of)
        .find(|m| matches!(m, GlazingData::Panes { .. }));
    let Some(GlazingData::Panes { panes, gaps }) = made else {
        panic!("no standard house has glass pane by pane")
    };
    for (gas, stated, frame_share) in [
        (house::describe::Gas::Air, None, 0.2),
        (house::describe::Gas::Argon, None, 0.0),
        (house::describe::Gas::Air, Some(0.19), 0.35),
    ] {
        let mut gaps = gaps.clone();
        for gap in &mut gaps {
            (gap.gas, gap.stated_r_m2k_per_w) = (gas, stated);
        }
        let mut house = demo();
        let name = house.windows[0].glazing.clone();
        house.glazings.retain(|g| g.name != name);
        house.glazings.push(Glazing {
            name,
            made_of: GlazingData::Panes {
                panes: panes.clone(),
                gaps,
            },
            frame_share,
            frame_u_w_per_m2k: 2.4,
            known: Known::Seen,
        });
        hold(&house);
    }
}

/// The bottom of every load is a place of the job, the weather, or a publication: no number of a
/// wall, of the ground, or of the leaks rests on one that was worked out unseen.
#[test]
fn a_load_unfolds_to_what_was_measured() {
    let (.., book) = worked_out(&demo());
    let mut ask = vec!["loads.house.heating".to_owned()];
    let mut leaves = std::collections::BTreeSet::new();
    while let Some(key) = ask.pop() {
        let figure = book.get(&key).expect("an input that is there");
        if figure.inputs.is_empty() {
            leaves.insert(key);
        } else {
            ask.extend(figure.inputs.iter().map(|i| i.key.clone()));
        }
    }
    let measured = |key: &&String| {
        let last = key.rsplit('.').next().unwrap_or_default();
        let from = &book.get(key).expect("there").source.key;
        let job = matches!(from.as_ref(), "job" | "weather");
        job || key.starts_with("film.")
            || (key.starts_with("layer.") && (last.starts_with('k') || from == "common-practice"))
            || (key.starts_with("layer.") && (last == "framing" || from == "iso-6946"))
            || ["ground.k", "ground.c", "design.air-heat"].contains(&key.as_str())
            || key.starts_with("glazing.")
    };
    let unseen: Vec<_> = leaves.iter().filter(|k| !measured(k)).collect();
    assert!(unseen.is_empty(), "{unseen:?}");
    assert!(leaves.len() > 100, "{}", leaves.len());
}
