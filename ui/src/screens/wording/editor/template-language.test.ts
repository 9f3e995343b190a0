import { StringStream } from "@codemirror/language";
import { expect, it } from "vitest";
import { templateParser } from "./template-language";

/** Gives the coloured pieces of a template as `style:piece`; what has no colour is left out. */
function pieces(template: string): string[] {
  const state = templateParser.startState?.(2) ?? { inside: "text" as const, heading: false, afterPipe: false };
  return template.split("\n").flatMap((line) => {
    const stream = new StringStream(line, 2, 2);
    const found: string[] = [];
    while (!stream.eol()) {
      stream.start = stream.pos;
      const style = templateParser.token(stream, state);
      expect(stream.pos, `a piece of “${line}” at ${stream.start}`).toBeGreaterThan(stream.start);
      if (style !== null) found.push(`${style}:${stream.current().trim()}`);
    }
    return found;
  });
}

function check(template: string, expected: string[]) {
  expect(pieces(template), template).toEqual(expected);
}

it("tells tags, names, words and filters apart", () => {
  check("Dear {{ derived.patient_name or 'patient' }},", ["brace:{{", "variableName:derived.patient_name", "keyword:or", "string:'patient'", "brace:}}"]);
  check("{% if a_b and not c %}x{%- endif -%}", ["brace:{%", "keyword:if", "variableName:a_b", "keyword:and", "keyword:not", "variableName:c", "brace:%}", "brace:{%-", "keyword:endif", "brace:-%}"]);
  check("{{ closing.skin | stop }}", ["brace:{{", "variableName:closing.skin", "operator:|", "function:stop", "brace:}}"]);
  check('{% filter row(label="Times") %}', ["brace:{%", "keyword:filter", "function:row", "operator:(", "variableName:label", "operator:=", 'string:"Times"', "operator:)", "brace:%}"]);
});

it("knows a comment over several lines, and what follows it", () => {
  check("{#- one {{ two\nthree -#}\nfour {{ five }}", ["comment:{#-", "comment:one {{ two", "comment:three", "comment:-#}", "brace:{{", "variableName:five", "brace:}}"]);
});

it("knows Markdown around the tags", () => {
  check("## Your wound", ["heading:## Your wound"]);
  check("# A {{ b }} c", ["heading:# A", "brace:{{", "variableName:b", "brace:}}", "heading:c"]);
  check("- if **your** chest *hurts*", ["list:-", "strong:**your**", "emphasis:*hurts*"]);
  check("| a | b |", ["contentSeparator:|", "contentSeparator:|", "contentSeparator:|"]);
  check("![axis](drawing:axis)", ["link:![axis](drawing:axis)"]);
  check("@cautions", ["atom:@cautions"]);
  check("see @cautions", []);
});

it("never stands still, whatever is typed", () => {
  for (const odd of ["{", "{{", "{%", "{#", "}}", "{{ '", "{{ | | }}", "**", "*", "!", "![", "|-|", "{{ §½ }}", "#", "####### seven"]) pieces(odd);
});
