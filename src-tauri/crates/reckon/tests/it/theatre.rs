//! Tourniquet, drugs, cement, blood clots: edges and refusals. Most check values stand in tests/checks/knee.json.

use evengap_reckon::Limits;
use serde_json::{Value, json};

use crate::{check, check_needs, check_refused, check_value, run};

#[test]
fn cuff_margins() {
    // AORN margins as quoted by Noordin et al. 2009: +40 below 130, +60 from 130 to 190, +80 above 190 mmHg.
    let source = "AORN margins as quoted by Noordin et al. 2009";
    for (occlusion, cuff) in
        [(120.0, 160.0), (129.0, 169.0), (130.0, 190.0), (150.0, 210.0), (190.0, 250.0), (191.0, 271.0)]
    {
        check("cuff_pressure", json!({ "limb_occlusion_mmhg": occlusion }), "cuff_pressure_mmhg", cuff, 0.0, source);
    }
    check("cuff_pressure", json!({ "limb_occlusion_mmhg": 129.5 }), "margin_mmhg", 60.0, 0.0, "129.5 rounds to 130");
    let set = json!({ "limb_occlusion_mmhg": 168, "pressure_mmhg": 250 });
    check("cuff_pressure", set, "set_minus_reckoned_mmhg", 22.0, 0.0, source);
    check_refused(
        "cuff_pressure",
        json!({ "limb_occlusion_mmhg": 0 }),
        "limb_occlusion_mmhg: a pressure must be above zero (got 0).",
    );
}

fn inflations(minutes: &[(f64, f64)]) -> Value {
    let lines: Vec<Value> = minutes.iter().map(|(up, down)| json!({ "up_at": up, "down_at": down })).collect();
    json!({ "inflations": lines })
}

#[test]
fn tourniquet_edges() {
    // Common practice, from memory also in Noordin et al. 2009: 120 minutes or less, 10 minutes or more between.
    check_value("tourniquet_time", inflations(&[(0.0, 120.0)]), "total_over_limit", json!(false), "120 is not over");
    check_value("tourniquet_time", inflations(&[(0.0, 121.0)]), "total_over_limit", json!(true), "121 is over");
    let pause = |from: f64| inflations(&[(0.0, 60.0), (from, from + 10.0)]);
    check_value("tourniquet_time", pause(70.0), "pause_under_limit", json!(false), "10 is not under");
    check_value("tourniquet_time", pause(69.0), "pause_under_limit", json!(true), "9 is under");
    check_value("tourniquet_time", inflations(&[(5.0, 5.0)]), "total_min", json!(0.0), "no time is a time");
}

#[test]
fn tourniquet_out_of_order() {
    check_refused(
        "tourniquet_time",
        inflations(&[(10.0, 5.0)]),
        "inflations[0].down_at: the tourniquet cannot come down before it went up (inflations[0].up_at).",
    );
    check_refused(
        "tourniquet_time",
        inflations(&[(0.0, 50.0), (40.0, 60.0)]),
        "inflations[1].up_at: this inflation begins before the one before it ended (inflations[0].down_at).",
    );
    check_refused(
        "tourniquet_time",
        json!({ "inflations": [{ "up_at": "2026-03-04T08:00", "down_at": 60 }] }),
        "inflations[0].down_at: give this in the same way as inflations[0].up_at: both as date and time or both as minutes.",
    );
    check_refused(
        "tourniquet_time",
        json!({ "inflations": [{ "up_at": "08:00", "down": 60 }] }),
        "inflations[0].down: this reckoning knows no such input; did you mean down_at? \
         inflations[0].up_at: “08:00” is not a time; write it as YYYY-MM-DDTHH:MM, or as a number of minutes.",
    );
    check_needs("tourniquet_time", json!({ "inflations": [{ "up_at": 0 }] }), "needs inflations[0].down_at");
}

fn antibiotic(drug: &str, before: f64, weight: Value) -> Value {
    json!({ "drug": drug, "given_at": -before, "incision_at": 0, "weight_kg": weight })
}

