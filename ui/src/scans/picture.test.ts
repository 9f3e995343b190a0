import { expect, it } from "vitest";
import { LARGEST_BYTES, pictureTrouble } from "./picture";

function check(file: { size?: number; type?: string }, expected: string) {
  const found = pictureTrouble({ name: "label.png", size: 1000, type: "image/png", ...file });
  if (expected === "") expect(found).toBe("");
  else expect(found).toContain(expected);
}

it("says why a file is not read", () => {
  check({}, "");
  check({ type: "image/jpeg" }, "");
  check({ type: "" }, "");
  check({ type: "application/pdf" }, "not a PNG or JPEG");
  check({ size: LARGEST_BYTES }, "");
  check({ size: LARGEST_BYTES * 1.5 }, "has 30.0 MB");
});
