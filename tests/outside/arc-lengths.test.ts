/**
 * Lengths along bends against what was worked out elsewhere.
 *
 * - Length of the curve beside a curve in its plane: L (1 -/+ D/2R), and turn x D between the sides (differential
 *   geometry). The tables are worked out from it by hand and printed to three decimals; the same lengths come
 *   here from a numerical integration over the parametrised torus, helix and parabola, which uses neither.
 * - Circular sections: the two worked examples of the MatheAss handbook (matheass.eu, E210 Circular Sections).
 * - Circumradius: the three hand calculations of the Menger curvature in the tests of gravee (GitHub k-t-to/gravee,
 *   test_calculate_curvature.R).
 * - Curvature of a helix r / (r^2 + c^2) and length of a parabola in closed form: calculus, from memory.
 */
import { describe, expect, test } from "vitest";
import { arcLengthsMm, innerAndOuterMm, straightEndGap } from "../../src/geometry/arc.ts";
import {
  circumradiusMm,
  curvaturesAlong,
  curveLengthsMm,
  polylineLengthMm,
  tortuosityIndex,
} from "../../src/geometry/polyline.ts";
import { angleBetweenDeg, norm, subtract } from "../../src/geometry/vector.ts";
import type { Vector } from "../../src/geometry/vector.ts";

type Curve = (t: number) => Vector;

const sampled = (curve: Curve, from: number, to: number, pieces: number): Vector[] =>
  Array.from({ length: pieces + 1 }, (_, index) => curve(from + ((to - from) * index) / pieces));

const circle =
  (radiusMm: number): Curve =>
  (t) => [radiusMm * Math.cos(t), 0, radiusMm * Math.sin(t)];

/** Length of a curve by Simpson's rule over the speed, which is a central difference. */
function integratedMm(curve: Curve, from: number, to: number): number {
  const pieces = 2000;
  const step = (to - from) / pieces;
  const speed = (t: number) => norm(subtract(curve(t + 1e-5), curve(t - 1e-5))) / 2e-5;
  let sum = 0;
  for (let index = 0; index <= pieces; index += 1) {
    const weight = index === 0 || index === pieces ? 1 : index % 2 === 1 ? 4 : 2;
    sum += weight * speed(from + index * step);
  }
  return (sum * step) / 3;
}

function known<T extends object>(answer: T | { why: string }): T {
  if ("why" in answer) throw new Error(answer.why);
  return answer;
}
const radians = (deg: number): number => (deg * Math.PI) / 180;

const torus: [
  radiusMm: number,
  diameterMm: number,
  turnDeg: number,
  centreline: number,
  inner: number,
  outer: number,
  difference: number,
  chord: number,
  tortuosity: number,
][] = [
  [30, 30, 90, 47.124, 23.562, 70.686, 47.124, 42.426, 1.11072],
  [35, 32, 60, 36.652, 19.897, 53.407, 33.51, 35, 1.0472],
  [40, 30, 90, 62.832, 39.27, 86.394, 47.124, 56.569, 1.11072],
  [40, 34, 45, 31.416, 18.064, 44.768, 26.704, 30.615, 1.02617],
  [60, 28, 30, 31.416, 24.086, 38.746, 14.661, 31.058, 1.01152],
];

describe.each(torus)(
  "a bend of radius %s mm, diameter %s mm and %s degrees",
  (radiusMm, diameterMm, turnDeg, centreline, inner, outer, difference, chord, tortuosity) => {
    const turn = radians(turnDeg);

    test("has the printed lengths", () => {
      const lengths = known(arcLengthsMm({ turnDeg, radiusMm, diameterMm }));
      expect(lengths.centrelineMm).toBeCloseTo(centreline, 3);
      expect(lengths.innerMm).toBeCloseTo(inner, 3);
      expect(lengths.outerMm).toBeCloseTo(outer, 3);
      expect(lengths.differenceMm).toBeCloseTo(difference, 3);
      expect(lengths.chordMm).toBeCloseTo(chord, 3);
      expect(lengths.centrelineMm / lengths.chordMm).toBeCloseTo(tortuosity, 5);
    });

    test("has the lengths of the lines round the parametrised torus", () => {
      const line =
        (v: number): Curve =>
        (u) => {
          const toAxisMm = radiusMm + (diameterMm / 2) * Math.cos(v);
          return [toAxisMm * Math.cos(u), (diameterMm / 2) * Math.sin(v), toAxisMm * Math.sin(u)];
        };
      const lengths = known(arcLengthsMm({ turnDeg, radiusMm, diameterMm }));
      expect(lengths.innerMm).toBeCloseTo(integratedMm(line(Math.PI), 0, turn), 6);
      expect(lengths.outerMm).toBeCloseTo(integratedMm(line(0), 0, turn), 6);
      // On top of the torus, between the two sides, a line is as long as the centreline.
      expect(lengths.centrelineMm).toBeCloseTo(integratedMm(line(Math.PI / 2), 0, turn), 6);
    });

    test("has them from points a tenth of the radius apart too", () => {
      const pieces = Math.ceil(turn / 0.1);
      const points = sampled(circle(radiusMm), 0, turn, pieces);
      const lengths = known(curveLengthsMm(points, () => diameterMm));
      const short = 1 / 2400;
      for (const [value, exact] of [
        [lengths.centrelineMm, centreline],
        [lengths.innerMm, inner],
        [lengths.outerMm, outer],
        [lengths.turnDeg, turnDeg],
      ] as const) {
        expect(value).toBeLessThan(exact + 0.0005);
        expect(value).toBeGreaterThan(exact * (1 - short) - 0.0005);
      }
      expect(lengths.leastRadiusMm).toBeCloseTo(radiusMm, 8);
      expect(tortuosityIndex(points)).toBeCloseTo(tortuosity, 3);
    });
  },
);

