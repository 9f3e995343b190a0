//! Pages: what stands on each, what stays together, and what an outside reader takes out.

use std::sync::LazyLock;

use evengap_papers::document::{Document, Page};
use evengap_papers::fonts::Fonts;
use evengap_papers::pdf::{self, Pdf, Warning};

use crate::read::{pages, words};
use crate::sample::{LONG_NOTE, document};

static FONTS: LazyLock<Fonts> = LazyLock::new(|| Fonts::built_in().unwrap());

fn set(document: &Document) -> Pdf {
    pdf::write(document, &FONTS).unwrap()
}

fn set_markdown(markdown: &str) -> Pdf {
    set(&document(markdown))
}

/// Lines of filling text, each a paragraph of one line.
fn filler(lines: usize) -> String {
    "Filling.\n\n".repeat(lines)
}

/// Makes `count` different words, `w0000` and so on.
fn numbered(count: usize) -> Vec<String> {
    (0..count).map(|n| format!("w{n:04}")).collect()
}

/// Finds the words made by [`numbered`] in the order in which a reader meets them.
fn numbered_in(pdf: &Pdf) -> Vec<String> {
    pages(&pdf.bytes, &[])
        .join(" ")
        .split_whitespace()
        .filter(|word| word.len() == 5 && word.starts_with('w'))
        .map(str::to_owned)
        .collect()
}

#[test]
fn every_page_says_who_what_and_which_page() {
    for sheet in [Page::A4, Page::Letter] {
        let paper = set(&Document { page: sheet, ..document(LONG_NOTE) });
        let texts = pages(&paper.bytes, &["-layout"]);
        assert!(texts.len() > 1, "the sample must have several pages");
        assert_eq!(texts.len(), paper.pages, "the count given is the count in the file");
        for (n, text) in texts.iter().enumerate() {
            for wanted in [
                "Sigríður Nguyễn-Παππά",
                "Born 3 May 1950",
                "Hospital number LH-204417",
                "Left knee",
                "DRAFT, NOT SIGNED",
                "Demonstration: invented patient",
                "written by Людмила Щербакова",
                &format!("Page {} of {}", n + 1, texts.len()),
            ] {
                assert!(text.contains(wanted), "page {} lacks {wanted:?}", n + 1);
            }
        }
    }
}

#[test]
fn words_come_out_as_they_went_in() {
    let paper = set_markdown(LONG_NOTE);
    for options in [&[][..], &["-layout"][..], &["-raw"][..]] {
        let text = pages(&paper.bytes, options).join("\n");
        for wanted in [
            "Ngọc Trần Thị Ánh",
            "Østen Þórðarson",
            "Παπαδόπουλος",
            "Людмила Щербакова",
            "Zoë Łukasiewicz-Ångström",
            "Ștefan Țăranu",
            "difficult stairs; efficient office work",
            "fixed flexion of 5°",
            "BW-AM-4471-05L-CR",
            "4 × 10 mm",
            "(01)05712345678904",
        ] {
            assert!(text.contains(wanted), "{options:?} loses {wanted:?}");
        }
        // The mark across the page is outlines: it must not stand in the middle of the text.
        let marks = text.matches("DRAFT").count();
        assert_eq!(marks, paper.pages, "{options:?}: once in each head and nowhere else");
    }
}

#[test]
fn text_is_read_in_the_order_of_the_paper() {
    let paper = set_markdown(LONG_NOTE);
    for options in [&[][..], &["-layout"][..], &["-raw"][..]] {
        let text = pages(&paper.bytes, options).join("\n");
        let order = [
            "Elective operation",
            "People",
            "Before the operation",
            "Allergy: penicillin",
            "forced-air warming",
            "checked twice",
            "recut of 0.5 mm",
            "The tibia was cut",
            "Gaps were measured",
            "After the cuts",
            "Restrictor",
            "Fixation was with cement",
            "Call the surgeon on duty",
            "Do not start antibiotics",
            "Heel slides",
        ];
        let places: Vec<usize> =
            order.iter().map(|part| text.find(part).unwrap_or_else(|| panic!("{part:?} is missing"))).collect();
        assert!(places.is_sorted(), "{options:?} mixes the order: {places:?}");
    }
}

