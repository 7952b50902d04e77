//! Heads: free space, structure, how far the air carries warm and cold, the worst glass, draught
//! where people sit and lie, the sensor's height, access for service.

mod air;
mod draught;
mod glass;
mod jets;
pub(crate) mod room;
mod sensor;
mod space;

use jobfile::{HeadChoice, HeadPlace};

use crate::Input;
use crate::desk::Desk;
use crate::rules::Indoors;

/// Judges every head. Gives the plan directions each blows, degrees.
pub(crate) fn judge(
    input: &Input<'_>,
    rules: &Indoors,
    desk: &mut Desk,
) -> Vec<(String, Vec<f64>)> {
    let none = HeadPlace::default();
    let mut ways = Vec::new();
    for head in &input.job.equipment.heads {
        let all = &input.job.installation.heads;
        let p = all.iter().find(|p| p.head == head.name).unwrap_or(&none);
        ways.push((head.name.clone(), one(input, rules, desk, head, p)));
    }
    ways
}

/// Judges a head at a place: its own, or one that is tried.
pub(crate) fn one(
    input: &Input<'_>,
    rules: &Indoors,
    desk: &mut Desk,
    head: &HeadChoice,
    p: &HeadPlace,
) -> Vec<f64> {
    let place = format!("head.{}", head.name);
    let unit = input.sheet(&head.unit);
    space::judge(desk, head, p, unit, &place);
    let blown = jets::of(input, rules, desk, head, p, unit);
    air::judge(input, rules, desk, head, p, &blown, &place);
    draught::judge(input, rules, desk, head, p, &blown, &place);
    sensor::judge(rules, desk, head, &place);
    glass::judge(input, rules, desk, head, &blown, &place);
    let first = blown.into_iter().next();
    first.map_or(Vec::new(), |b| b.toward_deg)
}
