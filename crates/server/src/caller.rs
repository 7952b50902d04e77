//! Who asks, and what that person may do.

use axum::extract::FromRequestParts;
use axum::http::request::Parts;
use axum::http::{HeaderMap, StatusCode, header};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::app::App;
use crate::given::line;
use crate::hashing::of_token;
use crate::refused::Refused;

/// The firm of a machine on which nobody signs in.
pub const LOCAL: &str = "local";
/// Name of the cookie.
pub const COOKIE: &str = "northwall";

/// What a person is in the firm.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "lowercase")]
pub enum Role {
    /// Everything, people included.
    Owner,
    /// Jobs, all of them.
    Designer,
    /// Looks, measures, photographs, and says what was built.
    Installer,
    /// Looks.
    Reader,
}

/// What an answer asks of a person.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, ToSchema)]
#[serde(rename_all = "lowercase")]
pub enum Right {
    /// Look at jobs and plans.
    See,
    /// Readings, photos, what was built.
    Measure,
    /// Change jobs.
    Change,
    /// People, links, export, taking away.
    Manage,
}

impl Role {
    /// All.
    pub const ALL: [Role; 4] = [Self::Owner, Self::Designer, Self::Installer, Self::Reader];

    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Owner => "owner",
            Self::Designer => "designer",
            Self::Installer => "installer",
            Self::Reader => "reader",
        }
    }

    /// From its word.
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|r| r.word() == word)
    }

    /// What it may do.
    pub fn rights(self) -> &'static [Right] {
        match self {
            Self::Owner => &[Right::See, Right::Measure, Right::Change, Right::Manage],
            Self::Designer => &[Right::See, Right::Measure, Right::Change],
            Self::Installer => &[Right::See, Right::Measure],
            Self::Reader => &[Right::See],
        }
    }
}

/// Who asks, and for which firm.
#[derive(Debug, Clone)]
pub struct Caller {
    /// Firm whose jobs are seen.
    pub firm: String,
    /// Role.
    pub role: Role,
    /// The person, where people sign in.
    pub person: Option<store::Person>,
}

impl Caller {
    /// The name that goes with a change: the person who signed in, or what the page says where
    /// nobody signs in.
    pub fn who(&self, said: Option<&str>) -> String {
        let said = said.map(|s| line(s, 80)).filter(|s| !s.is_empty());
        let name = self.person.as_ref().map(|p| p.name.clone());
        name.or(said)
            .unwrap_or_else(|| "somebody at this machine".to_owned())
    }

    /// Refuses what the role does not include.
    ///
    /// # Errors
    /// It does not.
    pub fn may(&self, right: Right) -> Result<(), Refused> {
        if self.role.rights().contains(&right) {
            return Ok(());
        }
        let who = match right {
            Right::See => "anybody of the firm",
            Right::Measure => "an installer, a designer or an owner",
            Right::Change => "a designer or an owner",
            Right::Manage => "an owner",
        };
        Err(Refused::new(
            StatusCode::FORBIDDEN,
            "not-allowed",
            "your role does not include this",
        )
        .got(self.role.word())
        .allowed(who)
        .mend("ask an owner of the firm"))
    }
}

/// The token of a session that came with a request.
pub fn cookie(headers: &HeaderMap) -> Option<&str> {
    let all = headers.get_all(header::COOKIE).iter();
    all.filter_map(|v| v.to_str().ok())
        .flat_map(|v| v.split(';'))
        .filter_map(|c| c.trim().split_once('='))
        .find_map(|(name, token)| (name == COOKIE).then_some(token))
}

/// That nobody is signed in.
pub fn nobody() -> Refused {
    Refused::new(StatusCode::UNAUTHORIZED, "sign-in", "nobody is signed in")
        .mend("sign in and try again; what waits in this browser is kept")
}

impl FromRequestParts<App> for Caller {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, Refused> {
        if !app.sign_in {
            return Ok(Self {
                firm: LOCAL.to_owned(),
                role: Role::Owner,
                person: None,
            });
        }
        let token = cookie(&parts.headers).ok_or_else(nobody)?;
        let person = app.store.session(&of_token(token)).await?;
        let person = person.ok_or_else(nobody)?;
        let role = Role::of(&person.role).ok_or_else(nobody)?;
        Ok(Self {
            firm: person.firm.clone(),
            role,
            person: Some(person),
        })
    }
}
