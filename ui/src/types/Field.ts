import type { Kind } from "./Kind";

export type Field = {
  name: string;
  label: string;
  help: string;
  unit: string | null;
  plausible: [number, number] | null;
  limits: [number, number] | null;
  long: boolean;
  kind: Kind;
};
