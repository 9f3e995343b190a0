//! Reads PDFs back with outside readers: `pdftotext` (poppler) for words and places, lopdf for
//! the file's structure.

use std::io::Write;
use std::process::{Command, Stdio};

/// Returns the text of each page as `pdftotext` with these options gives it.
pub fn pages(pdf: &[u8], options: &[&str]) -> Vec<String> {
    let text = pdftotext(pdf, options);
    let mut pages: Vec<String> = text.split('\u{c}').map(str::to_owned).collect();
    pages.pop();
    pages
}

/// Holds one word and its box in points from the sheet's top left.
#[derive(Debug)]
pub struct Word {
    pub page: usize,
    pub x_min: f32,
    pub x_max: f32,
    pub y_min: f32,
    pub y_max: f32,
    /// The word, for a failing test's message.
    #[allow(dead_code, reason = "printed by Debug")]
    pub text: String,
}

/// Returns every word with its place.
pub fn words(pdf: &[u8]) -> Vec<Word> {
    let mut page = 0;
    let mut words = Vec::new();
    for line in pdftotext(pdf, &["-bbox"]).lines().map(str::trim) {
        if line.starts_with("<page ") {
            page += 1;
        }
        let Some(rest) = line.strip_prefix("<word ") else { continue };
        let number = |name: &str| -> f32 {
            let after = rest.split_once(&format!("{name}=\"")).unwrap().1;
            after.split_once('"').unwrap().0.parse().unwrap()
        };
        words.push(Word {
            page,
            x_min: number("xMin"),
            x_max: number("xMax"),
            y_min: number("yMin"),
            y_max: number("yMax"),
            text: rest.split_once('>').unwrap().1.replace("</word>", ""),
        });
    }
    words
}

fn pdftotext(pdf: &[u8], options: &[&str]) -> String {
    let mut child = Command::new("pdftotext")
        .args(options)
        .args(["-enc", "UTF-8", "-", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("these tests read papers with pdftotext: install poppler-utils");
    let mut stdin = child.stdin.take().unwrap();
    let bytes = pdf.to_vec();
    let feed = std::thread::spawn(move || stdin.write_all(&bytes));
    let output = child.wait_with_output().unwrap();
    feed.join().unwrap().unwrap();
    assert!(output.status.success(), "pdftotext refused the file");
    String::from_utf8(output.stdout).unwrap()
}
