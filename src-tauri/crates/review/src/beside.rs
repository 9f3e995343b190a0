//! The reckonings that follow from an entry: which answers each takes, and where it stands.
//!
//! It only carries answers over; formulas, limits and sources belong to the reckonings themselves.

use evengap_case::Case;
use evengap_case::sections::{CutPiece, DiagnosisKind, Procedure, ScoreKind};
use evengap_reckon::{Answer, Limits};
use serde::Serialize;
use serde_json::{Map, Value, json};
use ts_rs::TS;

/// A reckoning beside the answers that it comes from.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Beside {
    /// The group of answers it stands beside, such as `knee.alignment` or `cement.mixes[0]`.
    pub at: String,
    /// The result with formula, inputs, limits and sources.
    pub answer: Answer,
}

/// Gives every reckoning for which at least one answer of its own is recorded, in the order of the entry.
///
/// One that lacks an answer says what it needs; one whose answers are impossible is left to the rules.
pub fn reckonings(case: &Case, limits: &Limits) -> Vec<Beside> {
    let mut list = List { limits, beside: Vec::new() };
    patient(case, &mut list);
    knee(case, &mut list);
    theatre(case, &mut list);
    bone(case, &mut list);
    after(case, &mut list);
    list.beside
}

/// Named inputs; what is not recorded is left out.
type Inputs<'a> = &'a [(&'a str, Option<Value>)];

struct List<'a> {
    limits: &'a Limits,
    beside: Vec<Beside>,
}

impl List<'_> {
    /// Adds a reckoning if at least one of `own` is recorded; `shared` comes from elsewhere in the entry.
    fn add(&mut self, at: &str, name: &str, own: Inputs<'_>, shared: Inputs<'_>) -> Option<Answer> {
        let recorded = |(name, value): &(&str, Option<Value>)| Some(((*name).to_owned(), value.clone()?));
        let mut inputs: Map<String, Value> = own.iter().filter_map(recorded).collect();
        if inputs.is_empty() {
            return None;
        }
        inputs.extend(shared.iter().filter_map(recorded));
        let answer = evengap_reckon::find(name)?.answer(&Value::Object(inputs), self.limits).ok()?;
        self.beside.push(Beside { at: at.to_owned(), answer: answer.clone() });
        Some(answer)
    }
}

fn of<T: Serialize>(value: &Option<T>) -> Option<Value> {
    value.as_ref().map(|value| json!(value))
}

fn result(answer: Option<&Answer>, name: &str) -> Option<Value> {
    let value = &answer?.results.iter().find(|result| result.name == name)?.value;
    (!value.is_null()).then(|| value.clone())
}

fn patient(case: &Case, list: &mut List<'_>) {
    let patient = &case.patient;
    let bloods = &case.knee.bloods_before;
    let age = list.add(
        "patient",
        "age",
        &[("birth_date", of(&patient.birth_date))],
        &[("on_date", of(&case.setting.operation_date))],
    );
    let sex = ("sex", patient.sex.map(|sex| json!(sex.code())));
    let height = ("height_cm", of(&patient.height_cm));
    let weight = ("weight_kg", of(&patient.weight_kg));
    list.add("patient", "bmi", &[height.clone(), weight.clone()], &[]);
    list.add("patient", "bsa", &[height.clone(), weight.clone()], &[]);
    list.add("patient", "blood_volume", &[height, weight.clone()], std::slice::from_ref(&sex));
    let age = ("age_years", result(age.as_ref(), "age_years"));
    let creatinine = [("creatinine_umol_l", of(&bloods.creatinine_umol_l))];
    list.add("knee.bloods_before", "egfr", &creatinine, &[age.clone(), sex.clone()]);
    list.add("knee.bloods_before", "creatinine_clearance", &creatinine, &[age.clone(), sex, weight]);
    partial(case, age.1, list);
}

fn knee(case: &Case, list: &mut List<'_>) {
    let alignment = &case.knee.alignment;
    list.add(
        "knee.alignment",
        "alignment",
        &[
            ("ldfa_deg", of(&alignment.ldfa_deg)),
            ("mpta_deg", of(&alignment.mpta_deg)),
            ("jlca_deg", of(&alignment.jlca_deg)),
        ],
        &[],
    );
}

