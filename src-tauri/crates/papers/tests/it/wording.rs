//! What the built-in papers say of single answers: the ones where a wrong word could do harm.

use evengap_case::Case;
use evengap_case::sections::{
    Allergy, Component, ComponentRole, Event, EventKind, EventWhen, Fate, LabelScheme, Procedure,
};
use evengap_papers::{Addendum, Kind, Language, Occasion, Page, Standing, render};

use crate::template::{demo, occasion};

fn words(case: &Case, kind: Kind, occasion: &Occasion) -> String {
    let text = render(case, kind, occasion).unwrap_or_else(|error| panic!("{error}")).text();
    text.replace('|', " ").split_whitespace().collect::<Vec<_>>().join(" ")
}

fn letter(case: &Case, language: Language) -> String {
    words(case, Kind::DischargeLetter, &Occasion { language, ..occasion() })
}

fn changed(change: impl FnOnce(&mut Case)) -> Case {
    let mut case = demo("whole-knee-cemented").clone();
    change(&mut case);
    case
}

/// Checks what the letter says in each language, or does not say.
fn check_letters(case: &Case, expected: [&str; 3], says: bool, reason: &str) {
    for (language, expected) in Language::ALL.into_iter().zip(expected) {
        let text = letter(case, language);
        assert_eq!(text.contains(expected), says, "{reason}: “{expected}” ({says}) in {text}");
    }
}

#[test]
fn a_knee_that_goes_beyond_straight_says_so() {
    let case = changed(|case| {
        case.discharge.range.extension_deg = Some(-5.0);
        case.knee.range_before.extension_deg = Some(-2.5);
        case.balance.r#final.extension_deg = Some(-3.0);
    });
    let beyond = [
        "it straightens 5° beyond straight",
        "es lässt sich 5° über die Gerade hinaus strecken",
        "se estira 5° más allá de la línea recta",
    ];
    check_letters(&case, beyond, true, "below 0 is beyond straight");
    let to_the_doctor = words(&case, Kind::ClinicianLetter, &occasion());
    assert!(to_the_doctor.contains("It straightens 5° beyond straight"), "{to_the_doctor}");
    let note = words(&case, Kind::OperativeNote, &occasion());
    for range in ["Range before: it straightens 2.5° beyond", "Range at the end: it straightens 3° beyond"] {
        assert!(note.contains(range), "“{range}” in {note}");
    }
    let straight = changed(|case| case.discharge.range.extension_deg = Some(0.0));
    check_letters(&straight, beyond, false, "0 is straight");
}

#[test]
fn two_blood_thinners_are_not_to_be_taken_together() {
    let both = [
        "Do not take both unless your team told you to.",
        "Nehmen Sie nicht beide, außer Ihr Team hat es Ihnen gesagt.",
        "No tome los dos, salvo que su equipo se lo haya dicho.",
    ];
    let case = |before: Option<&str>, after: Option<&str>| {
        changed(|case| {
            case.patient.anticoagulant = before.map(str::to_owned);
            case.aftercare.vte.drug = after.map(str::to_owned);
        })
    };
    check_letters(&case(Some("Warfarin"), Some("Rivaroxaban")), both, true, "one from before and one for after");
    for (before, after) in [(Some("Warfarin"), None), (None, Some("Rivaroxaban"))] {
        check_letters(&case(before, after), both, false, "only one is recorded");
    }
    for none in ["none", "No", "n/a"] {
        let case = case(Some(none), Some("Rivaroxaban"));
        check_letters(&case, both, false, none);
        let before = ["from before the operation", "aus der Zeit vor der Operation: ", "de antes de la operación: "];
        check_letters(&case, before, false, none);
        let to_the_doctor = words(&case, Kind::ClinicianLetter, &occasion());
        assert!(to_the_doctor.contains("No anticoagulant before the operation."), "{none}: {to_the_doctor}");
    }
    let case = case(None, Some("None"));
    let drug = ["is your blood thinner", "ist Ihr Blutverdünner", "es su anticoagulante"];
    check_letters(&case, drug, false, "“none” is no drug");
}

#[test]
fn an_allergy_is_never_an_empty_list() {
    let with = |substance: Option<&str>, reaction: Option<&str>| {
        changed(|case| {
            let allergy = Allergy {
                substance: substance.map(str::to_owned),
                reaction: reaction.map(str::to_owned),
                ..Allergy::default()
            };
            case.patient.allergies = vec![allergy];
        })
    };
    let said = ["Our notes say", "In unseren Unterlagen steht", "Según nuestros datos"];
    check_letters(&with(None, None), said, false, "nothing is known");
    check_letters(
        &with(Some("7"), Some("8")),
        [
            "Our notes say that you react to: 7. Tell",
            "In unseren Unterlagen steht, dass Sie darauf reagieren: 7. Sagen",
            "Según nuestros datos, usted tiene reacciones a: 7. Dígaselo",
        ],
        true,
        "the substance",
    );
    check_letters(
        &with(None, Some("8")),
        [
            "react to: something not named (8). Tell",
            "reagieren: etwas, das nicht benannt ist (8). Sagen",
            "reacciones a: algo que no se nombró (8). Dígaselo",
        ],
        true,
        "the reaction alone",
    );
}

