//! What the file says about itself, twice: as properties of the format and as XMP.

use chrono::NaiveDateTime;
use lopdf::{Dictionary, Object, Stream, dictionary};

use crate::document::Document;
use crate::html::escape;

use super::finish::text;
use super::structure::Structured;

const PRODUCER: &str = "Evengap papers";

/// What independent readers found to hold for every paper of the tests; see the crate's README.
const CLAIMS: &str = "<pdfaid:part>2</pdfaid:part>\n<pdfaid:conformance>A</pdfaid:conformance>\n\
                      <pdfuaid:part>1</pdfuaid:part>\n";

/// PDF/A wants a description of each schema that it does not know itself.
const EXTENSION: &str = "<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType=\"Resource\">\n\
     <pdfaSchema:schema>PDF/UA Universal Accessibility Schema</pdfaSchema:schema>\n\
     <pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>\n\
     <pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>\n\
     <pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType=\"Resource\">\n\
     <pdfaProperty:name>part</pdfaProperty:name>\n\
     <pdfaProperty:valueType>Integer</pdfaProperty:valueType>\n\
     <pdfaProperty:category>internal</pdfaProperty:category>\n\
     <pdfaProperty:description>Part of ISO 14289 to which the file conforms</pdfaProperty:description>\n\
     </rdf:li></rdf:Seq></pdfaSchema:property></rdf:li></rdf:Bag></pdfaExtension:schemas>\n";

/// Holds what is said about a file as a whole.
pub(super) struct Properties<'p> {
    title: &'p str,
    author: &'p str,
    subject: &'p str,
    languages: Vec<&'p str>,
    made_at: NaiveDateTime,
}

impl<'p> Properties<'p> {
    /// Takes them from what the file is about, and the languages from its papers.
    pub(super) fn of(about: &'p Document, papers: &'p [Structured]) -> Self {
        let mut languages: Vec<&str> = Vec::new();
        for paper in papers {
            if !languages.contains(&paper.language.as_str()) {
                languages.push(&paper.language);
            }
        }
        Self { title: &about.title, author: &about.author, subject: &about.subject, languages, made_at: about.made_at }
    }

    pub(super) fn information(&self) -> Dictionary {
        let date = self.made_at.format("D:%Y%m%d%H%M%S").to_string();
        dictionary! {
            "Title" => text(self.title),
            "Author" => text(self.author),
            "Subject" => text(self.subject),
            "Creator" => text(PRODUCER),
            "Producer" => text(PRODUCER),
            "CreationDate" => Object::string_literal(date.clone()),
            "ModDate" => Object::string_literal(date),
        }
    }

    /// Says the same as XMP, for readers that know nothing else. Never compressed: archives look
    /// for it without understanding the rest of the file.
    pub(super) fn metadata(&self) -> Stream {
        let date = self.made_at.format("%Y-%m-%dT%H:%M:%S");
        let languages: String =
            self.languages.iter().map(|language| format!("<rdf:li>{}</rdf:li>", xml(language))).collect();
        let packet = format!(
            "<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n\
             <x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n\
             <rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" \
             xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" \
             xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\" xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\" \
             xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\" \
             xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\" \
             xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\">\n\
             <dc:format>application/pdf</dc:format>\n\
             <dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:title>\n\
             <dc:creator><rdf:Seq><rdf:li>{}</rdf:li></rdf:Seq></dc:creator>\n\
             <dc:description><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:description>\n\
             <dc:language><rdf:Bag>{languages}</rdf:Bag></dc:language>\n\
             <xmp:CreatorTool>{PRODUCER}</xmp:CreatorTool>\n<xmp:CreateDate>{date}</xmp:CreateDate>\n\
             <xmp:ModifyDate>{date}</xmp:ModifyDate>\n<pdf:Producer>{PRODUCER}</pdf:Producer>\n\
             {CLAIMS}{EXTENSION}\
             </rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>",
            xml(self.title),
            xml(self.author),
            xml(self.subject),
        );
        Stream::new(dictionary! { "Type" => "Metadata", "Subtype" => "XML" }, packet.into_bytes())
    }
}

/// Makes words safe in XML, which has no form at all for some characters that can be typed.
fn xml(words: &str) -> String {
    let allowed: String = words
        .chars()
        .filter(|c| matches!(c, '\t' | '\n' | '\r' | ' '..='\u{d7ff}' | '\u{e000}'..='\u{fffd}' | '\u{10000}'..))
        .collect();
    escape(&allowed)
}
