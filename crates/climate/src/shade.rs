//! Shade of an overhang and of side fins on an upright window.
//!
//! Seen from outside, the window's plane has a horizontal axis `across`, growing to the right,
//! and a vertical axis `up`; the third, `out`, comes towards the viewer. Facing the window from
//! outside, the left of the window is on the viewer's left.

mod beam;
mod diffuse;

pub use beam::{SunSide, sun_side, sunlit_share};
pub use diffuse::{SkyShares, sky_shares};

/// A plate above the window, level, standing out from the wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Overhang {
    /// How far it stands out, m.
    pub depth_m: f64,
    /// Height of the plate above the top of the window, m.
    pub above_m: f64,
    /// How far it goes past the window's left edge, seen from outside, m.
    pub past_left_m: f64,
    /// How far it goes past the right edge, m.
    pub past_right_m: f64,
}

/// An upright plate beside the window, standing out from the wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fin {
    /// How far it stands out, m.
    pub depth_m: f64,
    /// Distance from the window's edge, m.
    pub beside_m: f64,
    /// How far it goes up past the top of the window, m.
    pub past_top_m: f64,
    /// How far it goes down past the sill, m.
    pub past_bottom_m: f64,
}

/// A window and what stands around it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShadedWindow {
    /// Width, m.
    pub width_m: f64,
    /// Height, m.
    pub height_m: f64,
    /// Plate above.
    pub overhang: Option<Overhang>,
    /// Plate on the left, seen from outside.
    pub left_fin: Option<Fin>,
    /// Plate on the right, seen from outside.
    pub right_fin: Option<Fin>,
}

/// A measure that cannot be.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("shade of a window: {what} is {got} m, usable {usable}")]
pub struct ShadeError {
    /// Which measure.
    pub what: &'static str,
    /// What it is, m.
    pub got: f64,
    /// What is usable.
    pub usable: &'static str,
}

impl ShadedWindow {
    /// Checks all measures.
    ///
    /// # Errors
    /// A width or height not above 0, or a measure below 0, over 100 m or not a number.
    pub fn checked(self) -> Result<Self, ShadeError> {
        for (what, got) in [("width", self.width_m), ("height", self.height_m)] {
            if !(got > 0.0 && got <= 100.0) {
                return Err(ShadeError {
                    what,
                    got,
                    usable: "above 0 to 100 m",
                });
            }
        }
        let mut measures = Vec::with_capacity(12);
        if let Some(o) = self.overhang {
            measures.extend([
                ("overhang depth", o.depth_m),
                ("height of the overhang above the window", o.above_m),
                ("overhang past the left edge", o.past_left_m),
                ("overhang past the right edge", o.past_right_m),
            ]);
        }
        for fin in [self.left_fin, self.right_fin].into_iter().flatten() {
            measures.extend([
                ("fin depth", fin.depth_m),
                ("fin beside the window", fin.beside_m),
                ("fin past the top", fin.past_top_m),
                ("fin past the sill", fin.past_bottom_m),
            ]);
        }
        match measures
            .into_iter()
            .find(|(_, got)| !(0.0..=100.0).contains(got))
        {
            Some((what, got)) => Err(ShadeError {
                what,
                got,
                usable: "0 to 100 m",
            }),
            None => Ok(self),
        }
    }
}
