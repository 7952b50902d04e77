//! The same weather in finer steps.

use crate::drive::Drive;

impl Drive {
    /// The same weather in `per_hour` steps an hour: air in straight lines between the readings,
    /// sun, sky and wind as they were for the whole hour.
    #[must_use]
    pub fn finer(&self, per_hour: usize) -> Self {
        let n = per_hour.max(1);
        if n == 1 || self.per_hour != 1 {
            return self.clone();
        }
        let mut fine = self.clone();
        (fine.steps, fine.per_hour) = (self.steps * n, n);
        let each = |v: &[f64], columns: usize| -> Vec<f64> {
            v.chunks(columns.max(1))
                .flat_map(|row| row.repeat(n))
                .collect()
        };
        fine.outdoor_c = (0..fine.steps)
            .map(|s| {
                let (h, k) = (s / n, (s % n + 1) as f64 / n as f64);
                let before = self.outdoor_c[if h == 0 { self.steps - 1 } else { h - 1 }];
                before + k * (self.outdoor_c[h] - before)
            })
            .collect();
        fine.hour_of_day = self.hour_of_day.iter().flat_map(|h| vec![*h; n]).collect();
        fine.month = self.month.iter().flat_map(|m| vec![*m; n]).collect();
        fine.wind_m_per_s = each(&self.wind_m_per_s, 1);
        fine.film_w_per_m2k = each(&self.film_w_per_m2k, self.faces);
        fine.felt_c = each(&self.felt_c, self.faces);
        for (i, felt) in fine.felt_c.iter_mut().enumerate() {
            let s = i / self.faces.max(1);
            *felt += fine.outdoor_c[s] - self.outdoor_c[s / n];
        }
        fine.beam_w_per_m2 = each(&self.beam_w_per_m2, self.apertures);
        fine.diffuse_w_per_m2 = each(&self.diffuse_w_per_m2, self.apertures);
        fine.outer_w_per_m2 = each(&self.outer_w_per_m2, self.apertures);
        fine.inner_w_per_m2 = each(&self.inner_w_per_m2, self.apertures);
        fine
    }
}
