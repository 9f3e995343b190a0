use crate::sample::*;
use evengap_papers::{document::*, fonts::Fonts, html, pdf, text};
#[test]
fn look() {
    let fonts = Fonts::built_in().unwrap();
    let put = |name: &str, doc: &Document| {
        let out = pdf::write(doc, &fonts).unwrap();
        eprintln!("{name} {} pages {} bytes {:?}", out.pages, out.bytes.len(), out.warnings);
        std::fs::write(format!("/tmp/look-{name}.pdf"), &out.bytes).unwrap();
        std::fs::write(format!("/tmp/look-{name}.html"), html::write(doc)).unwrap();
        std::fs::write(format!("/tmp/look-{name}.txt"), text::write(doc)).unwrap();
    };
    put("note", &document(LONG_NOTE));
    let mut hard = String::from("# Hard cases of a page, with a title so long that it takes two lines to be set\n\n");
    hard.push_str("> ### Box heading\n> Text in a box&#10;with a typed line.\n>\n> | A | B |\n> |--|--|\n> | one | two |\n>\n> > A box in a box.\n>\n> 1. one\n> 2. two\n\n");
    hard.push_str("| | |\n|--|--|\n| Side | Left |\n| Surgeon | Людмила Щербакова |\n| Long value | The value that goes on and on and on, so that it must be wrapped over more than one line of the column, which is wide. |\n\n");
    hard.push_str(
        "Missing 王 🙂 glyphs, combining q\u{301} x\u{308}\u{323}, *italic words*, ***both***, **bold**, `code`.\n\n",
    );
    hard.push_str(&format!("{}\n\n", "x".repeat(300)));
    hard.push_str("- one\n\n  second paragraph of the item\n\n  | a | b |\n  |--|--|\n  | c | d |\n- two\n  1. inner\n     > boxed in list\n  2. inner two\n\n98. ninety-eight\n99. ninety-nine\n100. hundred\n\n");
    hard.push_str(&format!("> {}\n\n", "Boxed words go on. ".repeat(500)));
    hard.push_str("| A | B | C | D | E | F | G | H | I | J |\n|--|--|--|--|--|--|--|--|--|--|\n| long reference AB-12345-67890-CD | b | c | d | e | f | g | h | i | jjjjjjjjjjjjjjjjjjjjjjjjjjjjjjj |\n");
    let mut doc = document(&hard);
    doc.page = Page::Letter;
    doc.head[0].value = "Doña María de los Ángeles Hernández-Etxeberria y Sánchez de la Cruz-Þorvaldsdóttir".into();
    doc.title = "Discharge letter after a knee replacement, second copy".into();
    put("hard", &doc);
}
