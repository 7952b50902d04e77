//! Which sets of rooms there are, and whose price is missing.

use jobfile::{Choice, Equipment, HeadChoice, OutdoorChoice};

use super::{Wishes, layouts, without_price};

#[test]
fn every_set_of_rooms_once_and_the_small_ones_first() {
    let rooms = |most: usize| -> Vec<Vec<usize>> {
        let all = layouts(&[4, 7, 9], most);
        assert!(all.iter().flatten().all(|(_, cools)| *cools));
        let zones = |l: &Vec<(usize, bool)>| l.iter().map(|(z, _)| *z).collect();
        all.iter().map(zones).collect()
    };
    let ones_and_twos = [
        vec![4],
        vec![7],
        vec![9],
        vec![4, 7],
        vec![4, 9],
        vec![7, 9],
    ];
    assert_eq!(rooms(1), ones_and_twos[..3]);
    assert_eq!(rooms(2), ones_and_twos);
    // More heads than rooms: 2^3 less the empty one.
    assert_eq!(rooms(5).len(), 7);
    assert!(rooms(0).is_empty());
}

#[test]
fn a_unit_without_a_price_is_named_once_where_others_have_one() {
    let choice = Choice {
        name: "one".to_owned(),
        equipment: Equipment {
            outdoors: vec![OutdoorChoice {
                name: "a".to_owned(),
                unit: "Grebe 20".to_owned(),
                serial: None,
            }],
            heads: ["living", "landing"]
                .map(|room| HeadChoice {
                    name: room.to_owned(),
                    room: room.to_owned(),
                    unit: "Teal 9".to_owned(),
                    on: "a".to_owned(),
                    serial: None,
                })
                .to_vec(),
        },
    };
    let all = [choice.clone(), choice];
    let mut wishes = Wishes::default();
    assert!(without_price(&all, &wishes).is_empty());
    wishes.prices.insert("Grebe 20".to_owned(), 2400.0);
    assert_eq!(without_price(&all, &wishes), ["Teal 9"]);
}
