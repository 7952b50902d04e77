//! `northwall bills` and `northwall review`, asked as their users ask them. The bills are invented
//! (`checks/bills_invented.py`); what they were made from stands in that script.

mod support;

use serde_json::Value;
use support::{DEMO, refused, run};

const SECOND: &str = "jobs/lake-street/bills/second-winter.toml";

fn json(arguments: &[&str]) -> Value {
    let mut all = arguments.to_vec();
    all.push("--json");
    let (code, out, err) = run(&all);
    assert_eq!(code, 0, "{arguments:?}\n{err}");
    serde_json::from_str(&out).expect("JSON")
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or(f64::NAN)
}

/// The loss the oil house was made with, W/K (`OIL_HOUSE` of the script).
const OIL_LOSS: f64 = 220.0;
/// The gas house's loss, W/K, and its mean COP over what the heat pump carried, from the script's
/// curve (2.75 and 0.055 a degree) at the mean temperature of its heat, about 2 C.
const GAS_COP: (f64, f64) = (2.3, 3.1);

#[test]
fn the_oil_house_is_found_again_in_its_bills() {
    let answer = json(&["bills", DEMO]);
    let loss = &answer["loss"]["loss_w_per_k"];
    assert!(
        number(&loss["low"]) <= OIL_LOSS && OIL_LOSS <= number(&loss["high"]),
        "{loss}"
    );
    assert_eq!(answer["typical"], false);
    let closers = answer["survey"]["closers"].as_array().expect("closers");
    assert!(closers.len() >= 3, "{closers:?}");
    let strains: Vec<f64> = closers.iter().map(|c| number(&c["strain"])).collect();
    assert!(strains.is_sorted_by(|a, b| a <= b), "{strains:?}");
}

#[test]
fn units_change_the_words_and_never_the_numbers() {
    assert_eq!(json(&["bills", DEMO]), json(&["bills", DEMO, "--si"]));
    let (us, si) = (run(&["bills", DEMO]).1, run(&["bills", DEMO, "--si"]).1);
    assert!(us.contains("Btu/(h F)") && !si.contains("Btu"), "{si}");
    for text in [us, si, run(&["review", SECOND]).1] {
        for line in text.lines() {
            assert!(line.chars().count() <= 80, "{line}");
        }
    }
}

#[test]
fn the_second_winter_is_told_with_a_band() {
    let answer = json(&["review", SECOND]);
    let cop = &answer["cop"];
    let (low, high) = (number(&cop["low"]), number(&cop["high"]));
    assert!(low < GAS_COP.1 && high > GAS_COP.0, "{cop}");
    assert!(
        number(&cop["mid"]) > GAS_COP.0 && number(&cop["mid"]) < GAS_COP.1,
        "{cop}"
    );
    assert!(number(&answer["fuel_share"]["mid"]) < 0.35, "{answer}");
}

#[test]
fn every_number_can_be_asked_why() {
    let (code, out, err) = run(&["why", DEMO, "bills.load", "--down", "all"]);
    assert_eq!(code, 0, "{err}");
    assert!(out.contains("H * dT") && out.contains("b * eta"), "{out}");
    let (code, out, _) = run(&["why", SECOND, "review.cop"]);
    assert_eq!(code, 0);
    assert!(out.contains("Q / E"), "{out}");
}

#[test]
fn typical_weather_is_told_and_widens() {
    let narrow = json(&["bills", DEMO]);
    let mut all = vec![
        "bills",
        DEMO,
        "--bills",
        "jobs/lake-street/bills/electricity.csv",
    ];
    let (code, out, _) = run(&all);
    assert_eq!(code, 0);
    assert!(
        out.contains("Cannot tell"),
        "lights and pumps do not tell the loss: {out}"
    );
    all = vec!["bills", "jobs/lake-street/bills/no-weather.toml"];
    refused(&all, &["there is no such job file"]);
    assert!(number(&narrow["loss"]["loss_w_per_k"]["low"]) > 0.0);
}

#[test]
fn what_cannot_be_used_names_file_line_and_mend() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = |name: &str, text: &str| -> String {
        let path = folder.path().join(name);
        std::fs::write(&path, text).expect("written");
        path.display().to_string()
    };
    let cases = [
        ("empty.csv", "", "the file is empty"),
        (
            "backwards.csv",
            "from,to,use kWh\n2025-02-01,2025-01-01,5\n",
            "ends before it begins",
        ),
        (
            "negative.csv",
            "from,to,use kWh\n2025-01-01,2025-02-01,-5\n",
            "use below nothing",
        ),
        (
            "unit.csv",
            "from,to,use\n2025-01-01,2025-02-01,5\n",
            "in which unit",
        ),
        (
            "bomb.xml",
            "<!DOCTYPE a [<!ENTITY b \"c\">]><feed/>",
            "document type or entities",
        ),
        ("cut.xml", "<feed><entry>", "the XML does not read"),
    ];
    for (name, text, want) in cases {
        let file = path(name, text);
        refused(
            &["bills", DEMO, "--bills", &file],
            &[want, "allowed", "mend", name],
        );
    }
    let one = path("slip.csv", "date,gallons\n2025-01-01,100\n2025-02-01,90\n");
    refused(
        &["bills", DEMO, "--bills", &format!("coal:{one}")],
        &["nothing that is bought"],
    );
    refused(
        &["bills", DEMO, "--bills", "not-there.csv"],
        &["there is no such file of bills"],
    );
    refused(
        &["review", DEMO],
        &["when the heat pump began to heat", "[winters]"],
    );
    let warm = path("warm.csv", "date,temperature_F\n2025-01-01,999\n");
    refused(
        &["bills", DEMO, "--temperatures", &warm],
        &["no outdoor temperature", "line 2"],
    );
}

