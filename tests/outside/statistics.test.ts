/*
 * Sources:
 * - NIST Statistical Reference Datasets, linear regression, "Norris" (36 pairs, certified values),
 *   https://www.itl.nist.gov/div898/strd/lls/data/Norris.shtml. Pairs and certified values were compared in two
 *   public copies; the four sums below guard the transcription.
 * - Student's t, upper critical values: NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.2 (three
 *   decimals; the fourth decimal here is from SciPy, and rounds to them).
 * - Chi-squared: same handbook, section 1.3.6.7.4 (three decimals, compared in a public copy); 1000 degrees of freedom from
 *   SciPy 1; closed forms for 1, 2 and 4 degrees of freedom.
 * - NIST "Pontius" and "Longley": `nist-pontius.ts`, `nist-longley.ts`.
 * - Weighted straight line: the closed form of two normal equations with weights 1 / sd², as in textbooks.
 * - Weighted fit with any design: ml-matrix, a general-purpose linear-algebra library of the npm registry.
 * - Closed forms of the t quantile for 1 degree of freedom (Cauchy) and 2 degrees of freedom.
 */
import fc from "fast-check";
import { inverse, Matrix, QrDecomposition, SingularValueDecomposition } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { chiSquaredProbability, chiSquaredQuantile } from "../../src/statistics/chi-squared.ts";
import { normalQuantile975 } from "../../src/statistics/normal-quantile.ts";
import { studentTQuantile } from "../../src/statistics/student-t.ts";
import { weightedFit } from "../../src/statistics/weighted-fit.ts";
import { longley } from "./nist-longley.ts";
import { pontius } from "./nist-pontius.ts";

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

/** The fit with every standard deviation 1, and the certified figures that follow from its residuals. */
function plainFit(rows: readonly (readonly number[])[], values: readonly number[]) {
  const fit = weightedFit(
    rows.map((row, index) => ({ row, value: values[index] ?? Number.NaN, sd: 1 })),
  );
  if (!fit) throw new Error("no fit");
  const residualSd = Math.sqrt(fit.chiSquared / fit.degreesOfFreedom);
  const size = rows[0]?.length ?? 0;
  const each = Array.from({ length: size }, (_, index) =>
    fit.combination(Array.from({ length: size }, (_one, place) => Number(place === index))),
  );
  return {
    coefficients: each.map(({ value }) => value),
    standardErrors: each.map(({ standardError }) => standardError * residualSd),
    residualSd,
    degreesOfFreedom: fit.degreesOfFreedom,
  };
}

const norris = {
  coefficients: [-0.262323073774029, 1.00211681802045],
  standardErrors: [0.232818234301152, 0.429796848199937e-3],
  residualSd: 0.884796396144373,
  degreesOfFreedom: 34,
};

test("the pairs of Norris are transcribed right", () => {
  const total = (of: (pair: { x: number; y: number }) => number) =>
    pairs.reduce((sum, pair) => sum + of(pair), 0);
  expect(pairs).toHaveLength(36);
  expect(total((pair) => pair.x)).toBeCloseTo(15_090.4, 6);
  expect(total((pair) => pair.y)).toBeCloseTo(15_112.9, 6);
  expect(total((pair) => pair.x ** 2)).toBeCloseTo(10_563_553.36, 4);
  expect(total((pair) => pair.x * pair.y)).toBeCloseTo(10_581_955.92, 4);
});

describe.each([
  { name: "Norris", rows: x.map((each) => [1, each]), y, certified: norris },
  {
    name: "Pontius",
    rows: pontius.x.map((each) => [1, each, each ** 2]),
    y: pontius.y,
    certified: pontius,
  },
  {
    name: "Longley",
    rows: longley.x.map((each) => [1, ...each]),
    y: longley.y,
    certified: longley,
  },
])("NIST $name", ({ rows, y: values, certified }) => {
  const found = plainFit(rows, values);
  const expectClose = (value: number, printed: number) =>
    expect(Math.abs(value / printed - 1)).toBeLessThan(1e-9);

  test.each(["coefficients", "standardErrors"] as const)("%s are the certified values", (name) => {
    expect(found[name]).toHaveLength(certified[name].length);
    for (const [index, value] of found[name].entries()) {
      expectClose(value, certified[name][index] ?? Number.NaN);
    }
  });

  test("residual SD and degrees of freedom are the certified values", () => {
    expectClose(found.residualSd, certified.residualSd);
    expect(found.degreesOfFreedom).toBe(certified.degreesOfFreedom);
  });
});

