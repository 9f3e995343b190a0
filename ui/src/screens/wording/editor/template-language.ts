// Colours for a template: the tags of Tera, and Markdown around them. Knows nothing of what a name means.
import type { StreamParser, StringStream } from "@codemirror/language";

type Inside = "text" | "print" | "tag" | "comment";
export type TemplateState = { inside: Inside; heading: boolean; afterPipe: boolean };

const CLOSING: Readonly<Record<Exclude<Inside, "text">, RegExp>> = { print: /-?\}\}/, tag: /-?%\}/, comment: /-?#\}/ };
const WORDS = new Set([
  ...["if", "elif", "else", "endif", "for", "in", "endfor", "set", "set_global", "endset", "filter", "endfilter", "block", "endblock"],
  ...["macro", "endmacro", "raw", "endraw", "break", "continue", "and", "or", "not", "is", "true", "false"],
]);

/** Reads the next piece of text outside the tags. */
function text(stream: StringStream, state: TemplateState): string | null {
  if (stream.match(/\{\{-?/)) return open(state, "print");
  if (stream.match(/\{%-?/)) return open(state, "tag");
  if (stream.match(/\{#-?/)) {
    state.inside = "comment";
    return "comment";
  }
  if (stream.sol()) {
    state.heading = Boolean(stream.match(/#{1,6}\s/, false));
    if (stream.match(/@cautions(?=\s*$)/)) return "atom";
    if (stream.match(/\s*(?:[-*+]|\d+\.)\s/)) return "list";
    if (stream.match(/\|?[\s:|-]*-{3}[\s:|-]*$/)) return "contentSeparator";
  }
  if (stream.match(/!\[[^\]]*\]\([^)]*\)/)) return "link";
  if (stream.match(/\*\*(?:(?!\*\*|\{[{%#]).)+\*\*/)) return "strong";
  if (stream.match(/\*(?:(?!\*|\{[{%#]).)+\*/)) return "emphasis";
  if (stream.match("**") || stream.eat("|")) return "contentSeparator";
  if (!stream.match(/[^{*|!]+/)) stream.next();
  return state.heading ? "heading" : null;
}

function open(state: TemplateState, inside: Inside): string {
  state.inside = inside;
  state.afterPipe = false;
  return "brace";
}

function comment(stream: StringStream, state: TemplateState): string {
  if (stream.match(CLOSING.comment)) state.inside = "text";
  else if (!stream.match(/[^#-]+/)) stream.next();
  return "comment";
}

/** Reads the next piece inside a tag that prints or steers. */
function expression(stream: StringStream, state: TemplateState, inside: "print" | "tag"): string | null {
  if (stream.match(CLOSING[inside])) {
    state.inside = "text";
    return "brace";
  }
  if (stream.eatSpace()) return null;
  if (stream.match(/"[^"]*"?|'[^']*'?|`[^`]*`?/)) return "string";
  if (stream.match(/\d+(?:\.\d+)?/)) return "number";
  if (stream.eat("|")) {
    state.afterPipe = true;
    return "operator";
  }
  const name = stream.match(/[\p{L}_][\p{L}\p{N}_.]*/u);
  if (name && typeof name === "object") {
    const { afterPipe } = state;
    // The word after `filter` is the name of a filter, as the one after a stroke is.
    state.afterPipe = inside === "tag" && name[0] === "filter";
    if (afterPipe) return "function";
    return WORDS.has(name[0]) ? "keyword" : "variableName";
  }
  stream.next();
  return "operator";
}

export const templateParser: StreamParser<TemplateState> = {
  name: "template",
  startState: () => ({ inside: "text", heading: false, afterPipe: false }),
  copyState: (state) => ({ ...state }),
  token(stream, state) {
    if (stream.sol()) state.heading = false;
    if (state.inside === "text") return text(stream, state);
    return state.inside === "comment" ? comment(stream, state) : expression(stream, state, state.inside);
  },
};
