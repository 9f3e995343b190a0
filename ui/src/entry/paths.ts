// Reads and writes one answer by its path (`components[2].lot`). Knows nothing of the dictionary.

export type Answer = string | number | boolean | null | Answer[] | { [name: string]: Answer };
export type Answers = { [name: string]: Answer };
type Step = string | number;

/** Splits `knee.scores[1].value` into its steps; a number steps into a list. */
export function steps(path: string): Step[] {
  const found: Step[] = [];
  for (const [, name, place] of path.matchAll(/([^.[\]]+)|\[(\d+)\]/g)) {
    if (place !== undefined) found.push(Number(place));
    else if (name !== undefined) found.push(name);
  }
  return found;
}

/** Joins a path and the name of a field inside it; the top has the empty path. */
export function below(path: string, name: string): string {
  return path === "" ? name : `${path}.${name}`;
}

/** Names the item of a list. */
export function itemOf(path: string, place: number): string {
  return `${path}[${place}]`;
}

/** Gives the path around a path: the record of a field, the list of an item; the top is the empty path. */
export function parentOf(path: string): string {
  return path.replace(/(\.[^.[\]]+|\[\d+\]|^[^.[\]]+)$/, "");
}

function into(holder: Answer | undefined, step: Step): Answer | undefined {
  if (Array.isArray(holder)) return typeof step === "number" ? holder[step] : undefined;
  if (typeof holder !== "object" || holder === null || typeof step === "number") return undefined;
  return Object.hasOwn(holder, step) ? holder[step] : undefined;
}

/** Gives the answer at a path, or undefined where nothing is recorded. */
export function answerAt(answers: Answers, path: string): Answer | undefined {
  return steps(path).reduce<Answer | undefined>(into, answers);
}

/** Gives the list at a path; where nothing is recorded, an empty one. */
export function listAt(answers: Answers, path: string): Answer[] {
  const found = answerAt(answers, path);
  return Array.isArray(found) ? found : [];
}

/** Records an answer in place, making the records and lists on the way; undefined takes the answer away. */
export function record(answers: Answers, path: string, answer: Answer | undefined): void {
  const way = steps(path);
  const last = way.pop();
  if (last === undefined) return;
  let holder: Answer = answers;
  for (const [index, step] of way.entries()) {
    let next = into(holder, step);
    if (typeof next !== "object" || next === null) {
      if (answer === undefined) return;
      put(holder, step, typeof (way[index + 1] ?? last) === "number" ? [] : {});
      next = into(holder, step);
    }
    holder = next as Answer;
  }
  put(holder, last, answer);
}

function put(holder: Answer, step: Step, answer: Answer | undefined): void {
  if (Array.isArray(holder)) {
    if (typeof step !== "number") return;
    if (answer === undefined) holder.splice(step, 1);
    else holder[step] = answer;
  } else if (typeof holder === "object" && holder !== null && typeof step === "string") {
    if (answer === undefined) delete holder[step];
    else holder[step] = answer;
  }
}