#[test]
fn a_table_carries_its_header_over_the_page_and_loses_no_cell() {
    let mut markdown = "# Parts\n\n| Part | Reference |\n|--|--:|\n".to_owned();
    for (n, word) in numbered(80).iter().enumerate() {
        markdown.push_str(&if n % 2 == 0 { format!("| {word} ") } else { format!("| {word} |\n") });
    }
    let markdown = format!("{}{markdown}", filler(20));
    let paper = set_markdown(&markdown);
    assert!(paper.pages > 1, "the table must cross a page");
    let texts = pages(&paper.bytes, &["-layout"]);
    for text in &texts {
        assert_eq!(text.matches("Reference").count(), 1, "one header on each page");
    }
    let mut found = numbered_in(&paper);
    found.sort();
    assert_eq!(found, numbered(80), "forty rows, every cell once");
}

#[test]
fn a_row_of_several_lines_is_never_cut() {
    let mut markdown = "| Part | Words |\n|--|--|\n".to_owned();
    for n in 0..40 {
        let name = format!("r{n:02}");
        markdown.push_str(&format!("| {name} | {} |\n", format!("{name} ").repeat(60)));
    }
    let paper = set_markdown(&markdown);
    assert!(paper.pages > 1, "the table must cross a page");
    for n in 0..40 {
        let name = format!("r{n:02}");
        let texts = pages(&paper.bytes, &[]);
        let with: Vec<&String> = texts.iter().filter(|text| text.contains(&name)).collect();
        assert_eq!(with.len(), 1, "row {name} stands on one page");
        assert_eq!(with[0].matches(&name).count(), 61, "row {name} is whole");
    }
}

#[test]
fn a_row_taller_than_a_page_loses_nothing() {
    let row = numbered(2500).join(" ");
    let paper = set_markdown(&format!("| Part | Words |\n|--|--|\n| one | {row} |\n"));
    assert!(paper.pages > 2, "the row must be taller than a page");
    assert_eq!(numbered_in(&paper), numbered(2500), "every word once, in order");
}

#[test]
fn a_paragraph_of_3000_words_loses_none() {
    let paper = set_markdown(&numbered(3000).join(" "));
    assert!(paper.pages > 3, "it must cross pages");
    assert_eq!(numbered_in(&paper), numbered(3000), "every word once, in order");
}

#[test]
fn a_heading_never_ends_a_page() {
    for lines in 20..50 {
        let follows = "Follows. ".repeat(60);
        let table = "| Follows. |\n|--|\n| one |\n| two |\n";
        for next in [follows.as_str(), table, "- Follows.\n- two\n", "> Follows.\n"] {
            let paper = set_markdown(&format!("{}## Standing\n\n{next}", filler(lines)));
            let texts = pages(&paper.bytes, &[]);
            let text = texts.iter().find(|text| text.contains("Standing")).unwrap();
            assert!(text.contains("Follows."), "after {lines} lines the heading stands alone before {next:.20}");
        }
    }
}

#[test]
fn no_line_of_a_paragraph_stands_alone_on_a_page() {
    for lines in 25..45 {
        let paper = set_markdown(&format!("{}{}", filler(lines), "alone ".repeat(120)));
        for text in pages(&paper.bytes, &[]) {
            let count = text.lines().filter(|line| line.contains("alone")).count();
            assert_ne!(count, 1, "after {lines} lines a single line is left over");
        }
    }
}

#[test]
fn a_caution_is_kept_in_one_piece() {
    for lines in 20..45 {
        let caution = "> Beware of this.\n>\n> - one\n> - two\n>\n> Ends here.\n";
        let paper = set_markdown(&format!("{}{caution}", filler(lines)));
        let texts = pages(&paper.bytes, &[]);
        let text = texts.iter().find(|text| text.contains("Beware")).unwrap();
        assert!(text.contains("Ends here."), "after {lines} lines the box is cut");
    }
}

