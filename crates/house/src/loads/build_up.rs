//! The resistance of a build-up as figures: films, layers, framing, the two bounds.

use reckon::{Book, Known, Source, in_key};
use units::Dim;

use super::LoadError;
use crate::assembly::{self, FILM_OUT_M2K_PER_W, Flow};
use crate::describe::{Construction, Layer};
use crate::library::{self, Fill};

/// Key of the film outdoors.
pub(super) const FILM_OUT: &str = "film.outside";

/// Writes the films and gives the key of the one inside.
pub(super) fn films(flow: Flow, book: &mut Book) -> &'static str {
    let (key, what) = match flow {
        Flow::Level => ("film.level", "film of air inside, heat flowing level"),
        Flow::Up => ("film.up", "film of air inside, heat flowing up"),
        Flow::Down => ("film.down", "film of air inside, heat flowing down"),
    };
    let outside = "film of air outside";
    for (key, what, value) in [
        (key, what, flow.film_m2k_per_w()),
        (FILM_OUT, outside, FILM_OUT_M2K_PER_W),
    ] {
        let from = Source::new("iso-6946", "table 7");
        book.given(key, what, value, Dim::RValue, from, None);
    }
    key
}

/// Writes the total resistance of a build-up, films included, once for each direction:
/// `construction.<name>.<direction>.r`. Gives its key.
///
/// # Errors
/// A layer that cannot be used.
pub(super) fn resistance(
    c: &Construction,
    flow: Flow,
    to_zone: bool,
    book: &mut Book,
) -> Result<String, LoadError> {
    let of = format!(
        "construction.{}.{}",
        in_key(&c.name),
        direction(flow, to_zone)
    );
    let key = format!("{of}.r");
    if book.get(&key).is_some() {
        return Ok(key);
    }
    assembly::check(c)?;
    let inside = films(flow, book);
    let other = if to_zone { inside } else { FILM_OUT };
    let what = format!("resistance of {}, films included", c.name);
    if let [Layer::Resistance { name, r_m2k_per_w }] = c.layers.as_slice()
        && name == "door leaf"
    {
        leaf(c, *r_m2k_per_w, &of, (flow, to_zone), book)?;
        return Ok(key);
    }
    let from = described(c);
    let mut parts = Vec::with_capacity(c.layers.len());
    for (i, layer) in c.layers.iter().enumerate() {
        parts.push(part(&Pen::new(c, i + 1, layer, &from), layer, book)?);
    }
    let whole: Vec<&str> = parts.iter().map(|p| p.even.as_str()).collect();
    if parts.iter().all(|p| p.through.is_empty()) {
        add_up(&key, &what, &whole, (inside, other), book)?;
        return Ok(key);
    }
    let (upper, lower) = (format!("{of}.upper"), format!("{of}.lower"));
    straight_through(c, &of, &upper, &parts, (inside, other), book)?;
    let says = format!("resistance of {}, layers evenly warm", c.name);
    add_up(&lower, &says, &whole, (inside, other), book)?;
    book.reckon(
        key.clone(),
        what,
        Dim::RValue,
        "(upper + lower) / 2",
        &[("upper", &upper), ("lower", &lower)],
        Source::new("iso-6946", "6.7.2"),
    )?;
    Ok(key)
}

/// A layer, as keys: its resistance with its face evenly warm, and where framing crosses it, the
/// share and resistance of each way straight through.
struct Part {
    even: String,
    through: Vec<(String, String)>,
}

