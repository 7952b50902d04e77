//! Photos: good ones upright and without position, all others refused.

mod support;

use std::io::Cursor;

use axum::http::StatusCode;
use image::{
    DynamicImage, GenericImageView, ImageDecoder, ImageEncoder, ImageFormat, ImageReader, Rgb,
    RgbImage,
};
use support::{Answer, Desk, id};

/// Exif with orientation 6 (turned a quarter) and a north latitude of 42 degrees.
fn exif() -> Vec<u8> {
    let mut e = b"MM\x00\x2a\x00\x00\x00\x08".to_vec();
    e.extend(b"\x00\x02");
    e.extend(b"\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00");
    e.extend(b"\x88\x25\x00\x04\x00\x00\x00\x01\x00\x00\x00\x26");
    e.extend(b"\x00\x00\x00\x00");
    e.extend(b"\x00\x01");
    e.extend(b"\x00\x01\x00\x02\x00\x00\x00\x02N\x00\x00\x00");
    e.extend(b"\x00\x00\x00\x00");
    e
}

/// Left half red, right half blue.
fn picture(width: u32, height: u32) -> DynamicImage {
    let pixel = |x, _| {
        if x < width / 2 {
            Rgb([220, 20, 20])
        } else {
            Rgb([20, 20, 220])
        }
    };
    DynamicImage::ImageRgb8(RgbImage::from_fn(width, height, pixel))
}

fn jpeg(picture: &DynamicImage, exif: Option<Vec<u8>>) -> Vec<u8> {
    let mut out = Vec::new();
    let mut encoder = image::codecs::jpeg::JpegEncoder::new_with_quality(&mut out, 90);
    if let Some(exif) = exif {
        encoder.set_exif_metadata(exif).expect("exif");
    }
    encoder.encode_image(picture).expect("encoded");
    out
}

async fn send(desk: &Desk, job: &str, number: u64, bytes: Vec<u8>, more: &str) -> Answer {
    let to = format!(
        "/api/jobs/{job}/photos?id={}&shows=room.living{more}",
        id(number)
    );
    desk.raw_kind("POST", &to, Some(bytes), "image/jpeg").await
}

async fn kept(desk: &Desk, job: &str, number: u64, small: bool) -> Vec<u8> {
    let to = format!("/api/jobs/{job}/photos/{}?small={small}", id(number));
    let answer = desk.raw("GET", &to, None).await;
    assert_eq!(answer.status, StatusCode::OK);
    assert_eq!(answer.header("content-type"), "image/jpeg");
    answer.bytes
}

#[tokio::test(flavor = "multi_thread")]
async fn a_photo_is_turned_upright_made_smaller_and_freed_of_its_position() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let photo = jpeg(&picture(3000, 1500), Some(exif()));
    let answer = send(&desk, &job, 10, photo.clone(), "").await;
    assert_eq!(answer.status, StatusCode::CREATED, "{}", answer.text());
    let bytes = kept(&desk, &job, 10, false).await;
    assert!(
        !bytes.windows(4).any(|w| w == b"Exif"),
        "what the camera wrote is gone"
    );
    let upright = image::load_from_memory(&bytes).expect("decodes");
    assert_eq!(upright.dimensions(), (1024, 2048));
    // A quarter turn clockwise brings the left half to the top.
    let top = upright.get_pixel(512, 200);
    assert!(top[0] > 150 && top[2] < 100, "{top:?}");
    let small = image::load_from_memory(&kept(&desk, &job, 10, true).await).expect("decodes");
    assert_eq!(small.dimensions(), (160, 320));
    // The same id again changes nothing.
    let again = send(&desk, &job, 10, jpeg(&picture(40, 40), None), "").await;
    assert_eq!(again.status, StatusCode::CREATED);
    assert_eq!(kept(&desk, &job, 10, false).await, bytes);

    let answer = send(&desk, &job, 11, photo, "&keep_position=true").await;
    assert_eq!(answer.status, StatusCode::CREATED);
    let bytes = kept(&desk, &job, 11, false).await;
    let mut decoder = ImageReader::new(Cursor::new(&bytes))
        .with_guessed_format()
        .expect("read")
        .into_decoder()
        .expect("decodes");
    assert!(
        decoder
            .exif_metadata()
            .expect("exif")
            .is_some_and(|e| e.windows(2).any(|w| w == b"\x88\x25"))
    );
    let turn = decoder.orientation().expect("orientation");
    assert_eq!(
        turn,
        image::metadata::Orientation::NoTransforms,
        "not turned twice"
    );
}

