import { expect, it } from "vitest";
import type { ViewNameWhat } from "../../../types/ViewNameWhat";
import { inserted } from "./insertion";

/** The cursor stands at the stroke. */
function check(template: string, name: string, what: ViewNameWhat, expected: string) {
  const at = template.indexOf("|");
  expect(inserted(template.replace("|", ""), at, { name, what }), `${name} in ${template}`).toBe(expected);
}

it("writes the bare name inside a tag", () => {
  check("Dear {{ | }},", "patient.given_name", "text", "patient.given_name");
  check("{% if | %}x{% endif %}", "derived.same_sitting", "truth", "derived.same_sitting");
});

it("writes the tag that fits elsewhere", () => {
  check("Dear |", "patient.given_name", "text", "{{ patient.given_name }}");
  check("{{ a }} |", "derived.same_sitting", "truth", "{% if derived.same_sitting %}{% endif %}");
  check("|", "components", "list", "{% for item in components %}{% endfor %}");
});

it("knows the loop around it", () => {
  check("{% for part in components %}{{ | }}{% endfor %}", "components[].lot", "text", "part.lot");
  check("{% for part in components %}|{% endfor %}", "components[].lot", "text", "{{ part.lot }}");
  check("{% for part in components %}x{% endfor %}|", "components[].lot", "text", "{% for item in components %}{{ item.lot }}{% endfor %}");
  check("{% for a in x.b %}{% for c in a.d %}| {% endfor %}", "x.b[].d[].e", "text", "{{ c.e }}");
});
