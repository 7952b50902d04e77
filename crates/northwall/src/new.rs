//! `northwall new`: a first job file, by a few questions or from flags.

use std::io::{BufRead, IsTerminal, Write};
use std::path::{Path, PathBuf};

use jobfile::new::{Answers, Below, Built, first_job};
use jobfile::{Carrier, HeaterKind};
use units::Dim;

use crate::arguments::{New, Usual};
use crate::files;
use crate::refusal::{Fault, Refusal};
use crate::report::Report;

pub fn answer(new: &New, usual: &Usual) -> Result<Report, Refusal> {
    let file = new
        .file
        .clone()
        .unwrap_or_else(|| PathBuf::from("job.toml"));
    // Before any question: nobody likes to answer six and then hear no.
    if file.exists() && !new.force {
        return Err(
            Fault::file(&file.display().to_string(), "the file is there already")
                .mend("name another file, or write over it with --force")
                .into(),
        );
    }
    if usual.svg.is_some() {
        return Err(Fault::flag("--svg", "new has no chart to write")
            .mend("leave --svg out")
            .into());
    }
    let mut answers = from_flags(new, usual)?;
    let mut named = usual.weather.is_some();
    let asked = new.name.is_none() && !usual.json && std::io::stdin().is_terminal();
    if asked {
        ask(&mut answers)?;
        named = true;
    }
    answers.weather = from_the_job(&file, &answers.weather);
    let text = first_job(&answers);
    if let Err(problems) = jobfile::read(&text) {
        let refused: Vec<Fault> = problems
            .into_iter()
            .map(|p| Fault {
                place: p.path,
                says: p.says,
                got: p.got,
                allowed: p.allowed,
                mend: p.mend,
                ..Fault::default()
            })
            .collect();
        return Err(Refusal::from(refused));
    }
    files::write_whole(&file, &text, new.force)?;
    Ok(wrote(&file, &text, &answers.weather, named))
}

/// A weather file as the job names it: by its path from the job's folder.
fn from_the_job(job: &Path, weather: &str) -> String {
    let file = Path::new(weather);
    let folder = match job.parent() {
        Some(p) if !p.as_os_str().is_empty() => p,
        _ => return weather.to_owned(),
    };
    if file.is_absolute() || !file.is_file() {
        return weather.to_owned();
    }
    let (Ok(folder), Ok(file)) = (folder.canonicalize(), file.canonicalize()) else {
        return weather.to_owned();
    };
    let same = folder
        .components()
        .zip(file.components())
        .take_while(|(a, b)| a == b)
        .count();
    if same == 0 {
        return file.display().to_string();
    }
    let up = folder.components().skip(same).map(|_| "..".to_owned());
    let down = file
        .components()
        .skip(same)
        .map(|c| c.as_os_str().to_string_lossy().into_owned());
    up.chain(down).collect::<Vec<_>>().join("/")
}

fn wrote(file: &Path, text: &str, weather: &str, named: bool) -> Report {
    let shown = file.display();
    let lines = text.lines().count();
    Report::new(
        format!(
            "wrote {shown}, {lines} lines; everything nobody looked at is marked assumed\n{}\
             next: northwall check {}\n",
            if named {
                String::new()
            } else {
                format!(
                    "weather: {weather}, as nobody named a station; write the nearest one under \
                     [place]\n"
                )
            },
            crate::say::typed_path(file)
        ),
        &serde_json::json!({ "wrote": file.display().to_string(), "lines": lines }),
    )
}

fn length(flag: &str, text: &str) -> Result<f64, Refusal> {
    quantity(
        flag,
        text,
        Dim::Length,
        2.0,
        60.0,
        "a length from 7 ft to 200 ft, as \"30 ft\"",
    )
}

fn quantity(
    flag: &str,
    text: &str,
    dim: Dim,
    least: f64,
    most: f64,
    allowed: &str,
) -> Result<f64, Refusal> {
    let fault = |says: String| Fault::flag(flag, says).got(text).allowed(allowed);
    match units::parse(text, dim) {
        Ok(v) if (least..=most).contains(&v) => Ok(v),
        Ok(_) => Err(fault("this is out of range".to_owned()).into()),
        Err(why) => Err(fault(why.to_string()).into()),
    }
}

