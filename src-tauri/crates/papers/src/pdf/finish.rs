//! The drawn file made complete: fonts, colours, properties, language, structure, outline, and an
//! identity that follows from the content, so that the same paper is the same bytes.

use lopdf::{Dictionary, Document as File, Object, ObjectId, Stream, StringFormat, dictionary};

use crate::document::Document;
use crate::fonts::{self, Fonts, PartId};

use super::PdfError;
use super::save::{Packer, save};
use super::srgb;
use super::structure::{self, Structured};
use super::xmp::Properties;

/// Longest text in UTF-16 units that PDF/A lets a file hold in one string.
pub(super) const LONGEST_TEXT: usize = 16_000;

/// A heading and where it stands; `top` is the file's y in points.
pub(super) struct Entry {
    pub level: u8,
    pub title: String,
    pub page: usize,
    pub top: f32,
}

/// Completes `file` and returns its bytes.
pub(super) fn finish(
    mut file: File,
    document: &Document,
    fonts: &Fonts,
    used: impl IntoIterator<Item = PartId>,
    entries: &[Entry],
    papers: &[Structured],
) -> Result<Vec<u8>, PdfError> {
    file.version = "1.7".to_owned();
    let pages: Vec<ObjectId> = file.get_pages().into_values().collect();
    let resources = fonts::embed(fonts, used, &mut file)?;
    give_fonts(&mut file, &pages, resources)?;
    let mut packer = Packer::new();
    let identity = compress_pages(&mut file, &pages, document, &mut packer)?;
    let outline = outline(&mut file, &pages, entries);
    let elements = structure::write(&mut file, &pages, papers)?;
    let properties = Properties::of(document, papers);
    let metadata = file.add_object(properties.metadata());
    let colours = colours(&mut file, &mut packer)?;
    let catalog = file.catalog_mut()?;
    catalog.set("Lang", text(&document.language));
    catalog.set("Metadata", metadata);
    catalog.set("OutputIntents", vec![colours.into()]);
    catalog.set("ViewerPreferences", dictionary! { "DisplayDocTitle" => true });
    if let Some(outline) = outline {
        catalog.set("Outlines", outline);
    }
    let info = file.add_object(properties.information());
    if let Ok(Object::Reference(drawn)) = file.trailer.get(b"Info").cloned() {
        file.objects.remove(&drawn);
    }
    file.trailer.set("Info", info);
    let id = Object::String(identity.to_vec(), StringFormat::Hexadecimal);
    file.trailer.set("ID", vec![id.clone(), id]);
    Ok(save(&file, elements, &mut packer)?)
}

/// Adds what the numbers of the pages' colours mean.
fn colours(file: &mut File, packer: &mut Packer) -> Result<Dictionary, PdfError> {
    let mut profile = Stream::new(dictionary! { "N" => 3 }, srgb::profile());
    compress(&mut profile, packer)?;
    let profile = file.add_object(profile);
    Ok(dictionary! {
        "Type" => "OutputIntent",
        "S" => "GTS_PDFA1",
        "OutputConditionIdentifier" => Object::string_literal(srgb::NAME),
        "Info" => Object::string_literal(srgb::NAME),
        "DestOutputProfile" => profile,
    })
}

/// Puts the fonts where the pages look for them: one dictionary that all of them share.
fn give_fonts(file: &mut File, pages: &[ObjectId], fonts: Dictionary) -> Result<(), PdfError> {
    let Some(first) = pages.first() else {
        return Ok(());
    };
    let resources = file.get_dictionary(*first)?.get(b"Resources")?.as_reference()?;
    let shared = file.get_dictionary(resources)?.get(b"Font")?.as_reference()?;
    file.set_object(shared, fonts);
    Ok(())
}

/// Compresses what was drawn and returns a number that follows from all of it.
fn compress_pages(
    file: &mut File,
    pages: &[ObjectId],
    document: &Document,
    packer: &mut Packer,
) -> Result<[u8; 16], PdfError> {
    let mut hash = Fingerprint::new();
    for words in [&document.title, &document.author, &document.subject] {
        hash.add(words.as_bytes());
    }
    hash.add(document.made_at.to_string().as_bytes());
    for page in pages {
        let dictionary = file.get_dictionary_mut(*page)?;
        dictionary.remove(b"Annots");
        let content = dictionary.get(b"Contents")?.as_reference()?;
        if let Object::Stream(stream) = file.get_object_mut(content)? {
            hash.add(&stream.content);
            compress(stream, packer)?;
        }
    }
    // Outlines across the page are the only other streams that printpdf wrote.
    for object in file.objects.values_mut() {
        if let Object::Stream(stream) = object
            && !stream.dict.has(b"Filter")
        {
            compress(stream, packer)?;
        }
    }
    Ok(hash.finish())
}

