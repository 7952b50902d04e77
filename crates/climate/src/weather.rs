//! A year of hours as plain columns.

use crate::{HeaderDesign, Station, WeatherError, Weekday};

/// A year of weather, one value an hour; see the crate's page for what index `h` means.
#[derive(Debug, Clone, PartialEq)]
pub struct Weather {
    /// Where.
    pub station: Station,
    /// Design values of the file's header, if it has any.
    pub header_design: Option<HeaderDesign>,
    /// Weekday of the first of January.
    pub start_weekday: Weekday,
    /// Year each hour was recorded in (typical years mix them). The sun is computed for it.
    pub year: Vec<i16>,
    /// Month, 1 to 12.
    pub month: Vec<u8>,
    /// Day of the month, 1 to 31.
    pub day: Vec<u8>,
    /// Hour that begins, 0 to 23.
    pub hour: Vec<u8>,
    /// Air temperature, C.
    pub dry_bulb_c: Vec<f64>,
    /// Dew point (over water above 0 C; as in the file below), C.
    pub dew_point_c: Vec<f64>,
    /// Relative humidity, 0 to 1 (files sometimes exceed 1 a little).
    pub rel_humidity: Vec<f64>,
    /// Station pressure, Pa.
    pub pressure_pa: Vec<f64>,
    /// Sun and sky on the horizontal, mean over the hour, W/m2.
    pub ghi_w_per_m2: Vec<f64>,
    /// Beam on a surface facing the sun, mean over the hour, W/m2.
    pub dni_w_per_m2: Vec<f64>,
    /// Sky without the sun's disc on the horizontal, mean over the hour, W/m2.
    pub dhi_w_per_m2: Vec<f64>,
    /// Longwave from the sky on the horizontal, W/m2.
    pub infrared_w_per_m2: Vec<f64>,
    /// Wind at the mast (10 m unless the site says otherwise), m/s.
    pub wind_speed_m_per_s: Vec<f64>,
    /// Direction the wind comes from, degrees from north clockwise.
    pub wind_dir_deg: Vec<f64>,
    /// Share of the sky covered, 0 to 1.
    pub sky_cover: Vec<f64>,
    /// Share of the sky covered by clouds one cannot see through, 0 to 1.
    pub opaque_sky_cover: Vec<f64>,
    /// Snow on the ground, m, where the file has it.
    pub snow_depth_m: Option<Vec<f64>>,
    /// Reflectance of the ground, 0 to 1, where the file has it.
    pub albedo: Option<Vec<f64>>,
}

/// The months, short.
pub const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];

/// The columns a caller must have to build a [`Weather`] by hand; lengths 8760 or 8784.
#[derive(Debug, Clone, PartialEq, Default)]
#[allow(missing_docs)]
pub struct Columns {
    pub dry_bulb_c: Vec<f64>,
    pub dew_point_c: Vec<f64>,
    pub pressure_pa: Vec<f64>,
    pub ghi_w_per_m2: Vec<f64>,
    pub dni_w_per_m2: Vec<f64>,
    pub dhi_w_per_m2: Vec<f64>,
    pub infrared_w_per_m2: Vec<f64>,
    pub wind_speed_m_per_s: Vec<f64>,
    pub wind_dir_deg: Vec<f64>,
    pub sky_cover: Vec<f64>,
}

/// Hours of a common year.
pub(crate) const COMMON: usize = 8760;
/// Hours of a leap year.
pub(crate) const LEAP: usize = 8784;

/// Days of each month.
pub(crate) fn month_lengths(leap: bool) -> [u8; 12] {
    [
        31,
        if leap { 29 } else { 28 },
        31,
        30,
        31,
        30,
        31,
        31,
        30,
        31,
        30,
        31,
    ]
}

impl Weather {
    /// Hours of the year: 8760 or 8784.
    pub fn len(&self) -> usize {
        self.dry_bulb_c.len()
    }

    /// Always false for a weather made by this crate.
    pub fn is_empty(&self) -> bool {
        self.dry_bulb_c.is_empty()
    }

    /// Weekday of hour `h`.
    pub fn weekday(&self, h: usize) -> Weekday {
        self.start_weekday.after(h / 24)
    }

    /// When hour `h` begins: `Jul 18, 15:00`.
    pub fn stamp(&self, h: usize) -> String {
        let month = usize::from(self.month.get(h).copied().unwrap_or(0));
        let month = MONTHS.get(month.wrapping_sub(1)).copied().unwrap_or("?");
        let day = self.day.get(h).copied().unwrap_or(0);
        let of_day = self.hour.get(h).copied().unwrap_or(0);
        format!("{month} {day}, {of_day:02}:00")
    }

    /// An hour as a source names it: `hour 4767 (Jul 18, 15:00)`, counted from 0.
    pub fn hour_in_words(&self, h: usize) -> String {
        format!("hour {h} ({})", self.stamp(h))
    }

