export type Case = { id: string; [section: string]: unknown };