#[test]
fn the_letter_says_where_the_patient_goes() {
    let case = changed(|case| case.discharge.destination = Some("Larkmere House".into()));
    let goes = [
        "You leave hospital on 13 March 2026. Where you go from here: Larkmere House.",
        "Sie verlassen das Krankenhaus am 13. März 2026. Wohin Sie gehen: Larkmere House.",
        "Sale del hospital el 13 de marzo de 2026. Adónde va después: Larkmere House.",
    ];
    check_letters(&case, goes, true, "not everybody goes home");
}

#[test]
fn stitches_that_are_out_do_not_come_out() {
    let out = ["stitches or clips come out", "Die Fäden oder Klammern werden", "Le quitarán los puntos"];
    let by = ["This is done by", "Das macht:", "De esto se encarga"];
    let case = changed(|case| case.discharge.on = Some("2026-03-24".parse().unwrap()));
    check_letters(&case, out, false, "they came out on the day of discharge");
    check_letters(&case, by, false, "nobody takes them out again");
    let case = demo("whole-knee-cemented");
    check_letters(case, out, true, "they come out after discharge");
    check_letters(case, by, true, "somebody takes them out");
}

#[test]
fn an_operation_without_a_name_claims_nothing() {
    for (procedure, no_words) in [
        (Procedure::Other, ["other knee", "andere Operation", "otra operación"]),
        (Procedure::InsertExchange, ["two metal parts", "beiden Metallteilen", "dos piezas de metal"]),
    ] {
        let case = changed(|case| case.choice.procedure = Some(procedure));
        check_letters(&case, no_words, false, procedure.code());
    }
    let case = changed(|case| case.choice.procedure = Some(Procedure::Other));
    for kind in [Kind::OperativeNote, Kind::ClinicianLetter, Kind::ComponentRecord] {
        let text = words(&case, kind, &occasion());
        assert!(text.contains("Knee operation, left knee"), "{}: {text}", kind.name());
        assert!(!text.contains("ther knee operation"), "{}: {text}", kind.name());
    }
}

#[test]
fn the_kneecap_is_drawn_as_it_was_recorded() {
    let drawing = |case: &Case| {
        let drawing = evengap_papers::drawings::of(case, Language::En).remove("surfaces").unwrap();
        let named = drawing
            .shapes
            .iter()
            .any(|shape| matches!(shape, evengap_papers::drawing::Shape::Text { words, .. } if words == "kneecap"));
        (named, drawing.alt.contains("the back of the kneecap"))
    };
    let case = |resurfaced: Option<bool>, button: Option<Fate>| {
        changed(|case| {
            case.cuts.patella.resurfaced = resurfaced;
            case.components.retain(|part| part.role != Some(ComponentRole::Patella));
            let role = Some(ComponentRole::Patella);
            case.components.extend(button.map(|fate| Component { role, fate: Some(fate), ..Component::default() }));
        })
    };
    for (resurfaced, button, expected, reason) in [
        (None, None, (false, false), "unknown: not drawn, not claimed"),
        (Some(false), None, (true, false), "left alone: drawn as it was"),
        (Some(true), None, (true, true), "resurfaced"),
        (None, Some(Fate::Implanted), (true, true), "a button in the knee says so"),
        (Some(false), Some(Fate::Implanted), (true, true), "against another answer too"),
        (None, Some(Fate::OpenedNotUsed), (false, false), "a button on the table says nothing"),
    ] {
        assert_eq!(drawing(&case(resurfaced, button)), expected, "{reason}");
    }
}

#[test]
fn a_missing_author_is_missing_in_the_language_of_the_paper() {
    let case = demo("whole-knee-cemented");
    for (language, expected) in
        Language::ALL.into_iter().zip(["author not named", "Name nicht angegeben", "persona no indicada"])
    {
        for author in ["", " "] {
            let occasion = Occasion { language, author: author.into(), ..occasion() };
            let document = render(case, Kind::DischargeLetter, &occasion).unwrap().document;
            assert!(document.foot.contains(expected), "{}: {}", language.code(), document.foot);
            assert_eq!(document.author, expected, "and in the properties of the file");
            let text = words(case, Kind::DischargeLetter, &occasion);
            assert_eq!(text.matches(expected).count(), 2, "{}: in the text and the foot: {text}", language.code());
        }
    }
}

