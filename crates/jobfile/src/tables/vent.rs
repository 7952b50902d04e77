//! `[[vent]]`: fans that bring outdoor air in.

use house::describe::Vent;
use units::Dim;

use crate::cell::Row;
use crate::field::{Family, Kind, Table, may, must, usual};

pub(super) static TABLE: Table = Table {
    name: "vent",
    about: "A fan that brings outdoor air into a room, or into all heated rooms by volume",
    label: &["room"],
    assumed: false,
    fields: &[
        may(
            "room",
            Kind::Ref(Family::Room),
            "Room; all heated rooms if not given",
        ),
        must("flow", Kind::Q(Dim::VolumeFlow, 0.0, 10.0), "Air flow"),
        usual(
            "recovery",
            Kind::Q(Dim::Share, 0.0, 1.0),
            "0",
            "Share of heat recovered",
        ),
        usual("on", Kind::OnHours, "always", "Hours it runs"),
    ],
};

pub(super) fn read(row: &Row) -> Vent {
    Vent {
        room: row.words("room"),
        flow_m3_per_s: row.si_or_0("flow"),
        recovery: row.si_or_0("recovery"),
        on: row
            .by_hour("on")
            .unwrap_or([Some(1.0); 24])
            .map(|h| h.is_some()),
    }
}
