//! What every answer carries, and which requests are turned away before anything is done.

use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use crate::app::App;
use crate::refused::Refused;

/// Nothing from elsewhere; pictures also from the page's own memory (a photo before it is sent).
const POLICY: &str = "default-src 'self'; img-src 'self' blob: data:; \
    style-src 'self' 'unsafe-inline'; script-src 'self'; connect-src 'self'; worker-src 'self'; \
    object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

const HEADERS: [(HeaderName, &str); 6] = [
    (header::CONTENT_SECURITY_POLICY, POLICY),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::X_FRAME_OPTIONS, "DENY"),
    (header::REFERRER_POLICY, "no-referrer"),
    (
        HeaderName::from_static("cross-origin-opener-policy"),
        "same-origin",
    ),
    (
        HeaderName::from_static("permissions-policy"),
        "camera=(self), geolocation=(), microphone=()",
    ),
];

/// Headers on every answer; answers of the interface are not kept by anybody between.
pub async fn headers(request: Request, next: Next) -> Response {
    let of_interface = request.uri().path().starts_with("/api");
    let mut answer = next.run(request).await;
    let out = answer.headers_mut();
    for (name, value) in HEADERS {
        out.insert(name, HeaderValue::from_static(value));
    }
    if of_interface {
        out.entry(header::CACHE_CONTROL)
            .or_insert(HeaderValue::from_static("no-store"));
    }
    answer
}

/// Turns away what another site sends in a person's name, and, where nobody signs in, what does
/// not come to this machine by its own name.
pub async fn turned_away(State(app): State<App>, request: Request, next: Next) -> Response {
    let (headers, method) = (request.headers(), request.method());
    if !app.sign_in && !to_this_machine(headers) {
        return Refused::new(
            StatusCode::MISDIRECTED_REQUEST,
            "not-allowed",
            "nobody signs in here, so only this machine is answered, by the name localhost",
        )
        .mend("open the address the server printed")
        .into_response();
    }
    let changes = !matches!(*method, Method::GET | Method::HEAD | Method::OPTIONS);
    if changes && from_another_site(headers) {
        return Refused::new(
            StatusCode::FORBIDDEN,
            "not-allowed",
            "this was sent by another site, not by the page of this server",
        )
        .into_response();
    }
    if app.sign_in {
        let of = crate::caller::cookie(headers).unwrap_or("nobody");
        if let Err(refused) = app.pace.request(of) {
            return refused.into_response();
        }
    }
    next.run(request).await
}

fn text(headers: &HeaderMap, name: impl header::AsHeaderName) -> Option<&str> {
    headers.get(name).and_then(|v| v.to_str().ok())
}

/// A name that leads elsewhere may have been bent to this machine.
fn to_this_machine(headers: &HeaderMap) -> bool {
    let host = text(headers, header::HOST).unwrap_or("localhost");
    let name = match host.strip_prefix('[') {
        Some(rest) => rest.split(']').next().unwrap_or(""),
        None => host.split(':').next().unwrap_or(""),
    };
    matches!(name, "localhost" | "127.0.0.1" | "::1")
}

/// By what the browser itself says of where a request comes from. A program that is no browser
/// says nothing and carries no cookie of a person.
fn from_another_site(headers: &HeaderMap) -> bool {
    if let Some(site) = text(headers, "sec-fetch-site") {
        return !matches!(site, "same-origin" | "none");
    }
    match (text(headers, header::ORIGIN), text(headers, header::HOST)) {
        (Some(origin), Some(host)) => origin.split("://").nth(1) != Some(host),
        (Some(_), None) => true,
        (None, _) => false,
    }
}
