//! Weather that ships inside the program, so that a job can name a station without a file.

/// A station that ships: the name a job may write, and the file's bytes.
pub struct Shipped {
    /// Name a job writes: `denver-725650`.
    pub name: &'static str,
    /// The file, gzip compressed, as it stands in `weather/`.
    pub bytes: &'static [u8],
}

/// All stations that ship.
pub const STATIONS: [Shipped; 6] = [
    Shipped {
        name: "aurora-buckley-724695",
        bytes: include_bytes!("../../../weather/aurora-buckley-724695.epw.gz"),
    },
    Shipped {
        name: "chicago-725300",
        bytes: include_bytes!("../../../weather/chicago-725300.epw.gz"),
    },
    Shipped {
        name: "denver-725650",
        bytes: include_bytes!("../../../weather/denver-725650.epw.gz"),
    },
    Shipped {
        name: "greensboro-723170",
        bytes: include_bytes!("../../../weather/greensboro-723170.tmy3.csv.gz"),
    },
    Shipped {
        name: "northway-702910",
        bytes: include_bytes!("../../../weather/northway-702910.epw.gz"),
    },
    Shipped {
        name: "port-angeles-727885",
        bytes: include_bytes!("../../../weather/port-angeles-727885.epw.gz"),
    },
];

/// The bytes of a station that ships, by its name.
pub fn weather(name: &str) -> Option<&'static [u8]> {
    STATIONS.iter().find(|s| s.name == name).map(|s| s.bytes)
}
