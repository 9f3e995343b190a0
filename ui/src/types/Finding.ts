export type Finding = {
  kind: "missing" | "conflict" | "out_of_range" | "caution";
  paths: string[];
  message: string;
  source: string | null;
  blocks: boolean;
};
