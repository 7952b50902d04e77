//! The year's weather as the faces of one house feel it, worked out before the hourly loop.

use climate::shade::{sky_shares, sun_side, sunlit_share};
use climate::sun::{Facet, FacetSun, SunYear, on_facets_with};
use climate::{Weather, WeatherError};
use physics::film::{Roughness, STEFAN_BOLTZMANN, WindSide};

use crate::describe::Shade;
pub use crate::exposure::wind_at_leaks_factor;
use crate::exposure::{shaded_window, sky_view, wind_factor};
use crate::film::{OuterShape, OutsideFilm};
use crate::glazing::Glass;
use crate::model::{Behind, Model};

/// Longwave emittance of glass outside.
const GLASS_EMITTANCE: f64 = 0.84;

/// An outside face as weather sees it. Faces alike in all of this share one column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    /// Direction, degrees from north.
    pub azimuth_deg: f64,
    /// Tilt, degrees (0 up).
    pub tilt_deg: f64,
    /// Share of sun absorbed; 0 for glass.
    pub absorptance: f64,
    /// Longwave emittance.
    pub emittance: f64,
    /// Wind reaches it.
    pub wind: bool,
    /// Roughness for wind.
    pub roughness: Roughness,
    /// It is a window.
    pub glass: bool,
}

/// A window as sun sees it. Panes alike in all of this share one column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Aperture {
    pub(crate) azimuth_deg: f64,
    pub(crate) tilt_deg: f64,
    pub(crate) glazing: usize,
    pub(crate) width_m: f64,
    pub(crate) height_m: f64,
    pub(crate) shade: Shade,
}

/// Weather on one house: hour by hour, all columns of an hour beside each other.
#[derive(Debug, Clone)]
pub struct Drive {
    /// Steps: one an hour, or more after [`Drive::finer`].
    pub steps: usize,
    /// Steps in an hour.
    pub per_hour: usize,
    /// Outdoor air at the end of each step, C.
    pub outdoor_c: Vec<f64>,
    /// Hour of the day of each step.
    pub hour_of_day: Vec<u8>,
    /// Number of face columns.
    pub faces: usize,
    /// Outside film (convection and longwave), W/(m2 K); `[step * faces + face]`.
    pub film_w_per_m2k: Vec<f64>,
    /// Temperature that, with the film, gives sun, sky and air together, C.
    pub felt_c: Vec<f64>,
    /// Number of window columns.
    pub apertures: usize,
    /// Beam let through per window area, W/m2; `[step * apertures + aperture]`.
    pub beam_w_per_m2: Vec<f64>,
    /// Diffuse let through per window area, W/m2.
    pub diffuse_w_per_m2: Vec<f64>,
    /// Soaked up at the outer face, W/m2.
    pub outer_w_per_m2: Vec<f64>,
    /// Soaked up at the inner face, W/m2.
    pub inner_w_per_m2: Vec<f64>,
    /// Wind at the height of the leaks after shelter, m/s.
    pub wind_m_per_s: Vec<f64>,
    /// Heat capacity of a cubic metre of indoor air at this station's pressure, J/(m3 K).
    pub air_j_per_m3k: f64,
    /// Face column of each surface; `None` for inside, ground and adiabatic surfaces.
    pub of_surface: Vec<Option<usize>>,
    /// Face column of each pane.
    pub of_pane: Vec<usize>,
    /// Window column of each pane.
    pub aperture_of_pane: Vec<usize>,
    /// Mean outdoor temperature of each month, C.
    pub monthly_outdoor_c: [f64; 12],
    /// Month of each step, 1 to 12.
    pub month: Vec<u8>,
}

impl Drive {
    /// Works out the year for a house.
    ///
    /// # Errors
    /// What [`on_facets_with`] refuses.
    pub fn new(model: &Model, glasses: &[Glass], weather: &Weather) -> Result<Self, WeatherError> {
        Self::with_sun(model, glasses, weather, &SunYear::of(weather))
    }

