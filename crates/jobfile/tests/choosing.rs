//! An option is taken in one step, and what was chosen is not lost.

use jobfile::edit::take_option;

const OPTION: &str = "a head in every bedroom";

fn lake_street() -> String {
    let path =
        std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs/lake-street/job.toml");
    std::fs::read_to_string(path).expect("example job")
}

fn read(text: &str) -> jobfile::Job {
    jobfile::read(text).unwrap_or_else(|e| panic!("{e:?}\n{text}"))
}

#[test]
fn the_option_is_chosen_and_what_was_chosen_is_an_option() {
    let before = read(&lake_street());
    let after = read(&take_option(&lake_street(), OPTION).expect("taken"));
    let wanted = before
        .options
        .iter()
        .find(|o| o.name == OPTION)
        .expect("option");
    assert_eq!(after.equipment, wanted.equipment);
    let names: Vec<&str> = after.options.iter().map(|o| o.name.as_str()).collect();
    assert_eq!(names, ["an outdoor unit for each head", "chosen before"]);
    assert_eq!(after.options[1].equipment, before.equipment);
}

#[test]
fn what_hangs_on_a_head_that_goes_goes_with_it_and_all_else_stays() {
    let text = lake_street();
    let taken = take_option(&text, OPTION).expect("taken");
    let after = read(&taken);
    let heads = |all: &[jobfile::Line]| all.iter().map(|l| l.head.clone()).collect::<Vec<_>>();
    assert_eq!(heads(&after.installation.lines), ["living"]);
    assert_eq!(after.installation.drains.len(), 1);
    assert_eq!(after.installation.heads.len(), 1);
    assert_eq!(after.installation.outdoors.len(), 1);
    // The text before the equipment and what follows it is untouched, comments too.
    let head = text.split("[[outdoor]]").next().expect("text");
    assert!(taken.starts_with(head.trim_end()), "{taken}");
    for comment in text.lines().filter(|l| l.trim_start().starts_with('#')) {
        assert!(taken.contains(comment), "lost: {comment}");
    }
    assert!(
        taken.contains("# cassette in the landing ceiling"),
        "{taken}"
    );
}

#[test]
fn taken_and_taken_back_it_is_the_same_equipment() {
    let before = read(&lake_street());
    let taken = take_option(&lake_street(), OPTION).expect("taken");
    let back = take_option(&taken, "chosen before").expect("taken back");
    let after = read(&back);
    assert_eq!(after.equipment, before.equipment);
    assert_eq!(after.options.len(), before.options.len());
    assert_eq!(sorted(&after), sorted(&before), "{back}");
    let again = take_option(&back, "an outdoor unit for each head").expect("a third");
    let names: Vec<String> = read(&again).options.into_iter().map(|o| o.name).collect();
    assert_eq!(names, ["chosen before, 2", "chosen before"]);
}

/// What is planned of heads and units, whichever stands first in the file.
fn sorted(job: &jobfile::Job) -> Vec<String> {
    let i = &job.installation;
    let mut all: Vec<String> = Vec::new();
    all.extend(i.outdoors.iter().map(|x| format!("{x:?}")));
    all.extend(i.heads.iter().map(|x| format!("{x:?}")));
    all.extend(i.lines.iter().map(|x| format!("{x:?}")));
    all.extend(i.drains.iter().map(|x| format!("{x:?}")));
    all.extend(i.circuits.iter().map(|x| format!("{x:?}")));
    all.sort();
    all
}

#[test]
fn the_way_of_a_line_is_kept_with_the_option_it_is_part_of() {
    let taken = take_option(&lake_street(), OPTION).expect("taken");
    assert!(taken.contains("[[option.lines]]"), "{taken}");
    let found = jobfile::edit::found(&taken, "option.chosen before.lines.landing.head");
    let landing = jobfile::edit::Found::Value("\"landing\"".to_owned());
    assert_eq!(found.expect("a path"), Some(landing));
    // A line that is drawn for the option meanwhile goes with the option when the first comes back.
    let drawn = taken.clone()
        + "\n[[line]]\nhead = \"kitchen\"\n[[line.pieces]]\nname = \"outside\"\nlength = \"9 ft\"\n";
    read(&drawn);
    let back = take_option(&drawn, "chosen before").expect("taken back");
    let again = take_option(&back, "chosen before").expect("and once more");
    let of_kitchen = |text: &str| {
        let lines = read(text).installation.lines;
        lines.into_iter().find(|l| l.head == "kitchen")
    };
    assert_eq!(of_kitchen(&back), None);
    assert_eq!(of_kitchen(&again), of_kitchen(&drawn));
    assert!(of_kitchen(&drawn).is_some());
}

#[test]
fn what_an_option_keeps_is_of_its_own_heads() {
    let taken = take_option(&lake_street(), OPTION).expect("taken");
    let wrong = taken.replacen(
        "[[option.lines]]\nhead = \"landing\"",
        "[[option.lines]]\nhead = \"bed 1\"",
        1,
    );
    assert_ne!(wrong, taken);
    let problems = jobfile::read(&wrong).expect_err("bed 1 has no head in that option");
    assert_eq!(problems[0].path, "option.chosen before.lines.bed 1.head");
    assert_eq!(problems[0].allowed, "living, landing");
}

#[test]
fn an_option_that_is_not_there_is_refused_with_those_that_are() {
    let problems = take_option(&lake_street(), "a head in every bedrom").expect_err("refused");
    assert_eq!(problems.len(), 1);
    assert_eq!(problems[0].says, "there is no option of this name");
    assert_eq!(
        problems[0].mend,
        "did you mean \"a head in every bedroom\"?"
    );
    let none = take_option("northwall = 1\n", "x").expect_err("refused");
    assert_eq!(none[0].allowed, "none: the job has no [[option]]");
}

#[test]
fn what_was_recorded_of_a_head_keeps_it_where_it_is() {
    let recorded = lake_street()
        + "\n[[as_built]]\nwho = \"Ada\"\nwhen = \"2026-11-20\"\nhead = \"landing\"\nserial = \"X1\"\n";
    read(&recorded);
    let problems = take_option(&recorded, OPTION).expect_err("the landing head has records");
    let paths: Vec<&str> = problems.iter().map(|p| p.path.as_str()).collect();
    assert!(paths.iter().all(|p| p.starts_with("as_built")), "{paths:?}");
    assert!(!paths.is_empty());
}
