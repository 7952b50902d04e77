//! Job files from before: one of each version of the format, as it was written then. They read for
//! ever, and none is ever changed; a file of a new version is added when there is one.

/// The demo as it was on the first day of version 1.
#[test]
fn version_1() {
    let text = include_str!("older/1.toml");
    let job = jobfile::read(text).unwrap_or_else(|problems| {
        let all: Vec<String> = problems.iter().map(ToString::to_string).collect();
        panic!("{}", all.join("\n"))
    });
    assert_eq!(
        job.name,
        "Lake Street 12, whole house with the boiler left in"
    );
    assert_eq!(job.house.rooms.len(), text.matches("[[room]]").count());
    assert_eq!(job.equipment.heads.len(), text.matches("[[head]]").count());
    assert!(job.house.rooms.len() > 5 && !job.equipment.heads.is_empty());
    let model = house::geometry::model(&job.house).expect("a house");
    assert!(model.zones.len() >= job.house.rooms.len());
}
