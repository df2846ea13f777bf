/*
 * Sources:
 * - NIST Statistical Reference Datasets, linear regression, "Norris" (36 pairs, certified values),
 *   https://www.itl.nist.gov/div898/strd/lls/data/Norris.shtml. Pairs and certified values were compared in two
 *   public copies; the four sums below guard the transcription.
 * - Student's t, upper critical values: NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.2 (three
 *   decimals; the fourth decimal here is from SciPy, and rounds to them).
 * - Closed forms of the t quantile for 1 degree of freedom (Cauchy) and 2 degrees of freedom.
 */
import { describe, expect, test } from "vitest";
import { linearFit } from "../../src/statistics/linear-fit.ts";
import { normalQuantile975 } from "../../src/statistics/normal-quantile.ts";
import { studentTQuantile } from "../../src/statistics/student-t.ts";

const x = [
  0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9,
  338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0,
  779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
];
const y = [
  0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8,
  339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5,
  778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
];
const pairs = x.map((value, index) => ({ x: value, y: y[index] ?? Number.NaN }));

describe("NIST Norris", () => {
  test("the pairs are transcribed right", () => {
    const total = (of: (pair: { x: number; y: number }) => number) =>
      pairs.reduce((sum, pair) => sum + of(pair), 0);
    expect(pairs).toHaveLength(36);
    expect(total((pair) => pair.x)).toBeCloseTo(15_090.4, 6);
    expect(total((pair) => pair.y)).toBeCloseTo(15_112.9, 6);
    expect(total((pair) => pair.x ** 2)).toBeCloseTo(10_563_553.36, 4);
    expect(total((pair) => pair.x * pair.y)).toBeCloseTo(10_581_955.92, 4);
  });

  const fit = linearFit(pairs);
  test.each([
    ["intercept", -0.262323073774029],
    ["interceptStandardError", 0.232818234301152],
    ["slope", 1.00211681802045],
    ["slopeStandardError", 0.429796848199937e-3],
    ["residualSd", 0.884796396144373],
    ["rSquared", 0.999993745883712],
    ["degreesOfFreedom", 34],
  ] as const)("%s is the certified value", (name, certified) => {
    const value = Number(fit?.[name]);
    expect(Math.abs(value / certified - 1)).toBeLessThan(1e-9);
  });
});

describe("quantiles", () => {
  test.each([
    [1, 6.3138, 12.7062, 63.6567],
    [2, 2.92, 4.3027, 9.9248],
    [3, 2.3534, 3.1824, 5.8409],
    [4, 2.1318, 2.7764, 4.6041],
    [5, 2.015, 2.5706, 4.0321],
    [6, 1.9432, 2.4469, 3.7074],
    [7, 1.8946, 2.3646, 3.4995],
    [8, 1.8595, 2.306, 3.3554],
    [9, 1.8331, 2.2622, 3.2498],
    [10, 1.8125, 2.2281, 3.1693],
    [20, 1.7247, 2.086, 2.8453],
    [30, 1.6973, 2.0423, 2.75],
    [34, 1.6909, 2.0322, 2.7284],
  ])("Student's t with %i degrees of freedom", (df, t95, t975, t995) => {
    expect(Math.abs(studentTQuantile(0.95, df) - t95)).toBeLessThan(5.1e-5);
    expect(Math.abs(studentTQuantile(0.975, df) - t975)).toBeLessThan(5.1e-5);
    expect(Math.abs(studentTQuantile(0.995, df) - t995)).toBeLessThan(5.1e-5);
  });

  test.each([0.6, 0.9, 0.95, 0.975, 0.995])("closed forms at %d", (p) => {
    const cauchy = Math.tan(Math.PI * (p - 0.5));
    const two = (2 * p - 1) / Math.sqrt(2 * p * (1 - p));
    expect(studentTQuantile(p, 1) / cauchy).toBeCloseTo(1, 12);
    expect(studentTQuantile(p, 2) / two).toBeCloseTo(1, 12);
  });

  test("the normal quantile is the printed 1.959964, and the limit of Student's t", () => {
    expect(normalQuantile975).toBeCloseTo(1.959964, 6);
    expect(studentTQuantile(0.975, 1e9)).toBeCloseTo(normalQuantile975, 7);
  });
});
