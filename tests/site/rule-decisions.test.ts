import { describe, expect, test } from "vitest";
import { parseSiteConfig } from "../../src/site/site-config.ts";

const decisions = `issuer: EXAMPLE

rules:
  - rule: invented-one
    decision: confirm
    against: invented page 1
    by: aortic team
    date: 2026-02-01
  - date: 2026-02-02
    by: aortic team
    rule: invented-two
    decision: correct
    against: invented page 2
    operator: ">"
    value: 60
    printed: 60 mm
  - { rule: invented-three, decision: hide, reason: not used here, by: aortic team, date: 2026-02-03 }
`;

describe("decisions about criteria in the site file", () => {
  test("stand with the line that names their criterion", () => {
    const { site, messages } = parseSiteConfig(decisions, "site.yaml");
    expect(messages).toEqual([]);
    const at = (line: number) => ({ file: "site.yaml", sha256: null, at: `line ${line}` });
    expect(site?.rules).toEqual([
      {
        rule: "invented-one",
        decision: "confirm",
        against: "invented page 1",
        by: "aortic team",
        date: "2026-02-01",
        place: at(4),
      },
      {
        rule: "invented-two",
        decision: "correct",
        against: "invented page 2",
        operator: ">",
        value: 60,
        printed: "60 mm",
        by: "aortic team",
        date: "2026-02-02",
        place: at(11),
      },
      {
        rule: "invented-three",
        decision: "hide",
        reason: "not used here",
        by: "aortic team",
        date: "2026-02-03",
        place: at(17),
      },
    ]);
  });

  test.each([
    ["another decision", "decision: confirm", "decision: confrim", "line 5", "decision"],
    ["a confirmation without source", "    against: invented page 1\n", "", "line 4", "against"],
    ["a correction without source", "    against: invented page 2\n", "", "line 9", "against"],
    [
      "no role",
      "    by: aortic team\n    date: 2026-02-01",
      "    date: 2026-02-01",
      "line 4",
      "by",
    ],
    ["a day that does not exist", "2026-02-01", "2026-02-30", "line 8", "YYYY-MM-DD"],
    ["a hidden one without reason", "reason: not used here, ", "", "line 17", "reason"],
    ["a sign that does not exist", 'operator: ">"', 'operator: "=>"', "line 14", "=>"],
    ["a value without printed", "    printed: 60 mm\n", "", "line 9", "printed: is missing"],
    ["printed without a value", "    value: 60\n", "", "line 15", "value and printed"],
    ["a limit of nothing", "value: 60", "value: 0", "line 15", "Too small"],
    [
      "a correction of nothing",
      '    operator: ">"\n    value: 60\n    printed: 60 mm\n',
      "",
      "line 9",
      "say what is corrected",
    ],
    ["a limit in a confirmation", "invented page 1\n", "page\n    value: 60\n", "line 7", "value"],
    ["one criterion twice", "rule: invented-two", "rule: invented-one", "line 11", "decided twice"],
  ])("%s is refused with its line", (_, good, bad, at, what) => {
    expect(decisions).toContain(good);
    const { site, messages } = parseSiteConfig(decisions.replace(good, bad), "site.yaml");
    expect(site).toBeNull();
    const said = messages.find(({ text }) => text.includes(what));
    expect(said?.place?.at, messages.map(({ text }) => text).join("\n")).toBe(at);
  });
});
