//! What the job and the sheets know is not typed again.

use super::Day;
use super::sheet::Text;
use crate::refusal::Refusal;

impl Day {
    /// What the job knows is not typed again: two of one are one too many when they differ.
    pub(super) fn nothing_twice(&self) -> Result<(), Refusal> {
        let Some(job) = &self.job else { return Ok(()) };
        let file = &self.file;
        let charge = file.charge.as_ref();
        let twice = [
            (
                "refrigerant",
                &file.refrigerant,
                job.asked.refrigerant.is_some(),
            ),
            (
                "elevation",
                &file.elevation,
                job.asked.elevation_m.is_some(),
            ),
            ("outdoor", &file.outdoor, true),
        ];
        let weights = charge.map(|c| {
            [
                ("charge.factory", &c.factory, job.asked.factory_kg.is_some()),
                ("charge.trim", &c.trim, job.asked.trim_kg.is_some()),
                ("charge.most", &c.most, job.asked.most_kg.is_some()),
            ]
        });
        let target = file
            .pressure
            .as_ref()
            .map(|p| ("pressure.target", &p.target, job.asked.target_pa.is_some()));
        let asked = job.asked.unit.start_up.vacuum.is_some();
        let vacuum = file.vacuum.as_ref().map(|v| {
            [
                ("vacuum.reach", &v.reach, asked),
                ("vacuum.limit", &v.limit, asked),
                ("vacuum.hold", &v.hold, asked),
                ("vacuum.source", &v.source, asked),
            ]
        });
        let mut all: Vec<(&str, &Text)> = twice
            .into_iter()
            .chain(weights.into_iter().flatten())
            .chain(target)
            .chain(vacuum.into_iter().flatten())
            .filter(|t| t.2)
            .filter_map(|(place, text, _)| Some((place, text.as_ref()?)))
            .collect();
        all.extend(file.heads.iter().map(|t| ("heads", t)));
        all.extend(file.line.iter().map(|l| ("line.tube", &l.tube)));
        match all.first() {
            None => Ok(()),
            Some((place, text)) => Err(self
                .fault(place, text, format!("this stands in {} or a sheet of its units already", job.shown))
                .mend("take the line out here; what was built otherwise goes into the job's [[as_built]]")
                .into()),
        }
    }
}
