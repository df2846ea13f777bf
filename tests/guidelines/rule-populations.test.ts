import { describe, expect, test } from "vitest";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import { hasLimit, type Rule } from "../../src/guidelines/rule.ts";
import { partsOf } from "../../src/guidelines/rule-places.ts";
import { ruleGroups, ruleStatements } from "./rule-groups.ts";
import { columnsOf } from "./text-table.ts";

const rules = loadRules();

let group = "";
const groupOfRule = new Map<string, string>();
for (const line of ruleGroups.trim().split("\n")) {
  if (line.startsWith("  ")) groupOfRule.set(line.trim(), group);
  else group = line;
}

/** The line of a group, from a rule. */
function groupLine({ places, population }: Rule): string {
  const words = (list: readonly string[] | undefined, empty: string) => list?.join(", ") ?? empty;
  return [
    `places ${words(places.regions ?? places.ids, "none")}`,
    `causes ${words(population.aetiology, "any")}`,
    `diagnoses ${words(population.diagnosis, "any")}`,
    `not ${words(population.diagnosisNot, "none")}`,
  ].join(" | ");
}

test("every rule is in one group", () => {
  expect([...groupOfRule.keys()].toSorted()).toEqual(rules.map(({ id }) => id));
});

test.each(rules)("$id speaks of its places and patients", (rule) => {
  expect(groupLine(rule)).toBe(groupOfRule.get(rule.id));
});

test("the further conditions are as listed, and no other rule has any", () => {
  const stated = rules.flatMap(({ id, population: { statements, statementsAnyOf } }) =>
    statements === undefined && statementsAnyOf === undefined
      ? []
      : [[id, String(statementsAnyOf?.length ?? 0), statements?.join(" + ") ?? "-"]],
  );
  expect(stated).toEqual(columnsOf(ruleStatements));
});

describe("what an id says is in the rule", () => {
  test("any size has no limit and asks for the aneurysms of its parts, below 55 mm has one from above", () => {
    const idsOf = (list: readonly Rule[]) => list.map(({ id }) => id);
    const ofAnySize = rules.filter((rule) => !hasLimit(rule));
    expect(idsOf(ofAnySize)).toEqual(idsOf(rules.filter(({ id }) => id.includes("any-size"))));
    for (const rule of ofAnySize) {
      expect(
        partsOf(rule).map(({ aneurysm }) => aneurysm),
        rule.id,
      ).toEqual(rule.population.diagnosis);
    }
    const fromAbove = rules.filter((rule) => hasLimit(rule) && rule.check.operator === "<");
    expect(idsOf(fromAbove)).toEqual(idsOf(rules.filter(({ id }) => id.includes("-below-"))));
  });

  test.each([
    [/with-symptoms/, "any"],
    [/recurrent-chest-pain/, ["recurrent chest pain without other cause"]],
    [/with-pain/, ["pain attributable to the aorta"]],
  ])("%s is for %j alone", (pattern, symptoms) => {
    const named = rules.filter(({ id }) => pattern.test(id));
    expect(named.length).toBeGreaterThan(0);
    for (const { id, population } of named) expect(population.symptoms, id).toEqual(symptoms);
    const asking = rules.filter(
      ({ population }) => JSON.stringify(population.symptoms) === JSON.stringify(symptoms),
    );
    expect(asking).toEqual(named);
  });

  test.each([
    [/with-valve-surgery/, "aortic valve surgery"],
    [/with-other-cardiac-surgery/, "other cardiac surgery"],
    [/with-ascending-repair/, "ascending repair"],
  ] as const)("%s is for %s alone", (pattern, operation) => {
    const named = rules.filter(({ id }) => pattern.test(id));
    expect(named.length).toBeGreaterThan(0);
    for (const { id, population } of named) expect(population.considered, id).toEqual([operation]);
    const asking = rules.filter(({ population }) => population.considered?.includes(operation));
    expect(asking).toEqual(named);
  });

  test.each([
    [/-men-/, ["M"]],
    [/-women-|before-pregnancy/, ["F"]],
  ])("%s is for sex %s alone", (pattern, sex) => {
    const named = rules.filter(({ id }) => pattern.test(id));
    expect(named.length).toBeGreaterThan(0);
    for (const { id, population } of named) expect(population.sex, id).toEqual(sex);
  });

  test("chronic is more than 90 days, Turner criteria are for 15 years and more", () => {
    for (const { id, population } of rules) {
      expect(population.daysSinceOnsetAbove, id).toBe(id.includes("chronic") ? 90 : undefined);
      const isTurner = id.includes("turner") && !id.includes("before-pregnancy");
      expect(population.ageYears?.atLeast, id).toBe(isTurner ? 15 : undefined);
    }
  });
});
