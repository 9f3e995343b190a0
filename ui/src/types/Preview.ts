export type Preview = { html: string; unfinished: string[] };
