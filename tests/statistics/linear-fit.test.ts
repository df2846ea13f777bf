import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { linearFit } from "../../src/statistics/linear-fit.ts";

const fit = (...pairs: [number, number][]) => linearFit(pairs.map(([x, y]) => ({ x, y })));

describe("linear fit", () => {
  test("four sizes worked by hand", () => {
    const found = fit([0, 40], [0.5, 41.2], [1, 41.8], [2, 44.1]);
    expect(found?.meanX).toBeCloseTo(0.875, 12);
    expect(found?.meanY).toBeCloseTo(41.775, 12);
    expect(found?.sumOfSquaresX).toBeCloseTo(2.1875, 12);
    expect(found?.slope).toBeCloseTo(2.005714, 6);
    expect(found?.intercept).toBeCloseTo(40.02, 6);
    expect(found?.residualSd).toBeCloseTo(0.2090796, 7);
    expect(found?.slopeStandardError).toBeCloseTo(0.1413636, 7);
    expect(found?.rSquared).toBeCloseTo(0.9901627, 7);
  });

  test("no line through one point, none, or points of one x", () => {
    expect(fit()).toBeNull();
    expect(fit([1, 2])).toBeNull();
    expect(fit([3, 1], [3, 2], [3, 9])).toBeNull();
  });

  test("two points fix a line and leave no scatter to judge", () => {
    const found = fit([1, 10], [3, 14]);
    expect(found).toMatchObject({ slope: 2, intercept: 8, degreesOfFreedom: 0, rSquared: 1 });
    expect(found?.residualSd).toBeNull();
    expect(found?.slopeStandardError).toBeNull();
    expect(found?.interceptStandardError).toBeNull();
  });

  test("equal heights have slope 0 and no R squared", () => {
    expect(fit([0, 5], [1, 5], [2, 5])).toMatchObject({ slope: 0, rSquared: null, residualSd: 0 });
  });

  test("calendar years cost no digits", () => {
    const near = fit([0, 40], [0.5, 41.2], [1, 41.8], [2, 44.1]);
    const far = fit([2024, 40], [2024.5, 41.2], [2025, 41.8], [2026, 44.1]);
    expect(far?.slope).toBeCloseTo(near?.slope ?? Number.NaN, 12);
    expect(far?.residualSd).toBeCloseTo(near?.residualSd ?? Number.NaN, 12);
  });

  test("points of a line give back the line", () => {
    const value = fc.integer({ min: -1000, max: 1000 });
    fc.assert(
      fc.property(
        value,
        value,
        fc.uniqueArray(value, { minLength: 3, maxLength: 12 }),
        (slope, intercept, xs) => {
          const found = linearFit(xs.map((x) => ({ x, y: intercept + slope * x })));
          expect(found?.slope).toBeCloseTo(slope, 6);
          expect(found?.intercept).toBeCloseTo(intercept, 4);
          expect(found?.residualSd).toBeCloseTo(0, 6);
        },
      ),
    );
  });
});