/// The published criteria beside a partial replacement of one side of the knee.
fn partial(case: &Case, age: Option<Value>, list: &mut List<'_>) {
    let compartment = match case.choice.procedure {
        Some(Procedure::MedialPartial) => "medial",
        Some(Procedure::LateralPartial) => "lateral",
        _ => return,
    };
    let knee = &case.knee;
    let (wear, ligaments) = (&knee.wear, &knee.ligaments);
    let inflammatory = knee.diagnosis.kind.map(|kind| json!(kind == DiagnosisKind::InflammatoryArthritis));
    list.add(
        "choice",
        "partial_suitability",
        &[("compartment", Some(json!(compartment)))],
        &[
            ("age_years", age),
            ("weight_kg", of(&case.patient.weight_kg)),
            ("inflammatory_arthritis", inflammatory),
            ("medial_cartilage", of(&wear.medial.cartilage)),
            ("lateral_cartilage", of(&wear.lateral.cartilage)),
            ("patellofemoral_cartilage", of(&wear.patellofemoral.cartilage)),
            ("patellofemoral_bone_loss", of(&wear.patellofemoral.bone_loss)),
            ("acl", of(&ligaments.acl)),
            ("pcl", of(&ligaments.pcl)),
            ("mcl", of(&ligaments.mcl)),
            ("lcl", of(&ligaments.lcl)),
            ("coronal_deg", of(&knee.deformity.coronal_deg)),
            ("correctable", of(&knee.deformity.correctable)),
            ("fixed_flexion_deg", of(&knee.deformity.fixed_flexion_deg)),
            ("extension_deg", of(&knee.range_before.extension_deg)),
            ("flexion_deg", of(&knee.range_before.flexion_deg)),
        ],
    );
}

fn theatre(case: &Case, list: &mut List<'_>) {
    let theatre = &case.anaesthesia;
    let cuff = &theatre.tourniquet;
    list.add(
        "anaesthesia.tourniquet",
        "cuff_pressure",
        &[("limb_occlusion_mmhg", of(&cuff.limb_occlusion_mmhg))],
        &[("pressure_mmhg", of(&cuff.pressure_mmhg))],
    );
    let inflations = lines(&cuff.inflations, |one| Some(json!({ "up_at": one.up_at?, "down_at": one.down_at? })));
    list.add("anaesthesia.tourniquet", "tourniquet_time", &[("inflations", inflations)], &[]);
    for (i, dose) in theatre.antibiotics.iter().enumerate() {
        list.add(
            &format!("anaesthesia.antibiotics[{i}]"),
            "antibiotic_timing",
            &[("drug", of(&dose.drug)), ("given_at", of(&dose.given_at)), ("dose_mg", of(&dose.dose_mg))],
            &[
                ("incision_at", of(&case.times.incision)),
                ("closed_at", of(&case.times.closed)),
                ("weight_kg", of(&case.patient.weight_kg)),
            ],
        );
    }
    let doses = lines(&theatre.tranexamic, |dose| {
        Some(with_known(json!({ "dose_mg": dose.dose_mg? }), "route", dose.route.map(|route| json!(route.code()))))
    });
    list.add("anaesthesia.tranexamic", "tranexamic_total", &[("doses", doses)], &[]);
    let infiltrations = lines(&theatre.infiltration, |one| {
        let line = json!({ "drug": one.drug.as_ref()?, "percent": one.percent?, "volume_ml": one.volume_ml? });
        Some(with_known(line, "with_adrenaline", of(&one.with_adrenaline)))
    });
    let weight = ("weight_kg", of(&case.patient.weight_kg));
    list.add("anaesthesia.infiltration", "local_anaesthetic", &[("infiltrations", infiltrations)], &[weight]);
    for (i, mix) in case.cement.mixes.iter().enumerate() {
        let line = mix.mixed_at.map(|mixed| {
            let line = json!({ "mixed_at": mixed });
            let line = with_known(line, "applied_at", of(&mix.applied_at));
            let line = with_known(line, "seated_at", of(&mix.seated_at));
            let line = with_known(line, "hard_at", of(&mix.hard_at));
            let line = with_known(line, "storage_c", of(&mix.storage_c));
            json!([with_known(line, "theatre_c", of(&mix.theatre_c))])
        });
        list.add(&format!("cement.mixes[{i}]"), "cement_times", &[("mixes", line)], &[]);
    }
}

