//! Walls, windows and partitions as the network holds them.

use crate::assembly::Slab;
use crate::wall::WallModes;

/// What drives the outer side of an opaque face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Outer {
    /// A column of the drive.
    Weather(usize),
    /// The ground: conductance to the virtual temperature, W/(m2 K), and the contact it belongs to.
    Ground {
        /// W/(m2 K).
        conductance: f64,
        /// Index into the model's surfaces.
        surface: usize,
    },
    /// No heat passes.
    Nothing,
}

/// An opaque outer wall: surfaces alike in all that matters are one.
#[derive(Debug, Clone, PartialEq)]
pub struct OuterWall {
    /// Its inside face.
    pub face: usize,
    /// What drives it.
    pub drive: Outer,
    /// Constants between the faces.
    pub wall: WallModes,
    /// Surfaces of the model it stands for.
    pub surfaces: Vec<usize>,
}

/// Windows alike in all that matters.
#[derive(Debug, Clone, PartialEq)]
pub struct WindowFace {
    /// Its inside face.
    pub face: usize,
    /// Zone.
    pub zone: usize,
    /// Column of the drive's outside faces.
    pub outside: usize,
    /// Column of the drive's windows.
    pub aperture: usize,
    /// Conductance at 10 C and its slope.
    pub core: [f64; 2],
    /// Panes of the model it stands for.
    pub panes: Vec<usize>,
}

/// A wall or floor between two zones.
#[derive(Debug, Clone, PartialEq)]
pub struct Partition {
    /// Its two faces.
    pub faces: [usize; 2],
    /// Constants between the faces.
    pub wall: WallModes,
    /// Surfaces of the model it stands for.
    pub surfaces: Vec<usize>,
}

/// The two faces of a partition as the hourly passes take them.
#[derive(Debug, Clone, Copy)]
pub(super) struct Mates {
    pub faces: [u32; 2],
    /// Kelvin of a face per W/m2 on the other.
    pub inverse: f64,
}

/// The walls of a house by their layers: few build-ups make many walls, and each is worked out
/// once.
pub(super) struct Walls {
    step_s: f64,
    made: Vec<(Vec<Slab>, WallModes)>,
}

impl Walls {
    /// None yet, for steps of so many seconds.
    pub fn new(step_s: f64) -> Self {
        Self {
            step_s,
            made: Vec::new(),
        }
    }

    /// The wall of these layers.
    pub fn of(&mut self, slabs: Vec<Slab>) -> WallModes {
        if let Some((_, wall)) = self.made.iter().find(|(of, _)| *of == slabs) {
            return wall.clone();
        }
        let wall = WallModes::new(&slabs, self.step_s);
        self.made.push((slabs, wall.clone()));
        wall
    }
}
