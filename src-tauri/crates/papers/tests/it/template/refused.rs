//! Templates that must be refused, each with its place, its sentence and its hint.

use evengap_papers::template::{check as check_template, of};
use evengap_papers::{Kind, Language};

use super::{check_in, demos};

/// Checks a template of the discharge letter. Each flaw is "line:column sentence hint".
fn check(source: &str, expected: &[&str]) {
    check_in(Kind::DischargeLetter, Language::En, source, expected);
}

#[test]
fn the_built_in_templates_pass() {
    for kind in Kind::ALL {
        for &language in kind.languages() {
            let flaws = check_template(kind, language, of(kind, language).source, &demos());
            assert_eq!(flaws, [], "{} in {}", kind.name(), language.words());
        }
    }
}

#[test]
fn names_that_do_not_exist() {
    check(
        "Dear {{ patient.given_nam }},",
        &["1:17 There is no name \"patient.given_nam\". Did you mean patient.given_name?"],
    );
    check(
        "a\n\n  é {{ pateint.given_name }}",
        &["3:8 There is no name \"pateint\" here. Did you mean patient.given_name?"],
    );
    check("{{ given_name }}", &["1:4 There is no name \"given_name\" here. Did you mean patient.given_name?"]);
    check("{{ patient.side }}", &["1:12 There is no name \"patient.side\". Did you mean knee.side?"]);
    check(
        "{{ knee.deformity.zzz }}",
        &[
            "1:19 There is no name \"knee.deformity.zzz\". knee.deformity has coronal_deg, correctable_code, correctable, fixed_flexion_deg.",
        ],
    );
    check(
        "{% if closing.blood_loss_ml %}{{ knee.sid }}{% endif %}",
        &["1:39 There is no name \"knee.sid\". Did you mean knee.side?"],
    );
    check("{% if false_branch %}x{% endif %}", &["1:7 There is no name \"false_branch\" here."]);
}

#[test]
fn what_a_name_holds_decides_what_can_be_done_with_it() {
    check(
        "{{ components.lot }}",
        &[
            "1:15 components is a list, so components.lot has no meaning. Go through it with {% for item in components %} and write item.lot.",
        ],
    );
    check(
        "{{ components[0].lot }}",
        &["1:14 A template takes no single items out of a list. Go through the list with {% for item in list %}."],
    );
    check(
        "{{ patient }}",
        &[
            "1:4 patient is a group of names and cannot be printed. Print one of its names, such as patient.hospital_number.",
        ],
    );
    check(
        "{{ components }}",
        &["1:4 components is a list and cannot be printed. Go through it with {% for item in components %}."],
    );
    check(
        "{{ derived.operating }}",
        &["1:4 derived.operating is a list and cannot be printed. Join it: {{ derived.operating | and_list }}."],
    );
    check(
        "{{ derived.same_sitting }}",
        &[
            "1:4 derived.same_sitting is true or false and cannot be printed. Ask for it: {% if derived.same_sitting %}.",
        ],
    );
}

#[test]
fn loops() {
    check(
        "{% for c in components %}{{ c.lott }}{% endfor %}",
        &["1:31 There is no name \"c.lott\". Did you mean c.lot?"],
    );
    check(
        "{% for c in components %}x{% endfor %}{{ c.lot }}",
        &["1:42 There is no name \"c\" here. c has a meaning only up to the end of the tag in which it is given."],
    );
    check("{% for c in knee.side %}x{% endfor %}", &["1:13 knee.side is a text, and for goes through a list."]);
    check(
        "{% for c in range(end=10) %}x{% endfor %}",
        &["1:13 A template calls no functions, so range(…) has no meaning."],
    );
    check("{% for a, b in components %}x{% endfor %}", &["1:8 for gives one name. Write {% for item in list %}."]);
    check(
        "{% for patient in components %}x{% endfor %}",
        &["1:8 The name patient means something else already. Choose another name."],
    );
    check(
        "{% for c of components %}x{% endfor %}",
        &["1:10 Here the word in is missing. Write {% for item in list %}."],
    );
    check("{{ loop.index }}", &["1:4 There is no name \"loop\" here. It has a meaning inside {% for … %} only."]);
    check(
        "{% for c in components %}{{ loop.idx }}{% endfor %}",
        &["1:34 There is no name \"loop.idx\". loop has index, index0, first, last, length."],
    );
}

