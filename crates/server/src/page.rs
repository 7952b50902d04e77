//! The page, built in. Without `web/dist` at build time a plain sheet stands in its place.

use axum::http::{StatusCode, Uri, header};
use axum::response::{IntoResponse, Response};

use crate::refused::Refused;

#[derive(rust_embed::Embed)]
#[folder = "../../web/dist"]
#[allow_missing = true]
struct Files;

const STAND_IN: &str = include_str!("stand_in.html");

/// A file of the page; what is no file is the page itself, which knows its own places.
pub async fn page(uri: Uri) -> Response {
    let path = uri.path().trim_start_matches('/');
    if path.starts_with("api/") || path == "api" {
        return Refused::not_there("answer", &crate::given::short(uri.path())).into_response();
    }
    let name = if path.is_empty() { "index.html" } else { path };
    if let Some(file) = Files::get(name) {
        let kind = file.metadata.mimetype().to_owned();
        // Names under assets/ change with their content; all else is asked for anew.
        let keep = if name.starts_with("assets/") {
            "public, max-age=31536000, immutable"
        } else {
            "no-cache"
        };
        let headers = [
            (header::CONTENT_TYPE, kind),
            (header::CACHE_CONTROL, keep.to_owned()),
        ];
        return (headers, file.data.into_owned()).into_response();
    }
    let last = name.rsplit('/').next().unwrap_or(name);
    if last.contains('.') && name != "index.html" {
        return (StatusCode::NOT_FOUND, "there is no such file").into_response();
    }
    let headers = [
        (header::CONTENT_TYPE, "text/html; charset=utf-8"),
        (header::CACHE_CONTROL, "no-cache"),
    ];
    match Files::get("index.html") {
        Some(file) => (headers, file.data.into_owned()).into_response(),
        None => (headers, STAND_IN).into_response(),
    }
}
