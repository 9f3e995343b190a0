//! The drawn file made complete: fonts, properties, language, outline, and an identity that
//! follows from the content, so that the same paper is the same bytes.

use std::io::Write;

use chrono::NaiveDateTime;
use flate2::Compression;
use flate2::write::ZlibEncoder;
use lopdf::{Dictionary, Document as File, Object, ObjectId, Stream, StringFormat, dictionary};

use crate::document::Document;
use crate::fonts::{self, Fonts, PartId};
use crate::html::escape;

use super::PdfError;

const PRODUCER: &str = "Evengap papers";
/// Between 1, fast, and 9, small.
const PAGE_COMPRESSION: u32 = 4;

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
) -> Result<Vec<u8>, PdfError> {
    file.version = "1.7".to_owned();
    let pages: Vec<ObjectId> = file.get_pages().into_values().collect();
    let resources = fonts::embed(fonts, used, &mut file)?;
    give_fonts(&mut file, &pages, resources)?;
    let identity = compress_pages(&mut file, &pages, document)?;
    let outline = outline(&mut file, &pages, entries);
    let metadata = file.add_object(metadata(document));
    let catalog = file.catalog_mut()?;
    catalog.set("Lang", text(&document.language));
    catalog.set("Metadata", metadata);
    catalog.set("ViewerPreferences", dictionary! { "DisplayDocTitle" => true });
    if let Some(outline) = outline {
        catalog.set("Outlines", outline);
    }
    let info = file.add_object(information(document));
    if let Ok(Object::Reference(drawn)) = file.trailer.get(b"Info").cloned() {
        file.objects.remove(&drawn);
    }
    file.trailer.set("Info", info);
    let id = Object::String(identity.to_vec(), StringFormat::Hexadecimal);
    file.trailer.set("ID", vec![id.clone(), id]);
    let mut bytes = Vec::with_capacity(96 * 1024);
    file.save_to(&mut bytes)?;
    Ok(bytes)
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
fn compress_pages(file: &mut File, pages: &[ObjectId], document: &Document) -> Result<[u8; 16], PdfError> {
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
            compress(stream)?;
        }
    }
    // Outlines across the page are the only other streams that printpdf wrote.
    for object in file.objects.values_mut() {
        if let Object::Stream(stream) = object
            && !stream.dict.has(b"Filter")
        {
            compress(stream)?;
        }
    }
    Ok(hash.finish())
}

/// Compresses a stream once. Not with the file library's own setting, the slowest, which takes longer
/// than all the rest of a paper and saves less than a hundredth of its size.
fn compress(stream: &mut Stream) -> Result<(), PdfError> {
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::new(PAGE_COMPRESSION));
    encoder.write_all(&stream.content)?;
    stream.set_content(encoder.finish()?);
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
    // The parent is the nearest heading before it of a higher level.
    let parents: Vec<Option<usize>> =
        (0..entries.len()).map(|n| (0..n).rev().find(|&m| entries[m].level < entries[n].level)).collect();
    let children =
        |parent: Option<usize>| -> Vec<usize> { (0..entries.len()).filter(|&n| parents[n] == parent).collect() };
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
        let siblings = children(parents[n]);
        let place = siblings.iter().position(|&m| m == n).unwrap_or(0);
        if place > 0 {
            item.set("Prev", ids[siblings[place - 1]]);
        }
        if let Some(next) = siblings.get(place + 1) {
            item.set("Next", ids[*next]);
        }
        family(&mut item, &children(Some(n)), &ids);
        file.set_object(ids[n], item);
    }
    let mut tree = dictionary! { "Type" => "Outlines" };
    family(&mut tree, &children(None), &ids);
    tree.set("Count", entries.len() as i64);
    file.set_object(root, tree);
    Some(root)
}

fn family(item: &mut Dictionary, children: &[usize], ids: &[ObjectId]) {
    if let (Some(first), Some(last)) = (children.first(), children.last()) {
        item.set("First", ids[*first]);
        item.set("Last", ids[*last]);
        item.set("Count", children.len() as i64);
    }
}

fn information(document: &Document) -> Dictionary {
    let date = date(document.made_at);
    dictionary! {
        "Title" => text(&document.title),
        "Author" => text(&document.author),
        "Subject" => text(&document.subject),
        "Creator" => text(PRODUCER),
        "Producer" => text(PRODUCER),
        "CreationDate" => Object::string_literal(date.clone()),
        "ModDate" => Object::string_literal(date),
    }
}

/// Says the same properties as XMP, for readers that know nothing else.
fn metadata(document: &Document) -> Stream {
    let date = document.made_at.format("%Y-%m-%dT%H:%M:%S");
    let packet = format!(
        "<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n\
         <x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n\
         <rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" \
         xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\">\n\
         <dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:title>\n\
         <dc:creator><rdf:Seq><rdf:li>{}</rdf:li></rdf:Seq></dc:creator>\n\
         <dc:description><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:description>\n\
         <dc:language><rdf:Bag><rdf:li>{}</rdf:li></rdf:Bag></dc:language>\n\
         <xmp:CreatorTool>{PRODUCER}</xmp:CreatorTool>\n<xmp:CreateDate>{date}</xmp:CreateDate>\n\
         <xmp:ModifyDate>{date}</xmp:ModifyDate>\n<pdf:Producer>{PRODUCER}</pdf:Producer>\n\
         </rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>",
        escape(&document.title),
        escape(&document.author),
        escape(&document.subject),
        escape(&document.language),
    );
    Stream::new(dictionary! { "Type" => "Metadata", "Subtype" => "XML" }, packet.into_bytes())
}

fn date(at: NaiveDateTime) -> String {
    at.format("D:%Y%m%d%H%M%S").to_string()
}

/// Makes a text string that any reader shows in full: UTF-16 with its mark.
fn text(words: &str) -> Object {
    let mut bytes = vec![0xfe, 0xff];
    bytes.extend(words.encode_utf16().flat_map(u16::to_be_bytes));
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
