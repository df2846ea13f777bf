import { describe, expect, test } from "vitest";
import { evaluateRules } from "../../src/guidelines/evaluate-rules.ts";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import { populationOutcome } from "../../src/guidelines/population.ts";
import type { Rule } from "../../src/guidelines/rule.ts";
import { sizeAnswer } from "../../src/guidelines/size-limit.ts";
import { growthRuleRows } from "./growth-rule-rows.ts";
import { asOf, inventedCase } from "./invented-case.ts";
import { type FactName, type PatientName, patients, withoutFact } from "./patients.ts";
import { sizeRuleRows } from "./size-rule-rows.ts";

const rules = loadRules();

function ruleOf(id: string): Rule {
  const rule = rules.find((one) => one.id === id);
  if (!rule) throw new Error(`no rule ${id}`);
  return rule;
}

function patientCase(name: PatientName, place: string, mm: number, without?: FactName) {
  const { facts, patient = {} } = { patient: undefined, ...patients[name] };
  const blank = without === undefined ? { facts: {} } : withoutFact[without];
  return inventedCase(
    [{ place, mm }],
    { ...facts, ...blank.facts },
    { ...patient, ...("patient" in blank ? blank.patient : {}) },
  );
}

/** The assessment of the part that the place lies in, or the only one. */
function assess(rule: Rule, one: ReturnType<typeof patientCase>) {
  const found = evaluateRules(one, [rule], { asOf, readingSdMmOf: () => null });
  const judged = found.find(({ about }) => about !== null) ?? found[0];
  if (!judged) throw new Error(`no assessment by ${rule.id}`);
  return judged;
}

test("every rule has its row", () => {
  const listed = [...sizeRuleRows, ...growthRuleRows].map(({ rule }) => rule);
  expect(listed.toSorted()).toEqual(rules.map(({ id }) => id));
});

describe.each(sizeRuleRows)("$rule", (row) => {
  const { patient, place, below, on, above, outcomeOn, outcomeAbove, notFor, fact } = row;
  const rule = ruleOf(row.rule);

  test.each([
    [below, "not-met"],
    [on, outcomeOn],
    [above, outcomeAbove],
  ])("%d mm is %s", (mm, outcome) => {
    const found = assess(rule, patientCase(patient, place, mm));
    expect(found).toMatchObject({ outcome, about: { id: place }, used: ["M0"] });
    expect(found.missing.length > 0).toBe(outcome === "not-assessable");
  });

  test(`is not for ${notFor}`, () => {
    const found = assess(rule, patientCase(notFor, place, above));
    expect(found).toMatchObject({ outcome: "not-applicable", about: null, missing: [] });
  });

  test(`can't be judged without ${fact}`, () => {
    const found = assess(rule, patientCase(patient, place, above, fact));
    expect(found).toMatchObject({ outcome: "not-assessable", missing: [fact] });
  });
});

describe.each(growthRuleRows)("$rule", (row) => {
  const { kind, months, patient, below, on, above, answerOn, notFor, fact } = row;
  const rule = ruleOf(row.rule);
  const { check } = rule;

  test(`compares growth over ${months} months with its limit`, () => {
    expect(check).toMatchObject({ kind, periodMonths: months });
    expect(sizeAnswer(below, check)).toBe("below");
    expect(sizeAnswer(on, check)).toBe(answerOn);
    expect(sizeAnswer(above, check)).toBe("met");
  });

  test("speaks of its population only", () => {
    const at = (who: PatientName, without?: FactName) =>
      populationOutcome(rule, patientCase(who, "zone-9", 40, without), asOf);
    expect(at(patient)).toEqual({ applies: true });
    expect(at(notFor)).toMatchObject({ applies: false });
    expect(at(patient, fact)).toEqual({ unknown: [fact] });
  });
});

describe("a printed band", () => {
  test.each([
    ["acc-aha-2022-bicuspid-50-to-54-mm-with-risk-factor", "bicuspid", "mid-ascending", 55],
    ["acc-aha-2022-bicuspid-50-to-54-mm-low-risk", "bicuspid", "mid-ascending", 55],
    ["acc-aha-2022-acta2-42-mm-with-risk-feature", "acta2", "mid-ascending", 45],
    ["svs-2018-abdominal-women-50-to-54-mm", "woman", "zone-9", 55],
  ] as const)("%s ends below %s %s %d mm", (id, name, place, mm) => {
    const found = assess(ruleOf(id), patientCase(name, place, mm));
    expect(found.outcome).toBe("not-met");
    expect(found.reason).toContain("above the band");
  });
});
