//! The recovery sheet: one page that says what it must, with every sign of the code, whatever it is given.

use evengap_papers::{DateFormat, Fonts, Page, RecoverySheet, recovery_sheet};

use crate::{archive, read};

const GROUPS: [&str; 8] = ["7KQ2", "M0XW", "94HT", "ZC8B", "R3VN", "1DYE", "G6PA", "S5FJ"];

fn sheet(page: Page) -> RecoverySheet {
    RecoverySheet {
        notebook: "knees.evengap".into(),
        code_groups: GROUPS.map(str::to_owned).to_vec(),
        made_at: "2026-11-25T16:40".parse().unwrap(),
        keeper_name: "Ms Maren Oakshott".into(),
        page,
        date_format: DateFormat::default(),
    }
}

/// Sets a sheet on one page and gives its words; they are joined by single blanks.
fn check(name: &str, sheet: &RecoverySheet) -> String {
    let pdf = recovery_sheet(sheet, &Fonts::built_in().unwrap()).unwrap();
    assert_eq!(pdf.pages, 1, "{name}: one page");
    archive::check(&format!("recovery-{name}"), &pdf.bytes);
    read::pages(&pdf.bytes, &["-layout"]).join(" ").split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn it_is_one_page_that_says_what_it_must() {
    for (name, page) in [("a4", Page::A4), ("letter", Page::Letter), ("pocket", Page::Wallet)] {
        let words = check(name, &sheet(page));
        for said in [
            "Recovery sheet for knees.evengap",
            "Made on 25 November 2026 at 16:40 · Made by Ms Maren Oakshott",
            "can read everything in it",
            "Without any passphrase and without this sheet nobody can open it again.",
            "Locked away",
            "Not beside the computer",
            "makes this one useless",
            "type the 8 groups in their order",
        ] {
            assert!(words.contains(said), "{name} says “{said}”: {words}");
        }
        let drawn: String = words.split_whitespace().collect();
        let groups = GROUPS.iter().filter(|group| drawn.contains(**group)).count();
        assert_eq!(groups, GROUPS.len(), "{name}: every group stands on the page as it is typed: {drawn}");
    }
}

#[test]
fn who_does_not_see_the_page_hears_the_code() {
    let pdf = recovery_sheet(&sheet(Page::A4), &Fonts::built_in().unwrap()).unwrap();
    let document = lopdf::Document::load_mem(&pdf.bytes).unwrap();
    let said = document.objects.values().filter_map(|object| object.as_dict().ok()?.get(b"Alt").ok()?.as_str().ok());
    let said: Vec<String> =
        said.map(|alt| lopdf::decode_text_string(&lopdf::Object::string_literal(alt)).unwrap()).collect();
    assert_eq!(
        said,
        ["The recovery code in 8 groups. 1: 7KQ2, 2: M0XW, 3: 94HT, 4: ZC8B, 5: R3VN, 6: 1DYE, 7: G6PA, 8: S5FJ."],
        "one drawing, said in words"
    );
}

#[test]
fn names_print_as_typed_and_move_nothing() {
    let odd = RecoverySheet {
        notebook: "**k** [a](b) {line} _&amp;_ ![](drawing:code) # 1.evengap".into(),
        keeper_name: "  ".into(),
        ..sheet(Page::A4)
    };
    let words = check("odd", &odd);
    // A line may end inside of the name.
    let printed: String = words.split(' ').collect();
    assert!(printed.contains("sheetfor**k**[a](b){line}_&amp;_![](drawing:code)#1.evengap"), "{words}");
    assert!(words.contains("Made by author not named"), "nobody is named: {words}");
    let long = RecoverySheet {
        notebook: "long name ".repeat(25),
        keeper_name: "Long Name ".repeat(12),
        ..sheet(Page::Letter)
    };
    check("long", &long);
}

#[test]
fn the_same_sheet_gives_the_same_bytes() {
    let set = || recovery_sheet(&sheet(Page::A4), &Fonts::built_in().unwrap()).unwrap().bytes;
    assert!(set() == set(), "same input, same bytes");
}
