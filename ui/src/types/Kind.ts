import type { Code } from "./Code";
import type { Field } from "./Field";

export type Kind =
  | { is: "text" }
  | { is: "whole" }
  | { is: "number" }
  | { is: "yes_no" }
  | { is: "date" }
  | { is: "time" }
  | { is: "id" }
  | { is: "component" }
  | { is: "code"; codes: Code[] }
  | { is: "record"; fields: Field[] }
  | { is: "list"; of: Kind };
