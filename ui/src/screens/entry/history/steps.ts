// The history of a case as a person reads it: drafts that one person saved shortly after each other are one group.
import type { Change, HistoryStep } from "#bridge";

/** Minutes within which the drafts of one person are one group. */
export const GROUP_MINUTES = 10;

export type StepGroup = {
  /** The newest step first. */
  steps: HistoryStep[];
  /** What the steps changed together, newest value against oldest. */
  changes: Change[];
};

export type Filter = { by: string; signedOnly: boolean; text: string };

function minutesBetween(one: string, other: string): number {
  return Math.abs(Date.parse(`${one.slice(0, 16)}Z`) - Date.parse(`${other.slice(0, 16)}Z`)) / 60_000;
}

function belongs(step: HistoryStep, group: StepGroup): boolean {
  const [newest] = group.steps;
  return (
    newest !== undefined && step.kind === "draft" && newest.kind === "draft" && step.by === newest.by && step.branch === newest.branch && minutesBetween(step.at, newest.at) <= GROUP_MINUTES
  );
}

/** Puts changes of one answer together: the oldest value before, the newest now; what came back to where it was is no change. */
export function together(steps: readonly HistoryStep[]): Change[] {
  const found = new Map<string, Change>();
  for (const step of steps.toReversed()) {
    for (const change of step.changes) {
      const earlier = found.get(change.path);
      found.set(change.path, earlier === undefined ? change : { ...change, before: earlier.before });
    }
  }
  return [...found.values()].filter(({ before, now }) => JSON.stringify(before) !== JSON.stringify(now));
}

/** Groups steps, newest first. */
export function grouped(steps: readonly HistoryStep[]): StepGroup[] {
  const groups: StepGroup[] = [];
  for (const step of steps) {
    const last = groups.at(-1);
    if (last !== undefined && belongs(step, last)) last.steps.push(step);
    else groups.push({ steps: [step], changes: [] });
  }
  return groups.map(({ steps: inside }) => ({ steps: inside, changes: together(inside) }));
}

/** Gives the steps that a filter lets through; words are looked for in places, values and texts. */
export function filtered(steps: readonly HistoryStep[], { by, signedOnly, text }: Filter): HistoryStep[] {
  const wanted = text.trim().toLocaleLowerCase("en");
  const holds = (words: string) => words.toLocaleLowerCase("en").includes(wanted);
  const shown = ({ labels, before, now }: Change) => holds(`${labels.join(" ")} ${JSON.stringify(before)} ${JSON.stringify(now)}`.replaceAll("_", " "));
  return steps
    .filter((step) => (by === "" || step.by === by) && (!signedOnly || step.kind !== "draft"))
    .map((step) => (wanted === "" || holds(step.text ?? "") ? step : { ...step, changes: step.changes.filter(shown) }))
    .filter((step) => wanted === "" || holds(step.text ?? "") || step.changes.length > 0);
}