fn word<T: Copy>(
    flag: &str,
    got: &str,
    all: &[T],
    of: fn(T) -> &'static str,
) -> Result<T, Refusal> {
    let found = all.iter().copied().find(|t| of(*t) == got.trim());
    found.ok_or_else(|| {
        let words: Vec<&str> = all.iter().map(|t| of(*t)).collect();
        let fault = Fault::flag(flag, "there is no such word here")
            .got(got)
            .allowed(words.join(", "));
        match plan::near(got, words.iter().copied()) {
            Some(near) => fault.mend(format!("did you mean {near}?")).into(),
            None => fault.into(),
        }
    })
}

const HEATERS: [HeaterKind; 4] = [
    HeaterKind::Boiler,
    HeaterKind::Furnace,
    HeaterKind::Baseboard,
    HeaterKind::Stove,
];

fn heat_now(text: &str) -> Result<(HeaterKind, Carrier), Refusal> {
    let (kind, fuel) = text
        .split_once(':')
        .map_or((text, None), |(k, f)| (k, Some(f)));
    let kind = word("--heat-now", kind, &HEATERS, HeaterKind::word)?;
    let carrier = match (fuel, kind) {
        (Some(fuel), _) => word("--heat-now", fuel, &Carrier::ALL, Carrier::word)?,
        (None, HeaterKind::Baseboard) => Carrier::Electricity,
        (None, HeaterKind::Stove) => Carrier::Wood,
        (None, _) => {
            return Err(Fault::flag("--heat-now", "what does it burn?")
                .got(text)
                .mend("write the fuel after a colon, as boiler:oil")
                .into());
        }
    };
    Ok((kind, carrier))
}

fn from_flags(new: &New, usual: &Usual) -> Result<Answers, Refusal> {
    let mut a = Answers {
        weather: "chicago-725300".to_owned(),
        ..Answers::default()
    };
    if let Some(name) = &new.name {
        if name.trim().is_empty() {
            return Err(Fault::flag("--name", "nothing is written here")
                .got(name)
                .mend("write what the job is called, or leave --name out")
                .into());
        }
        a.name.clone_from(name);
    }
    if let Some(weather) = &usual.weather {
        a.weather = weather.display().to_string();
    }
    station(&mut a)?;
    if let Some(n) = new.storeys {
        if !(1..=3).contains(&n) {
            return Err(
                Fault::flag("--storeys", "a house has one to three heated storeys here")
                    .got(n.to_string())
                    .allowed("1, 2 or 3")
                    .into(),
            );
        }
        a.storeys = n;
    }
    if let Some(text) = &new.width {
        a.width_m = length("--width", text)?;
    }
    if let Some(text) = &new.depth {
        a.depth_m = length("--depth", text)?;
    }
    if let Some(text) = &new.area {
        let allowed = "an area from 100 to 20,000 ft2, as \"1400 ft2\"";
        a = a.with_floor_area(quantity("--area", text, Dim::Area, 9.0, 1900.0, allowed)?);
    }
    if let Some(text) = &new.built {
        a.built = word("--built", text, &Built::ALL, Built::word)?;
    }
    if let Some(text) = &new.under {
        a.under = word("--under", text, &Below::ALL, Below::word)?;
    }
    if let Some(text) = &new.windows {
        let names = house::library::glazing_names();
        if !names.contains(&text.as_str()) {
            let mend = match plan::near(text, names.iter().copied()) {
                Some(near) => format!("did you mean \"{near}\"?"),
                None => "take one of these, and describe the real one in the file".to_owned(),
            };
            return Err(Fault::flag("--windows", "the library has no such glazing")
                .got(text)
                .allowed(names.join(", "))
                .mend(mend)
                .into());
        }
        a.windows.clone_from(text);
    }
    a.blower_door.clone_from(&new.blower_door);
    a.rooms = rooms(&new.rooms)?;
    if let Some(text) = &new.heat_now {
        a.heat_now = Some(heat_now(text)?);
    }
    Ok(a)
}