#[test]
fn filters_options_and_tests() {
    check(
        "{{ patient.given_name | boxed }}",
        &["1:25 The filter boxed stands around text. Write {% filter boxed %} … {% endfilter %}."],
    );
    check("{{ patient.given_name | sentense }}", &["1:25 There is no filter \"sentense\". Did you mean sentence?"]);
    check(
        "{{ patient.given_name | replace(from=\"a\", to=\"b\") }}",
        &[
            "1:25 There is no filter \"replace\". The filters are section, paragraph, lines, clauses, row, boxed, stop, sentence, cap, upper, lower, and_list, join, length.",
        ],
    );
    check(
        "{{ derived.operating | sentence }}",
        &["1:24 The filter sentence takes a text, and this is a list. Join the list first: | and_list."],
    );
    check(
        "{{ patient.given_name | and_list }}",
        &["1:25 The filter and_list takes a list of texts, and this is a text."],
    );
    check(
        "{% filter section %}x{% endfilter %}",
        &["1:11 The filter section needs the option title. Write section(title=\"words\")."],
    );
    check(
        "{% filter section(titel=\"x\") %}x{% endfilter %}",
        &[
            "1:11 The filter section needs the option title. Write section(title=\"words\").",
            "1:19 The filter section has no option \"titel\". Did you mean title?",
        ],
    );
    check("{% filter section(title=\"x\", level=7) %}x{% endfilter %}", &["1:36 A level is 1, 2, 3 or 4."]);
    check(
        "{% if knee.side is recorded %}x{% endif %}",
        &["1:20 There is no test \"recorded\". The tests are none, starting_with, ending_with, containing."],
    );
}

#[test]
fn codes_questions_and_sums() {
    check("{{ now() }}", &["1:4 A template calls no functions, so now(…) has no meaning."]);
    check(
        "{% if choice.procedure_code == \"totl\" %}x{% endif %}",
        &["1:32 choice.procedure_code is never \"totl\". Did you mean \"total\"?"],
    );
    check(
        "{% if choice.procedure_code in [\"total\", \"medial\"] %}x{% endif %}",
        &[
            "1:42 choice.procedure_code is never \"medial\". It is one of total, medial_partial, lateral_partial, patellofemoral, bicompartmental, insert_exchange, revision_one_component, revision_all, first_stage_removal, second_stage_reimplantation, other.",
        ],
    );
    check(
        "{% if knee.side = \"left\" %}x{% endif %}",
        &["1:17 One = has no meaning here. Write == to ask whether two things are the same."],
    );
    check("{{ closing.blood_loss_ml + 1 }}", &["1:26 A template does no arithmetic, so + has no meaning here."]);
    check(
        "{% if closing.blood_loss_ml > 500 %}x{% endif %}",
        &["1:29 > compares counted numbers only, such as loop.index. Answers are words: ask with == or !=."],
    );
}

#[test]
fn what_is_opened_is_closed() {
    check("{% if knee.side %}x", &["1:1 This {% if %} is never closed. Close it with {% endif %}."]);
    check(
        "{% if knee.side %}x{% endfor %}",
        &["1:20 {% endfor %} stands here where {% endif %} has to close {% if %}."],
    );
    check("x{% endif %}", &["1:2 This {% endif %} closes nothing. Take it out."]);
    check("{% else %}", &["1:1 This {% else %} belongs to no open {% if %}."]);
    check(
        "{% if knee.side %}a{% else %}b{% elif knee.side %}c{% endif %}",
        &["1:31 This {% elif %} stands after the {% else %}."],
    );
}

