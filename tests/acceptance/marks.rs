//! The marks of component records, read back by readers that know nothing of ours: pages set by poppler
//! and drawings set by resvg, read by rxing.

use std::process::Command;

use evengap_case::Case;
use evengap_case::sections::{Component, Fate, LabelScheme};
use evengap_label::{Label, Options, Scan, Symbology, read, read_picture};
use evengap_papers::{Kind, Occasion, Page, render};
use evengap_tests::{FONTS, demos, occasion};
use resvg::{tiny_skia, usvg};

/// Says what a label and a component have in common, in one line.
fn line(scheme: &str, parts: [Option<String>; 5]) -> String {
    format!("{scheme} {}", parts.map(Option::unwrap_or_default).join(" | "))
}

fn of_component(component: &Component) -> String {
    let text = |date: Option<evengap_case::Date>| date.map(|date| date.to_string());
    let scheme = component.scan.scheme.map_or("", |scheme| scheme.code());
    line(
        scheme,
        [
            component.scan.device_identifier.clone(),
            component.lot.clone(),
            component.serial.clone(),
            text(component.made_on),
            text(component.expires_on),
        ],
    )
}

fn of_scan(scan: &Scan, place: &str) -> String {
    assert_eq!(scan.symbology, Symbology::DataMatrix, "{place}: a Data Matrix");
    let label: Label = read(&scan.text, &Options::new(2026));
    assert_eq!(label.warnings, [], "{place}: nothing about {:?} looks wrong", scan.text);
    let text = |date: Option<evengap_label::LabelDate>| date.map(|date| date.on.to_string());
    let scheme = if scan.text.starts_with("]d2") { "gs1" } else { "hibc" };
    line(scheme, [label.device_identifier, label.lot, label.serial, text(label.made_on), text(label.expires_on)])
}

/// The marks that a record must show, in their order: every implanted component whose label was scanned.
fn expected(case: &Case) -> Vec<String> {
    let scanned = |c: &&Component| {
        c.fate == Some(Fate::Implanted) && matches!(c.scan.scheme, Some(LabelScheme::Gs1 | LabelScheme::Hibc))
    };
    case.components.iter().filter(scanned).map(of_component).collect()
}

fn sorted(mut lines: Vec<String>) -> Vec<String> {
    lines.sort();
    lines
}

/// Sets the left part of each page, where the marks stand, as a grey picture with poppler.
fn pictures(pdf: &[u8], page: Page) -> Vec<Vec<u8>> {
    const DOTS_PER_INCH: f32 = 250.0;
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("record.pdf");
    std::fs::write(&file, pdf).unwrap();
    let width = (page.size_pt().0 / 72.0 * DOTS_PER_INCH * 0.3).round().to_string();
    let status = Command::new("pdftoppm")
        .args(["-gray", "-png", "-r", &DOTS_PER_INCH.to_string(), "-x", "0", "-W", &width])
        .arg(&file)
        .arg(folder.path().join("page"))
        .status()
        .expect("pdftoppm (poppler-utils) is installed");
    assert!(status.success(), "pdftoppm must accept the file");
    let mut names: Vec<_> = std::fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().path()).collect();
    names.retain(|name| name.extension().is_some_and(|ending| ending == "png"));
    names.sort();
    names.iter().map(|name| std::fs::read(name).unwrap()).collect()
}

#[test]
fn marks_of_every_record_read_back_from_the_printed_page() {
    for (name, case) in demos() {
        for page in [Page::A4, Page::Wallet] {
            let record = render(&case, Kind::ComponentRecord, &Occasion { page, ..occasion() }).unwrap();
            let pdf = record.pdf(&FONTS).unwrap();
            let place = format!("{name}, {page:?}");
            let mut found = Vec::new();
            for picture in pictures(&pdf.bytes, page) {
                let scans = read_picture(&picture).unwrap_or_default();
                found.extend(scans.iter().map(|scan| of_scan(scan, &place)));
            }
            assert_eq!(sorted(found), sorted(expected(&case)), "{place}: the codes on the page say what is recorded");
        }
    }
}

#[test]
fn marks_of_every_record_read_back_from_the_window() {
    for (name, case) in demos() {
        let record = render(&case, Kind::ComponentRecord, &occasion()).unwrap();
        let html = record.html();
        let found: Vec<_> = html
            .split("<svg")
            .skip(1)
            .map(|rest| {
                let svg = format!("<svg{}</svg>", rest.split("</svg>").next().unwrap());
                let tree = usvg::Tree::from_str(&svg, &usvg::Options::default()).unwrap();
                let mut picture = tiny_skia::Pixmap::new(320, 320).unwrap();
                picture.fill(tiny_skia::Color::WHITE);
                let scale = 320.0 / tree.size().width();
                resvg::render(&tree, tiny_skia::Transform::from_scale(scale, scale), &mut picture.as_mut());
                let scans = read_picture(&picture.encode_png().unwrap()).unwrap();
                assert_eq!(scans.len(), 1, "{name}: one code in a drawing");
                of_scan(&scans[0], &name)
            })
            .collect();
        assert_eq!(found, expected(&case), "{name}: the drawings stand in the order of the components");
    }
}

/// GS1 General Specifications, regulated healthcare items: X-dimension 0.254 to 0.990 mm, quiet zone of at
/// least one module on each side.
#[test]
fn modules_are_as_large_as_the_standard_asks() {
    let (_, case) = demos().into_iter().find(|(name, _)| name == "whole-knee-cemented").unwrap();
    let record = render(&case, Kind::ComponentRecord, &Occasion { page: Page::Wallet, ..occasion() }).unwrap();
    let drawings: Vec<_> = evengap_papers::drawings::marks(&case, occasion().made_at).collect();
    assert_eq!(drawings.len(), 6, "one mark for each component");
    for (name, drawing) in drawings {
        let cells = drawing.shapes.iter().find_map(|shape| match shape {
            evengap_papers::drawing::Shape::Cells { at, cell_mm, rows, .. } => Some((*at, *cell_mm, rows.len())),
            _ => None,
        });
        let ((left, top), module_mm, modules) = cells.expect("a mark is made of cells");
        assert!((0.4..=0.99).contains(&module_mm), "{name}: modules of {module_mm} mm");
        let quiet = [left, top, drawing.width_mm, drawing.height_mm];
        let [left, top, width, height] = quiet;
        let side = modules as f32 * module_mm;
        for gap in [left, top, width - left - side, height - top - side] {
            assert!(gap >= module_mm * 0.999, "{name}: a quiet zone of {gap} mm");
        }
    }
    assert!(record.unfinished.is_empty(), "the demo's record is finished: {:?}", record.unfinished);
}
