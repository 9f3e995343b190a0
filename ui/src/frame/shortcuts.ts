// The keys that work everywhere. Keys of one screen live with that screen.

export type Shortcut = "search" | "new" | "export" | "lock" | "next" | "previous";

/** Says which shortcut a key press is, if any. */
export function shortcutOf(event: Pick<KeyboardEvent, "key" | "ctrlKey" | "metaKey" | "altKey" | "shiftKey">): Shortcut | undefined {
  const command = (event.ctrlKey || event.metaKey) && !event.altKey && !event.shiftKey;
  if (command) {
    if (event.key === "f") return "search";
    if (event.key === "n") return "new";
    if (event.key === "e") return "export";
    if (event.key === "l") return "lock";
  }
  if (event.altKey && !event.ctrlKey && !event.metaKey) {
    if (event.key === "ArrowDown") return "next";
    if (event.key === "ArrowUp") return "previous";
  }
  return undefined;
}

/** Says whether a key press belongs to a box that text is typed into. */
export function typingIn(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.matches("input, textarea, select");
}