describe("seal on the inner side", () => {
  // 20 mm along the centreline on the inner curve, and the centreline 20 mm on the inner curve need; worked out by hand.
  test.each([
    [30, 30, 10, 40],
    [35, 32, 10.86, 36.84],
    [40, 30, 12.5, 32],
    [60, 28, 15.33, 26.09],
  ])("radius %s, diameter %s: %s mm, and %s mm needed", (radiusMm, diameterMm, inner, needed) => {
    expect(known(innerAndOuterMm(20, radiusMm, diameterMm)).innerMm).toBeCloseTo(inner, 2);
    expect(known(innerAndOuterMm(needed, radiusMm, diameterMm)).innerMm).toBeCloseTo(20, 2);
  });

  test.each([
    [10, 5.24],
    [20, 10.47],
    [30, 15.71],
    [45, 23.56],
    [60, 31.42],
    [90, 47.12],
  ])("a bend of %s degrees puts %s mm between the sides at 30 mm", (turnDeg, difference) => {
    const lengths = known(arcLengthsMm({ turnDeg, radiusMm: 55, diameterMm: 30 }));
    expect(lengths.differenceMm).toBeCloseTo(difference, 2);
  });
});

describe("chord and arc", () => {
  test.each([
    [4, -2.55],
    [8, -0.64],
    [16, -0.16],
    [32, -0.04],
    [64, -0.01],
  ])("%s chords of a half circle of radius 35 mm are off by %s %%", (pieces, percent) => {
    const lengthMm = polylineLengthMm(sampled(circle(35), 0, Math.PI, pieces));
    expect(lengthMm).toBeLessThan(109.956);
    expect((lengthMm / (35 * Math.PI) - 1) * 100).toBeCloseTo(percent, 2);
  });

  // Length over chord of arcs, by the definition of the radian: pi/2, pi/(2 sqrt 2), pi/3.
  test.each([
    [180, 1.570796],
    [90, 1.11072],
    [60, 1.0472],
  ])("the tortuosity of an arc of %s degrees is %s", (turnDeg, index) => {
    const points = sampled(circle(35), 0, radians(turnDeg), 2000);
    expect(tortuosityIndex(points)).toBeCloseTo(index, 5);
  });

  test("an arc of length 1 over 45 degrees, as in the handbook", () => {
    const lengths = known(arcLengthsMm({ turnDeg: 45, radiusMm: 1.2732395, diameterMm: 1 }));
    expect(lengths.centrelineMm).toBeCloseTo(1, 7);
    expect(lengths.chordMm).toBeCloseTo(0.97449536, 7);
  });

  test("a chord of 21 under an arrow height of 6, as in the handbook", () => {
    expect(circumradiusMm([0, 0, 0], [10.5, 6, 0], [21, 0, 0])).toBeCloseTo(12.1875, 10);
    const bend = { turnDeg: 118.97953, radiusMm: 12.1875, diameterMm: 1 };
    const lengths = known(arcLengthsMm(bend));
    expect(lengths.centrelineMm).toBeCloseTo(25.308373, 5);
    expect(lengths.chordMm).toBeCloseTo(21, 5);
  });
});