#[test]
fn antibiotic_window() {
    // Bratzler et al. 2013: within 60 minutes, 120 for vancomycin and fluoroquinolones.
    let cases = [
        ("cefazolin", 60.0, true),
        ("cefazolin", 61.0, false),
        ("cefuroxime", 0.0, true),
        ("Cefazolin 2 g", -1.0, false),
        ("vancomycin", 61.0, true),
        ("vancomycin", 120.0, true),
        ("vancomycin", 121.0, false),
        ("ciprofloxacin", 100.0, true),
        ("teicoplanin", 60.0, true),
        ("teicoplanin", 61.0, false),
    ];
    for (drug, before, within) in cases {
        check_value("antibiotic_timing", antibiotic(drug, before, json!(80)), "within_window", json!(within), drug);
    }
}

#[test]
fn antibiotic_dose_and_redose() {
    // Table 1 of Bratzler et al. 2013.
    let source = "Bratzler et al. 2013, table 1";
    let dose = |drug: &str, weight: f64| antibiotic(drug, 30.0, json!(weight));
    check("antibiotic_timing", dose("cefazolin", 119.9), "table_dose_mg", 2000.0, 0.0, source);
    check("antibiotic_timing", dose("cefazolin", 120.0), "table_dose_mg", 3000.0, 0.0, source);
    check("antibiotic_timing", dose("cefuroxime", 70.0), "table_dose_mg", 1500.0, 0.0, source);
    check("antibiotic_timing", dose("clindamycin", 70.0), "table_dose_mg", 900.0, 0.0, source);
    check("antibiotic_timing", dose("vancomycin", 70.0), "table_dose_mg", 1050.0, 0.0, source);
    check("antibiotic_timing", dose("cefazolin", 70.0), "redosing_interval_ends_at", 210.0, 0.0, source);
    check("antibiotic_timing", dose("clindamycin", 70.0), "redosing_interval_ends_at", 330.0, 0.0, source);
    let unknown = antibiotic("cefazolin", 30.0, Value::Null);
    check_value("antibiotic_timing", unknown, "table_dose_mg", Value::Null, "a dose by weight needs the weight");
    let mut long = dose("cefazolin", 70.0);
    long["closed_at"] = json!(210);
    check_value("antibiotic_timing", long.clone(), "interval_ended_before_closure", json!(false), "at its very end");
    long["closed_at"] = json!(211);
    check_value("antibiotic_timing", long, "interval_ended_before_closure", json!(true), "a minute later");
    let mut early = dose("cefazolin", 70.0);
    early["closed_at"] = json!(-1);
    check_refused(
        "antibiotic_timing",
        early.clone(),
        "closed_at: the wound cannot be closed before incision_at; check both times.",
    );
    early["drug"] = json!("teicoplanin");
    check_refused(
        "antibiotic_timing",
        early,
        "closed_at: the wound cannot be closed before incision_at; check both times.",
    );
    let near = antibiotic("cefazoline", 30.0, json!(80));
    check_value(
        "antibiotic_timing",
        near,
        "table_dose_mg",
        Value::Null,
        "a near name is not taken for a drug of the table",
    );
    let two = antibiotic("cefazolin and vancomycin", 90.0, json!(80));
    check_value("antibiotic_timing", two, "table_dose_mg", Value::Null, "two drugs in one text have no one dose");
}

#[test]
fn tranexamic_limit() {
    // NICE NG157: 1 to 2 g topical beside the intravenous dose, 3 g in all at most.
    let doses = |doses: &[f64]| json!({ "doses": doses.iter().map(|dose| json!({ "route": "topical", "dose_mg": dose })).collect::<Vec<_>>() });
    check_value("tranexamic_total", doses(&[1000.0, 2000.0]), "over_limit", json!(false), "3 g is not over 3 g");
    check_value("tranexamic_total", doses(&[1000.0, 2000.5]), "over_limit", json!(true), "half a milligram over");
    check_refused(
        "tranexamic_total",
        json!({ "doses": [{ "route": "rectal", "dose_mg": 1 }] }),
        "doses[0].route: “rectal” is not one of the choices: intravenous, topical, oral.",
    );
    check_refused("tranexamic_total", doses(&[-1.0]), "doses[0].dose_mg: a dose cannot be negative (got -1).");
}

