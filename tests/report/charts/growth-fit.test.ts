import { describe, expect, test } from "vitest";
import { fittedBand, yearsBetween } from "../../../src/report/charts/growth-fit.ts";
import { growthOf } from "../sample-growth.ts";

const point = (date: string, value: number, comparable = true) => ({
  exam: date,
  date,
  values: [value],
  measurements: [],
  low: value - 4,
  high: value + 4,
  edge: "outer" as const,
  sdMm: 2,
  plane: "unstated" as const,
  phase: "unstated" as const,
  comparability: comparable ? ("comparable" as const) : ("not-comparable" as const),
  reasons: [],
  offset: null,
});

describe("fittedBand", () => {
  test("runs through the mean with the rate's slope, widest at the ends", () => {
    const growth = growthOf("zone-9", {
      points: [point("2020-01-01", 40), point("2022-01-01", 44)],
      rate: { value: 2, low: 1, high: 3, unit: "mm/year" },
    });
    const [first, middle, last] = fittedBand(growth);
    const halfSpan = yearsBetween("2020-01-01", "2022-01-01") / 2;
    expect(first?.valueMm).toBeCloseTo(42 - 2 * halfSpan, 10);
    expect(first?.lowMm).toBeCloseTo(42 - 3 * halfSpan, 10);
    expect(first?.highMm).toBeCloseTo(42 - 1 * halfSpan, 10);
    expect(middle).toMatchObject({ valueMm: 42, lowMm: 42, highMm: 42 });
    expect(last?.highMm).toBeCloseTo(42 + 3 * halfSpan, 10);
  });

  test("leaves points out that are not comparable, and needs two that are", () => {
    const rate = { value: 2, low: null, high: null, unit: "mm/year" };
    const one = [point("2019-01-01", 90, false), point("2020-01-01", 40)];
    expect(fittedBand(growthOf("zone-9", { points: one, rate }))).toEqual([]);
    const two = fittedBand(growthOf("zone-9", { points: [...one, point("2021-01-01", 42)], rate }));
    expect(two[0]?.date).toBe("2020-01-01");
    expect(two[0]?.lowMm).toBe(two[0]?.valueMm);
  });

  test("is empty without a rate", () => {
    const points = [point("2020-01-01", 40), point("2022-01-01", 44)];
    expect(fittedBand(growthOf("zone-9", { points, rate: null }))).toEqual([]);
  });
});
