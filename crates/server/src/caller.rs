//! Who asks.

use axum::extract::FromRequestParts;
use axum::http::request::Parts;

use crate::app::App;
use crate::given::line;
use crate::refused::Refused;

/// The firm of a machine on which nobody signs in.
pub const LOCAL: &str = "local";

/// Who asks, and for which firm.
#[derive(Debug, Clone)]
pub struct Caller {
    /// Firm whose jobs are seen.
    pub firm: String,
    /// Name of a person who signed in.
    name: Option<String>,
}

impl Caller {
    /// The name that goes with a change: the person who signed in, or what the page says where
    /// nobody signs in.
    pub fn who(&self, said: Option<&str>) -> String {
        let said = said.map(|s| line(s, 80)).filter(|s| !s.is_empty());
        self.name
            .clone()
            .or(said)
            .unwrap_or_else(|| "somebody at this machine".to_owned())
    }
}

impl FromRequestParts<App> for Caller {
    type Rejection = Refused;

    async fn from_request_parts(_parts: &mut Parts, _app: &App) -> Result<Self, Refused> {
        Ok(Self {
            firm: LOCAL.to_owned(),
            name: None,
        })
    }
}
