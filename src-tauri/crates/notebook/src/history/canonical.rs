//! The canonical text of an entry, so that the same answers always have the same sum.
//!
//! RFC 8785 (JSON Canonicalization Scheme) with one exception: an integer beyond ±2^53 keeps all its digits, because
//! what a binary64 number cannot hold would otherwise change without being noticed.

use serde_json::{Number, Value};

/// Integers up to here are the same number in every program that reads JSON (2^53).
const EXACT: u64 = 1 << 53;

/// Writes a value canonically: no blanks, keys in the order of their UTF-16 code units, numbers as ECMAScript prints them.
pub(crate) fn canonical(value: &Value) -> String {
    let mut text = String::new();
    write(value, &mut text);
    text
}

fn write(value: &Value, text: &mut String) {
    match value {
        Value::Number(number) => write_number(number, text),
        Value::Array(items) => {
            text.push('[');
            for (at, item) in items.iter().enumerate() {
                if at > 0 {
                    text.push(',');
                }
                write(item, text);
            }
            text.push(']');
        }
        Value::Object(map) => {
            let mut pairs: Vec<(&String, &Value)> = map.iter().collect();
            pairs.sort_by(|(one, _), (other, _)| one.encode_utf16().cmp(other.encode_utf16()));
            text.push('{');
            for (at, (key, value)) in pairs.into_iter().enumerate() {
                if at > 0 {
                    text.push(',');
                }
                write_string(key, text);
                text.push(':');
                write(value, text);
            }
            text.push('}');
        }
        Value::String(string) => write_string(string, text),
        Value::Bool(true) => text.push_str("true"),
        Value::Bool(false) => text.push_str("false"),
        Value::Null => text.push_str("null"),
    }
}

fn write_number(number: &Number, text: &mut String) {
    let whole = number.as_u64().or_else(|| number.as_i64().map(i64::unsigned_abs));
    match (whole, number.as_f64()) {
        (None, Some(float)) => text.push_str(ryu_js::Buffer::new().format(float)),
        (Some(whole), Some(float)) if whole <= EXACT => text.push_str(ryu_js::Buffer::new().format(float)),
        _ => text.push_str(&number.to_string()),
    }
}

fn write_string(string: &str, text: &mut String) {
    text.push('"');
    for letter in string.chars() {
        match letter {
            '"' => text.push_str("\\\""),
            '\\' => text.push_str("\\\\"),
            '\u{8}' => text.push_str("\\b"),
            '\t' => text.push_str("\\t"),
            '\n' => text.push_str("\\n"),
            '\u{C}' => text.push_str("\\f"),
            '\r' => text.push_str("\\r"),
            '\0'..='\u{1F}' => text.push_str(&format!("\\u{:04x}", u32::from(letter))),
            letter => text.push(letter),
        }
    }
    text.push('"');
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod tests {
    use serde_json::{Value, json};

    use super::canonical;

    #[track_caller]
    fn check(given: &str, expected: &str) {
        let value: Value = serde_json::from_str(given).unwrap();
        assert_eq!(canonical(&value), expected, "{given}");
    }

    /// RFC 8785, sections 3.2.2 and 3.2.3.
    #[test]
    fn the_example_of_the_standard() {
        check(
            r#"{
              "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
              "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
              "literals": [null, true, false]
            }"#,
            "{\"literals\":[null,true,false],\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],\
             \"string\":\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}",
        );
    }

    /// RFC 8785, section 3.2.3: by UTF-16 code units, so the emoji stands before the Hebrew letter.
    #[test]
    fn the_sorting_of_the_standard() {
        check(
            r#"{
              "\u20ac": "Euro Sign",
              "\r": "Carriage Return",
              "\ufb33": "Hebrew Letter Dalet With Dagesh",
              "1": "One",
              "\ud83d\ude00": "Emoji: Grinning Face",
              "\u0080": "Control",
              "\u00f6": "Latin Small Letter O With Diaeresis"
            }"#,
            "{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"\u{80}\":\"Control\",\
             \"ö\":\"Latin Small Letter O With Diaeresis\",\"€\":\"Euro Sign\",\"😀\":\"Emoji: Grinning Face\",\
             \"\u{fb33}\":\"Hebrew Letter Dalet With Dagesh\"}",
        );
    }

    /// RFC 8785, appendix B: bits of a binary64 number and how it is written.
    #[test]
    fn the_numbers_of_the_standard() {
        for (bits, expected) in [
            (0x0000_0000_0000_0000, "0"),
            (0x8000_0000_0000_0000, "0"),
            (0x0000_0000_0000_0001, "5e-324"),
            (0x8000_0000_0000_0001, "-5e-324"),
            (0x7fef_ffff_ffff_ffff, "1.7976931348623157e+308"),
            (0xffef_ffff_ffff_ffff, "-1.7976931348623157e+308"),
            (0x4340_0000_0000_0000, "9007199254740992"),
            (0xc340_0000_0000_0000, "-9007199254740992"),
            (0x4430_0000_0000_0000, "295147905179352830000"),
            (0x44b5_2d02_c7e1_4af5, "9.999999999999997e+22"),
            (0x44b5_2d02_c7e1_4af6, "1e+23"),
            (0x44b5_2d02_c7e1_4af7, "1.0000000000000001e+23"),
            (0x444b_1ae4_d6e2_ef4e, "999999999999999700000"),
            (0x444b_1ae4_d6e2_ef4f, "999999999999999900000"),
            (0x444b_1ae4_d6e2_ef50, "1e+21"),
            (0x3eb0_c6f7_a0b5_ed8c, "9.999999999999997e-7"),
            (0x3eb0_c6f7_a0b5_ed8d, "0.000001"),
            (0x41b3_de43_5555_5553, "333333333.3333332"),
            (0x41b3_de43_5555_5554, "333333333.33333325"),
            (0x41b3_de43_5555_5555, "333333333.3333333"),
            (0x41b3_de43_5555_5556, "333333333.3333334"),
            (0x41b3_de43_5555_5557, "333333333.33333343"),
            (0xbecb_f647_612f_3696, "-0.0000033333333333333333"),
            (0x4314_3ff3_c1cb_0959, "1424953923781206.2"),
        ] {
            assert_eq!(canonical(&json!(f64::from_bits(bits))), expected, "{bits:#x}");
        }
    }

    #[test]
    fn no_digit_of_a_long_number_is_lost() {
        check("[5, 5.0, -0.0, -7]", "[5,5,0,-7]");
        check(
            "[18446744073709551615, -9223372036854775808, 9007199254740993]",
            "[18446744073709551615,-9223372036854775808,9007199254740993]",
        );
    }
}
