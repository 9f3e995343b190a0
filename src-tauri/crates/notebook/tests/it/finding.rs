//! Finding cases as one types.

use evengap_case::Case;
use serde_json::json;

use crate::bench::{Bench, at, case, id};

fn cases() -> Vec<Case> {
    let person = |given: &str, family: &str| json!({ "given_name": given, "family_name": family });
    vec![
        case(
            1,
            json!({
                "patient": { "given_name": "Mavis", "family_name": "Threlkeld-Born", "hospital_number": "WT-2026.114",
                             "birth_date": "1950-07-19" },
                "setting": { "operation_date": "2026-03-04", "hospital": "Wendlemere Town Hospital" },
                "knee": { "side": "left" },
                "choice": { "procedure": "total", "reason": "Bone on bone; 50% of the \"medial\" tibia." },
                "components": [{ "reference": "KV-10.22/L", "lot": "77 12-B", "serial": "SN00457",
                                 "scan": { "device_identifier": "09506000134352" } }],
                "visits": [{ "note": "Walks NEAR the river, as in October 2027; marches again." }],
            }),
        ),
        case(2, json!({ "patient": person("Ελένη", "Παπαδοπούλου"), "setting": { "operation_date": "2026-03-21" } })),
        case(3, json!({ "patient": person("Фёдор", "Андрійченко"), "setting": { "operation_date": "2026-04-03" } })),
        case(4, json!({ "patient": person("Ánh", "Nguyễn Thị Đào"), "setting": { "operation_date": "2025-03-04" } })),
        case(5, json!({ "patient": person("Işıl", "Yıldırım"), "setting": { "operation_date": "2026-12-24" } })),
        case(6, json!({ "patient": person("Søren", "Groß"), "setting": { "operation_date": "2026-01-04" } })),
        case(
            7,
            json!({ "patient": { "given_name": "June", "family_name": "O’Hara", "birth_date": "1949-03-30" },
                        "setting": { "operation_date": "2026-08-04" },
                        "aftercare": { "instructions": "Review as in march." } }),
        ),
        case(8, json!({ "patient": person("Łucja", "Świątek"), "setting": { "operation_date": "2026-02-11" } })),
    ]
}

/// What a query finds, by number of the case.
#[track_caller]
fn check(given: &str, expected: &[u8], why: &str) {
    thread_local! {
        static SHELF: (Bench, evengap_notebook::Notebook) = {
            let bench = Bench::new();
            let notebook = bench.notebook(cases());
            (bench, notebook)
        };
    }
    let mut found: Vec<u8> = SHELF.with(|(_, notebook)| {
        let lines = notebook.find(given).unwrap_or_else(|error| panic!("“{given}”: {error}"));
        lines.iter().map(|line| line.id[34..].parse().unwrap()).collect()
    });
    found.sort_unstable();
    assert_eq!(found, expected, "“{given}”: {why}");
}

#[test]
fn names() {
    check("mav", &[1], "the beginning of a given name");
    check("THRELK", &[1], "capitals do not matter");
    check("threlkeld mavis", &[1], "any order");
    check("mavis  thr ", &[1], "spaces do not matter");
    check("avis", &[], "only beginnings of words");
    check("mavis nguyen", &[], "every word is needed");
    check("born", &[1], "the second half of a double name");
    check("threlkeld-born", &[1], "with its dash");
    check("threlkeldborn", &[1], "without its dash");
    check("threlkeld-b", &[1], "as it is being typed");
    check("born-threlkeld", &[], "but not turned round with the dash");
    check("ohara", &[7], "an apostrophe left out");
    check("O'Hara", &[7], "another apostrophe");
    check("", &[1, 2, 3, 4, 5, 6, 7, 8], "nothing typed: all");
    check("   ", &[1, 2, 3, 4, 5, 6, 7, 8], "spaces only: all");
}