/// `--heat-loss` with the ends that `bills` gives must be the same houses as the bills themselves.
#[test]
fn bands_take_the_loss_of_the_bills_unless_told_otherwise() {
    let of_bills = json(&["bills", DEMO]);
    let loss = &of_bills["loss"]["loss_w_per_k"];
    let told = format!("{} to {} W/K", number(&loss["low"]), number(&loss["high"]));
    let few = ["bands", DEMO, "--houses", "30"];
    let with = |more: &[&str]| json(&[&few, more].concat());
    let (own, flag, without) = (
        with(&[]),
        with(&["--heat-loss", &told]),
        with(&["--without-bills"]),
    );
    let says = own["bills"].as_str().unwrap_or("");
    assert!(
        says.contains("The bills of the job (oil) tell a heat loss of"),
        "{says}"
    );
    let effective = |v: &Value| number(&v["agreed"]["effective"]);
    assert!((effective(&own) - effective(&flag)).abs() < 1e-6, "{own}");
    assert!(flag["bills"].is_null() && without["bills"].is_null());
    assert!(without["agreed"].is_null(), "{}", without["agreed"]);
}

/// The demo's job at another place, with its files named by where they are and something of its
/// text written otherwise.
fn elsewhere(name: &str, edit: impl Fn(String) -> String) -> Value {
    let [job, catalogue] = moved(name, edit);
    json(&["bands", &job, "--houses", "30", "--catalogue", &catalogue])
}

fn moved(name: &str, edit: impl Fn(String) -> String) -> [String; 2] {
    let project = support::project();
    let text = std::fs::read_to_string(project.join(DEMO)).expect("the demo");
    let bills = project.join("jobs/lake-street/bills");
    let text = text
        .replace(
            "../../weather",
            &project.join("weather").display().to_string(),
        )
        .replace("\"bills/", &format!("\"{}/", bills.display()));
    let folder = std::env::temp_dir().join(format!("northwall-bands-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let path = folder.join(name);
    std::fs::write(&path, edit(text)).expect("writes");
    let catalogue = project.join("catalogue").display().to_string();
    [path.display().to_string(), catalogue]
}

#[test]
fn bands_go_on_where_bills_tell_nothing_and_say_so() {
    let lost = elsewhere("lost.toml", |t| t.replace("oil-slips.csv", "mislaid.csv"));
    let says = lost["bills"].as_str().unwrap_or("");
    assert!(
        says.starts_with("Not narrowed by the bills of the job:") && says.contains("mislaid.csv"),
        "{says}"
    );
    assert!(lost["agreed"].is_null());
    // Electricity alone is not what heats this house.
    let unfitted = elsewhere("unfitted.toml", |t| {
        let (before, rest) = t.split_once("[[bill]]").expect("bills");
        let (_, after) = rest.split_once("[winters]").expect("winters");
        let (bills, _) = rest.split_once("[winters]").expect("winters");
        let at = bills.rfind("[[bills]]").expect("the electricity");
        let electricity = bills.get(at..).expect("a table");
        format!("{before}{electricity}[winters]{after}")
    });
    let says = unfitted["bills"].as_str().unwrap_or("");
    assert!(says.starts_with("Not narrowed"), "{says}");
    assert!(unfitted["agreed"].is_null());
    let none = elsewhere("none.toml", |t| {
        let (before, rest) = t.split_once("[[bill]]").expect("bills");
        let (_, after) = rest.split_once("[winters]").expect("winters");
        format!("{before}[winters]{after}")
    });
    assert!(none["bills"].is_null() && none["agreed"].is_null());
}

#[test]
fn check_sets_the_bills_beside_the_survey() {
    // An old boiler that gives less of its oil makes less heat of the same bills.
    let [weak, catalogue] = moved("weak.toml", |t| {
        let weak = t.replace("efficiency = \"80 %\"", "efficiency = \"62 %\"");
        assert_ne!(weak, t);
        weak
    });
    for (job, apart) in [(DEMO, false), (&*weak, true)] {
        // The demo has stops, so the exit is 1.
        let (code, out, _) = run(&["check", job, "--json", "--catalogue", &catalogue]);
        assert_eq!(code, 1);
        let answer: Value = serde_json::from_str(&out).expect("JSON");
        let of_bills = json(&["bills", job, "--catalogue", &catalogue]);
        let said = &answer["bills"];
        assert_eq!(said["load_w"], of_bills["loss"]["load_w"]);
        assert_eq!(said["loss_w_per_k"], of_bills["loss"]["loss_w_per_k"]);
        let high = number(&said["of_survey"]["high"]);
        let low = number(&said["of_survey"]["low"]);
        assert_eq!(high < 0.85 || low > 1.15, apart, "{said}");
        let findings = answer["findings"].as_array().expect("findings");
        let told = findings.iter().filter(|f| f["rule"] == "bills-and-survey");
        assert_eq!(told.count(), usize::from(apart), "{said}");
        let text = run(&["check", job, "--catalogue", &catalogue]).1;
        assert!(text.contains("  By the bills      "), "{text}");
        assert!(text.lines().all(|l| l.chars().count() <= 80), "{text}");
    }
}