#[test]
fn a_box_longer_than_a_page_loses_nothing() {
    let text: Vec<String> = numbered(1500).chunks(50).map(|words| format!("> {}\n>\n", words.join(" "))).collect();
    let paper = set_markdown(&text.concat());
    assert!(paper.pages > 1, "the box must cross a page");
    assert_eq!(numbered_in(&paper), numbered(1500), "every word once, in order");
}

#[test]
fn the_same_paper_is_the_same_bytes() {
    let first = set_markdown(LONG_NOTE);
    let second = set_markdown(LONG_NOTE);
    assert!(first.bytes == second.bytes, "twice in one process");
    let fresh = Fonts::built_in().unwrap();
    let third = pdf::write(&document(LONG_NOTE), &fresh).unwrap();
    assert!(first.bytes == third.bytes, "with fonts prepared anew");
    let other = set_markdown(&format!("{LONG_NOTE}\nMore."));
    assert!(first.bytes != other.bytes, "another paper is another file");
}

#[test]
fn nothing_leaves_the_margins() {
    let deep: String = (0..40).map(|n| format!("{}- deep down\n", " ".repeat(2 * n))).collect();
    let boxes = format!("{} boxed", "> ".repeat(20));
    let endless = "Ω".repeat(400) + &"unbroken".repeat(60);
    let paper = set_markdown(&format!(
        "# {endless}\n\n{endless}\n\n- {endless}\n\n> {endless}\n\n\
         | Part | {endless} |\n|--|--|\n| {endless} | b |\n\n{deep}\n\n{boxes}\n\n{LONG_NOTE}"
    ));
    let (width, height) = Page::A4.size_pt();
    for word in words(&paper.bytes) {
        let inside =
            word.x_min >= 64.0 && word.x_max <= width - 64.0 && word.y_min >= 25.0 && word.y_max <= height - 25.0;
        assert!(inside, "{word:?} leaves the margins");
    }
    let text: String = pages(&paper.bytes, &["-raw"]).concat().split_whitespace().collect();
    assert_eq!(text.matches('Ω').count(), 6 * 400, "no letter of an endless word is lost");
}

#[test]
fn lines_do_not_lie_on_each_other() {
    let paper = set_markdown(LONG_NOTE);
    let words = words(&paper.bytes);
    for (n, a) in words.iter().enumerate() {
        for b in &words[n + 1..] {
            let across = a.x_max.min(b.x_max) - a.x_min.max(b.x_min);
            let down = a.y_max.min(b.y_max) - a.y_min.max(b.y_min);
            let overlap = a.page == b.page && across > 0.5 && down > 4.0;
            assert!(!overlap, "{a:?} lies on {b:?}");
        }
    }
}

#[test]
fn the_file_has_title_language_and_outline() {
    let paper = set_markdown(LONG_NOTE);
    let file = lopdf::Document::load_mem(&paper.bytes).unwrap();
    let catalog = file.catalog().unwrap();
    let language = lopdf::decode_text_string(catalog.get(b"Lang").unwrap()).unwrap();
    assert_eq!(language, "en-GB", "language of the text");
    let outline: Vec<(usize, String)> =
        file.get_toc().unwrap().toc.into_iter().map(|entry| (entry.page, entry.title)).collect();
    assert_eq!(outline[0], (1, "Operative note".to_owned()), "the title leads");
    let titles: Vec<&str> = outline.iter().map(|(_, title)| title.as_str()).collect();
    for wanted in ["People", "Balance", "Components", "After the operation"] {
        assert!(titles.contains(&wanted), "{wanted} is not in the outline {titles:?}");
    }
    let info = file.trailer.get(b"Info").unwrap().as_reference().unwrap();
    let info = file.get_dictionary(info).unwrap();
    let read = |key: &[u8]| lopdf::decode_text_string(info.get(key).unwrap()).unwrap();
    assert_eq!(read(b"Title"), "Operative note", "title");
    assert_eq!(read(b"Author"), "Людмила Щербакова", "author");
    assert_eq!(read(b"CreationDate"), "D:20260514110500", "made at the time given");
}

