import { describe, expect, test } from "vitest";
import { weightedFit } from "../../src/statistics/weighted-fit.ts";

const line = (...points: [x: number, y: number, sd?: number][]) =>
  weightedFit(points.map(([x, value, sd = 1]) => ({ row: [1, x], value, sd })));
const [height, slope] = [
  [1, 0],
  [0, 1],
];

describe("weighted fit", () => {
  test("four sizes worked by hand", () => {
    const fit = line([0, 40], [0.5, 41.2], [1, 41.8], [2, 44.1]);
    expect(fit?.degreesOfFreedom).toBe(2);
    expect(fit?.chiSquared).toBeCloseTo(0.0874286, 7);
    expect(fit?.combination(slope).value).toBeCloseTo(2.005714, 6);
    expect(fit?.combination(slope).standardError).toBeCloseTo(0.6761234, 7);
    expect(fit?.combination(height).value).toBeCloseTo(40.02, 6);
  });

  test("twice the precision counts as four equal readings", () => {
    const weighted = line([0, 40], [1, 43, 0.5], [2, 44]);
    const repeated = line([0, 40], [1, 43], [1, 43], [1, 43], [1, 43], [2, 44]);
    expect(weighted?.combination([1, 2]).value).toBeCloseTo(
      repeated?.combination([1, 2]).value ?? Number.NaN,
      12,
    );
    expect(weighted?.combination([1, 2]).standardError).toBeCloseTo(
      repeated?.combination([1, 2]).standardError ?? Number.NaN,
      12,
    );
  });

  test("the weights say by how much a value moves the result", () => {
    const at = [0, 1, 3] as const;
    const fit = (moved: number) => line([at[0], 40], [at[1], 43 + moved, 0.5], [at[2], 44, 2]);
    const before = fit(0)?.combination([1, 5]);
    expect((fit(1)?.combination([1, 5]).value ?? Number.NaN) - (before?.value ?? 0)).toBeCloseTo(
      before?.weights[1] ?? Number.NaN,
      10,
    );
  });

  test("no fit of fewer observations than coefficients, or of columns that depend on each other", () => {
    expect(line()).toBeNull();
    expect(line([1, 2])).toBeNull();
    expect(line([3, 1], [3, 2], [3, 9])).toBeNull();
  });

  test("calendar years cost no digits that count", () => {
    const near = line([0, 40], [0.5, 41.2], [1, 41.8], [2, 44.1]);
    const far = line([2024, 40], [2024.5, 41.2], [2025, 41.8], [2026, 44.1]);
    expect(far?.combination(slope).value).toBeCloseTo(near?.combination(slope).value ?? 0, 9);
    expect(far?.chiSquared).toBeCloseTo(near?.chiSquared ?? Number.NaN, 9);
  });
});
