//! What a person sees, at 80 columns. A number that moved shows here: look at it, name it in the
//! changelog under "Answers that changed", then `INSTA_UPDATE=always cargo test -p northwall`.

mod support;

use support::{BOX, DEMO, FREE, northwall, project, run};

const TOLD: [&[&str]; 12] = [
    &["check", DEMO],
    &["check", BOX],
    &["loads", DEMO],
    &["loads", DEMO, "--si"],
    &["loads", BOX],
    &["season", DEMO],
    &["season", DEMO, "--ideal", "--si"],
    &["season", BOX],
    &["season", FREE, "--si"],
    &["why", DEMO, "loads.bath.heating"],
    &["sheet", "catalogue/loon-12.toml"],
    &["sheet", "catalogue/grebe-30.toml", "--si"],
];

#[test]
fn nothing_is_wider_than_the_terminal() {
    let more: [&[&str]; 7] = [
        &["prove"],
        &["bills", DEMO],
        &["bands", DEMO, "--houses", "30"],
        &["why", DEMO, "loads.living.heating", "--down", "3"],
        &["why", DEMO, "season"],
        &["--help"],
        &["new", "--help"],
    ];
    for arguments in TOLD.iter().chain(more.iter()) {
        let (_, out, _) = run(arguments);
        assert!(!out.is_empty(), "{arguments:?} says nothing");
        for line in out.lines() {
            let wide = line.chars().count();
            // A path or a formula that cannot be broken may stand out, and a command to be copied,
            // which has its line to itself.
            let whole = line.split_whitespace().any(|w| w.chars().count() > 60)
                || (line.starts_with("  northwall ") && wide > 78);
            assert!(wide <= 80 || whole, "{arguments:?}, {wide} columns: {line}");
        }
    }
}

/// The folder of the project is not the same everywhere.
fn without_folder(text: &str) -> String {
    let full = project().canonicalize().expect("is there");
    text.replace(&format!("{}/", full.display()), "")
}

#[test]
fn what_is_shown() {
    for arguments in TOLD {
        let (_, out, _) = run(arguments);
        let name = arguments.join("_").replace(['/', '.', ' '], "-");
        insta::assert_snapshot!(name, without_folder(&out));
    }
}

/// A load is printed in W under `--si`, so no head of its column may say kW.
#[test]
fn the_head_of_a_column_has_the_unit_of_its_numbers() {
    for arguments in [
        &["loads", DEMO, "--si"][..],
        &["season", DEMO, "--ideal", "--si"],
        &["bills", DEMO, "--si"],
    ] {
        let (_, out, _) = run(arguments);
        assert!(!out.contains("kW "), "{arguments:?}\n{out}");
        assert!(!out.contains("kW\n"), "{arguments:?}\n{out}");
    }
}

/// A formula that does not come out in the units printed has the SI numbers beside.
#[test]
fn what_is_worked_in_si_says_so() {
    let told = run(&["why", DEMO, "leaks.stack"]).1;
    assert!(told.contains("worked in SI ("), "{told}");
    assert!(told.contains(" cfm (0."), "{told}");
    assert!(told.contains("69 F (20."), "{told}");
    let plain = run(&["why", DEMO, "space.cellar.temperature", "--down", "1"]).1;
    assert!(!plain.contains("worked in SI"), "{plain}");
}

/// What is printed to be typed next can be copied into a shell, spaces or not.
#[test]
fn what_is_to_be_typed_is_in_quotes_where_a_shell_needs_them() {
    let folder = std::env::temp_dir().join(format!("northwall typed {}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let job = folder.join("my job.toml");
    let name = job.to_str().expect("text");
    let (code, made, _) = run(&["new", name, "--force"]);
    assert_eq!(code, 0);
    assert!(
        made.contains(&format!("northwall check \"{name}\"")),
        "{made}"
    );
    let told = run(&["check", name]).1;
    assert!(
        told.contains(&format!("northwall why \"{name}\" ")),
        "{told}"
    );
    std::fs::remove_dir_all(&folder).expect("removed");
    let deeper = run(&["why", DEMO, "charge.east wall.total", "--down", "1"]).1;
    let hint = deeper.lines().find(|l| l.contains("northwall why"));
    assert!(
        hint.is_some_and(|l| l.ends_with("\"charge.east wall.to-weigh\"")),
        "{deeper}"
    );
}

#[test]
fn exit_codes() {
    let codes: [(&[&str], i32); 9] = [
        (&["check", DEMO], 1),
        (&["check", BOX], 0),
        (&["loads", DEMO], 0),
        (&["season", DEMO], 0),
        (&["why", DEMO, "loads.house.heating"], 0),
        (&["why", DEMO, "no.such"], 2),
        (&["sheet", "catalogue/loon-12.toml"], 0),
        (&["check", "no-such.toml"], 2),
        (&["--version"], 0),
    ];
    for (arguments, want) in codes {
        let (code, out, err) = run(arguments);
        assert_eq!(code, want, "{arguments:?}\n{out}\n{err}");
        assert!(
            !err.contains("defect of the program"),
            "{arguments:?}\n{err}"
        );
    }
}

#[test]
fn colour_is_only_a_second_signal() {
    let plain = run(&["check", DEMO]).1;
    assert!(!plain.contains('\u{1b}'), "a pipe gets no colours");
    let out = northwall(&["check", DEMO])
        .env_remove("NO_COLOR")
        .env("CLICOLOR_FORCE", "1")
        .output();
    let coloured = String::from_utf8(out.expect("runs").stdout).expect("text");
    assert!(
        coloured.contains("\u{1b}[31m■ 1 stop"),
        "stop has its shape and its word in colour"
    );
}

#[test]
fn completions_and_man_page() {
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let (code, out, _) = run(&["completions", shell]);
        assert_eq!(code, 0);
        for word in ["check", "loads", "season", "prove", "catalogue"] {
            assert!(out.contains(word), "{shell} completions know {word}");
        }
    }
    let (code, out, _) = run(&["man"]);
    assert_eq!(code, 0);
    assert!(out.starts_with(".ie") && out.contains(".SH") && out.contains("northwall"));
    assert!(out.contains("Exit codes"));
    let plain = out.replace('\\', "");
    for flag in [
        "--chart",
        "--ideal",
        "--down",
        "--only",
        "--heat-now",
        "--duty",
        "--most-heads",
    ] {
        assert!(plain.contains(flag), "the page knows {flag}");
    }
    assert!(
        !plain.contains("northwall-check(1)"),
        "no page that is not there"
    );
}

#[test]
fn the_same_question_has_the_same_answer() {
    for arguments in [&["check", DEMO, "--json"][..], &["season", DEMO, "--json"]] {
        assert_eq!(run(arguments), run(arguments));
    }
}
