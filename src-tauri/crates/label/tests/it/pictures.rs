//! Codes in pictures: clean, worn, turned, and pictures without any.
//!
//! The codes were drawn once by another library, see `tests/pictures/make.mjs`; the wear is done here.

use std::fs;
use std::io::Cursor;
use std::path::Path;

use evengap_label::{PictureError, Symbology, read_picture};
use image::imageops::{self, FilterType};
use image::{DynamicImage, GrayImage, ImageFormat, Luma};

use super::{scan, told};

/// Every drawn code with what it says.
const CODES: &[(&str, Symbology, &str)] = &[
    ("gs1-data-matrix", Symbology::DataMatrix, "]d20109521041001272112411061734110510T228401\u{1d}21S7194998"),
    ("gs1-data-matrix-wide", Symbology::DataMatrix, "]d201095210410012721734110510T228401"),
    ("gs1-128", Symbology::Code128, "]C101095210410012721734110510T228401"),
    ("gs1-128-item", Symbology::Code128, "]C10109521041001272"),
    ("gs1-128-lot", Symbology::Code128, "]C110T228401\u{1d}21S7194998"),
    ("gs1-qr", Symbology::Qr, "]Q301095210410012721734110510T228401\u{1d}21S7194998"),
    ("hibc-data-matrix", Symbology::DataMatrix, "]d1+A123SKLFMR0/$$3350127LV68684/SV9151623/16D20250128H"),
    ("hibc-128", Symbology::Code128, "]C0+A123SKLTBR0/$$3341231LV07579"),
];

fn drawn(name: &str) -> GrayImage {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pictures").join(format!("{name}.png"));
    image::load_from_memory(&fs::read(path).unwrap()).unwrap().to_luma8()
}

