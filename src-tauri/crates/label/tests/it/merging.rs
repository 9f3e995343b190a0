//! Two codes of one label.

use evengap_label::{Options, merge, read};

use super::{YEAR, scan, told};

/// Joins two scans both ways, and as two lines of one scan.
fn check(first: &str, second: &str, expected: &str, why: &str) {
    let (a, b) = (scan(first), scan(second));
    for (a, b) in [(&a, &b), (&b, &a)] {
        let said = match merge(a, b) {
            Ok(label) => {
                let lines = format!("{}\n{}", a.raw, b.raw);
                let read_at_once = read(&lines, &Options::new(YEAR));
                assert_eq!(told(&read_at_once), told(&label), "read as two lines: {why}");
                assert_eq!(told(&scan(&label.raw)), told(&label), "read again from the joined scan: {why}");
                assert!(label.raw.contains(first) && label.raw.contains(second), "both scans are kept: {why}");
                told(&label)
            }
            Err(refusal) => {
                let sentence = refusal.to_string();
                assert!(sentence.ends_with('.') && !sentence.contains(". "), "one sentence: {sentence}");
                format!("refused: {}", sentence.split([',', ':', '(']).next().unwrap().trim())
            }
        };
        assert_eq!(said, expected, "{why}");
    }
}

#[test]
fn one_label() {
    check(
        "]C10109521041001272",
        "]C11734110510T228401",
        "gs1 di=09521041001272 lot=T228401 expires=2034-11-05",
        "the item in one code, lot and expiry in the other: no pair is missing any more",
    );
    check(
        "+A123BJC5D6E71G",
        "+$$52001510X3GD",
        "hibc di=A123BJC5D6E71 ref=BJC5D6E7 lot=10X3 expires=2020-01-15",
        "linked by the check character of the first code",
    );
    check("]d20109521041001272", "]d20109521041001272", "gs1 di=09521041001272", "the same code twice");
    check(
        "]d2010952104100127217341100",
        "]d201095210410012721734110510A",
        "gs1 di=09521041001272 lot=A expires=2034-11-05",
        "a month and a day of it agree",
    );
}

#[test]
fn two_labels() {
    check("]d20109521041001272", "]d20109521041001487", "refused: The scans name two devices", "two items");
    check(
        "+A123BJC5D6E71G",
        "]d20109521041001487",
        "refused: One scan is a GS1 code and the other a HIBC code",
        "two schemes",
    );
    check(
        "+A123BJCMD6E79+",
        "+$$52001510X3GD",
        "refused: The second HIBC code belongs to another first code",
        "the link is G, not +",
    );
    check(
        "]d2010952104100127210A",
        "]d2010952104100127210B",
        "refused: The scans give two values for the lot",
        "two lots",
    );
    check(
        "]d2010952104100127221A",
        "]d2010952104100127221B",
        "refused: The scans give two values for the serial number",
        "two items of a product",
    );
    check(
        "]d2010952104100127217341105",
        "]d2010952104100127217341106",
        "refused: The scans give two values for the expiry",
        "two days",
    );
    check(
        "]d20109521041001272",
        "=A99971312345600",
        "refused: The scan ‘=A99971312345600’ cannot be joined to another one because it is not read",
        "not decoded",
    );
}

#[test]
fn two_labels_in_one_scan_are_said() {
    let label = scan("]d20109521041001272\r\n]d20109521041001487");
    assert_eq!(told(&label), "gs1 di=09521041001272 !other_label", "the first is read, the second is said");
    assert_eq!(label.raw, "]d20109521041001272\r\n]d20109521041001487", "both are kept");
}
