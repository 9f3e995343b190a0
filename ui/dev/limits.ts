// A few invented limits in the shape of the real ones, for the stand-in program and for tests.
import type { LimitsShown } from "../src/bridge/desk";
import type { LimitRow } from "../src/types/LimitRow";
import type { Limits } from "../src/types/Limits";
import type { Source } from "../src/types/Source";

const source: Source = { title: "An invented book", year: 2001, kind: "published", place: "page 7" };
const open: Source = { title: "Not filled", year: 2026, kind: "from_memory", place: "" };
const row = (name: string, about: string, value: number): LimitRow => ({ name, about, value, unit: "mm", source });

/** Gives the limits as shipped. */
export function shippedLimits(): LimitsShown {
  const rows = [row("kerf_mm", "width of the saw cut", 1), { ...row("oxford_group_change", "smallest change that matters", 9), unit: null }];
  const limits = {
    ...Object.fromEntries(rows.map(({ name, value }) => [name, { value, source }])),
    cuff_margins: [{ up_to_mmhg: null, margin_mmhg: 50, source }],
    antibiotics: [
      { drug: "cefazolin", window_min: 60, dose_mg: 2000, dose_mg_per_kg: null, heavy_from_kg: null, heavy_dose_mg: null, redose_min: 240, source },
    ],
    local_anaesthetics: [
      { drug: "lidocaine", with_adrenaline: false, mg_per_kg: 4, cap_mg: 300, source },
      { drug: "ropivacaine", with_adrenaline: false, mg_per_kg: null, cap_mg: null, source: open },
    ],
  } as unknown as Limits;
  return { limits, shipped: structuredClone(limits), rows };
}
