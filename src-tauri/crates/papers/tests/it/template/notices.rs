//! No template can leave out that a paper is not finished, or its signature, or hide them.

use evengap_case::sections::Override;
use evengap_case::{Case, SectionName};
use evengap_papers::blocks::{Block, words_of};
use evengap_papers::{Addendum, Kind, Language, Occasion, OwnTemplate, Paper, Standing, render};

use super::{demo, demos, occasion};

/// Templates that say nothing, or leave something open that could swallow what follows or went before.
const HIDING: [(&str, &str); 18] = [
    ("", "an empty one"),
    ("{# nothing #}", "a comment"),
    ("Words.", "words"),
    ("# Words", "a heading"),
    ("```\ncode", "a code fence without an end"),
    ("````\n```", "a longer one"),
    ("~~~", "another one"),
    ("    code", "code by its indent"),
    ("<!-- hidden", "an HTML comment without an end"),
    ("<script>\nwords", "a script without an end"),
    ("<div hidden>", "an HTML block"),
    ("> box\n>", "a box"),
    ("{% filter boxed %}words{% endfilter %}", "a box of the program"),
    ("- list\n  - list", "a list"),
    ("| a | b |\n|---|---|\n| c | d |", "a table"),
    ("Words\\", "a sign that joins lines"),
    ("[Signed by]: x\n\n**bold _both", "a reference and open signs"),
    ("@cautions\n\n```", "a place for the cautions, and a fence after it"),
];

/// A case of which no paper can be finished: nobody to call, no component, nothing about going home.
fn unfinished() -> Case {
    let mut case = demo("whole-knee-cemented").clone();
    case.discharge = Default::default();
    case.components = Vec::new();
    case
}

fn signed() -> Standing {
    let fingerprint = Some("3f9a01bc77d28e105c4be6a98d02f3714a6c".into());
    Standing::Signed { by: "Ms *Orla* Quill".into(), at: "2026-11-20T13:00".parse().unwrap(), fingerprint }
}

fn with_template(case: &Case, kind: Kind, source: &str, occasion: &Occasion) -> Paper {
    let template = OwnTemplate { name: "mine".into(), version: 1, source: source.into() };
    // The cautions have no place on other papers.
    let source = if kind == Kind::DischargeLetter { source } else { &source.replace("@cautions", "words") };
    let template = OwnTemplate { source: source.into(), ..template };
    render(case, kind, &Occasion { template: Some(template), ..occasion.clone() }).unwrap()
}

/// The words of the paragraphs that stand by themselves, not inside a box, list or table.
fn paragraphs(paper: &Paper) -> Vec<String> {
    let words = |block: &Block| match block {
        Block::Paragraph(inlines) => Some(words_of(inlines)),
        _ => None,
    };
    paper.document.blocks.iter().filter_map(words).collect()
}

/// Checks that words stand once in a paper: as a paragraph of its own, and in the Markdown outside of code and HTML.
fn check(paper: &Paper, words: &str, reason: &str) {
    let found = paragraphs(paper).iter().filter(|paragraph| paragraph.contains(words)).count();
    assert_eq!(found, 1, "{reason}: “{words}” is a paragraph in {:#?}", paper.document.blocks);
    let printed = paper.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(printed.matches(words).count(), 1, "{reason}: “{words}” once on the paper");
    // The Markdown of the whole, read again.
    let again = evengap_papers::blocks::parse(paper.markdown(), &Default::default()).unwrap_or_default();
    let stands = again.iter().any(|block| match block {
        Block::Paragraph(inlines) => words_of(inlines).contains(words),
        _ => false,
    });
    assert!(stands, "{reason}: “{words}” is a paragraph in the Markdown: {}", paper.markdown());
}

