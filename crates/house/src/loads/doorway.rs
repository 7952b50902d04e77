//! Air through a door or a stair, from its size and how it stands: `door.<number>.<stands>`.

use reckon::{Book, Source};
use units::Dim;

use super::LoadError;
use super::pen::Pen;
use crate::balance::Passage;
use crate::balance::openings::{
    AJAR_M, LEAF_W_PER_M2K, SHUT_M3_PER_S, UNDERCUT_M, UNDERCUT_M3_PER_S, WARM_ABOVE,
};
use crate::describe::Stands;
use crate::model::{Model, Opening};

/// How a door stands, as a word in keys and texts.
fn word(stands: Stands) -> &'static str {
    match stands {
        Stands::Open => "open",
        Stands::Ajar => "ajar",
        Stands::Closed => "closed",
    }
}

/// Writes what passes the opening of this number that stands so, and gives the beginning of its
/// keys: `.steady` (heat per degree whatever the temperatures), `.from-1` and `.from-2` (air each
/// way at 1 K apart with the first or the second of its rooms the warmer one).
///
/// # Errors
/// A formula that does not read: a defect of the program.
pub(super) fn doorway(
    number: usize,
    stands: Stands,
    model: &Model,
    book: &mut Book,
) -> Result<String, LoadError> {
    let base = format!("door.{}.{}", number + 1, word(stands));
    if book.get(&format!("{base}.steady")).is_some() {
        return Ok(base);
    }
    let o = &model.openings[number];
    let job = format!("door.{}", number + 1);
    let [a, b] = o.zones.map(|z| &*model.zones[z].name);
    // the room that tells of the door
    let written = format!("room.{a}.door_to");
    for (key, of, value) in [
        ("width", "clear width", o.width_m),
        ("height", "clear height", o.height_m),
    ] {
        let from = Source::job(written.clone());
        let what = format!("{of} of the door between {a} and {b}");
        book.given(format!("{job}.{key}"), what, value, Dim::Length, from, None);
    }
    let mut pen = Pen { base: &base, book };
    let of = Door {
        job: &job,
        written: &written,
        o,
        stands,
        rise_m: Passage::rise_m(o, model),
    };
    of.steady(&mut pen)?;
    of.buoyant(&mut pen)?;
    Ok(base)
}

struct Door<'a> {
    /// Beginning of the keys of its sizes.
    job: &'a str,
    /// Its place in the job.
    written: &'a str,
    o: &'a Opening,
    stands: Stands,
    rise_m: Option<f64>,
}

fn card(place: &'static str) -> Source {
    Source::new("trade-card-f11", place)
}

