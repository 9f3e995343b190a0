//! The claims in the file: PDF/A-2a and PDF/UA-1, found to hold by a reader that is not ours.
//!
//! Every file is also left in the target folder's `tmp/papers`, where other readers may look at it
//! (see the crate's README).

use std::path::Path;

use evengap_papers::document::{Document, Page};
use evengap_papers::fonts::Fonts;
use evengap_papers::pdf;
use evengap_papers::{Addendum, Kind, Occasion, Standing, render};
use page_validation::{ValidationOptions, ValidationProfile, validate_pdf_bytes};

use crate::sample::{LONG_NOTE, document};
use crate::{structure, template};

/// Keeps the file for other readers and asserts that it holds what it claims.
pub fn check(name: &str, bytes: &[u8]) {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("papers");
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join(name).with_extension("pdf"), bytes).unwrap();
    for profile in [ValidationProfile::PdfA2a, ValidationProfile::PdfUa1] {
        let report = validate_pdf_bytes(bytes, &ValidationOptions::default().profile(profile)).unwrap();
        let failures: Vec<String> = report.failures.iter().map(ToString::to_string).collect();
        assert!(report.is_compliant, "{name} does not hold {profile}:\n{}", failures.join("\n"));
    }
}

fn check_markdown(name: &str, markdown: &str) {
    check_document(name, &document(markdown));
}

fn check_document(name: &str, document: &Document) {
    check(name, &pdf::write(document, &Fonts::built_in().unwrap()).unwrap().bytes);
}

#[test]
fn a_long_paper_holds_what_it_claims() {
    check_markdown("long-note", LONG_NOTE);
    let signed = Document { mark: None, demonstration: false, page: Page::Letter, ..document(LONG_NOTE) };
    check_document("signed-letter-size", &signed);
    check_document("wallet", &Document { page: Page::Wallet, ..document(LONG_NOTE) });
}

#[test]
fn papers_that_a_template_should_not_make_hold_it_too() {
    check_markdown("empty", "");
    check_markdown(
        "skipped-levels",
        "### Third first\n\nA.\n\n# Title\n\n##### Fifth\n\nB.\n\n## Second\n\n- \n- one\n",
    );
    check_markdown("empty-cells", "| A | |\n|---|---|\n| | 1 |\n| | |\n\n| | |\n|---|---|\n| name | |\n| | value |\n");
    check_markdown(
        "nested",
        "> # Box\n>\n> - one\n>   1. two\n>      - three\n>\n>      | a |\n>      |---|\n>      | b |\n>\n> > inner\n",
    );
    check_markdown("drawing", "![words](drawing:balance)\n\n| a | b |\n|---|---|\n| ![words](drawing:balance) | c |\n");
}

#[test]
fn characters_without_a_glyph_cost_no_claim() {
    check_markdown("missing", "Signed by 王 and 🙂, *王*, **王** and e\u{301}clat, \u{e000} and \u{10ffff}.\n\n# 王\n");
    let mut odd = document("Text.");
    odd.author = "A\u{1}B\u{ffff} <&> \"王\"".to_owned();
    odd.title = "T\u{0}".to_owned() + &"long title ".repeat(4000);
    check_document("odd-properties", &odd);
}

#[test]
fn a_cut_row_and_a_long_table_hold_it() {
    let long = "word ".repeat(3000);
    let rows: String = (0..120).map(|n| format!("| {n} | Component {n} | LOT-{n:05} |\n")).collect();
    check_markdown(
        "cut-row",
        &format!("| A | B |\n|---|---|\n| one | {long} |\n\n| N | What | Lot |\n|---|---|---|\n{rows}"),
    );
}

#[test]
fn several_papers_in_one_file_hold_it() {
    let first = document(LONG_NOTE);
    let second = Document { language: "de".to_owned(), page: Page::Letter, ..document("# Brief\n\n- eins\n- zwei\n") };
    let third = Document { language: "es".to_owned(), ..document("# Carta\n\nUno.\n") };
    let papers = [&first, &second, &third];
    check("several", &pdf::write_all(&papers, &Fonts::built_in().unwrap()).unwrap().bytes);
}

#[test]
fn every_paper_of_every_demo_case_holds_it() {
    let fonts = Fonts::built_in().unwrap();
    let at = template::occasion().made_at;
    for (name, case) in template::demos() {
        let addendum = Addendum {
            number: 1,
            text: "The range was typed wrongly.".to_owned(),
            by: "Maren Oakshott".to_owned(),
            at,
            before: template::demo("whole-knee-cemented").clone(),
        };
        for kind in Kind::ALL {
            for &language in kind.languages() {
                let standing = Standing::Signed { by: "Maren Oakshott".to_owned(), at, fingerprint: None };
                let occasion = Occasion {
                    language,
                    standing: if language == kind.languages()[0] { Standing::Draft } else { standing },
                    addendum: (kind == Kind::Addendum).then(|| addendum.clone()),
                    ..template::occasion()
                };
                let paper = render(case, kind, &occasion).unwrap();
                let bytes = pdf::write(&paper.document, &fonts).unwrap().bytes;
                check(&format!("{name}-{}-{}", kind.name(), language.code()), &bytes);
                if name == "medial-part" {
                    structure::check(&paper.document);
                }
            }
        }
    }
}
