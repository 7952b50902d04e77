//! A clock and a keyboard handed in as data.

use super::*;

const DAY: &str = "northwall_startup = 1\nwho = \"A. Fitter\"\noffset = \"-05:00\"\n";

/// A line, and how far the wall and the running clock have gone since the line before, s.
type Typed = (&'static str, f64, f64);

fn took(lines: &[Typed]) -> (String, Vec<Placed>) {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("day.toml");
    std::fs::write(&file, DAY).expect("written");
    let day = Day::alone(&file).expect("reads");
    let record = folder.path().join("record.jsonl");
    let start = day.now().expect("now");
    let mut book = Book::open(&record, start, "A. Fitter").expect("opens");
    let guide = Guide {
        what: "vacuum",
        example: "480 micron",
        opening: String::new(),
        steps: ["Pull", "Hold"]
            .map(|says| Held {
                says: says.into(),
                hold_s: 300.0,
            })
            .into(),
        least_pa: None,
        wanted_s: Some(900.0),
    };
    let mut at = 0;
    let clocks = std::cell::RefCell::new((1.7956e9, 0.0));
    let mut next = || {
        let Some((line, wall, running)) = lines.get(at) else {
            return Next::Ended;
        };
        at += 1;
        let mut c = clocks.borrow_mut();
        c.0 += wall;
        c.1 += running;
        if line.is_empty() {
            Next::Waited
        } else {
            Next::Line((*line).to_owned())
        }
    };
    let mut tick = || {
        let c = clocks.borrow();
        Ok(Tick {
            wall_s: c.0,
            running_s: c.1,
            session: 1.0,
        })
    };
    let mut out = Vec::new();
    let mut desk = Desk {
        tick: &mut tick,
        next: &mut next,
        out: &mut out,
        watched: true,
    };
    guide
        .take(&day, "1", &mut book, &mut desk, &|k| {
            Judged::says(format!("{} so far", k.len()))
        })
        .expect("takes");
    let kept = placed(&of(&book, "vacuum-reading", "1"));
    (String::from_utf8(out).expect("text"), kept)
}

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_closed_lid_and_a_clock_set_back() {
    let (out, kept) = took(&[
        ("480 micron", 0.0, 0.0),
        ("482 micron", 60.0, 60.0),
        // the lid was closed for an hour
        ("490 micron", 3660.0, 60.0),
        // and the clock set back an hour
        ("491 micron", -3540.0, 60.0),
        ("fix 2: 481 micron: misread", 60.0, 60.0),
    ]);
    let times: Vec<f64> = kept
        .iter()
        .map(|k| (k.at_s - kept[0].at_s).round())
        .collect();
    assert_eq!(times, [0.0, 60.0, 3720.0, 3780.0]);
    let out = flat(&out);
    assert!(
        out.contains("gained 60 min: an hour, as when summer time begins or ends: a closed lid"),
        "{out}"
    );
    assert!(out.contains("was set back 60 min"), "{out}");
    assert!(out.contains("kept 5: 481 micron"), "{out}");
    // a correction leaves the clocks as they were
    assert!(timeline(&kept, &|_| String::new()).notes.len() == 2);
}

#[test]
fn the_running_clock_is_shown_and_the_same_moment_refused() {
    let (out, kept) = took(&[
        ("next", 120.0, 120.0),
        ("", 30.0, 30.0),
        ("next", 170.0, 170.0),
        ("480 micron", 5.0, 5.0),
        ("", 60.0, 60.0),
        ("481 micron", 0.0, 0.0),
        ("482 micron", 0.0, 0.0),
        ("where", 10.0, 10.0),
    ]);
    let out = flat(&out);
    assert_eq!(kept.len(), 2);
    assert!(
        out.contains("Step 2 of 2: Hold. Then the readings."),
        "{out}"
    );
    assert!(out.contains("3 min are left of this hold"), "{out}");
    assert!(out.contains("[step 1: 3 min, 3 min to go]"), "{out}");
    // the clock goes into the line above, so that what is half typed stays
    assert!(
        out.contains("\u{1b}7\u{1b}[1A \u{1b}[K[60 s, 14 min to go; last reading 60 s ago]\u{1b}8"),
        "{out}"
    );
    assert!(
        out.contains("not kept: there is a reading of this very moment"),
        "{out}"
    );
    assert!(out.contains("2 readings. 2 so far"), "{out}");
}
