//! GS1: what a scan says, as scanned and as printed.

use evengap_label::{Options, WarningCode, printed, read};

use super::{check, scan, told};

#[test]
fn published_examples() {
    let udi = "US FDA, UDI formats by FDA-accredited issuing agency, version 1.3, 27 January 2017";
    let whole = "gs1 di=51022222233336 lot=A213B1 serial=1234 made=2014-12-31 expires=2015-07-07";
    check("(01)51022222233336(11)141231(17)150707(10)A213B1(21)1234", whole, udi);
    check("]d20151022222233336111412311715070710A213B1\u{1d}211234", whole, udi);
    let lookup = "US FDA, AccessGUDID device lookup, example of a UDI";
    check(
        "(01)10884521062856(11)141231(17)150707(10)A213B1(21)1234",
        "gs1 di=10884521062856 lot=A213B1 serial=1234 made=2014-12-31 expires=2015-07-07",
        lookup,
    );
    let hl7 = "HL7 version 2.x, example of a GS1-based UDI";
    check(
        "(01)00643169001763(17)160712(21)21A11F4855",
        "gs1 di=00643169001763 serial=21A11F4855 expires=2016-07-12",
        hl7,
    );
    let digit = "GS1, how to calculate a check digit by hand: 629104150021 gives 3 (from memory)";
    check("(01)06291041500213", "gs1 di=06291041500213", digit);
    let sscc = "GS1 General Specifications, standard check digit calculation: 37610425002123456 gives 9 (from memory)";
    check("(00)376104250021234569", "gs1", sscc);
}

#[test]
fn check_pairs_of_model_numbers() {
    let source = "GS1 Barcode Syntax Dictionary, test cases of the alphanumeric check character pair";
    for right in ["1987654Ad4X4bL5ttr2310c2K", "12345678901234567890123NT", "12345_!\"%&'()*+,-./LC", "225803106GSpEF"]
    {
        check(&format!("]d28013{right}"), "gs1", source);
    }
    for wrong in ["1987654Ad4X4bL5ttr2310cXK", "1987654Ad4X4bL5ttr2310c2X"] {
        check(&format!("]d28013{wrong}"), "gs1 !check_digit", source);
    }
    let message = &scan("]d280131987654Ad4X4bL5ttr2310cXK").warnings[0].message;
    assert!(message.contains("2K"), "the right pair is named: {message}");
}

#[test]
fn every_way_to_begin() {
    let expected = "gs1 di=09521041001272 lot=T228401 expires=2034-11-05";
    let data = "01095210410012721734110510T228401";
    for mark in ["]d2", "]C1", "]Q3", "]J1", "]e0", "]d2\u{1d}", "]C1\u{1d}\u{1d}", "\u{1d}", "\u{241d}", ""] {
        check(&format!("{mark}{data}"), expected, "symbology identifier and function character are stripped");
    }
    for tail in ["\r\n", "\n", "\t", "\u{1d}", "\u{1d}\r"] {
        check(&format!("]d2{data}{tail}"), expected, "line ends and a last separator add nothing");
    }
    check(&format!("\u{feff}{data}"), expected, "a byte order mark adds nothing");
    check("]E09521041001272", "gs1 di=09521041001272", "an EAN-13 is a device identifier of 14 digits")
}

