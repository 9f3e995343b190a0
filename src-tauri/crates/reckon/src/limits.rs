//! The limits that results are held against: settings with a default, each with its source. Formulas and the constants
//! inside them are no settings and stand in their own modules. Tables with one line per drug stand in `tables`.

use serde::{Deserialize, Serialize};
use ts_rs::TS;

use crate::Source;
use crate::refusal::{Problem, Refusal};
use crate::tables::{AntibioticLine, CuffLine, LocalAnaestheticLine};

/// A limit with its source.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, TS)]
#[serde(deny_unknown_fields)]
pub struct Limit {
    /// The number, in the unit that the limit's name ends with.
    pub value: f64,
    /// Who says so.
    pub source: Source,
}

/// A limit as a line of a table that a person reads.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct LimitRow {
    /// Name of the setting.
    pub name: String,
    /// What it limits.
    pub about: String,
    /// The number.
    pub value: f64,
    /// Unit, where it has one.
    pub unit: Option<String>,
    /// Who says so.
    pub source: Source,
}

impl LimitRow {
    pub(crate) fn of(
        name: impl Into<String>,
        about: impl Into<String>,
        value: f64,
        unit: &str,
        source: &Source,
    ) -> Self {
        let unit = (!unit.is_empty()).then(|| unit.to_owned());
        Self { name: name.into(), about: about.into(), value, unit, source: source.clone() }
    }
}