/// Rooms as asked for: each has a name, and no two the same.
fn rooms(asked: &[String]) -> Result<Vec<String>, Refusal> {
    let names: Vec<String> = asked.iter().map(|r| r.trim().to_owned()).collect();
    let twice = |(i, name): (usize, &String)| names[..i].contains(name);
    let says = if names.iter().any(String::is_empty) {
        "a name is missing between the commas"
    } else if names.iter().enumerate().any(twice) {
        "two rooms have one name"
    } else {
        return Ok(names);
    };
    Err(Fault::flag("--rooms", says)
        .got(asked.join(","))
        .allowed("names, each once, as \"living,kitchen,bed 1,bed 2,bath\"")
        .mend("name each room once")
        .into())
}

/// The whole name of a station that ships; another weather must be a file.
fn station(a: &mut Answers) -> Result<(), Refusal> {
    if let Some(shipped) = plan::shipped::named(&a.weather) {
        shipped.name.clone_into(&mut a.weather);
    } else if !std::path::Path::new(&a.weather).is_file() {
        let ships: Vec<&str> = plan::shipped::STATIONS.iter().map(|s| s.name).collect();
        return Err(Fault::flag("--weather", "there is no such weather file")
            .got(a.weather.clone())
            .allowed(format!(
                "an EPW or TMY3 csv file, or one that ships: {}",
                ships.join(", ")
            ))
            .mend("name a file that is there, or a station that ships")
            .into());
    }
    Ok(())
}

/// Asks the few questions that a first job needs; an empty answer takes what stands in brackets.
fn ask(a: &mut Answers) -> Result<(), Refusal> {
    let say = |m: f64| units::show(m, Dim::Length, units::System::Us);
    a.name = one("Name of the job", &a.name)?;
    let stations: Vec<&str> = plan::shipped::STATIONS.iter().map(|s| s.name).collect();
    a.weather = one(
        &format!("Weather: a file, or one of {}", stations.join(", ")),
        &a.weather,
    )?;
    station(a)?;
    a.width_m = length("width", &one("House, east to west", &say(a.width_m))?)?;
    a.depth_m = length("depth", &one("House, north to south", &say(a.depth_m))?)?;
    let words: Vec<String> = Built::ALL
        .iter()
        .map(|b| format!("{} ({})", b.word(), b.words()))
        .collect();
    let built = one(&format!("Built: {}", words.join("; ")), a.built.word())?;
    a.built = word("built", &built, &Built::ALL, Built::word)?;
    let under = one("Under it: basement, crawl, slab", a.under.word())?;
    a.under = word("under", &under, &Below::ALL, Below::word)?;
    let door = one(
        "Blower-door test, as 2100 cfm at 50 Pa; nothing if there is none",
        a.blower_door.as_deref().unwrap_or(""),
    )?;
    a.blower_door = Some(door).filter(|d| !d.is_empty());
    let now = one("What heats now, as boiler:oil; nothing to leave it out", "")?;
    a.heat_now = if now.is_empty() {
        a.heat_now
    } else {
        Some(heat_now(&now)?)
    };
    Ok(())
}

fn one(question: &str, usual: &str) -> Result<String, Refusal> {
    let shown = if usual.is_empty() {
        String::new()
    } else {
        format!(" [{usual}]")
    };
    let mut out = std::io::stderr();
    let _ = write!(
        out,
        "{}{shown}: ",
        crate::say::wrapped("", question).trim_end()
    );
    let _ = out.flush();
    let mut line = String::new();
    match std::io::stdin().lock().read_line(&mut line) {
        Ok(0) | Err(_) => {
            Err(Fault::flag("new", "the answers ended before the questions did").into())
        }
        Ok(_) if line.trim().is_empty() => Ok(usual.to_owned()),
        Ok(_) => Ok(line.trim().to_owned()),
    }
}
