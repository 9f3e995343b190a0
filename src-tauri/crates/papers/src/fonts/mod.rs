//! Source Sans 3 in four styles, parsed and subset once and then shared by every paper.
//!
//! Shaping always uses the whole font. For the file each style is cut into eight parts (western
//! Latin, other Latin, Vietnamese, Greek, Cyrillic, signs; see `cover`), each compressed once. A paper
//! embeds only the parts that it uses, byte for byte as they lie here: writing a font costs a copy.

mod cover;
mod part;

use std::sync::Mutex;

use lopdf::Dictionary;
use rustybuzz::{Direction, Face, Feature, GlyphBuffer, Script, ShapePlan, UnicodeBuffer};
use thiserror::Error;

pub(crate) use part::Part;

use crate::pdf::Words;

static REGULAR: &[u8] = include_bytes!("../../fonts/SourceSans3-Regular.ttf");
static ITALIC: &[u8] = include_bytes!("../../fonts/SourceSans3-It.ttf");
static SEMIBOLD: &[u8] = include_bytes!("../../fonts/SourceSans3-Semibold.ttf");
static SEMIBOLD_ITALIC: &[u8] = include_bytes!("../../fonts/SourceSans3-SemiboldIt.ttf");

/// Says why the built-in fonts could not be prepared; a broken build, never a broken paper.
#[derive(Debug, Error)]
pub enum FontError {
    /// The font file is not readable.
    #[error("the built-in font {0} is damaged; install the program again")]
    Damaged(&'static str),
}

/// Names a style.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, PartialOrd, Ord)]
pub(crate) enum Style {
    #[default]
    Regular,
    Italic,
    Semibold,
    SemiboldItalic,
}

impl Style {
    /// Chooses the style for a run of text.
    pub(crate) fn of(strong: bool, emphasis: bool) -> Self {
        match (strong, emphasis) {
            (false, false) => Self::Regular,
            (false, true) => Self::Italic,
            (true, false) => Self::Semibold,
            (true, true) => Self::SemiboldItalic,
        }
    }
}

/// Names one of the embedded parts of one style; also an index.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct PartId(u8);

impl PartId {
    /// Returns the name under which pages speak of this part.
    pub(crate) fn resource(self) -> String {
        format!("T{}", self.0)
    }
}

/// Where a glyph of the whole font lies in its embedded part.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Placed {
    pub part: PartId,
    /// Glyph number inside the part.
    pub cid: u16,
    /// Width in thousandths of the font size, as the file declares it.
    pub width: i16,
    /// Character that the file says this glyph means.
    pub means: char,
}

/// Holds the built-in fonts, ready for any number of papers; make it once.
pub struct Fonts {
    styles: [Prepared; 4],
    parts: Vec<Part>,
    /// Words of earlier papers, lent to the one being written.
    words: Mutex<Words>,
}

/// One style: its shaper and where each glyph lies.
pub(crate) struct Prepared {
    face: Face<'static>,
    /// Shape plans for Latin, Greek, Cyrillic and everything else.
    plans: [ShapePlan; 4],
    placed: Vec<Option<Placed>>,
}

impl Fonts {
    /// Parses the built-in fonts; a part is cut and compressed when the first paper needs it.
    ///
    /// # Errors
    /// [`FontError::Damaged`] if a font file inside the program is not readable.
    pub fn built_in() -> Result<Self, FontError> {
        let mut parts = Vec::new();
        let styles = [
            Prepared::new("SourceSans3-Regular", REGULAR, &mut parts)?,
            Prepared::new("SourceSans3-It", ITALIC, &mut parts)?,
            Prepared::new("SourceSans3-Semibold", SEMIBOLD, &mut parts)?,
            Prepared::new("SourceSans3-SemiboldIt", SEMIBOLD_ITALIC, &mut parts)?,
        ];
        Ok(Self { styles, parts, words: Mutex::default() })
    }

    /// Forgets the words of earlier papers, names among them; for when a notebook is closed.
    pub fn forget(&self) {
        drop(self.words());
    }

    /// Lends the words of earlier papers; a paper written at the same time begins without any.
    pub(crate) fn words(&self) -> Words {
        self.words.lock().map(|mut words| std::mem::take(&mut *words)).unwrap_or_default()
    }

    /// Takes lent words back, unless another paper brought more.
    pub(crate) fn remember(&self, words: Words) {
        if let Ok(mut kept) = self.words.lock()
            && kept.count() < words.count()
        {
            *kept = words;
        }
    }

    pub(crate) fn style(&self, style: Style) -> &Prepared {
        &self.styles[style as usize]
    }

