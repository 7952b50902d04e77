//! Weighing in, the label, and the balance of the cylinders.

use physics::refrigerant::Refrigerant;
use reckon::Verdict;
use serde::{Deserialize, Serialize};
use units::{Dim, System, show, whole};

use crate::wrong::{Wrong, within};

const POUND: f64 = 0.453_592_37;

/// Cylinders and system must balance to this, kg: 0.1 lb. Common practice, trade capability 24.
pub const BALANCE_KG: f64 = 0.1 * POUND;

/// A weighing-in.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WeighIn {
    /// Charge from the factory, kg.
    pub factory_kg: f64,
    /// What the lines ask for, signed: negative is to be recovered, kg.
    pub trim_kg: f64,
    /// Most the sheet allows in all, kg.
    pub most_kg: Option<f64>,
    /// Cylinder on the scale before, kg.
    pub before_kg: f64,
    /// And after, kg.
    pub after_kg: f64,
    /// Limit of error of the scale, kg.
    pub scale_kg: f64,
}

/// What a weighing-in says.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Weighed {
    /// Whether what went in is what was asked.
    pub verdict: Verdict,
    /// Went in, signed, kg, and its limit of error.
    pub added_kg: (f64, f64),
    /// In the system now, kg.
    pub total_kg: f64,
    /// In words.
    pub says: String,
    /// What to do.
    pub mend: String,
}

/// Both units, as every mass is said: an ounce read as a gram is a call-back.
pub fn both(kg: f64) -> String {
    // half a gram is no minus
    let kg = if kg.abs() < 5e-4 { 0.0 } else { kg };
    let us = show(kg, Dim::Mass, System::Us);
    format!("{us} ({} g)", whole(kg * 1000.0))
}

/// What the scale says, in words.
fn moved(kg: f64) -> String {
    if kg < -5e-4 {
        format!("{} came out", both(-kg))
    } else if kg < 5e-4 {
        "Nothing went in".to_owned()
    } else {
        format!("{} went in", both(kg))
    }
}

fn asked(kg: f64) -> String {
    if kg < -5e-4 {
        format!("the lines ask for {} out", both(-kg))
    } else if kg < 5e-4 {
        "the lines ask for nothing".to_owned()
    } else {
        format!("the lines ask for {}", both(kg))
    }
}

/// Opening the unit's valves, step by step. Common practice; the sheet's own order wins.
pub fn release_steps() -> [&'static str; 5] {
    [
        "Weigh in what the lines ask for while they are under vacuum, liquid, by the cylinder's dip tube or upside down.",
        "Liquid valve a quarter turn for ten seconds, then shut: sniff every joint with the detector.",
        "Liquid valve open to the stop, then the gas valve; not harder than the stop.",
        "Hoses off by low-loss ends; what is in them goes back into the cylinder.",
        "Caps on by torque, with their gaskets: the caps are the seal. Label filled in at the unit.",
    ]
}

/// Compares what left the cylinder with the signed trim.
///
/// # Equation
/// `a = before - after`; holds `|a - trim| + u <= max(14 g, 2 % of the charge)`; fails when even
/// `|a - trim| - u` is more; `u = s sqrt(2)`
/// # Symbols
/// all kg; `s` limit of error of the scale; a negative trim is recovered into the cylinder.
/// # Range
/// Charge 0.2 to 30 kg, cylinder 0 to 80 kg, trim -5 to 15 kg.
/// # Source
/// `common-practice`: half an ounce is what a careful hand holds.
/// # Example
/// ```
/// use reckon::Verdict;
/// let w = startup::charge::WeighIn { factory_kg: 1.1, trim_kg: 0.06, most_kg: None, before_kg: 9.462, after_kg: 9.401, scale_kg: 0.005 };
/// assert_eq!(startup::charge::weigh_in(&w).unwrap().verdict, Verdict::Holds);
/// ```
/// # Errors
/// Masses that cannot be.
pub fn weigh_in(w: &WeighIn) -> Result<Weighed, Wrong> {
    within("charge from the factory", "kg", w.factory_kg, 0.2, 30.0)?;
    within("trim", "kg", w.trim_kg, -5.0, 15.0)?;
    within("scale before", "kg", w.before_kg, 0.0, 80.0)?;
    within("scale after", "kg", w.after_kg, 0.0, 80.0)?;
    within("limit of error of the scale", "kg", w.scale_kg, 0.0001, 0.5)?;
    let added = w.before_kg - w.after_kg;
    let u = w.scale_kg * std::f64::consts::SQRT_2;
    let total = w.factory_kg + added;
    let allowed = (0.02 * w.factory_kg).max(0.014);
    let off = (added - w.trim_kg).abs();
    let (verdict, says, mend) = if w.most_kg.is_some_and(|m| total - u > m) {
        (
            Verdict::Fails,
            format!(
                "{} in the system is more than the sheet's most, {}.",
                both(total),
                both(w.most_kg.unwrap_or(total))
            ),
            "Recover what is too much, and look at line length and the rooms served again."
                .to_owned(),
        )
    } else if off - u > allowed {
        let word = if added > w.trim_kg { "Recover" } else { "Add" };
        (
            Verdict::Fails,
            format!("{}; {}.", moved(added), asked(w.trim_kg)),
            format!("{word} {}.", both(off)),
        )
    } else if off + u > allowed {
        (
            Verdict::CannotTell,
            format!(
                "{}; {}. The scale knows it to {} only.",
                moved(added),
                asked(w.trim_kg),
                both(u)
            ),
            "A scale with smaller errors would tell.".to_owned(),
        )
    } else {
        (
            Verdict::Holds,
            format!("{}; {}.", moved(added), asked(w.trim_kg)),
            String::new(),
        )
    };
    Ok(Weighed {
        verdict,
        added_kg: (added, u),
        total_kg: total,
        says,
        mend,
    })
}

