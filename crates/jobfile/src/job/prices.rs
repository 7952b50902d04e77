//! What energy costs and what carbon it carries.

/// What can be bought.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Carrier {
    /// Electricity.
    Electricity,
    /// No. 2 heating oil.
    Oil,
    /// Propane.
    Propane,
    /// Natural gas.
    Gas,
    /// Wood.
    Wood,
}

impl Carrier {
    /// All, in the order they are printed.
    pub const ALL: [Carrier; 5] = [
        Self::Electricity,
        Self::Oil,
        Self::Propane,
        Self::Gas,
        Self::Wood,
    ];

    /// The word as it stands in the job file.
    pub fn word(self) -> &'static str {
        match self {
            Self::Electricity => "electricity",
            Self::Oil => "oil",
            Self::Propane => "propane",
            Self::Gas => "gas",
            Self::Wood => "wood",
        }
    }
}

/// Prices and carbon by carrier. What was not typed is absent, never guessed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Prices {
    /// Sign or name of the money: `$`.
    pub currency: String,
    /// Day the prices are of, as typed: `2026-11-01`.
    pub as_of: Option<String>,
    /// Prices, at most one a carrier.
    pub by_carrier: Vec<(Carrier, Price)>,
    /// Carbon intensities, one a carrier that has one.
    pub carbon: Vec<(Carrier, Carbon)>,
    /// How electricity is charged, where it is more than one price.
    pub tariff: Option<super::Tariff>,
}

/// A price.
#[derive(Debug, Clone, PartialEq)]
pub struct Price {
    /// Money per J of energy bought (higher heating value for fuels).
    pub per_j: f64,
    /// As typed: `3.90 /gal`.
    pub typed: String,
}

/// A carbon intensity.
#[derive(Debug, Clone, PartialEq)]
pub struct Carbon {
    /// kg of CO2 equivalent per J of energy bought (higher heating value for fuels).
    pub kg_per_j: f64,
    /// Key of `docs/sources.toml`, or `job`.
    pub source: String,
    /// Place in the source: state, table row.
    pub place: String,
}

impl Prices {
    /// Price of a carrier, money per J.
    pub fn per_j(&self, carrier: Carrier) -> Option<f64> {
        self.by_carrier
            .iter()
            .find(|(c, _)| *c == carrier)
            .map(|(_, p)| p.per_j)
    }

    /// Carbon of a carrier.
    pub fn carbon_of(&self, carrier: Carrier) -> Option<&Carbon> {
        self.carbon
            .iter()
            .find(|(c, _)| *c == carrier)
            .map(|(_, k)| k)
    }
}