impl Door<'_> {
    fn of_job(&self, what: &str) -> String {
        format!("{}.{what}", self.job)
    }

    /// What passes a shut door: a little air, what the gap and a grille let through, and the leaf.
    fn steady(&self, pen: &mut Pen<'_>) -> Result<(), LoadError> {
        let what = "heat per degree through the door, whatever the temperatures";
        if self.stands != Stands::Closed {
            let none = card("of a door that is not shut, all depends on the temperatures");
            pen.given("steady", what, 0.0, Dim::Conductance, (none, None));
            return Ok(());
        }
        let drawn = || Source::job(self.written.to_owned());
        // The leaf of a hatch over a stair is not counted.
        let (leaf, leaf_from) = match self.rise_m {
            None => (
                LEAF_W_PER_M2K,
                Source::new("from-memory", "hollow inner door, films included"),
            ),
            Some(_) => (0.0, card("a stair has no leaf")),
        };
        for (key, what, value, dim, from) in [
            (
                "tight",
                "air each way through a shut door without a gap",
                SHUT_M3_PER_S,
                Dim::VolumeFlow,
                card("5 to 15 cfm through a shut door"),
            ),
            (
                "gap",
                "gap under the leaf",
                self.o.undercut_m,
                Dim::SmallLength,
                drawn(),
            ),
            (
                "usual-gap",
                "a usual gap",
                UNDERCUT_M,
                Dim::SmallLength,
                card("undercut"),
            ),
            (
                "usual-air",
                "air each way through a usual gap",
                UNDERCUT_M3_PER_S,
                Dim::VolumeFlow,
                card("undercut: 15 cfm for 0.75 in without a grille"),
            ),
            (
                "transfer",
                "air by a grille or fan, each way",
                self.o.transfer_m3_per_s,
                Dim::VolumeFlow,
                drawn(),
            ),
            (
                "leaf",
                "transmittance of the leaf",
                leaf,
                Dim::UValue,
                leaf_from,
            ),
        ] {
            pen.given(key, what, value, dim, (from, None));
        }
        pen.reckon(
            "air",
            "air each way through the shut door",
            Dim::VolumeFlow,
            "q + qu * g / gu + t",
            &[
                ("q", "tight"),
                ("qu", "usual-air"),
                ("g", "gap"),
                ("gu", "usual-gap"),
                ("t", "transfer"),
            ],
            card("air through a shut door"),
        )?;
        pen.reckon(
            "steady",
            what,
            Dim::Conductance,
            "d * cp * q + U * w * h",
            &[
                ("d", "design.air-density"),
                ("cp", "design.air-heat"),
                ("q", "air"),
                ("U", "leaf"),
                ("w", &self.of_job("width")),
                ("h", &self.of_job("height")),
            ],
            card("air and leaf"),
        )?;
        Ok(())
    }

    /// What warm air over cold drives through it.
    fn buoyant(&self, pen: &mut Pen<'_>) -> Result<(), LoadError> {
        let (one, two) = (
            "air each way at 1 K apart, its first room the warmer",
            "air each way at 1 K apart, its second room the warmer",
        );
        if self.stands == Stands::Closed {
            for (key, what) in [("from-1", one), ("from-2", two)] {
                let none = (card("a shut door stops it"), None);
                pen.given(key, what, 0.0, Dim::VolumeFlow, none);
            }
            return Ok(());
        }
        let mut width = self.of_job("width");
        if self.stands == Stands::Ajar {
            let hand = Source::new("common-practice", "a hand's width");
            let what = "gap of a door that stands ajar";
            pen.given("hand", what, AJAR_M, Dim::Length, (hand, None));
            pen.reckon(
                "clear",
                "width that is clear",
                Dim::Length,
                "min(a, w)",
                &[("a", "hand"), ("w", &width)],
                card("a door that stands ajar"),
            )?;
            width = format!("{}.clear", pen.base);
        }
        let of = [("w", width.as_str()), ("h", &self.of_job("height"))];
        let Some(rise) = self.rise_m else {
            let from = Source::new("brown-solvason-1962", "discharge coefficient 0.65, at 20 C");
            let formula = "0.65 * w / 3 * sqrt(9.80665 * h ^ 3 / 293.15)";
            pen.reckon("from-1", one, Dim::VolumeFlow, formula, &of, from.clone())?;
            pen.reckon("from-2", two, Dim::VolumeFlow, formula, &of, from)?;
            return Ok(());
        };
        let stair = || Source::new("epstein-1988", "hole in a floor, at 20 C");
        let rises = "0.055 * sqrt(9.80665 / 293.15) * (4 * w * h / pi) ^ 1.25";
        // Cold air over warm changes places with it; warm air over cold stays.
        let ((free, free_says), (held, held_says)) = if rise > 0.0 {
            (("from-1", one), ("from-2", two))
        } else {
            (("from-2", two), ("from-1", one))
        };
        pen.reckon(free, free_says, Dim::VolumeFlow, rises, &of, stair())?;
        let share = Source::new("common-practice", "people and drafts: a tenth");
        let what = "share exchanged where it is warm above cold";
        pen.given("warm-above", what, WARM_ABOVE, Dim::Share, (share, None));
        let of = [("k", "warm-above"), ("q", free)];
        pen.reckon(held, held_says, Dim::VolumeFlow, "k * q", &of, stair())?;
        Ok(())
    }
}
