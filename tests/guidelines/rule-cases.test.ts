import { globSync } from "node:fs";
import { basename } from "node:path";
import { describe, expect, test } from "vitest";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import { hasLimit, type LimitCheck, type LimitRule, type Rule } from "../../src/guidelines/rule.ts";
import { growthRuleRows } from "./growth-rule-rows.ts";
import { caseKinds, caseKindsOfAnySize, casesOfRules } from "./rule-case-list.ts";
import { bandEnds } from "./size-rule-rows.ts";
import { judge } from "./judged.ts";

const rules = new Map(loadRules().map((rule) => [rule.id, rule]));
const files = globSync("src/guidelines/rules/**/*.yaml").map((file) => basename(file, ".yaml"));

const casesOf = (id: string) => casesOfRules.get(id) ?? [];
function ruleOf(id: string): Rule {
  const rule = rules.get(id);
  if (!rule) throw new Error(`no rule ${id}`);
  return rule;
}

test.each(files)("the file of %s has a case of each kind", (id) => {
  const kinds = new Set(casesOf(id).map(({ kind }) => kind));
  const wanted = hasLimit(ruleOf(id)) ? caseKinds : caseKindsOfAnySize;
  expect([...kinds].toSorted()).toEqual([...wanted].toSorted());
});

test("no case is of a criterion that does not exist", () => {
  expect([...casesOfRules.keys()].toSorted()).toEqual(files.toSorted());
});

describe.each(files)("%s", (id) => {
  test.each(casesOf(id))("$kind: $words", ({ expected, found }) => {
    expect(found(ruleOf(id))).toBe(expected);
  });
});

/** The rule with another limit: by 1 mm or 0.1 of the unit of an index, with the other sign, with another end of its band. */
function changedLimits(rule: LimitRule): Map<string, Rule> {
  const { operator, value, below, unit } = rule.check;
  const step = unit === "mm" ? 1 : 0.1;
  const otherSign = { ">": ">=", ">=": ">", "<": ">=" } as const;
  const changes: [string, Partial<LimitCheck>][] = [
    [`+${step}`, { value: value + step }],
    [`-${step}`, { value: value - step }],
    ["other sign", { operator: otherSign[operator] }],
  ];
  if (below !== undefined) {
    changes.push(["band +1", { below: below + 1 }], ["band -1", { below: below - 1 }]);
  }
  return new Map(
    changes.map(([words, change]) => [words, { ...rule, check: { ...rule.check, ...change } }]),
  );
}

/** The rule without its symptoms, and without its statements; its diagnoses stand in `ruleGroups`. */
function changedPopulations(rule: Rule): Map<string, Rule> {
  const entries = Object.entries(rule.population);
  const facts = (["symptoms", "statements"] as const).filter(
    (fact) => rule.population[fact] !== undefined,
  );
  return new Map(
    facts.map((fact) => {
      const population = Object.fromEntries(entries.filter(([name]) => name !== fact));
      return [`no ${fact}`, { ...rule, population }];
    }),
  );
}

describe("a changed limit, or where there is none a changed population, fails a case", () => {
  test.each(files)("%s", (id) => {
    const rule = ruleOf(id);
    const changed = hasLimit(rule) ? changedLimits(rule) : changedPopulations(rule);
    const unnoticed = [...changed].filter(([, changed]) =>
      casesOf(id).every(({ expected, found }) => found(changed) === expected),
    );
    expect(unnoticed.map(([words]) => words)).toEqual([]);
  });
});

test.each(growthRuleRows)("$rule: $kind over $months months", ({ rule, kind, months }) => {
  expect(ruleOf(rule).check).toMatchObject({ kind, periodMonths: months });
});

test("every band is listed, and says so beyond its end", () => {
  const bands = [...rules.values()].filter(
    (rule) => hasLimit(rule) && rule.check.below !== undefined,
  );
  expect(Object.keys(bandEnds).toSorted()).toEqual(bands.map(({ id }) => id));
  const acta2 = { aetiology: "ACTA2" };
  const [, found] = judge(
    "acc-aha-2022-acta2-42-mm-with-risk-feature",
    [{ place: "mid-ascending", mm: 45 }],
    acta2,
  );
  expect(found?.reason).toContain("above the band");
});