#[test]
fn every_paper_has_its_signature() {
    for (kind, line, sign) in [
        (Kind::OperativeNote, "): ____", "Signed by Ms *Orla* Quill on 20 November 2026 at 13:00."),
        (Kind::DischargeLetter, "Oakshott: ____", "that Ms *Orla* Quill signed on 20 November 2026 at 13:00."),
        (Kind::ClinicianLetter, "Oakshott: ____", "that Ms *Orla* Quill signed on 20 November 2026 at 13:00."),
        (Kind::ComponentRecord, "Oakshott: ____", "that Ms *Orla* Quill signed on 20 November 2026 at 13:00."),
        (Kind::Addendum, "): ____", "Signed by Ms *Orla* Quill on 20 November 2026 at 13:00."),
    ] {
        for (source, reason) in HIDING {
            let reason = format!("{}, {reason}", kind.name());
            let case = demo("whole-knee-cemented");
            let draft = with_template(case, kind, source, &occasion());
            check(&draft, line, &reason);
            let signed = match kind {
                Kind::Addendum => with_template(case, kind, source, &added(case)),
                _ => with_template(case, kind, source, &Occasion { standing: signed(), ..occasion() }),
            };
            let sign =
                if kind == Kind::Addendum { "Signed by Ms Ida Fenwick on 20 November 2026 at 14:00" } else { sign };
            check(&signed, sign, &reason);
            // Letters and cards are written from what was signed; they still want a hand.
            let hand = !matches!(kind, Kind::OperativeNote | Kind::Addendum);
            assert_eq!(
                signed.text().contains("____"),
                hand,
                "{reason}: a line to sign where the paper itself is unsigned"
            );
        }
    }
}

fn added(case: &Case) -> Occasion {
    let addendum = Addendum {
        number: 2,
        text: "Added.".into(),
        by: "Ms Ida Fenwick".into(),
        at: "2026-11-20T14:00".parse().unwrap(),
        before: case.clone(),
    };
    Occasion { standing: signed(), addendum: Some(addendum), ..occasion() }
}

#[test]
fn the_signature_stands_last() {
    for (source, reason) in HIDING.into_iter().filter(|(source, _)| !source.contains(['`', '~', '<'])) {
        for kind in Kind::ALL {
            let case = demo("whole-knee-cemented");
            let paper = with_template(case, kind, source, &Occasion { standing: signed(), ..occasion() });
            let last = match kind {
                Kind::OperativeNote => "This note records what was entered. It gives no advice;",
                Kind::Addendum => "): ____",
                _ => "that Ms *Orla* Quill signed on",
            };
            let Some(Block::Paragraph(inlines)) = paper.document.blocks.last() else {
                panic!("{reason}: {:#?}", paper.document.blocks)
            };
            assert!(words_of(inlines).contains(last), "{}, {reason}: {inlines:?}", kind.name());
        }
    }
}

#[test]
fn the_note_says_who_wrote_it_and_that_it_gives_no_advice() {
    for (source, reason) in HIDING {
        let note = with_template(demo("whole-knee-cemented"), Kind::OperativeNote, source, &occasion());
        check(&note, "Written by Maren Oakshott on 20 November 2026 at 14:05.", reason);
        check(&note, "This note records what was entered. It gives no advice;", reason);
    }
}

#[test]
fn what_is_not_finished_says_so_first() {
    for (kind, language, words) in [
        (Kind::DischargeLetter, Language::En, "This letter is not finished. Do not hand it out."),
        (Kind::DischargeLetter, Language::De, "Dieser Brief ist nicht fertig. Bitte noch nicht aushändigen."),
        (Kind::DischargeLetter, Language::Es, "Esta carta no está terminada. No la entregue todavía."),
        (Kind::ClinicianLetter, Language::En, "This letter is not finished. Do not send it."),
        (Kind::ComponentRecord, Language::En, "This record is not finished. Do not hand it out."),
        (Kind::Addendum, Language::En, "This addendum is not finished. Do not hand it out."),
    ] {
        let mut occasion = Occasion { language, ..occasion() };
        occasion.settings.confirmed_translations = Language::ALL.to_vec();
        for (source, reason) in HIDING {
            let reason = format!("{}, {}, {reason}", kind.name(), language.words());
            let paper = with_template(&unfinished(), kind, source, &occasion);
            assert!(!paper.unfinished.is_empty(), "{reason}: the case of this test lacks something");
            let Some(Block::Boxed(inner)) = paper.document.blocks.first() else {
                panic!("{reason}: a box is first in {:#?}", paper.document.blocks)
            };
            let [Block::Paragraph(said), Block::List { items, .. }] = &inner[..] else {
                panic!("{reason}: {inner:#?}")
            };
            assert_eq!(words_of(said), words, "{reason}");
            assert_eq!(items.len(), paper.unfinished.len(), "{reason}: with every reason");
            let boxed = format!("> **{words}**");
            let before = paper.markdown().split(&boxed).next().unwrap();
            assert!(before.len() < paper.markdown().len(), "{reason}: in the Markdown as well");
            assert!(!before.contains(['`', '~', '<']), "{reason}: before anything is left open: {before}");
        }
    }
}

