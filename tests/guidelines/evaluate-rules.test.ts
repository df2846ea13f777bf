import { describe, expect, expectTypeOf, test } from "vitest";
import type { AorticPlace } from "../../src/anatomy/places.ts";
import type { Assessment } from "../../src/guidelines/assessment.ts";
import { evaluateRules } from "../../src/guidelines/evaluate-rules.ts";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import type { Rule } from "../../src/guidelines/rule.ts";
import type { PlanAssessment } from "../../src/report/plan.ts";
import { asOf, inventedCase } from "./invented-case.ts";
import { descending, judge } from "./judged.ts";

const shipped = loadRules();

test("an assessment has the form of the plan report, with the whole place", () => {
  expectTypeOf<Omit<Assessment, "about">>().toEqualTypeOf<Omit<PlanAssessment, "about">>();
  expectTypeOf<Assessment["about"]>().toEqualTypeOf<AorticPlace | null>();
});

describe("the limit", () => {
  test("noise of binary arithmetic counts as on the limit, a real difference does not", () => {
    expect(descending([{ place: "zone-4", mm: 54.99999999999 }]).outcome).toBe("met");
    const below = descending([{ place: "zone-4", mm: 54.9996 }]);
    expect(below.outcome).toBe("not-met");
    expect(below.reason).toContain("54.9996 mm");
  });

  test("a 95 % interval of 1.96 SD says whether it holds the limit", () => {
    const near = descending([{ place: "zone-4", mm: 54 }], {}, 1);
    expect(near.value).toEqual({ value: 54, low: 52.04, high: 55.96, unit: "mm" });
    expect(near.spansLimit).toBe(true);
    expect(descending([{ place: "zone-4", mm: 53 }], {}, 1).spansLimit).toBe(false);
  });

  test("the interval of an index goes through its formula", () => {
    const [, found] = judge(
      "acc-aha-2022-ascending-height-index-3-21",
      [{ place: "mid-ascending", mm: 51 }],
      {},
      1,
    );
    expect(found?.value?.value).toBeCloseTo(3, 10);
    expect(found?.value?.low).toBeCloseTo((5.1 - 0.196) / 1.7, 10);
    expect(found?.value?.high).toBeCloseTo((5.1 + 0.196) / 1.7, 10);
    expect(found?.reason).toContain("aortic height index 3 cm/m (height 170 cm)");
  });

  test("an index without body size names what is missing", () => {
    const missingOf = (id: string) =>
      judge(id, [{ place: "mid-ascending", mm: 51 }], { heightCm: null, weightKg: null })[1]
        ?.missing;
    expect(missingOf("acc-aha-2022-ascending-size-index-3-08")).toEqual(["height", "weight"]);
    expect(missingOf("acc-aha-2022-ascending-height-index-3-21")).toEqual(["height"]);
  });
});

describe("conditions that no sheet states", () => {
  const id = "acc-aha-2022-ascending-50-mm-experienced-team";

  test("leave the rule open only where the size is reached", () => {
    const at = (mm: number) => judge(id, [{ place: "mid-ascending", mm }])[1];
    expect(at(50)).toMatchObject({
      outcome: "not-assessable",
      missing: ["experienced surgeons in a multidisciplinary aortic team"],
    });
    expect(at(50)?.reason).toContain("the size part >= 5.0 cm is met");
    expect(at(49)).toMatchObject({ outcome: "not-met", missing: [] });
  });

  test("one of several factors is enough, and the sheet may state it", () => {
    const missingAt = (heightCm: number) =>
      judge("esc-2024-ascending-50-mm-with-risk-factor", [{ place: "zone-0", mm: 51 }], {
        heightCm,
      })[1]?.missing;
    expect(missingAt(168)).toEqual(["low predicted surgical risk"]);
    expect(missingAt(169)?.[1]).toMatch(/^any one of: growth of 3 mm per year or more; /);
    expect(missingAt(169)?.[1]).not.toContain("height");
  });
});

test("a rule that fails says so, and the others go on", () => {
  const good = shipped.filter(({ id }) => id === "esc-2024-descending-55-mm");
  const [first] = good;
  if (!first) throw new Error("no rule");
  const bad: Rule = { ...first, id: "a-bad-rule", places: { ids: ["nowhere"] } };
  const found = evaluateRules(inventedCase([{ place: "zone-4", mm: 56 }]), [...good, bad], {
    asOf,
    readingSdMmOf: () => null,
  });
  expect(found.map(({ rule, outcome }) => [rule, outcome])).toEqual([
    ["a-bad-rule", "rule-failed"],
    ["esc-2024-descending-55-mm", "met"],
  ]);
  expect(found[0]?.reason).toContain("no place nowhere");
});

test("all rules on one patient: ordered by id, every open one names what is missing", () => {
  const diameters = ["sinuses-of-valsalva", "mid-ascending", "mid-arch", "zone-4", "zone-9"];
  const found = evaluateRules(
    inventedCase(diameters.map((place) => ({ place, mm: 57 }))),
    shipped,
    { asOf, readingSdMmOf: () => 1.9 },
  );
  const ids = found.map(({ rule }) => rule);
  expect(ids).toEqual(ids.toSorted());
  expect(found.filter(({ outcome }) => outcome === "rule-failed")).toEqual([]);
  for (const { rule, outcome, missing, about } of found) {
    expect(missing.length > 0, rule).toBe(outcome === "not-assessable");
    if (outcome === "met" || outcome === "not-met") expect(about, rule).not.toBeNull();
  }
});
