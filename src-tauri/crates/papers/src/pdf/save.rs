//! The finished file as bytes: streams as they are, everything else packed into object streams, then
//! one cross-reference stream (PDF 1.5 and later).
//!
//! Ours and not the file library's, which writes each packed object three times, packs more slowly
//! than a paper may take, and lets data end so that a strict reader miscounts it (see [`Packer`]).

use std::io::{self, Write};

use flate2::{Compress, Compression, FlushCompress, Status};
use lopdf::{Dictionary, Document as File, Object, Stream, StringFormat, dictionary};

/// Between 1, fast, and 9, small: 4 takes a tenth off a file and adds half to its time.
const COMPRESSION: u32 = 1;
/// The many small objects of the structure are compressed together, so many at a time.
const OBJECTS_TOGETHER: usize = 200;

/// Holds objects that are not streams, written one after the other.
#[derive(Default)]
pub(super) struct Written {
    bytes: Vec<u8>,
    /// Number of each object and where it begins.
    begins: Vec<(u32, usize)>,
}

impl Written {
    /// Begins an object; what is written to the answer up to the next one is what it holds.
    pub(super) fn object(&mut self, number: u32) -> &mut Vec<u8> {
        if !self.begins.is_empty() {
            self.bytes.push(b'\n');
        }
        self.begins.push((number, self.bytes.len()));
        &mut self.bytes
    }

    /// Returns the objects that go into one stream, each with its bytes.
    fn together(&self) -> impl Iterator<Item = (&[(u32, usize)], &[u8])> {
        let mut rest = self.begins.as_slice();
        std::iter::from_fn(move || {
            let (begins, after) = rest.split_at(OBJECTS_TOGETHER.min(rest.len()));
            let first = begins.first()?.1;
            rest = after;
            let end = after.first().map_or(self.bytes.len(), |(_, begin)| *begin);
            Some((begins, &self.bytes[first..end]))
        })
    }
}

/// Compresses data, with the same memory each time.
pub(super) struct Packer(Compress);

impl Packer {
    pub(super) fn new() -> Self {
        Self(Compress::new(Compression::new(COMPRESSION), true))
    }

    /// Compresses data. It never ends with a carriage return: with the line feed behind it that looks
    /// like the end of a line, and a strict reader finds the data one byte short. The last byte is a
    /// checksum, so that one more line feed gives another; `data` must be such that it means nothing.
    pub(super) fn pack(&mut self, data: &[u8]) -> io::Result<Vec<u8>> {
        let out = self.once(data)?;
        if out.ends_with(b"\r") { self.once(&[data, b"\n"].concat()) } else { Ok(out) }
    }

    fn once(&mut self, data: &[u8]) -> io::Result<Vec<u8>> {
        self.0.reset();
        let mut out = Vec::with_capacity(data.len() / 3 + 128);
        loop {
            let read = self.0.total_in() as usize;
            let status = self.0.compress_vec(&data[read..], &mut out, FlushCompress::Finish);
            if status.map_err(io::Error::other)? == Status::StreamEnd {
                return Ok(out);
            }
            out.reserve(out.capacity());
        }
    }
}

/// Where an object lies: a byte of the file, or a place in an object stream.
enum Place {
    Byte(usize),
    Packed(u32, usize),
}

