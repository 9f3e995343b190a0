//! Finding codes in one grey picture.

use std::collections::HashSet;
use std::panic::{AssertUnwindSafe, catch_unwind};

use image::GrayImage;
use rxing::common::HybridBinarizer;
use rxing::multi::{GenericMultipleBarcodeReader, MultipleBarcodeReader};
use rxing::{
    BarcodeFormat, BinaryBitmap, DecodeHints, Luma8LuminanceSource, MultiUseMultiFormatReader, RXingResult,
    RXingResultMetadataType, RXingResultMetadataValue,
};

use super::{Scan, Symbology};

/// Shorter texts carry no element of a label; noise can look like a Code 128 of one or two characters.
const SHORTEST_TEXT: usize = 4;

/// Finds all codes in a picture.
pub(super) fn find(picture: GrayImage) -> Vec<Scan> {
    let (width, height) = picture.dimensions();
    let pixels = picture.into_raw();
    // The finder is a port that indexes freely; a strange picture must not take the window with it.
    let results = catch_unwind(AssertUnwindSafe(|| {
        let source = Luma8LuminanceSource::new(pixels, width, height).ok()?;
        let hints = DecodeHints {
            PossibleFormats: Some(HashSet::from([
                BarcodeFormat::DATA_MATRIX,
                BarcodeFormat::CODE_128,
                BarcodeFormat::QR_CODE,
            ])),
            TryHarder: Some(true),
            AlsoInverted: Some(true),
            // Makes Code 128 report its separators.
            AssumeGs1: Some(true),
            ..DecodeHints::default()
        };
        let mut reader = GenericMultipleBarcodeReader::new(MultiUseMultiFormatReader::default());
        reader.decode_multiple_with_hints(&mut BinaryBitmap::new(HybridBinarizer::new(source)), &hints).ok()
    }));
    results.ok().flatten().unwrap_or_default().iter().filter_map(scan).collect()
}

fn scan(result: &RXingResult) -> Option<Scan> {
    let symbology = match result.getBarcodeFormat() {
        BarcodeFormat::DATA_MATRIX => Symbology::DataMatrix,
        BarcodeFormat::CODE_128 => Symbology::Code128,
        BarcodeFormat::QR_CODE => Symbology::Qr,
        _ => return None,
    };
    let mark = match result.getRXingResultMetadata().get(&RXingResultMetadataType::SYMBOLOGY_IDENTIFIER) {
        Some(RXingResultMetadataValue::SymbologyIdentifier(mark)) => mark.as_str(),
        _ => "",
    };
    let text = result.getText();
    let text = text.strip_prefix(mark).unwrap_or(text);
    // The leading function character is said by the symbology identifier already.
    let text = if matches!(mark, "]d2" | "]C1" | "]Q3") { text.trim_start_matches('\u{1d}') } else { text };
    (text.chars().count() >= SHORTEST_TEXT).then(|| Scan { text: format!("{mark}{text}"), symbology })
}