    /// A year in which nothing changes: no sun, a clear or covered sky as `infrared_w_per_m2`
    /// says. For tests and for steady design days.
    ///
    /// # Errors
    /// Values outside the ranges of [`Weather::from_columns`].
    pub fn constant(
        station: Station,
        dry_bulb_c: f64,
        dew_point_c: f64,
        wind_speed_m_per_s: f64,
        infrared_w_per_m2: f64,
    ) -> Result<Self, WeatherError> {
        let pressure_pa = crate::altitude::pressure_pa(station.elevation_m);
        Self::from_columns(
            station,
            Columns {
                dry_bulb_c: vec![dry_bulb_c; COMMON],
                dew_point_c: vec![dew_point_c; COMMON],
                pressure_pa: vec![pressure_pa; COMMON],
                ghi_w_per_m2: vec![0.0; COMMON],
                dni_w_per_m2: vec![0.0; COMMON],
                dhi_w_per_m2: vec![0.0; COMMON],
                infrared_w_per_m2: vec![infrared_w_per_m2; COMMON],
                wind_speed_m_per_s: vec![wind_speed_m_per_s; COMMON],
                wind_dir_deg: vec![0.0; COMMON],
                sky_cover: vec![0.0; COMMON],
            },
        )
    }

    /// A year from columns; relative humidity is computed from dew point and dry bulb, the
    /// calendar is that of 2023 (or 2024 for 8784 hours).
    ///
    /// # Errors
    /// Columns of unlike or wrong length, values that are not numbers or out of range.
    pub fn from_columns(station: Station, columns: Columns) -> Result<Self, WeatherError> {
        let n = columns.dry_bulb_c.len();
        if n != COMMON && n != LEAP {
            return Err(WeatherError::RowCount { got: n });
        }
        let checks: [(&'static str, &[f64], f64, f64, &'static str); 10] = [
            ("dry bulb", &columns.dry_bulb_c, -90.0, 70.0, "-90 to 70 C"),
            (
                "dew point",
                &columns.dew_point_c,
                -90.0,
                70.0,
                "-90 to 70 C",
            ),
            (
                "pressure",
                &columns.pressure_pa,
                31_000.0,
                120_000.0,
                "31000 to 120000 Pa",
            ),
            (
                "global horizontal",
                &columns.ghi_w_per_m2,
                0.0,
                2000.0,
                "0 to 2000 W/m2",
            ),
            (
                "direct normal",
                &columns.dni_w_per_m2,
                0.0,
                1500.0,
                "0 to 1500 W/m2",
            ),
            (
                "diffuse horizontal",
                &columns.dhi_w_per_m2,
                0.0,
                1500.0,
                "0 to 1500 W/m2",
            ),
            (
                "sky infrared",
                &columns.infrared_w_per_m2,
                0.0,
                800.0,
                "0 to 800 W/m2",
            ),
            (
                "wind speed",
                &columns.wind_speed_m_per_s,
                0.0,
                60.0,
                "0 to 60 m/s",
            ),
            (
                "wind direction",
                &columns.wind_dir_deg,
                0.0,
                360.0,
                "0 to 360 degrees",
            ),
            ("sky cover", &columns.sky_cover, 0.0, 1.0, "0 to 1"),
        ];
        for (column, values, low, high, usable) in checks {
            if values.len() != n {
                return Err(WeatherError::ColumnLength {
                    column,
                    got: values.len(),
                    want: n,
                });
            }
            if let Some(hour) = values.iter().position(|v| !(low..=high).contains(v)) {
                return Err(WeatherError::Value {
                    column,
                    hour,
                    got: values[hour],
                    usable,
                });
            }
        }
        let leap = n == LEAP;
        let (mut month, mut day, mut hour) = (
            Vec::with_capacity(n),
            Vec::with_capacity(n),
            Vec::with_capacity(n),
        );
        for (m, length) in (1u8..).zip(month_lengths(leap)) {
            for d in 1..=length {
                for h in 0..24 {
                    month.push(m);
                    day.push(d);
                    hour.push(h);
                }
            }
        }
        let rel_humidity = columns
            .dry_bulb_c
            .iter()
            .zip(&columns.dew_point_c)
            .map(|(&t, &d)| crate::humidity::relative(t, d))
            .collect();
        Ok(Self {
            station,
            header_design: None,
            start_weekday: if leap {
                Weekday::Monday
            } else {
                Weekday::Sunday
            },
            year: vec![if leap { 2024 } else { 2023 }; n],
            month,
            day,
            hour,
            rel_humidity,
            opaque_sky_cover: columns.sky_cover.clone(),
            dry_bulb_c: columns.dry_bulb_c,
            dew_point_c: columns.dew_point_c,
            pressure_pa: columns.pressure_pa,
            ghi_w_per_m2: columns.ghi_w_per_m2,
            dni_w_per_m2: columns.dni_w_per_m2,
            dhi_w_per_m2: columns.dhi_w_per_m2,
            infrared_w_per_m2: columns.infrared_w_per_m2,
            wind_speed_m_per_s: columns.wind_speed_m_per_s,
            wind_dir_deg: columns.wind_dir_deg,
            sky_cover: columns.sky_cover,
            snow_depth_m: None,
            albedo: None,
        })
    }
}
