//! Figures of the cooling loads: of the worst hour of each room what the sun, things, air and
//! walls brought, and of the worst hour of the house the same.

use std::collections::BTreeMap;

use climate::Weather;
use reckon::{Book, Figure, FormulaError, Source, in_key};
use units::Dim;

use super::LoadError;
use super::cooling::{CoolingHour, CoolingLoads, RoomCooling};
use super::latent::latent;
use super::steady::{Through, through};
use crate::drive::Drive;
use crate::model::Model;

impl CoolingLoads {
    /// Works the latent load out, and writes all loads down: `loads.<room>.cooling`, the same of
    /// the hour of the house under `loads.<room>.cooling-then`, `loads.house.cooling` and, where
    /// anything needs cooling, `loads.house.latent`. Of the drive only the air is read, not the
    /// faces; the figures of the heating loads are in the book.
    ///
    /// # Errors
    /// An hour whose moisture cannot be worked out.
    pub fn write(
        &mut self,
        model: &Model,
        drive: &Drive,
        weather: &Weather,
        book: &mut Book,
    ) -> Result<(), LoadError> {
        self.latent_w = match self.hour {
            Some(hour) => Some(latent(model, drive, weather, hour, book)?),
            None => None,
        };
        let mut then = Vec::new();
        for room in &self.rooms {
            let name = in_key(&room.room);
            let key = format!("loads.{name}.cooling");
            let what = format!("sensible cooling load of {}", room.room);
            let Some(of) = &room.made_of else {
                none(&key, &what, book);
                continue;
            };
            let told = Told {
                model,
                drive,
                weather,
                room,
                of,
                key: &key,
            };
            told.write(what, book)?;
            let Some(of) = &room.in_hour_of_house else {
                continue;
            };
            let then_key = format!("{key}-then");
            let what = format!(
                "sensible cooling of {} in the hour in which the house needs most",
                room.room
            );
            if room.hour == self.hour {
                book.reckon(
                    &*then_key,
                    what,
                    Dim::Power,
                    "q",
                    &[("q", &key)],
                    at_hour(weather, of.hour),
                )?;
            } else {
                let key = &*then_key;
                Told { of, key, ..told }.write(what, book)?;
            }
            then.push(then_key);
        }
        let what = "sensible cooling load of the house: the hour with most of all rooms together";
        let key = "loads.house.cooling";
        match self.hour {
            Some(hour) => {
                book.add_up(key, what, Dim::Power, &then, at_hour(weather, hour))?;
            }
            None => none(key, what, book),
        }
        Ok(())
    }
}

/// A load that is nothing.
fn none(key: &str, what: &str, book: &mut Book) {
    book.put(Figure {
        key: key.to_owned(),
        what: what.to_owned(),
        value: 0.0,
        dim: Dim::Power,
        formula: "over the year: greatest hour of the balance on the worst clear days".into(),
        inputs: Vec::new(),
        source: Source::new("weather", "no hour of them needs cooling"),
        known: None,
    });
}

fn at_hour(weather: &Weather, hour: usize) -> Source {
    let place = format!(
        "{}, one of the worst clear days",
        weather.hour_in_words(hour)
    );
    Source::new("weather", place)
}

/// One room in one hour.
#[derive(Clone, Copy)]
struct Told<'a> {
    model: &'a Model,
    drive: &'a Drive,
    weather: &'a Weather,
    room: &'a RoomCooling,
    of: &'a CoolingHour,
    key: &'a str,
}