fn saved(picture: &GrayImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    DynamicImage::ImageLuma8(picture.clone()).write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

/// Puts a picture on a larger white ground.
fn placed(picture: &GrayImage, width: u32, height: u32) -> GrayImage {
    let mut ground = GrayImage::from_pixel(width, height, Luma([255]));
    imageops::overlay(
        &mut ground,
        picture,
        i64::from((width - picture.width()) / 2),
        i64::from((height - picture.height()) / 2),
    );
    ground
}

fn turned(picture: &GrayImage, degrees: f32) -> GrayImage {
    let side = ((picture.width().pow(2) + picture.height().pow(2)) as f32).sqrt().ceil() as u32 + 20;
    let ground = placed(picture, side, side);
    let (sin, cos) = degrees.to_radians().sin_cos();
    let middle = side as f32 / 2.0;
    GrayImage::from_fn(side, side, |x, y| {
        let (x, y) = (x as f32 - middle, y as f32 - middle);
        imageops::interpolate_bilinear(&ground, x * cos + y * sin + middle, y * cos - x * sin + middle)
            .unwrap_or(Luma([255]))
    })
}

/// Squeezes the greys between two values.
fn faded(picture: &GrayImage, dark: u8, light: u8) -> GrayImage {
    let mut faded = picture.clone();
    for pixel in faded.pixels_mut() {
        pixel.0[0] = dark + u8::try_from(u32::from(pixel.0[0]) * u32::from(light - dark) / 255).unwrap();
    }
    faded
}

/// Sprinkles noise, the same on every run.
fn noisy(picture: &GrayImage, strength: i32) -> GrayImage {
    let mut seed = 0x2545_F491_4F6C_DD1D_u64;
    let mut noisy = picture.clone();
    for pixel in noisy.pixels_mut() {
        seed ^= seed << 13;
        seed ^= seed >> 7;
        seed ^= seed << 17;
        let noise = i32::try_from(seed % 201).unwrap() - 100;
        pixel.0[0] = u8::try_from((i32::from(pixel.0[0]) + noise * strength / 100).clamp(0, 255)).unwrap();
    }
    noisy
}

/// Reads a worn picture of each code and holds the text against what was drawn.
fn check(why: &str, names: &[&str], wear: impl Fn(&GrayImage) -> GrayImage) {
    for (name, symbology, text) in CODES.iter().filter(|(name, ..)| names.contains(name)) {
        let picture = wear(&drawn(name));
        let found =
            read_picture(&saved(&picture, ImageFormat::Png)).unwrap_or_else(|error| panic!("{name}, {why}: {error}"));
        assert_eq!(found.len(), 1, "one code in {name}, {why}");
        assert_eq!(found[0].symbology, *symbology, "kind of {name}, {why}");
        assert!(found[0].text.starts_with(text), "{name}, {why}: {:?}", found[0].text);
    }
}

const ALL: &[&str] = &[
    "gs1-data-matrix",
    "gs1-data-matrix-wide",
    "gs1-128",
    "gs1-128-item",
    "gs1-128-lot",
    "gs1-qr",
    "hibc-data-matrix",
    "hibc-128",
];

#[test]
fn clean_codes() {
    check("as drawn", ALL, Clone::clone);
    check("upside down", ALL, imageops::rotate180);
    check("on its side", ALL, imageops::rotate90);
}

#[test]
fn worn_codes() {
    check("faded", ALL, |picture| faded(picture, 150, 185));
    check("dark", ALL, |picture| faded(picture, 5, 40));
    check("blurred", ALL, |picture| imageops::blur(picture, 1.3));
    check("noisy", ALL, |picture| noisy(picture, 45));
    check("noisy and faded", &["gs1-data-matrix"], |picture| noisy(&faded(picture, 100, 170), 20));
    check("noisy", &["hibc-128"], |picture| noisy(picture, 120));
    check("small", &["gs1-data-matrix", "gs1-qr"], |picture| {
        imageops::resize(picture, picture.width() / 2, picture.height() / 2, FilterType::Triangle)
    });
    check("in a large photograph", &["gs1-data-matrix", "gs1-128-item"], |picture| placed(picture, 2400, 1800));
}

#[test]
fn turned_codes() {
    for degrees in [7.0, 20.0, 33.0, 49.0, 118.0] {
        check(&format!("turned by {degrees}°"), &["gs1-128-item", "gs1-data-matrix"], |picture| {
            turned(picture, degrees)
        });
    }
}

#[test]
fn both_codes_of_a_label() {
    let (item, lot) = (drawn("gs1-128-item"), drawn("gs1-128-lot"));
    let mut label =
        GrayImage::from_pixel(item.width().max(lot.width()) + 60, item.height() + lot.height() + 120, Luma([255]));
    imageops::overlay(&mut label, &item, 30, 30);
    imageops::overlay(&mut label, &lot, 30, i64::from(item.height()) + 90);
    let mut texts: Vec<String> =
        read_picture(&saved(&label, ImageFormat::Png)).unwrap().into_iter().map(|scan| scan.text).collect();
    texts.sort();
    assert_eq!(texts, ["]C10109521041001272", "]C110T228401\u{1d}21S7194998"], "both codes");
    assert_eq!(told(&scan(&texts.join("\n"))), "gs1 di=09521041001272 lot=T228401 serial=S7194998", "one label");
}

#[test]
fn photographs_and_transparent_pictures() {
    let picture = placed(&drawn("gs1-data-matrix"), 400, 300);
    assert!(read_picture(&saved(&picture, ImageFormat::Jpeg)).is_ok(), "JPEG");
    let mut clear = image::GrayAlphaImage::new(picture.width(), picture.height());
    for (x, y, pixel) in picture.enumerate_pixels() {
        clear.put_pixel(x, y, image::LumaA([0, 255 - pixel.0[0]]));
    }
    let mut bytes = Cursor::new(Vec::new());
    DynamicImage::ImageLumaA8(clear).write_to(&mut bytes, ImageFormat::Png).unwrap();
    assert!(read_picture(&bytes.into_inner()).is_ok(), "black on nothing");
    let mut light = picture;
    imageops::invert(&mut light);
    assert!(read_picture(&saved(&light, ImageFormat::Png)).is_ok(), "light on dark, as engraved");
}

#[test]
fn nothing_to_read() {
    let refusal = |bytes: &[u8]| {
        let error = read_picture(bytes).unwrap_err();
        let sentence = error.to_string();
        assert!(sentence.ends_with('.') && !sentence.contains(". "), "one sentence: {sentence}");
        error
    };
    let whole = saved(&drawn("gs1-128"), ImageFormat::Png);
    for bytes in [&b""[..], b"no picture", b"GIF89a\x01\0\x01\0", &whole[..60], &whole[..whole.len() / 2]] {
        assert_eq!(refusal(bytes), PictureError::NotAPicture, "{} bytes", bytes.len());
    }
    let white = GrayImage::from_pixel(300, 200, Luma([255]));
    assert_eq!(refusal(&saved(&white, ImageFormat::Png)), PictureError::NothingReadable, "a white sheet");
    assert_eq!(
        refusal(&saved(&noisy(&faded(&white, 0, 128), 100), ImageFormat::Png)),
        PictureError::NothingReadable,
        "noise"
    );
    assert_eq!(refusal(&saved(&GrayImage::new(1, 1), ImageFormat::Png)), PictureError::NothingReadable, "one pixel");
    for (width, height) in [(12_001, 1), (1, 12_001), (9_000, 9_000)] {
        let large = GrayImage::new(width, height);
        assert!(
            matches!(refusal(&saved(&large, ImageFormat::Png)), PictureError::TooLarge { .. }),
            "{width} × {height}"
        );
    }
}
