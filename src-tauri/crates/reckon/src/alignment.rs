//! Constitutional coronal alignment from the two bone angles, the nine phenotypes, and the height of a wedge.
//! States the phenotype and how near its edges lie; says nothing about what to aim for.

use crate::given::Given;
use crate::number::tenth;
use crate::{Answer, Degrees, Input, Limits, Reckoning, Refusal, Source, Width};

/// The angles of the limb.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Angles {
    /// Lateral distal femoral angle.
    pub ldfa: Degrees,
    /// Medial proximal tibial angle.
    pub mpta: Degrees,
    /// Joint-line convergence angle, varus positive.
    pub jlca: Option<Degrees>,
}

/// Where the arithmetic HKA lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Coronal {
    /// Below the neutral band.
    Varus,
    /// Within the neutral band, its edges included.
    Neutral,
    /// Above the neutral band.
    Valgus,
}

/// Where the joint line lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JointLine {
    /// Its apex points away from the hip.
    ApexDistal,
    /// Level within the neutral band, its edges included.
    Neutral,
    /// Its apex points to the hip.
    ApexProximal,
}

/// One of the nine phenotypes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Phenotype {
    /// Varus, neutral or valgus.
    pub coronal: Coronal,
    /// Apex distal, neutral or apex proximal.
    pub joint_line: JointLine,
}

impl Phenotype {
    /// The number of the phenotype, I to IX.
    pub const fn numeral(self) -> &'static str {
        const NUMERALS: [&str; 9] = ["I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX"];
        NUMERALS[self.joint_line as usize * 3 + self.coronal as usize]
    }

    /// The phenotype in words.
    pub fn words(self) -> String {
        let coronal = match self.coronal {
            Coronal::Varus => "varus",
            Coronal::Neutral => "neutral",
            Coronal::Valgus => "valgus",
        };
        let joint_line = match self.joint_line {
            JointLine::ApexDistal => "apex distal",
            JointLine::Neutral => "neutral",
            JointLine::ApexProximal => "apex proximal",
        };
        format!("{} ({coronal}, joint line {joint_line})", self.numeral())
    }
}

/// What follows from the angles; degrees.
#[derive(Debug, Clone, PartialEq)]
pub struct Alignment {
    /// MPTA − LDFA; varus negative.
    pub ahka: f64,
    /// MPTA + LDFA.
    pub jlo: f64,
    /// aHKA − JLCA, where JLCA is known; varus negative.
    pub mhka_deviation: Option<f64>,
    /// 180 + the deviation; varus under 180.
    pub hka: Option<f64>,
    /// The phenotype.
    pub phenotype: Phenotype,
    /// The phenotypes across every edge that lies near; empty where none does.
    pub neighbours: Vec<Phenotype>,
}

/// Computes alignment and phenotype. The angles are rounded to 0.1° before they are held against an edge.
pub fn reckon(angles: &Angles, limits: &Limits) -> Alignment {
    let ahka = angles.mpta.get() - angles.ldfa.get();
    let jlo = angles.mpta.get() + angles.ldfa.get();
    let deviation = angles.jlca.map(|jlca| ahka - jlca.get());
    let (coronal, coronal_near) = band(tenth(ahka), limits.ahka_neutral_deg.value, limits.neighbour_deg.value);
    let (line, line_near) = band(tenth(jlo - 180.0), limits.jlo_neutral_deg.value, limits.neighbour_deg.value);
    let all = [coronal].into_iter().chain(coronal_near);
    let neighbours = all
        .flat_map(|coronal| [line].into_iter().chain(line_near).map(move |line| phenotype(coronal, line)))
        .skip(1)
        .collect();
    Alignment {
        ahka,
        jlo,
        mhka_deviation: deviation,
        hka: deviation.map(|deviation| 180.0 + deviation),
        phenotype: phenotype(coronal, line),
        neighbours,
    }
}

/// Computes the height of a wedge in mm: width × tan(angle). The angle must lie within ±89°.
pub fn wedge_height(width: Width, angle: Degrees) -> Result<f64, Refusal> {
    if angle.get().abs() > 89.0 {
        let message = format!("a wedge lies between -89 and 89° (got {}).", angle.get());
        return Err(Refusal::of("wedge_angle_deg", message));
    }
    Ok(width.get() * angle.get().to_radians().tan())
}

