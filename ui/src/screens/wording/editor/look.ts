// How the editor looks: the colours are those of the window, light and dark, and reach into the editor by their names.
import { HighlightStyle } from "@codemirror/language";
import { EditorView } from "@codemirror/view";
import { tags } from "@lezer/highlight";

export const look = EditorView.theme({
  "&": { height: "100%", color: "var(--ink)", backgroundColor: "var(--sheet)", fontSize: "0.88rem" },
  "&.cm-focused": { outline: "2px solid var(--accent)", outlineOffset: "-2px" },
  ".cm-scroller": { fontFamily: "ui-monospace, 'DejaVu Sans Mono', monospace", lineHeight: "1.5" },
  ".cm-content": { caretColor: "var(--ink)", padding: "0.4rem 0" },
  ".cm-cursor, .cm-dropCursor": { borderLeftColor: "var(--ink)" },
  "&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, .cm-selectionBackground": { backgroundColor: "color-mix(in srgb, var(--accent) 28%, transparent)" },
  ".cm-activeLine": { backgroundColor: "color-mix(in srgb, var(--accent-wash) 45%, transparent)" },
  ".cm-gutters": { backgroundColor: "var(--leaf)", color: "var(--ink-quiet)", borderRight: "1px solid var(--rule)" },
  ".cm-activeLineGutter": { backgroundColor: "var(--accent-wash)", color: "var(--ink)" },
  "&.cm-focused .cm-matchingBracket": { backgroundColor: "var(--accent-wash)", outline: "1px solid var(--line)" },
  ".cm-lintRange-error": { backgroundImage: "none", textDecorationLine: "underline", textDecorationStyle: "wavy", textDecorationColor: "var(--trouble)", textUnderlineOffset: "0.2em", backgroundColor: "var(--trouble-wash)" },
  ".cm-lintPoint-error::after": { borderBottomColor: "var(--trouble)" },
  ".cm-lint-marker": { width: "0.8em", height: "0.8em" },
  ".cm-lint-marker-error": { content: "''", display: "inline-block", borderRadius: "50%", backgroundColor: "var(--trouble)" },
  ".cm-tooltip": { backgroundColor: "var(--leaf)", color: "var(--ink)", border: "1px solid var(--line)", boxShadow: "var(--shadow)", maxWidth: "32rem" },
  ".cm-diagnostic": { fontFamily: "'Evengap Sans', sans-serif", padding: "0.3rem 0.6rem" },
  ".cm-diagnostic-error": { borderLeft: "3px solid var(--trouble)" },
  ".cm-panels": { backgroundColor: "var(--leaf)", color: "var(--ink)" },
  ".cm-panels.cm-panels-top": { borderBottom: "1px solid var(--rule)" },
  ".cm-textfield": { backgroundColor: "var(--sheet)", border: "1px solid var(--line)", borderRadius: "3px", font: "inherit", color: "inherit" },
  ".cm-button": { backgroundImage: "none", backgroundColor: "transparent", border: "1px solid var(--line)", borderRadius: "5px", font: "inherit", color: "inherit", cursor: "pointer" },
  ".cm-search": { fontFamily: "'Evengap Sans', sans-serif", fontSize: "0.84rem" },
  ".cm-panel.cm-search label": { fontSize: "inherit" },
  ".cm-panel.cm-search :is(input, button):focus-visible": { outline: "2px solid var(--accent)", outlineOffset: "1px" },
  ".cm-panel.cm-search [name=close]": { color: "inherit", fontSize: "1.1rem" },
  ".cm-searchMatch": { backgroundColor: "var(--accent-wash)", outline: "1px solid var(--line)" },
  ".cm-searchMatch-selected": { backgroundColor: "color-mix(in srgb, var(--accent) 40%, transparent)" },
});

export const colours = HighlightStyle.define([
  { tag: tags.brace, color: "var(--accent)" },
  { tag: tags.keyword, color: "var(--accent)", fontWeight: "700" },
  { tag: tags.variableName, color: "var(--accent)" },
  { tag: tags.function(tags.variableName), color: "var(--ink)", fontWeight: "600", fontStyle: "italic" },
  { tag: [tags.string, tags.number, tags.atom], color: "var(--trouble)" },
  { tag: tags.comment, color: "var(--ink-quiet)", fontStyle: "italic" },
  { tag: tags.heading, fontWeight: "700" },
  { tag: tags.strong, fontWeight: "700" },
  { tag: tags.emphasis, fontStyle: "italic" },
  { tag: tags.link, color: "var(--ink-quiet)", textDecoration: "underline" },
  { tag: [tags.list, tags.contentSeparator, tags.operator], color: "var(--ink-quiet)" },
]);
