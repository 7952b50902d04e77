//! Records: what is altered, taken out, moved or cut off is found.

use serde_json::json;
use startup::Stamp;
use startup::record::{Chain, Entry, NotARecord, verify};

fn entry(who: &str, value: f64) -> Entry<'_> {
    Entry {
        at: Stamp {
            epoch_s: 1_795_600_000.0,
            offset_min: -300,
        },
        who,
        kind: "pressure-reading",
        says: json!({ "psi": value, "f": 70.1 }),
        corrects: None,
    }
}

fn file(n: usize) -> String {
    let mut text = String::new();
    let mut chain = Chain {
        records: Vec::new(),
        unfinished: 0,
    };
    for i in 0..n {
        let (record, line) = chain
            .next(&entry("A. Fitter", 550.0 + i as f64 * 0.1))
            .expect("usable");
        chain.records.push(record);
        text.push_str(&line);
    }
    text
}

#[test]
fn a_whole_file_holds() {
    let chain = verify(&file(20)).expect("holds");
    assert_eq!((chain.records.len(), chain.unfinished), (20, 0));
    assert_eq!(chain.last_hash().len(), 64);
}

/// Every single byte exchanged is found, wherever it is.
#[test]
fn one_byte_is_enough() {
    let text = file(3);
    let mut tried = 0;
    for (i, b) in text.bytes().enumerate() {
        if b == b'\n' {
            continue;
        }
        let mut bytes = text.clone().into_bytes();
        bytes[i] = if b == b'7' { b'8' } else { b'7' };
        let Ok(other) = String::from_utf8(bytes) else {
            continue;
        };
        assert!(verify(&other).is_err(), "byte {i} of {:?}", &text[i..=i]);
        tried += 1;
    }
    assert!(tried > 700);
}

#[test]
fn taken_out_moved_and_cut() {
    let text = file(5);
    let lines: Vec<&str> = text.lines().collect();
    let without = [lines[0], lines[2], lines[3]].join("\n") + "\n";
    assert_eq!(verify(&without).expect_err("one is gone").line, 2);
    let moved = [lines[0], lines[2], lines[1]].join("\n") + "\n";
    assert!(verify(&moved).is_err());
    // the end cut off holds by itself, but its last hash is another: that is what to write down
    let cut = lines[..3].join("\n") + "\n";
    let (whole, short) = (verify(&text).expect("holds"), verify(&cut).expect("holds"));
    assert_ne!(whole.last_hash(), short.last_hash());
    // half a line was never acknowledged
    let torn = &text[..text.len() - 10];
    let chain = verify(torn).expect("holds up to there");
    assert_eq!(chain.records.len(), 4);
    assert!(chain.unfinished > 0);
}

#[test]
fn a_correction_is_a_new_record_with_who_and_why() {
    let mut chain = verify(&file(2)).expect("holds");
    let mut fix = entry("B. Owner", 551.0);
    fix.corrects = Some((2, "misread the gauge"));
    let (record, _) = chain.next(&fix).expect("usable");
    chain.records.push(record);
    let standing = chain.standing();
    assert_eq!(standing.len(), 2);
    assert_eq!(standing[1].n, 3);
    assert_eq!(standing[1].why, "misread the gauge");
    fix.corrects = Some((2, " "));
    assert_eq!(chain.next(&fix).expect_err("no reason"), NotARecord::Why);
    fix.corrects = Some((9, "x"));
    assert_eq!(
        chain.next(&fix).expect_err("not there"),
        NotARecord::NoSuch(9)
    );
    assert_eq!(
        chain.next(&entry(" ", 1.0)).expect_err("nobody"),
        NotARecord::Who
    );
}
