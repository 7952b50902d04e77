//! Wind at a height over a terrain, and behind what shelters a house.

/// The land around, which shapes how wind grows with height.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Terrain {
    /// Large city centres: half the buildings higher than 25 m.
    City,
    /// Suburbs, woods, many obstacles of the size of houses.
    Suburb,
    /// Open land with scattered obstacles; weather stations.
    Open,
    /// Flat shore with wind over at least 1.6 km of water.
    Shore,
}

impl Terrain {
    /// Exponent and height of the boundary layer, m.
    ///
    /// Source: `ashrae-fundamentals-2017`, ch. 24, table 1.
    pub fn layer(self) -> (f64, f64) {
        match self {
            Self::City => (0.33, 460.0),
            Self::Suburb => (0.22, 370.0),
            Self::Open => (0.14, 270.0),
            Self::Shore => (0.10, 210.0),
        }
    }

    /// The word for it in a job file.
    pub fn name(self) -> &'static str {
        match self {
            Self::City => "city",
            Self::Suburb => "suburban",
            Self::Open => "open",
            Self::Shore => "shore",
        }
    }
}

/// How much of the wind reaches the walls, by what stands near the house.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Shelter {
    /// 1: nothing stands near.
    None,
    /// 2: a lone house in the country.
    Light,
    /// 3: some buildings or trees across the street.
    Moderate,
    /// 4: houses in a suburb, more than their height apart.
    Heavy,
    /// 5: houses shoulder to shoulder, closer than their height.
    VeryHeavy,
}

impl Shelter {
    /// Class number in the handbook, 1 to 5.
    pub fn class(self) -> u8 {
        match self {
            Self::None => 1,
            Self::Light => 2,
            Self::Moderate => 3,
            Self::Heavy => 4,
            Self::VeryHeavy => 5,
        }
    }

    /// Share of the undisturbed wind speed that is felt at the walls.
    ///
    /// **Equation** named value per class: 1.00, 0.90, 0.70, 0.50, 0.30
    ///
    /// **Symbols** result: share of wind speed, 0 to 1
    ///
    /// **Range** class 1 to 5
    ///
    /// **Source** `ashrae-fundamentals-2017`, ch. 16, shelter factors of the enhanced model,
    /// building without flue; from memory
    ///
    /// **Example**
    /// ```
    /// assert_eq!(climate::wind::Shelter::Heavy.share(), 0.5);
    /// ```
    pub fn share(self) -> f64 {
        match self {
            Self::None => 1.0,
            Self::Light => 0.9,
            Self::Moderate => 0.7,
            Self::Heavy => 0.5,
            Self::VeryHeavy => 0.3,
        }
    }

    /// The word for it in a job file.
    pub fn name(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::Light => "light",
            Self::Moderate => "moderate",
            Self::Heavy => "heavy",
            Self::VeryHeavy => "very heavy",
        }
    }
}

/// Factor from the mast's wind to the wind at a height at the site.
///
/// **Equation** f = (d_m / h_m)^a_m (h / d)^a
///
/// **Symbols**
/// - f: wind at the site over wind at the mast
/// - d, a: boundary layer height, m, and exponent of the site's terrain; d_m, a_m: of the mast's
/// - h, h_m: height at the site and of the mast, m
///
/// **Range** heights above 0, up to the boundary layer
///
/// **Source** `ashrae-fundamentals-2017`, ch. 24, eq. 4 and table 1
///
/// **Example**
/// ```
/// use climate::wind::{Terrain, at_height_factor};
/// let f = at_height_factor(Terrain::Open, 10.0, Terrain::Open, 10.0);
/// assert!((f - 1.0).abs() < 1e-12);
/// ```
pub fn at_height_factor(mast: Terrain, mast_m: f64, site: Terrain, height_m: f64) -> f64 {
    let ((a_mast, layer_mast_m), (a_site, layer_m)) = (mast.layer(), site.layer());
    libm::pow(layer_mast_m / mast_m, a_mast) * libm::pow(height_m / layer_m, a_site)
}