    /// As [`Drive::new`], with the sun's year worked out before.
    ///
    /// # Errors
    /// What [`on_facets_with`] refuses.
    pub fn with_sun(
        model: &Model,
        glasses: &[Glass],
        weather: &Weather,
        sun: &SunYear,
    ) -> Result<Self, WeatherError> {
        let mut faces: Vec<Face> = Vec::new();
        let mut apertures: Vec<Aperture> = Vec::new();
        let of_surface = model
            .surfaces
            .iter()
            .map(|s| match &s.behind {
                Behind::Outdoor {
                    azimuth_deg,
                    sun,
                    wind,
                } => {
                    let c = model.constructions.get(s.construction);
                    let absorbs = c.map_or(0.6, |c| c.sun_absorptance_out);
                    Some(index_of(
                        &mut faces,
                        Face {
                            azimuth_deg: *azimuth_deg,
                            tilt_deg: s.tilt_deg,
                            absorptance: if *sun { absorbs } else { 0.0 },
                            emittance: c.map_or(0.9, |c| c.emittance_out),
                            wind: *wind,
                            roughness: Roughness::Rough,
                            glass: false,
                        },
                    ))
                }
                _ => None,
            })
            .collect();
        let mut of_pane = Vec::new();
        let mut aperture_of_pane = Vec::new();
        for p in &model.panes {
            of_pane.push(index_of(
                &mut faces,
                Face {
                    azimuth_deg: p.azimuth_deg,
                    tilt_deg: p.tilt_deg,
                    absorptance: 0.0,
                    emittance: GLASS_EMITTANCE,
                    wind: true,
                    roughness: Roughness::VerySmooth,
                    glass: true,
                },
            ));
            aperture_of_pane.push(index_of(
                &mut apertures,
                Aperture {
                    azimuth_deg: p.azimuth_deg,
                    tilt_deg: p.tilt_deg,
                    glazing: p.glazing,
                    width_m: if p.shade == Shade::default() {
                        1.0
                    } else {
                        p.width_m
                    },
                    height_m: if p.shade == Shade::default() {
                        1.0
                    } else {
                        p.height_m
                    },
                    shade: p.shade,
                },
            ));
        }
        let mut drive = Self::of_air(model, weather);
        drive.faces = faces.len();
        drive.apertures = apertures.len();
        drive.of_surface = of_surface;
        drive.of_pane = of_pane;
        drive.aperture_of_pane = aperture_of_pane;
        // Walls and windows of one side share its sun; what soaks up none needs none.
        let mut facets: Vec<Facet> = Vec::new();
        let mut side = |azimuth_deg, tilt_deg| {
            let facet = Facet {
                azimuth_deg,
                tilt_deg,
            };
            index_of(&mut facets, facet)
        };
        let of_face: Vec<Option<usize>> = faces
            .iter()
            .map(|f| (f.absorptance > 0.0).then(|| side(f.azimuth_deg, f.tilt_deg)))
            .collect();
        let of_aperture: Vec<usize> = apertures
            .iter()
            .map(|a| side(a.azimuth_deg, a.tilt_deg))
            .collect();
        let on = on_facets_with(sun, weather, &facets, model.ground_albedo)?;
        let on_faces: Vec<Option<&FacetSun>> = of_face.iter().map(|f| f.map(|f| &on[f])).collect();
        let on_apertures: Vec<&FacetSun> = of_aperture.iter().map(|f| &on[*f]).collect();
        drive.fill_faces(&faces, &on_faces, model, weather);
        drive.fill_apertures(&apertures, &on_apertures, glasses, sun);
        Ok(drive)
    }

    /// Length of a step, s.
    pub fn step_s(&self) -> f64 {
        3600.0 / self.per_hour as f64
    }

    /// The air outside and nothing on the faces: enough for whoever reads hours, wind and months,
    /// and not for a balance.
    pub fn of_air(model: &Model, weather: &Weather) -> Self {
        let hours = weather.len();
        let mean_pa = weather.pressure_pa.iter().sum::<f64>() / hours.max(1) as f64;
        let mut monthly = [0.0; 12];
        let mut count = [0.0_f64; 12];
        for (m, t) in weather.month.iter().zip(&weather.dry_bulb_c) {
            let m = usize::from(m.saturating_sub(1)).min(11);
            monthly[m] += t;
            count[m] += 1.0;
        }
        for (m, n) in monthly.iter_mut().zip(count) {
            *m /= n.max(1.0);
        }
        let local = wind_at_leaks_factor(model);
        Self {
            steps: hours,
            per_hour: 1,
            outdoor_c: weather.dry_bulb_c.clone(),
            hour_of_day: weather.hour.clone(),
            faces: 0,
            film_w_per_m2k: Vec::new(),
            felt_c: Vec::new(),
            apertures: 0,
            beam_w_per_m2: Vec::new(),
            diffuse_w_per_m2: Vec::new(),
            outer_w_per_m2: Vec::new(),
            inner_w_per_m2: Vec::new(),
            wind_m_per_s: weather
                .wind_speed_m_per_s
                .iter()
                .map(|w| w * local)
                .collect(),
            air_j_per_m3k: mean_pa / (287.05 * 293.15) * crate::loads::AIR_CP_J_PER_KGK,
            of_surface: Vec::new(),
            of_pane: Vec::new(),
            aperture_of_pane: Vec::new(),
            monthly_outdoor_c: monthly,
            month: weather.month.clone(),
        }
    }