/// Compresses a stream once.
fn compress(stream: &mut Stream, packer: &mut Packer) -> Result<(), PdfError> {
    let packed = packer.pack(&stream.content)?;
    stream.set_content(packed);
    stream.dict.set("Filter", "FlateDecode");
    Ok(())
}

/// Adds the tree of headings; nothing if there are none.
fn outline(file: &mut File, pages: &[ObjectId], entries: &[Entry]) -> Option<ObjectId> {
    if entries.is_empty() {
        return None;
    }
    let root = file.new_object_id();
    let ids: Vec<ObjectId> = entries.iter().map(|_| file.new_object_id()).collect();
    // The parent is the nearest heading before it of a higher level; a file of a thousand papers has
    // many, so each is looked at once.
    let mut open: Vec<usize> = Vec::new();
    let mut parents: Vec<Option<usize>> = Vec::with_capacity(entries.len());
    let mut children: Vec<Vec<usize>> = vec![Vec::new(); entries.len()];
    let mut roots: Vec<usize> = Vec::new();
    let mut before: Vec<Option<usize>> = Vec::with_capacity(entries.len());
    for (n, entry) in entries.iter().enumerate() {
        while open.last().is_some_and(|&m| entries[m].level >= entry.level) {
            open.pop();
        }
        let parent = open.last().copied();
        let siblings = parent.map_or(&mut roots, |parent| &mut children[parent]);
        before.push(siblings.last().copied());
        siblings.push(n);
        parents.push(parent);
        open.push(n);
    }
    let mut after: Vec<Option<usize>> = vec![None; entries.len()];
    for (n, previous) in before.iter().enumerate() {
        if let Some(previous) = previous {
            after[*previous] = Some(n);
        }
    }
    // How many entries unfold below each one. A paper among several is folded up.
    let mut below = vec![0_i64; entries.len()];
    for n in (0..entries.len()).rev() {
        if let Some(parent) = parents[n] {
            below[parent] += 1 + below[n];
        }
    }
    for (n, entry) in entries.iter().enumerate() {
        let mut item = dictionary! {
            "Title" => text(&entry.title),
            "Parent" => parents[n].map_or(root, |parent| ids[parent]),
        };
        if let Some(page) = pages.get(entry.page) {
            item.set(
                "Dest",
                vec![Object::Reference(*page), "XYZ".into(), Object::Null, Object::Real(entry.top), Object::Null],
            );
        }
        if let Some(previous) = before[n] {
            item.set("Prev", ids[previous]);
        }
        if let Some(next) = after[n] {
            item.set("Next", ids[next]);
        }
        let count = if entry.level == 0 { -below[n] } else { below[n] };
        family(&mut item, &children[n], count, &ids);
        file.set_object(ids[n], item);
    }
    let mut tree = dictionary! { "Type" => "Outlines" };
    let shown = roots.iter().map(|&n| if entries[n].level == 0 { 1 } else { 1 + below[n] }).sum();
    family(&mut tree, &roots, shown, &ids);
    file.set_object(root, tree);
    Some(root)
}

fn family(item: &mut Dictionary, children: &[usize], count: i64, ids: &[ObjectId]) {
    if let (Some(first), Some(last)) = (children.first(), children.last()) {
        item.set("First", ids[*first]);
        item.set("Last", ids[*last]);
        item.set("Count", count);
    }
}

/// Makes a text string that any reader shows in full: plain, or UTF-16 with its mark.
pub(super) fn text(words: &str) -> Object {
    if words.len() <= LONGEST_TEXT && words.bytes().all(|byte| matches!(byte, b' '..=b'~')) {
        return Object::string_literal(words);
    }
    let mut bytes = vec![0xfe, 0xff];
    bytes.extend(words.encode_utf16().take(LONGEST_TEXT).flat_map(u16::to_be_bytes));
    Object::String(bytes, StringFormat::Hexadecimal)
}

/// Two 64-bit FNV-1a sums with different starts: tells papers apart, keeps no secret.
struct Fingerprint([u64; 2]);

impl Fingerprint {
    fn new() -> Self {
        Self([0xcbf2_9ce4_8422_2325, 0x8422_2325_cbf2_9ce4])
    }

    fn add(&mut self, bytes: &[u8]) {
        // The length goes in too, so that moving a letter from one part to the next shows.
        let length = (bytes.len() as u64).to_le_bytes();
        for byte in length.iter().chain(bytes) {
            for sum in &mut self.0 {
                *sum = (*sum ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3);
            }
        }
    }

    fn finish(self) -> [u8; 16] {
        let mut out = [0; 16];
        out[..8].copy_from_slice(&self.0[0].to_be_bytes());
        out[8..].copy_from_slice(&self.0[1].to_be_bytes());
        out
    }
}
