//! Ground contact by ISO 13370 (being written).

/// How a surface meets the ground.
#[derive(Debug, Clone, PartialEq)]
pub struct GroundContact {
    /// Soil layer carried in the hourly model, m (ISO 52016-1 uses 0.5 m).
    pub soil_m: f64,
    /// Resistance of the virtual layer between soil and virtual ground temperature, m2 K/W.
    pub virtual_r_m2k_per_w: f64,
    /// Steady transmittance of the whole path by ISO 13370, W/(m2 K), films included.
    pub u_w_per_m2k: f64,
    /// Periodic coefficient outdoors (heat flow amplitude per K of outdoor amplitude), W/(m2 K).
    pub periodic_w_per_m2k: f64,
    /// How many months the heat flow lags behind the outdoor temperature.
    pub lag_months: f64,
}