#[test]
fn fixed_and_variable_lengths() {
    let expected = "gs1 di=09521041001272 lot=A1 serial=B2 expires=2034-11-05 quantity=2";
    for (text, why) in [
        ("]d201095210410012721734110510A1\u{1d}21B2\u{1d}302", "separators only where needed"),
        ("]d20109521041001272\u{1d}17341105\u{1d}10A1\u{1d}21B2\u{1d}302\u{1d}", "separators behind fixed lengths"),
        ("]d20109521041001272\u{1d}\u{1d}1734110510A1\u{1d}\u{1d}21B2\u{1d}302", "doubled separators"),
        ("]d221B2\u{1d}302\u{1d}10A1\u{1d}010952104100127217341105", "any order"),
    ] {
        check(text, expected, why);
    }
    check(
        "]d2010952104100127224012345\u{1d}241C-7\u{1d}250S2\u{1d}21S1\u{1d}70033012312359\u{1d}710P1\u{1d}8012V1",
        "gs1 di=09521041001272 ref=12345 serial=S1 expires=2030-12-31",
        "identifiers of three and four digits; the longest that fits is taken",
    );
    check("]d20109521041001272310300012510L1", "gs1 di=09521041001272 lot=L1", "a weight of fixed length");
    check("]d2800301234567890128ABC", "gs1", "a returnable asset: 0, 13 digits with check digit, then text");
    check("]d2800400123X", "gs1", "an asset");
    for ai in 90..=99 {
        check(&format!("]d20109521041001272{ai}any(thing)"), "gs1 di=09521041001272", "company internal");
    }
}

#[test]
fn lots_keep_case_and_characters() {
    for lot in ["aB3", "A(10", "x(21)y", "!\"%&'()*+,-./:;<=>?_", "00017", "12345678901234567890"] {
        check(
            &format!("]d2010952104100127210{lot}\u{1d}2001"),
            &format!("gs1 di=09521041001272 lot={lot}"),
            "every character of the invariant set, as it is",
        );
    }
    for (lot, why) in
        [("A#1", "# is not in the set"), ("A 1", "space is not in the set"), ("Ä1", "nor are other letters")]
    {
        check(
            &format!("]d2010952104100127210{lot}\u{1d}2001"),
            &format!("gs1 di=09521041001272 lot={lot} !character"),
            why,
        );
    }
    check(
        "]d2010952104100127210123456789012345678901\u{1d}2001",
        "gs1 di=09521041001272 lot=123456789012345678901 !length",
        "21 characters are one too many, and none is dropped",
    );
}

#[test]
fn dates() {
    let date = |digits: &str| told(&scan(&format!("(01)09521041001272(17){digits}")));
    let base = "gs1 di=09521041001272";
    assert_eq!(date("280229"), format!("{base} expires=2028-02-29"), "a leap day");
    assert_eq!(date("280200"), format!("{base} expires=2028-02-29~"), "day 00 is the last of the month, flagged");
    assert_eq!(date("270200"), format!("{base} expires=2027-02-28~"), "day 00 in a common year");
    assert_eq!(date("271200"), format!("{base} expires=2027-12-31~"), "day 00 in December");
    for wrong in ["270229", "271301", "270001", "270132", "27013A"] {
        let told = date(wrong);
        assert!(!told.contains("expires") && told.contains('!'), "no such day, and a warning: {told}");
    }
    let timed = |digits: &str| told(&scan(&format!("(01)09521041001272(7003){digits}")));
    assert_eq!(timed("2702282359"), format!("{base} expires=2027-02-28"), "with a time");
    assert_eq!(timed("2702002359"), format!("{base} !date"), "7003 always states the day");
    assert_eq!(timed("2702282460"), format!("{base} expires=2027-02-28 !date"), "no such time");
    let both = told(&scan("(01)09521041001272(17)270228(7003)2703012359"));
    assert_eq!(both, format!("{base} expires=2027-02-28 !conflict"), "two expiry dates");
}

#[test]
fn centuries() {
    // GS1 General Specifications, determination of century: d = YY - current YY.
    for (current, two, full, why) in [
        (2026, 26, 2026, "d = 0"),
        (2026, 76, 2076, "d = 50 stays in this century"),
        (2026, 77, 1977, "d = 51 is the century before"),
        (2026, 99, 1999, "d = 73"),
        (2026, 0, 2000, "d = -26"),
        (2050, 0, 2100, "d = -50 is the next century"),
        (2050, 1, 2001, "d = -49 stays in this century"),
        (2050, 99, 2099, "d = 49"),
        (1999, 49, 2049, "d = -50 is the next century"),
        (1999, 50, 1950, "d = -49 stays in this century"),
        (2000, 50, 2050, "d = 50"),
        (2000, 51, 1951, "d = 51"),
    ] {
        let label = read(&format!("(17){two:02}0615"), &Options::new(current));
        let expires = label.expires_on.map(|date| date.on.to_string());
        assert_eq!(expires, Some(format!("{full}-06-15")), "{why} in {current}");
    }
    for extreme in [i32::MIN, -1, 0, i32::MAX] {
        assert!(read("(17)260615", &Options::new(extreme)).expires_on.is_some(), "any current year is survived");
    }
}

