//! A picture as it came to a picture as it is kept. Whatever came is decoded and written anew, so
//! that nothing of a hostile file is ever given out.

use std::io::Cursor;

use axum::body::Bytes;
use axum::http::StatusCode;
use image::codecs::jpeg::JpegEncoder;
use image::imageops::FilterType;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageEncoder, ImageFormat, ImageReader, Limits};

use crate::refused::Refused;

/// Largest upload, bytes.
pub const MOST_BYTES: usize = 25 * 1024 * 1024;
/// Largest side that is decoded, pixels.
const MOST_SIDE: u32 = 12_000;
/// Most pixels that are decoded: a large phone photo has 50 million.
const MOST_PIXELS: u64 = 64_000_000;
/// Largest side that is kept, pixels.
const SIDE: u32 = 2048;
/// Largest side of the small one, pixels.
const SMALL: u32 = 320;

/// A picture ready to be kept.
#[derive(Debug)]
pub struct Ready {
    /// JPEG.
    pub bytes: Vec<u8>,
    /// The same, small.
    pub small: Vec<u8>,
    /// Width and height, pixels.
    pub size: (u32, u32),
}

fn no_picture(got: impl Into<String>) -> Refused {
    Refused::new(
        StatusCode::UNSUPPORTED_MEDIA_TYPE,
        "bad-input",
        "this is not a picture that can be kept",
    )
    .got(got)
    .allowed("a JPEG or PNG of up to 64 million pixels")
    .mend("take a photo, or save the picture as JPEG")
}

/// Turns a picture upright, makes it smaller and writes it anew.
///
/// # Errors
/// No JPEG or PNG, by its bytes and not by its name; too many pixels; broken.
pub fn ready(bytes: &Bytes, keep_position: bool) -> Result<Ready, Refused> {
    let mut reader = ImageReader::new(Cursor::new(bytes.as_ref()))
        .with_guessed_format()
        .map_err(|e| no_picture(e.to_string()))?;
    let format = reader.format();
    if !matches!(format, Some(ImageFormat::Jpeg | ImageFormat::Png)) {
        return Err(no_picture("another kind of file"));
    }
    let mut limits = Limits::default();
    limits.max_image_width = Some(MOST_SIDE);
    limits.max_image_height = Some(MOST_SIDE);
    limits.max_alloc = Some(MOST_PIXELS * 8);
    reader.limits(limits);
    let mut decoder = reader
        .into_decoder()
        .map_err(|e| no_picture(e.to_string()))?;
    let (width, height) = decoder.dimensions();
    if u64::from(width) * u64::from(height) > MOST_PIXELS {
        return Err(no_picture(format!("{width} by {height} pixels")));
    }
    let turn = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let beside = decoder.exif_metadata().ok().flatten();
    let mut picture = DynamicImage::from_decoder(decoder).map_err(|e| no_picture(e.to_string()))?;
    picture.apply_orientation(turn);
    if picture.width() > SIDE || picture.height() > SIDE {
        picture = picture.resize(SIDE, SIDE, FilterType::Triangle);
    }
    let small = picture.thumbnail(SMALL, SMALL);
    let beside = beside.filter(|_| keep_position).map(|mut exif| {
        // It is upright now.
        let _ = Orientation::remove_from_exif_chunk(&mut exif);
        exif
    });
    Ok(Ready {
        size: (picture.width(), picture.height()),
        bytes: jpeg(picture, 82, beside)?,
        small: jpeg(small, 75, None)?,
    })
}

fn jpeg(picture: DynamicImage, quality: u8, beside: Option<Vec<u8>>) -> Result<Vec<u8>, Refused> {
    let mut out = Vec::new();
    let mut encoder = JpegEncoder::new_with_quality(&mut out, quality);
    if let Some(exif) = beside {
        encoder.set_exif_metadata(exif).map_err(Refused::defect)?;
    }
    // JPEG has no transparency.
    encoder
        .encode_image(&DynamicImage::ImageRgb8(picture.into_rgb8()))
        .map_err(Refused::defect)?;
    Ok(out)
}
