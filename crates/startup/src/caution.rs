//! Cautions, each once, at the step where it bears.

/// A step of the day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// Flares and brazed joints.
    Joints,
    /// Nitrogen under pressure.
    Pressure,
    /// Vacuum.
    Vacuum,
    /// Weighing in and opening the valves.
    Charge,
    /// First run.
    Run,
    /// A later visit.
    Visit,
}

/// What to be careful of at a step. Each caution stands at one step only.
pub fn cautions(step: Step, burns: bool) -> Vec<&'static str> {
    let mut says = match step {
        Step::Joints => vec![
            "Brazing: a trickle of nitrogen through the line, and something to put out a fire at hand.",
        ],
        Step::Pressure => vec![
            "Dry nitrogen through a regulator only. Never oxygen, never air: with oil they explode.",
            "Eye protection on; stand aside of the joints; never above the lowest plate pressure.",
        ],
        Step::Vacuum => vec!["Let no compressor run and measure no insulation while in vacuum."],
        Step::Charge => {
            vec!["Refrigerant is for a licensed technician. Recover what comes out; never vent it."]
        }
        Step::Run => {
            vec!["Lock out the power before a cover comes off; who is not licensed leaves it on."]
        }
        Step::Visit => {
            vec!["A system that has lost charge is found and mended before anything is added."]
        }
    };
    if burns && step == Step::Charge {
        says.push(
            "This refrigerant burns: air the room, keep flame and sparks away, use tools rated for it.",
        );
    }
    says
}
