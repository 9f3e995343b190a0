//! The HTML-to-PDF peer: the paper's own HTML, its own fonts, ironpress's layout and PDF writer.

use std::error::Error;

use ironpress::HtmlConverter;

/// Holds what can be kept from paper to paper: the fonts.
pub struct Pages {
    converter: HtmlConverter,
}

impl Pages {
    pub fn new() -> Self {
        let regular = include_bytes!("../../fonts/SourceSans3-Regular.ttf").to_vec();
        Self { converter: HtmlConverter::new().add_font("Source Sans 3", regular) }
    }

    pub fn write(&self, html: &str) -> Result<Vec<u8>, Box<dyn Error>> {
        Ok(self.converter.convert(html)?)
    }
}
