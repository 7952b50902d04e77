//! Values by hours of the day.

use units::Dim;

use super::quantity::read_in_range;
use super::{Check, Says};
use crate::cell::{Hours, Value};
use crate::field::{Field, Kind, Table, must, usual};
use crate::tree::{Node, Raw};

/// A stretch of hours with a value.
pub(crate) static RANGE: Table = Table {
    name: "from, to, at",
    about: "A stretch of whole hours and what holds in it; `to` may be past midnight",
    label: &[],
    assumed: false,
    fields: &RANGE_FIELDS,
};
static RANGE_FIELDS: [Field; 4] = [
    must("from", Kind::Text, "First hour: 7:00"),
    must("to", Kind::Text, "Hour it ends: 23:00"),
    must("at", Kind::Text, "The value, or off"),
    usual(
        "ramp",
        Kind::YesNo,
        "false",
        "Goes in a straight line from the hour before, reached at the end of each hour",
    ),
];

/// A stretch of hours.
pub(crate) static STRETCH: Table = Table {
    name: "from, to",
    about: "A stretch of whole hours; `to` may be past midnight",
    label: &[],
    assumed: false,
    fields: &STRETCH_FIELDS,
};
static STRETCH_FIELDS: [Field; 2] = [
    must("from", Kind::Text, "First hour: 18:00"),
    must("to", Kind::Text, "Hour it ends: 7:00"),
];

impl Check<'_> {
    /// A quantity all day, or by hours. Hours that no range names are off.
    pub(super) fn by_hour(
        &mut self,
        node: &Node,
        dim: Dim,
        least: f64,
        most: f64,
        path: &str,
    ) -> Option<Value> {
        let Raw::List(members) = &node.raw else {
            if node.text().is_some_and(|t| t.trim() == "off") {
                return Some(Value::ByHour(Box::new(Hours::of(&[None; 24]))));
            }
            let value = self.quantity(node, dim, least, most, path)?;
            return Some(Value::ByHour(Box::new(Hours::of(&[Some(value); 24]))));
        };
        let mut hours: [Option<Option<f64>>; 24] = [None; 24];
        let mut ramps = [false; 24];
        let mut good = true;
        for (i, member) in members.iter().enumerate() {
            let inner = format!("{path}.{}", i + 1);
            if !matches!(member.raw, Raw::Table(_)) {
                self.not_a_table(member, &RANGE, &inner);
                good = false;
                continue;
            }
            let row = self.table(member, &RANGE, &inner, "");
            let Some(stretch) = self.stretch(member, &inner) else {
                good = false;
                continue;
            };
            let at = match row.text("at") {
                None => {
                    good = false;
                    continue;
                }
                Some("off") => None,
                Some(text) => match read_in_range(text, dim, least, most) {
                    Ok(value) => Some(value),
                    Err(says) => {
                        let at = member
                            .get("at")
                            .map_or(member.span.clone(), |n| n.span.clone());
                        self.problem(&format!("{inner}.at"), &at, says);
                        good = false;
                        continue;
                    }
                },
            };
            for hour in stretch {
                let Some(slot) = hours.get_mut(hour) else {
                    continue;
                };
                if slot.is_some() {
                    self.twice(member, hour, &inner);
                    good = false;
                    break;
                }
                *slot = Some(at);
                ramps[hour] = row.yes("ramp");
            }
        }
        good.then(|| {
            Value::ByHour(Box::new(Hours {
                values: hours.map(Option::flatten),
                ramps,
            }))
        })
    }

    /// Hours something is on.
    pub(super) fn on_hours(&mut self, node: &Node, path: &str) -> Option<Value> {
        let Raw::List(members) = &node.raw else {
            if node.text().is_some_and(|t| t.trim() == "always") {
                return Some(Value::ByHour(Box::new(Hours::of(&[Some(1.0); 24]))));
            }
            let says = Says::new("this does not say in which hours")
                .got(self.lines.written(&node.span))
                .allowed("\"always\", or a list of { from, to }")
                .mend("write it like [{ from = \"18:00\", to = \"7:00\" }]");
            self.problem(path, &node.span, says);
            return None;
        };
        let mut hours = [None; 24];
        let mut good = true;
        for (i, member) in members.iter().enumerate() {
            let inner = format!("{path}.{}", i + 1);
            if !matches!(member.raw, Raw::Table(_)) {
                self.not_a_table(member, &STRETCH, &inner);
                good = false;
                continue;
            }
            self.table(member, &STRETCH, &inner, "");
            let Some(stretch) = self.stretch(member, &inner) else {
                good = false;
                continue;
            };
            for hour in stretch {
                if let Some(slot) = hours.get_mut(hour) {
                    *slot = Some(1.0);
                }
            }
        }
        good.then(|| Value::ByHour(Box::new(Hours::of(&hours))))
    }

    /// The hours from `from` to `to`, over midnight where `to` is not later.
    fn stretch(&mut self, node: &Node, path: &str) -> Option<Vec<usize>> {
        let from = self.clock(node, "from", path);
        let to = self.clock(node, "to", path);
        let (from, to) = (from?, to?);
        let (from, long) = (
            from % 24,
            if to > from { to - from } else { to + 24 - from },
        );
        Some((from..from + long).map(|h| h % 24).collect())
    }

    fn clock(&mut self, node: &Node, key: &str, path: &str) -> Option<usize> {
        let inner = node.get(key)?;
        let text = inner.text()?;
        let (hour, minute) = text.trim().split_once(':').unwrap_or((text.trim(), "00"));
        let hour: Option<usize> = hour.parse().ok().filter(|h| *h <= 24);
        if let (Some(hour), "00") = (hour, minute) {
            return Some(hour);
        }
        let says = Says::new("this does not read as a whole hour of the day")
            .got(self.lines.written(&inner.span))
            .allowed("0:00 to 24:00, whole hours")
            .mend("write it like \"7:00\"");
        self.problem(&format!("{path}.{key}"), &inner.span, says);
        None
    }

    fn twice(&mut self, node: &Node, hour: usize, path: &str) {
        let says = Says::new(format!("the hour from {hour}:00 is given twice"))
            .got(self.lines.written(&node.span))
            .allowed("each hour of the day in one range at most")
            .mend("end one range where the next begins");
        self.problem(path, &node.span, says);
    }
}