#[test]
fn doubts() {
    check("]d20109521041001273", "gs1 di=09521041001273 !check_digit", "wrong check digit: kept, and said");
    let message = &scan("]d20109521041001273").warnings[0].message;
    assert!(message.contains("3 where 2 is right"), "the right digit is named: {message}");
    check("]d2010952104100127", "gs1 di=0952104100127 !length", "13 digits instead of 14");
    check("]d201O9521041001272", "gs1 di=O9521041001272 !character", "a letter where a digit belongs");
    check("]d20109521041001272045X", "gs1 di=09521041001272 !unknown_element", "no identifier begins with 04");
    check("(01)09521041001272(88)x", "gs1 di=09521041001272 !unknown_element", "unknown identifier as printed");
    check("]d2010952104100127210A\u{1d}10B", "gs1 di=09521041001272 lot=A !conflict", "two lots on one label");
    check("]d2010952104100127210A\u{1d}10A", "gs1 di=09521041001272 lot=A", "the same lot twice is no doubt");
    check("]d2010952104100127210", "gs1 di=09521041001272 !length", "an empty lot");
    for (text, expected) in [
        ("]d210A1", "gs1 lot=A1 !pairing"),
        ("]d21734110510A1\u{1d}21S", "gs1 lot=A1 serial=S expires=2034-11-05 !pairing"),
        ("]d20109521041001272372", "gs1 di=09521041001272 quantity=2 !pairing !pairing"),
        ("]d20109521041001272250S2", "gs1 di=09521041001272 !pairing"),
        ("]d20209521041001272372", "gs1 quantity=2"),
    ] {
        check(text, expected, "pairs that need or forbid each other");
    }
}

#[test]
fn swallowed_elements() {
    let base = "gs1 di=09521041001272";
    for (tail, expected, why) in [
        ("10T22840117341105", "lot=T22840117341105 !separator", "an expiry inside the lot"),
        ("10T22840121S7194998", "lot=T22840121S7194998 !separator", "a serial inside the lot"),
        ("21S719499810T228401", "serial=S719499810T228401 !separator", "a lot inside the serial"),
        ("10T228401", "lot=T228401", "a short lot"),
        ("10T21", "lot=T21", "a short lot with 21"),
        ("10AB1799990001", "lot=AB1799990001", "17 with no possible date behind it"),
        ("10T22840117341105\u{1d}2001", "lot=T22840117341105", "the scanner sends separators"),
    ] {
        check(&format!("]d20109521041001272{tail}"), &format!("{base} {expected}"), why);
    }
    check(
        "]d201095210410012721734110510T2284011734110",
        &format!("{base} lot=T2284011734110 expires=2034-11-05"),
        "the expiry stands already",
    );
}

#[test]
fn other_separators() {
    let data = |separator: &str| format!("01095210410012721734110510T228401{separator}21S7");
    let expected = "gs1 di=09521041001272 lot=T228401 serial=S7 expires=2034-11-05";
    for separator in ["|", "~", "{GS}", "^]", "\u{e8}", "\u{2194}"] {
        let options = Options { separators: vec![separator.to_owned()], ..Options::new(super::YEAR) };
        assert_eq!(told(&read(&data(separator), &options)), expected, "the scanner sends {separator}");
        assert_eq!(told(&read(&data("\u{1d}"), &options)), expected, "ASCII 29 always separates");
    }
    assert!(told(&scan(&data("|"))).contains("!character"), "not configured: data, with a warning");
    let options = Options { separators: vec![String::new()], ..Options::new(super::YEAR) };
    assert_eq!(told(&read(&data("\u{1d}"), &options)), expected, "an empty separator separates nothing");
}

