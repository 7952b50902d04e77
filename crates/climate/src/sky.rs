//! Longwave from the sky: the physics is `physics::sky`, said here in the words of a weather
//! file.

pub use physics::sky::temperature_c;

/// Longwave from the sky on the horizontal, W/m2, where a file does not give it: see
/// [`physics::sky::horizontal_infrared_w_per_m2`]. A dew point above the dry bulb is saturated
/// air. `opaque_cover` is the share of the sky covered, 0 to 1.
///
/// # Errors
/// Dry bulb or dew point out of that function's range.
pub fn infrared_w_per_m2(
    dry_bulb_c: f64,
    dew_point_c: f64,
    opaque_cover: f64,
) -> Result<f64, physics::OutOfRange> {
    let dew_point_c = dew_point_c.min(dry_bulb_c);
    physics::sky::horizontal_infrared_w_per_m2(dry_bulb_c, dew_point_c, 10.0 * opaque_cover)
}
