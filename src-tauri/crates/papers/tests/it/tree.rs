//! The structure as the file holds it: marked content on the pages, elements, the way back.

use std::collections::{BTreeMap, BTreeSet};

use evengap_papers::document::Document;
use evengap_papers::fonts::Fonts;
use evengap_papers::pdf;
use lopdf::content::Content;
use lopdf::{Dictionary, Document as File, Object, ObjectId};

use crate::sample::{LONG_NOTE, document};

/// What shows something: words, lines, areas, outlines across the page.
const SHOWING: &[&str] = &["Tj", "TJ", "'", "\"", "S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "sh", "Do"];

fn load(markdown: &str) -> File {
    File::load_mem(&pdf::write(&document(markdown), &Fonts::built_in().unwrap()).unwrap().bytes).unwrap()
}

/// Walks over a page's operators and returns the numbers of its marked pieces, in drawing order.
fn numbers(file: &File, page: ObjectId) -> Vec<i64> {
    let content = Content::decode(&file.get_page_content(page)).unwrap();
    let (mut open, mut text, mut numbers): (Vec<bool>, bool, Vec<i64>) = (Vec::new(), false, Vec::new());
    for operation in &content.operations {
        let name = operation.operator.as_str();
        match name {
            "BT" => text = true,
            "ET" => text = false,
            "BMC" | "BDC" => {
                open.push(text);
                let properties = operation.operands.get(1).and_then(|object| object.as_dict().ok());
                let number = properties.and_then(|p| p.get(b"MCID").ok()).and_then(|n| n.as_i64().ok());
                numbers.extend(number);
                let artifact = operation.operands[0].as_name().unwrap() == b"Artifact";
                assert!(open.len() > 1 || artifact != number.is_some(), "either read or not: {operation:?}");
                assert!(open.len() == 1 || number.is_none(), "no element's piece lies in another: {operation:?}");
            }
            "EMC" => assert_eq!(open.pop(), Some(text), "text begins and ends where marked content does"),
            name if SHOWING.contains(&name) => assert!(!open.is_empty(), "{name} shows what nobody marked"),
            _ => {}
        }
    }
    assert!(open.is_empty(), "every mark ends on its page");
    numbers
}

/// A piece of a page that belongs to an element: the page and the piece's number.
type Piece = (ObjectId, i64);

/// Returns the elements with their pieces.
fn elements(file: &File) -> Vec<(ObjectId, &Dictionary, Vec<Piece>)> {
    fn walk<'f>(file: &'f File, id: ObjectId, out: &mut Vec<(ObjectId, &'f Dictionary, Vec<Piece>)>) {
        let element = file.get_dictionary(id).unwrap();
        let place = out.len();
        out.push((id, element, Vec::new()));
        let kids = match element.get(b"K") {
            Ok(Object::Array(kids)) => kids.as_slice(),
            Ok(kid) => std::slice::from_ref(kid),
            Err(_) => &[],
        };
        let own = |element: &Dictionary| element.get(b"Pg").unwrap().as_reference().unwrap();
        for kid in kids {
            match kid {
                Object::Integer(number) => out[place].2.push((own(element), *number)),
                Object::Dictionary(piece) => {
                    out[place].2.push((own(piece), piece.get(b"MCID").unwrap().as_i64().unwrap()));
                }
                kid => {
                    let kid = kid.as_reference().unwrap();
                    let above = file.get_dictionary(kid).unwrap().get(b"P").unwrap().as_reference().unwrap();
                    assert_eq!(above, id, "the way up is the way down");
                    walk(file, kid, out);
                }
            }
        }
    }
    let root = file.catalog().unwrap().get(b"StructTreeRoot").unwrap().as_reference().unwrap();
    let kids = file.get_dictionary(root).unwrap().get(b"K").unwrap().as_array().unwrap();
    assert_eq!(kids.len(), 1, "one document at the top");
    let mut out = Vec::new();
    walk(file, kids[0].as_reference().unwrap(), &mut out);
    out
}

/// Asserts that pages, elements and the way back say the same.
fn check(file: &File) {
    let root = file.catalog().unwrap().get(b"StructTreeRoot").unwrap().as_reference().unwrap();
    let back = file.get_dictionary(root).unwrap().get(b"ParentTree").unwrap().as_reference().unwrap();
    let back = file.get_dictionary(back).unwrap().get(b"Nums").unwrap().as_array().unwrap();
    let back: BTreeMap<i64, &Vec<Object>> =
        back.chunks(2).map(|pair| (pair[0].as_i64().unwrap(), pair[1].as_array().unwrap())).collect();
    let mut drawn = BTreeMap::new();
    for page in file.get_pages().into_values() {
        let numbers = numbers(file, page);
        let wanted: Vec<i64> = (0..numbers.len() as i64).collect();
        assert_eq!(numbers, wanted, "numbered as they are drawn");
        let key = file.get_dictionary(page).unwrap().get(b"StructParents").unwrap().as_i64().unwrap();
        let parents = back[&key];
        assert_eq!(parents.len(), numbers.len(), "each piece has a way back");
        drawn.extend(numbers.iter().map(|n| ((page, *n), parents[*n as usize].as_reference().unwrap())));
    }
    let held: Vec<(Piece, ObjectId)> = elements(file)
        .into_iter()
        .flat_map(|(id, _, pieces)| pieces.into_iter().map(move |piece| (piece, id)))
        .collect();
    assert_eq!(held.len(), drawn.len(), "each piece belongs to one element");
    assert_eq!(held.into_iter().collect::<BTreeMap<_, _>>(), drawn, "the element that it leads back to");
}

#[test]
fn everything_that_is_shown_is_marked_and_leads_to_its_element() {
    check(&load(LONG_NOTE));
    check(&load(
        "Signed by 王, **王** and e\u{301}clat.\n\n![words](drawing:balance)\n\n| a |\n|---|\n| ![words](drawing:balance) |\n",
    ));
    let long = "word ".repeat(1500);
    check(&load(&format!("| A | B |\n|---|---|\n| one | {long} |\n")));
}

#[test]
fn drawings_say_what_they_show_and_where_they_stand() {
    let file = load("![words](drawing:balance)\n\n| a | b |\n|---|---|\n| ![words](drawing:balance) | c |\n");
    let figures: Vec<&Dictionary> = elements(&file)
        .into_iter()
        .filter(|(_, element, _)| element.get(b"S").unwrap().as_name().unwrap() == b"Figure")
        .map(|(_, element, _)| element)
        .collect();
    assert_eq!(figures.len(), 2, "one in the text, one in a table");
    for figure in figures {
        let alt = lopdf::decode_text_string(figure.get(b"Alt").unwrap()).unwrap();
        assert_eq!(alt, crate::sample::balance().alt, "the words for it");
        let layout = figure.get(b"A").unwrap().as_dict().unwrap();
        let edges = layout.get(b"BBox").unwrap().as_array().unwrap();
        let [left, bottom, right, top] = [0, 1, 2, 3].map(|n| edges[n].as_float().unwrap());
        assert!(0.0 < left && left < right && right < 595.3, "{left} to {right}");
        assert!(0.0 < bottom && bottom < top && top < 841.9, "{bottom} to {top}");
    }
}

#[test]
fn several_papers_are_parts_of_one_document_each_in_its_language() {
    let first = document(LONG_NOTE);
    let second = Document { language: "de".to_owned(), ..document("# Brief\n\n- eins\n") };
    let paper = pdf::write_all(&[&first, &second], &Fonts::built_in().unwrap()).unwrap();
    let file = File::load_mem(&paper.bytes).unwrap();
    check(&file);
    let elements = elements(&file);
    let languages: Vec<String> = elements
        .iter()
        .filter_map(|(_, element, _)| element.get(b"Lang").ok())
        .map(|language| lopdf::decode_text_string(language).unwrap())
        .collect();
    assert_eq!(languages, ["en-GB", "de"], "one for each paper");
    let names: BTreeSet<&[u8]> =
        elements.iter().map(|(_, element, _)| element.get(b"S").unwrap().as_name().unwrap()).collect();
    assert!(names.contains(b"Part".as_slice()) && names.contains(b"Document".as_slice()), "{names:?}");
}
