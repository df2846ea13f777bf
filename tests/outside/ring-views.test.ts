/**
 * What a tilted ring and a tilted length look like on the detector, by projecting sampled points along the X-ray direction
 * onto a plane, against D sin t and L cos t. The printed tables are worked out by hand from the two (trigonometry); the
 * extents of the projected points come from ml-matrix 6.15.1 (npm) by singular values.
 */
import fc from "fast-check";
import { Matrix, SingularValueDecomposition } from "ml-matrix";
import { describe, expect, test } from "vitest";
import {
  detectorDirection,
  edgeOnSecondaryDeg,
  ringDisplacementMm,
  shownLengthMm,
  tiltDeg,
} from "../../src/geometry/projection.ts";
import { add, cross, dot, norm, scale, subtract, unit } from "../../src/geometry/vector.ts";
import type { Vector } from "../../src/geometry/vector.ts";
import { evenly } from "../evenly.ts";
import { axis } from "../geometry/random-axes.ts";

const samples = 360;

/** Two directions across a third of length 1, at right angles to each other. */
function planeAcross(direction: Vector): [Vector, Vector] {
  const [x, y, z] = direction.map(Math.abs) as [number, number, number];
  const other: Vector = x <= y && x <= z ? [1, 0, 0] : y <= z ? [0, 1, 0] : [0, 0, 1];
  const first = unit(cross(direction, other));
  if (!first) throw new Error("no direction");
  return [first, cross(direction, first)];
}

/** Points of a ring about an axis of length 1. */
function ring(about: Vector, diameterMm: number): Vector[] {
  const [first, second] = planeAcross(about);
  return Array.from({ length: samples }, (_, index) => {
    const angle = (index / samples) * 2 * Math.PI;
    const across = add(scale(first, Math.cos(angle)), scale(second, Math.sin(angle)));
    return scale(across, diameterMm / 2);
  });
}

/** Coordinates on the detector of points seen along a direction, by parallel rays. */
const onDetector = (points: readonly Vector[], direction: Vector): number[][] => {
  const [first, second] = planeAcross(direction);
  return points.map((point) => [dot(point, first), dot(point, second)]);
};

/** Axes of the ellipse that evenly sampled points of a ring are seen as: the sum of the squares along an axis a is n a^2 / 8. */
const seenAxesMm = (points: readonly Vector[], direction: Vector): [number, number] => {
  const { diagonal } = new SingularValueDecomposition(new Matrix(onDetector(points, direction)));
  const [long = Number.NaN, short = Number.NaN] = diagonal;
  const perUnit = Math.sqrt(8 / samples);
  return [long * perUnit, short * perUnit];
};

const tilts = [0, 5, 10, 15, 20, 25, 30];
const printed: [diameterMm: number, displacements: number[]][] = [
  [30, [0, 2.615, 5.209, 7.765, 10.261, 12.679, 15]],
  [36, [0, 3.138, 6.251, 9.317, 12.313, 15.214, 18]],
];

describe("a ring", () => {
  test.each(
    printed.flatMap(([diameterMm, all]) =>
      tilts.map((tilt, index): [number, number, number] => [diameterMm, tilt, all[index] ?? 0]),
    ),
  )("of %s mm tilted by %s degrees is seen %s mm from front to back", (diameterMm, tilt, mm) => {
    expect(ringDisplacementMm(diameterMm, tilt)).toBeCloseTo(mm, 3);
    // Seen straight from the front, the axis leaning to the back by the tilt.
    const angle = (tilt * Math.PI) / 180;
    const points = ring([0, Math.sin(angle), Math.cos(angle)], diameterMm);
    const [long, short] = seenAxesMm(points, detectorDirection(0, 0));
    expect(long).toBeCloseTo(diameterMm, 9);
    expect(short).toBeCloseTo(mm, 3);
  });

  test("any ring from any side is an ellipse of D and D sin t", () => {
    const angle = evenly(-90, 90);
    fc.assert(
      fc.property(axis, angle, angle, (u, primaryDeg, secondaryDeg) => {
        const direction = detectorDirection(primaryDeg, secondaryDeg);
        const [long, short] = seenAxesMm(ring(u, 32), direction);
        const tilt = tiltDeg(u, primaryDeg, secondaryDeg);
        expect(long).toBeCloseTo(32, 8);
        expect(short).toBeCloseTo(ringDisplacementMm(32, tilt), 6);
      }),
    );
  });

  test("its front and back point coincide edge-on and are D sin t apart otherwise", () => {
    const arch = unit([0.45, 0.85, 0.27]) ?? [0, 0, 1];
    const apartMm = (primaryDeg: number, secondaryDeg: number): number => {
      const direction = detectorDirection(primaryDeg, secondaryDeg);
      const points = ring(arch, 30);
      const depths = points.map((point) => dot(point, direction));
      const front = points[depths.indexOf(Math.max(...depths))];
      const back = points[depths.indexOf(Math.min(...depths))];
      const [one, other] = onDetector([front ?? [0, 0, 0], back ?? [0, 0, 0]], direction);
      return Math.hypot(
        (one?.[0] ?? Number.NaN) - (other?.[0] ?? Number.NaN),
        (one?.[1] ?? Number.NaN) - (other?.[1] ?? Number.NaN),
      );
    };
    // One sample of the ring is a degree: the foremost is at most half of it beside the true one.
    const sampling = 30 * (Math.PI / 360);
    const secondaryDeg = Number(edgeOnSecondaryDeg(arch, 60));
    expect(apartMm(60, secondaryDeg)).toBeLessThan(sampling);
    expect(Math.abs(apartMm(45, 0) - 8.49)).toBeLessThan(sampling);
    expect(Math.abs(apartMm(75, 0) - 6.45)).toBeLessThan(sampling);
  });

  test.each([
    [45, 16.45, 8.49],
    [60, 2.02, 1.06],
    [75, 12.41, 6.45],
  ])("about an arch-like axis seen from primary %s: tilt %s, %s mm", (primaryDeg, tilt, mm) => {
    const found = tiltDeg([0.45, 0.85, 0.27], primaryDeg, 0);
    expect(found).toBeCloseTo(tilt, 2);
    expect(ringDisplacementMm(30, found)).toBeCloseTo(mm, 2);
  });

  test("of 30 mm stays within 2 mm up to a tilt of 3.82 degrees", () => {
    expect(ringDisplacementMm(30, 3.82)).toBeLessThan(2);
    expect(ringDisplacementMm(30, 3.83)).toBeGreaterThan(2);
  });
});

describe("a length", () => {
  test.each([
    [0, 20],
    [5, 19.924],
    [10, 19.696],
    [15, 19.319],
    [20, 18.794],
    [25, 18.126],
    [30, 17.321],
  ])("of 20 mm tilted by %s degrees is seen as %s mm", (tilt, mm) => {
    expect(shownLengthMm(20, tilt)).toBeCloseTo(mm, 3);
  });

  test("is seen as its projected ends are apart", () => {
    const angle = evenly(-90, 90);
    fc.assert(
      fc.property(axis, angle, angle, (u, primaryDeg, secondaryDeg) => {
        const direction = detectorDirection(primaryDeg, secondaryDeg);
        const end = scale(u, 20);
        const flat = subtract(end, scale(direction, dot(end, direction)));
        const tilt = tiltDeg(u, primaryDeg, secondaryDeg);
        expect(shownLengthMm(20, tilt)).toBeCloseTo(norm(flat), 9);
      }),
    );
  });
});