#[test]
fn a_character_without_a_glyph_is_shown_as_a_box_and_reported() {
    let paper = set_markdown("Signed by 王 and 🙂 with e\u{301}clat.");
    assert_eq!(
        paper.warnings,
        [Warning::MissingCharacter('王'), Warning::MissingCharacter('🙂')],
        "each one once, in order of their numbers"
    );
    let text = pages(&paper.bytes, &[]).concat();
    assert!(text.contains("Signed by 王 and 🙂 with"), "a reader still finds them: {text}");
    assert!(set_markdown(LONG_NOTE).warnings.is_empty(), "European names need no warning");
}

#[test]
fn signs_of_the_file_format_print_as_typed() {
    let hostile = r"(a) \b\ <c> [d] %PDF BT ET /F1 Tf ((( \) endstream endobj";
    let escaped: String =
        hostile.chars().map(|c| if c.is_ascii_punctuation() { format!("\\{c}") } else { c.to_string() }).collect();
    let paper = set_markdown(&escaped);
    let text = pages(&paper.bytes, &["-layout"]).concat();
    assert!(text.contains(hostile), "printed: {text}");
}

#[test]
fn fonts_serve_several_papers_at_once() {
    fn shared<T: Send + Sync>() {}
    shared::<Fonts>();
    let one = set_markdown(LONG_NOTE).bytes;
    let many: Vec<Vec<u8>> = std::thread::scope(|scope| {
        let threads: Vec<_> = (0..4).map(|_| scope.spawn(|| set_markdown(LONG_NOTE).bytes)).collect();
        threads.into_iter().map(|thread| thread.join().unwrap()).collect()
    });
    assert!(many.iter().all(|bytes| *bytes == one), "the same file from every thread");
}

#[test]
fn the_fonts_have_the_alphabets_of_europe_and_vietnam() {
    let alphabets = [
        "ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÐÑÒÓÔÕÖØÙÚÛÜÝÞß àáâãäåæçèéêëìíîïðñòóôõöøùúûüýþÿ Œœ ẞ",
        "ĀāĂăĄąĆćĈĉĊċČčĎďĐđĒēĔĕĖėĘęĚěĜĝĞğĠġĢģĤĥĦħĨĩĪīĮįİıĴĵĶķĹĺĻļĽľŁłŃńŅņŇňŌōŐőŔŕŖŗŘřŚśŜŝŞşŠšŢţŤťŨũŪūŬŭŮůŰűŲųŴŵŶŷŸŹźŻżŽžȘșȚț",
        "ẮắẰằẲẳẴẵẶặẤấẦầẨẩẪẫẬậẸẹẺẻẼẽẾếỀềỂểỄễỆệỊịỈỉỌọỎỏỐốỒồỔổỖỗỘộƠơỚớỜờỞởỠỡỢợƯưỨứỪừỬửỮữỰựỲỳỶỷỸỹỴỵ",
        "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩ αβγδεζηθικλμνξοπρσςτυφχψω άέήίόύώϊϋΐΰ ΆΈΉΊΌΎΏ ᾳῃῳ",
        "АБВГДЕЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯ абвгдежзийклмнопрстуфхцчшщъыьэюя ЁёІіЇїЄєҐґЎўЂђЈјЉљЊњЋћЏџЃѓЌќ",
        "± × ÷ ° µ ½ ≤ ≥ ≈ − – — … • → ← ↑ ↓ ‘’ “” „ ‹› «» € £ ™ ® © § ¶ ‰ ²³",
    ];
    for words in alphabets {
        let paper = set_markdown(&format!("{words}\n\n**{words}**\n\n*{words}*\n\n***{words}***"));
        assert!(paper.warnings.is_empty(), "{:?}", paper.warnings);
        let text: String = pages(&paper.bytes, &["-raw"]).concat().split_whitespace().collect();
        let whole: String = words.split_whitespace().collect();
        assert_eq!(text.matches(&whole).count(), 4, "read back in four styles: {words}");
    }
}
