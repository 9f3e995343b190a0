//! The scans of the demo cases agree with what the cases record.

use std::fs;
use std::path::Path;

use serde_json::Value;

use super::scan;

#[test]
fn demo_scans_agree_with_their_components() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../demo-cases");
    let mut scans = 0;
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|extension| extension != "json") {
            continue;
        }
        let case: Value = serde_json::from_str(&fs::read_to_string(&path).unwrap()).unwrap();
        for component in case["components"].as_array().into_iter().flatten() {
            let Some(raw) = component["scan"]["raw"].as_str() else { continue };
            scans += 1;
            let label = scan(raw);
            let place = format!("{}: {raw:?}", path.display());
            assert_eq!(label.warnings, [], "no warning: {place}");
            let text = |value: &Value| value.as_str().map(str::to_owned);
            assert_eq!(serde_json::to_value(label.scheme).unwrap(), component["scan"]["scheme"], "scheme: {place}");
            assert_eq!(label.device_identifier, text(&component["scan"]["device_identifier"]), "device: {place}");
            assert_eq!(label.lot, text(&component["lot"]), "lot: {place}");
            assert_eq!(label.serial, text(&component["serial"]), "serial: {place}");
            let expires = label.expires_on.map(|date| date.on.to_string());
            assert_eq!(expires, text(&component["expires_on"]), "expiry: {place}");
            if let Some(made) = label.made_on {
                assert_eq!(Some(made.on.to_string()), text(&component["made_on"]), "made on: {place}");
            }
        }
    }
    assert!(scans > 20, "the demo cases hold scans: {scans}");
}
