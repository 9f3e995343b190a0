export type NotebookState = { path: string; demonstration: boolean; writer: string; cases: number };
