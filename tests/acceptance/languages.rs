//! Letters in every language: complete, with all cautions, without a word of English, in the language's own habit.

use std::collections::BTreeSet;

use evengap_case::dictionary::{self, Field};
use evengap_case::sections::{Procedure, WeightBearing};
use evengap_case::{Case, read_value};
use evengap_papers::{Kind, Language, Occasion, Standing, render};
use evengap_tests::{FONTS, demo, demos, occasion, paper, paper_in, pdftotext, project, unwrapped};
use serde_json::{Value, json};

/// The translations: every language but English.
const TRANSLATIONS: [Language; 2] = [Language::De, Language::Es];

/// Sections of an entry that a letter to a patient may speak of; the word lists have every code in them.
const SECTIONS: [&str; 11] = [
    "patient",
    "setting",
    "team",
    "knee",
    "choice",
    "anaesthesia",
    "components",
    "closing",
    "events",
    "aftercare",
    "discharge",
];

#[test]
fn cautions_stand_in_every_letter_in_every_language() {
    let english = [
        "Call an ambulance at once: telephone 112",
        "short of breath",
        "your chest hurts",
        "cough up blood",
        "Call us the same day",
        "calf is swollen, warm or sore",
        "the wound leaks",
        "redness round the wound spreads",
        "the pain gets worse",
        "fever is above 38 °C",
        "Do not start any new antibiotic for your wound before your knee team has seen it.",
        "Your own team's instructions come first.",
    ];
    let german = [
        "Rufen Sie sofort den Rettungsdienst: Telefon 112",
        "schlecht Luft bekommen",
        "Schmerzen in der Brust",
        "Blut husten",
        "Rufen Sie uns noch am selben Tag an",
        "Wade geschwollen oder warm ist oder wehtut",
        "aus der Wunde Flüssigkeit kommt",
        "sich die Rötung um die Wunde ausbreitet",
        "Schmerzen stärker werden",
        "mehr als 38 °C Fieber",
        "Beginnen Sie kein neues Antibiotikum für Ihre Wunde, bevor Ihr Knie-Team die Wunde gesehen hat.",
        "Was Ihr Behandlungsteam sagt, geht vor.",
    ];
    let spanish = [
        "Llame de inmediato a una ambulancia: teléfono 112",
        "le falta el aire",
        "le duele el pecho",
        "tose sangre",
        "Llámenos el mismo día",
        "pantorrilla está hinchada o caliente, o si le duele",
        "sale líquido de la herida",
        "zona roja alrededor de la herida se extiende",
        "el dolor empeora",
        "más de 38 °C de fiebre",
        "No empiece ningún antibiótico nuevo para la herida antes de que la vea su equipo de rodilla.",
        "Las indicaciones de su equipo van primero.",
    ];
    for (name, case) in demos() {
        for (language, cautions) in Language::ALL.into_iter().zip([english, german, spanish]) {
            let text = unwrapped(&paper_in(&case, Kind::DischargeLetter, language).text().replace('|', " "));
            for caution in cautions {
                assert!(text.contains(caution), "{name}, {}: the letter must say “{caution}”", language.code());
            }
            let goes_on = [
                "Keep taking the medicines listed in this letter.",
                "Die Medikamente, die in diesem Brief stehen, wenden Sie weiter an.",
                "Siga usando los medicamentos que figuran en esta carta.",
            ];
            let goes_on = goes_on.into_iter().any(|words| text.contains(words));
            let listed = !case.discharge.medicines.is_empty();
            assert_eq!(goes_on, listed, "{name}, {}: what is listed goes on", language.code());
        }
    }
}

