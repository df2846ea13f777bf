/*
 * Sources:
 * - P = 4 a E(e) with the complete elliptic integral of the second kind: values computed with SciPy (`ellipe`) and
 *   mpmath for six ellipses; here also by integrating the arc length numerically.
 * - Abramowitz and Stegun, table 17.1, E(m) for m = 0 to 0.5, and three values of Mathematica 3.0, both as the
 *   tests of `ellipke` in GNU Octave print them; E(0.75) from memory of the table. For an ellipse of eccentricity e, m = e^2.
 * - Eccentricity by Pythagorean triples: axes 5 and 3, 13 and 5, 13 and 12, 25 and 7.
 * - Ramanujan 1914, the second approximation, too small by at most 0.0402 % (flat ellipse).
 */
import { describe, expect, test } from "vitest";
import {
  ellipseAreaMm2,
  ellipseEccentricity,
  ellipsePerimeterMm,
} from "../../src/geometry/ellipse.ts";
import {
  diameterFromAreaMm,
  diameterFromPerimeterMm,
} from "../../src/quantities/equivalent-diameter.ts";

const rows = [
  {
    long: 30,
    short: 30,
    perimeter: 94.24777960769379,
    area: 706.8583,
    byPerimeter: 30,
    byArea: 30,
  },
  {
    long: 32,
    short: 28,
    perimeter: 94.35252848401149,
    area: 703.7168,
    byPerimeter: 30.0333,
    byArea: 29.9333,
  },
  {
    long: 36,
    short: 24,
    perimeter: 95.19263753574353,
    area: 678.584,
    byPerimeter: 30.3008,
    byArea: 29.3939,
  },
  {
    long: 40,
    short: 20,
    perimeter: 96.88448220547676,
    area: 628.3185,
    byPerimeter: 30.8393,
    byArea: 28.2843,
  },
  {
    long: 30,
    short: 12,
    perimeter: 69.03933778699454,
    area: 282.7433,
    byPerimeter: 21.9759,
    byArea: 18.9737,
  },
  {
    long: 40,
    short: 8,
    perimeter: 84.04017815875602,
    area: 251.3274,
    byPerimeter: 26.7508,
    byArea: 17.8885,
  },
];

/** Arc length by the trapezoid rule, which for a smooth closed curve gains digits with every point. */
function integratedPerimeter(long: number, short: number): number {
  const steps = 4000;
  const step = (2 * Math.PI) / steps;
  let length = 0;
  for (let index = 0; index < steps; index++) {
    length += Math.hypot((long / 2) * Math.sin(index * step), (short / 2) * Math.cos(index * step));
  }
  return length * step;
}

describe("ellipse", () => {
  test.each(rows)("$long x $short mm", ({ long, short, perimeter, area, byPerimeter, byArea }) => {
    expect(ellipsePerimeterMm(long, short) / perimeter).toBeCloseTo(1, 13);
    expect(ellipseAreaMm2(long, short)).toBeCloseTo(area, 4);
    expect(diameterFromPerimeterMm(ellipsePerimeterMm(long, short))).toBeCloseTo(byPerimeter, 4);
    expect(diameterFromAreaMm(ellipseAreaMm2(long, short))).toBeCloseTo(byArea, 4);
  });

  test.each(rows)("$long x $short mm by integration", ({ long, short }) => {
    expect(ellipsePerimeterMm(long, short) / integratedPerimeter(long, short)).toBeCloseTo(1, 13);
  });

  test.each([
    [0, 1.570796327, 9],
    [0.05, 1.550973352, 9],
    [0.1, 1.530757637, 9],
    [0.15, 1.510121831, 8],
    [0.2, 1.489035058, 9],
    [0.25, 1.467462209, 9],
    [0.3, 1.445363064, 9],
    [0.35, 1.422691133, 9],
    [0.4, 1.399392139, 9],
    [0.45, 1.375401972, 9],
    [0.5, 1.350643881, 9],
    [0.75, 1.2110560276, 9],
    [0.01, 1.566861942021668, 14],
    [0.9, 1.104774732704073, 14],
    [0.99, 1.015993545025224, 14],
  ])("tabulated elliptic integral of m = %d", (m, tabulated, digits) => {
    const shortAxis = 2 * Math.sqrt(1 - m);
    expect(ellipsePerimeterMm(2, shortAxis) / 4).toBeCloseTo(tabulated, digits);
    expect(ellipseEccentricity(2, shortAxis) ** 2).toBeCloseTo(m, 14);
  });

  test.each([
    [5, 3, 4 / 5],
    [13, 5, 12 / 13],
    [13, 12, 5 / 13],
    [25, 7, 24 / 25],
    [30, 30, 0],
  ])("eccentricity of %d by %d mm is %d", (long, short, eccentricity) => {
    expect(ellipseEccentricity(long, short)).toBeCloseTo(eccentricity, 14);
  });

  test("a flat ellipse is there and back, and Ramanujan's second formula stays within its error", () => {
    expect(ellipsePerimeterMm(40, 1e-9)).toBeCloseTo(80, 8);
    for (const { long, short } of [...rows, { long: 40, short: 1e-6 }]) {
      const h = ((long - short) / (long + short)) ** 2;
      const ramanujan =
        (Math.PI / 2) * (long + short) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
      const error = ramanujan / ellipsePerimeterMm(long, short) - 1;
      expect(error).toBeLessThan(1e-13);
      expect(error).toBeGreaterThan(-0.000403);
    }
  });
});