fn infiltration(drug: &str, percent: f64, volume: f64, adrenaline: bool) -> Value {
    json!({ "drug": drug, "percent": percent, "volume_ml": volume, "with_adrenaline": adrenaline })
}

#[test]
fn local_anaesthetic_fractions() {
    // US prescribing information: 4.5 mg/kg, at most 300 mg; with adrenaline 7 mg/kg, at most 500 mg. Worked examples
    // quoted with it: 70 kg with adrenaline 490 mg, which is 49 ml of 1 %; 1 % without adrenaline at most 30 ml.
    let source = "US prescribing information, worked examples";
    let one = |line: Value, weight: f64| json!({ "infiltrations": [line], "weight_kg": weight });
    let whole = one(infiltration("lidocaine", 1.0, 49.0, true), 70.0);
    check("local_anaesthetic", whole.clone(), "mass_mg", 490.0, 1e-9, source);
    check("local_anaesthetic", whole.clone(), "fraction_together", 1.0, 1e-9, source);
    check_value("local_anaesthetic", whole, "over_limit", json!(false), "the whole is not over");
    check(
        "local_anaesthetic",
        one(infiltration("lidocaine", 1.0, 30.0, false), 100.0),
        "fraction_together",
        1.0,
        1e-9,
        source,
    );
    check(
        "local_anaesthetic",
        one(infiltration("Lidocaine", 2.0, 25.0, true), 90.0),
        "fraction_together",
        1.0,
        1e-9,
        source,
    );
    let over = one(infiltration("lidocaine", 1.0, 49.1, true), 70.0);
    check_value("local_anaesthetic", over, "over_limit", json!(true), "0.1 ml over");
    let two = json!({
        "infiltrations": [infiltration("lidocaine", 1.0, 15.0, false), infiltration("lidocaine", 1.0, 25.0, true)],
        "weight_kg": 100,
    });
    check("local_anaesthetic", two, "fraction_together", 1.0, 1e-9, "150/300 + 250/500");
}

#[test]
fn an_empty_line_of_the_table_computes_nothing() {
    let open = json!({ "infiltrations": [infiltration("ropivacaine", 0.2, 100.0, false)], "weight_kg": 80 });
    check("local_anaesthetic", open.clone(), "mass_mg", 200.0, 1e-9, "0.2 % is 2 mg in each ml");
    check_value("local_anaesthetic", open.clone(), "fraction_together", Value::Null, "no limit stands in the table");
    let answer = run("local_anaesthetic", open);
    let last = answer["results"].as_array().and_then(|results| results.last()).expect("results");
    assert_eq!(
        last["not_computable"], "needs a greatest dose in the table for ropivacaine without adrenaline",
        "what is needed is named"
    );
    let no_weight = json!({ "infiltrations": [infiltration("lidocaine", 1.0, 10.0, false)] });
    check_value("local_anaesthetic", no_weight, "over_limit", Value::Null, "a limit by weight needs the weight");
}

#[test]
fn cement_out_of_order() {
    check_refused(
        "cement_times",
        json!({ "mixes": [{ "mixed_at": 0, "applied_at": 4, "hard_at": 3 }] }),
        "mixes[0].hard_at: this comes before mixes[0].applied_at; check both times.",
    );
    check_needs("cement_times", json!({ "mixes": [{ "hard_at": 3 }] }), "needs mixes[0].mixed_at");
    let half = json!({ "mixes": [{ "mixed_at": 0, "hard_at": 11 }] });
    check("cement_times", half.clone(), "mix_1_mixed_to_hard_min", 11.0, 0.0, "subtraction");
    check_value(
        "cement_times",
        half,
        "mix_1_mixed_to_seated_min",
        Value::Null,
        "not seated at any time that was given",
    );
}

