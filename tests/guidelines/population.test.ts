import { describe, expect, test } from "vitest";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import { populationOutcome } from "../../src/guidelines/population.ts";
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

  test("a bare aneurysm may be the one asked for, and none where another part is named beside it", () => {
    const rule = ruleFor({ diagnosis: ["arch aneurysm"] });
    const of = (diagnoses: string[]) =>
      populationOutcome(rule, inventedCase([], { diagnoses }), asOf);
    expect(of(["aneurysm"])).toEqual({ unknown: ["which part of the aorta the aneurysm is in"] });
    expect(of(["aneurysm", "arch aneurysm"])).toEqual({ applies: true });
    expect(of(["abdominal aneurysm"])).toMatchObject({ applies: false });
    const ofDissection = ruleFor({ diagnosis: ["type B dissection"] });
    expect(populationOutcome(ofDissection, inventedCase([]), asOf)).toMatchObject({
      applies: false,
    });
  });

  test("a diagnosis that no rule is for leaves every rule with a stated diagnosis out", () => {
    const of = (diagnoses: string[]) => (rule: Rule) =>
      populationOutcome(rule, inventedCase([], { diagnoses }), asOf);
    const asking = loadRules().filter(({ population }) => population.diagnosis !== undefined);
    expect(asking.length).toBeGreaterThan(10);
    for (const rule of asking) {
      expect(rule.population.diagnosis, rule.id).not.toContain("blunt traumatic injury");
      expect(of(["blunt traumatic injury"])(rule), rule.id).toMatchObject({ applies: false });
      // Beside another diagnosis it takes nothing away.
      const own = rule.population.diagnosis ?? [];
      expect(of([...own, "blunt traumatic injury"])(rule), rule.id).toEqual(of([...own])(rule));
    }
  });

  test("open statements are not part of it, those that the sheet denies are", () => {
    const outcomeOf = (population: Rule["population"]) =>
      populationOutcome(ruleFor(population), inventedCase([], { familyEvents: [] }), asOf);
    expect(outcomeOf({ statements: ["invented"] })).toEqual({ applies: true });
    expect(outcomeOf({ statements: ["family history"] })).toEqual({
      applies: false,
      reason: "it asks for family history, the case sheet states otherwise",
    });
    const factors = ["family history of aortic dissection", "age below 50 years"];
    expect(outcomeOf({ statementsAnyOf: factors })).toEqual({
      applies: false,
      reason:
        "it asks for any one of: family history of aortic dissection; age below 50 years; the case sheet states otherwise",
    });
    expect(outcomeOf({ statementsAnyOf: [...factors, "invented"] })).toEqual({ applies: true });
  });

  describe("symptoms", () => {
    const arch = (symptoms: Rule["population"]["symptoms"]): Rule => ({
      ...ruleFor({ diagnosis: ["arch aneurysm"], symptoms }),
      places: { regions: ["arch"] },
    });
    const chestPain = "recurrent chest pain without other cause";
    test.each([
      ["any", null, [], { unknown: ["symptoms"] }],
      ["any", [], [], { applies: false, reason: "it asks for symptoms, stated is none" }],
      ["any", ["hoarseness"], [], { applies: true }],
      [[chestPain], null, [], { unknown: ["symptoms"] }],
      [[chestPain], ["compression", chestPain], [], { applies: true }],
      [
        [chestPain],
        ["hoarseness"],
        [],
        { applies: false, reason: `it asks for symptoms ${chestPain}, stated is hoarseness` },
      ],
      // Another aneurysm, or one of an unknown part, may be their cause.
      ["any", ["hoarseness"], ["abdominal aneurysm"], { unknown: [/which diagnosis/] }],
      ["any", ["hoarseness"], ["aneurysm"], { unknown: [/which diagnosis/] }],
    ] as const)("%j, stated %j beside %j: %j", (wanted, stated, others, expected) => {
      const rule = arch(wanted === "any" ? wanted : [...wanted]);
      const facts = { diagnoses: ["arch aneurysm", ...others], symptoms: stated && [...stated] };
      const outcome = populationOutcome(rule, inventedCase([], facts), asOf);
      if ("unknown" in expected) {
        expect(outcome).toEqual({
          unknown: expected.unknown.map((what) => expect.stringMatching(what)),
        });
      } else expect(outcome).toEqual(expected);
    });
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
