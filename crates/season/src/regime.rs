//! How an outdoor unit spends an hour.

use heatpump::Mode;

/// What an outdoor unit does in an hour. The number is what [`crate::UnitYear::by_hour`] holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
pub enum Regime {
    /// Nothing asked.
    Off = 0,
    /// Less heat asked than the least it gives: on and off.
    Cycling = 1,
    /// Heat between least and most.
    Modulating = 2,
    /// As much heat asked as it gives, or more.
    Full = 3,
    /// Colder than it works: no heat, and that is known.
    CutOut = 4,
    /// Colder than its sheet has a point: counted as no heat, and not known.
    CannotTell = 5,
    /// Switched off by the owner.
    SwitchedOff = 6,
    /// Cooling.
    Cooling = 7,
}

impl Regime {
    /// All, in the order of their numbers.
    pub const ALL: [Regime; 8] = [
        Self::Off,
        Self::Cycling,
        Self::Modulating,
        Self::Full,
        Self::CutOut,
        Self::CannotTell,
        Self::SwitchedOff,
        Self::Cooling,
    ];

    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Off => "off",
            Self::Cycling => "cycling",
            Self::Modulating => "modulating",
            Self::Full => "full",
            Self::CutOut => "too cold to work",
            Self::CannotTell => "cannot tell",
            Self::SwitchedOff => "switched off",
            Self::Cooling => "cooling",
        }
    }

    /// From the number in [`crate::UnitYear::by_hour`].
    pub fn from_number(number: u8) -> Option<Self> {
        Self::ALL.get(usize::from(number)).copied()
    }

    pub(crate) fn of_heating(mode: Mode) -> Self {
        match mode {
            Mode::Off => Self::Off,
            Mode::Cycling => Self::Cycling,
            Mode::Modulating => Self::Modulating,
            Mode::Full => Self::Full,
            Mode::CutOut => Self::CutOut,
            Mode::CannotTell => Self::CannotTell,
        }
    }
}
