//! What may heat or cool each zone in an hour, and finding how much of it is asked.

/// What may heat or cool one zone in one hour. Heat comes in two stages: the first up to its
/// setting, the backup only when the first is at its most and the zone is below the backup's own
/// setting.
#[derive(Debug, Clone, Copy)]
pub struct Supply {
    /// Thermostat of the first stage, C; `-inf` is off.
    pub heat_to_c: f64,
    /// Most the first stage can give, W.
    pub heat_most_w: f64,
    /// Thermostat of the backup, C; not above `heat_to_c` where the first stage has any power.
    pub backup_to_c: f64,
    /// Most the backup can give, W.
    pub backup_most_w: f64,
    /// Cooling thermostat, C; `inf` is off. Above both heating thermostats.
    pub cool_to_c: f64,
    /// Most the cooling can take out (sensible), W.
    pub cool_most_w: f64,
}

impl Supply {
    /// Nothing.
    pub const NONE: Self = Self {
        heat_to_c: f64::NEG_INFINITY,
        heat_most_w: 0.0,
        backup_to_c: f64::NEG_INFINITY,
        backup_most_w: 0.0,
        cool_to_c: f64::INFINITY,
        cool_most_w: 0.0,
    };

    /// As much as it takes, up to `heat_to_c`, down to `cool_to_c`.
    pub fn ideal(heat_to_c: Option<f64>, cool_to_c: Option<f64>) -> Self {
        Self {
            heat_to_c: heat_to_c.unwrap_or(f64::NEG_INFINITY),
            heat_most_w: f64::INFINITY,
            cool_to_c: cool_to_c.unwrap_or(f64::INFINITY),
            cool_most_w: f64::INFINITY,
            ..Self::NONE
        }
    }
}

impl PartialEq for Supply {
    #[inline(always)]
    #[expect(
        clippy::needless_bitwise_bool,
        reason = "asked for every zone of every hour: one look at all six costs less than six branches"
    )]
    fn eq(&self, other: &Self) -> bool {
        (self.heat_to_c == other.heat_to_c)
            & (self.heat_most_w == other.heat_most_w)
            & (self.backup_to_c == other.backup_to_c)
            & (self.backup_most_w == other.backup_most_w)
            & (self.cool_to_c == other.cool_to_c)
            & (self.cool_most_w == other.cool_most_w)
    }
}
