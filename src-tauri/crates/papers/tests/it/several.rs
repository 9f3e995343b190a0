//! Several papers in one file: each keeps its own pages, the outline names each, fonts come once.

use evengap_papers::document::{Document, Fact, Page};
use evengap_papers::pdf::{self, PdfError};

use crate::layout::{FONTS, set};
use crate::read::pages;
use crate::sample::{LONG_NOTE, document};

fn paper(name: &str, markdown: &str, page: Page) -> Document {
    let mut paper = document(markdown);
    paper.head[0] = Fact::new("", name);
    Document { page, ..paper }
}

fn outline(bytes: &[u8]) -> Vec<(usize, usize, String)> {
    let file = lopdf::Document::load_mem(bytes).unwrap();
    file.get_toc().unwrap().toc.into_iter().map(|entry| (entry.level, entry.page, entry.title)).collect()
}

#[test]
fn each_paper_keeps_its_own_pages() {
    let papers = [
        paper("Åsa First", LONG_NOTE, Page::A4),
        paper("Bo Second", "# Letter\n\nWords.", Page::Letter),
        paper("Cy Third", LONG_NOTE, Page::Wallet),
    ];
    let alone: Vec<_> = papers.iter().map(set).collect();
    let all = pdf::write_all(&papers.iter().collect::<Vec<_>>(), &FONTS).unwrap();
    let expected: Vec<String> = alone.iter().flat_map(|pdf| pages(&pdf.bytes, &["-layout"])).collect();
    assert_eq!(all.pages, expected.len(), "all pages of all papers");
    assert_eq!(pages(&all.bytes, &["-layout"]), expected, "head, text, foot and page numbers are those of each alone");
}

#[test]
fn the_outline_has_an_entry_for_each_paper() {
    let papers = [
        paper("Åsa First", "# Letter\n\n## Wound\n\nWords.", Page::A4),
        paper("Bo Second", "# Letter\n\nWords.", Page::A4),
    ];
    let all = pdf::write_all(&papers.iter().collect::<Vec<_>>(), &FONTS).unwrap();
    let entry = |level, page, title: &str| (level, page, title.to_owned());
    assert_eq!(
        outline(&all.bytes),
        [
            entry(1, 1, "Operative note, Åsa First"),
            entry(2, 1, "Letter"),
            entry(3, 1, "Wound"),
            entry(1, 2, "Operative note, Bo Second"),
            entry(2, 2, "Letter"),
        ],
        "its headings below it"
    );
}

#[test]
fn one_of_several_is_the_same_as_one() {
    let one = paper("Åsa First", LONG_NOTE, Page::A4);
    let all = pdf::write_all(&[&one], &FONTS).unwrap();
    assert!(all.bytes == set(&one).bytes, "the same bytes");
}

#[test]
fn fonts_are_embedded_once() {
    let one = paper("Åsa First", LONG_NOTE, Page::A4);
    let alone = set(&one).bytes.len();
    let fonts = |bytes: &[u8]| {
        let file = lopdf::Document::load_mem(bytes).unwrap();
        file.objects.values().filter(|object| object.as_dict().is_ok_and(|d| d.has_type(b"FontDescriptor"))).count()
    };
    let many = pdf::write_all(&[&one; 20], &FONTS).unwrap();
    assert_eq!(fonts(&many.bytes), fonts(&set(&one).bytes), "as many as one paper needs");
    assert!(many.bytes.len() < alone * 10, "{} bytes for twenty of {alone}", many.bytes.len());
}

#[test]
fn properties_name_what_is_inside_once() {
    let letter = Document { title: "Letter".to_owned(), ..paper("Bo Second", "Words.", Page::A4) };
    let note = paper("Åsa First", "Words.", Page::A4);
    let all = pdf::write_all(&[&note, &letter, &note], &FONTS).unwrap();
    let file = lopdf::Document::load_mem(&all.bytes).unwrap();
    let info = file.trailer.get(b"Info").unwrap().as_reference().unwrap();
    let read = |key: &[u8]| lopdf::decode_text_string(file.get_dictionary(info).unwrap().get(key).unwrap()).unwrap();
    assert_eq!(read(b"Title"), "Operative note, Letter", "each title once");
    assert_eq!(read(b"Author"), "Людмила Щербакова", "each author once");
}

#[test]
fn no_paper_at_all_is_refused() {
    let error = pdf::write_all(&[], &FONTS).unwrap_err();
    assert!(matches!(error, PdfError::NoPaper), "{error}");
    assert_eq!(error.to_string(), "no paper was named to go into the PDF; choose at least one", "with what to do");
}
