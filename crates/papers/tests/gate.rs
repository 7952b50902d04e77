//! The gate against the record of the start-up day: the last word on each test counts, and the
//! days of the record are held against the days of the job and against each other.

mod support;

use papers::{Gap, Reader, gaps, sheet};
use serde_json::{Value, json};
use startup::Stamp;
use startup::record::{Chain, Entry, verify};
use support::{Made, demo, demo_text};

/// The record of an invented start-up day, as the command wrote it.
const RECORD: &str = include_str!("record.jsonl");

/// A record put together here: kind, when, what, and what it corrects.
fn made(all: &[(&str, &str, Value, Option<u64>)]) -> Chain {
    let mut chain = verify("").expect("empty");
    for (kind, at, says, corrects) in all {
        let entry = Entry {
            at: Stamp::read(at, None).expect("a time"),
            who: "A. Fitter",
            kind,
            says: says.clone(),
            corrects: corrects.map(|n| (n, "misread")),
        };
        let (record, _) = chain.next(&entry).expect("usable");
        chain.records.push(record);
    }
    chain
}

fn answer(test: &str, verdict: &str) -> Value {
    json!({ "test": test, "answer": { "verdict": verdict, "says": format!("says {verdict}") } })
}

fn of_records(chain: &Chain) -> Vec<Gap> {
    let all = gaps(&demo().input(Some(chain)), Reader::Inspector);
    all.into_iter().filter(|g| g.place == "records").collect()
}

fn says(chain: &Chain, what: &str) -> Vec<String> {
    let all = of_records(chain).into_iter().map(|g| g.says);
    all.filter(|s| s.contains(what)).collect()
}

const AT: &str = "2026-12-08T09:00:00-06:00";

/// An early *cannot tell* and a later *holds* is *holds*; the other way round is not.
#[test]
fn the_last_word_on_a_test_counts() {
    let word = |all: &[&str]| {
        let all: Vec<_> = (all.iter())
            .map(|v| ("pressure-verdict", AT, answer("1", v), None))
            .collect();
        says(&made(&all), "pressure test")
    };
    assert_eq!(word(&["cannot-tell", "holds"]), Vec::<String>::new());
    assert_eq!(
        word(&["fails", "cannot tell", "holds"]),
        Vec::<String>::new()
    );
    assert_eq!(
        word(&["holds", "fails"]),
        ["Record 2, pressure test: fails"]
    );
    assert_eq!(
        word(&["holds", "cannot-tell"]),
        ["Record 2, pressure test: cannot tell"]
    );
    // nothing said is nothing told
    assert_eq!(word(&["holds", ""]).len(), 1);
}

/// Tests with other names or of other outdoor units are other tests; joints go by their place.
#[test]
fn each_test_has_its_own_last_word() {
    let on = |unit: &str, verdict: &str| {
        let mut says = answer("1", verdict);
        says["on"] = json!(unit);
        ("vacuum-verdict", AT, says, None)
    };
    let chain = made(&[on("east wall", "fails"), on("west wall", "holds")]);
    assert_eq!(
        says(&chain, "vacuum test"),
        ["Record 1, vacuum test, east wall: fails"]
    );
    let named = |test: &str, v: &str| ("vacuum-verdict", AT, answer(test, v), None);
    let chain = made(&[named("before", "fails"), named("after", "holds")]);
    assert_eq!(says(&chain, "vacuum test").len(), 1);
    let joint = |place: &str, v: &str| ("joint", AT, json!({ "place": place, "verdict": v }), None);
    let chain = made(&[
        joint("a", "fails"),
        joint("b", "holds"),
        joint("a", "holds"),
    ]);
    assert_eq!(says(&chain, "joint"), Vec::<String>::new());
    // joints that do not say where they are cannot stand for each other
    let bare = |v: &str| ("joint", AT, json!({ "verdict": v }), None);
    assert_eq!(
        says(&made(&[bare("fails"), bare("holds")]), "joint").len(),
        1
    );
}

