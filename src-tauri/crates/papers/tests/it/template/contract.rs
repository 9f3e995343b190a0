//! The contract that a person reads is the view that a template sees, no more and no less.

use std::collections::BTreeSet;

use evengap_case::dictionary::{Field, Kind as Answer};
use evengap_case::{Case, read_value};
use evengap_papers::template::{check, contract, examples, filters, names_in_view};
use evengap_papers::{Addendum, Kind, Language, Occasion};
use serde_json::{Map, Value, json};

use super::{demo, demos, occasion};

/// An entry in which every answer is recorded and every list has an item.
fn full() -> Case {
    fn record(fields: &[Field]) -> Value {
        Value::Object(fields.iter().map(|field| (field.name.to_owned(), answer(field))).collect::<Map<_, _>>())
    }
    fn answer(field: &Field) -> Value {
        let number = field.limits.or(field.plausible).map_or(1.0, |(low, _)| low);
        of_kind(&field.kind, number)
    }
    fn of_kind(kind: &Answer, number: f64) -> Value {
        match kind {
            Answer::Text => json!("words"),
            Answer::Whole => json!(number.max(0.0) as u64),
            Answer::Number => json!(number),
            Answer::YesNo => json!(true),
            Answer::Date => json!("2026-05-14"),
            Answer::Time => json!("2026-05-14T09:30"),
            Answer::Id => json!("3f2a8e8c-5b1d-4a67-9a43-1c2d3e4f5a6b"),
            Answer::Component => json!(0),
            Answer::Code { codes } => json!(codes.first().unwrap().code),
            Answer::Record { fields } => record(fields),
            Answer::List { of } => json!([of_kind(of, number)]),
        }
    }
    let mut value = record(Case::FIELDS);
    value["format"] = Case::default().to_value()["format"].clone();
    // A review lies after going home, so that the list of dates has an item.
    value["discharge"]["on"] = json!("2026-05-13");
    // Lists that only some answers fill: one part of the team and one fate of a component for each.
    for (list, name) in [("team", "part"), ("components", "fate")] {
        let fields = Case::FIELDS.iter().find(|field| field.name == list).unwrap();
        let Answer::List { of: Answer::Record { fields } } = fields.kind else { panic!("{list} is a list of records") };
        let Answer::Code { codes } = fields.iter().find(|field| field.name == name).unwrap().kind else {
            panic!("{list}.{name} is a code")
        };
        let first = value[list][0].clone();
        let items = codes.iter().map(|code| {
            let mut item = first.clone();
            item[name] = json!(code.code);
            item
        });
        let without = std::iter::once(first.clone()).map(|mut item| {
            item.as_object_mut().unwrap().remove(name);
            item
        });
        value[list] = items.chain(without).collect();
    }
    read_value(value).unwrap_or_else(|refusal| panic!("{refusal}")).case
}

fn with_addendum(case: &Case) -> Occasion {
    let occasion = occasion();
    let before = Case { id: case.id, ..Case::default() };
    let addendum =
        Addendum { number: 1, text: "Added.".into(), by: "Maren Oakshott".into(), at: occasion.made_at, before };
    Occasion { addendum: Some(addendum), ..occasion }
}

#[test]
fn the_contract_names_what_the_view_has() {
    let case = full();
    for kind in Kind::ALL {
        let listed: BTreeSet<_> = contract(kind).into_iter().map(|name| name.name).collect();
        for &language in kind.languages() {
            let view = names_in_view(&case, kind, &Occasion { language, ..with_addendum(&case) });
            let missing: Vec<_> = view.difference(&listed).collect();
            assert!(missing.is_empty(), "{}: view/meanings.rs has no row for {missing:?}", kind.name());
            let gone: Vec<_> = listed.difference(&view).collect();
            assert!(gone.is_empty(), "{}: the contract promises what no view has: {gone:?}", kind.name());
        }
    }
}

#[test]
fn a_view_is_complete_whatever_is_recorded() {
    // Names outside of lists are there for the emptiest entry as well.
    let fixed =
        |names: BTreeSet<String>| names.into_iter().filter(|name| !name.contains("[]")).collect::<BTreeSet<_>>();
    for kind in Kind::ALL {
        let all = fixed(contract(kind).into_iter().map(|name| name.name).collect());
        let empty = Case::default();
        for (name, case) in demos().into_iter().chain([("nothing", &empty)]) {
            let view = fixed(names_in_view(case, kind, &occasion()));
            assert_eq!(view, all, "{}, {name}: every name is always there", kind.name());
        }
    }
}

#[test]
fn every_name_has_a_meaning() {
    for name in contract(Kind::OperativeNote) {
        assert!(name.meaning.len() >= 3, "{} has no meaning", name.name);
        assert_eq!(name.example, None, "{}: without an entry there is no example", name.name);
    }
}

#[test]
fn a_yes_or_no_says_that_no_is_an_answer() {
    use evengap_papers::template::What;
    let names = contract(Kind::OperativeNote);
    let yes_no: Vec<_> = names.iter().filter(|name| name.what == What::YesNo).collect();
    assert!(yes_no.len() > 5, "there are such answers: {}", yes_no.len());
    for name in yes_no {
        let said = "{% if … %} is true for \"no\" too; write == \"yes\".";
        assert!(name.meaning.ends_with(said), "{} says so: {}", name.name, name.meaning);
    }
}

#[test]
fn examples_come_from_the_entry() {
    let names = examples(demo("whole-knee-cemented"), Kind::OperativeNote, &occasion());
    let example = |path: &str| {
        let name = names.iter().find(|name| name.name == path).unwrap_or_else(|| panic!("{path} is listed"));
        name.example.clone()
    };
    let case = demo("whole-knee-cemented");
    assert_eq!(example("patient.given_name"), case.patient.given_name, "a typed text as it is");
    assert_eq!(example("paper.author").as_deref(), Some("Maren Oakshott"), "a fact of the paper");
    assert_eq!(example("components"), Some(format!("{} items", case.components.len())), "a list by its length");
    assert_eq!(example("components[].lot"), case.components[0].lot, "the first item of a list");
    assert_eq!(example("addendum.text"), None, "what is not recorded has no example");
    assert_eq!(example("knee"), None, "a group has none");
}

#[test]
fn filters_are_written_as_they_are_said_to_be() {
    for filter in filters() {
        let written = filter.written.replace("name", "knee.side").replace("list |", "derived.operating |");
        let written = match filter.name.as_str() {
            "row" => format!("{{% filter lines %}}\n| a | b |\n|---|---|\n{written}\n{{% endfilter %}}"),
            _ => written,
        };
        let source = format!("{written}\n\n{{{{ knee.side }}}}");
        let flaws = check(Kind::OperativeNote, Language::En, &source, &demos());
        assert_eq!(flaws, [], "{}: {written}", filter.name);
        assert!(filter.meaning.ends_with('.'), "{}: its meaning is a sentence", filter.name);
    }
}
