// Finds and focuses what a path names on the screen, as near to it as the screen goes.
import { parentOf } from "../../entry/paths";

const BOXES = ":is(input, select, textarea):not(:disabled)";
const BUTTONS = "button:not(:disabled)";

/** Gives the box for a path: its own, the first one inside it, or that of the nearest record around it. */
export function boxFor(screen: ParentNode, path: string): HTMLElement | undefined {
  for (let at = path; at !== ""; at = parentOf(at)) {
    const quoted = CSS.escape(`field-${at}`);
    const own = screen.querySelector<HTMLElement>(`#${quoted}`);
    if (own) return own;
    const inside = screen.querySelector<HTMLElement>(`[data-path="${CSS.escape(at)}"], [data-section="${CSS.escape(at)}"]`);
    const first = inside?.querySelector<HTMLElement>(BOXES) ?? inside?.querySelector<HTMLElement>(BUTTONS) ?? inside;
    if (first) return first;
  }
  return undefined;
}

/** Brings the box for a path into view and focuses it. */
export function jumpTo(screen: ParentNode, path: string): void {
  const box = boxFor(screen, path);
  box?.scrollIntoView({ block: "center" });
  box?.focus({ preventScroll: true });
}