    fn fill_faces(
        &mut self,
        faces: &[Face],
        on: &[Option<&FacetSun>],
        model: &Model,
        weather: &Weather,
    ) {
        let shapes: Vec<OuterShape> = faces
            .iter()
            .map(|f| OuterShape::new(f.tilt_deg, f.roughness))
            .collect();
        let table = OutsideFilm::new();
        let share = wind_factor(model.shelter, 0.5 * model.top_m);
        let sees_sky: Vec<f64> = faces
            .iter()
            .map(|f| sky_view(f.tilt_deg) * f.emittance)
            .collect();
        let (hours, n) = (self.steps, faces.len());
        self.film_w_per_m2k = vec![0.0; hours * n];
        self.felt_c = vec![0.0; hours * n];
        // How much each face soaks up, side by side; glass soaks up none.
        let mut sun = vec![0.0; hours * n];
        for (g, (face, on)) in faces.iter().zip(on).enumerate() {
            let Some(on) = on else { continue };
            let lists = on
                .beam_w_per_m2
                .iter()
                .zip(&on.sky_diffuse_w_per_m2)
                .zip(&on.ground_w_per_m2);
            for (sun, ((beam, sky), ground)) in sun.iter_mut().skip(g).step_by(n).zip(lists) {
                *sun = face.absorptance * (beam + sky + ground);
            }
        }
        for h in 0..hours {
            let air_k = weather.dry_bulb_c[h] + 273.15;
            let air3 = STEFAN_BOLTZMANN * air_k * air_k * air_k;
            let sky_less_air = weather.infrared_w_per_m2[h] - air3 * air_k;
            let wind = weather.wind_speed_m_per_s[h] * share;
            let from = weather.wind_dir_deg[h];
            let parts = [WindSide::Windward, WindSide::Leeward]
                .map(|side| table.wind_w_per_m2k(wind, side));
            let row = h * n..(h + 1) * n;
            let lists = self.film_w_per_m2k[row.clone()]
                .iter_mut()
                .zip(&mut self.felt_c[row.clone()])
                .zip(&sun[row]);
            for ((face, (shape, sees_sky)), ((to_film, felt), sun)) in
                faces.iter().zip(shapes.iter().zip(&sees_sky)).zip(lists)
            {
                let leeward = face.tilt_deg >= 60.0 && off(face.azimuth_deg, from) >= 90.0;
                let part = if face.wind {
                    parts[usize::from(leeward)]
                } else {
                    0.0
                };
                let gain = sun + sees_sky * sky_less_air;
                // An insulated face stands near the temperature it feels, so that gives the
                // difference that drives its own buoyant air. Glass stands a fifth of the way in.
                let radiant = 4.0 * air3 * face.emittance;
                let guess = gain / (radiant + part.max(3.0));
                let warmer = if face.glass {
                    guess + 0.2 * (293.15 - air_k)
                } else {
                    guess
                };
                let film = radiant + table.both_w_per_m2k(part, warmer, shape);
                *to_film = film;
                *felt = weather.dry_bulb_c[h] + gain / film;
            }
        }
    }

    fn fill_apertures(
        &mut self,
        apertures: &[Aperture],
        on: &[&FacetSun],
        glasses: &[Glass],
        sun: &SunYear,
    ) {
        let (hours, n) = (self.steps, apertures.len());
        for column in [
            &mut self.beam_w_per_m2,
            &mut self.diffuse_w_per_m2,
            &mut self.outer_w_per_m2,
            &mut self.inner_w_per_m2,
        ] {
            *column = vec![0.0; hours * n];
        }
        for (a, aperture) in apertures.iter().enumerate() {
            let Some(glass) = glasses.get(aperture.glazing) else {
                continue;
            };
            let plates = shaded_window(aperture).map(|w| (w, sky_shares(&w)));
            let of = on[a];
            for h in 0..hours {
                let around = of.around_sun_w_per_m2[h];
                let mut beam = of.beam_w_per_m2[h] + around;
                let mut even = of.sky_diffuse_w_per_m2[h] - around;
                let mut ground = of.ground_w_per_m2[h];
                if beam + even + ground <= 0.0 {
                    continue;
                }
                if let Some((window, shares)) = &plates {
                    let at = sun_side(sun.east[h], sun.north[h], sun.up[h], aperture.azimuth_deg);
                    beam *= sunlit_share(window, at);
                    even *= shares.sky;
                    ground *= shares.ground;
                }
                let b = glass.beam(of.cos_incidence[h]);
                let d = glass.diffuse;
                let scattered = even + ground;
                let i = h * n + a;
                self.beam_w_per_m2[i] = beam * b.through;
                self.diffuse_w_per_m2[i] = scattered * d.through;
                self.outer_w_per_m2[i] = beam * b.outer + scattered * d.outer;
                self.inner_w_per_m2[i] = beam * b.inner + scattered * d.inner;
            }
        }
    }
}

fn index_of<T: PartialEq>(list: &mut Vec<T>, item: T) -> usize {
    list.iter().position(|x| *x == item).unwrap_or_else(|| {
        list.push(item);
        list.len() - 1
    })
}

pub(crate) fn cos_deg(deg: f64) -> f64 {
    libm::cos(deg.to_radians())
}

/// Angle between two directions, 0 to 180 degrees.
fn off(a_deg: f64, b_deg: f64) -> f64 {
    let mut d = (a_deg - b_deg).abs();
    // A remainder takes longer than all else here, and is seldom needed.
    if d >= 360.0 {
        d %= 360.0;
    }
    d.min(360.0 - d)
}