#[test]
fn printed_form() {
    let expected = "gs1 di=09521041001272 lot=A(1)B serial=S(x) expires=2034-11-05";
    check("(01)09521041001272(17)341105(10)A(1)B(21)S(x)", expected, "brackets may be data");
    check(" (01)09521041001272(17)341105(10)A(1)B(21)S(x)", expected, "a space in front");
    check("]d2(01)09521041001272(17)341105(10)A(1)B(21)S(x)", expected, "a scanner that adds brackets");
    check("]d2(01)09521041001272(17)341105(10)A(1)B\u{1d}(21)S(x)", expected, "brackets and separators");
    check("(01)0952104100127(10)A", "gs1 di=0952104100127 lot=A !length", "a digit too few");
    check("(01)095210410012722(10)A", "gs1 di=095210410012722 lot=A !length", "a digit too many");
    for text in [
        "]d201095210410012721734110510A(21)B\u{1d}21(10)\u{1d}",
        "]d2XYZ\u{1d}10A",
        "]d20109521041001272(10)A\u{1d}99(()",
        "]d201AB(10)C\u{1d}10LOT",
    ] {
        let label = scan(text);
        let back = scan(&printed(&label));
        assert_eq!(back.elements, label.elements, "reading the printed form back: {:?}", printed(&label));
    }
    assert_eq!(printed(&scan("]d201095210410012721734110510A\u{1d}21B")), "(01)09521041001272(17)341105(10)A(21)B");
    assert_eq!(printed(&scan("+A123BJC5D6E71G")), "+A123BJC5D6E71G", "other schemes come back as scanned");
}

#[test]
fn what_is_no_gs1() {
    for text in [
        "",
        " ",
        "]d2",
        "\u{1d}",
        "T228401",
        "10T228401",
        "21S7",
        "4006381333931",
        "]C0ABC",
        "]A0XYZ1",
        "(hello)",
        "0109521041",
        "]",
        "()",
        "(1)",
    ] {
        check(text, "unknown !not_recognised", "typed by hand");
    }
    for text in ["=W0000 99 123456", "=/A9999XYZ100T0944=,000025=A99971312345600=>014032=}013032&,1000000000000XYZ123"]
    {
        check(text, "isbt128 !not_decoded", "US FDA, UDI formats, ISBT 128 example: recognised, kept, not decoded");
    }
    assert_eq!(scan(&"9".repeat(20_000)).warnings[0].code, WarningCode::Length, "far too long for a scan");
}

#[test]
fn expiry() {
    let day = |text: &str| text.parse().unwrap();
    let label = scan("(01)09521041001272(17)280200");
    assert!(!label.expired_on(day("2028-02-29")), "good to the end of the month");
    assert!(label.expired_on(day("2028-03-01")), "expired the day after");
    assert!(!scan("(01)09521041001272").expired_on(day("2999-01-01")), "no expiry, never expired");
}

/// As people write the printed form; GS1 General Specifications have no blank in a value (CSET 82).
#[test]
fn blanks_beside_the_brackets_are_no_data() {
    let scan = "(01) 09521041001272 (17) 341105 (10) T228401 ";
    let label = read(scan, &Options::new(2026));
    assert_eq!(label.device_identifier.as_deref(), Some("09521041001272"), "{label:?}");
    assert_eq!(label.expires_on.map(|date| date.on.to_string()).as_deref(), Some("2034-11-05"), "{label:?}");
    assert_eq!(label.lot.as_deref(), Some("T228401"), "{label:?}");
    assert_eq!(label.raw, scan, "the scan itself is kept as it was");
    assert!(label.warnings.is_empty(), "{:?}", label.warnings);
}