#[test]
fn a_translation_waits_for_the_clinic_until_somebody_confirms_it() {
    let case = demo("whole-knee-cemented");
    let english = "Translation to be checked by the clinic.";
    for (language, own) in TRANSLATIONS.into_iter().zip([
        "Diese Übersetzung muss die Klinik noch prüfen.",
        "La clínica todavía tiene que revisar esta traducción.",
    ]) {
        let mut occasion = Occasion { language, ..occasion() };
        let waits = |occasion: &Occasion| {
            let text = unwrapped(&render(&case, Kind::DischargeLetter, occasion).unwrap().text());
            let [in_own, in_english] = [own, english].map(|notice| text.contains(notice));
            assert_eq!(in_own, in_english, "{}: both languages or none", language.code());
            in_own
        };
        assert!(waits(&occasion), "{}: nobody has checked it yet", language.code());
        let other = TRANSLATIONS.into_iter().find(|other| *other != language).unwrap();
        occasion.settings.confirmed_translations = vec![other];
        assert!(waits(&occasion), "{}: somebody has checked another language", language.code());
        occasion.settings.confirmed_translations = vec![language];
        assert!(!waits(&occasion), "{}: somebody has checked it", language.code());
    }
    let letter = paper(&case, Kind::DischargeLetter).text();
    assert!(!letter.contains(english), "English is the original");
}

#[test]
fn what_the_program_puts_on_a_page_is_in_the_language_of_the_letter() {
    let case = demo("whole-knee-cemented");
    for (language, expected) in [
        (
            Language::De,
            [
                "de",
                "Brief zur Entlassung",
                "Seite 2 von 3",
                "Demonstration: erfundene Person",
                "ENTWURF, NICHT UNTERSCHRIEBEN",
                "Knie-Totalendoprothese links",
                "Geboren 19. August 1954",
                "Seite linkes Knie",
                "Version 2 · Maren Oakshott · 20. November 2026 14:05 Uhr",
            ],
        ),
        (
            Language::Es,
            [
                "es",
                "Carta de alta",
                "Página 2 de 3",
                "Demostración: persona inventada",
                "BORRADOR, SIN FIRMAR",
                "prótesis total de rodilla izquierda",
                "Nacimiento 19 de agosto de 1954",
                "Lado rodilla izquierda",
                "versión 2 · Maren Oakshott · 20 de noviembre de 2026 14:05 h",
            ],
        ),
    ] {
        let document = paper_in(&case, Kind::DischargeLetter, language).document;
        let foot = document.foot.split_once(", ").map(|(_, rest)| rest.to_owned());
        let found = [
            document.language.clone(),
            document.title.clone(),
            document.words.page(2, 3),
            document.words.demonstration.clone(),
            document.mark.clone().unwrap_or_default(),
            document.subject.clone(),
            document.head[1].in_words(),
            document.head[3].in_words(),
            foot.unwrap_or_default(),
        ];
        assert_eq!(found, expected.map(str::to_owned), "{}", language.code());
    }
}

#[test]
fn an_empty_entry_says_what_is_not_recorded() {
    let case = Case::default();
    for (language, expected) in [
        (Language::De, ["Name nicht erfasst", "Geboren nicht erfasst", "Patientennummer nicht erfasst"]),
        (Language::Es, ["Nombre sin registrar", "Nacimiento sin registrar", "N.º de paciente sin registrar"]),
    ] {
        let document = paper_in(&case, Kind::DischargeLetter, language).document;
        let found: Vec<_> = document.head.iter().take(3).map(|fact| fact.in_words()).collect();
        assert_eq!(found, expected, "{}", language.code());
    }
}

#[test]
fn every_reason_why_a_letter_is_not_finished_is_translated() {
    let mut case = Case::default();
    case.aftercare.vte.drug = Some("0".into());
    let reasons = evengap_review::unfinished_letter(&case, None);
    assert_eq!(reasons.len(), 5, "a new reason needs a line in templates/words.*.json: {reasons:?}");
    for language in TRANSLATIONS {
        let letter = paper_in(&case, Kind::DischargeLetter, language);
        let text = unwrapped(&letter.text().replace('|', " "));
        let list = word_list(language);
        for reason in &reasons {
            let own = list["unfinished"][&reason.paths[0]].as_str().unwrap_or_else(|| panic!("{}", reason.paths[0]));
            assert!(text.contains(own), "{}: the letter must say “{own}”", language.code());
            assert!(!text.contains(&reason.message), "{}: “{}” is English", language.code(), reason.message);
            assert!(letter.unfinished.contains(&reason.message), "the window speaks English: {:?}", letter.unfinished);
        }
    }
}