fn add_up(
    key: &str,
    what: &str,
    layers: &[&str],
    (inside, other): (&str, &str),
    book: &mut Book,
) -> Result<(), LoadError> {
    let ends = [other].into_iter().chain(layers.iter().copied());
    let inputs: Vec<(&'static str, &str)> = ends.chain([inside]).map(|k| ("R", k)).collect();
    let from = Source::new("iso-6946", "6.7.1");
    book.reckon(key, what, Dim::RValue, "sum()", &inputs, from)?;
    Ok(())
}

/// The bound with heat flowing straight through: every way through cavities and framing by itself.
fn straight_through(
    c: &Construction,
    of: &str,
    upper: &str,
    parts: &[Part],
    films: (&str, &str),
    book: &mut Book,
) -> Result<(), LoadError> {
    // shares and resistances met on each way, doubled at each framed layer
    let mut ways: Vec<(Vec<&str>, Vec<&str>)> = vec![(Vec::new(), Vec::new())];
    for part in parts {
        if part.through.is_empty() {
            for (_, met) in &mut ways {
                met.push(&part.even);
            }
            continue;
        }
        let mut next = Vec::with_capacity(ways.len() * part.through.len());
        for (shares, met) in &ways {
            for (share, r) in &part.through {
                let (mut shares, mut met) = (shares.clone(), met.clone());
                shares.push(share);
                met.push(r);
                next.push((shares, met));
            }
        }
        ways = next;
    }
    let mut keys = Vec::with_capacity(ways.len());
    for (n, (shares, met)) in ways.iter().enumerate() {
        let way = format!("{of}.way-{}", n + 1);
        let what = |of: &str| format!("{of} of way {} straight through {}", n + 1, c.name);
        let r = format!("{way}.r");
        add_up(&r, &what("resistance"), met, films, book)?;
        let formula = PRODUCTS.get(shares.len()).copied().unwrap_or("");
        let mut inputs: Vec<(&'static str, &str)> =
            SHARES.iter().copied().zip(shares.iter().copied()).collect();
        inputs.push(("R", &r));
        let u = format!("{way}.u");
        let from = Source::new("iso-6946", "6.7.2.3");
        let what = what("share over resistance");
        book.reckon(u.clone(), what, Dim::UValue, formula, &inputs, from)?;
        keys.push(u);
    }
    let inputs: Vec<(&'static str, &str)> = keys.iter().map(|k| ("U", k.as_str())).collect();
    book.reckon(
        upper,
        format!("resistance of {}, heat straight through", c.name),
        Dim::RValue,
        "1 / sum()",
        &inputs,
        Source::new("iso-6946", "6.7.2.3"),
    )?;
    Ok(())
}

/// Symbols of shares, and by their number the formula of a way's part of the transmittance.
const SHARES: [&str; 6] = ["f1", "f2", "f3", "f4", "f5", "f6"];
const PRODUCTS: [&str; 7] = [
    "1 / R",
    "f1 / R",
    "f1 * f2 / R",
    "f1 * f2 * f3 / R",
    "f1 * f2 * f3 * f4 / R",
    "f1 * f2 * f3 * f4 * f5 / R",
    "f1 * f2 * f3 * f4 * f5 * f6 / R",
];

fn part(pen: &Pen<'_>, layer: &Layer, book: &mut Book) -> Result<Part, LoadError> {
    let even = pen.key("r");
    let mut through = Vec::new();
    match layer {
        Layer::Resistance { name, r_m2k_per_w } => {
            let from = match library::fill_of(name) {
                Fill::Air => Source::new("iso-6946", "table 8, unvented air space, heat level"),
                _ => pen.from.clone(),
            };
            pen.given("r", "resistance", *r_m2k_per_w, Dim::RValue, from, book);
        }
        Layer::Solid {
            name,
            thickness_m,
            k_w_per_mk,
            ..
        } => {
            pen.thickness(*thickness_m, book);
            pen.conducts("k", name, *k_w_per_mk, book);
            pen.over("r", "resistance", "k", book)?;
        }
        Layer::Framed {
            name,
            thickness_m,
            framing_share,
            cavity,
            framing,
            ..
        } => {
            pen.thickness(*thickness_m, book);
            let share = pen.key("framing");
            let from = if library::framed_by_spacing(name) {
                Source::new("common-practice", "share of framing by its spacing")
            } else {
                pen.from.clone()
            };
            pen.given(
                "framing",
                "share of framing",
                *framing_share,
                Dim::Share,
                from,
                book,
            );
            let rest = pen.key("rest");
            let what = pen.what("share without framing");
            let from = Source::new("iso-6946", "6.7.2.3");
            book.reckon(
                rest.clone(),
                what,
                Dim::Share,
                "1 - f",
                &[("f", &share)],
                from,
            )?;
            match library::fill_of(name) {
                Fill::Material(fill) => {
                    pen.conducts("k-between", fill, cavity[0], book);
                    pen.over("between", "resistance between framing", "k-between", book)?;
                }
                stated => {
                    let from = match stated {
                        Fill::Air => Source::new("iso-6946", "table 8, unvented air space"),
                        _ => pen.from.clone(),
                    };
                    let r = thickness_m / cavity[0];
                    let what = "resistance between framing";
                    pen.given("between", what, r, Dim::RValue, from, book);
                }
            }
            pen.conducts("k-framing", "softwood", framing[0], book);
            pen.over("framing-r", "resistance of framing", "k-framing", book)?;
            let (between, framed) = (pen.key("between"), pen.key("framing-r"));
            book.reckon(
                even.clone(),
                pen.what("resistance, evenly warm"),
                Dim::RValue,
                "1 / (g / Rc + f / Rf)",
                &[
                    ("g", &rest),
                    ("Rc", &between),
                    ("f", &share),
                    ("Rf", &framed),
                ],
                Source::new("iso-6946", "6.7.2.4"),
            )?;
            if *framing_share < 1.0 {
                through.push((rest, between));
            }
            if *framing_share > 0.0 {
                through.push((share, framed));
            }
        }
    }
    Ok(Part { even, through })
}

/// Where the layers of a build-up are from: the job, or what usually stands in.
fn described(c: &Construction) -> Source {
    if library::usual_construction(&c.name).is_ok_and(|usual| usual == *c) {
        Source::new("common-practice", "usual build-ups of old and new houses")
    } else {
        Source::job(format!("construction.{}.layers", c.name))
    }
}

/// Writes the figures of one layer: `layer.<construction>.<number>.<what>`.
struct Pen<'a> {
    of: &'a Construction,
    from: &'a Source,
    base: String,
    called: String,
}

impl<'a> Pen<'a> {
    fn new(of: &'a Construction, n: usize, layer: &Layer, from: &'a Source) -> Self {
        let (Layer::Solid { name, .. }
        | Layer::Resistance { name, .. }
        | Layer::Framed { name, .. }) = layer;
        Self {
            of,
            from,
            base: format!("layer.{}.{n}", in_key(&of.name)),
            called: format!("{name}, layer {n} of {} from outside", of.name),
        }
    }

    fn key(&self, what: &str) -> String {
        format!("{}.{what}", self.base)
    }

    fn what(&self, of: &str) -> String {
        format!("{of}: {}", self.called)
    }

    fn given(&self, key: &str, what: &str, value: f64, dim: Dim, from: Source, book: &mut Book) {
        let known = Some(self.of.known).filter(|k| from.key == "job" || *k == Known::Assumed);
        book.given(self.key(key), self.what(what), value, dim, from, known);
    }

    fn thickness(&self, m: f64, book: &mut Book) {
        let from = self.from.clone();
        self.given("d", "thickness", m, Dim::SmallLength, from, book);
    }

    /// Conductivity: of the table of materials, else as the job has it.
    fn conducts(&self, key: &str, name: &str, k: f64, book: &mut Book) {
        let of_table = library::material(name).ok().filter(|m| m.k_w_per_mk == k);
        let from = of_table.map_or_else(|| self.from.clone(), |m| m.from());
        let what = format!("conductivity of {name}");
        let known = Some(self.of.known).filter(|_| from.key == "job");
        book.given(self.key(key), what, k, Dim::Conductivity, from, known);
    }

    /// Thickness over conductivity.
    fn over(&self, key: &str, what: &str, k: &str, book: &mut Book) -> Result<(), LoadError> {
        let inputs = [("d", &*self.key("d")), ("k", &*self.key(k))];
        let from = Source::new("iso-6946", "6.7.1.1");
        book.reckon(
            self.key(key),
            self.what(what),
            Dim::RValue,
            "d / k",
            &inputs,
            from,
        )?;
        Ok(())
    }
}

/// A door leaf is known by its transmittance, with the films of a wall.
fn leaf(
    c: &Construction,
    r_m2k_per_w: f64,
    of: &str,
    (flow, to_zone): (Flow, bool),
    book: &mut Book,
) -> Result<(), LoadError> {
    let (key, u) = (format!("{of}.r"), format!("{of}.stated"));
    let stated = 1.0 / (r_m2k_per_w + assembly::FILM_LEVEL_M2K_PER_W + FILM_OUT_M2K_PER_W);
    let what = format!("resistance of {}, films included", c.name);
    let says = format!("transmittance of {}", c.name);
    let from = Source::job("outer_door");
    book.given(u.clone(), says, stated, Dim::UValue, from, Some(c.known));
    let source = || Source::new("iso-6946", "6.5");
    if (flow, to_zone) == (Flow::Level, false) {
        book.reckon(key, what, Dim::RValue, "1 / U", &[("U", &u)], source())?;
        return Ok(());
    }
    let level = films(Flow::Level, book);
    let inside = films(flow, book);
    book.reckon(
        key,
        what,
        Dim::RValue,
        "1 / U - Rsi - Rse + Ra + Rb",
        &[
            ("U", &u),
            ("Rsi", level),
            ("Rse", FILM_OUT),
            ("Ra", inside),
            ("Rb", if to_zone { inside } else { FILM_OUT }),
        ],
        source(),
    )?;
    Ok(())
}

fn direction(flow: Flow, to_zone: bool) -> &'static str {
    match (flow, to_zone) {
        (Flow::Level, false) => "wall",
        (Flow::Level, true) => "inner-wall",
        (Flow::Up, false) => "up",
        (Flow::Up, true) => "inner-up",
        (Flow::Down, false) => "down",
        (Flow::Down, true) => "inner-down",
    }
}
