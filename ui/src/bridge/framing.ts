// Puts an entry and a picture into one body, so that megabytes of picture need not be written as text.

/** Gives four bytes with the length of the entry's JSON (most significant first), the JSON, then the picture. */
export function framed(entry: unknown, picture: Uint8Array): Uint8Array {
  const json = new TextEncoder().encode(JSON.stringify(entry));
  const body = new Uint8Array(4 + json.length + picture.length);
  new DataView(body.buffer).setUint32(0, json.length);
  body.set(json, 4);
  body.set(picture, 4 + json.length);
  return body;
}