#[test]
fn a_finished_paper_has_no_such_box() {
    for (name, case) in demos().into_iter().filter(|(name, _)| *name != "half-filled-draft") {
        let letter = with_template(case, Kind::DischargeLetter, "", &occasion());
        assert_eq!(letter.unfinished, Vec::<String>::new(), "{name}: a finished demo case");
        assert!(!letter.markdown().contains("not finished"), "{name}: nothing is missing");
    }
}

/// An entry that was signed in spite of a finding, and with usual answers filled in.
fn overridden() -> Case {
    let mut case = demo("whole-knee-cemented").clone();
    case.filled = vec![SectionName::Closing, SectionName::Aftercare];
    case.confirmed = vec![SectionName::Closing];
    case.overrides = vec![Override {
        rule: Some("component_expired".into()),
        finding: Some("The *insert* (no. 3) expired.".into()),
        paths: vec!["components[2].expires_on".into(), "no.such[place]".into()],
        reason: Some("Seen after closure\n- # not a list".into()),
        by: Some("Ms *Orla* Quill".into()),
        at: Some("2026-11-20T12:55".parse().unwrap()),
        ..Override::default()
    }];
    case
}

#[test]
fn no_template_leaves_out_what_was_signed_in_spite_of() {
    let occasion = Occasion { standing: signed(), ..occasion() };
    for (source, reason) in HIDING {
        let note = with_template(&overridden(), Kind::OperativeNote, source, &occasion);
        let words = note.text().split_whitespace().collect::<Vec<_>>().join(" ");
        for said in [
            "Signed in spite of these findings",
            "The *insert* (no. 3) expired. Reason, given by Ms *Orla* Quill on 20 November 2026 at 12:55: Seen after \
             closure - # not a list. Rule: component expired; about: Components, no. 3, Expires on; no.such[place].",
            "Usual answers were filled into these sections, and confirmed: closing.",
            "Usual answers were filled into these sections, and nobody has confirmed them: aftercare.",
            "Fingerprint of this version: 3f9a 01bc 77d2 8e10.",
        ] {
            assert_eq!(words.matches(said).count(), 1, "{reason}: “{said}” once in {words}");
        }
    }
}

#[test]
fn only_the_note_says_what_was_signed_in_spite_of() {
    let draft = with_template(&overridden(), Kind::OperativeNote, "Words.", &occasion());
    assert!(draft.text().contains("To be signed in spite of these findings"), "a draft is not signed yet");
    assert!(!draft.text().contains("Fingerprint"), "a draft has no fingerprint");
    let plain = with_template(demo("whole-knee-cemented"), Kind::OperativeNote, "Words.", &occasion());
    assert!(!plain.text().contains("in spite of"), "nothing was overridden");
    for kind in Kind::ALL.into_iter().filter(|kind| *kind != Kind::OperativeNote) {
        let paper = with_template(&overridden(), kind, "Words.", &added(&overridden()));
        assert!(!paper.text().contains("in spite of"), "{} does not say it", kind.name());
        assert_eq!(paper.text().contains("Fingerprint"), kind == Kind::Addendum, "{}: what was signed", kind.name());
    }
}