macro_rules! limits {
    ($($name:ident: $value:literal $unit:literal, $about:literal, $source:expr;)*) => {
        /// Every limit and table. Read from JSON, what is left out keeps its default.
        #[derive(Debug, Clone, PartialEq, Serialize, Deserialize, TS)]
        #[serde(default, deny_unknown_fields)]
        pub struct Limits {
            $(#[doc = $about] pub $name: Limit,)*
            /// Margin of the cuff over the limb occlusion pressure, in bands.
            pub cuff_margins: Vec<CuffLine>,
            /// Window, dose and redose of antibiotics given to prevent infection.
            pub antibiotics: Vec<AntibioticLine>,
            /// Greatest doses of local anaesthetics.
            pub local_anaesthetics: Vec<LocalAnaestheticLine>,
        }

        impl Default for Limits {
            fn default() -> Self {
                Self {
                    $($name: Limit { value: $value, source: $source },)*
                    cuff_margins: CuffLine::defaults(),
                    antibiotics: AntibioticLine::defaults(),
                    local_anaesthetics: LocalAnaestheticLine::defaults(),
                }
            }
        }

        impl Limits {
            /// One limit as a line, by its name. Nothing where no limit has this name.
            pub fn row(&self, name: &str) -> Option<LimitRow> {
                $(if name == stringify!($name) {
                    return Some(LimitRow::of(name, $about, self.$name.value, $unit, &self.$name.source));
                })*
                None
            }

            /// All limits, the tables' lines included: name, value, unit and source.
            pub fn table(&self) -> Vec<LimitRow> {
                let mut rows: Vec<LimitRow> = [$(stringify!($name)),*].iter().filter_map(|name| self.row(name)).collect();
                rows.extend(self.cuff_margins.iter().flat_map(CuffLine::rows));
                rows.extend(self.antibiotics.iter().flat_map(AntibioticLine::rows));
                rows.extend(self.local_anaesthetics.iter().flat_map(LocalAnaestheticLine::rows));
                rows
            }
        }
    };
}

const PHENOTYPES: Source = Source::from_memory(
    "MacDessi et al., coronal plane alignment of the knee (edges of the bands)",
    2021,
    "Bone Joint J 103-B:329",
);
const SLOPE: Source =
    Source::published("Okazaki et al., posterior tibial slope and the flexion gap", 2014, "Knee 21:806");
const CHEST: Source = Source::published(
    "Falck-Ytter et al. (CHEST, 9th edition), prevention of VTE in orthopedic surgery patients",
    2012,
    "Chest 141(2 Suppl):e278S",
);
const SETTING_TEST: Source = Source::from_memory("ISO 5833, implants for surgery: acrylic resin cements", 2002, "ISO");
const TOURNIQUET: Source = Source::from_memory(
    "Noordin et al., surgical tourniquets in orthopaedics (common practice: two hours, ten minutes between)",
    2009,
    "J Bone Joint Surg Am 91:2958",
);
const CALIPERED: Source =
    Source::published("Howell, calipered kinematically aligned total knee arthroplasty", 2019, "Orthopedics 42:126");
const EVEN: Source = Source::published(
    "Clark et al., functional alignment and balance before release (balanced: within 2 mm of equality)",
    2023,
    "Knee Surg Sports Traumatol Arthrosc 31:1420",
);
const SEVERE: Source = Source::remembered("Severe sagittal imbalance above 4 mm in published series");
const LAXITY: Source = Source::common_practice("Some residual laxity is wanted, neither none nor excess");

limits! {
    ahka_neutral_deg: 2.0 "°", "arithmetic HKA is neutral up to this far either side of 0", PHENOTYPES;
    jlo_neutral_deg: 3.0 "°", "joint-line obliquity is neutral up to this far either side of 180", PHENOTYPES;
    neighbour_deg: 1.0 "°", "a phenotype is named beside its neighbour up to this far from an edge",
        Source::common_practice("Angles on a long film repeat to about a degree");
    kerf_mm: 1.0 "mm", "width of the saw cut", CALIPERED;
    cartilage_worn_mm: 2.0 "mm", "cartilage worn where bone is bare", CALIPERED;
    cut_tolerance_mm: 0.5 "mm", "a cut agrees with its target up to this far either way", CALIPERED;
    patella_residual_mm: 12.0 "mm", "a residual patella under this is flagged",
        Source::common_practice("A rule of 12 mm; Koh et al., J Arthroplasty 2002;17:56, found no worse outcome under it");
    gap_even_mm: 2.0 "mm", "two gaps are even up to this difference", EVEN;
    gap_severe_mm: 4.0 "mm", "flexion and extension differ severely above this", SEVERE;
    target_laxity_mm: 1.5 "mm", "target laxity of each corner", LAXITY;
    target_tolerance_mm: 0.5 "mm", "a space is even up to this far from the target laxity", LAXITY;
    slope_retaining_mm: 2.0 "mm per 5°", "flexion gap for each 5° of slope, cruciate retaining", SLOPE;
    slope_stabilised_mm: 1.0 "mm per 5°", "flexion gap for each 5° of slope, posterior stabilised", SLOPE;
    antibiotic_window_min: 60.0 "min", "an antibiotic is started at most this long before the incision, where its own line says nothing else",
        Source::published("Bratzler et al. (ASHP, IDSA, SIS, SHEA), antimicrobial prophylaxis in surgery", 2013, "Am J Health Syst Pharm 70:195");
    tourniquet_total_min: 120.0 "min", "time under tourniquet above this is flagged", TOURNIQUET;
    tourniquet_gap_min: 10.0 "min", "a pause between inflations under this is flagged", TOURNIQUET;
    tranexamic_total_mg: 3000.0 "mg", "tranexamic acid, all routes together",
        Source::published("NICE NG157, joint replacement (primary): hip, knee and shoulder", 2020, "recommendation on tranexamic acid");
    cement_setting_least_min: 3.0 "min", "shortest setting time in the test at 23 °C", SETTING_TEST;
    cement_setting_most_min: 15.0 "min", "longest setting time in the test at 23 °C", SETTING_TEST;
    cement_hard_min: 10.0 "min", "about the time from mixing to hard in theatre",
        Source::common_practice("About ten minutes from mixing to hard in theatre");
    cement_theatre_c: 23.0 "°C", "temperature of the setting test", SETTING_TEST;
    vte_least_days: 10.0 "days", "shortest course named", CHEST;
    vte_first_span_days: 14.0 "days", "upper end of the shortest course named", CHEST;
    vte_most_days: 35.0 "days", "longest course named", CHEST;
    red_cell_unit_g: 52.0 "g", "haemoglobin in one unit of red cells",
        Source::published("Good et al., tranexamic acid and blood loss in knee replacement", 2003, "Br J Anaesth 90:596");
    oxford_group_change: 9.0 "", "smallest change of the Oxford Knee Score that matters between groups",
        Source::published("Beard et al., meaningful changes for the Oxford hip and knee scores", 2015, "J Clin Epidemiol 68:73");
    oxford_individual_change: 7.0 "", "smallest change of the Oxford Knee Score that matters for one person",
        Source::published("Beard et al., meaningful changes for the Oxford hip and knee scores", 2015, "J Clin Epidemiol 68:73");
}

impl Limits {
    /// Reads limits from JSON; what is left out keeps its default.
    pub fn read(json: &str) -> Result<Self, Refusal> {
        let limits: Self = serde_json::from_str(json)
            .map_err(|error| Refusal::of("", format!("The limits cannot be read: {error}.")))?;
        limits.check()?;
        Ok(limits)
    }

    /// Refuses numbers that can be no limit (negative or not finite) and drugs that stand in a table twice.
    pub fn check(&self) -> Result<(), Refusal> {
        let no_limits = self.table().into_iter().filter(|row| !row.value.is_finite() || row.value < 0.0);
        let mut problems: Vec<Problem> = no_limits
            .map(|row| Problem {
                input: row.name,
                message: format!("a limit must be a finite number, zero or more (got {}).", row.value),
            })
            .collect();
        let mut twice = |table: &str, drugs: Vec<String>| {
            let repeated = drugs.iter().enumerate().filter(|(index, drug)| drugs[..*index].contains(drug));
            problems.extend(repeated.map(|(_, drug)| Problem {
                input: table.into(),
                message: format!("{drug} stands in this table twice; keep one line."),
            }));
        };
        twice("antibiotics", self.antibiotics.iter().map(|line| line.drug.to_lowercase()).collect());
        twice("local_anaesthetics", self.local_anaesthetics.iter().map(LocalAnaestheticLine::words).collect());
        if problems.is_empty() { Ok(()) } else { Err(Refusal { problems }) }
    }

    /// Finds the antibiotic that a text names, such as `Cefazolin 2 g`. Nothing where it names none of the table, or
    /// more than one.
    pub fn antibiotic(&self, text: &str) -> Option<&AntibioticLine> {
        let mut named = self.antibiotics.iter().filter(|line| names(text, &line.drug));
        named.next().filter(|_| named.next().is_none())
    }

    /// Finds the local anaesthetic that a text names, with or without adrenaline.
    pub fn local_anaesthetic(&self, text: &str, with_adrenaline: bool) -> Option<&LocalAnaestheticLine> {
        let lines = self.local_anaesthetics.iter().filter(|line| line.with_adrenaline == with_adrenaline);
        let mut named = lines.filter(|line| names(text, &line.drug));
        named.next().filter(|_| named.next().is_none())
    }

    /// The named limits as lines, for an answer to carry.
    pub(crate) fn rows(&self, names: &[&str]) -> Vec<LimitRow> {
        names.iter().filter_map(|name| self.row(name)).collect()
    }
}

/// The name of today for a drug's former British name.
fn today(word: &str) -> &str {
    match word {
        "cephazolin" => "cefazolin",
        "cephuroxime" => "cefuroxime",
        "lignocaine" => "lidocaine",
        word => word,
    }
}

/// Tells whether a text holds the name of the drug as whole words, whatever the case. A near name is another drug.
fn names(text: &str, drug: &str) -> bool {
    let words = |text: &str| {
        let parts = text.split(|letter: char| !letter.is_alphabetic()).filter(|word| !word.is_empty());
        parts.fold(" ".to_owned(), |words, word| words + today(&word.to_lowercase()) + " ")
    };
    let drug = words(drug);
    drug != " " && words(text).contains(&drug)
}
