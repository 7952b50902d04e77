//! The demo job with its plan, and other houses for the papers.
// A text is put together once.
#![allow(dead_code, clippy::format_push_string)]

pub mod letters;

use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use climate::Weather;
use jobfile::Job;
use papers::{Input, Issue, Language};
use plan::{Catalogue, Plan};
use startup::record::Chain;
use units::System;

pub fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// A job with all that its papers are made from.
pub struct Made {
    pub text: String,
    pub job: Job,
    pub catalogue: Catalogue,
    pub weather: Weather,
    pub plan: Plan,
    pub issue: Issue,
}

impl Made {
    pub fn of(text: String) -> Self {
        let job = jobfile::read(&text).unwrap_or_else(|problems| {
            let all: Vec<String> = problems.iter().map(ToString::to_string).collect();
            panic!("{}", all.join("\n"))
        });
        let sheets = sheets();
        let catalogue = Catalogue::read(sheets.iter().map(|(f, t)| (f.as_str(), t.as_str())));
        let catalogue = catalogue.expect("sheets read");
        let station = plan::shipped::STATIONS
            .iter()
            .find(|s| s.name.starts_with("chicago"))
            .expect("it ships");
        let weather = climate::read_any(station.bytes).expect("weather").value;
        let plan = plan::plan_of_chosen(&job, &catalogue, &weather);
        let beside = papers::beside(&job, &catalogue, &weather, None, &[]);
        let issue = Issue::of(&text, &beside);
        Self {
            text,
            job,
            catalogue,
            weather,
            plan,
            issue,
        }
    }

    /// The demo again, to be changed.
    pub fn of_demo() -> Self {
        Self::of(demo_text())
    }

    pub fn input<'a>(&'a self, records: Option<&'a Chain>) -> Input<'a> {
        Input {
            job: &self.job,
            plan: &self.plan,
            catalogue: &self.catalogue,
            records,
            issue: &self.issue,
            system: System::Us,
            language: Language::English,
        }
    }
}

/// The sheets that ship, each with the path of its file.
pub fn sheets() -> Vec<(String, String)> {
    let mut sheets = Vec::new();
    let folder = std::fs::read_dir(top().join("catalogue")).expect("catalogue");
    for file in folder.flatten() {
        let path = file.path();
        if path.extension().is_some_and(|e| e == "toml") {
            let text = std::fs::read_to_string(&path).expect("sheet");
            sheets.push((path.display().to_string(), text));
        }
    }
    sheets.sort();
    sheets
}

pub fn demo_text() -> String {
    std::fs::read_to_string(top().join("jobs/lake-street/job.toml")).expect("demo")
}

pub fn demo() -> &'static Made {
    static DEMO: OnceLock<Made> = OnceLock::new();
    DEMO.get_or_init(|| Made::of(demo_text()))
}

/// Five by five rooms with names as long as a name may be.
pub fn rooms_25() -> String {
    let mut rooms = String::new();
    for i in 0..25 {
        let (x, y) = (i % 5 * 10, i / 5 * 10);
        let name = format!("the {i:02} room of the great-grandmother with no window at all");
        rooms.push_str(&format!(
            "[[room]]\nname = \"{name}\"\nstorey = \"ground\"\nheated_to = \"70 F\"\noutline = \
             [\"{x} ft, {y} ft\", \"{} ft, {y} ft\", \"{} ft, {} ft\", \"{x} ft, {} ft\"]\n\n",
            x + 10,
            x + 10,
            y + 10,
            y + 10
        ));
    }
    format!(
        "northwall = 1\n[job]\nname = \"{}\"\n[place]\nweather = \"chicago-725300\"\n\n\
         [[storey]]\nname = \"ground\"\nceiling = \"8 ft\"\n\n{rooms}\
         [construction.wall]\nlike = \"2x4 wall with batt\"\n\
         [construction.ceiling]\nlike = \"attic floor R 38\"\n\
         [construction.slab]\nlike = \"slab bare\"\n\
         [leakage]\nblower_door = \"2100 cfm at 50 Pa\"\n",
        "A house of twenty-five rooms, each with a name that hardly fits ".repeat(3)
    )
}
