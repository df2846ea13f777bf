import { expect, test } from "vitest";
import { computedFacts } from "../../../src/planning/prompts/computed-facts.ts";
import type { LandingViews } from "../../../src/planning/views/landing-views.ts";
import { sampleViews as viewsOf } from "../../report/sample-views.ts";

const sampleViews = viewsOf();
const coverage = (fromZone: string, mostMm: number) => ({
  fromZone,
  toZone: "5",
  leastMm: 180,
  mostMm,
  beyondBorderMm: 0,
  used: [],
});
const views = (value: number): LandingViews => {
  const [ring] = sampleViews.rings;
  if (!ring?.edge) throw new Error("the sample has no bend at its first ring");
  const edge = { ...ring.edge, innerCurvatureTimesDiameter: { value, low: 1, high: 2 } };
  return {
    ...sampleViews,
    rings: [
      { ...ring, edge },
      { ...ring, edge: null },
    ],
  };
};

test("a covered length over the site's mark is a fact, one at it is none", () => {
  const pairs = [coverage("2", 205), coverage("3", 205.1)];
  expect(computedFacts({ coverages: pairs, views: views(1) }, { coverageMm: 205 })).toEqual({
    sharpTurns: [],
    longCover: ["zone 3 to zone 5: 180.0 mm to 205.1 mm (over 205.0 mm)"],
  });
});

test.each([
  [1.39, 0],
  [1.4, 1],
  [2.2, 1],
])("inner curvature times diameter %d gives %i facts", (value, count) => {
  const { sharpTurns } = computedFacts({ coverages: [], views: views(value) }, { coverageMm: 205 });
  expect(sharpTurns).toHaveLength(count);
  for (const fact of sharpTurns ?? []) expect(fact).toContain(value.toFixed(2));
});