/// Text of the label at the outdoor unit.
pub fn label(refrigerant: Refrigerant, w: &WeighIn, day: &str, who: &str) -> String {
    let added = w.before_kg - w.after_kg;
    let total = w.factory_kg + added;
    let warming = refrigerant.warming_potential().map_or(String::new(), |g| {
        format!(
            "\nWarming potential {g:.0}; as CO2 {:.2} t",
            g * total / 1000.0
        )
    });
    format!(
        "{}\nFactory  {}\nLines    {}\nTotal    {}{warming}\n{day}  {who}",
        refrigerant.name(),
        both(w.factory_kg),
        both(added),
        both(total)
    )
}

/// One movement of refrigerant.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Movement {
    /// Cylinder, by its number.
    pub cylinder: String,
    /// Scale before, kg.
    pub before_kg: f64,
    /// Scale after, kg.
    pub after_kg: f64,
    /// What the system should have gained by it, kg; negative when recovered from it.
    pub system_kg: f64,
}

/// Whether cylinders and systems balance.
///
/// # Equation
/// `d = sum(before - after) - sum(system)`; holds `|d| <= 0.1 lb`
/// # Symbols
/// all kg
/// # Range
/// Any number of movements with masses up to 80 kg; else the masses are refused.
/// # Source
/// `common-practice`: trade capability 24.
/// # Example
/// ```
/// use startup::charge::{Movement, balance};
/// let m = Movement { cylinder: "7".into(), before_kg: 9.0, after_kg: 8.9, system_kg: 0.1 };
/// assert_eq!(balance(&[m]).unwrap().0, reckon::Verdict::Holds);
/// ```
/// # Errors
/// A mass that cannot be, or a cylinder that weighs more than where it was left.
pub fn balance(movements: &[Movement]) -> Result<(Verdict, f64, String), Wrong> {
    let mut lost = 0.0;
    let mut last: std::collections::BTreeMap<&str, f64> = std::collections::BTreeMap::new();
    for (i, m) in movements.iter().enumerate() {
        let n = i + 1;
        within(
            &format!("scale before, movement {n}"),
            "kg",
            m.before_kg,
            0.0,
            80.0,
        )?;
        within(
            &format!("scale after, movement {n}"),
            "kg",
            m.after_kg,
            0.0,
            80.0,
        )?;
        within(
            &format!("into the system, movement {n}"),
            "kg",
            m.system_kg,
            -30.0,
            30.0,
        )?;
        if let Some(left) = last.get(m.cylinder.as_str())
            && (m.before_kg - left).abs() > BALANCE_KG
        {
            return Err(Wrong::new(
                format!("cylinder {} at movement {n}", m.cylinder),
                format!("{:.3} kg", m.before_kg),
                format!("{left:.3} kg, as it was left: a movement is missing"),
            ));
        }
        last.insert(&m.cylinder, m.after_kg);
        lost += m.before_kg - m.after_kg - m.system_kg;
    }
    let verdict = if lost.abs() <= BALANCE_KG {
        Verdict::Holds
    } else {
        Verdict::Fails
    };
    let says = if verdict == Verdict::Holds {
        format!("Cylinders and systems balance to {}.", both(lost))
    } else {
        format!(
            "{} are not accounted for; 0.1 lb is allowed. Weigh the cylinders again.",
            both(lost)
        )
    };
    Ok((verdict, lost, says))
}
