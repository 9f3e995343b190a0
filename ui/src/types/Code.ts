export type Code = { code: string; words: string };
