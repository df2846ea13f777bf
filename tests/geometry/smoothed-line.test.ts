import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { bendsBetween, sidesOver } from "../../src/geometry/line-bends.ts";
import { curveLengthsMm } from "../../src/geometry/polyline.ts";
import { fittedCurve, smoothedLine } from "../../src/geometry/smoothed-line.ts";
import type { Vector } from "../../src/geometry/vector.ts";
import { studentTQuantile } from "../../src/statistics/student-t.ts";

const every = (stepMm: number, count: number): number[] =>
  Array.from({ length: count }, (_, index) => index * stepMm);
const circle = (radiusMm: number, distancesMm: readonly number[]) => ({
  distancesMm,
  points: distancesMm.map((mm): Vector => [
    radiusMm * (1 - Math.cos(mm / radiusMm)),
    0,
    radiusMm * Math.sin(mm / radiusMm),
  ]),
});

describe("a smoothed line", () => {
  test.each([
    [20, 5, 0.02],
    [30, 2.5, 0.002],
    [40, 5, 0.001],
    [80, 1, 0.001],
  ])(
    "keeps the bend of a circle of %d mm, points every %d mm, at its ends too",
    (radius, step, share) => {
      const { bends } = smoothedLine(circle(radius, every(step, 15)));
      expect(bends).toHaveLength(15);
      for (const { perMm } of bends) expect(Math.abs(perMm * radius - 1)).toBeLessThan(share);
    },
  );

  test("the interval of the direction holds the true one about 95 times in 100 for points that scatter", () => {
    // 7 points every 5 mm on a circle of 40 mm, each moved by 0.4 mm in every direction; direction at the middle and the end.
    const random = fc.sample(
      fc.array(fc.noBias(fc.integer({ min: 1, max: 999_999 })), { minLength: 42, maxLength: 42 }),
      { numRuns: 1000, seed: 11 },
    );
    const normals = (parts: readonly number[]): number[] =>
      parts.flatMap((part, index) => {
        const other = parts[index + 1];
        if (index % 2 === 1 || other === undefined) return [];
        const length = Math.sqrt(-2 * Math.log(part / 1e6));
        return [
          length * Math.cos((2 * Math.PI * other) / 1e6),
          length * Math.sin((2 * Math.PI * other) / 1e6),
        ];
      });
    for (const atMm of [15, 30]) {
      const held = random.filter((parts) => {
        const scatter = normals(parts);
        const { points, distancesMm } = circle(40, every(5, 7));
        const moved = points.map(([x, y, z], index): Vector => [
          x + 0.4 * (scatter[3 * index] ?? 0),
          y + 0.4 * (scatter[3 * index + 1] ?? 0),
          z + 0.4 * (scatter[3 * index + 2] ?? 0),
        ]);
        const curve = fittedCurve({ points: moved, distancesMm }, 0, 30);
        const [x = 0, y = 0, z = 0] = curve?.directionAt(atMm) ?? [];
        // In the plane of the circle alone: one angle with one standard error.
        const angle = Math.atan2(x, z) - atMm / 40;
        const error = (curve?.directionErrorAt(atMm) ?? 0) / Math.hypot(x, y, z);
        return Math.abs(angle) <= studentTQuantile(0.975, curve?.freedom ?? 1) * error;
      });
      expect(held.length).toBeGreaterThan(920);
      expect(held.length).toBeLessThan(980);
    }
  });

  test("without mending, the parabola over 30 mm shows 0.13 (15 / R)^2 more", () => {
    // Least squares of sin and 1 - cos over -l to l: slope 1 - u^2 / 10, bend (1 - u^2 / 14) / R with u = l / R, so that the
    // curvature is (1 + u^2 (3 / 10 - 1 / 14 - 1 / 10)) / R = (1 + 9 u^2 / 70) / R to this order; R 60: 1.0080.
    const curve = fittedCurve(circle(60, every(0.5, 61)), 0, 30);
    expect((curve?.curvatureAt(15) ?? 0) * 60).toBeCloseTo(1 + (9 / 70) * (15 / 60) ** 2, 3);
    expect((curve?.circleCurvatureAt(15) ?? 0) * 60).toBeCloseTo(1, 5);
  });

  test("a straight line stays straight, and points too far apart stay as they are", () => {
    const straight = every(5, 8);
    const line = { distancesMm: straight, points: straight.map((mm): Vector => [mm, 2 * mm, 0]) };
    for (const { perMm } of smoothedLine(line).bends) expect(perMm).toBeCloseTo(0, 12);
    const far = circle(60, every(12, 6));
    const { points, scatterMm, bends } = smoothedLine(far);
    expect(points).toEqual(far.points);
    expect(scatterMm).toBeNull();
    // Of the circle through three of its points, exactly.
    expect(bends.map(({ atMm }) => atMm)).toEqual([12, 24, 36, 48]);
    for (const { perMm } of bends) expect(perMm).toBeCloseTo(1 / 60, 12);
  });

  test("turning all points changes no bend", () => {
    const scattered = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), {
      minLength: 12,
      maxLength: 12,
    });
    fc.assert(
      fc.property(scattered, fc.double({ min: 0, max: 6.28, noNaN: true }), (off, angle) => {
        const line = circle(50, every(5, 12));
        const points = line.points.map(([x, y, z], at): Vector => [x + (off[at] ?? 0), y, z]);
        const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
        const turned = points.map(([x, y, z]): Vector => [cos * x - sin * y, sin * x + cos * y, z]);
        const [one, other] = [points, turned].map((own) => smoothedLine({ ...line, points: own }));
        one?.bends.forEach(({ perMm }, at) =>
          expect(other?.bends[at]?.perMm).toBeCloseTo(perMm, 9),
        );
      }),
      { numRuns: 30, seed: 3 },
    );
  });
});