#[test]
fn numbers_dates_and_times_follow_the_habit_of_the_language() {
    let mut case = demo("whole-knee-cemented");
    case.discharge.range.flexion_deg = Some(92.5);
    let letter = |language, date_format| {
        let mut occasion = Occasion { language, ..occasion() };
        occasion.settings.fever_c = 38.5;
        occasion.settings.date_format = date_format;
        unwrapped(&render(&case, Kind::DischargeLetter, &occasion).unwrap().text().replace('|', " "))
    };
    use evengap_papers::DateFormat::*;
    for (language, format, words) in [
        (Language::En, DayMonthInWords, ["above 38.5 °C", "92.5°", "24 March 2026", "20 November 2026 at 14:05"]),
        (Language::En, MonthInWordsDay, ["above 38.5 °C", "92.5°", "March 24, 2026", "November 20, 2026 at 14:05"]),
        (Language::De, DayMonthInWords, ["38,5 °C Fieber", "92,5°", "24. März 2026", "20. November 2026, 14:05 Uhr"]),
        (Language::De, MonthInWordsDay, ["38,5 °C Fieber", "92,5°", "24. März 2026", "20. November 2026, 14:05 Uhr"]),
        (Language::De, YearMonthDay, ["38,5 °C Fieber", "92,5°", "am 2026-03-24", "2026-11-20, 14:05 Uhr"]),
        (
            Language::Es,
            DayMonthInWords,
            ["38,5 °C", "92,5°", "24 de marzo de 2026", "20 de noviembre de 2026, 14:05 h"],
        ),
        (
            Language::Es,
            MonthInWordsDay,
            ["38,5 °C", "92,5°", "24 de marzo de 2026", "20 de noviembre de 2026, 14:05 h"],
        ),
        (Language::Es, YearMonthDay, ["38,5 °C", "92,5°", "el 2026-03-24", "2026-11-20, 14:05 h"]),
    ] {
        let text = letter(language, format);
        for words in words {
            assert!(text.contains(words), "{}, {format:?}: the letter must say “{words}”", language.code());
        }
    }
}

#[test]
fn a_letter_of_a_signed_entry_says_who_signed_that_and_when() {
    let case = demo("whole-knee-cemented");
    let line = "Maren Oakshott: ______";
    for (language, words) in [
        (Language::En, "Written from the operation record that Ines Halloran signed on 13 March 2026 at 09:05."),
        (Language::De, "den Ines Halloran am 13. März 2026, 09:05 Uhr unterschrieben hat."),
        (Language::Es, "que Ines Halloran firmó el 13 de marzo de 2026, 09:05 h."),
    ] {
        let mut occasion = Occasion { language, ..occasion() };
        let letter = |occasion: &Occasion| {
            let paper = render(&case, Kind::DischargeLetter, occasion).unwrap();
            (unwrapped(&paper.text()), paper.document.mark)
        };
        let (draft, mark) = letter(&occasion);
        assert!(mark.is_some() && draft.contains(line), "{}: a draft has a line for the hand", language.code());
        occasion.standing = Standing::Signed {
            by: "Ines Halloran".to_owned(),
            at: "2026-03-13T09:05".parse().unwrap(),
            fingerprint: None,
        };
        let (signed, mark) = letter(&occasion);
        assert!(mark.is_none() && signed.contains(words), "{}: {signed}", language.code());
        assert!(signed.contains(line), "{}: the letter itself still wants a hand", language.code());
    }
}

