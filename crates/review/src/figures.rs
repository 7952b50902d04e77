//! What the bills say, written down so that it can be asked why.

use std::borrow::Cow;

use reckon::{Book, Figure, FormulaError, Input, Known, Source};
use units::Dim;

use crate::figures_bills::drawn_through;
use crate::line::By;
use crate::{Band, HeatLoss, Review};

fn put(
    book: &mut Book,
    key: &str,
    what: String,
    value: f64,
    dim: Dim,
    formula: &'static str,
    from: (&'static str, &str),
) {
    put_on(book, key, what, (value, dim), (formula, Vec::new()), from);
}

/// As [`put`], with what it rests on.
fn put_on(
    book: &mut Book,
    key: &str,
    what: String,
    (value, dim): (f64, Dim),
    (formula, inputs): (&'static str, Vec<Input>),
    from: (&'static str, &str),
) {
    book.put(Figure {
        key: key.to_owned(),
        what,
        value,
        dim,
        formula: Cow::Borrowed(formula),
        inputs,
        source: Source::new(from.0, from.1.to_owned()),
        known: None,
    });
}

fn ends(
    book: &mut Book,
    key: &str,
    what: &str,
    band: Band,
    dim: Dim,
    formula: &'static str,
    from: (&'static str, &str),
) {
    put(
        book,
        &format!("{key}.low"),
        format!("{what}, lower end of its band"),
        band.low,
        dim,
        formula,
        from,
    );
    put(
        book,
        &format!("{key}.high"),
        format!("{what}, upper end of its band"),
        band.high,
        dim,
        formula,
        from,
    );
}

const LEAST_SQUARES: &str = "over the year: least squares of the mean use of each bill on its degree \
                             days a day, weighted by days, the balance point by search";
const PROFILE: &str = "over the year: the values at which the least sum of squares is within the 90 % \
                       limit, stretched by the error that allows for uneven scatter";
const FILLS: &str = "over the year: use between full fills less the summer's, over the degree days \
                     between them";
const FILL_BAND: &str = "over the year: balance point 14 to 19 C, base and fill each at its ends, in \
                         quadrature";
const MOVER: &str = "over the year: bands of independent parts put together end by end in quadrature, \
                     of products by logarithms";

/// Writes the heat loss by the bills: `bills.oil.slope`, `bills.loss`, `bills.load` and what they
/// rest on. `across` is the key of a figure of indoor less outdoor temperature.
///
/// # Errors
/// A defect of the formulas.
pub fn write_loss(loss: &HeatLoss, across_k: f64, book: &mut Book) -> Result<(), FormulaError> {
    let mut keys = Vec::new();
    for h in &loss.heats {
        let name = h.carrier.word();
        let key = |part: &str| format!("bills.{name}.{part}");
        let fitted = matches!(h.line.by, By::Fit(_));
        let (how, band, from) = if fitted {
            (LEAST_SQUARES, PROFILE, ("caltrack-2", "3.3 and 3.4"))
        } else {
            (FILLS, FILL_BAND, ("trade-cards", "F2"))
        };
        let through = drawn_through(name, book);
        let line = &h.line;
        for (part, what, band_of, dim) in [
            (
                "slope",
                format!("{name} more for each degree colder"),
                line.slope_w_per_k,
                Dim::Conductance,
            ),
            (
                "base",
                format!("{name} that does not follow the weather"),
                line.base_w,
                Dim::Power,
            ),
            (
                "balance",
                format!("outdoor temperature below which {name} follows the cold"),
                line.balance_c,
                Dim::Temperature,
            ),
        ] {
            let (value, how) = ((band_of.mid, dim), (how, through.clone()));
            put_on(book, &key(part), what.clone(), value, how, from);
            let profile = ("bates-watts-1988", "6.1");
            ends(book, &key(part), &what, band_of, dim, band, profile);
        }
        let known = if name == "electricity" {
            None
        } else {
            Some(Known::Label)
        };
        let from = if name == "electricity" {
            Source::new("common-practice", "electricity bought ends as heat indoors")
        } else {
            Source::job("existing.efficiency")
        };
        book.given(
            key("efficiency"),
            format!("heat indoors for the {name} bought"),
            h.efficiency.mid,
            Dim::Share,
            from,
            known,
        );
        book.reckon(
            key("loss"),
            format!("heat loss that {name} carried"),
            Dim::Conductance,
            "b * eta",
            &[("b", &key("slope")), ("eta", &key("efficiency"))],
            Source::new("trade-cards", "F1"),
        )?;
        keys.push(key("loss"));
    }
    if loss.wood_w_per_k.mid > 0.0 {
        put(
            book,
            "bills.wood",
            "heat loss that wood carried".to_owned(),
            loss.wood_w_per_k.mid,
            Dim::Conductance,
            "over the year: the wood's heat that reached the rooms, over the degree days of a typical year",
            ("common-practice", "45 to 75 % of its heating value"),
        );
        keys.push("bills.wood".to_owned());
    }
    if loss.mains_w_per_k.mid > 0.0 {
        put(
            book,
            "bills.mains",
            "what hot water takes more in winter, taken off".to_owned(),
            -loss.mains_w_per_k.mid,
            Dim::Conductance,
            "over the year: 0 to 10 % of the base, over 12 K",
            ("common-practice", "cold mains"),
        );
        keys.push("bills.mains".to_owned());
    }
    book.add_up(
        "bills.loss",
        "heat loss of the house by its bills",
        Dim::Conductance,
        &keys,
        Source::new("trade-cards", "F1 and F2"),
    )?;
    let mover = ("zou-donner-2008", "equations 7 and 8");
    ends(
        book,
        "bills.loss",
        "heat loss of the house by its bills",
        loss.loss_w_per_k,
        Dim::Conductance,
        MOVER,
        mover,
    );
    book.given(
        "bills.across",
        "indoors less outdoors on the design night, floor-area mean of the settings",
        across_k,
        Dim::TemperatureDifference,
        Source::job("place.heating_design"),
        None,
    );
    book.reckon(
        "bills.load",
        "load on the design night by the bills, no free heat",
        Dim::Power,
        "H * dT",
        &[("H", "bills.loss"), ("dT", "bills.across")],
        Source::new("trade-cards", "F1"),
    )?;
    ends(
        book,
        "bills.load",
        "load on the design night by the bills",
        loss.load_w,
        Dim::Power,
        MOVER,
        mover,
    );
    Ok(())
}

/// Writes the second-winter review: `review.oil.heating-before`, `review.heat`, `review.cop`.
///
/// # Errors
/// A defect of the formulas.
pub fn write_review(review: &Review, book: &mut Book) -> Result<(), FormulaError> {
    let from = ("caltrack-2", "3.5, both sides in the same typical year");
    for n in &review.normal {
        let name = n.carrier.word();
        let dim = if name == "electricity" {
            Dim::ElectricEnergy
        } else {
            Dim::Heat
        };
        let parts = [
            ("before", "of a typical year before", n.before_j),
            ("after", "of a typical year after", n.after_j),
            (
                "heating-before",
                "that follows the cold, typical year, before",
                n.heating_before_j,
            ),
            (
                "heating-after",
                "that follows the cold, typical year, after",
                n.heating_after_j,
            ),
        ];
        for (part, words, band) in parts {
            let key = format!("review.{name}.{part}");
            let what = format!("{name} {words}");
            let how = "over the year: the fitted line on the days of the weather file";
            put(book, &key, what.clone(), band.mid, dim, how, from);
            ends(
                book,
                &key,
                &what,
                band,
                dim,
                PROFILE,
                ("bates-watts-1988", "6.1"),
            );
        }
    }
    put(
        book,
        "review.heat",
        "heat that fuel gave before and the heat pump gives now, typical year".to_owned(),
        review.moved_heat_j.mid,
        Dim::Heat,
        "over the year: fuel that followed the cold before less after, times what the heater gives",
        ("trade-cards", "F28"),
    );
    put(
        book,
        "review.electricity",
        "electricity that follows the cold, more than before, typical year".to_owned(),
        review.more_electricity_j.mid,
        Dim::ElectricEnergy,
        "over the year: after less before",
        ("trade-cards", "F28"),
    );
    if let Some(cop) = review.cop {
        book.reckon(
            "review.cop",
            "effective COP: heat moved over electricity",
            Dim::Ratio,
            "Q / E",
            &[("Q", "review.heat"), ("E", "review.electricity")],
            Source::new("trade-cards", "F28"),
        )?;
        let how =
            "over the year: band of a quotient of two independent values with bands (MOVER-R)";
        ends(
            book,
            "review.cop",
            "effective COP",
            cop,
            Dim::Ratio,
            how,
            ("donner-zou-2012", "section 2"),
        );
    }
    Ok(())
}
