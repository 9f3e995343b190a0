//! The file: what an outside reader takes out of it, its properties, its bytes.

use evengap_papers::fonts::Fonts;
use evengap_papers::pdf::{self, Warning};

use crate::layout::set_markdown;
use crate::read::pages;
use crate::sample::{LONG_NOTE, document};

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
