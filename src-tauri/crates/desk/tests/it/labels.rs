//! Labels through the desk.

use evengap_desk::{Desk, ErrorCode, LabelScheme};

use crate::bench::refused;

#[test]
fn a_scan_is_read_and_a_second_one_joined() {
    let desk = Desk::new();
    let first = desk.label_read("(01)09506000134352", &[], 2026);
    assert_eq!(first.scheme, LabelScheme::Gs1, "{first:?}");
    let second = desk.label_read("(10)A-7b(17)301231", &[], 2026);
    let both = desk.label_merge(&first, &second).unwrap();
    assert_eq!(
        (both.device_identifier.as_deref(), both.lot.as_deref()),
        (Some("09506000134352"), Some("A-7b")),
        "one label"
    );
    let other = desk.label_read("(01)09506000134369(10)B", &[], 2026);
    refused(desk.label_merge(&both, &other), ErrorCode::Refused);
}

#[test]
fn the_scanner_may_send_another_separator() {
    let label = Desk::new().label_read("10LOT7|21S9", &["|".to_owned()], 2026);
    assert_eq!((label.lot.as_deref(), label.serial.as_deref()), (Some("LOT7"), Some("S9")), "{label:?}");
}
