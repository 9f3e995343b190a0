// The editor of a template, loaded only when one is opened. It lives in a shadow root: there its styles are sheets
// of the document and no elements, which the window's strict content policy allows.
import { defaultKeymap, history, historyKeymap } from "@codemirror/commands";
import { bracketMatching, StreamLanguage, syntaxHighlighting } from "@codemirror/language";
import { lintGutter, lintKeymap, setDiagnostics } from "@codemirror/lint";
import { highlightSelectionMatches, search, searchKeymap } from "@codemirror/search";
import { EditorState } from "@codemirror/state";
import { drawSelection, EditorView, highlightActiveLine, highlightActiveLineGutter, keymap, lineNumbers } from "@codemirror/view";
import { tags } from "@lezer/highlight";
import type { Flaw } from "../../../types/Flaw";
import type { ViewName } from "../../../types/ViewName";
import { inserted } from "./insertion";
import { colours, look } from "./look";
import { stretchOf } from "./places";
import { templateParser } from "./template-language";

export type Editor = {
  /** Exchanges the whole text, without a way back to the one before. */
  set(text: string): void;
  /** Marks the flaws in the text. */
  flag(flaws: readonly Flaw[]): void;
  /** Puts the cursor at a place. */
  goTo(place: Pick<Flaw, "line" | "column">): void;
  /** Puts a name of the view at the cursor, in the tag that it needs there. */
  insert(name: ViewName): void;
  close(): void;
};

const language = StreamLanguage.define({ ...templateParser, tokenTable: { function: tags.function(tags.variableName) } });

/** Opens an editor in an element; `onchange` is told the text after each change by the person. */
export function mountEditor(host: HTMLElement, text: string, label: string, onchange: (text: string) => void): Editor {
  const root = host.shadowRoot ?? host.attachShadow({ mode: "open" });
  const extensions = [
    lineNumbers(),
    lintGutter(),
    history(),
    drawSelection(),
    highlightActiveLine(),
    highlightActiveLineGutter(),
    highlightSelectionMatches(),
    bracketMatching(),
    language,
    syntaxHighlighting(colours),
    search({ top: true }),
    EditorState.phrases.of({ regexp: "pattern", "by word": "whole words" }),
    // Tab is left alone, so that it leads out of the editor.
    keymap.of([...defaultKeymap, ...historyKeymap, ...searchKeymap, ...lintKeymap]),
    EditorView.lineWrapping,
    EditorView.contentAttributes.of({ "aria-label": label, spellcheck: "false" }),
    EditorView.updateListener.of((update) => {
      if (update.docChanged) onchange(update.state.doc.toString());
    }),
    look,
  ];
  const fresh = (doc: string) => EditorState.create({ doc, extensions });
  const view = new EditorView({ state: fresh(text), root, parent: root });
  const whole = () => view.state.doc.toString();
  return {
    set: (doc) => view.setState(fresh(doc)),
    flag(flaws) {
      const found = flaws.map((flaw) => ({ ...stretchOf(whole(), flaw), severity: "error" as const, message: [flaw.message, flaw.hint ?? ""].join(" ").trim() }));
      view.dispatch(setDiagnostics(view.state, found));
    },
    goTo(place) {
      const { from, to } = stretchOf(whole(), place);
      view.dispatch({ selection: { anchor: from, head: to }, effects: EditorView.scrollIntoView(from, { y: "center" }) });
      view.focus();
    },
    insert(name) {
      const { from, to } = view.state.selection.main;
      const words = inserted(whole(), from, name);
      view.dispatch({ changes: { from, to, insert: words }, selection: { anchor: from + words.length }, userEvent: "input" });
      view.focus();
    },
    close: () => view.destroy(),
  };
}