#[test]
fn tags_and_words_have_ends() {
    check("{{ patient.given_name", &["1:1 This {{ is never closed. Close it with }}."]);
    check("{{ patient.given_name }\n\nText {{ knee.side }}", &["1:1 This {{ is never closed. Close it with }}."]);
    check("{# comment", &["1:1 This comment is never closed. Close it with #}."]);
    check("{{ \"words }}", &["1:4 The words that begin with \" here have no end. Close them with \"."]);
    check("{{ “words” }}", &["1:4 The sign “ has no meaning inside a tag. Write straight quotation marks: \"words\"."]);
    check("{{ }}", &["1:1 This tag is empty. Write a name: {{ patient.given_name }}."]);
    check("{% %}", &["1:1 This tag has no name. The tags are if, for, filter and set."]);
}

#[test]
fn tags_that_are_not_allowed() {
    check(
        "{% include \"other\" %}",
        &["1:4 The tag include is not allowed. A template stands alone: it reads no other."],
    );
    check(
        "{% extends \"other\" %}",
        &["1:4 The tag extends is not allowed. A template stands alone: it reads no other."],
    );
    check(
        "{% raw %}{{ x }}{% endraw %}",
        &[
            "1:4 The tag raw is not allowed. Typed text is printed as typed, so nothing needs raw.",
            "1:13 There is no name \"x\" here.",
            "1:20 The tag endraw is not allowed. Typed text is printed as typed, so nothing needs raw.",
        ],
    );
    check(
        "{% set x = 3 %}",
        &["1:12 set gives a short name to a longer one, and nothing else. Write {% set short = knee.diagnosis %}."],
    );
    check("{% set x = knee.sid %}{{ x.y }}", &["1:17 There is no name \"knee.sid\". Did you mean knee.side?"]);
    check("{% set_global x = knee %}", &["1:4 The tag set_global is not allowed. Templates here do without it."]);
    check(
        "{% fi knee.side %}x{% endif %}",
        &["1:4 There is no tag \"fi\". Did you mean if?", "1:20 This {% endif %} closes nothing. Take it out."],
    );
}

#[test]
fn drawings_that_do_not_exist() {
    check("![x](drawing:surfases)", &["1:6 There is no drawing \"surfases\". Did you mean drawing:surfaces?"]);
    check(
        "![x](drawing:axis)",
        &[
            "1:6 On the entry \"nothing recorded\": It has no drawing \"axis\". Ask before: {% if derived.has_drawing_of_axis %}.",
        ],
    );
}

#[test]
fn places_where_the_cautions_cannot_stand() {
    check(
        "text @cautions text",
        &["1:6 @cautions stands alone on its line, outside of lists, tables and boxes. Give it a line of its own."],
    );
    check(
        "- a\n- @cautions",
        &["2:3 @cautions stands alone on its line, outside of lists, tables and boxes. Give it a line of its own."],
    );
    check(
        "{% filter boxed %}\n@cautions\n{% endfilter %}",
        &[
            "2:1 On the entry \"both-knees-left\": The cautions cannot stand inside a list, table, box or code. Write @cautions on a line of its own, outside of everything else.",
        ],
    );
    check(
        "- list\n{% if knee.side %}\n  @cautions\n{% endif %}",
        &[
            "3:3 On the entry \"both-knees-left\": The cautions cannot stand inside a list, table, box or code. Write @cautions on a line of its own, outside of everything else.",
        ],
    );
    check(
        "```\ncode\n\n@cautions\n",
        &[
            "4:1 On the entry \"both-knees-left\": The cautions cannot stand inside a list, table, box or code. Write @cautions on a line of its own, outside of everything else.",
        ],
    );
    check(
        "<!-- hidden\n@cautions",
        &[
            "2:1 On the entry \"both-knees-left\": The cautions cannot stand inside a list, table, box or code. Write @cautions on a line of its own, outside of everything else.",
        ],
    );
    check(
        "text\n\n<!-- hidden",
        &[
            "3:1 On the entry \"both-knees-left\": A block of code or HTML begins in the text and never ends. Take it out: papers hold headings, text, lists, tables and boxes only.",
        ],
    );
}

