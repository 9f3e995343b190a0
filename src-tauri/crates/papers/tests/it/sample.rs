//! One realistic paper for the tests, with invented people and components.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use evengap_papers::blocks;
use evengap_papers::document::{Document, Fact, Page, PageWords};
use evengap_papers::drawing::{Anchor, Drawing, Shape, Tone};

/// Markdown of a long operative note.
pub const LONG_NOTE: &str = include_str!("samples/long-note.md");

/// Makes a document from Markdown, with a head and a foot as a real paper has them.
pub fn document(markdown: &str) -> Document {
    let drawings = BTreeMap::from([("balance".to_owned(), balance())]);
    Document {
        title: "Operative note".to_owned(),
        language: "en-GB".to_owned(),
        author: "Людмила Щербакова".to_owned(),
        subject: "Left knee, 14 May 2026".to_owned(),
        made_at: NaiveDate::from_ymd_opt(2026, 5, 14).and_then(|day| day.and_hms_opt(11, 5, 0)).unwrap(),
        head: vec![
            Fact::new("", "Sigríður Nguyễn-Παππά"),
            Fact::new("Born", "3 May 1950"),
            Fact::new("Hospital number", "LH-204417"),
            Fact::new("", "Left knee"),
        ],
        foot: "Operative note 1.0 · written by Людмила Щербакова · 14 May 2026, 11:05".to_owned(),
        mark: Some("DRAFT, NOT SIGNED".to_owned()),
        demonstration: true,
        page: Page::A4,
        words: PageWords::default(),
        blocks: blocks::parse(markdown, &drawings).unwrap(),
    }
}

/// Draws two gaps with their millimetres: every shape and every tone.
pub fn balance() -> Drawing {
    let mut shapes = Vec::new();
    for (left, title, medial, lateral) in
        [(4.0, "Extension", "1.0 mm", "1.0 mm"), (64.0, "Flexion", "1.0 mm", "2.0 mm")]
    {
        let text = |x: f32, y: f32, words: &str, bold: bool, tone: Tone| Shape::Text {
            at: (left + x, y),
            words: words.to_owned(),
            anchor: Anchor::Middle,
            size_mm: 2.9,
            bold,
            tone,
        };
        let block = |points: &[(f32, f32)]| Shape::Path {
            points: points.iter().map(|(x, y)| (left + x, *y)).collect(),
            closed: true,
            fill: Tone::Fill,
            stroke: Tone::Ink,
            thickness_mm: 0.3,
        };
        shapes.push(text(25.0, 4.0, title, true, Tone::Ink));
        shapes.push(block(&[(5.0, 7.0), (45.0, 7.0), (45.0, 12.0), (38.0, 15.0), (12.0, 15.0), (5.0, 12.0)]));
        shapes.push(block(&[(5.0, 21.0), (45.0, 21.0), (42.0, 30.0), (8.0, 30.0)]));
        for (x, words) in [(12.0, medial), (38.0, lateral)] {
            shapes.push(Shape::Line {
                from: (left + x, 15.0),
                to: (left + x, 21.0),
                stroke: Tone::Accent,
                thickness_mm: 0.4,
                dashed: x > 20.0,
            });
            shapes.push(Shape::Circle {
                at: (left + x, 18.0),
                radius_mm: 0.8,
                fill: Tone::Accent,
                stroke: Tone::None,
                thickness_mm: 0.0,
            });
            let shift = if x < 20.0 { 6.8 } else { -6.8 };
            shapes.push(text(x + shift, 19.2, words, false, Tone::Ink));
        }
        shapes.push(text(12.0, 34.5, "medial", false, Tone::Soft));
        shapes.push(text(38.0, 34.5, "lateral", false, Tone::Soft));
    }
    Drawing {
        width_mm: 118.0,
        height_mm: 36.0,
        shapes,
        alt: "Extension: medial 1.0 mm, lateral 1.0 mm. Flexion: medial 1.0 mm, lateral 2.0 mm.".to_owned(),
    }
}
