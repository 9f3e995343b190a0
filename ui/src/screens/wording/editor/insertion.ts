// What a name of the view becomes where it is put into a template.
import type { ViewName } from "../../../types/ViewName";

type Loop = { item: string; over: string };

/** Gives the loops that are open at the end of a text, the outermost first. */
function loopsAt(before: string): Loop[] {
  const open: Loop[] = [];
  for (const [tag, item, over] of before.matchAll(/\{%-?\s*(?:for\s+(\w+)\s+in\s+([\w.]+)|endfor)[^%]*%\}/g)) {
    if (item !== undefined && over !== undefined) open.push({ item, over });
    else if (tag.includes("endfor")) open.pop();
  }
  return open;
}

/** Writes a name below a list (`components[].lot`) with the variable of the loop that goes through the list. */
function inLoops(name: string, loops: readonly Loop[]): string {
  let written = name;
  for (const { item, over } of loops) {
    if (written.startsWith(`${over}[].`)) written = `${item}.${written.slice(over.length + 3)}`;
  }
  return written;
}

/** Says whether a place lies inside a tag. */
function inTag(before: string): boolean {
  const opened = Math.max(before.lastIndexOf("{{"), before.lastIndexOf("{%"));
  return opened > Math.max(before.lastIndexOf("}}"), before.lastIndexOf("%}"));
}

/** Gives what a name becomes at a place: inside a tag the bare name, elsewhere a tag that prints it, asks it or goes through it. */
export function inserted(text: string, at: number, { name, what }: Pick<ViewName, "name" | "what">): string {
  const before = text.slice(0, at);
  const written = inLoops(name, loopsAt(before));
  if (inTag(before)) return written.replaceAll("[]", "");
  const [list, ...rest] = written.split("[].");
  // Outside of its loop a name of an item brings the loop along.
  if (rest.length > 0) return `{% for item in ${list} %}${inserted("", 0, { name: `item.${rest.join("[].")}`, what })}{% endfor %}`;
  if (what === "list") return `{% for item in ${written} %}{% endfor %}`;
  return what === "truth" || what === "record" ? `{% if ${written} %}{% endif %}` : `{{ ${written} }}`;
}
