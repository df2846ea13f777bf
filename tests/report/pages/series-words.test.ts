import { describe, expect, test } from "vitest";
import { byDecision } from "../../../src/report/pages/decisive-growth.ts";
import {
  seriesHeading,
  seriesLimits,
  seriesSentence,
} from "../../../src/report/pages/series-words.ts";
import type { PlanGrowth } from "../../../src/report/plan.ts";
import { growthOf } from "../sample-growth.ts";
import { samplePlan } from "../sample-plan.ts";

type Answer = PlanGrowth["answers"][number];

const answer = (more: Partial<Answer>): Answer => ({
  rule: "r",
  body: "Northbody",
  year: 2022,
  confirmed: true,
  limitMmPerYear: 3,
  answer: "does-not-exceed",
  outcome: "not-met",
  tellableInMonths: null,
  reason: "",
  ...more,
});

describe("order of decision", () => {
  test("exceeds, cannot tell, then the largest", () => {
    const names = byDecision(samplePlan.growth).map(({ place }) => place.id);
    expect(names).toEqual(["proximal-descending", "mid-descending", "mid-ascending", "zone-9"]);
  });

  test("an answer to a criterion that is not for the patient does not count", () => {
    const answers = [answer({ answer: "exceeds", outcome: "not-applicable" })];
    const growth = [growthOf("zone-9", { answers }), growthOf("mid-ascending", { answers: [] })];
    expect(byDecision(growth)[0]?.place.id).toBe("mid-ascending");
    expect(seriesHeading(growth[0]!)).toBe("Zone 9, infrarenal aorta: no growth limit compared");
  });
});

describe("words", () => {
  test("the most decisive answer heads, bodies with the same limit stand together", () => {
    const growth = growthOf("mid-descending", {
      answers: [
        answer({ limitMmPerYear: 10 }),
        answer({ answer: "exceeds", body: "Southbody", year: 2024 }),
        answer({ answer: "exceeds" }),
      ],
    });
    expect(seriesHeading(growth)).toBe(
      "Mid-descending aorta: exceeds 3 mm per year (Southbody 2024, Northbody 2022)",
    );
    expect(seriesSentence(growth).replaceAll("\u00a0", " ")).toBe(
      "52.1 to 57.4 mm in 3.2 years; 1.7 mm per year (± 1.5); does not exceed 10 mm per year (Northbody 2022)",
    );
  });

  test("without a rate the reason stands in its place", () => {
    const growth = growthOf("zone-9", {
      rate: null,
      rateMethod: "no rate: too short",
      answers: [],
    });
    expect(seriesSentence(growth)).toBe("22.0 to 23.3 mm in 3.2 years; no rate: too short");
  });

  test("with one comparable exam it says what keeps the one before it out", () => {
    const points = growthOf("zone-9", {}).points.map((point, index, all) => ({
      ...point,
      ...(index < all.length - 1 && {
        comparability: "not-comparable" as const,
        reasons: ["inner edge on 2024-01-01, outer edge on 2025-01-01: a shift of 3 mm (source)"],
      }),
    }));
    const growth = growthOf("zone-9", { points, rate: null, rateMethod: "no rate" });
    expect(seriesSentence(growth)).toBe(
      "no rate; not comparable: inner edge on 2024-01-01, outer edge on 2025-01-01",
    );
  });

  test("a part of the lumen is named, and the limits of the whole aorta are not drawn for it", () => {
    const whole = growthOf("mid-descending", {});
    const part = growthOf("mid-descending", { lumen: "false", answers: [] });
    expect(seriesHeading(part)).toBe("Mid-descending aorta, false lumen: no growth limit compared");
    expect(seriesLimits(samplePlan, whole)).toHaveLength(2);
    expect(seriesLimits(samplePlan, part)).toEqual([]);
  });
});
