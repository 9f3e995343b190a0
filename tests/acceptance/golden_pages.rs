//! First pages of three papers as small grey pictures. `make bless` writes them anew; look at them.
//!
//! Compared by the mean grey of squares of 2 mm, so that another version of the renderer, or another
//! renderer, with its own edges of letters is no difference, but a line moved by 3 mm is one.

use std::path::PathBuf;
use std::process::Command;

use evengap_papers::{Kind, Occasion, Page, render};
use evengap_tests::{FONTS, demo, occasion, project};
use image::{GrayImage, Luma};

/// Pages are set with this many dots per inch and then made smaller by `SMALLER`: few dots, smooth edges.
const DOTS_PER_INCH: &str = "150";
const SMALLER: u32 = 3;
/// Side of the squares that are compared, in dots of the small picture (2 mm).
const SQUARE: u32 = 4;
/// Greys (of 256) by which a square differs: well above what two renderers make of the same page.
const DIFFERS: f64 = 20.0;
/// So many squares may differ, of about 15 000 on a sheet of A4.
const SQUARES: usize = 4;
/// Greys by which all squares may differ on average.
const AVERAGE: f64 = 1.5;

/// Sets the first page of a paper of a demo case.
fn first_page(name: &str, kind: Kind, page: Page) -> GrayImage {
    let paper = render(&demo(name), kind, &Occasion { page, ..occasion() }).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("paper.pdf");
    std::fs::write(&file, paper.pdf(&FONTS).unwrap().bytes).unwrap();
    let out = Command::new("pdftoppm")
        .args(["-gray", "-png", "-singlefile", "-r", DOTS_PER_INCH])
        .arg(&file)
        .output()
        .expect("pdftoppm (poppler-utils) is installed");
    assert!(out.status.success(), "pdftoppm must accept the file: {}", String::from_utf8_lossy(&out.stderr));
    smaller(&image::load_from_memory(&out.stdout).unwrap().into_luma8())
}

fn smaller(picture: &GrayImage) -> GrayImage {
    GrayImage::from_fn(picture.width() / SMALLER, picture.height() / SMALLER, |x, y| {
        Luma([mean(picture, x * SMALLER, y * SMALLER, SMALLER).round() as u8])
    })
}

/// Returns the mean grey of a square.
fn mean(picture: &GrayImage, left: u32, top: u32, side: u32) -> f64 {
    let dots = (0..side * side).map(|n| picture.get_pixel(left + n % side, top + n / side).0[0]);
    dots.map(f64::from).sum::<f64>() / f64::from(side * side)
}

/// Says how two pictures differ; nothing if they are alike.
fn difference(found: &GrayImage, agreed: &GrayImage) -> Option<String> {
    let (width, height) = (found.width().min(agreed.width()), found.height().min(agreed.height()));
    if found.width().abs_diff(agreed.width()).max(found.height().abs_diff(agreed.height())) > 1 {
        return Some(format!("{:?} dots instead of {:?}", found.dimensions(), agreed.dimensions()));
    }
    let squares = (0..height / SQUARE).flat_map(|y| (0..width / SQUARE).map(move |x| (x * SQUARE, y * SQUARE)));
    let greys: Vec<((u32, u32), f64)> =
        squares.map(|(x, y)| ((x, y), (mean(found, x, y, SQUARE) - mean(agreed, x, y, SQUARE)).abs())).collect();
    let average = greys.iter().map(|(_, grey)| grey).sum::<f64>() / greys.len() as f64;
    let differing: Vec<_> = greys.iter().filter(|(_, grey)| *grey > DIFFERS).map(|(place, _)| *place).collect();
    (differing.len() > SQUARES || average > AVERAGE).then(|| {
        let first = differing.first();
        format!("{} squares differ, the first at dots {first:?}; on average {average:.2} greys", differing.len())
    })
}

fn check(name: &str, kind: Kind, page: Page) {
    let found = first_page(name, kind, page);
    let file = format!("{name}.{}.png", kind.name());
    let golden = project().join("tests/golden/pages").join(&file);
    if std::env::var_os("UPDATE_EXPECT").is_some() {
        std::fs::create_dir_all(golden.parent().unwrap()).unwrap();
        found.save(&golden).unwrap();
        return;
    }
    let agreed = image::open(&golden).unwrap_or_else(|error| panic!("{}: {error}", golden.display())).into_luma8();
    if let Some(difference) = difference(&found, &agreed) {
        let place = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(&file);
        found.save(&place).unwrap();
        panic!("{file}: {difference}. Compare {} with {}", place.display(), golden.display());
    }
}

