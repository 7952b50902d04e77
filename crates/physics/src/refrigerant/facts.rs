//! What is fixed for each refrigerant: name, safety class, flammability, warming.

/// A refrigerant that ductless heat pumps use.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Refrigerant {
    ///
    R32,
    /// R-410A, as one pseudo-pure fluid.
    R410A,
    /// R-454B: R-32 and R-1234yf, 68.9 and 31.1 % by mass.
    R454B,
    /// R-290, propane.
    R290,
}

/// Safety class of ASHRAE 34.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SafetyClass {
    /// Not flammable.
    A1,
    /// Mildly flammable.
    A2L,
    /// Highly flammable.
    A3,
}

impl Refrigerant {
    /// All of them.
    pub const ALL: [Refrigerant; 4] = [
        Refrigerant::R32,
        Refrigerant::R410A,
        Refrigerant::R454B,
        Refrigerant::R290,
    ];

    /// Name as on the plate.
    pub fn name(self) -> &'static str {
        match self {
            Refrigerant::R32 => "R-32",
            Refrigerant::R410A => "R-410A",
            Refrigerant::R454B => "R-454B",
            Refrigerant::R290 => "R-290",
        }
    }

    /// Safety class. Source: `ashrae-34`, table 4-1 and 4-2 (second hand).
    pub fn safety_class(self) -> SafetyClass {
        match self {
            Refrigerant::R410A => SafetyClass::A1,
            Refrigerant::R32 | Refrigerant::R454B => SafetyClass::A2L,
            Refrigerant::R290 => SafetyClass::A3,
        }
    }

    /// Lower flammability limit, kg/m3; `None` where it does not burn. Source: `ashrae-34`
    /// (R-32 second hand; R-454B and R-290 from memory, and sources differ).
    pub fn lower_flammability_kg_per_m3(self) -> Option<f64> {
        match self {
            Refrigerant::R32 => Some(0.307),
            Refrigerant::R410A => None,
            Refrigerant::R454B => Some(0.296),
            Refrigerant::R290 => Some(0.038),
        }
    }

    /// Warming potential over 100 years, kg CO2 per kg, fourth assessment report; `None` where
    /// the source has none. Source: `cfr-40-98`, table A-1 (second hand).
    pub fn warming_potential(self) -> Option<f64> {
        match self {
            Refrigerant::R32 => Some(675.0),
            Refrigerant::R410A => Some(2087.5),
            Refrigerant::R454B => Some(466.0),
            Refrigerant::R290 => None,
        }
    }

    /// Whether bubble and dew point differ enough to matter: more than 0.3 K.
    pub fn glides(self) -> bool {
        self == Refrigerant::R454B
    }
}
