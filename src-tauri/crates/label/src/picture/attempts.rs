//! The attempts at a picture, from the cheapest to the most patient.
//!
//! A stage that finds something ends the search. Bound: about thirty attempts at up to 6 million
//! pixels, half of them tiles of 2 million: some seconds for a large photograph without any code.

use image::imageops::{self, FilterType};
use image::{GrayImage, Luma};

/// One kind of attempt.
pub(super) struct Stage {
    /// Makes the pictures to try.
    pub make: fn(&GrayImage) -> Box<dyn Iterator<Item = GrayImage> + '_>,
    /// Whether every picture is tried even after a find: two codes of one label may need two of them.
    pub whole: bool,
}

/// All stages in their order.
pub(super) const STAGES: &[Stage] = &[
    Stage { make: plain, whole: true },
    Stage { make: stretched, whole: true },
    Stage { make: large, whole: true },
    Stage { make: turned, whole: false },
    Stage { make: smoothed, whole: false },
    Stage { make: tiles, whole: true },
    Stage { make: turned_finely, whole: false },
];

const USUAL: u32 = 1400;
const SMALL: u32 = 700;
const LARGE: u32 = 2800;
/// Larger photographs are scaled to this before they are cut into tiles.
const LARGEST: u32 = 4200;
const TILE: u32 = 1400;
/// A code of up to this size lies whole in one tile.
const OVERLAP: u32 = 450;

fn plain(picture: &GrayImage) -> Box<dyn Iterator<Item = GrayImage> + '_> {
    Box::new(sizes(picture).into_iter().map(|side| sized(picture, side)))
}

fn stretched(picture: &GrayImage) -> Box<dyn Iterator<Item = GrayImage> + '_> {
    Box::new(sizes(picture).into_iter().map(|side| stretch(sized(picture, side))))
}

fn large(picture: &GrayImage) -> Box<dyn Iterator<Item = GrayImage> + '_> {
    let is_larger = longest(picture) > USUAL;
    Box::new(is_larger.then(|| stretch(sized(picture, LARGE))).into_iter())
}

/// Noise wants smoothing, blur wants sharpening; which of them it is shows by trying.
fn smoothed(picture: &GrayImage) -> Box<dyn Iterator<Item = GrayImage> + '_> {
    let begin = sized(picture, USUAL.min(2 * longest(picture)));
    let steps: [fn(&GrayImage) -> GrayImage; 6] = [
        |picture| imageops::blur(picture, 1.2),
        |picture| imageops::blur(picture, 2.5),
        |picture| imageops::unsharpen(picture, 2.0, 1),
        |picture| imageops::unsharpen(&imageops::unsharpen(picture, 3.0, 1), 3.0, 1),
        |picture| imageops::unsharpen(&imageops::unsharpen(picture, 5.0, 1), 5.0, 1),
        |picture| imageops::unsharpen(&imageops::unsharpen(&imageops::unsharpen(picture, 4.0, 1), 4.0, 1), 4.0, 1),
    ];
    Box::new(steps.into_iter().map(move |step| stretch(step(&begin))))
}

/// A small code in a large photograph shows only at full size, piece by piece.
fn tiles(picture: &GrayImage) -> Box<dyn Iterator<Item = GrayImage> + '_> {
    if longest(picture) <= USUAL {
        return Box::new(std::iter::empty());
    }
    let picture = sized(picture, longest(picture).min(LARGEST));
    let (width, height) = picture.dimensions();
    let starts = |length: u32| (0..length.saturating_sub(OVERLAP).max(1)).step_by((TILE - OVERLAP) as usize);
    let places: Vec<(u32, u32)> = starts(height).flat_map(|y| starts(width).map(move |x| (x, y))).collect();
    Box::new(places.into_iter().map(move |(x, y)| {
        stretch(imageops::crop_imm(&picture, x, y, TILE.min(width - x), TILE.min(height - y)).to_image())
    }))
}

/// Code 128 is found only near multiples of 90°.
fn turned(picture: &GrayImage) -> Box<dyn Iterator<Item = GrayImage> + '_> {
    turned_by(&[45.0, 30.0, 60.0, 15.0, 75.0], stretch(sized(picture, 1000.min(2 * longest(picture)))))
}

fn turned_finely(picture: &GrayImage) -> Box<dyn Iterator<Item = GrayImage> + '_> {
    turned_by(&[22.0, 68.0, 8.0, 82.0, 38.0, 52.0], stretch(sized(picture, 1000.min(2 * longest(picture)))))
}

fn turned_by<'a>(angles: &'a [f32], picture: GrayImage) -> Box<dyn Iterator<Item = GrayImage> + 'a> {
    Box::new(angles.iter().map(move |&angle| turn(&picture, angle)))
}

fn longest(picture: &GrayImage) -> u32 {
    picture.width().max(picture.height())
}

fn sizes(picture: &GrayImage) -> Vec<u32> {
    let longest = longest(picture);
    if longest > USUAL {
        vec![USUAL, SMALL]
    } else if longest > SMALL {
        vec![longest, SMALL]
    } else {
        vec![longest, 2 * longest]
    }
}

/// Scales a picture so that its longer side has `side` pixels.
fn sized(picture: &GrayImage, side: u32) -> GrayImage {
    let longest = longest(picture);
    if longest == side {
        return picture.clone();
    }
    let scaled = |length: u32| {
        u32::try_from(u64::from(length) * u64::from(side) / u64::from(longest.max(1))).unwrap_or(1).max(1)
    };
    imageops::resize(picture, scaled(picture.width()), scaled(picture.height()), FilterType::Triangle)
}

/// Spreads the greys between the darkest and the lightest hundredth over black to white.
fn stretch(mut picture: GrayImage) -> GrayImage {
    let mut counts = [0_u32; 256];
    for pixel in picture.pixels() {
        counts[usize::from(pixel.0[0])] += 1;
    }
    let share = picture.width() * picture.height() / 100;
    let counts_up = |sum: &mut u32, value: u8| {
        *sum += counts[usize::from(value)];
        Some((*sum, value))
    };
    let beyond = |&(sum, _): &(u32, u8)| sum > share;
    let low = (0..=255).scan(0, counts_up).find(beyond);
    let high = (0..=255).rev().scan(0, counts_up).find(beyond);
    let (Some((_, low)), Some((_, high))) = (low, high) else { return picture };
    if low >= high {
        return picture;
    }
    let (low, span) = (u32::from(low), u32::from(high - low));
    for pixel in picture.pixels_mut() {
        let value = u32::from(pixel.0[0]).saturating_sub(low) * 255 / span;
        pixel.0[0] = u8::try_from(value).unwrap_or(u8::MAX);
    }
    picture
}

/// Turns a picture about its centre on a white ground that holds all of it.
fn turn(picture: &GrayImage, degrees: f32) -> GrayImage {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let (width, height) = (picture.width() as f32, picture.height() as f32);
    let (new_width, new_height) = (width * cos.abs() + height * sin.abs(), width * sin.abs() + height * cos.abs());
    GrayImage::from_fn(new_width.ceil() as u32, new_height.ceil() as u32, |x, y| {
        let (x, y) = (x as f32 - new_width / 2.0, y as f32 - new_height / 2.0);
        let (x, y) = (x * cos + y * sin + width / 2.0, y * cos - x * sin + height / 2.0);
        imageops::interpolate_bilinear(picture, x, y).unwrap_or(Luma([255]))
    })
}