describe("a weighted straight line", () => {
  const observation = fc.record({
    x: fc.integer({ min: -500, max: 500 }).map((tenths) => tenths / 10),
    y: fc.integer({ min: -500, max: 500 }).map((tenths) => tenths / 10),
    sd: fc.integer({ min: 1, max: 40 }).map((tenths) => tenths / 10),
  });
  const observations = fc
    .uniqueArray(observation, { minLength: 3, maxLength: 10, selector: ({ x: at }) => at })
    .filter(
      (all) => Math.max(...all.map((one) => one.x)) - Math.min(...all.map((one) => one.x)) > 1,
    );

  test("is the closed form of its normal equations", () => {
    fc.assert(
      fc.property(observations, (all) => {
        const sum = (of: (one: (typeof all)[number]) => number) =>
          all.reduce((total, one) => total + of(one) / one.sd ** 2, 0);
        const [s, sx, sy] = [sum(() => 1), sum((one) => one.x), sum((one) => one.y)];
        const [sxx, sxy] = [sum((one) => one.x ** 2), sum((one) => one.x * one.y)];
        const determinant = s * sxx - sx ** 2;
        const slope = (s * sxy - sx * sy) / determinant;
        const intercept = (sxx * sy - sx * sxy) / determinant;
        const fit = weightedFit(
          all.map(({ x: at, y: value, sd }) => ({ row: [1, at], value, sd })),
        );
        expect(fit?.combination([0, 1]).value).toBeCloseTo(slope, 6);
        expect(fit?.combination([1, 0]).value).toBeCloseTo(intercept, 6);
        expect(fit?.combination([0, 1]).standardError).toBeCloseTo(Math.sqrt(s / determinant), 6);
        expect(fit?.combination([1, 0]).standardError).toBeCloseTo(Math.sqrt(sxx / determinant), 6);
        const chiSquared = sum((one) => (one.y - intercept - slope * one.x) ** 2);
        expect((fit?.chiSquared ?? Number.NaN) / (chiSquared + 1)).toBeCloseTo(
          chiSquared / (chiSquared + 1),
          6,
        );
      }),
    );
  });
});

describe("a weighted fit with any design", () => {
  const row = fc.record({
    row: fc
      .tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 }))
      .map(([one, other]) => [1, one / 10, other / 10]),
    value: fc.integer({ min: 200, max: 700 }).map((tenths) => tenths / 10),
    sd: fc.integer({ min: 5, max: 40 }).map((tenths) => tenths / 10),
  });

  test("is what ml-matrix solves by QR, and its errors are those of the inverted normal matrix", () => {
    fc.assert(
      fc.property(fc.array(row, { minLength: 5, maxLength: 12 }), (all) => {
        const design = new Matrix(all.map((one) => one.row.map((cell) => cell / one.sd)));
        fc.pre(new SingularValueDecomposition(design).condition < 1e4);
        const values = Matrix.columnVector(all.map((one) => one.value / one.sd));
        const coefficients = new QrDecomposition(design).solve(values).to1DArray();
        const covariance = inverse(design.transpose().mmul(design));
        const fit = weightedFit(all);
        for (const [index, coefficient] of coefficients.entries()) {
          const axis = coefficients.map((_, place) => Number(place === index));
          const own = fit?.combination(axis);
          expect(own?.value).toBeCloseTo(coefficient, 6);
          expect(own?.standardError).toBeCloseTo(Math.sqrt(covariance.get(index, index)), 6);
        }
      }),
    );
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

  // Columns: 0.025, 0.05, 0.95, 0.975.
  test.each([
    [1, 0.001, 0.004, 3.841, 5.024],
    [2, 0.051, 0.103, 5.991, 7.378],
    [3, 0.216, 0.352, 7.815, 9.348],
    [4, 0.484, 0.711, 9.488, 11.143],
    [5, 0.831, 1.145, 11.07, 12.833],
    [9, 2.7, 3.325, 16.919, 19.023],
    [10, 3.247, 3.94, 18.307, 20.483],
    [20, 9.591, 10.851, 31.41, 34.17],
  ])("chi-squared with %i degrees of freedom", (df, ...printed) => {
    for (const [index, p] of [0.025, 0.05, 0.95, 0.975].entries()) {
      const value = printed[index] ?? Number.NaN;
      expect(Math.abs(chiSquaredQuantile(p, df) - value)).toBeLessThan(5.1e-4);
      expect(chiSquaredProbability(chiSquaredQuantile(p, df), df)).toBeCloseTo(p, 9);
    }
  });

  test("chi-squared with many degrees of freedom", () => {
    expect(chiSquaredQuantile(0.025, 1000)).toBeCloseTo(914.257153799259, 6);
    expect(chiSquaredQuantile(0.975, 1000)).toBeCloseTo(1089.5309127749135, 6);
  });

  test.each([0.001, 0.3, 1, 3.84, 12, 60, 700, 1600])("chi-squared closed forms at %d", (value) => {
    const even = 1 - Math.exp(-value / 2);
    expect(chiSquaredProbability(value, 2)).toBeCloseTo(even, 12);
    expect(chiSquaredProbability(value, 4)).toBeCloseTo(
      1 - Math.exp(-value / 2) * (1 + value / 2),
      12,
    );
  });

  test("chi-squared with 1 degree of freedom is the square of a normal variable", () => {
    expect(Math.sqrt(chiSquaredQuantile(0.95, 1))).toBeCloseTo(normalQuantile975, 10);
  });

  test("the normal quantile is the printed 1.959964, and the limit of Student's t", () => {
    expect(normalQuantile975).toBeCloseTo(1.959964, 6);
    expect(studentTQuantile(0.975, 1e9)).toBeCloseTo(normalQuantile975, 7);
  });
});
