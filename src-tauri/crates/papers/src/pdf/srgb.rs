//! The colour space of the pages as an ICC profile, made from the published numbers.
//!
//! Primaries, white point and curve are those of IEC 61966-2-1 (sRGB); the profile is version 4.2 of
//! the ICC's format, which PDF 1.7 knows. Only sums and products: the same bytes on every machine.

/// Chromaticities of red, green, blue and white (D65), x and y.
const PRIMARIES: [(f64, f64); 3] = [(0.64, 0.33), (0.30, 0.60), (0.15, 0.06)];
const WHITE: (f64, f64) = (0.3127, 0.3290);
/// The white of the profile's connection space (D50), as the ICC's format writes it.
const D50: [f64; 3] = [0.9642, 1.0, 0.8249];
/// Bradford's cone responses, by which one white is turned into the other.
const BRADFORD: Matrix = [[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]];
/// Exponent, then a, b, c and d of the curve's two branches.
const CURVE: [f64; 5] = [2.4, 1.0 / 1.055, 0.055 / 1.055, 1.0 / 12.92, 0.04045];

/// How the profile is called.
pub(super) const NAME: &str = "sRGB IEC61966-2.1";
const RIGHTS: &str = "No copyright, use freely";

type Matrix = [[f64; 3]; 3];

/// Writes the profile.
pub(super) fn profile() -> Vec<u8> {
    let (colours, adaptation) = colours();
    let column = |n: usize| xyz([colours[0][n], colours[1][n], colours[2][n]]);
    let mut curve = b"para\0\0\0\0\0\x03\0\0".to_vec();
    curve.extend(CURVE.into_iter().flat_map(fixed));
    let mut turn = b"sf32\0\0\0\0".to_vec();
    turn.extend(adaptation.into_iter().flatten().flat_map(fixed));
    let blocks = [words(NAME), words(RIGHTS), xyz(D50), turn, column(0), column(1), column(2), curve];
    let tags: [(&[u8; 4], usize); 10] = [
        (b"desc", 0),
        (b"cprt", 1),
        (b"wtpt", 2),
        (b"chad", 3),
        (b"rXYZ", 4),
        (b"gXYZ", 5),
        (b"bXYZ", 6),
        // One curve for all three.
        (b"rTRC", 7),
        (b"gTRC", 7),
        (b"bTRC", 7),
    ];
    let mut body = Vec::new();
    let mut places = Vec::new();
    let start = 128 + 4 + 12 * tags.len();
    for block in &blocks {
        places.push((start + body.len(), block.len()));
        body.extend_from_slice(block);
        body.resize(body.len().next_multiple_of(4), 0);
    }
    let mut out = header((start + body.len()) as u32);
    out.extend((tags.len() as u32).to_be_bytes());
    for (tag, block) in tags {
        let (at, length) = places[block];
        out.extend_from_slice(tag);
        out.extend((at as u32).to_be_bytes());
        out.extend((length as u32).to_be_bytes());
    }
    out.append(&mut body);
    out
}

fn header(size: u32) -> Vec<u8> {
    let mut out = size.to_be_bytes().to_vec();
    // No maker of the method; version 4.2; a display, RGB to XYZ; made when the standard was.
    out.extend_from_slice(b"\0\0\0\0\x04\x20\0\0mntrRGB XYZ ");
    for part in [1999_u16, 10, 18, 0, 0, 0] {
        out.extend(part.to_be_bytes());
    }
    out.extend_from_slice(b"acsp");
    // Platform, flags, device, attributes and intent: none of them says anything.
    out.resize(68, 0);
    out.extend(D50.into_iter().flat_map(fixed));
    out.resize(128, 0);
    out
}

/// Returns the colours of red, green and blue as columns, seen under the connection space's
/// white, and the matrix that turned them.
fn colours() -> (Matrix, Matrix) {
    let tristimulus = |(x, y): (f64, f64)| [x / y, 1.0, (1.0 - x - y) / y];
    let [r, g, b] = PRIMARIES.map(tristimulus);
    let white = tristimulus(WHITE);
    let plain: Matrix = [[r[0], g[0], b[0]], [r[1], g[1], b[1]], [r[2], g[2], b[2]]];
    let shares = apply(&inverse(&plain), white);
    let scaled = plain.map(|row| [row[0] * shares[0], row[1] * shares[1], row[2] * shares[2]]);
    let (from, to) = (apply(&BRADFORD, white), apply(&BRADFORD, D50));
    let gains = [0, 1, 2].map(|n| [0, 1, 2].map(|m| if n == m { to[n] / from[n] } else { 0.0 }));
    let adaptation = product(&inverse(&BRADFORD), &product(&gains, &BRADFORD));
    (product(&adaptation, &scaled), adaptation)
}

fn apply(m: &Matrix, v: [f64; 3]) -> [f64; 3] {
    m.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2])
}

fn product(a: &Matrix, b: &Matrix) -> Matrix {
    a.map(|row| [0, 1, 2].map(|n| row[0] * b[0][n] + row[1] * b[1][n] + row[2] * b[2][n]))
}

fn inverse(m: &Matrix) -> Matrix {
    let minor = |r: usize, c: usize| {
        let (r1, r2, c1, c2) = ((r + 1) % 3, (r + 2) % 3, (c + 1) % 3, (c + 2) % 3);
        m[r1][c1] * m[r2][c2] - m[r1][c2] * m[r2][c1]
    };
    let determinant = m[0][0] * minor(0, 0) + m[0][1] * minor(0, 1) + m[0][2] * minor(0, 2);
    [0, 1, 2].map(|r| [0, 1, 2].map(|c| minor(c, r) / determinant))
}

/// Writes a number as the format's signed 16.16.
fn fixed(number: f64) -> [u8; 4] {
    ((number * 65536.0).round() as i32).to_be_bytes()
}

fn xyz(values: [f64; 3]) -> Vec<u8> {
    let mut out = b"XYZ \0\0\0\0".to_vec();
    out.extend(values.into_iter().flat_map(fixed));
    out
}

/// Writes text in one language, American English, as the format's list of translations.
fn words(text: &str) -> Vec<u8> {
    let units: Vec<u8> = text.encode_utf16().flat_map(u16::to_be_bytes).collect();
    let mut out = b"mluc\0\0\0\0\0\0\0\x01\0\0\0\x0cenUS".to_vec();
    out.extend((units.len() as u32).to_be_bytes());
    out.extend(28_u32.to_be_bytes());
    out.extend(units);
    out
}

#[cfg(test)]
mod tests {
    use super::{colours, profile};

    #[test]
    fn colours_are_those_of_other_srgb_profiles() {
        // As they stand, to four decimals, in the sRGB profiles that are in general use.
        let published = [[0.4361, 0.3851, 0.1431], [0.2225, 0.7169, 0.0606], [0.0139, 0.0971, 0.7141]];
        let (made, _) = colours();
        for (made, wanted) in made.into_iter().flatten().zip(published.into_iter().flatten()) {
            assert!((made - wanted).abs() < 2e-4, "{made} against {wanted}");
        }
    }

    #[test]
    fn the_profile_says_its_own_length() {
        let made = profile();
        let said = u32::from_be_bytes([made[0], made[1], made[2], made[3]]);
        assert_eq!(said as usize, made.len(), "first four bytes");
        assert!(made.len() < 700, "small: {}", made.len());
    }
}
