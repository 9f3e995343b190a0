// Draws the codes of this folder with the library bwip-js (npm, MIT), which shares nothing with the
// reader under test. Run once: npm install bwip-js@4 && node make.mjs
import { writeFileSync } from "node:fs";
import bwipjs from "bwip-js";

const codes = {
  "gs1-data-matrix": { bcid: "gs1datamatrix", text: "(01)09521041001272(11)241106(17)341105(10)T228401(21)S7194998", scale: 5 },
  "gs1-data-matrix-wide": { bcid: "gs1datamatrixrectangular", text: "(01)09521041001272(17)341105(10)T228401", scale: 5 },
  "gs1-128": { bcid: "gs1-128", text: "(01)09521041001272(17)341105(10)T228401", scale: 2, height: 14 },
  "gs1-128-item": { bcid: "gs1-128", text: "(01)09521041001272", scale: 2, height: 14 },
  "gs1-128-lot": { bcid: "gs1-128", text: "(10)T228401(21)S7194998", scale: 2, height: 14 },
  "gs1-qr": { bcid: "gs1qrcode", text: "(01)09521041001272(17)341105(10)T228401(21)S7194998", scale: 4 },
  "hibc-data-matrix": { bcid: "hibcdatamatrix", text: "A123SKLFMR0/$$3350127LV68684/SV9151623/16D20250128", scale: 5 },
  "hibc-128": { bcid: "hibccode128", text: "A123SKLTBR0/$$3341231LV07579", scale: 2, height: 14 },
};

for (const [name, options] of Object.entries(codes)) {
  const picture = await bwipjs.toBuffer({ ...options, padding: 8, backgroundcolor: "FFFFFF" });
  writeFileSync(new URL(`${name}.png`, import.meta.url), picture);
}