describe("curvature", () => {
  test.each<[Vector, Vector, Vector, number]>([
    [[1, 2, 0], [3, 3, 0], [5, 6, 0], 0.175412],
    [[40, 43, 0], [50, 63, 0], [52, 70, 0], 0.012474],
    [[0, 1, 0], [1, 0.5, 0], [2, 1.5, 0], 0.920358],
  ])("through %s, %s, %s: one over the radius is %s", (a, b, c, curvature) => {
    expect(1 / (circumradiusMm(a, b, c) ?? Number.NaN)).toBeCloseTo(curvature, 6);
  });

  test("of a helix, its sides and the plane of its bend", () => {
    const [radiusMm, rise, diameterMm, turns] = [40, 15, 28, 1.5 * Math.PI];
    const helix: Curve = (t) => [radiusMm * Math.cos(t), radiusMm * Math.sin(t), rise * t];
    const points = sampled(helix, 0, turns, 400);
    const curvature = radiusMm / (radiusMm ** 2 + rise ** 2);
    const lengthMm = turns * Math.hypot(radiusMm, rise);
    const lengths = known(curveLengthsMm(points, () => diameterMm));
    expect(lengths.centrelineMm).toBeCloseTo(lengthMm, 2);
    expect(lengths.leastRadiusMm).toBeCloseTo(1 / curvature, 2);
    expect(lengths.turnDeg).toBeCloseTo((curvature * lengthMm * 180) / Math.PI, 1);
    expect(lengths.innerMm).toBeCloseTo(lengthMm * (1 - (curvature * diameterMm) / 2), 1);

    // The line on the wall that always lies to the inside is a narrower helix: never shorter than the inner length.
    const inside: Curve = (t) => {
      const toAxisMm = radiusMm - diameterMm / 2;
      return [toAxisMm * Math.cos(t), toAxisMm * Math.sin(t), rise * t];
    };
    expect(integratedMm(inside, 0, turns)).toBeGreaterThan(lengths.innerMm);

    const [bend] = curvaturesAlong(points).slice(200, 201);
    const binormal: Vector = [
      rise * Math.sin((201 / 400) * turns),
      -rise * Math.cos((201 / 400) * turns),
      radiusMm,
    ];
    expect(angleBetweenDeg(bend?.bendNormal ?? [0, 0, 0], binormal)).toBeLessThan(0.01);
  });

  test("of a parabola: its sides are the curves beside it, at even and at growing width", () => {
    // y = x^2 / 2p has the radius p (1 + (x/p)^2)^1.5; its length is p/2 (m sqrt(1 + m^2) + asinh m) at slope m.
    const p = 45;
    const parabola: Curve = (x) => [x, x ** 2 / (2 * p), 0];
    const beside =
      (offsetMm: number): Curve =>
      (x) => {
        const slope = x / p;
        const length = Math.hypot(1, slope);
        return [x - (offsetMm * slope) / length, x ** 2 / (2 * p) + offsetMm / length, 0];
      };
    const points = sampled(parabola, -40, 50, 25);
    const half = (x: number): number =>
      (p / 2) * ((x / p) * Math.hypot(1, x / p) + Math.asinh(x / p));
    const exactMm = half(50) - half(-40);
    const lengths = known(curveLengthsMm(points, () => 30));
    expect(Math.abs(lengths.centrelineMm / exactMm - 1)).toBeLessThan(0.0005);
    expect(Math.abs(lengths.innerMm / integratedMm(beside(15), -40, 50) - 1)).toBeLessThan(0.005);
    expect(Math.abs(lengths.outerMm / integratedMm(beside(-15), -40, 50) - 1)).toBeLessThan(0.005);
    expect(lengths.leastRadiusMm).toBeGreaterThan(p - 0.5);
    expect(lengths.leastRadiusMm).toBeLessThan(p + 0.5);

    // With a diameter of 20 mm + 0.1 mm per mm: the integral of curvature x radius over the length, by fine steps.
    const widthAt = (mm: number): number => 20 + 0.1 * mm;
    const tapered = known(curveLengthsMm(points, widthAt));
    let [takenMm, alongMm] = [0, 0];
    const fine = 20_000;
    for (let index = 0; index < fine; index += 1) {
      const x = -40 + (90 * (index + 0.5)) / fine;
      const pieceMm = Math.hypot(1, x / p) * (90 / fine);
      const radiusMm = p * (1 + (x / p) ** 2) ** 1.5;
      takenMm += (pieceMm * widthAt(alongMm + pieceMm / 2)) / (2 * radiusMm);
      alongMm += pieceMm;
    }
    expect(Math.abs(tapered.innerMm / (exactMm - takenMm) - 1)).toBeLessThan(0.005);
  });
});

describe("gap under a straight end", () => {
  // Right triangles of radius and straight end, the first of 3, 4 and 5; worked out by hand.
  test.each([
    [20, 15, 5, 36.87],
    [25, 10, 1.926, 21.8],
    [15, 20, 10, 53.13],
  ])("radius %s, straight %s: %s mm, %s degrees", (innerRadiusMm, straightMm, height, angle) => {
    const gap = straightEndGap({ innerRadiusMm, straightMm });
    expect(gap.heightMm).toBeCloseTo(height, 3);
    expect(gap.angleDeg).toBeCloseTo(angle, 2);
  });

  // s = sqrt(25 + 10 R), where the gap is the 5 mm from which a published series (Frohlich, J Vasc Surg 2020) counts it.
  test.each([
    [15, 13.23],
    [20, 15],
    [25, 16.58],
    [30, 18.03],
  ])("inner radius %s: 5 mm high at %s mm", (innerRadiusMm, straightMm) => {
    expect(straightEndGap({ innerRadiusMm, straightMm }).heightMm).toBeCloseTo(5, 2);
  });
});