/// Returns the file's bytes, with the objects that are `written` already; it has no object of a
/// second generation.
pub(super) fn save(file: &File, mut written: Written, packer: &mut Packer) -> io::Result<Vec<u8>> {
    let streams = file.objects.values().map(|object| object.as_stream().map_or(0, |stream| stream.content.len()));
    let mut out = Vec::with_capacity(streams.sum::<usize>() + 16 * 1024);
    writeln!(out, "%PDF-{}", file.version)?;
    // Four bytes above 127 tell those who carry the file that it is not text.
    out.extend_from_slice(b"%\xe2\xe3\xcf\xd3\n");
    let mut places: Vec<(u32, Place)> = Vec::with_capacity(file.objects.len() + written.begins.len() + 8);
    for (&(number, _), object) in &file.objects {
        match object {
            Object::Stream(stream) => {
                places.push((number, Place::Byte(out.len())));
                write_stream(&mut out, number, stream)?;
            }
            object => write_object(written.object(number), object)?,
        }
    }
    let mut next = file.max_id + 1;
    for (begins, bytes) in written.together() {
        places.extend(begins.iter().enumerate().map(|(n, (number, _))| (*number, Place::Packed(next, n))));
        places.push((next, Place::Byte(out.len())));
        write_stream(&mut out, next, &packed(begins, bytes, packer)?)?;
        next += 1;
    }
    let start = out.len();
    places.push((next, Place::Byte(start)));
    places.sort_unstable_by_key(|(number, _)| *number);
    write_stream(&mut out, next, &references(file, &places, next + 1, packer)?)?;
    write!(out, "startxref\n{start}\n%%EOF\n")?;
    Ok(out)
}

/// Puts written objects into one stream.
fn packed(begins: &[(u32, usize)], bytes: &[u8], packer: &mut Packer) -> io::Result<Stream> {
    let mut data = Vec::with_capacity(bytes.len() + 12 * begins.len());
    let start = begins.first().map_or(0, |(_, begin)| *begin);
    for (number, begin) in begins {
        write!(data, "{number} {} ", begin - start)?;
    }
    let first = data.len();
    data.extend_from_slice(bytes);
    let dictionary = dictionary! {
        "Type" => "ObjStm",
        "N" => begins.len() as i64,
        "First" => first as i64,
        "Filter" => "FlateDecode",
    };
    Ok(Stream::new(dictionary, packer.pack(&data)?))
}

/// Lists where every object lies, and what a reader of the file begins with.
fn references(file: &File, places: &[(u32, Place)], size: u32, packer: &mut Packer) -> io::Result<Stream> {
    let mut table = Vec::with_capacity(places.len() * 7);
    let mut index: Vec<Object> = Vec::new();
    let mut expected = None;
    for (number, place) in places {
        if expected != Some(*number) {
            index.extend([i64::from(*number).into(), 0.into()]);
        }
        expected = Some(number + 1);
        if let Some(Object::Integer(count)) = index.last_mut() {
            *count += 1;
        }
        let (kind, wide, narrow) = match place {
            Place::Byte(at) => (1, *at as u32, 0),
            Place::Packed(stream, n) => (2, *stream, *n as u16),
        };
        table.push(kind);
        table.extend(wide.to_be_bytes());
        table.extend(narrow.to_be_bytes());
    }
    let mut dictionary = Dictionary::new();
    for key in [b"Root".as_slice(), b"Info", b"ID"] {
        if let Ok(value) = file.trailer.get(key) {
            dictionary.set(key, value.clone());
        }
    }
    dictionary.set("Type", "XRef");
    dictionary.set("Size", i64::from(size));
    dictionary.set("W", vec![1.into(), 4.into(), 2.into()]);
    dictionary.set("Index", index);
    // Its size is exact, so that no line feed can be added; as it is it ends with a zero.
    let small = packer.once(&table)?;
    if small.ends_with(b"\r") {
        return Ok(Stream::new(dictionary, table));
    }
    dictionary.set("Filter", "FlateDecode");
    Ok(Stream::new(dictionary, small))
}

fn write_stream(out: &mut Vec<u8>, number: u32, stream: &Stream) -> io::Result<()> {
    writeln!(out, "{number} 0 obj")?;
    write_dictionary(out, &stream.dict)?;
    out.extend_from_slice(b"\nstream\n");
    out.extend_from_slice(&stream.content);
    out.extend_from_slice(b"\nendstream\nendobj\n");
    Ok(())
}

