// Light or dark: the system's wish, unless the person chose.

export type Theme = "light" | "dark";
const KEY = "evengap.theme";

function chosen(): Theme | null {
  const kept = localStorage.getItem(KEY);
  return kept === "light" || kept === "dark" ? kept : null;
}

/** Gives the theme that holds now. */
export function themeNow(): Theme {
  return chosen() ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");
}

/** Puts the theme on the page, and again whenever the system changes its wish. */
export function applyTheme(): void {
  const apply = () => (document.documentElement.dataset.theme = themeNow());
  apply();
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", apply);
}

/** Chooses the other theme and keeps the choice. */
export function switchTheme(): Theme {
  const other: Theme = themeNow() === "dark" ? "light" : "dark";
  localStorage.setItem(KEY, other);
  document.documentElement.dataset.theme = other;
  return other;
}