fn bone(case: &Case, list: &mut List<'_>) {
    let kerf = ("kerf_mm", of(&case.cuts.kerf_mm));
    for (i, piece) in case.cuts.pieces.iter().enumerate() {
        let at = format!("cuts.pieces[{i}]");
        list.add(&at, "cut", &cut(piece), std::slice::from_ref(&kerf));
    }
    let patella = &case.cuts.patella;
    list.add(
        "cuts.patella",
        "patella",
        &[("residual_mm", of(&patella.residual_mm)), ("button_mm", of(&patella.button_mm))],
        &[("before_mm", of(&patella.before_mm))],
    );
    let last = &case.balance.r#final;
    list.add(
        "balance.final",
        "gaps",
        &[
            ("extension_medial_mm", of(&last.extension.medial_mm)),
            ("extension_lateral_mm", of(&last.extension.lateral_mm)),
            ("flexion_medial_mm", of(&last.flexion.medial_mm)),
            ("flexion_lateral_mm", of(&last.flexion.lateral_mm)),
        ],
        &[("target_laxity_mm", of(&case.balance.target_laxity_mm))],
    );
}

fn cut(piece: &CutPiece) -> [(&'static str, Option<Value>); 4] {
    [
        ("component_mm", of(&piece.component_mm)),
        ("measured_mm", of(&piece.measured_mm)),
        ("recut_mm", of(&piece.recut_mm)),
        ("cartilage_worn_mm", of(&piece.cartilage_worn_mm)),
    ]
}

fn after(case: &Case, list: &mut List<'_>) {
    let vte = &case.aftercare.vte;
    list.add(
        "aftercare.vte",
        "vte_dates",
        &[("days", of(&vte.days)), ("first_dose_on", vte.first_dose_at.map(|at| json!(at.0.date().to_string())))],
        &[("operation_on", of(&case.setting.operation_date))],
    );
    let before = &case.knee.bloods_before;
    let after = &case.discharge;
    let body = [
        ("sex", case.patient.sex.map(|sex| json!(sex.code()))),
        ("height_cm", of(&case.patient.height_cm)),
        ("weight_kg", of(&case.patient.weight_kg)),
    ];
    let [sex, height, weight] = body;
    list.add(
        "discharge",
        "blood_loss_haematocrit",
        &[("haematocrit_after_fraction", of(&after.haematocrit_fraction))],
        &[
            ("haematocrit_before_fraction", of(&before.haematocrit_fraction)),
            sex.clone(),
            height.clone(),
            weight.clone(),
        ],
    );
    list.add(
        "discharge",
        "blood_loss_haemoglobin",
        &[("haemoglobin_after_g_l", of(&after.haemoglobin_g_l))],
        &[
            ("haemoglobin_before_g_l", of(&before.haemoglobin_g_l)),
            ("transfused_units", of(&case.closing.transfused_units)),
            sex,
            height,
            weight,
        ],
    );
    scores(case, list);
}

/// The Oxford totals at visits against the last one before the operation.
fn scores(case: &Case, list: &mut List<'_>) {
    let oxford = |scores: &[evengap_case::sections::Score]| {
        scores.iter().filter(|s| s.score == Some(ScoreKind::OxfordKnee)).filter_map(|s| s.value).next_back()
    };
    let before = oxford(&case.knee.scores);
    let scale = ("scale", Some(json!("0-48")));
    list.add("knee.scores", "score", &[("score", of(&before))], std::slice::from_ref(&scale));
    for (i, visit) in case.visits.iter().enumerate() {
        let now = oxford(&visit.scores);
        list.add(
            &format!("visits[{i}].scores"),
            "score",
            &[("score", of(&now))],
            &[scale.clone(), ("score_before", of(&before))],
        );
    }
}

/// Makes a list input from the records that have what a line needs; none where no record has.
fn lines<T>(records: &[T], line: impl Fn(&T) -> Option<Value>) -> Option<Value> {
    let lines: Vec<Value> = records.iter().filter_map(line).collect();
    (!lines.is_empty()).then(|| json!(lines))
}

fn with_known(mut line: Value, name: &str, value: Option<Value>) -> Value {
    if let Some(value) = value {
        line[name] = value;
    }
    line
}
