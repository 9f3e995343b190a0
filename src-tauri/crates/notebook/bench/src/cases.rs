//! A hundred thousand invented cases, the same every time: the demo cases with other names, numbers and dates.

use std::path::Path;

use evengap_case::Case;
use serde_json::{Value, json};

const GIVEN: [&str; 24] = [
    "Zofia", "Ivo", "Mavis", "Edda", "Ansel", "Brina", "Corin", "Dilys", "Emrys", "Freda", "Gwen", "Hale", "Ines",
    "Jory", "Keld", "Linnea", "Morwen", "Nils", "Odile", "Piers", "Rhona", "Søren", "Tamsin", "Ülo",
];
const BEGIN: [&str; 30] = [
    "Thr", "Sand", "Quib", "Wen", "Ash", "Bram", "Cald", "Dun", "Ell", "Farn", "Gris", "Hask", "Ing", "Kest", "Lang",
    "Mar", "Nor", "Oak", "Pend", "Rav", "Sel", "Tarn", "Ul", "Vens", "Wal", "Yar", "Zel", "Brz", "Ny", "Ost",
];
const MIDDLE: [&str; 12] = ["el", "ring", "ble", "de", "en", "er", "in", "o", "u", "a", "mer", "l"];
const END: [&str; 16] = [
    "keld", "ford", "thorpe", "mere", "by", "shott", "wick", "ton", "ham", "ley", "son", "sen", "ska", "dottir",
    "well", "stone",
];

/// Makes case number `n` out of one of the demo cases.
pub struct Maker {
    patterns: Vec<Value>,
}

impl Maker {
    pub fn new() -> Result<Self, Box<dyn std::error::Error>> {
        let folder = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../../../demo-cases"));
        let mut paths: Vec<_> =
            std::fs::read_dir(folder)?.map(|file| file.map(|file| file.path())).collect::<Result<_, _>>()?;
        paths.retain(|path| path.extension().is_some_and(|ending| ending == "json"));
        paths.sort();
        let read = |path: &std::path::PathBuf| Ok(serde_json::from_str(&std::fs::read_to_string(path)?)?);
        Ok(Self { patterns: paths.iter().map(read).collect::<Result<_, Box<dyn std::error::Error>>>()? })
    }

    pub fn case(&self, n: u64) -> Result<Case, Box<dyn std::error::Error>> {
        let mut chance = n.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1;
        let mut below = |limit: usize| {
            chance ^= chance >> 12;
            chance ^= chance << 25;
            chance ^= chance >> 27;
            usize::try_from((chance.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 33) % limit as u64).unwrap_or(0)
        };
        let mut case = self.patterns[below(self.patterns.len())].clone();
        let (high, low) = (below(1 << 31), below(1 << 31));
        case["id"] = json!(format!("{high:08x}-0000-4000-8000-{low:08x}{:04x}", n % 65536));
        case.as_object_mut().map(|case| case.remove("companion"));
        case["patient"]["given_name"] = json!(GIVEN[below(GIVEN.len())]);
        let family = format!("{}{}{}", BEGIN[below(BEGIN.len())], MIDDLE[below(MIDDLE.len())], END[below(END.len())]);
        case["patient"]["family_name"] = json!(family);
        case["patient"]["hospital_number"] = json!(format!("WTH-{:06}", 100_000 + n));
        case["patient"]["birth_date"] =
            json!(format!("{}-{:02}-{:02}", 1930 + below(40), 1 + below(12), 1 + below(28)));
        case["setting"]["operation_date"] =
            json!(format!("{}-{:02}-{:02}", 2006 + below(20), 1 + below(12), 1 + below(28)));
        for component in case["components"].as_array_mut().into_iter().flatten() {
            component["lot"] = json!(format!("T{:06}", below(1_000_000)));
            component["serial"] = json!(format!("S{:07}", below(10_000_000)));
        }
        Ok(evengap_case::read_value(case).map_err(|refusal| refusal.to_string())?.case)
    }
}
