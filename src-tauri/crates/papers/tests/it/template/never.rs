//! Templates that would run and yet not do what is meant: questions that are never true, rows and stars
//! that stay signs, papers without an answer in them.

use evengap_papers::template::check as check_template;
use evengap_papers::{Kind, Language};

use super::{check_in, demos};

/// Checks a template of the operative note; each flaw is "line:column sentence hint".
fn check(source: &str, expected: &[&str]) {
    check_in(Kind::OperativeNote, Language::En, source, expected);
}

/// Checks a question; the paper prints an answer, so that the question alone is judged.
fn question(question: &str, expected: &[&str]) {
    check(&format!("{{% if {question} %}}x{{% endif %}} {{{{ knee.side }}}}"), expected);
}

#[test]
fn words_against_numbers() {
    question(
        "closing.blood_loss_ml == 220",
        &[
            "1:32 closing.blood_loss_ml is a text and never the same as a number. Answers are words: write \"220\" in quotation marks.",
        ],
    );
    question(
        "220 != closing.blood_loss_ml",
        &[
            "1:7 closing.blood_loss_ml is a text and never the same as a number. Answers are words: write \"220\" in quotation marks.",
        ],
    );
    question(
        "components | length == \"3\"",
        &["1:30 This is a number and never the same as a text. Write 3 without quotation marks."],
    );
    question(
        "derived.is_partial == \"yes\"",
        &["1:29 derived.is_partial is true or false and never the same as a text. Ask {% if derived.is_partial %}."],
    );
    question(
        "derived.stable_in == \"flexion\"",
        &[
            "1:28 derived.stable_in is a list and never the same as a text. Ask {% if \"flexion\" in derived.stable_in %}.",
        ],
    );
    question(
        "\"500\" < closing.blood_loss_ml",
        &["1:13 < compares counted numbers only, such as loop.index. Answers are words: ask with == or !=."],
    );
    for fine in [
        "closing.blood_loss_ml == \"220\"",
        "components | length == 3",
        "components | length > 3",
        "patient.given_name == patient.family_name",
        "closing.blood_loss_ml in [\"220\", \"230\"]",
        "\"flexion\" in derived.stable_in",
    ] {
        question(fine, &[]);
    }
}

#[test]
fn yes_and_no() {
    question(
        "anaesthesia.tourniquet.used == \"true\"",
        &["1:38 anaesthesia.tourniquet.used is never \"true\". It is one of yes, no."],
    );
    question(
        "anaesthesia.tourniquet.used in [\"yes\", \"Yes\"]",
        &["1:46 anaesthesia.tourniquet.used is never \"Yes\". Did you mean \"yes\"?"],
    );
    question("anaesthesia.tourniquet.used == \"no\" or anaesthesia.tourniquet.used", &[]);
    let source = |word: &str| {
        format!("{{% if anaesthesia.tourniquet.used == \"{word}\" %}}x{{% endif %}} {{{{ knee.side }}}}\n\n@cautions")
    };
    let letter = Kind::DischargeLetter;
    check_in(letter, Language::De, &source("ja"), &[]);
    check_in(
        letter,
        Language::De,
        &source("yes"),
        &["1:38 anaesthesia.tourniquet.used is never \"yes\". It is one of ja, nein."],
    );
    check_in(Kind::OperativeNote, Language::De, "{% if knee.side == \"left\" %}x{% endif %} {{ knee.side }}", &[]);
}

#[test]
fn words_of_a_code() {
    question("knee.side == \"Left\"", &["1:20 knee.side is never \"Left\". Did you mean \"left\"?"]);
    question("\"LEFT\" == knee.side", &["1:7 knee.side is never \"LEFT\". Did you mean \"left\"?"]);
    question("knee.side == \"medial\"", &["1:20 knee.side is never \"medial\". It is one of left, right."]);
    question(
        "choice.procedure == \"total\"",
        &["1:27 choice.procedure is never \"total\". That is a code: ask choice.procedure_code."],
    );
    question("choice.procedure == \"total knee replacement\"", &[]);
    check(
        "{% set side = knee.side %}{% if side == \"lefft\" %}x{% endif %}{{ side }}",
        &["1:41 side is never \"lefft\". Did you mean \"left\"?"],
    );
    check(
        "{% set what = choice.procedure %}{% if what == \"first_stage_removal\" %}x{% endif %}{{ what }}",
        &[
            "1:48 what is never \"first_stage_removal\". It is one of total knee replacement, medial partial knee replacement, lateral partial knee replacement, patellofemoral (kneecap joint) replacement, bicompartmental knee replacement, exchange of the insert, revision of one component of a knee replacement, revision of all components of a knee replacement, first-stage removal of a knee replacement, second-stage reimplantation of a knee replacement, other knee operation.",
        ],
    );
    question("knee.side | upper == \"LEFT\"", &[]);
    check(
        "{% for part in derived.implanted %}{% if part.role == \"femur\" %}{{ part.lot }}{% endif %}{% endfor %}",
        &["1:55 part.role is never \"femur\". That is a code: ask part.role_code."],
    );
}