#[test]
fn course_against_clots() {
    // CHEST 2012: 10 to 14 days at least, up to 35.
    let course = |days: u32| json!({ "first_dose_on": "2026-07-07", "days": days, "operation_on": "2026-07-06" });
    for (days, under, over) in [(9, true, false), (10, false, false), (35, false, false), (36, false, true)] {
        check_value("vte_dates", course(days), "under_shortest_course", json!(under), "10 days are not under");
        check_value("vte_dates", course(days), "over_longest_course", json!(over), "35 days are not over");
    }
    check("vte_dates", course(14), "last_dose_days_after_operation", 14.0, 0.0, "first dose the day after");
    let last = json!({ "first_dose_on": "9999-12-20", "days": 14 });
    check_refused("vte_dates", last, "first_dose_on: the course ends after 9999; check the year.");
    check_refused("vte_dates", course(0), "days: a course lasts at least one day (got 0).");
    check_refused(
        "vte_dates",
        json!({ "first_dose_on": "2026-02-29", "days": 1.5 }),
        "first_dose_on: “2026-02-29” is not a day of the calendar; write it as YYYY-MM-DD, such as 2026-03-04. \
         days: a whole number from 0 to 1000000 is needed here, not 1.5.",
    );
}

#[test]
fn limits_are_settings_with_sources() {
    let limits = Limits::default();
    let written = serde_json::to_string(&limits).expect("limits can be written");
    assert_eq!(Limits::read(&written).expect("and read back"), limits, "writing and reading is the identity");
    assert_eq!(Limits::read("{}").expect("all defaults"), limits, "what is left out keeps its default");
    for row in limits.table() {
        assert!(!row.source.title.is_empty(), "{} must name its source or habit", row.name);
    }
    let negative = r#"{ "kerf_mm": { "value": -1, "source": { "title": "x", "kind": "common_practice" } } }"#;
    let refusal = Limits::read(negative).expect_err("no kerf is negative").to_string();
    assert_eq!(refusal, "kerf_mm: a limit must be a finite number, zero or more (got -1).", "the limit is named");
    assert!(Limits::read(r#"{ "kerv_mm": 1 }"#).is_err(), "an unknown limit is refused");
    let mut twice = limits;
    twice.antibiotics.push(twice.antibiotics[0].clone());
    let refusal = twice.check().expect_err("one drug, one line").to_string();
    assert_eq!(refusal, "antibiotics: cefazolin stands in this table twice; keep one line.", "the table is named");
}

#[test]
fn a_known_part_that_is_over_is_over_whatever_the_rest() {
    // US prescribing information of lidocaine: 4.5 mg/kg, at most 300 mg without adrenaline.
    let given = json!({
        "weight_kg": 78,
        "infiltrations": [
            { "drug": "lidocaine", "percent": 2, "volume_ml": 60 },
            { "drug": "bupivacaine", "percent": 0.5, "volume_ml": 20 },
        ],
    });
    check("local_anaesthetic", given.clone(), "fraction_known", 4.0, 1e-9, "1200 mg of 300 mg");
    check_value("local_anaesthetic", given.clone(), "over_limit", json!(true), "the known part alone is over");
    check_value("local_anaesthetic", given.clone(), "fraction_together", Value::Null, "the table has no bupivacaine");
    let notes = run("local_anaesthetic", given)["notes"].to_string();
    let said = "bupivacaine has no line in the table; nothing is computed for it.";
    assert_eq!(notes.matches(said).count(), 1, "the drug that adds nothing is named: {notes}");
    assert!(!notes.contains("lidocaine has no line"), "and only that one: {notes}");
}

#[test]
fn an_empty_list_says_nothing() {
    for (name, inputs) in [
        ("tranexamic_total", json!({ "doses": [] })),
        ("local_anaesthetic", json!({ "infiltrations": [] })),
        ("tourniquet_time", json!({ "inflations": [] })),
    ] {
        let answer = evengap_reckon::find(name).unwrap().answer(&inputs, &Limits::default()).unwrap();
        assert!(answer.not_computable.is_some(), "{name}: not zero");
    }
}
