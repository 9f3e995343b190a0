//! A torrent of broken input in bounded time, from a fixed seed: the stable stand-in for a fuzz target.
//!
//! Scans are cut, spliced and sprinkled with what matters to the reader; nothing may panic, and the
//! promises of the crate hold for every one of them.

use evengap_label::{Options, merge, printed, read};

use super::{YEAR, properties::promises};

const ROUNDS: u32 = 60_000;

const SEEDS: &[&str] = &[
    "]d20109521041001272112411061734110510T228401\u{1d}21S7194998",
    "(01)51022222233336(11)141231(17)150707(10)A213B1(21)1234",
    "+A99912345/$$52001510X3/16D20111212/S77DEFG457",
    "+A123BJC5D6E71G+$$+52001510X3GB",
    "+$$824605271223C001GC",
    "=/A9999XYZ100T0944=,000025=A99971312345600",
    "]C1800301234567890128ABC\u{1d}80131987654Ad4X4bL5ttr2310c2K\u{1d}70033012312359",
];

const SPRINKLES: &[&str] = &[
    "\u{1d}",
    "(",
    ")",
    "(10)",
    "(21)",
    "()",
    "(88)",
    "01",
    "10",
    "17",
    "21",
    "+",
    "$",
    "$$",
    "$$+",
    "/",
    "]d2",
    "]C1",
    "\n",
    "\r\n",
    " ",
    "%",
    "é",
    "\u{241d}",
    "\u{1f9b5}",
    "\0",
    "*",
    "_",
    "9",
    "00",
];

/// A small generator (xorshift), so that the run is the same everywhere.
struct Dice(u64);

impl Dice {
    fn below(&mut self, limit: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % u64::try_from(limit.max(1)).unwrap()).unwrap()
    }

    fn cut<'a>(&mut self, text: &'a str) -> (&'a str, &'a str) {
        let at = self.below(text.len() + 1);
        text.split_at((at..=text.len()).find(|&at| text.is_char_boundary(at)).unwrap())
    }
}

#[test]
fn a_torrent_of_broken_scans() {
    let mut dice = Dice(0x0E7E_46A9_0000_0001);
    let plain = Options::new(YEAR);
    let other = Options { separators: vec!["|".to_owned(), "{GS}".to_owned()], ..Options::new(YEAR) };
    let mut before = read("", &plain);
    for _ in 0..ROUNDS {
        let mut text = SEEDS[dice.below(SEEDS.len())].to_owned();
        for _ in 0..dice.below(6) {
            let (head, tail) = dice.cut(&text);
            let other_seed = SEEDS[dice.below(SEEDS.len())];
            text = match dice.below(5) {
                0 => format!("{head}{}{tail}", SPRINKLES[dice.below(SPRINKLES.len())]),
                1 => format!("{head}{}", dice.cut(other_seed).1),
                2 => tail.to_owned(),
                3 => head.to_owned(),
                _ => format!("{head}{}", dice.cut(tail).1),
            };
        }
        let options = if dice.below(4) == 0 { &other } else { &plain };
        let label = promises(&text, options);
        if let Ok(both) = merge(&before, &label) {
            let _ = printed(&both);
        }
        before = label;
    }
}