#[test]
fn rows_that_are_no_table() {
    let flaw = "This row of a table became a line of text. Begin the table with | a | b | and |---|---|, and stand \
                {% filter lines %} around all its rows.";
    let on = |place: &str| format!("{place} On the entry \"both-knees-left\": {flaw}");
    check(
        "# A\n\n| Part | Lot |\n|---|---|\n{% for part in components %}\n\n| {{ part.role }} | {{ part.lot }} |\n{% endfor %}",
        &[&on("7:1")],
    );
    check("| Side | {{ knee.side }} |\n", &[&on("1:1")]);
    check("Text.\n\n{% filter row(label=\"Side\") %}{{ knee.side }}{% endfilter %}", &[&on("3:11")]);
    check("> | Side | {{ knee.side }} |\n", &[&on("1:3")]);
    check(
        "{% filter lines %}\n| Part | Lot |\n|---|---|\n{% for part in components %}\n\n| {{ part.role }} | {{ part.lot }} |\n{% endfor %}\n{% endfilter %}",
        &[],
    );
    check("A | b and {{ knee.side }} | c", &[]);
}

#[test]
fn stars_that_stay_stars() {
    let flaw = "The stars ** print as stars here. Write **words** with no blank inside the stars, and a blank or a comma \
                outside of them.";
    let on = |place: &str| format!("{place} On the entry \"both-knees-left\": {flaw}");
    check("Side: ** {{ knee.side }}**", &[&on("1:7")]);
    check("# A\n\nThe **side:**{{ knee.side }}", &[&on("3:5")]);
    // Only a name that ends in a mark shows this one.
    check("Name **{{ patient.given_name }}**s knee", &[&on("1:6")]);
    check(
        "Name **{{ patient.given_name }}**, or so",
        &[
            "1:6 On the entry \"nothing recorded\": Nothing stands between the stars here, so they print as stars. Ask first: {% if name %}**{{ name }}**{% endif %}.",
        ],
    );
    let asked = "{% if patient.given_name %}Name **{{ patient.given_name }}**, {{ patient.given_name ~ \"**\" }} 5 * 3{% endif %}";
    check(asked, &[]);
}

#[test]
fn papers_that_print_nothing_of_the_entry() {
    let flaw = "1:1 This template prints nothing of the entry. Write a name where its answer is to stand: {{ patient.given_name }}.";
    check("", &[flaw]);
    check("# Operation\n\nAs usual. {{ paper.date }} {{ settings.fever_c }}", &[flaw]);
    check("{% if knee.side %}{% endif %}The same of all.", &[flaw]);
    check("{{ derived.patient_name }}", &[]);
    check_in(Kind::DischargeLetter, Language::En, "Read this.\n\n@cautions", &[flaw]);
    let one = [("one entry", demos()[0].1)];
    let tried = check_template(Kind::DischargeLetter, Language::En, "Read this.\n\n@cautions", &one);
    assert_eq!(tried, [], "a template that is tried on one entry may be fixed text still");
    check_in(Kind::Addendum, Language::En, "{{ addendum.text }}", &[]);
    check_in(Kind::Addendum, Language::En, "Something was added.", &[flaw]);
}

#[test]
fn hints_name_only_what_has_a_name() {
    check("{{ patient or knee }}", &["1:4 This is a group of names and cannot be printed."]);
    check("{{ components or derived.operating }}", &["1:4 This is a list and cannot be printed."]);
    check("{{ not knee.side }}", &["1:4 This is true or false and cannot be printed."]);
}