/// A correction stands where stood what it corrects: it is no later test.
#[test]
fn a_correction_takes_the_place_of_what_it_corrects() {
    let test = |v: &str, corrects| ("pressure-verdict", AT, answer("1", v), corrects);
    let chain = made(&[
        test("fails", None),
        test("holds", None),
        test("cannot tell", Some(1)),
    ]);
    assert_eq!(says(&chain, "pressure test"), Vec::<String>::new());
    let chain = made(&[test("holds", None), test("fails", Some(1))]);
    assert_eq!(
        says(&chain, "pressure test"),
        ["Record 2, pressure test: fails"]
    );
}

/// The paper shows the same: one pressure test, the last.
#[test]
fn the_paper_shows_the_last_word() {
    let test = |v: &str| ("pressure-verdict", AT, answer("1", v), None);
    let chain = made(&[test("cannot-tell"), test("holds")]);
    let text = sheet(
        &demo().input(Some(&chain)),
        Reader::Inspector,
        papers::Size::Letter,
        &[],
    )
    .text();
    assert_eq!(text.matches("Pressure test: record").count(), 1, "{text}");
    assert!(text.contains("Pressure test: record 2,"), "{text}");
    assert!(text.contains("holds. says holds"), "{text}");
}

/// A charge: the weighing, the ledger, and valves that were opened after the tests held.
#[test]
fn a_charge_holds_when_all_of_it_does() {
    let word = |weighed: &str, ledger: Value, opened: Value, vacuum: &str| {
        let says_ = json!({
            "weighed": { "verdict": weighed }, "ledger": ledger, "opened": opened,
            "before": [{ "what": "pressure", "verdict": "holds" },
                       { "what": "vacuum", "verdict": vacuum }],
        });
        says(&made(&[("charge", AT, says_, None)]), "charge:").pop()
    };
    let (good, off) = (json!({ "verdict": "holds" }), json!({ "verdict": "fails" }));
    assert_eq!(word("holds", good.clone(), json!("AF"), "holds"), None);
    assert_eq!(word("holds", Value::Null, json!("AF"), "holds"), None);
    let fails = Some("Record 1, charge: fails".to_owned());
    let open = Some("Record 1, charge: cannot tell".to_owned());
    assert_eq!(word("fails", good.clone(), json!("AF"), "holds"), fails);
    assert_eq!(word("holds", off, json!("AF"), "holds"), fails);
    assert_eq!(
        word("holds", good.clone(), json!("AF"), "cannot tell"),
        fails
    );
    assert_eq!(word("holds", good, Value::Null, "holds"), open);
    assert_eq!(word("", Value::Null, json!("AF"), "holds"), open);
}

/// Charges name their unit as the command does (`on`) or as the interface of the server does
/// (`outdoor`): a second unit does not stand for the first.
#[test]
fn charges_of_two_units_stand_each_for_itself() {
    let charge = |key: &str, unit: &str, weighed: &str| {
        let mut says = json!({
            "weighed": { "verdict": weighed }, "ledger": null, "opened": "AF", "before": [],
        });
        says[key] = json!(unit);
        ("charge", AT, says, None)
    };
    for (one, other) in [("outdoor", "outdoor"), ("on", "outdoor"), ("outdoor", "on")] {
        let first = charge(one, "east wall", "fails");
        let chain = made(&[first.clone(), charge(other, "west wall", "holds")]);
        assert_eq!(
            says(&chain, "charge, "),
            ["Record 1, charge, east wall: fails"],
            "{one}, {other}"
        );
        // made again on the same unit, it is the same test, whoever kept it
        let chain = made(&[first, charge(other, "east wall", "holds")]);
        assert_eq!(says(&chain, "charge, "), Vec::<String>::new());
    }
}

/// Readings that nothing in the record judges: as the interface of the server keeps them.
#[test]
fn readings_without_a_verdict_are_missing_one() {
    let read = |test: &str| {
        let says = json!({ "test": test, "at_s": 1.0, "pa": 2.6e6, "line_c": 9.0, "typed": "" });
        ("pressure-reading", AT, says, None)
    };
    let verdict = |test: &str| ("pressure-verdict", AT, answer(test, "holds"), None);
    let missing = |all: &[_]| {
        let all = of_records(&made(all)).into_iter();
        all.filter(|g| g.kind == "missing" && g.says.contains("pressure"))
            .map(|g| g.says)
            .collect::<Vec<_>>()
    };
    let says = |test: &str, many: u8, last: u8| {
        format!(
            "A verdict on the pressure test \"{test}\": the record has its readings ({many}, \
             records 1 to {last}) and no verdict after them"
        )
    };
    assert_eq!(missing(&[]), ["A pressure test that holds"]);
    assert_eq!(missing(&[read("1"), read("1")]), [says("1", 2, 2)]);
    assert_eq!(
        missing(&[read("1"), read("1"), verdict("1")]),
        Vec::<String>::new()
    );
    // the verdict of another test, or of before the reading, does not cover it
    assert_eq!(missing(&[read("a"), verdict("b")]), [says("a", 1, 1)]);
    assert_eq!(missing(&[verdict("1"), read("1")]).len(), 1);
}

