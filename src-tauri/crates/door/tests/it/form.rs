//! A door that was written once and kept: whatever the program becomes, it opens.

use evengap_door::{Cost, Door, SlotKind};
use tempfile::TempDir;

/// One copy of a door of the form 1 for two people and a sheet, of the least cost, while a change of keys is under way.
const KEPT: &[u8] = include_bytes!("../data/form-1.door");

#[test]
fn a_door_of_the_form_1_opens() {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("kept");
    std::fs::write(&path, KEPT).unwrap();
    let door = Door::read(&path).unwrap();
    assert_eq!(door.cost(), Cost::LEAST);
    let slots = door.slots().map(|(id, kind)| (id.as_u128(), kind)).collect::<Vec<_>>();
    assert_eq!(slots, [(1, SlotKind::Person), (2, SlotKind::Person), (3, SlotKind::Recovery)]);
    let [one, another, sheet] = ["one's own words", "another's words", "the sheet's words"]
        .map(|words| door.unlock(words).unwrap().expect("it opens"));
    // Each slot carries a mark made with the keys, so that those that come out are those that went in.
    assert!(one.key == another.key && another.key == sheet.key, "the same key for all");
    assert!(one.next_key.is_some() && one.next_key == another.next_key && another.next_key == sheet.next_key);
    assert!(door.unlock("some other words").unwrap().is_none());
}
