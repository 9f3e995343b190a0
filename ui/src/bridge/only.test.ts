import { readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";

it("is the only folder that speaks to Rust", () => {
  const sources = readdirSync("src", { recursive: true, encoding: "utf8" })
    .filter((path) => /\.(ts|svelte)$/.test(path))
    .map((path) => `src/${path.replaceAll("\\", "/")}`);
  const speaking = sources.filter((path) => /from\s+["']@tauri-apps|import\(["']@tauri-apps/.test(readFileSync(path, "utf8")));
  expect(sources.length, "the sources were found").toBeGreaterThan(40);
  expect(speaking).toEqual(["src/bridge/index.ts"]);
});