#[test]
fn an_operative_note_looks_as_agreed() {
    check("whole-knee-cemented", Kind::OperativeNote, Page::A4);
}

#[test]
fn a_discharge_letter_looks_as_agreed() {
    check("medial-part", Kind::DischargeLetter, Page::A4);
}

#[test]
fn a_component_record_for_the_pocket_looks_as_agreed() {
    check("whole-knee-cemented", Kind::ComponentRecord, Page::Wallet);
}

/// Copies a part of a picture to another place and leaves paper where it was.
fn moved(picture: &GrayImage, (left, top): (u32, u32), (width, height): (u32, u32), down: u32) -> GrayImage {
    let mut out = wiped(picture, (left, top), (width, height));
    for y in 0..height {
        for x in left..left + width {
            out.put_pixel(x, top + y + down, *picture.get_pixel(x, top + y));
        }
    }
    out
}

fn wiped(picture: &GrayImage, (left, top): (u32, u32), (width, height): (u32, u32)) -> GrayImage {
    let mut out = picture.clone();
    for y in top..top + height {
        for x in left..left + width {
            out.put_pixel(x, y, Luma([255]));
        }
    }
    out
}

/// Tells whether a dot is ink; the words across a draft are paler.
fn is_ink(picture: &GrayImage, x: u32, y: u32) -> bool {
    picture.get_pixel(x, y).0[0] < 190
}

/// Finds the first full line of running text in the lower half: left, top, width, height.
fn line(picture: &GrayImage) -> (u32, u32, u32, u32) {
    let inked = |y: u32| (0..picture.width()).filter(|x| is_ink(picture, *x, y)).collect::<Vec<_>>();
    let mut y = picture.height() / 2;
    loop {
        let tall = (0..).take_while(|n| !inked(y + n).is_empty()).count() as u32;
        let dots: Vec<u32> = (y..y + tall).flat_map(inked).collect();
        let (left, right) = (dots.iter().min().unwrap_or(&0), dots.iter().max().unwrap_or(&0));
        if (4..12).contains(&tall) && right - left > picture.width() / 2 {
            return (*left, y, right - left + 1, tall);
        }
        y += tall.max(1);
    }
}

/// Finds the bar at the left of the first box: left, top, width, height.
fn bar(picture: &GrayImage) -> (u32, u32, u32, u32) {
    for x in 0..picture.width() {
        let mut y = 0;
        while y < picture.height() {
            let tall = (y..picture.height()).take_while(|y| is_ink(picture, x, *y)).count() as u32;
            if tall > 15 {
                return (x, y, 3, tall);
            }
            y += tall + 1;
        }
    }
    panic!("the page has a box");
}

#[test]
fn real_changes_are_noticed_and_other_edges_of_letters_are_not() {
    let letter = first_page("medial-part", Kind::DischargeLetter, Page::A4);
    assert_eq!(difference(&letter, &letter), None, "a page is like itself");
    // A printer's or renderer's own weight of letters: every edge a little darker.
    let heavier = GrayImage::from_fn(letter.width(), letter.height(), |x, y| {
        let dot = i32::from(letter.get_pixel(x, y).0[0]);
        Luma([(dot - (255 - dot) / 12).clamp(0, 255) as u8])
    });
    assert_eq!(difference(&heavier, &letter), None, "heavier letters are the same page");

    // 3 mm are 6 dots.
    let (x, y, wide, tall) = line(&letter);
    let change = moved(&letter, (x, y), (wide, tall), 6);
    assert!(difference(&change, &letter).is_some(), "a line moved by 3 mm");
    assert!(difference(&wiped(&letter, (x, y), (60, tall)), &letter).is_some(), "three words are missing");
    let (x, y, wide, tall) = bar(&letter);
    assert!(difference(&wiped(&letter, (x, y), (wide, tall)), &letter).is_some(), "the bar of a box is missing");
    let narrow = GrayImage::from_fn(letter.width() - 10, letter.height(), |x, y| *letter.get_pixel(x, y));
    assert!(difference(&narrow, &letter).is_some(), "another sheet");
}