/// Below, within or above a band (-1, 0, 1), and the nearest band across an edge that lies near.
fn band(value: f64, half: f64, near: f64) -> (i8, Option<i8>) {
    let place = if value < -half {
        -1
    } else if value > half {
        1
    } else {
        0
    };
    let lower_near = tenth((value + half).abs()) <= near;
    let upper_near = tenth((value - half).abs()) <= near;
    let neighbour = match place {
        0 if lower_near => Some(-1),
        0 if upper_near => Some(1),
        -1 if lower_near => Some(0),
        1 if upper_near => Some(0),
        _ => None,
    };
    (place, neighbour)
}

fn phenotype(coronal: i8, line: i8) -> Phenotype {
    Phenotype {
        coronal: match coronal {
            -1 => Coronal::Varus,
            0 => Coronal::Neutral,
            _ => Coronal::Valgus,
        },
        joint_line: match line {
            -1 => JointLine::ApexDistal,
            0 => JointLine::Neutral,
            _ => JointLine::ApexProximal,
        },
    }
}

/// The reckoning as data.
pub const RECKONING: Reckoning = Reckoning {
    name: "alignment",
    title: "Alignment and phenotype",
    formula: "aHKA = MPTA − LDFA; JLO = MPTA + LDFA; mHKA deviation = aHKA − JLCA; HKA = 180 + mHKA deviation; \
              wedge height = width × tan(angle)",
    inputs: &[
        Input::required("ldfa_deg", "°", "lateral distal femoral angle"),
        Input::required("mpta_deg", "°", "medial proximal tibial angle"),
        Input::optional("jlca_deg", "°", "joint-line convergence angle, varus positive"),
        Input::optional("wedge_width_mm", "mm", "width of the bone at the wedge"),
        Input::optional("wedge_angle_deg", "°", "angle of the wedge"),
    ],
    sources: &[Source::published(
        "MacDessi et al., coronal plane alignment of the knee",
        2021,
        "Bone Joint J 103-B:329",
    )],
    answer,
};

fn answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let (ldfa, mpta) = (given.take("ldfa_deg"), given.take("mpta_deg"));
    let jlca = given.take("jlca_deg");
    let (width, angle) = (given.take("wedge_width_mm"), given.take("wedge_angle_deg"));
    let wedge = match (width, angle) {
        (Some(width), Some(angle)) => Some(wedge_height(width, angle)?),
        _ => None,
    };
    let (Some(ldfa), Some(mpta)) = (ldfa, mpta) else {
        // A wedge alone is an answer too.
        let mut answer = given.needs();
        if let Some(height) = wedge {
            answer.number("wedge_height_mm", height, "mm");
        }
        return Ok(answer);
    };
    let found = reckon(&Angles { ldfa, mpta, jlca }, limits);

    let mut answer = Answer::of(&RECKONING);
    answer.number("ahka_deg", found.ahka, "°");
    answer.number("jlo_deg", found.jlo, "°");
    answer.number_or("mhka_deviation_deg", found.mhka_deviation, "°", &["jlca_deg"]);
    answer.number_or("hka_deg", found.hka, "°", &["jlca_deg"]);
    answer.text("phenotype", found.phenotype.numeral());
    answer.text("phenotype_words", found.phenotype.words());
    let near: Vec<&str> = found.neighbours.iter().map(|neighbour| neighbour.numeral()).collect();
    answer.push("neighbours", near.into(), "");
    if let Some(height) = wedge {
        answer.number("wedge_height_mm", height, "mm");
    }
    answer.limits = limits.rows(&["ahka_neutral_deg", "jlo_neutral_deg", "neighbour_deg"]);
    answer.note("Varus is negative in aHKA and in the mHKA deviation, positive in JLCA.");
    answer.note("Rounded to 0.1° before comparing with an edge; an edge itself counts as neutral.");
    if !found.neighbours.is_empty() {
        answer.note("Lies within a degree of an edge: the neighbouring phenotypes are named too.");
    }
    Ok(answer)
}
