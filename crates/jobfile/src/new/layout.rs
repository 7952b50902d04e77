//! Rooms in a plain box: a passage through the middle, rooms in a row on either side of it.

/// A room laid out, ft.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Laid {
    pub name: String,
    /// West, south, east, north edge.
    pub box_ft: [f64; 4],
    /// Outside wall that gets the window; `None` for the passage.
    pub window_wall: Option<&'static str>,
}

/// Width of the passage, ft.
const PASSAGE_FT: f64 = 4.0;

/// Lays rooms out in a box of this width and depth, ft, the passage first.
pub(super) fn storey(rooms: &[String], passage: &str, width_ft: f64, depth_ft: f64) -> Vec<Laid> {
    let middle = half_foot(0.5 * (depth_ft - PASSAGE_FT));
    let mut laid = vec![Laid {
        name: passage.to_owned(),
        box_ft: [0.0, middle, width_ft, middle + PASSAGE_FT],
        window_wall: None,
    }];
    let south = rooms.len().div_ceil(2);
    let rows = [
        (rooms.get(..south).unwrap_or(&[]), 0.0, middle, "south"),
        (
            rooms.get(south..).unwrap_or(&[]),
            middle + PASSAGE_FT,
            depth_ft,
            "north",
        ),
    ];
    for (row, low, high, wall) in rows {
        let each = width_ft / row.len().max(1) as f64;
        for (i, name) in row.iter().enumerate() {
            let west = half_foot(each * i as f64);
            let east = if i + 1 == row.len() {
                width_ft
            } else {
                half_foot(each * (i + 1) as f64)
            };
            laid.push(Laid {
                name: name.clone(),
                box_ft: [west, low, east, high],
                window_wall: Some(wall),
            });
        }
    }
    laid
}

/// To the nearest half foot.
pub(super) fn half_foot(ft: f64) -> f64 {
    libm::round(ft * 2.0) / 2.0
}

/// Which rooms are on which storey: bedrooms upstairs, the rest below; a single storey has all.
pub(super) fn by_storey(rooms: &[String], storeys: usize) -> Vec<Vec<String>> {
    let mut floors: Vec<Vec<String>> = vec![Vec::new(); storeys];
    let upper = storeys.saturating_sub(1);
    let mut next = 0;
    for room in rooms {
        let floor = if upper > 0 && room.to_lowercase().starts_with("bed") {
            next += 1;
            1 + (next - 1) % upper
        } else {
            0
        };
        if let Some(floor) = floors.get_mut(floor) {
            floor.push(room.clone());
        }
    }
    // A storey with fewer than two rooms would leave one side of the passage open to outside.
    for (i, floor) in floors.iter_mut().enumerate() {
        let mut spare = ('a'..='z').map(|c| format!("room {}{c}", i + 1));
        while floor.len() < 2 {
            match spare.find(|name| !rooms.contains(name)) {
                Some(name) => floor.push(name),
                None => break,
            }
        }
    }
    floors
}
