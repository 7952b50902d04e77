//! What the bills say: reading them, the line they lie on, the heat loss they imply, and the second
//! winter.
//!
//! Readers take bytes and give [`Bills`]: periods of whole days with energy in J (higher heating
//! value), in order, without overlap. [`fit`] finds the balance points and slopes with a band.
//! What cannot be used is [`Refused`], with the line, what came, what is usable and what would do.

mod band;
mod bills;
pub mod calendar;
mod days;
mod espi;
mod figures;
mod figures_bills;
mod fit;
mod line;
mod loss;
mod of_job;
mod read;
mod reconcile;
mod refused;
mod runs;
mod second_winter;
mod sold;
mod student;
mod usable;

pub use band::{Band, difference, product, quotient, sum};
pub use bills::{Bills, Note, Period};
pub use days::{Days, YearOfDays};
pub use espi::{Demand, EspiMeter, read_espi};
pub use figures::{write_loss, write_review};
pub use figures_bills::{bill_key, write_bills};
pub use fit::{
    Candidate, Fit, Kind, Observation, RATE, TYPICAL_SHARE, candidates, fit, observations,
};
pub use line::{By, Line, fit_of_hours};
pub use loss::{Asked as LossAsked, HeatLoss, Heats, Unknown, heat_loss, season_efficiency};
pub use of_job::installed;
pub use read::{
    Asked, DateOrder, FileKind, Mapping, ReadBills, kind_of, read_deliveries, read_meter,
};
pub use reconcile::{AGREE, Closer, Reconciled, Side, Survey, SurveyPart, off_by, reconcile};
pub use refused::Refused;
pub use second_winter::{Normal, Promise, Review, Said, Untold, Winters, second_winter};
pub use sold::{amount_j, unit_j};
pub use student::{student_quantile, student_share};
pub use usable::{
    Complaint, LEAST_HEATING_BILLS, LEAST_R2, MOST_CV_RMSE, MOST_NMBE, complaints, speaks_of_heat,
};
