//! What `--json` gives. SI, units in the names, keys stable; `schema/` has the schemas.

mod backup;
mod bands;
mod bills;
mod check;
mod choose;
mod installation;
mod loads;
mod many;
mod papers;
mod prove;
mod season;
mod sheet;
mod why;

pub use backup::{
    BackupView, CarriedView, CaseView, InColdView, NeededView, SettingView, SwitchView, TariffView,
};
pub use bands::{AgreedView, BandsView, ChoiceBandsView, MattersView, RangeView, UncertainView};
pub use bills::{
    BillView, BillsView, CannotView, CarrierView, CloserView, LineView, LossView, NormalView,
    ReviewView, ShortView, SurveyView, UnknownView, UntoldView,
};
pub use check::{CheckBillsView, CheckView, FindingView, WaitView};
pub use choose::{
    AgainstView, ChooseView, DifferenceView, HeadOfView, MeasureView, SurvivorView, SystemOfView,
};
pub use installation::{InstallationView, JudgedView, ListView, SuggestView, SuggestedView};
pub use loads::{DesignView, FloatView, GlassView, LoadsView, PartView, RoomLoadView};
#[cfg(feature = "many")]
pub use many::ColumnView;
pub use many::ManyView;
#[cfg(feature = "papers")]
pub use papers::{GapView, MarkView, PaperView, SinceView};
pub use papers::{PapersView, VerifiedView};
pub use prove::ProofView;
pub use season::{
    BoughtView, ChoiceView, CrossingView, HeaterView, NeedView, RegimeView, RoomView, SeasonView,
    UnitView, YearView,
};
pub use sheet::{CurveView, RatingView, SheetView};
pub use why::{ListedView, WhyAnswer, WhyView};

/// Version of the program, printed with every answer.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

/// Schemas of all answers, by the name of their file in `schema/`.
pub fn schemas() -> Vec<(&'static str, schemars::Schema)> {
    let mut all = vec![
        ("bills.output.json", schemars::schema_for!(BillsView)),
        ("backup.output.json", schemars::schema_for!(BackupView)),
        ("bands.output.json", schemars::schema_for!(BandsView)),
        ("papers.output.json", schemars::schema_for!(PapersView)),
        (
            "papers-verify.output.json",
            schemars::schema_for!(VerifiedView),
        ),
        ("check.output.json", schemars::schema_for!(CheckView)),
        ("choose.output.json", schemars::schema_for!(ChooseView)),
        (
            "installation.output.json",
            schemars::schema_for!(InstallationView),
        ),
        ("loads.output.json", schemars::schema_for!(LoadsView)),
        ("many.output.json", schemars::schema_for!(ManyView)),
        ("prove.output.json", schemars::schema_for!(Vec<ProofView>)),
        ("review.output.json", schemars::schema_for!(ReviewView)),
        ("season.output.json", schemars::schema_for!(SeasonView)),
        ("sheet.output.json", schemars::schema_for!(SheetView)),
        ("suggest.output.json", schemars::schema_for!(SuggestView)),
        ("why.output.json", schemars::schema_for!(WhyAnswer)),
    ];
    all.extend(crate::day::view::schemas());
    all
}
