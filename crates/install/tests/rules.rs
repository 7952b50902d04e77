//! Rule files: every one reads, and says its edition, its date, its source and what wins over it.

use install::Rules;

#[test]
fn every_rule_file_says_what_it_is() {
    let rules = Rules::shipped().expect("every file reads");
    let mut heads = vec![
        &rules.legality.head,
        &rules.siting.head,
        &rules.indoors.head,
    ];
    heads.extend(rules.electrical.edition.values().map(|e| &e.head));
    heads.extend(rules.room_area.edition.values().map(|e| &e.head));
    assert!(heads.len() >= 9, "{}", heads.len());
    for h in heads {
        assert!(!h.edition.is_empty() && !h.date.is_empty(), "{h:?}");
        assert_eq!(h.wins, "the unit's own sheet and local code");
    }
    for e in rules.electrical.edition.values() {
        assert!(!e.source.is_empty() && !e.place.is_empty());
    }
}

/// What is not established stays open: no number was seen for these two (trade list, F).
#[test]
fn what_nobody_saw_is_left_out() {
    let rules = Rules::shipped().expect("every file reads");
    let newer = rules.room_area.edition.get("newer").expect("named");
    assert!(newer.free_volumes_m3.is_none());
    let code = rules.electrical.edition.get("2026").expect("named");
    assert!(code.panel_va_per_ft2.is_none());
}

#[test]
fn the_defaults_are_there() {
    let rules = Rules::shipped().expect("every file reads");
    assert!(
        rules
            .electrical
            .edition
            .contains_key(&rules.electrical.default)
    );
    assert!(
        rules
            .room_area
            .edition
            .contains_key(&rules.room_area.default)
    );
}
