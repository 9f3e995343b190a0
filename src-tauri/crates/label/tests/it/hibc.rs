//! HIBC supplier labels.

use super::{check, scan, told};

const ALPHABET: &str = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%";

/// Adds the mod-43 check character to a code.
fn closed(code: &str) -> String {
    let sum: usize = code.chars().map(|character| ALPHABET.find(character).unwrap()).sum();
    format!("{code}{}", ALPHABET.chars().nth(sum % 43).unwrap())
}

#[test]
fn published_examples() {
    let standard = "ANSI/HIBC 2.6 (2016), figures 1, 2 and 6 and appendix on the check character";
    check("+A123BJC5D6E71G", "hibc di=A123BJC5D6E71 ref=BJC5D6E7", standard);
    check("+$$52001510X3GD", "hibc lot=10X3 expires=2020-01-15 !pairing", standard);
    check("+A99912345/$$52001510X33", "hibc di=A99912345 ref=1234 lot=10X3 expires=2020-01-15", standard);
    check(&closed("+H123ABC01234567890"), "hibc di=H123ABC01234567890 ref=ABC0123456789", "ANSI/HIBC 2.6, figure C5");
    check(
        "+A99912345/$$52001510X3/16D20111212/S77DEFG457",
        "hibc di=A99912345 ref=1234 lot=10X3 serial=77DEFG45 made=2011-12-12 expires=2020-01-15",
        "ANSI/HIBC 2.6, combined code with supplements (from memory; the check character was computed)",
    );
    let grammar = "published example of a text-analysis grammar for HIBC device identifiers";
    for (text, expires) in [
        ("+X999123ABC0/$$05191234AB/S5678EDFG/16D20151001A", "2019-05-31~"),
        ("+X999123ABC0/$$20515191234AB/S5678EDFG/16D20151001I", "2019-05-15"),
        ("+X999123ABC0/$$31905151234AB/S5678EDFG/16D20151001J", "2019-05-15"),
        ("+X999123ABC0/$$4190515211234AB/S5678EDFG/16D20151001N", "2019-05-15"),
        ("+X999123ABC0/$$5191351234AB/S5678EDFG/16D20151001J", "2019-05-15"),
        ("+X999123ABC0/$$619135211234AB/S5678EDFG/16D20151001N", "2019-05-15"),
        ("+X999123ABC0/$1234AB/S5678EDFG/16D20151001/14D20190515.", "2019-05-15"),
    ] {
        let expected =
            format!("hibc di=X999123ABC0 ref=123ABC lot=1234AB serial=5678EDFG made=2015-10-01 expires={expires}");
        check(text, &expected, grammar);
    }
}

#[test]
fn the_example_with_the_wrong_check_character() {
    let source = "US FDA, UDI formats, HIBCC example; copied into HL7 FHIR and elsewhere. It ends in C, right is H";
    let text = "+H123PARTNO1234567890120/$$420020216LOT123456789012345/SXYZ456789012345678/16D20130202";
    let said = "hibc di=H123PARTNO1234567890120 ref=PARTNO123456789012 lot=LOT123456789012345 serial=XYZ456789012345678 made=2013-02-02 expires=2020-02-02";
    check(&format!("{text}C"), &format!("{said} !check_digit"), source);
    let message = &scan(&format!("{text}C")).warnings[0].message;
    assert!(message.contains("‘C’ where ‘H’"), "both characters are named: {message}");
    check(&closed(text), said, source);
    check(
        "+A123ABCDEFGHI1234567891/$$420020216LOT123456789012345/SXYZ456789012345678/16D20130202$",
        "hibc di=A123ABCDEFGHI1234567891 ref=ABCDEFGHI123456789 lot=LOT123456789012345 serial=XYZ456789012345678 made=2013-02-02 expires=2020-02-02",
        "a barcode maker's HIBC page; the check character is $",
    );
}

