import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import { sizeLimitsOfPlace } from "../../src/growth/size-limits-of-place.ts";
import { sampleAssessment } from "./sample-assessment.ts";

const limitsFrom = (...of: Parameters<typeof sampleAssessment>[0][]) =>
  sizeLimitsOfPlace(placeById("mid-ascending"), of.map(sampleAssessment));

describe("the limits that concern a place", () => {
  test("one for each size, smallest first, with all that print it", () => {
    expect(
      limitsFrom(
        { limitMm: 55, rule: "b", body: "TWO" },
        { limitMm: 50 },
        { limitMm: 55, rule: "a", body: "ONE" },
        { limitMm: 55, rule: "c", body: "ONE" },
      ),
    ).toEqual([
      { limitMm: 50, rules: ["rule-50"], sources: ["BODY 2020"] },
      { limitMm: 55, rules: ["a", "b", "c"], sources: ["ONE 2020", "TWO 2020"] },
    ]);
  });

  test.each([
    ["met", { limitMm: 45, outcome: "met" }],
    ["not for the patient", { limitMm: 55, outcome: "not-applicable" }],
    ["failed", { limitMm: 55, outcome: "rule-failed" }],
    ["decided by another place", { limitMm: 55, placeId: "sinotubular-junction" }],
    ["judged on no place", { limitMm: 55, placeId: null, outcome: "not-assessable" }],
    ["an index", { limitMm: 10, unit: "cm2/m" }],
    ["a limit from above", { limitMm: 55, operator: "<", outcome: "not-assessable" }],
    ["any size", { limitMm: null, outcome: "not-assessable" }],
    ["a band that the size has passed", { limitMm: 40, below: 45 }],
  ] as const)("left out: %s", (_, of) => {
    expect(limitsFrom(of)).toEqual([]);
  });

  test("kept: other conditions not stated, and a band not yet reached", () => {
    expect(limitsFrom({ limitMm: 45, outcome: "not-assessable" })).toHaveLength(1);
    expect(limitsFrom({ limitMm: 50, below: 55 })).toHaveLength(1);
  });
});
