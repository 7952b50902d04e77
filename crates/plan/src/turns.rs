//! Years that are worked out side by side, each a part at a time.

use house::ideal::{HeatError, HouseYear};
use season::{Parts, SeasonError, Year};

/// Hours of one turn: two weeks. Longer ones leave a core idle at the end, and shorter ones bring
/// nothing.
const TURN_H: usize = 14 * 24;

/// A year on its way.
pub(crate) trait OnItsWay: Sized + Send {
    /// What it comes to.
    type Whole: Send;
    /// Why it came to nothing.
    type Error: Send;
    /// Does so many hours more; false when none is left.
    fn go_on(&mut self, hours: usize) -> bool;
    /// The year.
    fn whole(self) -> Result<Self::Whole, Self::Error>;
}

impl OnItsWay for house::ideal::Running<'_> {
    type Whole = HouseYear;
    type Error = HeatError;

    fn go_on(&mut self, hours: usize) -> bool {
        house::ideal::Running::go_on(self, hours)
    }

    fn whole(self) -> Result<HouseYear, HeatError> {
        Ok(house::ideal::Running::whole(self))
    }
}

impl OnItsWay for season::Running<'_> {
    type Whole = Year;
    type Error = SeasonError;

    fn go_on(&mut self, hours: usize) -> bool {
        season::Running::go_on(self, hours)
    }

    fn whole(self) -> Result<Year, SeasonError> {
        season::Running::whole(self)
    }
}

/// What a year came to; none before it has.
pub(crate) type Came<R> = Option<Result<<R as OnItsWay>::Whole, <R as OnItsWay>::Error>>;

/// The work of a year, begun in its first turn; `came` is what it came to.
pub(crate) fn year<'s, R: OnItsWay + 's>(
    begin: impl FnOnce() -> Result<R, R::Error> + Send + 's,
    came: &'s mut Came<R>,
) -> Parts<'s> {
    let (mut begin, mut on) = (Some(begin), None);
    Box::new(move || {
        if let Some(begin) = begin.take() {
            match begin() {
                Ok(year) => on = Some(year),
                Err(why) => *came = Some(Err(why)),
            }
        }
        match on.take() {
            Some(mut year) => {
                if year.go_on(TURN_H) {
                    on = Some(year);
                } else {
                    *came = Some(year.whole());
                }
                on.is_some()
            }
            None => false,
        }
    })
}
