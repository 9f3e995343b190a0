//! Times a full review (every rule and every reckoning) of the fullest demo case, warm, on one core.
//! Beside it, in the same run: the same entry validated against our JSON Schema by the `jsonschema`
//! crate, a general-purpose validator that only looks at shapes.

use std::hint::black_box;
use std::time::{Duration, Instant};

use evengap_reckon::Limits;
use evengap_review::{Circumstances, review};

const ROUNDS: u32 = 2_000;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../../demo-cases/whole-knee-cemented.json");
    let json = std::fs::read_to_string(path)?;
    let case = evengap_case::read(&json)?.case;
    let limits = Limits::default();
    let found = review(&case, Circumstances { companion: None, limits: &limits, separators: &[] });
    println!("whole-knee-cemented: {} findings, {} reckonings", found.findings.len(), found.reckonings.len());

    let ours = time(|| {
        black_box(review(black_box(&case), Circumstances { companion: None, limits: &limits, separators: &[] }));
    });
    let value = case.to_value();
    let validator = jsonschema::validator_for(&evengap_case::schema())?;
    let theirs = time(|| {
        black_box(validator.is_valid(black_box(&value)));
    });
    println!("review:                          {:>8.3} ms", millis(ours));
    println!("JSON Schema validation (peer):   {:>8.3} ms", millis(theirs));
    Ok(())
}

/// The median of many rounds, after a warm-up.
fn time(mut act: impl FnMut()) -> Duration {
    for _ in 0..ROUNDS / 10 {
        act();
    }
    let mut rounds: Vec<Duration> = (0..ROUNDS)
        .map(|_| {
            let begun = Instant::now();
            act();
            begun.elapsed()
        })
        .collect();
    rounds.sort();
    rounds[rounds.len() / 2]
}

fn millis(duration: Duration) -> f64 {
    duration.as_secs_f64() * 1000.0
}
