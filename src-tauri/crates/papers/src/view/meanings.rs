//! What each name means that `facts` and this module add to the answers of the entry: the part of the
//! view's contract that the field dictionary does not hold. A test compares it with real views.

/// One name beside the answers of the entry.
pub(crate) struct Added {
    /// Its path: `derived.did[].person` is `person` of each item of `derived.did`.
    pub name: &'static str,
    /// What it holds.
    pub sort: Sort,
    /// What it means, for the person who writes a template.
    pub meaning: &'static str,
}

/// What a name holds.
pub(crate) enum Sort {
    /// Words, or nothing.
    Text,
    /// True or false: to be asked, not printed.
    Truth,
    /// One of these codes, or nothing.
    OneOf(&'static [&'static str]),
    /// Names that belong together; their own rows follow.
    Record,
    /// A list of texts.
    Texts,
    /// A list of records; the rows of their names follow.
    Records,
    /// The same as stands under another path.
    Like(&'static str),
}

use Sort::{Like, OneOf, Record, Records, Text, Texts, Truth};

const fn row(name: &'static str, sort: Sort, meaning: &'static str) -> Added {
    Added { name, sort, meaning }
}

/// Every name that is added, a record before its names.
pub(crate) const ADDED: &[Added] = &[
    row("anaesthesia.tourniquet.inflations[].minutes", Text, "Minutes from inflation to release."),
    row("derived", Record, "What follows from several answers."),
    row("derived.patient_name", Text, "Given name and family name."),
    row("derived.age_years", Text, "Calendar years on the day of the operation."),
    row("derived.operation", Text, "Operation with its side: \"left total knee replacement\"."),
    row("derived.operating_names", Texts, "Names of the operating surgeons."),
    row("derived.operating", Texts, "Operating surgeons with grade and registration."),
    row("derived.responsible", Texts, "Responsible surgeons with grade and registration."),
    row("derived.supervising", Texts, "Supervising surgeons with grade and registration."),
    row("derived.assisting", Texts, "Assistants with grade and registration."),
    row("derived.anaesthetists", Texts, "Anaesthetists with grade and registration."),
    row("derived.scrub", Texts, "Scrub practitioners with grade and registration."),
    row("derived.others", Texts, "Everybody else of the team."),
    row("derived.did", Records, "Who did which task, where that was recorded."),
    row("derived.did[].person", Text, "Name."),
    row("derived.did[].did", Text, "What this person did."),
    row(
        "derived.signing",
        Text,
        "The operating surgeon with grade and registration, as the signature names this person.",
    ),
    row(
        "derived.attending",
        Text,
        "The surgeon who answers for the patient: the responsible one, or else the operating one.",
    ),
    row("derived.operation_minutes", Text, "Minutes from incision to closure."),
    row("derived.coronal_deformity", Text, "Deformity in the coronal plane in words: \"6° varus\"."),
    row("derived.femoral_rotation", Text, "Femoral rotation in words: \"3° external\"."),
    row("derived.jlca", Text, "Joint line convergence angle in words: \"2° varus\"."),
    row("derived.components", Like("components"), "The components, each with its number."),
    row("derived.components[].number", Text, "Number in the list of components, from 1."),
    row("derived.components[].mark", Text, "Name of the drawing of its label's mark: ![words](drawing:mark-1)."),
    row("derived.components[].mark_kind", Text, "Kind of the mark, such as GS1 DataMatrix."),
    row("derived.components[].mark_words", Text, "What the mark says, in letters and digits."),
    row("derived.components[].no_mark_because", Text, "Why no mark can be drawn."),
    row("derived.implanted", Like("derived.components"), "The components that were implanted."),
    row("derived.removed", Like("derived.components"), "The components that were removed."),
    row("derived.opened_not_used", Like("derived.components"), "The components that were opened and not used."),
    row(
        "derived.fate_not_recorded",
        Like("derived.components"),
        "The components of which nobody wrote what became of them.",
    ),
    row("derived.has_drawing_of_axis", Truth, "Whether the drawing \"axis\" can be made."),
    row("derived.has_drawing_of_balance", Truth, "Whether the drawing \"balance\" can be made."),
    row("derived.has_drawing_of_surfaces", Truth, "Whether the drawing \"surfaces\" can be made."),
    row("derived.replaced", Text, "What was replaced, in plain words for the patient."),
    row("derived.is_partial", Truth, "Whether only part of the knee was replaced."),
    row("derived.same_sitting", Truth, "Whether the other knee was operated on in the same anaesthetic."),
    row("derived.stable_in", Texts, "Positions in which the knee was stable at the end."),
    row("derived.unstable_in", Texts, "Positions in which the knee was not stable at the end."),
    row("derived.events", Like("events"), "The events, those of the operation first."),
    row("derived.events_of_stay", Like("events"), "The events of the operation and of the stay after it."),
    row("derived.events_since_discharge", Like("events"), "The events after discharge, with those of the visits."),
    row(
        "derived.beyond_straight",
        Record,
        "Degrees by which the knee goes beyond straight; nothing where it does not.",
    ),
    row("derived.beyond_straight.before_operation", Text, "Before the operation."),
    row("derived.beyond_straight.at_end", Text, "At the end of the operation."),
    row("derived.beyond_straight.at_discharge", Text, "At discharge."),
    row(
        "derived.anticoagulant",
        Text,
        "The anticoagulant from before the operation; nothing where \"none\" was typed.",
    ),
    row("derived.blood_thinner", Text, "The drug that prevents blood clots; nothing where \"none\" was typed."),
    row("derived.dates", Records, "What awaits the patient after going home, by date."),
    row("derived.dates[].on", Text, "Day."),
    row(
        "derived.dates[].kind",
        OneOf(&["wound_check", "closure_removal", "bloods", "film", "review"]),
        "What it is, as its code: wound_check, closure_removal, bloods, film, review.",
    ),
    row("derived.dates[].what", Text, "What a review is for."),
    row("derived.dates[].with", Text, "With whom, or by whom."),
    row("derived.wound_check_to_come", Truth, "Whether the wound check lies after going home."),
    row("derived.closure_removal_to_come", Truth, "Whether stitches or clips come out after going home."),
    row("derived.blood_thinner_until", Text, "Last day of the blood thinner."),
    row("derived.filled_confirmed", Texts, "Sections into which usual answers were filled, and which were confirmed."),
    row(
        "derived.filled_unconfirmed",
        Texts,
        "Sections into which usual answers were filled, and which nobody confirmed.",
    ),
    row(
        "derived.signed_in_spite_of",
        Records,
        "Findings that the entry was signed in spite of; the program prints them on the note.",
    ),
    row("derived.signed_in_spite_of[].finding", Text, "The finding."),
    row("derived.signed_in_spite_of[].reason", Text, "Why the entry was signed all the same."),
    row("derived.signed_in_spite_of[].by", Text, "Who said so."),
    row("derived.signed_in_spite_of[].on", Text, "Day."),
    row("derived.signed_in_spite_of[].at", Text, "Time of day."),
    row("derived.signed_in_spite_of[].rule", Text, "Name of the rule that found it."),
    row("derived.signed_in_spite_of[].about", Texts, "The places of the answers that it is about."),
    row("derived.unfinished", Texts, "Why this paper cannot be handed out yet; the program says so above it."),
    row("addendum", Record, "What was added to a signed entry; empty on every paper but the addendum."),
    row("addendum.number", Text, "Number of the addendum, from 1."),
    row("addendum.text", Text, "What it says."),
    row("addendum.by", Text, "Who added it."),
    row("addendum.on", Text, "Day on which it was added."),
    row("addendum.at", Text, "Time of day at which it was added."),
    row("addendum.changes", Records, "Every answer that differs from the entry before."),
    row("addendum.changes[].section", Text, "Section of the entry."),
    row("addendum.changes[].answer", Text, "Label of the answer."),
    row("addendum.changes[].before", Text, "What was recorded before."),
    row("addendum.changes[].now", Text, "What is recorded now."),
    row("paper", Record, "This paper."),
    row("paper.author", Text, "Who writes it."),
    row("paper.date", Text, "Day of writing."),
    row("paper.time", Text, "Time of writing."),
    row("paper.sheet", OneOf(&["a4", "letter", "wallet"]), "Its sheet, as its code: a4, letter, wallet."),
    row(
        "paper.signed_by",
        Text,
        "Who signed the entry; nothing on a draft. The program puts the signature below every paper.",
    ),
    row("paper.signed_on", Text, "Day of signing."),
    row("paper.signed_at", Text, "Time of signing."),
    row("paper.missing", Texts, "What the entry still lacks for this paper, in sentences."),
    row("settings", Record, "The settings of the clinic."),
    row("settings.emergency_number", Text, "Number that calls an ambulance."),
    row("settings.fever_c", Text, "Fever above which the patient calls the same day (°C)."),
];
