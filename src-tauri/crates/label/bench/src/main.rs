//! Times our label reader beside a general-purpose GS1 parser (qrcode-parse) on the same labels.
//!
//! A million different labels on one core, in one run. The general parser only cuts the text at the
//! separators and names the elements: no check digits, dates, pairing, printed form or HIBC.

use std::error::Error;
use std::hint::black_box;
use std::time::Instant;

use evengap_label::{Options, read};
use qrcode_parse::gs1::Gs1Result;

const LABELS: u32 = 1_000_000;
const TARGET_SECONDS: f64 = 5.0;
const ALPHABET: &str = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%";

fn main() -> Result<(), Box<dyn Error>> {
    let options = Options::new(2026);
    let gs1: Vec<String> = (0..LABELS).map(gs1).collect();
    let mixed: Vec<String> = (0..LABELS)
        .map(|number| match number % 4 {
            0 => printed(number),
            1 => hibc(number),
            _ => self::gs1(number),
        })
        .collect();
    for label in gs1.iter().chain(&mixed).step_by(9_973) {
        let label = read(label, &options);
        assert!(label.warnings.is_empty() && label.expires_on.is_some(), "the labels are right: {label:?}");
        assert!(
            Gs1Result::parse(gs1[0].as_bytes()).is_ok_and(|result| result.elements().len() == 5),
            "the peer reads them"
        );
    }
    let ours = time("ours, GS1", &gs1, |label| read(label, &options).elements.len());
    let peer = time("peer (qrcode-parse), GS1", &gs1, |label| {
        Gs1Result::parse(label.as_bytes()).map_or(0, |result| result.elements().len())
    });
    let all = time("ours, GS1 scanned and printed, HIBC", &mixed, |label| read(label, &options).elements.len());
    println!("ours / peer on GS1                      {:8.2}", ours / peer);
    let verdict = if ours.max(all) < TARGET_SECONDS { "met" } else { "MISSED" };
    println!("target {TARGET_SECONDS} s for a million labels: {verdict}");
    Ok(())
}

/// Times a million labels after a warm-up; returns seconds.
fn time(name: &str, labels: &[String], read: impl Fn(&str) -> usize) -> f64 {
    let all = |labels: &[String]| labels.iter().map(|label| black_box(read(label))).sum::<usize>();
    all(&labels[..labels.len() / 10]);
    let begin = Instant::now();
    let elements = all(labels);
    let seconds = begin.elapsed().as_secs_f64();
    println!("{name:<40}{seconds:8.2} s, {elements} elements");
    seconds
}

/// A GTIN of the demonstration prefix with its check digit.
fn item(number: u32) -> String {
    let digits = format!("0952{:09}", number % 1_000_000_000);
    let sum: u32 = digits
        .bytes()
        .rev()
        .zip([3, 1].into_iter().cycle())
        .map(|(byte, weight)| u32::from(byte - b'0') * weight)
        .sum();
    format!("{digits}{}", (10 - sum % 10) % 10)
}

fn day(number: u32) -> String {
    format!("{:02}{:02}{:02}", 27 + number % 9, 1 + number % 12, 1 + number % 28)
}

fn gs1(number: u32) -> String {
    format!(
        "01{}11{:02}0401{}{}10T{number:07}\u{1d}21S{:07}",
        item(number),
        20 + number % 6,
        17,
        day(number),
        number ^ 0x5A5A
    )
}

fn printed(number: u32) -> String {
    format!("(01){}(17){}(10)T{number:07}(21)S{:07}", item(number), day(number), number ^ 0x5A5A)
}

fn hibc(number: u32) -> String {
    let text = format!("+A123K{number:06}0/$$3{}LV{number:05}/S{number:06}", day(number));
    let sum: usize = text.chars().filter_map(|character| ALPHABET.find(character)).sum();
    let check = ALPHABET.chars().nth(sum % 43).unwrap_or(' ');
    format!("{text}{check}")
}
