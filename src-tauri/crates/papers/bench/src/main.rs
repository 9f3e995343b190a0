//! Times our papers beside a general typesetting library (typst) and a general HTML-to-PDF library
//! (ironpress), in one run on one core.
//!
//! Ours goes the whole way from the entry to the PDF; the peers get the finished Markdown or HTML of the
//! same letter. Every paper is of another patient. `--keep DIR` writes one PDF of each, to look at.

mod memory;
mod pages;
mod typesetter;

use std::error::Error;
use std::path::PathBuf;
use std::time::{Duration, Instant};

use evengap_case::{Case, LocalTime};
use evengap_papers::{Fonts, Kind, Occasion, Paper, render};

const CASE: &str = include_str!("../../../../../demo-cases/whole-knee-cemented.json");
const WARM_UP: usize = 20;
const SINGLE: usize = 200;
const BATCH: usize = 1000;

type Outcome<T> = Result<T, Box<dyn Error>>;

fn main() -> Outcome<()> {
    let begin = Instant::now();
    let fonts = Fonts::built_in()?;
    println!("our fonts, once                      {:8.2} ms", ms(begin.elapsed()));
    let typesetter = typesetter::Typesetter::new()?;
    let pages = pages::Pages::new();
    let bench = Bench { case: evengap_case::read(CASE)?.case, fonts };

    let nothing = |_| Ok(String::new());
    for kind in Kind::ALL {
        single(&format!("ours, {}", kind.name()), &nothing, &|_, number| bench.ours(kind, number))?;
    }
    println!("\nthe discharge letter, of another patient each time");
    let letter = Kind::DischargeLetter;
    let ours = |_: &str, number| bench.ours(letter, number);
    let markdown = |number| Ok(bench.paper(letter, number)?.markdown().to_owned());
    let typst = |markdown: &str, number| typesetter.write(markdown, number);
    let html = |number| Ok(bench.paper(letter, number)?.html());
    let ironpress = |html: &str, _| pages.write(html);
    let our_median = single("ours, from the entry", &nothing, &ours)?;
    let medians = [
        single("typst, from Markdown", &markdown, &typst)?,
        single("ironpress, from HTML", &html, &ironpress)?,
    ];
    let faster = medians.into_iter().fold(f64::INFINITY, f64::min);
    println!("ours / the faster peer               {:8.2}", our_median / faster);

    println!("\n{BATCH} letters, one after the other");
    memory::peak_mb();
    batch(BATCH / 10, &nothing, &ours)?;
    let after_tenth = memory::peak_mb();
    println!("ours                                 {:8.0} ms", batch(BATCH, &nothing, &ours)?);
    if let (Some(first), Some(last)) = (after_tenth, memory::peak_mb()) {
        println!("ours, peak memory                    {first:8.1} MB at {}, {last:.1} MB at {BATCH}", BATCH / 10);
    }
    println!("typst                                {:8.0} ms", batch(BATCH, &markdown, &typst)?);
    println!("ironpress                            {:8.0} ms", batch(BATCH, &html, &ironpress)?);

    if let Some(dir) = keep() {
        std::fs::create_dir_all(&dir)?;
        std::fs::write(dir.join("ours.pdf"), ours("", 0)?)?;
        std::fs::write(dir.join("typst.pdf"), typst(&markdown(0)?, 0)?)?;
        std::fs::write(dir.join("ironpress.pdf"), ironpress(&html(0)?, 0)?)?;
    }
    Ok(())
}

struct Bench {
    case: Case,
    fonts: Fonts,
}

impl Bench {
    /// Renders the paper of the patient of this number.
    fn paper(&self, kind: Kind, number: usize) -> Outcome<Paper> {
        let mut case = self.case.clone();
        case.patient.given_name = Some(format!("Sigríður {number}"));
        case.patient.hospital_number = Some(format!("LH-{number}"));
        let made_at: LocalTime = "2026-11-20T14:05".parse()?;
        Ok(render(&case, kind, &Occasion { demonstration: true, ..Occasion::new(made_at, "Maren Oakshott") })?)
    }

    fn ours(&self, kind: Kind, number: usize) -> Outcome<Vec<u8>> {
        Ok(self.paper(kind, number)?.pdf(&self.fonts)?.bytes)
    }
}

/// What a writer is given, made before the clock starts.
type Prepare<'a> = &'a dyn Fn(usize) -> Outcome<String>;
/// Makes the PDF.
type Write<'a> = &'a dyn Fn(&str, usize) -> Outcome<Vec<u8>>;

/// Times single papers; returns their median in milliseconds.
fn single(name: &str, prepare: Prepare<'_>, write: Write<'_>) -> Outcome<f64> {
    let mut size = 0;
    for number in 0..WARM_UP {
        size = write(&prepare(number)?, number)?.len();
    }
    let mut times = Vec::with_capacity(SINGLE);
    for number in 1000..1000 + SINGLE {
        let given = prepare(number)?;
        let begin = Instant::now();
        write(&given, number)?;
        times.push(ms(begin.elapsed()));
    }
    times.sort_by(f64::total_cmp);
    let (median, slowest) = (times[SINGLE / 2], times[SINGLE - 1]);
    println!("{name:<36} {median:8.2} ms warm (slowest {slowest:.2}), {size} bytes");
    Ok(median)
}

/// Times papers one after the other, each let go before the next; returns milliseconds.
fn batch(count: usize, prepare: Prepare<'_>, write: Write<'_>) -> Outcome<f64> {
    let mut all = Duration::ZERO;
    for number in 5000..5000 + count {
        let given = prepare(number)?;
        let begin = Instant::now();
        write(&given, number)?;
        all += begin.elapsed();
    }
    Ok(ms(all))
}

fn ms(time: Duration) -> f64 {
    time.as_secs_f64() * 1000.0
}

fn keep() -> Option<PathBuf> {
    let mut arguments = std::env::args().skip_while(|argument| argument != "--keep");
    arguments.nth(1).map(PathBuf::from)
}