#[tokio::test(flavor = "multi_thread")]
async fn wrong_huge_and_hostile_files_are_refused() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let svg = b"<svg xmlns=\"http://www.w3.org/2000/svg\"><script>alert(1)</script></svg>".to_vec();
    let mut cut = jpeg(&picture(400, 300), None);
    cut.truncate(200);
    // A PNG that says it has a hundred thousand pixels a side, with nothing behind it.
    let mut bomb = Vec::new();
    picture(8, 8)
        .write_to(&mut Cursor::new(&mut bomb), ImageFormat::Png)
        .expect("png");
    bomb[16..24].copy_from_slice(&[0, 1, 0x86, 0xa0, 0, 1, 0x86, 0xa0]);
    let crc = crc32(&bomb[12..29]);
    bomb[29..33].copy_from_slice(&crc.to_be_bytes());
    // The same with a side that is allowed and an area that is not.
    let mut wide = bomb.clone();
    wide[16..24].copy_from_slice(&[0, 0, 0x2e, 0xe0, 0, 0, 0x2e, 0xe0]);
    let crc = crc32(&wide[12..29]);
    wide[29..33].copy_from_slice(&crc.to_be_bytes());
    let cases: [(&str, Vec<u8>, StatusCode); 9] = [
        ("nothing", Vec::new(), StatusCode::UNSUPPORTED_MEDIA_TYPE),
        (
            "text",
            b"hello".to_vec(),
            StatusCode::UNSUPPORTED_MEDIA_TYPE,
        ),
        ("svg with a script", svg, StatusCode::UNSUPPORTED_MEDIA_TYPE),
        (
            "zip",
            b"PK\x03\x04\x14\x00\x00\x00".to_vec(),
            StatusCode::UNSUPPORTED_MEDIA_TYPE,
        ),
        (
            "gif",
            b"GIF89a\x01\x00\x01\x00\x00\x00\x00".to_vec(),
            StatusCode::UNSUPPORTED_MEDIA_TYPE,
        ),
        ("cut off", cut, StatusCode::UNSUPPORTED_MEDIA_TYPE),
        (
            "png of 10,000 million pixels",
            bomb,
            StatusCode::UNSUPPORTED_MEDIA_TYPE,
        ),
        (
            "png of 144 million pixels",
            wide,
            StatusCode::UNSUPPORTED_MEDIA_TYPE,
        ),
        (
            "30 MB",
            vec![0xff; 30 * 1024 * 1024],
            StatusCode::PAYLOAD_TOO_LARGE,
        ),
    ];
    for (n, (what, bytes, expected)) in cases.into_iter().enumerate() {
        let answer = send(&desk, &job, 100 + n as u64, bytes, "").await;
        assert_eq!(answer.status, expected, "{what}: {}", answer.text());
        assert!(answer.text().contains("says"), "{what}");
    }
    let (_, list) = desk.get(&format!("/api/jobs/{job}/photos")).await;
    assert_eq!(list, serde_json::json!([]));
    let odd = desk
        .raw_kind(
            "POST",
            &format!("/api/jobs/{job}/photos?id=..%2F..%2Fx&shows=a"),
            Some(vec![1]),
            "image/jpeg",
        )
        .await;
    assert_eq!(odd.status, StatusCode::BAD_REQUEST);
    let nobody = send(&desk, &id(77), 1, jpeg(&picture(9, 9), None), "").await;
    assert_eq!(nobody.status, StatusCode::NOT_FOUND);
}

/// The check sum of a PNG chunk.
fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |mut crc, b| {
        crc ^= u32::from(*b);
        for _ in 0..8 {
            crc = if crc & 1 == 1 {
                (crc >> 1) ^ 0xedb8_8320
            } else {
                crc >> 1
            };
        }
        crc
    })
}