#[test]
fn months_have_their_names() {
    // As the Unicode locale data has them (read with babel 2.18).
    let german = "Januar Februar März April Mai Juni Juli August September Oktober November Dezember";
    let spanish = "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre";
    for (language, names) in TRANSLATIONS.into_iter().zip([german, spanish]) {
        let listed = word_list(language)["values"]["months"].clone();
        assert_eq!(listed, json!(names.split(' ').collect::<Vec<_>>()), "{}", language.code());
    }
}

#[test]
fn every_code_that_a_letter_may_speak_of_has_its_words_in_every_language() {
    for language in TRANSLATIONS {
        let list = word_list(language);
        let fields = Case::FIELDS.iter().filter(|field| SECTIONS.contains(&field.name));
        let expected: BTreeSet<String> = fields.flat_map(|field| codes(field, "/codes")).collect();
        let mut listed = BTreeSet::new();
        leaves(&list["codes"], "/codes", &mut listed);
        assert_eq!(listed, expected, "templates/words.{}.json has just the codes of the entry", language.code());
        let places = |list: &Value| {
            let mut places = BTreeSet::new();
            leaves(&list["unfinished"], "/unfinished", &mut places);
            leaves(&list["derived"], "/derived", &mut places);
            places
        };
        assert_eq!(places(&list), places(&word_list(Language::De)), "the lists have the same keys");
    }
}

#[test]
fn every_list_keeps_the_places_of_its_sentences() {
    let english = places(&word_list(Language::En));
    let full = "/values/component_named {name} {number} {role}";
    assert!(english.contains(full), "places are found: {english:?}");
    for language in TRANSLATIONS {
        assert_eq!(places(&word_list(language)), english, "templates/words.{}.json", language.code());
    }
}

#[test]
fn every_page_of_a_translation_carries_its_marks_in_that_language() {
    let [german, spanish] = [
        ["Seite", "Demonstration: erfundene Person", "ENTWURF, NICHT UNTERSCHRIEBEN", "Patientennummer"],
        ["Página", "Demostración: persona inventada", "BORRADOR, SIN FIRMAR", "N.º de paciente"],
    ];
    for (name, case) in demos() {
        for (language, [page, others @ ..], of) in [(Language::De, german, "von"), (Language::Es, spanish, "de")] {
            let paper = paper_in(&case, Kind::DischargeLetter, language);
            let pdf = paper.pdf(&FONTS).unwrap();
            assert!(pdf.warnings.is_empty(), "{name}, {}: {:?}", language.code(), pdf.warnings);
            let text = pdftotext(&pdf.bytes);
            let pages: Vec<_> = text.split_terminator('\u{c}').map(unwrapped).collect();
            for (at, text) in pages.iter().enumerate() {
                let number = format!("{page} {} {of} {}", at + 1, pages.len());
                let patient = unwrapped(&paper.document.head[0].value);
                for words in [number.as_str(), &patient].into_iter().chain(others) {
                    assert!(text.contains(words), "{name}, {}: page {} lacks “{words}”", language.code(), at + 1);
                }
            }
        }
    }
}

#[test]
fn a_translation_asks_for_everything_that_the_english_template_asks_for() {
    for name in ["discharge-letter", "cautions"] {
        let english = asked_for(&template(&format!("{name}.md")));
        assert!(english.contains("discharge.emergency_phone"), "{name}: names are found: {english:?}");
        for language in TRANSLATIONS {
            let mut own = asked_for(&template(&format!("{name}.{}.md", language.code())));
            // Where the side has to agree with its noun, its code is asked for.
            if own.remove("knee.side_code") {
                own.insert("knee.side".to_owned());
            }
            assert_eq!(own, english, "{name}.{}: the same names", language.code());
        }
    }
}

