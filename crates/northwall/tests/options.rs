//! What `choose` and `bands` say, and what they refuse.

mod support;

use serde_json::Value;
use support::{BOX, DEMO, project, refused, run};

fn json(arguments: &[&str]) -> Value {
    let (code, out, err) = run(arguments);
    assert_eq!(code, 0, "{arguments:?}\n{err}");
    serde_json::from_str(&out).expect("JSON")
}

/// At most 80 columns, and the words that must be there.
fn says(arguments: &[&str], words: &[&str]) {
    let (code, out, err) = run(arguments);
    assert_eq!(code, 0, "{arguments:?}\n{err}");
    for line in out.lines() {
        assert!(line.chars().count() <= 80, "{arguments:?}: {line}");
    }
    let flat = out.split_whitespace().collect::<Vec<_>>().join(" ");
    for word in words {
        assert!(
            flat.contains(word),
            "{arguments:?}: no \"{word}\" in\n{out}"
        );
    }
}

const FEW: [&str; 6] = [
    "choose",
    DEMO,
    "--rooms",
    "living,landing",
    "--most-heads",
    "2",
];

#[test]
fn choose_says_why() {
    says(
        &FEW,
        &[
            "survive: none of the others is as good in everything",
            "Not weighed: the price of units",
        ],
    );
    let mut asked = FEW.to_vec();
    asked.push("--json");
    let found = json(&asked);
    let survivors = found["survivors"].as_array().expect("a list");
    assert!(!survivors.is_empty());
    for s in survivors {
        let rooms: Vec<&str> = s["units"]
            .as_array()
            .into_iter()
            .flatten()
            .flat_map(|u| u["heads"].as_array().into_iter().flatten())
            .filter_map(|h| h["room"].as_str())
            .collect();
        assert!(
            rooms.iter().all(|r| ["living", "landing"].contains(r)),
            "{rooms:?}"
        );
    }
    // With a price for every unit the price is weighed; where one is missing it is said which.
    let folder = tempfile::tempdir().expect("a folder");
    let list = folder.path().join("prices.csv");
    let mut text = String::from("# name, price\n");
    for entry in std::fs::read_dir(project().join("catalogue")).expect("catalogue") {
        let sheet = std::fs::read_to_string(entry.expect("entry").path()).expect("text");
        let name = sheet
            .lines()
            .find_map(|l| l.strip_prefix("name = \"")?.strip_suffix('"'));
        if let Some(name) = name {
            text.push_str(&format!("{name}, $1,900\n").replace("1,900", "1900"));
        }
    }
    std::fs::write(&list, &text).expect("written");
    let list = list.display().to_string();
    let mut asked = FEW.to_vec();
    asked.extend(["--prices", &list, "--json"]);
    let found = json(&asked);
    let weighed = found["weighed"].as_array().expect("a list");
    assert!(weighed.iter().any(|w| w == "equipment"), "{weighed:?}");
}

#[test]
fn bands_say_how_many_houses_are_carried() {
    says(
        &["bands", DEMO, "--houses", "30"],
        &[
            "The year of 120 houses",
            "of 100 of the houses this could be",
            "heat loss as bills show it",
        ],
    );
    let told = [
        "bands",
        DEMO,
        "--houses",
        "30",
        "--heat-loss",
        "2000 to 2100 Btu/(h F)",
    ];
    says(&told, &["Cannot tell: the heat loss by the survey is"]);
}

#[test]
fn what_cannot_be_used_is_refused() {
    let cases: [(&[&str], &[&str]); 14] = [
        (
            &["choose", DEMO, "--rooms", "loft"],
            &[
                "the house does not have",
                "name rooms of the job with --rooms",
                "living",
            ],
        ),
        (
            &["choose", DEMO, "--most-heads", "0"],
            &["1 to 5 heads are looked at"],
        ),
        (
            &["choose", DEMO, "--most-heads", "six"],
            &["1 to 5 heads are looked at"],
        ),
        (
            &["choose", DEMO, "--most", "0"],
            &["--most", "1 set of units or more must be looked at"],
        ),
        (
            &["choose", DEMO, "--most", "all"],
            &["1 set of units or more must be looked at"],
        ),
        (
            &["choose", DEMO, "--kind", "chimney"],
            &["possible values: wall, floor, ceiling, duct"],
        ),
        (
            &["choose", DEMO, "--prices", "no/such.csv"],
            &["there is no such price list"],
        ),
        (
            &["choose", DEMO, "--prices", "catalogue/README.md"],
            &["this line has no comma", "Loon 12, 1850"],
        ),
        (
            &["choose", DEMO, "--svg", "x.svg"],
            &["has no chart to write"],
        ),
        (
            &["bands", BOX],
            &["the job has no heads", "[[outdoor]] and a [[head]]"],
        ),
        (
            &["bands", DEMO, "--houses", "5"],
            &["30 to 10000 houses can be run"],
        ),
        (
            &["bands", DEMO, "--heat-loss", "400"],
            &["this is not a band", "380 to 470 Btu/(h F)"],
        ),
        (
            &["bands", DEMO, "--heat-loss", "470 to 380 Btu/(h F)"],
            &["stands on its head"],
        ),
        (
            &["bands", DEMO, "--heat-loss", "380 to 470 cfm"],
            &["take the band of the heat loss that `northwall bills` prints"],
        ),
    ];
    for (arguments, words) in cases {
        refused(arguments, words);
    }
}
