import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { tangentAt } from "../../src/geometry/polyline.ts";
import { angleBetweenDeg, dot, norm, scale } from "../../src/geometry/vector.ts";
import type { Vector } from "../../src/geometry/vector.ts";
import { evenly } from "../evenly.ts";
import { axis } from "./random-axes.ts";

const known = (...given: Parameters<typeof tangentAt>) => {
  const tangent = tangentAt(...given);
  if ("why" in tangent) throw new Error(tangent.why);
  return tangent;
};
const every = (stepMm: number, lastMm: number): number[] =>
  Array.from({ length: Math.round(lastMm / stepMm) + 1 }, (_, index) => index * stepMm);
/** An arc from the origin upwards, bending towards x, at the given distances along it. */
const arc = (radiusMm: number, distancesMm: readonly number[]): Vector[] =>
  distancesMm.map((mm) => [
    radiusMm * (1 - Math.cos(mm / radiusMm)),
    0,
    radiusMm * Math.sin(mm / radiusMm),
  ]);

describe("tangent", () => {
  test("of a straight line is its direction, without scatter, wherever asked", () => {
    const distancesMm = [0, 3, 5, 9, 14, 20];
    const at = evenly(5, 14);
    fc.assert(
      fc.property(axis, at, (direction, atMm) => {
        const points = distancesMm.map((mm) => scale(direction, mm));
        const tangent = known(points, distancesMm, atMm, 10);
        expect(angleBetweenDeg(tangent.axis, direction)).toBeLessThan(1e-9);
        expect(norm(tangent.axis)).toBeCloseTo(1, 12);
        expect(tangent.spreadDeg).toBeLessThan(1e-9);
      }),
    );
  });

  test("points towards growing distance, whichever end the distances begin at", () => {
    const distancesMm = every(5, 40);
    const points = arc(60, distancesMm);
    const forth = known(points, distancesMm, 20, 10);
    const turned = distancesMm.map((mm) => 40 - mm);
    const back = known(points, turned, 20, 10);
    expect(dot(forth.axis, back.axis)).toBeCloseTo(-1, 9);
    expect(forth.axis[2]).toBeGreaterThan(0.9);
  });

  test("in the middle of an even bend is the tangent of the arc", () => {
    const distancesMm = every(2, 80);
    const tangent = known(arc(40, distancesMm), distancesMm, 40, 10);
    expect(angleBetweenDeg(tangent.axis, [Math.sin(1), 0, Math.cos(1)])).toBeLessThan(1e-9);
    expect(tangent.pointsUsed).toBe(11);
    expect(tangent.centreMm).toBeCloseTo(40, 12);
    // Off the arc's middle by s^2 / 80 at s = -10 ... 10 mm: a standard deviation of sqrt(1248) / 80 mm over 10 mm.
    const scatterMm = Math.sqrt(1248) / 80;
    expect(tangent.spreadDeg).toBeCloseTo((Math.atan(scatterMm / 10) * 180) / Math.PI, 1);
  });

  test("at the end of a bend is that of the line at the mean of the points, which is told", () => {
    const distancesMm = every(2, 80);
    const tangent = known(arc(40, distancesMm), distancesMm, 0, 10);
    expect(tangent.centreMm).toBeCloseTo(5, 12);
    const there: Vector = [Math.sin(5 / 40), 0, Math.cos(5 / 40)];
    expect(angleBetweenDeg(tangent.axis, there)).toBeLessThan(1e-9);
    expect(angleBetweenDeg(tangent.axis, [0, 0, 1])).toBeCloseTo(((5 / 40) * 180) / Math.PI, 9);
  });

  test("tells the scatter as an angle over half the stretch", () => {
    // 3 mm to either side of a line of 2 x 30 mm: atan(3 / 30).
    const distancesMm = [-30, -10, 10, 30];
    const points = distancesMm.map((mm, index): Vector => [[3, -3, -3, 3][index] ?? 0, 0, mm]);
    const tangent = known(points, distancesMm, 0, 30);
    expect(angleBetweenDeg(tangent.axis, [0, 0, 1])).toBeLessThan(1e-9);
    expect(tangent.spreadDeg).toBeCloseTo((Math.atan(0.1) * 180) / Math.PI, 10);
  });

  test("tells it over the stretch that the points cover, however wide the window", () => {
    const points: Vector[] = [
      [0, 0, 0],
      [0.1, 0, 1],
      [0, 0, 2],
    ];
    // Off the line by 1/30, 2/30 and 1/30 mm, a root mean square of sqrt(6 / 3) / 30, over 1 mm.
    const { spreadDeg } = known(points, [0, 1, 2], 1, 10);
    expect(spreadDeg).toBeCloseTo((Math.atan(Math.SQRT2 / 30) * 180) / Math.PI, 10);
  });

  test("counts points on the border of the window, rounding or not", () => {
    const distancesMm = [0.1, 0.2, 0.3, 0.4];
    const points = distancesMm.map((mm): Vector => [0, 0, mm]);
    expect(known(points, distancesMm, 0.2, 0.1).pointsUsed).toBe(3);
    expect(known(points, distancesMm, 0.3, 0.1).pointsUsed).toBe(3);
  });

  const distancesMm = every(5, 40);
  const points = arc(60, distancesMm);
  test.each<[string, Parameters<typeof tangentAt>, string]>([
    ["before the line", [points, distancesMm, -1, 10], "outside the line"],
    ["beyond the line", [points, distancesMm, 41, 10], "outside the line"],
    ["at no number", [points, distancesMm, Number.NaN, 10], "outside the line"],
    ["no points", [[], [], 0, 10], "outside the line"],
    ["two points in the window", [points, distancesMm, 2, 4], "fewer than 3 points"],
    ["another number of distances", [points, distancesMm.slice(1), 20, 10], "differ in number"],
    ["all points on the spot", [points.map(() => [1, 2, 3]), distancesMm, 20, 10], "no direction"],
    ["all distances alike", [points, points.map(() => 20), 20, 10], "no direction"],
  ])("none: %s", (_, given, why) => {
    const tangent = tangentAt(...given);
    expect("why" in tangent ? tangent.why : tangent).toContain(why);
  });
});
