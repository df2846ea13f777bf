import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import type { DoubleReading } from "../../src/growth/double-readings.ts";
import {
  estimateFor,
  estimateReadingErrors,
  fewestPairs,
} from "../../src/growth/estimated-reading-error.ts";

const pairs = (count: number, differenceMm: number, placeId = "mid-ascending"): DoubleReading[] =>
  Array.from({ length: count }, () => ({
    place: placeById(placeId),
    differenceMm,
    measurements: ["a", "b"],
  }));

describe("the reading error estimated from double readings", () => {
  test("is the root of half the mean square, with its chi-squared interval", () => {
    const [all] = estimateReadingErrors([...pairs(5, 3), ...pairs(5, -1)]);
    expect(all).toMatchObject({ region: null, pairs: 10 });
    expect(all?.sdMm).toBeCloseTo(Math.sqrt(5 / 2), 12);
    // Chi-squared with 10 degrees of freedom: 3.247 and 20.483.
    expect((all?.lowSdMm ?? 0) / (all?.sdMm ?? 1)).toBeCloseTo(Math.sqrt(10 / 20.483), 4);
    expect((all?.highSdMm ?? 0) / (all?.sdMm ?? 1)).toBeCloseTo(Math.sqrt(10 / 3.247), 4);
  });

  test("there is none from too few pairs, or from pairs that are all equal", () => {
    expect(estimateReadingErrors(pairs(fewestPairs - 1, 2))).toEqual([]);
    expect(estimateReadingErrors(pairs(fewestPairs, 0))).toEqual([]);
    expect(estimateReadingErrors([])).toEqual([]);
  });

  test("a part of the aorta with enough pairs has its own, the others that of all", () => {
    const found = estimateReadingErrors([...pairs(10, 2), ...pairs(3, 6, "zone-9")]);
    expect(found.map(({ region, pairs: count }) => [region, count])).toEqual([
      [null, 13],
      ["ascending", 10],
    ]);
    expect(estimateFor(found, "ascending")?.sdMm).toBeCloseTo(Math.SQRT2, 12);
    expect(estimateFor(found, "abdominal")?.pairs).toBe(13);
    expect(estimateFor(found, null)?.pairs).toBe(13);
    expect(estimateFor([], "ascending")).toBeNull();
  });
});
