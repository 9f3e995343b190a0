//! What holds for every scan.

use evengap_label::{Label, Options, Scheme, merge, printed, read};
use proptest::prelude::*;

use super::YEAR;

/// Reads a scan and holds the crate's promises against the label.
pub(super) fn promises(text: &str, options: &Options) -> Label {
    let label = read(text, options);
    assert_eq!(label.raw, text, "the raw scan is kept");
    for value in [&label.lot, &label.serial].into_iter().flatten() {
        assert!(text.contains(value.as_str()), "{value:?} stands in {text:?}");
    }
    if label.scheme == Scheme::Unknown {
        assert!(label.elements.is_empty() && label.lot.is_none() && !label.warnings.is_empty(), "unknown is said");
    }
    for warning in &label.warnings {
        assert!(warning.message.ends_with('.'), "a sentence: {:?}", warning.message);
        assert!(!warning.message.chars().any(char::is_control), "printable: {:?}", warning.message);
    }
    if label.scheme == Scheme::Gs1 {
        let back = read(&printed(&label), options);
        let said = |label: &Label| Label { raw: String::new(), warnings: Vec::new(), ..label.clone() };
        assert_eq!(said(&back), said(&label), "printing and reading back: {:?} from {text:?}", printed(&label));
    }
    label
}

/// Elements with right values: device identifier, fixed ones and variable ones.
fn elements() -> impl Strategy<Value = Vec<(String, bool)>> {
    let text = "[!-\"%-?A-Z_a-z]{1,20}";
    let day = (0_u32..100, 1_u32..13, 0_u32..29).prop_map(|(year, month, day)| format!("{year:02}{month:02}{day:02}"));
    let element = prop_oneof![
        text.prop_map(|lot| (format!("10{lot}"), false)),
        text.prop_map(|serial| (format!("21{serial}"), false)),
        text.prop_map(|other| (format!("240{other}"), false)),
        text.prop_map(|other| (format!("99{other}"), false)),
        day.clone().prop_map(|day| (format!("17{day}"), true)),
        day.prop_map(|day| (format!("11{day}"), true)),
        "[0-9]{2}".prop_map(|variant| (format!("20{variant}"), true)),
        "[0-9]{1,8}".prop_map(|count| (format!("30{count}"), false)),
    ];
    prop::collection::vec(element, 1..6).prop_map(|mut list| {
        list.insert(0, ("0109521041001272".to_owned(), true));
        list
    })
}

/// Text made of what matters to the reader.
fn pieces() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        Just("\u{1d}".to_owned()),
        Just("]d2".to_owned()),
        "[(][0-9]{0,4}[)]",
        "(01|02|10|11|17|21|240|7003|8003|8013|99)",
        "[0-9]{1,14}",
        "[A-Z0-9$+/% .-]{1,8}",
        "[+][A-Z][0-9A-Z]{3,10}",
        "[/]?[$]{1,2}[+]?[0-9]{1,9}",
        "\\PC{0,6}",
    ];
    prop::collection::vec(piece, 0..12).prop_map(|list| list.concat())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_keeps_the_promises(text in any::<String>(), year in any::<i32>()) {
        promises(&text, &Options::new(year));
    }

    #[test]
    fn any_bytes_keep_the_promises(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        promises(&String::from_utf8_lossy(&bytes), &Options::new(YEAR));
    }

    #[test]
    fn likely_texts_keep_the_promises(text in pieces(), separator in prop::option::of("[|~^#A-Z]{1,2}")) {
        promises(&text, &Options { separators: separator.into_iter().collect(), ..Options::new(YEAR) });
    }

    #[test]
    fn redundant_separators_add_nothing(list in elements(), extra in prop::collection::vec(0_usize..3, 7)) {
        let mut lean = "]d2".to_owned();
        let mut full = "]d2".to_owned();
        for (place, (element, fixed)) in list.iter().enumerate() {
            lean += element;
            full += element;
            let is_last = place + 1 == list.len();
            let needed = usize::from(!fixed && !is_last);
            lean += &"\u{1d}".repeat(needed);
            full += &"\u{1d}".repeat(needed + extra[place]);
        }
        let said = |text: &str| {
            let label = promises(text, &Options::new(YEAR));
            let warnings = label.warnings.iter().filter(|warning| warning.code != evengap_label::WarningCode::Separator).cloned().collect();
            Label { raw: String::new(), warnings, ..label }
        };
        prop_assert_eq!(said(&lean), said(&full));
        prop_assert_eq!(said(&lean).elements.len(), list.len());
    }

    #[test]
    fn lot_and_serial_come_back_as_they_are(lot in "[!-\"%-?A-Z_a-z]{1,20}", serial in "[!-\"%-?A-Z_a-z]{1,20}") {
        let label = promises(&format!("]d2010952104100127210{lot}\u{1d}21{serial}\u{1d}"), &Options::new(YEAR));
        prop_assert_eq!(label.lot.as_deref(), Some(lot.as_str()));
        prop_assert_eq!(label.serial.as_deref(), Some(serial.as_str()));
        prop_assert!(label.warnings.is_empty());
        let label = promises(&format!("+A123BJC5D6E71/$${}{}/S{}?", "3270101", lot.replace('/', "-"), serial.replace('/', "-")), &Options::new(YEAR));
        prop_assert_eq!(label.lot, Some(lot.replace('/', "-")));
        prop_assert_eq!(label.serial, Some(serial.replace('/', "-")));
    }

    #[test]
    fn merging_is_reading_both(first in elements(), second in elements()) {
        let text = |list: &[(String, bool)]| {
            let joined: Vec<&str> = list.iter().map(|(element, _)| element.as_str()).collect();
            format!("]d2{}", joined.join("\u{1d}"))
        };
        let (first, second) = (text(&first), text(&second));
        let options = Options::new(YEAR);
        let (a, b) = (read(&first, &options), read(&second, &options));
        if let Ok(both) = merge(&a, &b) {
            prop_assert_eq!(&read(&both.raw, &options), &both);
            prop_assert_eq!(merge(&both, &a), Ok(both.clone()));
            prop_assert_eq!(merge(&both, &b), Ok(both.clone()));
        }
    }
}