#[test]
fn a_code_needs_a_lot_or_a_serial() {
    let record = |lot: Option<&str>, serial: Option<&str>| {
        let case = changed(|case| {
            case.components.truncate(1);
            let part = &mut case.components[0];
            assert_eq!(part.scan.scheme, Some(LabelScheme::Gs1), "the demo's label was read");
            (part.lot, part.serial) = (lot.map(str::to_owned), serial.map(str::to_owned));
        });
        render(&case, Kind::ComponentRecord, &occasion()).unwrap().markdown().to_owned()
    };
    let none = "No code:&#10;lot or serial not recorded";
    for (lot, serial, drawn) in
        [(None, None, false), (Some("A1"), None, true), (None, Some("B2"), true), (Some("A1"), Some("B2"), true)]
    {
        let text = record(lot, serial);
        assert_eq!(!text.contains(none), drawn, "lot {lot:?}, serial {serial:?}: {text}");
        assert_eq!(text.contains("(drawing:mark-1)"), drawn, "lot {lot:?}, serial {serial:?}: {text}");
    }
    assert!(record(Some("A1"), Some("B2")).contains("Lot: A1, serial: B2"), "both are printed");
}

#[test]
fn a_record_says_what_it_is_not() {
    let claim = "Identification items of Article 18(1)(a) of Regulation (EU) 2017/745, as far as recorded; does not \
                 replace the maker's implant card.";
    let remain = "Earlier components may remain; they are listed only if recorded here.";
    for page in [Page::A4, Page::Wallet] {
        for procedure in Procedure::ALL {
            use Procedure::*;
            let case = changed(|case| case.choice.procedure = Some(*procedure));
            let text = words(&case, Kind::ComponentRecord, &Occasion { page, ..occasion() });
            assert!(text.contains(claim), "{page:?}, {}: {text}", procedure.code());
            let earlier = matches!(
                procedure,
                InsertExchange | RevisionOneComponent | RevisionAll | FirstStageRemoval | SecondStageReimplantation
            );
            assert_eq!(text.contains(remain), earlier, "{page:?}, {}: {text}", procedure.code());
        }
    }
}

#[test]
fn the_doctor_reads_what_came_after_discharge_apart() {
    let event = |what, when, on: &str| Event { what: Some(what), when, on: on.parse().ok(), ..Event::default() };
    let case = changed(|case| {
        case.events = vec![
            event(EventKind::Bleeding, Some(EventWhen::Inpatient), "2026-03-11"),
            event(EventKind::Stiffness, Some(EventWhen::AfterDischarge), ""),
            event(EventKind::Readmission, None, "2026-03-29"),
            event(EventKind::Instability, None, ""),
        ];
        case.visits[0].events = vec![
            event(EventKind::WoundComplication, None, "2026-04-02"),
            event(EventKind::Readmission, None, "2026-03-29"),
        ];
    });
    let paper = render(&case, Kind::ClinicianLetter, &occasion()).unwrap();
    let text = paper.markdown();
    let (stay, since) = text.split_once("| **Since discharge** |").unwrap();
    let since = since.lines().next().unwrap();
    for (words, after) in
        [("Bleeding", false), ("Instability", false), ("Stiffness", true), ("Readmission", true), ("Wound comp", true)]
    {
        assert_eq!((stay.contains(words), since.contains(words)), (!after, after), "{words}: {text}");
    }
    assert_eq!(since.matches("Readmission").count(), 1, "an event of both lists comes once: {since}");
}

#[test]
fn the_doctor_reads_what_is_not_recorded() {
    let mut case = changed(|case| {
        case.discharge = Default::default();
        case.aftercare = Default::default();
        case.patient.allergies.clear();
        case.components[0].fate = None;
    });
    case.patient.none_recorded = None;
    let text = words(&case, Kind::ClinicianLetter, &occasion());
    for said in [
        "Allergies Not recorded.",
        "Going to: not recorded.",
        "Follow-up Not recorded.",
        "Who to call Telephone not recorded.",
        "High blood pressure; Underactive thyroid.",
    ] {
        assert!(text.contains(said), "“{said}” in {text}");
    }
    let markdown = render(&case, Kind::ClinicianLetter, &occasion()).unwrap().markdown().to_owned();
    for row in [
        "| **Medicines** | At discharge: not recorded. |",
        "Not recorded whether implanted: femoral component, Fellgate cruciate-retaining femur, FG-FCR-5L, lot",
    ] {
        assert!(markdown.contains(row), "“{row}” in {markdown}");
    }
}

#[test]
fn an_addendum_names_the_component_that_changed() {
    let before = demo("whole-knee-cemented");
    let number = before.components.iter().position(|part| part.role == Some(ComponentRole::Patella)).unwrap();
    let case = changed(|case| case.components[number].lot = Some("T999".into()));
    let addendum =
        Addendum { number: 1, text: "Lot.".into(), by: "I".into(), at: occasion().made_at, before: before.clone() };
    let standing = Standing::Signed { by: "I".into(), at: occasion().made_at, fingerprint: None };
    let added = Occasion { addendum: Some(addendum), standing, ..occasion() };
    let paper = render(&case, Kind::Addendum, &added).unwrap();
    let answer = format!("| patellar button Fellgate domed patella, no. {}, Lot | ", number + 1);
    assert!(paper.markdown().contains(&answer), "“{answer}” in {}", paper.markdown());
}