#[test]
fn other_letters() {
    check("nguyen", &[4], "Vietnamese without accents");
    check("Nguyễn", &[4], "and with");
    check("Nguye\u{302}\u{303}n", &[4], "and with combining accents");
    check("dao anh", &[4], "đ is found as d");
    check("παπαδοπουλου", &[2], "Greek without accent");
    check("ΠΑΠΑΔΟΠΟΎΛΟΥ ελ", &[2], "Greek capitals");
    check("федор", &[3], "Cyrillic ё as е");
    check("андріич", &[3], "Cyrillic й as и");
    check("yildirim isil", &[5], "Turkish ı and ş");
    check("YILDIRIM", &[5], "Turkish in capitals without dots");
    check("Işıl", &[5], "as written");
    check("soren gross", &[6], "ø as o, ß as ss");
    check("groß", &[6], "and as written");
    check("lucja swiatek", &[8], "Polish");
}

#[test]
fn numbers() {
    for typed in ["WT-2026.114", "wt-2026", "wt2026114", "WT2026", "wt 2026 114", "WT/2026/114", "2026.114"] {
        check(typed, &[1], "the hospital number, however it is written");
    }
    for typed in ["KV-10.22/L", "kv10", "kv-10.2", "KV1022L"] {
        check(typed, &[1], "the reference");
    }
    for typed in ["77 12-B", "7712b", "77-12-b"] {
        check(typed, &[1], "the lot");
    }
    check("sn004", &[1], "the serial number");
    check("09506000134352", &[1], "the device identifier");
    check("114-2026", &[], "parts of a number in another order are another number");
}

#[test]
fn dates() {
    for typed in ["2026-03-04", "04.03.2026", "4.3.2026", "4/3/2026", "04/03/2026", "4.03.2026", "20260304"] {
        check(typed, &[1], "the day of the operation");
    }
    check("4 march 2026", &[1], "in words");
    check("2026-03", &[1, 2], "a month");
    check("2026-0", &[1, 2, 3, 6, 7, 8], "a year and the beginning of a month");
    check("2026-04", &[3], "April, and not the fourth of some month");
    check("march 2026", &[1, 2], "a month in words, not who was born in some March and operated on in 2026");
    check("october 2027", &[1], "a month in a text");
    check("March 2025", &[4], "another year");
    check("mar 2026", &[1, 2], "a short month");
    check("june 2026", &[7], "a month that is also somebody's name");
    check("3.4.2026", &[3], "the day stands before the month");
    check("1950-07-19", &[1], "the day of birth");
    check("19.07.1950 mavis", &[1], "a date beside a name");
    check(
        "04.03.",
        &[1, 3, 4],
        "a date as it is being typed; until the year is there it may be the end of 2026-04-03 as well",
    );
    check("2026-03-04 2026-03-21", &[], "both dates are needed");
}

#[test]
fn texts() {
    check("river", &[1], "a visit's note");
    check("wendlemere", &[1], "the hospital");
    check("left total", &[1], "side and procedure in words");
    check("hospital wendlemere", &[1], "words of one text in any order");
}

#[test]
fn signs_are_never_commands() {
    check("NEAR", &[1], "a word of the query language is a word");
    check("NEAR(mavis threlkeld, 5)", &[], "not a command: no case holds a 5");
    check("mavis OR nguyen", &[], "“or” is a word, and no case holds it");
    check("mavis AND threlkeld", &[], "“and” is a word, and no case holds it");
    check("NOT mavis", &[], "“not” too");
    check("*", &[], "a sign alone is no wildcard");
    check("%", &[], "nor this");
    check("_", &[], "nor this");
    check("\"", &[], "a quote alone");
    check("\"mavis", &[1], "an open quote");
    check("mavis\" OR \"nguyen", &[], "a quote that would close ours");
    check("mav*", &[1], "a star after a word");
    check("ma*is", &[], "a star inside a word is no wildcard");
    check("names:mavis", &[], "a column name is no command");
    check("-mavis", &[1], "a dash is no command");
    check("^mavis", &[1], "nor a caret");
    check("(mavis", &[1], "an open parenthesis");
    check("mavis)", &[1], "a closed one");
    check("{mavis} + [threlkeld]", &[1], "braces and brackets");
    check("50%", &[1], "a percent sign after a number");
    check("mavis\0threlkeld", &[1], "a NUL is a space");
    check("'; DROP TABLE entry; --", &[], "SQL is text");
    check("\u{E000}", &[], "the index's own separator cannot be typed");
    check("🙂", &[], "no letter at all");
    check("mavis", &[1], "and afterwards all is as before");
}

