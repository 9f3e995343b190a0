//! Codes in a photograph or picture file: Data Matrix, Code 128 and QR in PNG and JPEG bytes.
//!
//! Reads no file and shows no camera. The work is bounded by the size of the picture and a fixed list
//! of attempts, not by a clock. What a code says is for [`read`](crate::read) to find out.

mod attempts;
mod codes;

use std::io::Cursor;

use image::{DynamicImage, GrayImage, ImageFormat, ImageReader, Limits};
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// Larger files are refused (30 MiB).
pub const LARGEST_FILE_BYTES: usize = 30 * 1024 * 1024;
/// Pictures that are wider or higher are refused (a phone's largest photographs stay below it).
pub const LARGEST_SIDE_PIXELS: u32 = 12_000;
/// Pictures with more pixels are refused.
const LARGEST_AREA_PIXELS: u64 = 64_000_000;
const LARGEST_MEMORY_BYTES: u64 = 256 * 1024 * 1024;

/// Holds what one code in a picture says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, TS)]
#[ts(rename = "PictureScan")]
pub struct Scan {
    /// The text as a scanner sends it: symbology identifier first, separators as ASCII 29.
    pub text: String,
    /// The kind of code.
    pub symbology: Symbology,
}

/// Names the kinds of code that are looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum Symbology {
    /// Data Matrix.
    DataMatrix,
    /// Code 128.
    Code128,
    /// QR code.
    Qr,
}

/// Says why no code comes out of a file.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PictureError {
    /// Too many bytes or pixels.
    #[error("The picture is too large ({size}): crop it to the label or save it smaller, and try again.")]
    TooLarge {
        /// The size that was found.
        size: String,
    },
    /// Not PNG or JPEG, or broken.
    #[error("The file is not a readable PNG or JPEG picture: save the photograph as one of these and try again.")]
    NotAPicture,
    /// A picture, but no readable code in it.
    #[error(
        "No readable code was found in the picture: photograph the label again, closer, sharp and without glare, or type lot and expiry from it."
    )]
    NothingReadable,
}

/// Reads every code in a picture; tries again turned, scaled and with more contrast before giving up.
///
/// # Errors
///
/// Refuses files that are too large or no picture, and says so when no readable code is found.
pub fn read_picture(bytes: &[u8]) -> Result<Vec<Scan>, PictureError> {
    let picture = load(bytes)?;
    for stage in attempts::STAGES {
        let mut found: Vec<Scan> = Vec::new();
        for attempt in (stage.make)(&picture) {
            for scan in codes::find(attempt) {
                if !found.contains(&scan) {
                    found.push(scan);
                }
            }
            if !stage.whole && !found.is_empty() {
                break;
            }
        }
        if !found.is_empty() {
            return Ok(found);
        }
    }
    Err(PictureError::NothingReadable)
}

fn load(bytes: &[u8]) -> Result<GrayImage, PictureError> {
    if bytes.len() > LARGEST_FILE_BYTES {
        return Err(PictureError::TooLarge { size: format!("{} MB", bytes.len() / 1_000_000) });
    }
    let reader = |limited: bool| -> Result<ImageReader<Cursor<&[u8]>>, PictureError> {
        let mut reader =
            ImageReader::new(Cursor::new(bytes)).with_guessed_format().map_err(|_| PictureError::NotAPicture)?;
        if !matches!(reader.format(), Some(ImageFormat::Png | ImageFormat::Jpeg)) {
            return Err(PictureError::NotAPicture);
        }
        if limited {
            let mut limits = Limits::default();
            limits.max_image_width = Some(LARGEST_SIDE_PIXELS);
            limits.max_image_height = Some(LARGEST_SIDE_PIXELS);
            limits.max_alloc = Some(LARGEST_MEMORY_BYTES);
            reader.limits(limits);
        }
        Ok(reader)
    };
    let (width, height) = reader(false)?.into_dimensions().map_err(|_| PictureError::NotAPicture)?;
    if width == 0 || height == 0 {
        return Err(PictureError::NotAPicture);
    }
    let too_large = || PictureError::TooLarge { size: format!("{width} × {height} pixels") };
    if width.max(height) > LARGEST_SIDE_PIXELS || u64::from(width) * u64::from(height) > LARGEST_AREA_PIXELS {
        return Err(too_large());
    }
    match reader(true)?.decode() {
        Ok(picture) => Ok(on_white(&picture)),
        Err(image::ImageError::Limits(_)) => Err(too_large()),
        Err(_) => Err(PictureError::NotAPicture),
    }
}

/// Turns a picture grey; what is transparent becomes white, as on paper.
fn on_white(picture: &DynamicImage) -> GrayImage {
    if !picture.color().has_alpha() {
        return picture.to_luma8();
    }
    let grey = picture.to_luma_alpha8();
    GrayImage::from_fn(grey.width(), grey.height(), |x, y| {
        let [light, opaque] = grey.get_pixel(x, y).0;
        let mixed = (u16::from(light) * u16::from(opaque) + 255 * (255 - u16::from(opaque))) / 255;
        image::Luma([u8::try_from(mixed).unwrap_or(u8::MAX)])
    })
}
