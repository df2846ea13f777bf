import { describe, expect, test } from "vitest";
import { applyRuleDecisions } from "../../src/guidelines/apply-rule-decisions.ts";
import { assessmentOf, findingWithoutSize } from "../../src/guidelines/assessment.ts";
import { evaluateRules } from "../../src/guidelines/evaluate-rules.ts";
import { loadRules, rulesDigest } from "../../src/guidelines/load-rules.ts";
import type { Rule } from "../../src/guidelines/rule.ts";
import { parseSiteConfig } from "../../src/site/site-config.ts";
import { asOf, inventedCase } from "./invented-case.ts";

const shipped = loadRules();
/** From memory, ">= 5.5 cm", class 1, level B-NR. */
const recalled = "acc-aha-2022-descending-55-mm";
/** Seen, ">= 55 mm", class I, level B. */
const seen = "esc-2024-descending-55-mm";
/** From memory, class and level not known. */
const withoutClass = "esvs-2024-iliac-40-mm";
/** Seen, a band: 5.0 to 5.4 cm. */
const band = "svs-2018-abdominal-women-50-to-54-mm";
const growth = "acc-aha-2022-descending-growth-5-mm-in-1-year";

const by = "by: aortic team, date: 2026-02-01";
const source = "against: invented printed page 7";

/** What the decisions of a site file, each one flow map, make of the rules that ship. */
function decided(...decisions: string[]) {
  const text = `rules:\n${decisions.map((one) => `  - {${one}}\n`).join("")}`;
  const { site, messages } = parseSiteConfig(text, "site.yaml");
  expect(messages).toEqual([]);
  return applyRuleDecisions(shipped, site?.rules ?? []);
}

function ruleIn(rules: readonly Rule[], id: string): Rule {
  const rule = rules.find((one) => one.id === id);
  if (!rule) throw new Error(`no rule ${id}`);
  return rule;
}

const assessed = (rule: Rule) => assessmentOf(rule, findingWithoutSize("not-met", "invented"));

describe("no decision", () => {
  test("leaves the rules as they ship", () => {
    expect(applyRuleDecisions(shipped, [])).toEqual({ rules: shipped, hidden: [], messages: [] });
  });
});

describe("a confirmed rule", () => {
  test("says who compared it with what and when; limit, class and level count as confirmed", () => {
    const { rules } = decided(`rule: ${recalled}, decision: confirm, ${source}, ${by}`);
    expect(assessed(ruleIn(shipped, recalled))).toMatchObject({
      confirmed: false,
      checkedAgainst: null,
      recommendation: { class: "1", level: "B-NR", confirmed: false },
    });
    expect(assessed(ruleIn(rules, recalled))).toMatchObject({
      title: ruleIn(shipped, recalled).title,
      confirmed: true,
      checkedAgainst: "invented printed page 7, confirmed by aortic team on 2026-02-01",
      recommendation: { class: "1", level: "B-NR", confirmed: true },
      limit: { operator: ">=", value: 55, printed: "5.5 cm" },
    });
    expect(rules.map(({ id }) => id)).toEqual(shipped.map(({ id }) => id));
  });

  test("keeps what it was compared with before", () => {
    const { rules } = decided(`rule: ${seen}, decision: confirm, ${source}, ${by}`);
    expect(assessed(ruleIn(rules, seen)).checkedAgainst).toBe(
      "guideline text, Recommendation Table 40, page 3613; invented printed page 7, confirmed by aortic team on 2026-02-01",
    );
  });

  test("a class that is not known stays unknown", () => {
    const { rules } = decided(`rule: ${withoutClass}, decision: confirm, ${source}, ${by}`);
    expect(ruleIn(rules, withoutClass).recommendation).toEqual({
      class: null,
      level: null,
      confirmed: false,
    });
  });
});