#[test]
fn very_long_texts() {
    check(&"mavis ".repeat(5000), &[1], "a pasted page of the same word");
    check(&"x".repeat(100_000), &[], "one endless word");
    check(&"(".repeat(10_000), &[], "parentheses without end");
}

#[test]
fn the_newest_only() {
    let bench = Bench::new();
    let notebook = bench.notebook(cases());
    let newest = |text: &str, most| {
        let found = notebook.find_newest(text, most).unwrap();
        (found.lines.into_iter().map(|line| line.operation_date).collect::<Vec<_>>(), found.more)
    };
    let dates = |dates: &[&str]| dates.iter().map(|date| (*date).to_owned()).collect::<Vec<_>>();
    assert_eq!(newest("", 2), (dates(&["2026-12-24", "2026-08-04"]), true), "nothing typed: the newest of all");
    assert_eq!(newest("2026-03", 1), (dates(&["2026-03-21"]), true), "of two the newer, and that there is another");
    assert_eq!(newest("2026-03", 2), (dates(&["2026-03-21", "2026-03-04"]), false), "both, and no more");
    assert_eq!(newest("river", 200), (dates(&["2026-03-04"]), false), "one");
    assert_eq!(newest("nobody", 200), (vec![], false), "none");
}

#[test]
fn beginnings_of_long_words() {
    let texts = ["cemented", "cementless, flexed", "cement2nd", "cementω", "cemen–t", "ωcementing", "bone-cementum"];
    let bench = Bench::new();
    let with = |n, text: &str| case(n, json!({ "visits": [{ "note": text }] }));
    let mut notebook = bench.notebook((1..).zip(texts).map(|(n, text)| with(n, text)));
    let found = |notebook: &evengap_notebook::Notebook, typed: &str| {
        let mut found: Vec<u8> =
            notebook.find(typed).unwrap().iter().map(|line| line.id[34..].parse().unwrap()).collect();
        found.sort_unstable();
        found
    };
    let is = |notebook: &_, typed: &str, expected: &[u8], why: &str| {
        assert_eq!(found(notebook, typed), expected, "“{typed}”: {why}");
    };
    is(&notebook, "ceme", &[1, 2, 3, 4, 5, 7], "numbers and other alphabets after the letters are not forgotten");
    is(&notebook, "cemen", &[1, 2, 3, 4, 5, 7], "nor is a word that a dash ends");
    is(&notebook, "cemented", &[1], "a whole word");
    is(&notebook, "cementedly", &[], "a longer one");
    is(&notebook, "bone-ceme", &[7], "a phrase whose last word goes on");
    is(&notebook, "ωceme", &[6], "letters after those of another alphabet begin no word");
    is(&notebook, "flex cementl", &[2], "several words");
    // More words with one beginning than are asked for one by one.
    let many = (0..26 * 2).map(|n| format!("flexi{}{}", char::from(b'a' + n % 26), char::from(b'a' + n / 26)));
    let many = many.collect::<Vec<_>>().join(" ");
    notebook.add(with(8, &many), id(8), at("09:00")).unwrap();
    is(&notebook, "flexi", &[8], "all of them");
    is(&notebook, "flex", &[2, 8], "and other ones");
    is(&notebook, "flexiac", &[], "not those that are not there");
    is(&notebook, "flexiba", &[8], "one of them");
    notebook.rebuild().unwrap();
    is(&notebook, "ceme", &[1, 2, 3, 4, 5, 7], "the same after a rebuild");
    is(&notebook, "flex", &[2, 8], "the same after a rebuild");
}
