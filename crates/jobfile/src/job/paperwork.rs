//! What only the papers need: who is who, days in their order, what was paid, settings as left.

/// What the papers need besides the plan. Texts as typed; days as typed (`2026-11-03`).
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Paperwork {
    /// The owner.
    pub owner: Option<Owner>,
    /// The firm.
    pub firm: Option<Firm>,
    /// The programme that pays a rebate.
    pub programme: Option<Programme>,
    /// Days by what happened on them, in the order they should come.
    pub days: Vec<(&'static str, String)>,
    /// What was paid, item by item.
    pub costs: Vec<Cost>,
    /// Settings as left.
    pub settings: Vec<Setting>,
    /// Serial numbers as copied from the name plates.
    pub plates: Vec<Plate>,
}

/// Who the house belongs to.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Owner {
    /// Name.
    pub name: String,
    /// Address of the house.
    pub address: String,
    /// Telephone.
    pub phone: Option<String>,
}

/// Who does the work.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Firm {
    /// Name.
    pub name: String,
    /// Telephone for the owner.
    pub phone: Option<String>,
    /// Licence of the firm.
    pub licence: Option<String>,
    /// Who signs.
    pub who: Option<String>,
    /// Refrigerant certificate of who handled it.
    pub certificate: Option<String>,
}

/// The programme that pays a rebate.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Programme {
    /// Name.
    pub name: String,
    /// Number of the application.
    pub number: Option<String>,
    /// Owner's name as enrolled there.
    pub enrolled_name: Option<String>,
    /// Address as enrolled there.
    pub enrolled_address: Option<String>,
    /// Numbers of the certificates of matched systems: outdoor unit and number.
    pub certificates: Vec<(String, String)>,
}

/// One item of the bill.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cost {
    /// What.
    pub what: String,
    /// Amount, in the job's currency.
    pub amount: f64,
}

/// A setting as left.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Setting {
    /// What is set: a head by its name, or words such as `boiler thermostat`.
    pub of: String,
    /// What it is set to, in words.
    pub to: String,
    /// Why, for the owner.
    pub why: String,
}

/// A serial number as copied from the plate.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Plate {
    /// Unit, as `outdoor.east wall` or `head.living`.
    pub unit: String,
    /// Serial number.
    pub serial: String,
    /// Year of manufacture.
    pub made: Option<u32>,
}
