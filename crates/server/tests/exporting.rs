//! Everything of a firm is sent piece by piece: memory does not grow with what there is. Alone in
//! its program, because it looks at the memory of the whole process.

mod support;

use std::future::poll_fn;
use std::pin::Pin;

use axum::body::{Body, HttpBody};
use axum::http::Request;
use store::NewPhoto;
use support::{Desk, id};
use tower::ServiceExt;

const PHOTOS: u64 = 40;
const EACH: usize = 3_000_000;
/// What may come on top: a few photos on their way, the pages the database keeps, the allocator.
/// Common practice, no source; a quarter of what is sent.
const MOST_MORE_KB: u64 = 30_000;

/// The most memory this process has had, kB; none where the system does not say so.
fn most_kb() -> Option<u64> {
    let said = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = said.lines().find(|l| l.starts_with("VmHWM:"))?;
    line.split_whitespace().nth(1)?.parse().ok()
}

#[tokio::test]
async fn memory_stays_flat_while_a_firm_leaves() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    // Bytes that do not repeat, so that nothing on the way can make them small.
    let mut seed = 1_u64;
    let mut bytes = vec![0_u8; EACH];
    for n in 0..PHOTOS {
        for b in &mut bytes {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            *b = seed.to_be_bytes()[0];
        }
        let photo = NewPhoto {
            id: &id(100 + n),
            shows: "room.living",
            note: "",
            who: "Ada",
            at: "2026-11-25T10:30:00-05:00",
            kind: "image/jpeg",
            size: (2000, 1500),
            bytes: &bytes,
            small: b"small",
        };
        desk.store
            .keep_photo("local", &job, &photo)
            .await
            .expect("kept");
    }
    let before = most_kb();
    let request = Request::get("/api/export")
        .header("host", "localhost:8420")
        .body(Body::empty())
        .expect("request");
    let answer = desk.router.clone().oneshot(request).await.expect("answers");
    let mut body = answer.into_body();
    let (mut sent, mut end) = (0_usize, Vec::new());
    while let Some(frame) = poll_fn(|cx| Pin::new(&mut body).poll_frame(cx)).await {
        let data = frame.expect("no break").into_data().expect("bytes");
        sent += data.len();
        end = data[data.len().saturating_sub(1024)..].to_vec();
    }
    assert!(sent > PHOTOS as usize * EACH, "{sent} bytes");
    assert_eq!(end, [0; 1024], "with the mark of its end");
    let (Some(before), Some(after)) = (before, most_kb()) else {
        return;
    };
    let more = after - before;
    assert!(
        more < MOST_MORE_KB,
        "{more} kB more while {} kB were sent",
        sent / 1000
    );
}
