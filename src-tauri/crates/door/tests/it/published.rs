//! The primitives against published values, as the crates in this tree compute them.

use argon2::{Algorithm, Argon2, AssociatedData, ParamsBuilder, Version};
use chacha20poly1305::aead::{Aead, Payload};
use chacha20poly1305::{KeyInit, XChaCha20Poly1305, XNonce};

fn bytes(hex: &str) -> Vec<u8> {
    let digits: Vec<u8> = hex.chars().filter_map(|digit| digit.to_digit(16)).map(|digit| digit as u8).collect();
    digits.chunks(2).map(|pair| pair[0] << 4 | pair[1]).collect()
}

/// RFC 9106, section 5.3; the numbers as the `argon2` crate's own tests give them from its last draft.
#[test]
fn argon2id() {
    let associated = AssociatedData::new(&[4; 12]).unwrap();
    let params = ParamsBuilder::new().m_cost(32).t_cost(3).p_cost(4).data(associated).build().unwrap();
    let argon2 = Argon2::new_with_secret(&[3; 8], Algorithm::Argon2id, Version::V0x13, params).unwrap();
    let mut tag = [0; 32];
    argon2.hash_password_into(&[1; 32], &[2; 16], &mut tag).unwrap();
    let expected = "0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659";
    assert_eq!(tag.to_vec(), bytes(expected), "the tag of section 5.3");
}

/// draft-irtf-cfrg-xchacha-03, appendix A.3.1; the numbers as the `chacha20poly1305` crate's own tests give them.
#[test]
fn xchacha20_poly1305() {
    let key: Vec<u8> = (0x80..=0x9f).collect();
    let nonce: [u8; 24] = bytes("404142434445464748494a4b4c4d4e4f5051525354555657").try_into().unwrap();
    let aad = bytes("50515253c0c1c2c3c4c5c6c7");
    let plain = b"Ladies and Gentlemen of the class of '99: If I could offer you only one tip for the future, \
        sunscreen would be it.";
    let expected = bytes(
        "bd6d179d3e83d43b9576579493c0e939572a1700252bfaccbed2902c21396cbb731c7f1b0b4aa6440bf3a82f4eda7e39ae64c6708c54c216
         cb96b72e1213b4522f8c9ba40db5d945b11b69b982c1bb9e3f3fac2bc369488f76b2383565d3fff921f9664c97637da9768812f615c68b13
         b52e c0875924c1c7987947deafd8780acf49",
    );
    let cipher = XChaCha20Poly1305::new_from_slice(&key).unwrap();
    let sealed = cipher.encrypt(&XNonce::from(nonce), Payload { msg: plain, aad: &aad }).unwrap();
    assert_eq!(sealed, expected, "cipher text and tag of A.3.1");
}
