import { expect, it } from "vitest";
import { framed } from "./framing";

it("puts length, entry and picture one after the other", () => {
  const body = framed({ a: "ø" }, new Uint8Array([0, 255, 7]));
  // `{"a":"ø"}` is nine letters and ten bytes.
  expect([...body.subarray(0, 4)]).toEqual([0, 0, 0, 10]);
  expect(new TextDecoder().decode(body.subarray(4, 14))).toBe('{"a":"ø"}');
  expect([...body.subarray(14)]).toEqual([0, 255, 7]);
});
