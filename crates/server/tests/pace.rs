//! Two servers on one PostgreSQL count tries to sign in together.

mod support;
#[path = "../../store/tests/support/mod.rs"]
mod with_postgres;

use axum::body::Body;
use axum::http::{Request, StatusCode};
use server::{App, Setting};
use store::Store;
use tower::ServiceExt;

async fn server(address: &str) -> axum::Router {
    let store = Store::at(address).await.expect("connects");
    let setting = Setting {
        sign_in: true,
        ..Setting::default()
    };
    server::router(App::new(store, setting))
}

async fn tried(at: &axum::Router, email: &str) -> StatusCode {
    let body = serde_json::json!({ "email": email, "password": "not the word" });
    let request = Request::post("/api/sign-in")
        .header("host", "localhost:8420")
        .header("content-type", "application/json")
        .body(Body::from(body.to_string()))
        .expect("request");
    at.clone().oneshot(request).await.expect("answers").status()
}

#[tokio::test(flavor = "multi_thread")]
async fn ten_tries_are_ten_on_two_servers_together() {
    let Some(cluster) = with_postgres::Cluster::start() else {
        return;
    };
    let address = cluster.database("pace");
    let (one, two) = (server(&address).await, server(&address).await);
    for n in 0..10 {
        let at = if n % 2 == 0 { &one } else { &two };
        assert_eq!(
            tried(at, "ada@a.example").await,
            StatusCode::UNAUTHORIZED,
            "try {n}"
        );
    }
    for at in [&one, &two] {
        assert_eq!(
            tried(at, "ada@a.example").await,
            StatusCode::TOO_MANY_REQUESTS
        );
        assert_eq!(tried(at, "bo@a.example").await, StatusCode::UNAUTHORIZED);
    }
}