#[test]
fn a_translation_has_the_sections_of_the_english_letter() {
    use evengap_papers::blocks::Block;
    for (name, case) in demos() {
        let shape = |language| -> Vec<String> {
            let blocks = paper_in(&case, Kind::DischargeLetter, language).document.blocks;
            let mut shape = Vec::new();
            for block in &blocks {
                shape.push(match block {
                    Block::Heading { level, .. } => format!("heading {level}"),
                    Block::List { items, .. } => format!("list of {}", items.len()),
                    Block::Table(table) => format!("table of {}", table.rows.len()),
                    Block::Boxed(inner) => format!("box of {}", inner.len()),
                    Block::Paragraph(_) => "paragraph".to_owned(),
                    Block::Drawing(_) => "drawing".to_owned(),
                    Block::Rule => "rule".to_owned(),
                });
            }
            shape
        };
        for language in TRANSLATIONS {
            assert_eq!(shape(language), shape(Language::En), "{name}, {}", language.code());
        }
    }
}

#[test]
fn no_word_of_english_is_left_in_a_translation() {
    // Words that both languages spell alike, and names.
    let german = "am american an april association august demonstration dental hand in november operation september so team \
                  warm was";
    let spanish = "a american association dental he hospital me no use";
    for (name, case) in letters() {
        let english = spoken(&paper_in(&case, Kind::DischargeLetter, Language::En).text());
        for (language, alike) in TRANSLATIONS.into_iter().zip([german, spanish]) {
            let alike: BTreeSet<&str> = alike.split_whitespace().collect();
            let text = paper_in(&case, Kind::DischargeLetter, language).text();
            let found = spoken(&text);
            let left: Vec<_> = found.intersection(&english).filter(|word| !alike.contains(word.as_str())).collect();
            assert!(left.is_empty(), "{name}, {}: {left:?} stand in the English letter too", language.code());
        }
    }
}

#[test]
fn no_words_of_the_dictionary_are_left_in_a_translation() {
    let mut codes = Vec::new();
    for field in Case::FIELDS {
        code_words(field, &mut codes);
    }
    assert!(codes.len() > 100, "the dictionary is full of codes: {}", codes.len());
    for (name, case) in letters() {
        for language in TRANSLATIONS {
            let text = format!(" {} ", unwrapped(&paper_in(&case, Kind::DischargeLetter, language).text()));
            for words in codes.iter().filter(|words| words.contains(' ')) {
                assert!(!text.contains(words), "{name}, {}: “{words}” is English", language.code());
            }
        }
    }
}

/// The demo cases without a typed word, and one of them with each operation and each weight bearing.
fn letters() -> Vec<(String, Case)> {
    let mut letters: Vec<_> = demos().into_iter().map(|(name, case)| (name, without_typing(&case))).collect();
    let whole = without_typing(&demo("whole-knee-cemented"));
    for procedure in Procedure::ALL {
        let mut case = whole.clone();
        case.choice.procedure = Some(*procedure);
        // Other operations have other components; a conflict of the two is no part of the letter's own words.
        case.components.clear();
        letters.push((procedure.code().to_owned(), case));
    }
    for weight_bearing in WeightBearing::ALL {
        let mut case = whole.clone();
        case.aftercare.weight_bearing = Some(*weight_bearing);
        letters.push((weight_bearing.code().to_owned(), case));
    }
    let mut bare = whole;
    bare.knee.side = None;
    bare.discharge = evengap_case::sections::Discharge::default();
    letters.push(("bare".to_owned(), bare));
    letters
}

/// Puts figures in the place of everything that a person typed.
fn without_typing(case: &Case) -> Case {
    let mut value = case.to_value();
    for field in Case::FIELDS.iter().filter(|field| field.name != "format") {
        blank(&field.kind, value.get_mut(field.name));
    }
    let mut blanked = read_value(value).unwrap().case;
    // One name for every drug would make conflicts of medicines and allergies that are none.
    for (i, medicine) in case.discharge.medicines.iter().enumerate().filter(|(_, m)| m.name != case.aftercare.vte.drug)
    {
        blanked.discharge.medicines[i].name = medicine.name.as_ref().map(|_| i.to_string());
    }
    for allergy in &mut blanked.patient.allergies {
        allergy.substance = allergy.substance.take().map(|_| "1111".to_owned());
    }
    blanked
}