/// The table of lot and serial forms in ANSI/HIBC 2.6, as its examples stand in an open-source reader's
/// tests; the standard prints `L` and `C` for link and check, here they are G and computed.
#[test]
fn every_form_of_the_second_code() {
    for (data, expected) in [
        ("05271", "expires=2005-09-28"),
        ("052713C001", "lot=3C001 expires=2005-09-28"),
        ("$3C001", "lot=3C001"),
        ("$$09053C001", "lot=3C001 expires=2005-09-30~"),
        ("$$12053C001", "lot=3C001 expires=2005-12-31~"),
        ("$$20928053C001", "lot=3C001 expires=2005-09-28"),
        ("$$30509283C001", "lot=3C001 expires=2005-09-28"),
        ("$$4050928223C001", "lot=3C001 expires=2005-09-28"),
        ("$$5052713C001", "lot=3C001 expires=2005-09-28"),
        ("$$605271223C001", "lot=3C001 expires=2005-09-28"),
        ("$$73C001", "lot=3C001"),
        ("$$82409053C001", "lot=3C001 expires=2005-09-30~ quantity=24"),
        ("$$82420928053C001", "lot=3C001 expires=2005-09-28 quantity=24"),
        ("$$82430509283C001", "lot=3C001 expires=2005-09-28 quantity=24"),
        ("$$8244050928223C001", "lot=3C001 expires=2005-09-28 quantity=24"),
        ("$$8245052713C001", "lot=3C001 expires=2005-09-28 quantity=24"),
        ("$$824605271223C001", "lot=3C001 expires=2005-09-28 quantity=24"),
        ("$$82473C001", "lot=3C001 quantity=24"),
        ("$$824", "quantity=24"),
        ("$$90010009053C001", "lot=3C001 expires=2005-09-30~ quantity=100"),
        ("$$90010020928053C001", "lot=3C001 expires=2005-09-28 quantity=100"),
        ("$$90010030509283C001", "lot=3C001 expires=2005-09-28 quantity=100"),
        ("$$9001004050928223C001", "lot=3C001 expires=2005-09-28 quantity=100"),
        ("$$9001005052713C001", "lot=3C001 expires=2005-09-28 quantity=100"),
        ("$$900100605271223C001", "lot=3C001 expires=2005-09-28 quantity=100"),
        ("$$90010073C001", "lot=3C001 quantity=100"),
        ("$$900100", "quantity=100"),
        ("$+0001", "serial=0001"),
        ("$$+09050001", "serial=0001 expires=2005-09-30~"),
        ("$$+20928050001", "serial=0001 expires=2005-09-28"),
        ("$$+30509280001", "serial=0001 expires=2005-09-28"),
        ("$$+4050928200001", "serial=0001 expires=2005-09-28"),
        ("$$+5052710001", "serial=0001 expires=2005-09-28"),
        ("$$+605271200001", "serial=0001 expires=2005-09-28"),
        ("$$+70001", "serial=0001"),
    ] {
        for link in ["G", "%", "+", "/", " ", "$"] {
            let expected = format!("hibc {expected} !pairing");
            check(&closed(&format!("+{data}{link}")), &expected, "split by position, whatever the link character");
        }
        let supplements = format!("+A123BJC5D6E71/{data}/Q12");
        let quantity = if expected.contains("quantity") { "" } else { " quantity=12" };
        check(
            &closed(&supplements),
            &format!("hibc di=A123BJC5D6E71 ref=BJC5D6E7 {expected}{quantity}"),
            "combined, with a quantity",
        );
    }
}

#[test]
fn check_characters_of_every_kind() {
    for (product, last) in
        ["BJC5D6E7", "BJCMD6E7", "A", "ABCDEFGHI123456789"].iter().flat_map(|p| (0..10).map(move |d| (p, d)))
    {
        let text = closed(&format!("+A123{product}{last}"));
        let expected = format!("hibc di=A123{product}{last} ref={product}");
        check(&text, &expected, "primary code; the check character is whatever it is");
    }
    check("*+A123BJC5D6E71G*", "hibc di=A123BJC5D6E71 ref=BJC5D6E7", "the caption under the code, with its asterisks");
    let spaced = (b'A'..=b'Z')
        .flat_map(|letter| (0..10).map(move |level| closed(&format!("+A123{}JC{level}", char::from(letter)))))
        .find(|text| text.ends_with(' '))
        .unwrap();
    assert!(scan(&spaced).warnings.is_empty(), "a space as check character");
    assert!(scan(&format!("*{}_*", spaced.trim_end())).warnings.is_empty(), "written as _ in the caption");
}

