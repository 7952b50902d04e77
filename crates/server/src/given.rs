//! What comes in, checked before anything is done with it.

use axum::body::Bytes;
use axum::extract::{FromRequest, FromRequestParts, Request};
use axum::http::request::Parts;
use axum::http::{StatusCode, header};
use serde::de::DeserializeOwned;
use startup::Stamp;

use crate::refused::Refused;

/// A JSON body. A form of another site cannot send one.
#[derive(Debug)]
pub struct Given<T>(pub T);

impl<T: DeserializeOwned, S: Send + Sync> FromRequest<S> for Given<T> {
    type Rejection = Refused;

    async fn from_request(request: Request, state: &S) -> Result<Self, Refused> {
        let kind = request.headers().get(header::CONTENT_TYPE);
        let json = kind
            .and_then(|v| v.to_str().ok())
            .is_some_and(|v| v.split(';').next().unwrap_or("").trim() == "application/json");
        if !json {
            return Err(Refused::new(
                StatusCode::UNSUPPORTED_MEDIA_TYPE,
                "bad-input",
                "the body is not marked as JSON",
            )
            .allowed("content-type: application/json"));
        }
        let bytes = bytes(request, state).await?;
        serde_json::from_slice(&bytes)
            .map(Self)
            .map_err(|e| Refused::bad(format!("the body does not read: {e}")))
    }
}

/// Parts of the path; what does not read is a refusal in the one form.
#[derive(Debug)]
pub struct Path<T>(pub T);

impl<T: DeserializeOwned + Send, S: Send + Sync> FromRequestParts<S> for Path<T> {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, Refused> {
        let read = axum::extract::Path::from_request_parts(parts, state).await;
        read.map(|p| Self(p.0)).map_err(|e| {
            Refused::bad(format!("the path does not read: {}", e.body_text()))
                .got(short(parts.uri.path()))
                .mend("names in a path are UTF-8 with percent signs")
        })
    }
}

/// What stands behind the question mark; what does not read is a refusal in the one form.
#[derive(Debug)]
pub struct Query<T>(pub T);

impl<T: DeserializeOwned, S: Send + Sync> FromRequestParts<S> for Query<T> {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, Refused> {
        let read = axum::extract::Query::from_request_parts(parts, state).await;
        read.map(|q| Self(q.0)).map_err(|e| {
            Refused::bad(format!("the query does not read: {}", e.body_text()))
                .got(short(parts.uri.query().unwrap_or("")))
                .mend("look at /api/openapi.json for what may stand there")
        })
    }
}

/// An address that is there, asked in a way that is not.
pub async fn no_such_method(request: Request) -> Refused {
    Refused::new(
        StatusCode::METHOD_NOT_ALLOWED,
        "bad-input",
        "this address is not asked so",
    )
    .got(format!(
        "{} {}",
        request.method(),
        short(request.uri().path())
    ))
    .mend("look at /api/openapi.json for what may be asked")
}

/// The bytes of a body, up to the limit of the route.
pub async fn bytes<S: Send + Sync>(request: Request, state: &S) -> Result<Bytes, Refused> {
    Bytes::from_request(request, state).await.map_err(|e| {
        let status = e.status();
        let (kind, says) = if status == StatusCode::PAYLOAD_TOO_LARGE {
            ("too-large", "what was sent is too large")
        } else {
            ("bad-input", "the body could not be read")
        };
        Refused::new(status, kind, says)
    })
}

/// A UUID, written the one way it is kept.
pub fn id(text: &str) -> Result<String, Refused> {
    uuid::Uuid::parse_str(text)
        .map(|id| id.hyphenated().to_string())
        .map_err(|_| {
            Refused::bad("this is no UUID")
                .got(short(text))
                .allowed("a UUID, version 7, made by the client")
        })
}

/// A time as it came, or now.
pub fn at(text: Option<&str>) -> Result<Stamp, Refused> {
    match text {
        None => Ok(Stamp {
            epoch_s: store::now_ms() as f64 / 1000.0,
            offset_min: 0,
        }),
        Some(text) => {
            Stamp::read(text, None).map_err(|e| Refused::bad(e.to_string()).got(short(text)))
        }
    }
}

/// A line of text a person typed: no controls, not endless.
pub fn line(text: &str, most: usize) -> String {
    let clean = text.chars().map(|c| if c.is_control() { ' ' } else { c });
    clean
        .collect::<String>()
        .trim()
        .chars()
        .take(most)
        .collect()
}

/// As it may be quoted in a message.
pub fn short(text: &str) -> String {
    line(text, 70)
}