fn blank(kind: &dictionary::Kind, value: Option<&mut Value>) {
    match (kind, value) {
        (dictionary::Kind::Text, Some(value)) if value.is_string() => *value = json!("0000"),
        (dictionary::Kind::Record { fields }, Some(value)) => {
            fields.iter().for_each(|field| blank(&field.kind, value.get_mut(field.name)));
        }
        (dictionary::Kind::List { of }, Some(Value::Array(items))) => {
            items.iter_mut().for_each(|item| blank(of, Some(item)));
        }
        _ => {}
    }
}

/// The words of a letter's body in small letters; the foot has the author and the template's name.
fn spoken(text: &str) -> BTreeSet<String> {
    let body = text.rsplit_once("\n---").map_or(text, |(body, _)| body).replace("Maren Oakshott", "");
    let words = body.split(|c: char| !c.is_alphabetic() && c != '\'');
    words.filter(|word| word.len() > 1 || *word == "a").map(str::to_lowercase).collect()
}

fn word_list(language: Language) -> Value {
    serde_json::from_str(&template(&format!("words.{}.json", language.code()))).unwrap()
}

fn template(file: &str) -> String {
    std::fs::read_to_string(project().join("templates").join(file)).unwrap()
}

/// The names of the view that a template asks for: all names with a dot in its tags, outside of quoted words.
fn asked_for(template: &str) -> BTreeSet<String> {
    let within = |open: &str, close: &str| -> Vec<String> {
        let tags = template.split(open).skip(1).filter_map(|rest| rest.split(close).next());
        tags.map(|tag| tag.split('"').step_by(2).collect::<Vec<_>>().join(" ")).collect()
    };
    let tags = [within("{{", "}}"), within("{%", "%}")].concat();
    let words = tags.iter().flat_map(|tag| tag.split(|c: char| !c.is_alphanumeric() && c != '.' && c != '_'));
    words.filter(|word| word.contains('.')).map(str::to_owned).collect()
}

/// The places of all codes of a field, as JSON pointers.
fn codes(field: &Field, above: &str) -> Vec<String> {
    let here = format!("{above}/{}", field.name);
    codes_of(&field.kind, &here)
}

fn codes_of(kind: &dictionary::Kind, here: &str) -> Vec<String> {
    match kind {
        dictionary::Kind::Code { codes } => codes.iter().map(|code| format!("{here}/{}", code.code)).collect(),
        dictionary::Kind::Record { fields } => fields.iter().flat_map(|field| codes(field, here)).collect(),
        dictionary::Kind::List { of } => codes_of(of, here),
        _ => Vec::new(),
    }
}

fn code_words(field: &Field, into: &mut Vec<&'static str>) {
    let mut kind = field.kind;
    while let dictionary::Kind::List { of } = kind {
        kind = *of;
    }
    match kind {
        dictionary::Kind::Code { codes } => into.extend(codes.iter().map(|code| code.words)),
        dictionary::Kind::Record { fields } => fields.iter().for_each(|field| code_words(field, into)),
        _ => {}
    }
}

/// Every sentence with places, as its JSON pointer and the names of its places in order of the alphabet.
fn places(list: &Value) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    leaves(list, "", &mut all);
    let with_places = all.into_iter().filter_map(|place| {
        let text = list.pointer(&place)?.as_str()?;
        let mut names: Vec<_> = text.split('{').skip(1).filter_map(|rest| rest.split('}').next()).collect();
        names.sort_unstable();
        let names: Vec<_> = names.iter().map(|name| format!("{{{name}}}")).collect();
        (!names.is_empty()).then(|| format!("{place} {}", names.join(" ")))
    });
    with_places.collect()
}

/// The places of all texts in a list, as JSON pointers; an empty one is not there.
fn leaves(value: &Value, above: &str, into: &mut BTreeSet<String>) {
    match value {
        Value::Object(map) => map.iter().for_each(|(key, value)| leaves(value, &format!("{above}/{key}"), into)),
        Value::String(text) if text.trim().is_empty() => {}
        _ => {
            into.insert(above.to_owned());
        }
    }
}
