//! Figures of rooms without a head. Every zone of a case has its balance, in which the neighbours
//! stand with their own figures: so they hang on each other, and all were solved together.

use reckon::{Book, Source};
use units::Dim;

use super::LoadError;
use super::doorway::doorway;
use super::rooms::{Solved, USUAL_HELD_C, word};
use super::steady::{End, SteadyHouse};
use crate::balance::Doors;
use crate::model::Model;

/// One outdoor temperature with the doors one way.
pub(super) struct Case<'a> {
    pub house: &'a SteadyHouse,
    pub model: &'a Model,
    pub solved: &'a Solved,
    /// The word of the outdoor temperature.
    pub at: &'a str,
    pub doors: Doors,
}

fn card(place: &'static str) -> Source {
    Source::new("trade-card-f11", place)
}

impl Case<'_> {
    /// Key of a zone's temperature.
    pub fn key(&self, zone: usize) -> String {
        let name = &self.house.names[zone];
        format!("rooms.{name}.{}.{}", self.at, word(self.doors))
    }

    fn outdoor(&self) -> String {
        format!("rooms.outdoor.{}", self.at)
    }

    /// Of the whole house in this case.
    fn of_house(&self, what: &str) -> String {
        format!("{}.{}.{what}", self.outdoor(), word(self.doors))
    }

    /// Writes the temperature of every zone that no head holds.
    ///
    /// # Errors
    /// A formula or input that is not in the book (a defect).
    pub fn write(&self, book: &mut Book) -> Result<(), LoadError> {
        let floats = || (0..self.model.zones.len()).filter(|z| !self.solved.held[*z]);
        // Each hangs on the others, so all stand in the book before the first is worked out.
        for z in floats() {
            let what = self.what(z);
            let (key, c, from) = (self.key(z), self.solved.air_c[z], card("no neighbours"));
            book.given(key, what, c, Dim::Temperature, from, None);
        }
        self.air_of_house(book)?;
        for z in floats() {
            self.zone(z, book)?;
        }
        Ok(())
    }

    fn what(&self, zone: usize) -> String {
        let name = &self.model.zones[zone].name;
        if self.model.zones[zone].heated.is_some() {
            format!("temperature of {name} without a head")
        } else {
            format!("temperature of {name}")
        }
    }

    /// Outdoor air through the leaks of the house at these temperatures.
    fn air_of_house(&self, book: &mut Book) -> Result<(), LoadError> {
        if self.solved.leak_w_per_k.iter().all(|q| *q <= 0.0) {
            return Ok(());
        }
        let from = || Source::new("ashrae-fundamentals-2017", "chapter 16, enhanced model");
        let outdoor = self.outdoor();
        let mut parts = vec![outdoor.clone()];
        for (z, name) in self.house.names.iter().enumerate() {
            let share = format!("leaks.{name}.wind");
            if book.get(&share).is_none() {
                continue;
            }
            let key = self.of_house(&format!("part-{name}"));
            let what = format!(
                "part of {} in the mean, from outdoors",
                self.model.zones[z].name
            );
            let t = self.temperature(z, book);
            let of = [("f", &*share), ("T", &*t), ("To", &*outdoor)];
            let dim = Dim::TemperatureDifference;
            book.reckon(&*key, what, dim, "f * (T - To)", &of, from())?;
            parts.push(key);
        }
        let (inside, stack, house) = (
            self.of_house("inside"),
            self.of_house("stack"),
            self.of_house("air"),
        );
        let what = "mean indoor temperature behind the leaks";
        book.add_up(&*inside, what, Dim::Temperature, &parts, from())?;
        book.reckon(
            &*stack,
            "outdoor air drawn in by the warmth of the house",
            Dim::VolumeFlow,
            "c * Cs * abs(Ti - To) ^ n",
            &[
                ("c", "leaks.c"),
                ("Cs", "leaks.stack-factor"),
                ("Ti", &inside),
                ("To", &outdoor),
                ("n", "leaks.n"),
            ],
            from(),
        )?;
        book.reckon(
            house,
            "outdoor air through the leaks of the house",
            Dim::VolumeFlow,
            "sqrt(s ^ 2 + w ^ 2)",
            &[("s", &stack), ("w", "leaks.wind")],
            from(),
        )?;
        Ok(())
    }

    /// The balance of a zone.
    fn zone(&self, z: usize, book: &mut Book) -> Result<(), LoadError> {
        let (outdoor, base) = (self.outdoor(), self.key(z));
        // What is behind each conductance, and where its temperature stands.
        let mut ways: Vec<(String, String, String)> = Vec::new();
        for link in self.house.of(z) {
            let behind = match &link.end {
                End::Outdoor => outdoor.clone(),
                End::Ground(key, _) => key.clone(),
                End::Zone(o) => self.temperature(*o, book),
            };
            let what = format!("heat in through {}", link.through.word());
            ways.push((link.key.clone(), behind, what));
        }
        if self.solved.leak_w_per_k[z] > 0.0 {
            let what = "heat in through leaks".to_owned();
            ways.push((self.leaks(z, &base, book)?, outdoor.clone(), what));
        }
        for (i, opening) in self.model.openings.iter().enumerate() {
            let [a, b] = opening.zones;
            if z != a && z != b {
                continue;
            }
            let other = if z == a { b } else { a };
            let key = self.through_door(i, book)?;
            let what = format!(
                "heat in through the door to {}",
                self.model.zones[other].name
            );
            ways.push((key, self.temperature(other, book), what));
        }
        if ways.is_empty() {
            return Ok(());
        }
        let mut pulls = Vec::new();
        for (n, (h, t, what)) in ways.iter().enumerate() {
            let key = format!("{base}.pull-{}", n + 1);
            let of = [("H", &**h), ("T", &**t), ("To", &*outdoor)];
            let from = card("room temperature from its neighbours");
            book.reckon(&*key, &**what, Dim::Power, "H * (T - To)", &of, from)?;
            pulls.push(key);
        }
        let conductances: Vec<String> = ways.into_iter().map(|(h, ..)| h).collect();
        let (all, per_k) = (format!("{base}.pull"), format!("{base}.conductance"));
        let from = || card("room temperature from its neighbours");
        let what = "heat into the room in all, were it as cold as outdoors";
        book.add_up(&*all, what, Dim::Power, &pulls, from())?;
        let what = "all conductances of the room";
        book.add_up(&*per_k, what, Dim::Conductance, &conductances, from())?;
        // The neighbours' figures rest on the value that was solved.
        book.solved(
            base,
            self.what(z),
            self.solved.air_c[z],
            Dim::Temperature,
            "To + P / H",
            &[("To", &outdoor), ("P", &all), ("H", &per_k)],
            card("all rooms solved together, each from its neighbours"),
        );
        Ok(())
    }

    /// Outdoor air into a zone, as heat per degree.
    fn leaks(&self, z: usize, base: &str, book: &mut Book) -> Result<String, LoadError> {
        let (key, name) = (format!("{base}.leaks"), &self.house.names[z]);
        book.reckon(
            &*key,
            "outdoor air through its leaks, as heat per degree",
            Dim::Conductance,
            "d * cp * Q * (s * fs + w * fw) / max(s + w, 0.000000001)",
            &[
                ("d", "design.air-density"),
                ("cp", "design.air-heat"),
                ("Q", &self.of_house("air")),
                ("s", &self.of_house("stack")),
                ("fs", &format!("leaks.{name}.low")),
                ("w", "leaks.wind"),
                ("fw", &format!("leaks.{name}.wind")),
            ],
            Source::new(
                "common-practice",
                "stack air enters low, wind air everywhere",
            ),
        )?;
        Ok(key)
    }

    /// Air through a door, as heat per degree: the same from both its rooms.
    fn through_door(&self, i: usize, book: &mut Book) -> Result<String, LoadError> {
        let key = self.of_house(&format!("door-{}", i + 1));
        if book.get(&key).is_some() {
            return Ok(key);
        }
        let opening = &self.model.openings[i];
        let door = doorway(i, self.doors.of(opening.stands), self.model, book)?;
        let [a, b] = opening.zones;
        let warmer = if self.solved.air_c[a] > self.solved.air_c[b] {
            "from-1"
        } else {
            "from-2"
        };
        let [at_a, at_b] = [a, b].map(|z| self.temperature(z, book));
        let [name_a, name_b] = [a, b].map(|z| &self.model.zones[z].name);
        book.reckon(
            &*key,
            format!("air through the door from {name_a} to {name_b}, as heat per degree"),
            Dim::Conductance,
            "s + d * cp * q * sqrt(abs(Ta - Tb))",
            &[
                ("s", &format!("{door}.steady")),
                ("d", "design.air-density"),
                ("cp", "design.air-heat"),
                ("q", &format!("{door}.{warmer}")),
                ("Ta", &at_a),
                ("Tb", &at_b),
            ],
            card("two-way flow through a doorway at this difference"),
        )?;
        Ok(key)
    }

    /// Figure of a zone's temperature: its setting where a head holds it.
    fn temperature(&self, z: usize, book: &mut Book) -> String {
        if !self.solved.held[z] {
            return self.key(z);
        }
        let setting = format!("room.{}.setting", self.house.names[z]);
        if book.get(&setting).is_none() {
            let what = format!("where {} is held", self.model.zones[z].name);
            let from = Source::new("common-practice", "a room with a head and no setting");
            book.given(&*setting, what, USUAL_HELD_C, Dim::Temperature, from, None);
        }
        setting
    }
}