describe("bends and sides of a stretch", () => {
  const bends = [
    { atMm: 10, perMm: 0.02 },
    { atMm: 20, perMm: 0.04 },
    { atMm: 30, perMm: 0 },
  ];

  test("bends lie in proportion between places, and as at the last one up to a gap beyond it", () => {
    expect(bendsBetween(bends, 15, 25)).toEqual([
      { atMm: 15, perMm: 0.03 },
      { atMm: 20, perMm: 0.04 },
      { atMm: 25, perMm: 0.02 },
    ]);
    expect(bendsBetween(bends, 0, 12)).toMatchObject([{ perMm: 0.02 }, { perMm: 0.02 }, {}]);
    expect(bendsBetween(bends, -1, 12)).toHaveProperty("why");
    expect(bendsBetween(bends, 12, 41)).toHaveProperty("why");
    expect(bendsBetween([], 0, 10)).toHaveProperty("why");
  });

  test("integrals by hand: turn 0.5 rad, sides 15 mm apart on a vessel of 30 mm", () => {
    // 10 (0.02 + 0.04) / 2 + 10 (0.04 + 0) / 2 = 0.5 rad; times 30 mm = 15 mm. Least radius 25 mm.
    const sides = sidesOver(bends, () => 30);
    if ("why" in sides) throw new Error(sides.why);
    expect(sides.turnDeg).toBeCloseTo((0.5 * 180) / Math.PI, 9);
    expect(sides.differenceMm).toBeCloseTo(15, 9);
    expect(sides.leastRadiusMm).toBeCloseTo(25, 9);
    expect(sidesOver(bends, () => 50)).toMatchObject({
      why: "the radius of the bend at 20.0 mm is not over half the diameter",
    });
    expect(sidesOver(bends, () => Number.NaN)).toHaveProperty("why");
  });

  test("the same as the integral over the chords of a circle, within what chords are short", () => {
    const line = circle(45, every(2, 30));
    const chords = curveLengthsMm(line.points, () => 28);
    const along = bendsBetween(smoothedLine(line).bends, 0, 58);
    if ("why" in chords || "why" in along) throw new Error("a circle has a bend");
    const sides = sidesOver(along, () => 28);
    if ("why" in sides) throw new Error(sides.why);
    expect(sides.differenceMm / (chords.outerMm - chords.innerMm)).toBeCloseTo(1, 3);
    expect(sides.turnDeg / chords.turnDeg).toBeCloseTo(1, 3);
  });
});