fn write_dictionary(out: &mut Vec<u8>, dictionary: &Dictionary) -> io::Result<()> {
    out.extend_from_slice(b"<<");
    for (key, value) in dictionary {
        write_name(out, key)?;
        out.push(b' ');
        write_object(out, value)?;
    }
    out.extend_from_slice(b">>");
    Ok(())
}

/// Writes an object as it stands in a file.
pub(super) fn write_object(out: &mut Vec<u8>, object: &Object) -> io::Result<()> {
    match object {
        // A stream is an object of its own, never part of another.
        Object::Null | Object::Stream(_) => out.extend_from_slice(b"null"),
        Object::Boolean(value) => write!(out, "{value}")?,
        Object::Integer(value) => write!(out, "{value}")?,
        Object::Real(value) => write!(out, "{value}")?,
        Object::Reference((number, generation)) => write!(out, "{number} {generation} R")?,
        Object::Name(name) => write_name(out, name)?,
        Object::String(bytes, StringFormat::Literal) => {
            out.push(b'(');
            for byte in bytes {
                match byte {
                    b'(' | b')' | b'\\' => out.extend([b'\\', *byte]),
                    b'\r' => out.extend_from_slice(b"\\r"),
                    byte => out.push(*byte),
                }
            }
            out.push(b')');
        }
        Object::String(bytes, StringFormat::Hexadecimal) => {
            out.push(b'<');
            for byte in bytes {
                write!(out, "{byte:02X}")?;
            }
            out.push(b'>');
        }
        Object::Array(items) => {
            out.push(b'[');
            for (n, item) in items.iter().enumerate() {
                if n > 0 {
                    out.push(b' ');
                }
                write_object(out, item)?;
            }
            out.push(b']');
        }
        Object::Dictionary(dictionary) => write_dictionary(out, dictionary)?,
    }
    Ok(())
}

fn write_name(out: &mut Vec<u8>, name: &[u8]) -> io::Result<()> {
    out.push(b'/');
    for byte in name {
        match byte {
            b'!'..=b'~' if !b"#()<>[]{}/%".contains(byte) => out.push(*byte),
            byte => write!(out, "#{byte:02X}")?,
        }
    }
    Ok(())
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a failing test says why by panicking")]
mod tests {
    use std::io::Read;

    use flate2::read::ZlibDecoder;
    use lopdf::Document as File;

    use super::{Packer, Place, references};

    fn unpacked(data: &[u8]) -> Vec<u8> {
        let mut back = Vec::new();
        ZlibDecoder::new(data).read_to_end(&mut back).unwrap();
        back
    }

    #[test]
    fn packed_data_never_ends_like_a_line() {
        let mut packer = Packer::new();
        let mut lengthened = 0;
        for n in 1..512 {
            let data = "1".repeat(n);
            let packed = packer.pack(data.as_bytes()).unwrap();
            assert_ne!(packed.last(), Some(&b'\r'), "{n} bytes");
            let back = String::from_utf8(unpacked(&packed)).unwrap();
            assert_eq!(back.trim_end(), data, "nothing else changes");
            lengthened += usize::from(back.len() > data.len());
        }
        assert!(lengthened > 0, "the rule was needed");
    }

    #[test]
    fn the_list_of_places_never_does_and_keeps_its_exact_size() {
        let (file, mut packer, mut plain) = (File::new(), Packer::new(), 0);
        for n in 0..512 {
            let places = [(1, Place::Byte(n)), (2, Place::Byte(7))];
            let list = references(&file, &places, 3, &mut packer).unwrap();
            assert_ne!(list.content.last(), Some(&b'\r'), "place {n}");
            let packed = list.dict.has(b"Filter");
            let table = if packed { unpacked(&list.content) } else { list.content };
            assert_eq!(table.len(), 2 * 7, "seven bytes for each of two objects");
            plain += usize::from(!packed);
        }
        assert!(plain > 0, "the rule was needed");
    }
}
