//! A server in a folder of its own, asked without a socket.
#![allow(dead_code)]

use std::sync::Arc;

use axum::Router;
use axum::body::Body;
use axum::http::{Request, StatusCode};
use serde_json::{Value, json};
use server::papers::{AgainstLine, From, PaperLine, PapersView, Printer};
use server::{App, Setting};
use store::Store;
use tower::ServiceExt;

/// The invented example job.
pub const JOB: &str = include_str!("../../../../jobs/lake-street/job.toml");

/// An id.
pub fn id(number: u64) -> String {
    format!("0192f000-0000-7000-8000-{number:012x}")
}

/// Makes papers that say what they were made from, in place of the document engine.
#[derive(Debug)]
pub struct Paper;

impl Printer for Paper {
    fn against(&self, from: &From<'_>) -> PapersView {
        let line = |reader: &str| PaperLine {
            reader: reader.to_owned(),
            name: format!("for the {reader}"),
            against: if reader == "crew" {
                Vec::new()
            } else {
                vec![AgainstLine {
                    kind: "missing".to_owned(),
                    says: "a word".to_owned(),
                    place: "job".to_owned(),
                    mend: "write it".to_owned(),
                }]
            },
        };
        PapersView {
            code: from.text.len().to_string(),
            papers: ["owner", "crew"].map(line).into(),
            notes: Vec::new(),
        }
    }

    fn paper(&self, from: &From<'_>, reader: &str, a4: bool) -> Result<Option<Vec<u8>>, String> {
        let records = from.records.map_or("", |r| r.0);
        let load = from.plan.value("bills.load").is_some();
        let says = format!(
            "%PDF {} {reader} a4 {a4} si {} photos {:?} bills {load} {records}",
            from.job.name, from.si, from.photos
        );
        Ok(["owner", "inspector", "rebate", "crew"]
            .contains(&reader)
            .then(|| says.into_bytes()))
    }
}

/// A server.
pub struct Desk {
    pub router: Router,
    pub store: Store,
    folder: tempfile::TempDir,
}

/// What was answered.
pub struct Answer {
    pub status: StatusCode,
    pub bytes: Vec<u8>,
    headers: axum::http::HeaderMap,
}

impl Answer {
    pub fn text(&self) -> String {
        String::from_utf8_lossy(&self.bytes).into_owned()
    }

    pub fn header(&self, name: &str) -> String {
        let value = self.headers.get(name).and_then(|v| v.to_str().ok());
        value.unwrap_or("").to_owned()
    }
}

impl Desk {
    /// A fresh one.
    pub async fn new() -> Self {
        Self::set(Setting::default()).await
    }

    /// A fresh one on which people sign in.
    pub async fn with_people() -> Self {
        Self::set(Setting {
            sign_in: true,
            printer: Some(Arc::new(Paper)),
            ..Setting::default()
        })
        .await
    }

    /// A fresh one that makes papers.
    pub async fn with_papers() -> Self {
        Self::set(Setting {
            printer: Some(Arc::new(Paper)),
            ..Setting::default()
        })
        .await
    }

    /// Keeps a small photo that shows this.
    pub async fn photo(&self, job: &str, shows: &str) {
        let mut photo = std::io::Cursor::new(Vec::new());
        image::DynamicImage::new_rgb8(30, 20)
            .write_to(&mut photo, image::ImageFormat::Png)
            .expect("png");
        let to = format!("/api/jobs/{job}/photos?id={}&shows={shows}&who=Ada", id(12));
        let kept = self
            .raw_kind("POST", &to, Some(photo.into_inner()), "image/png")
            .await;
        assert_eq!(kept.status, StatusCode::CREATED);
    }

    /// Keeps a joint that was made up.
    pub async fn joint(&self, job: &str) {
        let record = store::NewRecord {
            id: &id(13),
            at: startup::Stamp::read("2026-11-25T10:30:00-05:00", None).expect("time"),
            who: "Ada",
            kind: "joint",
            says: json!({ "torque": 16.25 }),
            corrects: None,
        };
        let kept = self.store.record("local", job, &[record]).await;
        kept.expect("kept");
    }

    /// One that runs so.
    pub async fn set(setting: Setting) -> Self {
        let folder = tempfile::tempdir().expect("folder");
        let store = Store::in_folder(folder.path()).await.expect("opens");
        let router = server::router(App::new(store.clone(), setting));
        Self {
            router,
            store,
            folder,
        }
    }

    /// The example job on it.
    pub async fn job(&self, number: u64) -> String {
        let new = json!({ "id": id(number), "text": JOB, "who": "Ada" });
        let (status, made) = self.post("/api/jobs", &new).await;
        assert_eq!(status, StatusCode::CREATED, "{made}");
        id(number)
    }

    pub async fn ask(&self, request: Request<Body>) -> Answer {
        let answer = self.router.clone().oneshot(request).await.expect("answers");
        let (status, headers) = (answer.status(), answer.headers().clone());
        let bytes = axum::body::to_bytes(answer.into_body(), usize::MAX)
            .await
            .expect("body");
        Answer {
            status,
            bytes: bytes.to_vec(),
            headers,
        }
    }

    pub async fn raw_kind(
        &self,
        method: &str,
        to: &str,
        body: Option<Vec<u8>>,
        kind: &str,
    ) -> Answer {
        let request = Request::builder()
            .method(method)
            .uri(to)
            .header("host", "localhost:8420")
            .header("content-type", kind)
            .body(body.map_or_else(Body::empty, Body::from))
            .expect("request");
        self.ask(request).await
    }

    pub async fn raw(&self, method: &str, to: &str, body: Option<Vec<u8>>) -> Answer {
        self.raw_kind(method, to, body, "application/json").await
    }

    pub async fn with(
        &self,
        method: &str,
        to: &str,
        body: Vec<u8>,
        name: &str,
        value: &str,
    ) -> Answer {
        let host = if name == "host" {
            value
        } else {
            "localhost:8420"
        };
        let mut request = Request::builder()
            .method(method)
            .uri(to)
            .header("host", host)
            .header("content-type", "application/json");
        if name != "host" {
            request = request.header(name, value);
        }
        self.ask(request.body(Body::from(body)).expect("request"))
            .await
    }

    pub async fn send(&self, method: &str, to: &str, body: &Value) -> (StatusCode, Value) {
        let answer = self
            .raw(method, to, Some(body.to_string().into_bytes()))
            .await;
        let json = serde_json::from_slice(&answer.bytes);
        (answer.status, json.unwrap_or(Value::Null))
    }

    pub async fn post(&self, to: &str, body: &Value) -> (StatusCode, Value) {
        self.send("POST", to, body).await
    }

    pub async fn get(&self, to: &str) -> (StatusCode, Value) {
        let answer = self.raw("GET", to, None).await;
        (
            answer.status,
            serde_json::from_slice(&answer.bytes).unwrap_or(Value::Null),
        )
    }
}