#[test]
fn signs_and_words_without_meaning() {
    check("a\0b", &["1:2 The sign U+0000 cannot be printed. Take it out."]);
    check("a\u{feff}b\r\n{{ x }}", &["2:4 There is no name \"x\" here."]);
    check(
        "{{ true }}",
        &["1:4 The word true has no meaning here. Ask with {% if name %}; a recorded yes is the text \"yes\"."],
    );
    check("{{ patient.given_name.first }}", &["1:23 patient.given_name is a text and has no names inside."]);
    check("{{ a.b.c", &["1:1 This {{ is never closed. Close it with }}."]);
    check(
        "{{ 1.5 }}",
        &[
            "1:4 Numbers with a decimal point have no meaning here. Answers are words: write \"7.5\" in quotation marks.",
        ],
    );
    check(
        "{{ patient.given_name knee.side }}",
        &["1:23 The word knee has no meaning here. Join names with and, or or |."],
    );
    check(
        "{{ knee.side if knee.side else knee.side }}",
        &["1:14 The word if has no meaning here. Write {% if … %} … {% else %} … {% endif %}."],
    );
}

#[test]
fn what_the_program_adds_no_template_may_use() {
    let filters = "The filters are section, paragraph, lines, clauses, row, boxed, stop, sentence, cap, upper, lower, \
                   and_list, join, length.";
    for filter in ["literal__", "safe", "default(value=\"x\")"] {
        let name = filter.split('(').next().unwrap();
        let said = format!("1:25 There is no filter \"{name}\". {filters}");
        check(&format!("{{{{ patient.given_name | {filter} }}}}"), &[&said]);
    }
    check("{{ round__(body=0, at=0) }}", &["1:4 A template calls no functions, so round__(…) has no meaning."]);
    check("{{ __tera_context }}", &["1:4 There is no name \"__tera_context\" here."]);
    check(
        "{% for __tera_loop_index in components %}{% endfor %}",
        &["1:8 The name __tera_loop_index cannot be given. Choose another name."],
    );
    check("{% for loop in components %}{% endfor %}", &["1:8 The name loop cannot be given. Choose another name."]);
    check(
        "{% component x() %}{% endcomponent x %}",
        &[
            "1:4 The tag component is not allowed. Templates here do without it.",
            "1:23 There is no tag \"endcomponent\". The tags are if, for, filter and set.",
        ],
    );
}

#[test]
fn the_cautions_belong_to_the_letter() {
    let flaws = check_template(Kind::OperativeNote, Language::En, "# A\n\n@cautions", &demos());
    assert_eq!(
        flaws.iter().map(ToString::to_string).collect::<Vec<_>>(),
        ["Line 3, column 1: Only the discharge letter has cautions. Take @cautions out."],
        "no other paper has them"
    );
}

#[test]
fn everything_is_said_at_once() {
    check(
        include_str!("samples/broken.md"),
        &[
            "3:11 The filter section needs the option title. Write section(title=\"words\").",
            "3:19 The filter section has no option \"titel\". Did you mean title?",
            "5:19 There is no name \"patient.given_nam\". Did you mean patient.given_name?",
            "6:34 choice.procedure_code is never \"totl\". Did you mean \"total\"?",
            "7:9 There is no name \"false_friend\" here.",
            "11:21 There is no name \"component\" here. Did you mean components?",
            "12:22 There is no filter \"uper\". Did you mean upper?",
            "15:33 There is no drawing \"surfases\". Did you mean drawing:surfaces?",
            "17:18 derived.operating is a list and cannot be printed. Join it: {{ derived.operating | and_list }}.",
            "17:44 @cautions stands alone on its line, outside of lists, tables and boxes. Give it a line of its own.",
            "19:1 This {% if %} is never closed. Close it with {% endif %}.",
        ],
    );
}

#[test]
fn a_template_that_means_no_good_is_refused() {
    check(
        include_str!("samples/hostile.md"),
        &[
            "6:1 On the entry \"half-filled-draft\": The cautions cannot stand inside a list, table, box or code. \
         Write @cautions on a line of its own, outside of everything else.",
            "11:51 On the entry \"infected-revision-first-stage\": The loops of this template go round too often: \
         stopped after 20001 rounds.",
            "11:76 On the entry \"both-knees-left\": The loops of this template go round too often: \
         stopped after 20001 rounds.",
        ],
    );
}