impl Told<'_> {
    fn weather_of(&self, what: &str) -> Source {
        let hour = self.weather.hour_in_words(self.of.hour);
        Source::new("weather", format!("{what} in {hour}"))
    }

    fn key(&self, what: &str) -> String {
        format!("{}.{what}", self.key)
    }

    /// Writes what the hour is made of and their sum.
    fn write(self, what: String, book: &mut Book) -> Result<(), LoadError> {
        let ledger = &self.of.ledger;
        let mut parts = Vec::new();
        parts.extend(self.sun(book)?);
        let outdoor = self.key("outdoor");
        let c = self.drive.outdoor_c.get(self.of.hour).copied();
        book.given(
            &*outdoor,
            "outdoor air in that hour",
            c.unwrap_or(f64::NAN),
            Dim::Temperature,
            self.weather_of("dry bulb"),
            None,
        );
        let air = self.key("inside");
        let (held, from) = (
            "air of the room in that hour",
            at_hour(self.weather, self.of.hour),
        );
        book.given(&*air, held, ledger.air_c, Dim::Temperature, from, None);
        let between = [("To", &*outdoor), ("Ti", &*air)];
        for (key, what, value, says, inputs) in [
            (
                "gains",
                "people, light and things",
                ledger.gains_wh,
                "what the job gives the room at this hour of the day",
                &[][..],
            ),
            (
                "outdoor-air",
                "outdoor air through leaks and fans",
                ledger.outdoor_air_wh,
                "the air that came in, by how much warmer it was",
                &between,
            ),
            (
                "doors",
                "air through doors from other rooms",
                ledger.doors_wh,
                "two-way flow through every door, by how much warmer the other room was",
                &[],
            ),
            (
                "air",
                "the room's own air and furniture, warmer or colder than an hour before",
                -ledger.stored_wh,
                "their heat capacity by how far they cooled in the hour",
                &[],
            ),
            (
                "carried",
                "carried over from the hour before while the solution settles",
                -ledger.paid_wh,
                "what walls took in the hour before beyond what their faces gave",
                &[],
            ),
        ] {
            if value != 0.0 {
                let from = match key {
                    "gains" => Source::job(format!("room.{}", self.room.room)),
                    _ => Source::new("common-practice", "hourly balance of the house"),
                };
                let part = (what.to_owned(), value, from);
                parts.push(self.of_hour(key, part, says, inputs, book));
            }
        }
        for (through, (w, names)) in self.faces() {
            let what = format!(
                "heat from {}: {}; below zero they take it up",
                through.word(),
                names.join("; ")
            );
            let says = "air and longwave of the room with their faces, less the sun they take up";
            let from = Source::new("common-practice", "hourly balance of the house");
            let key = in_key(through.word());
            parts.push(self.of_hour(&key, (what, w, from), says, &[], book));
        }
        book.add_up(
            self.key,
            what,
            Dim::Power,
            &parts,
            at_hour(self.weather, self.of.hour),
        )?;
        Ok(())
    }

    /// A part that only the balance of the hour can give.
    fn of_hour(
        &self,
        key: &str,
        (what, value, source): (String, f64, Source),
        says: &str,
        inputs: &[(&'static str, &str)],
        book: &mut Book,
    ) -> String {
        let key = self.key(key);
        book.put(Figure {
            key: key.clone(),
            what,
            value,
            dim: Dim::Power,
            formula: format!(
                "over the year: in {}, {says}",
                self.weather.hour_in_words(self.of.hour)
            )
            .into(),
            inputs: inputs
                .iter()
                .map(|(symbol, key)| reckon::Input {
                    symbol: (*symbol).into(),
                    key: (*key).to_owned(),
                })
                .collect(),
            source,
            known: None,
        });
        key
    }

    /// What the walls and windows of each kind gave, W, and their names.
    fn faces(&self) -> BTreeMap<Through, (f64, Vec<String>)> {
        let model = self.model;
        let mut kinds: BTreeMap<Through, (f64, Vec<String>)> = BTreeMap::new();
        for face in &self.of.ledger.faces {
            let kind = match face.surfaces.first() {
                Some(first) => through(&model.surfaces[*first], self.room.zone, model),
                None => Through::Windows,
            };
            let (sum, names) = kinds.entry(kind).or_default();
            *sum -= face.took_wh;
            names.extend(face.surfaces.iter().map(|s| model.surfaces[*s].called()));
            names.extend(face.panes.iter().map(|p| model.panes[*p].name.clone()));
        }
        kinds
    }

    /// Sun through the windows; gives its key.
    fn sun(&self, book: &mut Book) -> Result<Option<String>, FormulaError> {
        let mut windows = Vec::new();
        if self.of.sun.is_empty() {
            return Ok(None);
        }
        let from = || self.weather_of("sun on the glass");
        let kept = [self.key("keeps-beam"), self.key("keeps-diffuse")];
        for ((key, what), share) in kept
            .iter()
            .zip(["straight", "scattered"])
            .zip(self.of.keeps)
        {
            let what = format!("share of the {what} sun that does not leave by a window again");
            let by = Source::new("common-practice", "by the areas and how dark the faces are");
            book.given(&**key, what, share, Dim::Share, by, None);
        }
        for (pane, sun) in &self.of.sun {
            let pane = &self.model.panes[*pane];
            let key = self.key(&format!("sun-{}", in_key(&pane.name)));
            let of = [format!("{key}.beam"), format!("{key}.diffuse")];
            for ((key, word), value) in of.iter().zip(["straight", "scattered"]).zip(*sun) {
                let what = format!("{word} sun through {}", pane.name);
                book.given(&**key, what, value, Dim::Irradiance, from(), None);
            }
            book.reckon(
                &*key,
                format!("sun let in by {}", pane.name),
                Dim::Power,
                "A * (b * kb + d * kd)",
                &[
                    ("A", &format!("window.{}.area", in_key(&pane.name))),
                    ("b", &of[0]),
                    ("kb", &kept[0]),
                    ("d", &of[1]),
                    ("kd", &kept[1]),
                ],
                at_hour(self.weather, self.of.hour),
            )?;
            windows.push(key);
        }
        let key = self.key("sun");
        let what = format!("sun let into {}", self.room.room);
        book.add_up(
            &*key,
            what,
            Dim::Power,
            &windows,
            at_hour(self.weather, self.of.hour),
        )?;
        Ok(Some(key))
    }
}
