import { describe, expect, test } from "vitest";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import { ageInYears, populationOutcome } from "../../src/guidelines/population.ts";
import type { Rule } from "../../src/guidelines/rule.ts";
import { asOf, inventedCase } from "./invented-case.ts";

const [some] = loadRules();
if (!some) throw new Error("no rules");
const ruleFor = (population: Rule["population"]): Rule => ({ ...some, population });

describe("the population of a rule", () => {
  test("without questions is everybody", () => {
    expect(populationOutcome(ruleFor({}), inventedCase([]), asOf)).toEqual({ applies: true });
  });

  test("one fact that excludes decides, whatever else is missing", () => {
    const rule = ruleFor({ diagnosis: ["aneurysm"], aetiology: ["Marfan"], sex: ["F"] });
    const open = inventedCase([], { diagnoses: null, aetiology: null });
    expect(populationOutcome(rule, open, asOf)).toEqual({
      applies: false,
      reason: "it asks for sex F, stated is M",
    });
    const woman = inventedCase([], { diagnoses: null, aetiology: null }, { sex: "F" });
    expect(populationOutcome(rule, woman, asOf)).toEqual({ unknown: ["diagnosis", "aetiology"] });
  });

  test("a diagnosis that excludes stands beside others", () => {
    const rule = ruleFor({ diagnosisNot: ["type A dissection"] });
    const both = inventedCase([], { diagnoses: ["aneurysm", "type A dissection"] });
    expect(populationOutcome(rule, both, asOf)).toEqual({
      applies: false,
      reason: "it does not speak of diagnosis type A dissection",
    });
  });

  test("nothing considered is stated, an empty cell is not", () => {
    const rule = ruleFor({ considered: ["arch repair"] });
    expect(populationOutcome(rule, inventedCase([], { considered: [] }), asOf)).toMatchObject({
      applies: false,
    });
    expect(populationOutcome(rule, inventedCase([], { considered: null }), asOf)).toEqual({
      unknown: ["considered operation"],
    });
  });

  test("statements are not part of it", () => {
    const rule = ruleFor({ statements: ["invented"] });
    expect(populationOutcome(rule, inventedCase([]), asOf)).toEqual({ applies: true });
  });

  test.each([
    ["2026-03-03", false],
    ["2026-03-02", true],
  ])("more than 90 days since an onset on %s: %s", (onsetDate, applies) => {
    const rule = ruleFor({ daysSinceOnsetAbove: 90 });
    expect(populationOutcome(rule, inventedCase([], { onsetDate }), asOf)).toMatchObject({
      applies,
    });
  });

  test.each([
    [{ atLeast: 15 }, "2011-06-01", true],
    [{ atLeast: 15 }, "2011-06-02", false],
    [{ below: 15 }, "2011-06-01", false],
    [{ below: 15 }, "2011-06-02", true],
  ])("age %o, born %s: %s", (ageYears, birthDate, applies) => {
    const one = inventedCase([], {}, { birthDate });
    expect(populationOutcome(ruleFor({ ageYears }), one, asOf)).toMatchObject({ applies });
  });
});

test("age counts completed years, also from 29 February", () => {
  expect(ageInYears("2000-02-29", "2018-02-28")).toBe(17);
  expect(ageInYears("2000-02-29", "2018-03-01")).toBe(18);
});
