//! How electricity is charged, where it is more than one price.

/// A tariff of electricity. What it does not say is charged at the price under `[prices]`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tariff {
    /// Money a month, whatever is used.
    pub fixed_a_month: f64,
    /// Steps of a month's use, the first first.
    pub tiers: Vec<Tier>,
    /// Hours with a price of their own.
    pub periods: Vec<PricePeriod>,
    /// Money per W of the month's largest hour.
    pub demand_per_w: f64,
    /// What else the house uses in a year, J, taken even through the year; steps and largest hours
    /// count it too.
    pub other_j: f64,
}

/// A step of a month's use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tier {
    /// Up to this much in a month, J; None: all the rest.
    pub up_to_j: Option<f64>,
    /// Money per J.
    pub per_j: f64,
}

/// Hours with a price of their own.
#[derive(Debug, Clone, PartialEq)]
pub struct PricePeriod {
    /// Name: `peak`.
    pub name: String,
    /// Hours of the day.
    pub on: [bool; 24],
    /// Months, 1 to 12; all where empty.
    pub months: Vec<u8>,
    /// Money per J.
    pub per_j: f64,
}

impl PricePeriod {
    /// Whether an hour of the day in a month falls into it.
    pub fn holds(&self, month: u8, of_day: usize) -> bool {
        self.on.get(of_day).copied().unwrap_or(false)
            && (self.months.is_empty() || self.months.contains(&month))
    }
}
