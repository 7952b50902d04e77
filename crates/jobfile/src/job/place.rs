//! Where the house stands.

/// The site.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Place {
    /// Weather file: path from the job's folder, or name of a station that ships.
    pub weather: String,
    /// Elevation of the site, m; `None`: the station's.
    pub elevation_m: Option<f64>,
    /// Snow depth to bet the outdoor unit on, m.
    pub snow_depth_m: Option<f64>,
    /// Outdoor temperature for the heating load, typed from a code or table.
    pub heating_design: Option<TypedDesign>,
    /// Outdoor temperature for the cooling load, typed.
    pub cooling_design: Option<TypedDesign>,
}

/// A design temperature somebody typed.
#[derive(Debug, Clone, PartialEq)]
pub struct TypedDesign {
    /// C.
    pub c: f64,
    /// Where it is from, in the person's words.
    pub source: String,
}