describe("a corrected rule", () => {
  const correct = (id: string, what: string) =>
    decided(`rule: ${id}, decision: correct, ${source}, ${by}, ${what}`);

  test("has the corrected limit and keeps the former one in words", () => {
    const { rules, messages } = correct(recalled, 'value: 60, operator: ">", printed: 6.0 cm');
    expect(messages).toEqual([]);
    expect(assessed(ruleIn(rules, recalled))).toMatchObject({
      title: "Degenerative descending aneurysm, 5.5 cm (corrected by the site: > 6.0 cm)",
      confirmed: true,
      checkedAgainst:
        "invented printed page 7, corrected by aortic team on 2026-02-01 (was >= 5.5 cm from memory)",
      recommendation: { class: "1", level: "B-NR", confirmed: true },
      limit: { operator: ">", value: 60, below: null, unit: "mm", printed: "6.0 cm" },
    });
    const outcomeAt = (mm: number) =>
      evaluateRules(
        inventedCase([{ place: "zone-4", mm }]),
        rules.filter(({ id }) => id === recalled),
        { asOf, readingSdMmOf: () => null },
      ).map(({ outcome }) => outcome);
    expect([outcomeAt(60), outcomeAt(60.1)]).toEqual([["not-met"], ["met"]]);
  });

  test("class and level alone: the limit and the title stay", () => {
    const { rules } = correct(recalled, "class: 2a, level: C-LD");
    expect(ruleIn(rules, recalled)).toMatchObject({
      title: ruleIn(shipped, recalled).title,
      check: ruleIn(shipped, recalled).check,
      recommendation: { class: "2a", level: "C-LD", confirmed: true },
      checked: { was: "class 1 from memory, level B-NR from memory" },
    });
  });

  test("a class where none was known", () => {
    const { rules } = correct(withoutClass, "class: IIa");
    expect(ruleIn(rules, withoutClass)).toMatchObject({
      recommendation: { class: "IIa", level: null, confirmed: true },
      checked: { was: "class not given" },
    });
  });

  test("a limit that was seen has no origin in memory", () => {
    const { rules } = correct(seen, 'operator: ">"');
    expect(ruleIn(rules, seen)).toMatchObject({
      check: { operator: ">", value: 55, printed: "55 mm" },
      checked: { was: ">= 55 mm" },
    });
  });

  test("a new value without an upper end is no band; an upper end of its own makes one", () => {
    const open = correct(band, "value: 50, printed: 5.0 cm");
    expect(ruleIn(open.rules, band).check).not.toHaveProperty("below");
    const narrower = correct(band, "below: 53, printed: 5.0 to 5.2 cm");
    expect(ruleIn(narrower.rules, band).check).toMatchObject({ value: 50, below: 53 });
  });

  test("a growth limit keeps its period", () => {
    const { rules } = correct(growth, "value: 3, printed: 0.3 cm in 1 year");
    expect(ruleIn(rules, growth).check).toMatchObject({ value: 3, periodMonths: 12 });
  });

  test.each([
    [recalled, "value: 6, printed: 6 cm", "rule-correction-not-as-printed", '"6 cm" is not 6 mm'],
    [recalled, "value: 60, printed: six cm", "rule-correction-not-as-printed", '"six cm"'],
    [recalled, "below: 60, printed: 6.0 cm", "rule-correction-not-as-printed", "is not 55 mm"],
    [band, "value: 60, below: 55, printed: 6.0 cm", "rule-correction-empty-band", "end 55 mm"],
  ])("%s, %s: %s, and the rule stays as it ships", (id, what, code, words) => {
    const { rules, messages } = correct(id, what);
    expect(messages).toMatchObject([
      { code, severity: "error", place: { file: "site.yaml", at: "line 2" } },
    ]);
    expect(messages[0]?.text).toContain(words);
    expect(ruleIn(rules, id)).toEqual(ruleIn(shipped, id));
  });
});

describe("a rule that holds at any size, or below a limit", () => {
  const anySize = "acc-aha-2022-abdominal-any-size-with-symptoms";
  const fromAbove = "acc-aha-2022-descending-below-55-mm-with-risk-factor";

  test.each([
    [anySize, "value: 55, printed: 5.5 cm", "any size", "class and level only"],
    [anySize, 'operator: ">"', "any size", "class and level only"],
    [fromAbove, 'operator: ">="', "< 5.5 cm", "class, level, value and printed only"],
    [fromAbove, "below: 60, printed: 5.5 cm", "< 5.5 cm", "class, level, value and printed only"],
  ])("%s: %s is not possible, and the rule stays as it ships", (id, what, limit, kept) => {
    const { rules, messages } = decided(
      `rule: ${id}, decision: correct, ${source}, ${by}, ${what}`,
    );
    expect(messages).toMatchObject([
      { code: "rule-correction-not-possible", severity: "error", place: { at: "line 2" } },
    ]);
    expect(messages[0]?.text).toContain(`(${limit})`);
    expect(messages[0]?.remedy).toContain(kept);
    expect(ruleIn(rules, id)).toEqual(ruleIn(shipped, id));
  });

  test("its class, and the value of a limit from above, can be corrected", () => {
    const { rules, messages } = decided(
      `rule: ${anySize}, decision: correct, ${source}, ${by}, level: B-NR`,
      `rule: ${fromAbove}, decision: correct, ${source}, ${by}, value: 50, printed: 5.0 cm`,
    );
    expect(messages).toEqual([]);
    expect(assessed(ruleIn(rules, anySize))).toMatchObject({
      title: ruleIn(shipped, anySize).title,
      limit: null,
      recommendation: { class: "1", level: "B-NR", confirmed: true },
    });
    expect(assessed(ruleIn(rules, fromAbove)).limit).toMatchObject({ operator: "<", value: 50 });
  });
});

describe("a hidden rule", () => {
  test("is out of force and listed with date, role and reason", () => {
    const { rules, hidden, messages } = decided(
      `rule: ${recalled}, decision: hide, reason: not used here, ${by}`,
    );
    expect(messages).toEqual([]);
    expect(rules).toEqual(shipped.filter(({ id }) => id !== recalled));
    expect(hidden).toMatchObject([
      {
        rule: { id: recalled },
        decision: { by: "aortic team", date: "2026-02-01", reason: "not used here" },
      },
    ]);
  });
});

test("a decision about no rule is told with its line and the nearest id; the others are followed", () => {
  const { rules, messages } = decided(
    `rule: ${recalled}, decision: confirm, ${source}, ${by}`,
    `rule: esc-2024-decsending-55-mm, decision: confirm, ${source}, ${by}`,
    `rule: my own, decision: hide, reason: none, ${by}`,
  );
  expect(messages).toMatchObject([
    {
      code: "rule-decision-without-rule",
      place: { file: "site.yaml", at: "line 3" },
      text: `site file, rules: there is no criterion esc-2024-decsending-55-mm; did you mean ${seen}?`,
    },
    { place: { at: "line 4" }, text: "site file, rules: there is no criterion my own" },
  ]);
  expect(ruleIn(rules, recalled).checked.how).toBe("site");
});

test.each([
  ["confirm", `decision: confirm, ${source}`],
  ["correct", `decision: correct, class: 2a, ${source}`],
  ["hide", "decision: hide, reason: not used here"],
])("the digest changes with a decision to %s", (_, what) => {
  const { rules } = decided(`rule: ${recalled}, ${what}, ${by}`);
  expect(rulesDigest(rules)).not.toBe(rulesDigest(shipped));
});
