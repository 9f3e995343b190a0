//! Nothing that was typed can be read in the files, neither at rest nor while writing.

use crate::bench::{Bench, WORDS, at, named, past_the_door, save};

/// Bytes before the first page.
const DOOR: usize = evengap_door::LENGTH as usize;

/// Looks for a text in every file of the folder, in UTF-8 and in UTF-16.
fn check_absent(bench: &Bench, text: &str) {
    let wide: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
    for (path, bytes) in bench.everything() {
        for needle in [text.as_bytes(), &wide] {
            let found = bytes.windows(needle.len()).any(|window| window.eq_ignore_ascii_case(needle));
            assert!(!found, "“{text}” can be read in {}", path.display());
        }
    }
}

#[test]
fn the_file_tells_nothing() {
    let bench = Bench::new();
    let mut notebook = bench.notebook((1..30).map(|n| named(n, "Mavis", "Threlkeld")));
    save(&mut notebook, &named(1, "Ivo", "Sandringford"), at("09:00")).unwrap();
    let bytes = std::fs::read(bench.file()).unwrap();
    assert!(bytes.starts_with(b"evengap notebook"), "it says what it is, and nothing of what is in it");
    for text in ["Threlkeld", "Mavis", "Sandringford", "Orla Quill", "Frösche", "CREATE TABLE", "case_line", "draft"] {
        check_absent(&bench, text);
    }
    // Encrypted bytes are as good as random: each value about equally often. The door is mostly empty.
    let bytes = &bytes[DOOR..];
    let mut counts = [0_u32; 256];
    bytes.iter().for_each(|byte| counts[usize::from(*byte)] += 1);
    let expected = f64::from(u32::try_from(bytes.len()).unwrap()) / 256.0;
    let chi_square: f64 = counts.iter().map(|count| (f64::from(*count) - expected).powi(2) / expected).sum();
    assert!(chi_square < 400.0, "255 degrees of freedom, p < 1e-7 beyond 400: {chi_square}");
}

#[test]
fn the_journal_tells_nothing() {
    let bench = Bench::new();
    drop(bench.notebook((1..30).map(|n| named(n, "Mavis", "Threlkeld"))));
    let writing = past_the_door(&bench.file());
    writing.execute_batch("BEGIN; UPDATE entry SET body = replace(body, 'Mavis', 'Ivo');").unwrap();
    let files = bench.everything();
    assert_eq!(files.len(), 2, "the journal exists while a write is under way");
    assert!(files[1].1.len() > 4096, "and holds pages");
    check_absent(&bench, "Threlkeld");
    check_absent(&bench, "Mavis");
    writing.execute_batch("ROLLBACK").unwrap();
}

#[test]
fn the_first_bytes_differ_between_notebooks() {
    let (one, two) = (Bench::new(), Bench::new());
    drop((one.notebook([]), two.notebook([])));
    let beginning = |bench: &Bench, at: usize| std::fs::read(bench.file()).unwrap()[at..at + 64].to_vec();
    assert_ne!(
        beginning(&one, 16),
        beginning(&two, 16),
        "the same words give another key in another notebook ({WORDS})"
    );
    assert_ne!(beginning(&one, DOOR), beginning(&two, DOOR), "and the pages have another one besides");
}
