//! Times our paper writer beside a general typesetting library (typst) on the same Markdown.
//!
//! Both get the same fonts, the same head and foot and a document that differs each time. Prints
//! the median and the slowest of single papers, and a batch of 200, in one run on one core.
//! `--keep DIR` writes one PDF of each, to look at.

mod peer;

use std::collections::BTreeMap;
use std::error::Error;
use std::path::PathBuf;
use std::time::{Duration, Instant};

use chrono::NaiveDate;
use evengap_papers::document::{Document, Fact, Page};
use evengap_papers::fonts::Fonts;
use evengap_papers::{blocks, pdf};

const NOTE: &str = include_str!("../../tests/it/samples/long-note.md");
const WARM_UP: usize = 20;
const SINGLE: usize = 200;
const BATCH: usize = 200;

fn main() -> Result<(), Box<dyn Error>> {
    let keep = keep();
    let begin = Instant::now();
    let fonts = Fonts::built_in()?;
    println!("our fonts, once              {:8.2} ms", ms(begin.elapsed()));
    let begin = Instant::now();
    let peer = peer::Peer::new()?;
    println!("peer's fonts, once           {:8.2} ms", ms(begin.elapsed()));

    let mut ours = |number: usize| -> Result<Vec<u8>, Box<dyn Error>> {
        let document = document(&note(number), number)?;
        Ok(pdf::write(&document, &fonts)?.bytes)
    };
    let mut theirs = |number: usize| peer.write(&note(number), number);
    let our_single = time("ours", &mut ours)?;
    let peer_single = time("peer", &mut theirs)?;
    println!("ours / peer                  {:8.2}", our_single / peer_single);
    if let Some(dir) = keep {
        std::fs::create_dir_all(&dir)?;
        std::fs::write(dir.join("ours.pdf"), ours(0)?)?;
        std::fs::write(dir.join("peer.pdf"), theirs(0)?)?;
    }
    Ok(())
}

/// Times single papers and a batch; returns the median of the single ones in milliseconds.
fn time(
    name: &str,
    write: &mut dyn FnMut(usize) -> Result<Vec<u8>, Box<dyn Error>>,
) -> Result<f64, Box<dyn Error>> {
    let mut size = 0;
    for number in 0..WARM_UP {
        size = write(number)?.len();
    }
    let mut times = Vec::with_capacity(SINGLE);
    for number in 0..SINGLE {
        let begin = Instant::now();
        write(1000 + number)?;
        times.push(ms(begin.elapsed()));
    }
    times.sort_by(f64::total_cmp);
    let (median, slowest) = (times[SINGLE / 2], times[SINGLE - 1]);
    println!("{name}: one paper, warm        {median:8.2} ms (slowest {slowest:.2}), {size} bytes");
    let begin = Instant::now();
    for number in 0..BATCH {
        write(5000 + number)?;
    }
    let all = ms(begin.elapsed());
    println!("{name}: batch of {BATCH}           {all:8.0} ms, {:.2} each", all / BATCH as f64);
    Ok(median)
}

/// Makes a two-page note that is different for each number.
fn note(number: usize) -> String {
    NOTE.replace("![Balance of the knee](drawing:balance)\n", "")
        .split("## After the operation")
        .next()
        .unwrap_or_default()
        .replace("26K0417A", &format!("26K{number:04}A"))
        .replace("Blood loss was 180 ml", &format!("Blood loss was {number} ml"))
}

fn document(markdown: &str, number: usize) -> Result<Document, Box<dyn Error>> {
    let made_at = NaiveDate::from_ymd_opt(2026, 5, 14)
        .and_then(|day| day.and_hms_opt(11, 5, 0))
        .ok_or("no such day")?;
    Ok(Document {
        title: "Operative note".to_owned(),
        language: "en-GB".to_owned(),
        author: "Людмила Щербакова".to_owned(),
        subject: "Left knee".to_owned(),
        made_at,
        head: vec![
            Fact::new("", "Sigríður Nguyễn-Παππά"),
            Fact::new("Born", "3 May 1950"),
            Fact::new("Hospital number", format!("LH-{number}")),
            Fact::new("", "Left knee"),
        ],
        foot: "Operative note 1.0 · written by Людмила Щербакова".to_owned(),
        mark: None,
        demonstration: true,
        page: Page::A4,
        blocks: blocks::parse(markdown, &BTreeMap::new())?,
    })
}

fn ms(time: Duration) -> f64 {
    time.as_secs_f64() * 1000.0
}

fn keep() -> Option<PathBuf> {
    let mut arguments = std::env::args().skip_while(|argument| argument != "--keep");
    arguments.nth(1).map(PathBuf::from)
}