/// The record of the invented day, 2026-11-25, with other days in the job.
fn with_days(days: &str, installed: &str) -> Vec<String> {
    let text = demo_text()
        .replace("quoted = \"2026-11-03\"\napproved = \"2026-11-20\"\n", days)
        .replace(
            "install_day = \"2026-12-07\"",
            &format!("install_day = \"{installed}\""),
        );
    let mut made = Made {
        job: jobfile::read(&text).expect("reads"),
        ..Made::of_demo()
    };
    made.text = text;
    let chain = verify(RECORD).expect("whole");
    let all = gaps(&made.input(Some(&chain)), Reader::Inspector).into_iter();
    let all = all.filter(|g| g.place == "records");
    all.map(|g| g.says).collect()
}

/// The days of the record against the days of the job.
#[test]
fn the_record_against_the_days_of_the_job() {
    let none = Vec::<String>::new();
    assert_eq!(with_days("approved = \"2026-11-20\"\n", "2026-11-25"), none);
    // the day itself is not before and not after
    let all = "begun = \"2026-11-25\"\nstarted = \"2026-11-25\"\nhanded_over = \"2026-11-25\"\n";
    assert_eq!(with_days(all, "2026-11-25"), none);
    let early = with_days("approved = \"2026-11-26\"\n", "2026-11-25");
    assert_eq!(early.len(), 12, "every record: {early:?}");
    assert!(
        early.contains(
            &"Record 9, pressure test (2026-11-25), is dated before: approved (2026-11-26)"
                .to_owned()
        ),
        "{early:?}"
    );
    let late = with_days("handed_over = \"2026-11-24\"\n", "2026-11-20");
    assert_eq!(late.len(), 12, "{late:?}");
    let run = with_days("", "2026-12-07");
    assert_eq!(
        run,
        ["Record 12, first run, living (2026-11-25), is dated before: installation (2026-12-07)"]
    );
    let run = with_days("started = \"2026-11-24\"\n", "2026-11-20");
    assert_eq!(
        run.len(),
        11,
        "all but the run come after the first run: {run:?}"
    );
    let signed = with_days("inspected = \"2026-11-24\"\n", "2026-11-20");
    assert_eq!(signed.len(), 11, "{signed:?}");
}

/// Pressure, vacuum, charge: kept in this order, and no clock goes back.
#[test]
fn the_order_of_the_record() {
    let p = |at| ("pressure-verdict", at, answer("1", "holds"), None);
    let v = |at| ("vacuum-verdict", at, answer("1", "holds"), None);
    let order = |all: &[_]| {
        let all = of_records(&made(all))
            .into_iter()
            .filter(|g| g.kind == "contradicts");
        all.map(|g| g.says).collect::<Vec<_>>()
    };
    assert_eq!(order(&[p(AT), v(AT)]), Vec::<String>::new());
    let early = "Record 1, vacuum test, was kept before record 2, pressure test";
    assert_eq!(order(&[v(AT), p(AT)]), [early]);
    // pressed again after a leak: the vacuum before it counts for nothing, until it is made again
    assert_eq!(order(&[p(AT), v(AT), p(AT)]).len(), 1);
    assert_eq!(order(&[p(AT), v(AT), p(AT), v(AT)]), Vec::<String>::new());
    let back = order(&[p(AT), v("2026-12-07T09:00:00-06:00")]);
    assert!(
        back.contains(
            &"Record 2 is dated 2026-12-07, and record 1 before it 2026-12-08".to_owned()
        ),
        "{back:?}"
    );
}
