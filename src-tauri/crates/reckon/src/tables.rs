//! The limits that come as tables: one line per drug or band, each with its source. A line without a number says that
//! nobody with authority has filled it; nothing is computed from it.

use serde::{Deserialize, Serialize};
use ts_rs::TS;

use crate::{LimitRow, Source};

/// One band of limb occlusion pressure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, TS)]
#[serde(deny_unknown_fields)]
pub struct CuffLine {
    /// The band reaches up to and including this occlusion pressure; the last band has no end.
    pub up_to_mmhg: Option<f64>,
    /// Added to the occlusion pressure.
    pub margin_mmhg: f64,
    /// Who says so.
    pub source: Source,
}

impl CuffLine {
    pub(crate) fn defaults() -> Vec<Self> {
        let source =
            Source::from_memory("AORN margins as quoted by Noordin et al.", 2009, "J Bone Joint Surg Am 91:2958");
        // Occlusion pressures are whole mmHg: below 130 is up to 129.
        [(Some(129.0), 40.0), (Some(190.0), 60.0), (None, 80.0)]
            .map(|(up_to_mmhg, margin_mmhg)| Self { up_to_mmhg, margin_mmhg, source: source.clone() })
            .into()
    }

    pub(crate) fn rows(&self) -> Vec<LimitRow> {
        let about = match self.up_to_mmhg {
            Some(up_to) => format!("margin for an occlusion pressure up to {up_to} mmHg"),
            None => "margin for any higher occlusion pressure".into(),
        };
        vec![LimitRow::of("cuff_margins", about, self.margin_mmhg, "mmHg", &self.source)]
    }
}

/// Window, dose and redose of one antibiotic.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, TS)]
#[serde(deny_unknown_fields)]
pub struct AntibioticLine {
    /// Name of the drug, lower case.
    pub drug: String,
    /// Started within this many minutes before the incision.
    pub window_min: f64,
    /// Usual dose.
    #[serde(default)]
    pub dose_mg: Option<f64>,
    /// Usual dose by weight, where it goes by weight.
    #[serde(default)]
    pub dose_mg_per_kg: Option<f64>,
    /// From this weight on ...
    #[serde(default)]
    pub heavy_from_kg: Option<f64>,
    /// ... the dose is this.
    #[serde(default)]
    pub heavy_dose_mg: Option<f64>,
    /// Redosing interval, counted from the start of the dose before the operation; none where it is not redosed.
    #[serde(default)]
    pub redose_min: Option<f64>,
    /// Who says so.
    pub source: Source,
}

const SURGICAL_PROPHYLAXIS: Source = Source::published(
    "Bratzler et al. (ASHP, IDSA, SIS, SHEA), antimicrobial prophylaxis in surgery",
    2013,
    "Am J Health Syst Pharm 70:195, table 1",
);

impl AntibioticLine {
    fn of(drug: &str, window_min: f64, dose_mg: Option<f64>, redose_min: Option<f64>) -> Self {
        Self {
            drug: drug.into(),
            window_min,
            dose_mg,
            dose_mg_per_kg: None,
            heavy_from_kg: None,
            heavy_dose_mg: None,
            redose_min,
            source: SURGICAL_PROPHYLAXIS,
        }
    }

    pub(crate) fn defaults() -> Vec<Self> {
        let mut cefazolin = Self::of("cefazolin", 60.0, Some(2000.0), Some(240.0));
        cefazolin.heavy_from_kg = Some(120.0);
        cefazolin.heavy_dose_mg = Some(3000.0);
        let mut vancomycin = Self::of("vancomycin", 120.0, None, None);
        vancomycin.dose_mg_per_kg = Some(15.0);
        vec![
            cefazolin,
            Self::of("cefuroxime", 60.0, Some(1500.0), Some(240.0)),
            Self::of("clindamycin", 60.0, Some(900.0), Some(360.0)),
            vancomycin,
            Self::of("ciprofloxacin", 120.0, Some(400.0), None),
            Self::of("levofloxacin", 120.0, Some(500.0), None),
            Self::of("moxifloxacin", 120.0, Some(400.0), None),
        ]
    }

    pub(crate) fn rows(&self) -> Vec<LimitRow> {
        let Self { drug, source, .. } = self;
        let mut rows = vec![("started at most this long before the incision".to_owned(), Some(self.window_min), "min")];
        rows.push(("dose".into(), self.dose_mg, "mg"));
        rows.push(("dose by weight".into(), self.dose_mg_per_kg, "mg/kg"));
        let from = self.heavy_from_kg.map_or_else(String::new, |kg| format!(" from {kg} kg"));
        rows.push((format!("dose{from}"), self.heavy_dose_mg, "mg"));
        rows.push(("redosing interval".into(), self.redose_min, "min"));
        rows.into_iter()
            .filter_map(|(about, value, unit)| {
                Some(LimitRow::of("antibiotics", format!("{drug}: {about}"), value?, unit, source))
            })
            .collect()
    }
}

/// Greatest dose of one local anaesthetic.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, TS)]
#[serde(deny_unknown_fields)]
pub struct LocalAnaestheticLine {
    /// Name of the drug, lower case.
    pub drug: String,
    /// The line holds for the drug with adrenaline.
    pub with_adrenaline: bool,
    /// Greatest dose by weight; empty until someone with authority fills it.
    #[serde(default)]
    pub mg_per_kg: Option<f64>,
    /// Greatest dose whatever the weight.
    #[serde(default)]
    pub cap_mg: Option<f64>,
    /// Who says so.
    pub source: Source,
}

impl LocalAnaestheticLine {
    /// Drug and adrenaline in words.
    pub(crate) fn words(&self) -> String {
        let with = if self.with_adrenaline { "with" } else { "without" };
        format!("{} {with} adrenaline", self.drug.to_lowercase())
    }

    pub(crate) fn defaults() -> Vec<Self> {
        let label =
            Source::published_undated("US prescribing information, lidocaine hydrochloride injection", "US FDA label");
        let open = Source::remembered("Not filled: someone with authority states the limit and its source");
        let mut lines = vec![
            Self {
                drug: "lidocaine".into(),
                with_adrenaline: false,
                mg_per_kg: Some(4.5),
                cap_mg: Some(300.0),
                source: label.clone(),
            },
            Self {
                drug: "lidocaine".into(),
                with_adrenaline: true,
                mg_per_kg: Some(7.0),
                cap_mg: Some(500.0),
                source: label,
            },
        ];
        for drug in ["bupivacaine", "levobupivacaine", "ropivacaine", "mepivacaine", "prilocaine"] {
            for with_adrenaline in [false, true] {
                lines.push(Self {
                    drug: drug.into(),
                    with_adrenaline,
                    mg_per_kg: None,
                    cap_mg: None,
                    source: open.clone(),
                });
            }
        }
        lines
    }

    pub(crate) fn rows(&self) -> Vec<LimitRow> {
        let about = format!("{}: greatest dose", self.words());
        let rows = [(self.mg_per_kg, "mg/kg"), (self.cap_mg, "mg")];
        rows.into_iter()
            .filter_map(|(value, unit)| {
                Some(LimitRow::of("local_anaesthetics", about.clone(), value?, unit, &self.source))
            })
            .collect()
    }
}
