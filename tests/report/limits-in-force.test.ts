import { expect, test } from "vitest";
import { hasUnconfirmed, limitLabel, limitsInForce } from "../../src/report/limits-in-force.ts";
import type { Plan, PlanAssessment } from "../../src/report/plan.ts";
import { assessment } from "./sample-criteria.ts";
import { samplePlan } from "./sample-plan.ts";

const labels = (...assessments: PlanAssessment[]): string[] =>
  limitsInForce({ ...samplePlan, assessments } satisfies Plan, "mid-descending").map(limitLabel);

const limit = (value: number, unit = "mm") => ({
  operator: ">=" as const,
  value,
  below: null,
  unit,
  printed: `${value} ${unit}`,
});
const by = (body: string, year: number) => ({ body, year, where: "", doi: null });

test("limits stand lowest first, each once with all that print it", () => {
  const rows = [
    assessment("a", { limit: limit(60), source: by("Southbody", 2024) }),
    assessment("b", { limit: limit(55), source: by("Southbody", 2024), outcome: "not-met" }),
    assessment("c", { limit: limit(55), source: by("Northbody", 2022) }),
    assessment("d", { limit: limit(55), source: by("Northbody", 2022) }),
  ];
  expect(labels(...rows)).toEqual(["55 Northbody 2022, Southbody 2024", "60 Southbody 2024"]);
});

test("a source is marked where one of its rules is not confirmed", () => {
  const rows = [assessment("a", {}), assessment("b", { confirmed: false })];
  expect(labels(...rows)).toEqual(["55 Northbody 2022*"]);
  const plan = { ...samplePlan, assessments: rows };
  expect(hasUnconfirmed(limitsInForce(plan, "mid-descending"))).toBe(true);
});

test("indices, growth limits, other places and criteria that were not compared are left out", () => {
  expect(
    labels(
      assessment("a", { limit: limit(3.2, "cm/m") }),
      assessment("invented-growth-north", { limit: limit(3) }),
      assessment("below", { limit: { ...limit(55), operator: "<" } }),
      assessment("any size", { limit: null, value: null }),
      assessment("b", { about: null }),
      assessment("c", { outcome: "not-assessable" }),
      assessment("d", { outcome: "not-applicable" }),
      assessment("e", { outcome: "rule-failed" }),
    ),
  ).toEqual([]);
});
