// A dictionary small enough to read, with one field of every kind, for tests and for `npm run dev`.
import type { Field } from "../src/types/Field";
import type { Kind } from "../src/types/Kind";

function field(name: string, label: string, kind: Kind, more: Partial<Field> = {}): Field {
  return { name, label, help: `What to write for ${label.toLowerCase()}.`, unit: null, plausible: null, limits: null, long: false, kind, ...more };
}

const text: Kind = { is: "text" };
const date: Kind = { is: "date" };
const time: Kind = { is: "time" };
const yesNo: Kind = { is: "yes_no" };
const record = (...fields: Field[]): Kind => ({ is: "record", fields });
const list = (of: Kind): Kind => ({ is: "list", of });
const code = (...codes: string[]): Kind => ({
  is: "code",
  codes: codes.map((code) => ({ code, words: code.replaceAll("_", " ").replace(/^./, (first) => first.toUpperCase()) })),
});

const surface = record(
  field("kellgren_lawrence", "Kellgren-Lawrence", { is: "whole" }, { limits: [0, 4] }),
  field("cartilage", "Cartilage", code("intact", "thinned", "bone_on_bone")),
  field("bone_loss", "Bone loss", yesNo),
);

/** Field list in the shape of the real one. */
export const miniature: Field[] = [
  field("id", "Entry", { is: "id" }),
  field("companion", "Other knee", { is: "id" }),
  field("patient", "Patient", record(
    field("hospital_number", "Hospital number", text),
    field("given_name", "Given name", text),
    field("family_name", "Family name", text),
    field("birth_date", "Birth date", date),
    field("sex", "Sex", code("female", "male", "other", "unknown")),
    field("height_cm", "Height", { is: "number" }, { unit: "cm", plausible: [120, 210] }),
    field("weight_kg", "Weight", { is: "number" }, { unit: "kg" }),
    field("allergies", "Allergies", list(record(field("substance", "Substance", text), field("reaction", "Reaction", text)))),
    field("none_recorded", "No known allergies", yesNo),
    field("conditions", "Conditions", list(text)),
    field("smoker", "Smokes", yesNo),
  )),
  field("setting", "Setting", record(field("hospital", "Hospital", text), field("operation_date", "Operation date", date))),
  field("times", "Times", record(field("incision", "Incision", time), field("closed", "Wound closed", time))),
  field("knee", "Knee", record(
    field("side", "Side", code("left", "right")),
    field("wear", "Wear", record(field("medial", "Medial", surface), field("lateral", "Lateral", surface))),
  )),
  field("choice", "Choice", record(
    field("procedure", "Procedure", code("total", "medial_partial", "lateral_partial", "patellofemoral", "other")),
  )),
  field("anaesthesia", "Anaesthesia", record(field("kinds", "Kinds", list(code("spinal", "general", "nerve_block"))))),
  field("approach", "Approach", record(field("findings", "Findings", text, { long: true }))),
  field("components", "Components", list(record(
    field("role", "Role", code("femur", "tibial_tray", "insert", "patella", "cement")),
    field("name", "Name", text),
    field("lot", "Lot", text),
    field("size", "Size", text),
  ))),
  field("cement", "Cement", record(field("mixes", "Mixes", list(record(
    field("component", "Cement", { is: "component" }),
    field("mixed_at", "Mixed", time),
  ))))),
  field("events", "Events", list(record(
    field("what", "What happened", text),
    field("component", "Component", { is: "component" }),
  ))),
  field("none_recorded", "No events", yesNo),
];
