import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

const css = readFileSync("src/theme.css", "utf8");

function colours(selector: string): Map<string, string> {
  const block = css.slice(css.indexOf(`${selector} {`)).split("}")[0] ?? "";
  return new Map([...block.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(([, name, value]) => [name ?? "", value ?? ""]));
}

/** Relative luminance as WCAG 2.2 defines it. */
function luminance(hex: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one: string, other: string): number {
  const [high = 0, low = 0] = [luminance(one), luminance(other)].sort((left, right) => right - left);
  return (high + 0.05) / (low + 0.05);
}

const GROUNDS = ["ground", "leaf", "sheet", "accent-wash"];

describe.each([["light", ":root"], ["dark", ':root[data-theme="dark"]']])("%s colours", (_, selector) => {
  const found = colours(selector);
  const check = (text: string, ground: string, least: number) => {
    const ratio = contrast(found.get(text) ?? "", found.get(ground) ?? "");
    expect(ratio, `${text} on ${ground}`).toBeGreaterThanOrEqual(least);
  };

  it("hold the contrast of text", () => {
    for (const ground of GROUNDS) for (const text of ["ink", "ink-quiet", "accent"]) check(text, ground, 4.5);
    for (const ground of [...GROUNDS, "trouble-wash"]) check("trouble", ground, 4.5);
    check("on-accent", "accent", 4.5);
    check("on-mark", "mark", 4.5);
    check("ink", "rule", 4.5);
  });

  it("hold the contrast of lines and focus", () => {
    for (const ground of ["ground", "leaf", "sheet"]) check("line", ground, 3);
    for (const ground of GROUNDS) check("accent", ground, 3);
  });
});