#[test]
fn codes_sent_one_behind_the_other() {
    let source = "an open-source reader's test: two linear codes in one scan";
    let expected = "hibc di=A123BJC5D6E71 ref=BJC5D6E7 lot=10X3 expires=2020-01-15";
    check("+A123BJC5D6E71G+$$52001510X3GD", expected, source);
    check("+A123BJC5D6E71G+2001510X3GG", expected, source);
    check(
        "+A123BJC5D6E71G+$$+52001510X3GB",
        "hibc di=A123BJC5D6E71 ref=BJC5D6E7 serial=10X3 expires=2020-01-15",
        source,
    );
    check("+A123BJCMD6E79++$$52001510X3+ ", "hibc di=A123BJCMD6E79 ref=BJCMD6E7 lot=10X3 expires=2020-01-15", source);
    check(
        &closed("+A12345/$$3270101Q+1"),
        "hibc di=A12345 ref=4 lot=Q+1 expires=2027-01-01",
        "a + in a lot begins no second code, even behind a character that would fit as check character",
    );
    check("]C0+A123BJC5D6E71G", "hibc di=A123BJC5D6E71 ref=BJC5D6E7", "with a symbology identifier");
}

#[test]
fn doubts() {
    check("+A123BJC5D6E71H", "hibc di=A123BJC5D6E71 ref=BJC5D6E7 !check_digit", "wrong check character");
    check("+a123bjc5d6e71G", "hibc di=a123bjc5d6e71 ref=bjc5d6e7 !character", "small letters are none of the 43");
    check("+A123BJC5D6E71g", "hibc di=A123BJC5D6E71 ref=BJC5D6E7 !character", "nor as the check character");
    check(
        "+A12345/$$3270101x7bK",
        "hibc di=A12345 ref=4 lot=x7b expires=2027-01-01 !character",
        "a lot in small letters is kept as it is",
    );
    check(&closed("+A1231"), "hibc di=A1231 !length", "no product number");
    check(&closed("+A123BJC5D6E7X"), "hibc di=A123BJC5D6E7X ref=BJC5D6E7 !structure", "the packaging level is a digit");
    check(
        &closed("+A12345/$$3271301L"),
        "hibc di=A12345 ref=4 lot=L !date",
        "month 13: the lot is still found by position",
    );
    check(&closed("+A12345/$$5273661"), "hibc di=A12345 ref=4 lot=1 !date", "day 366 of a common year");
    check(&closed("+A12345/$$5283661"), "hibc di=A12345 ref=4 lot=1 expires=2028-12-31", "day 366 of a leap year");
    check(&closed("+A12345/$$427010124L"), "hibc di=A12345 ref=4 lot=L !date", "hour 24");
    check(&closed("+A12345/$$LOT"), "hibc di=A12345 ref=4 lot=LOT !structure", "no date flag");
    check(
        &closed("+A12345/$$81210X3"),
        "hibc di=A12345 ref=4 lot=10X3 quantity=12 !date",
        "a flag with no date behind it",
    );
    check(&closed("+A12345/$L/XYZ"), "hibc di=A12345 ref=4 lot=L !unknown_element", "an unknown part is kept");
    check(&closed("+A12345/$L/S1/S2"), "hibc di=A12345 ref=4 lot=L serial=1 !conflict", "two serials");
    check(
        &closed("+A12345/$$3270101L/14D20280101"),
        "hibc di=A12345 ref=4 lot=L expires=2027-01-01 !conflict",
        "two expiry dates",
    );
    check(
        &closed("+A12345/$$0127L/14D20270115"),
        "hibc di=A12345 ref=4 lot=L expires=2027-01-15",
        "the month, then its day",
    );
    check("+/EU", "unknown !not_recognised", "a provider's code is no supplier label");
    check("+$", "unknown !not_recognised", "nothing in it");
}

#[test]
fn centuries_are_those_of_gs1() {
    assert!(told(&scan(&closed("+A12345/$$3760101L"))).contains("2076-01-01"), "d = 50");
    assert!(told(&scan(&closed("+A12345/$$3770101L"))).contains("1977-01-01"), "d = 51");
}