    /// Returns what a file needs to embed a part.
    pub(crate) fn part(&self, id: PartId) -> &Part {
        &self.parts[id.0 as usize]
    }
}

impl std::fmt::Debug for Fonts {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Fonts").finish_non_exhaustive()
    }
}

impl Prepared {
    fn new(name: &'static str, data: &'static [u8], parts: &mut Vec<Part>) -> Result<Self, FontError> {
        let face = Face::from_slice(data, 0).ok_or(FontError::Damaged(name))?;
        let mut placed = vec![None; usize::from(face.number_of_glyphs())];
        for (label, chars) in cover::parts(&face) {
            let id = PartId(u8::try_from(parts.len()).unwrap_or(u8::MAX));
            parts.push(Part::cut(name, label, data, &face, &chars, id, &mut placed));
        }
        let plan = |script| ShapePlan::new(&face, Direction::LeftToRight, Some(script), None, &features());
        let plans = [
            plan(rustybuzz::script::LATIN),
            plan(rustybuzz::script::GREEK),
            plan(rustybuzz::script::CYRILLIC),
            plan(rustybuzz::script::UNKNOWN),
        ];
        Ok(Self { face, plans, placed })
    }

    /// Shapes text of one script; clusters are byte offsets into `text`.
    pub(crate) fn shape(&self, text: &str, script: Writing, mut buffer: UnicodeBuffer) -> GlyphBuffer {
        buffer.push_str(text);
        buffer.set_direction(Direction::LeftToRight);
        buffer.set_script(script.tag());
        rustybuzz::shape_with_plan(&self.face, &self.plans[script as usize], buffer)
    }

    /// Tells whether the font draws a character.
    pub(crate) fn has(&self, c: char) -> bool {
        self.drawn(c).is_some()
    }

    /// Returns the glyph that draws a character.
    pub(crate) fn drawn(&self, c: char) -> Option<Placed> {
        self.face.glyph_index(c).and_then(|glyph| self.placed(glyph.0))
    }

    pub(crate) fn placed(&self, glyph: u16) -> Option<Placed> {
        self.placed.get(usize::from(glyph)).copied().flatten()
    }

    pub(crate) fn units_per_em(&self) -> f32 {
        self.face.units_per_em() as f32
    }

    pub(crate) fn face(&self) -> &Face<'static> {
        &self.face
    }
}

/// Names the scripts that have their own rules of shaping in the font.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Writing {
    Latin,
    Greek,
    Cyrillic,
    Other,
}

impl Writing {
    /// Returns the script of a letter; nothing for digits, signs and marks, which join any script.
    pub(crate) fn of(c: char) -> Option<Self> {
        match u32::from(c) {
            0x41..=0x5a | 0x61..=0x7a | 0xaa | 0xba | 0xc0..=0xd6 | 0xd8..=0xf6 => Some(Self::Latin),
            0xf8..=0x2af | 0x1e00..=0x1eff | 0x2c60..=0x2c7f | 0xa720..=0xa7ff => Some(Self::Latin),
            0x370..=0x3ff | 0x1f00..=0x1fff => Some(Self::Greek),
            0x400..=0x52f | 0x1c80..=0x1c8f | 0x2de0..=0x2dff | 0xa640..=0xa69f => Some(Self::Cyrillic),
            0x530..=0x1aaf | 0x2e80..=0xa63f | 0xa800..=0xfdff | 0x10000.. => Some(Self::Other),
            _ => None,
        }
    }

    fn tag(self) -> Script {
        match self {
            Self::Latin => rustybuzz::script::LATIN,
            Self::Greek => rustybuzz::script::GREEK,
            Self::Cyrillic => rustybuzz::script::CYRILLIC,
            Self::Other => rustybuzz::script::UNKNOWN,
        }
    }
}

/// Ligatures and alternates stay off: a reference number must be read letter by letter, and every
/// glyph must mean one character when text is taken out of the file again.
fn features() -> Vec<Feature> {
    [b"liga", b"clig", b"calt", b"locl", b"rlig"]
        .into_iter()
        .map(|tag| Feature::new(rustybuzz::ttf_parser::Tag::from_bytes(tag), 0, ..))
        .collect()
}

/// Adds the parts used to a file and returns the dictionary in which its pages look for them.
pub(crate) fn embed(
    fonts: &Fonts,
    used: impl IntoIterator<Item = PartId>,
    file: &mut lopdf::Document,
) -> Result<Dictionary, FontError> {
    let mut resources = Dictionary::new();
    for id in used {
        let reference = fonts.part(id).embed(file)?;
        resources.set(id.resource(), reference);
    }
    Ok(resources)
}
