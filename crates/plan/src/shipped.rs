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

/// A station that ships, by its name or by the beginning of it where only one begins so: `chicago`.
pub fn named(name: &str) -> Option<&'static Shipped> {
    let asked = name.trim().to_lowercase();
    let begins = |s: &&Shipped| asked.len() >= 3 && s.name.starts_with(&asked);
    let mut like = STATIONS.iter().filter(begins);
    match (
        STATIONS.iter().find(|s| s.name == asked),
        like.next(),
        like.next(),
    ) {
        (Some(exact), ..) => Some(exact),
        (None, Some(one), None) => Some(one),
        _ => None,
    }
}

/// The bytes of a station that ships, named as [`named`] takes it.
pub fn weather(name: &str) -> Option<&'static [u8]> {
    named(name).map(|s| s.bytes)
}

#[cfg(test)]
mod tests {
    use super::named;

    #[test]
    fn the_beginning_of_a_name_will_do() {
        let name = |text: &str| named(text).map(|s| s.name);
        assert_eq!(name("chicago-725300"), Some("chicago-725300"));
        assert_eq!(name("Chicago"), Some("chicago-725300"));
        assert_eq!(name(" port "), Some("port-angeles-727885"));
        for none in ["", "ch", "chicago-7253001", "oslo", "chicago.epw"] {
            assert_eq!(name(none), None, "{none}");
        }
    }
}
