//! Every way of putting systems together, and their count.

use super::{Offers, Proposal, product};

#[test]
fn one_of_each_in_every_way() {
    let of = |names: &[&'static str]| -> Vec<Proposal<'static>> {
        let one = |outdoor: &&'static str| Proposal {
            outdoor,
            heads: Vec::new(),
        };
        names.iter().map(one).collect()
    };
    let all = [of(&["a", "b"]), of(&["x", "y", "z"])];
    let mut ways = Vec::new();
    product(&all, &mut Vec::new(), &mut |taken| {
        ways.push(taken.iter().map(|p| p.outdoor).collect::<String>());
    });
    assert_eq!(ways, ["ax", "ay", "az", "bx", "by", "bz"]);
    // A room for which nothing is offered leaves no way.
    let none = [of(&["a"]), of(&[])];
    product(&none, &mut Vec::new(), &mut |_| panic!("no way"));
}

#[test]
fn candidates_are_counted_before_they_are_made() {
    let some = |n: usize| {
        let one = Proposal {
            outdoor: "out",
            heads: vec![(0, "head")],
        };
        vec![one; n]
    };
    let offers = Offers {
        singles: vec![some(3), some(4), some(2)],
        together: some(5),
        both: vec![(some(2), some(6)), (some(1), some(0))],
    };
    assert_eq!(offers.count(), 3 * 4 * 2 + 5 + 2 * 6);
    let none = Offers {
        singles: vec![some(3), some(0)],
        ..Offers::default()
    };
    assert_eq!(none.count(), 0);
}
