import { describe, expect, test } from "vitest";
import type { Centreline } from "../../../src/cases/patient-case.ts";
import type { Vector } from "../../../src/geometry/vector.ts";
import { landingViews } from "../../../src/planning/views/landing-views.ts";
import { localCurve } from "../../../src/planning/views/local-curve.ts";
import { caseWith, centreline, only, segment, station, viewBasis } from "./sample-lines.ts";

/** How far a number is from what it should be, as a share of that. */
const offBy = (value: number | undefined, expected: number): number =>
  Math.abs((value ?? Number.NaN) / expected - 1);

/** A quarter of a circle in a plane x, z, in steps of 1 degree, 30 mm wide. */
function quarter(radiusMm: number, diameterMm: number): Centreline {
  return centreline({
    stations: Array.from({ length: 91 }, (_, deg) => {
      const turn = (deg * Math.PI) / 180;
      return station(turn * radiusMm, {
        key: `S${deg}`,
        point: [radiusMm * Math.sin(turn), 0, radiusMm * Math.cos(turn)],
        maximumMm: diameterMm,
        minimumMm: diameterMm,
      });
    }),
  });
}

describe("the bend beyond the edge of a landing segment", () => {
  /* Torus of R 40 and D 30 over 90 degrees: 62.832, inner 39.270, outer 86.394, chord 56.569, index pi / (2 sqrt 2). */
  const line = quarter(40, 30);
  const ring = only(caseWith(line), {
    ...viewBasis,
    segments: { proximal: [segment(0, (40 * Math.PI) / 2)] },
  });

  test("angle, radius, tortuosity and the two sides are those of the torus", () => {
    expect(ring.basis).toBe("landing segment");
    // Smoothing leaves a circle of this radius within 0.5 %.
    expect(offBy(ring.stretch?.turnDeg, 90)).toBeLessThan(0.005);
    expect(offBy(ring.stretch?.meanRadiusMm ?? undefined, 40)).toBeLessThan(0.005);
    expect(ring.stretch?.chordMm).toBeCloseTo(56.569, 1);
    expect(ring.stretch?.tortuosity).toBeCloseTo(1.11072, 3);
    expect(ring.stretch?.lengthMm.value).toBeCloseTo(62.832, 1);
    expect(ring.stretch?.scatterMm).toBeLessThan(0.05);
    expect(offBy(ring.stretch?.sides?.innerMm.value, 39.27)).toBeLessThan(0.005);
    expect(offBy(ring.stretch?.sides?.outerMm.value, 86.394)).toBeLessThan(0.005);
    expect(offBy(ring.stretch?.sides?.differenceMm.value, 47.124)).toBeLessThan(0.005);
  });

  test("curvature of the inner wall times diameter is D / (R - D / 2)", () => {
    // 30 / 25 = 1.2; with 28.04 mm 28.04 / 25.98 = 1.0793, with 31.96 mm 31.96 / 24.02 = 1.3306. A parabola laid over 20 mm
    // of this circle keeps its curvature within 1 %, which is 1.6 % here, and its scatter widens the interval a little.
    const { value, low, high } = ring.edge?.innerCurvatureTimesDiameter ?? {};
    expect(offBy(value, 1.2)).toBeLessThan(0.02);
    expect(offBy(low, 1.0793)).toBeLessThan(0.035);
    expect(offBy(high, 1.3306)).toBeLessThan(0.035);
    expect(offBy(ring.edge?.radiusMm.value ?? undefined, 40)).toBeLessThan(0.01);
  });

  test("points that scatter by 0.3 mm widen the interval of the radius and leave the bend", () => {
    // Every 5 mm on a circle of 40 mm; as they are, these points would turn by about twice the 0.9 rad of 36 mm.
    const scatter = (index: number): number => 0.3 * Math.sin(index * 2.3) * Math.SQRT2;
    const stations = Array.from({ length: 25 }, (_, index) => {
      const turn = (index * 5) / 40;
      const off = scatter(index);
      const point: Vector = [40 * (1 - Math.cos(turn)) + off, -off, 40 * Math.sin(turn)];
      return station(index * 5, { point, maximumMm: 32, minimumMm: 32 });
    });
    const { stretch, edge } = only(caseWith(centreline({ stations })), {
      ...viewBasis,
      segments: { proximal: [segment(42, 78)] },
    });
    expect(stretch?.scatterMm).toBeGreaterThan(0.15);
    expect(offBy(stretch?.turnDeg, (36 / 40) * (180 / Math.PI))).toBeLessThan(0.15);
    expect(stretch?.sides).not.toBeNull();
    expect(edge?.radiusMm.low).toBeLessThan(40);
    expect(edge?.radiusMm.high).toBeGreaterThan(40);
  });

  test("the gap under a straight end of 15 mm on an inner radius of 20 mm is 5 mm, at 36.87 degrees", () => {
    // R 35, D 30: the right triangle of 15, 20 and 25.
    const [, , end] =
      only(caseWith(quarter(35, 30)), {
        ...viewBasis,
        segments: { proximal: [segment(0, 40)] },
      }).edge?.straightEnds ?? [];
    expect(end?.straightMm).toBe(15);
    expect(offBy(end?.gapMm.value, 5)).toBeLessThan(0.02);
    expect(offBy(end?.angleDeg, 36.87)).toBeLessThan(0.02);
    expect(end?.spansCounted).toBe(true);
  });

  test("the axis is that of the circle at its place, also at the first point of a line that bends", () => {
    // Along the circle after an angle t: (cos t, 0, -sin t).
    for (const atMm of [0, 20, 40]) {
      const { axis } = only(caseWith(line), {
        ...viewBasis,
        segments: { proximal: [segment(atMm, 50)] },
      });
      const t = atMm / 40;
      const [x = 0, y = 0, z = 0] = axis?.axis ?? [];
      const offDeg = (Math.acos(Math.min(1, x * Math.cos(t) - z * Math.sin(t))) * 180) / Math.PI;
      expect(y).toBeCloseTo(0, 9);
      expect(offDeg).toBeLessThan(0.2);
      expect(axis?.uncertaintyDeg).toBeLessThan(0.3);
    }
  });

  test("both ends of what differs are named once where they begin at one place", () => {
    const both = [segment(20, 40), segment(20, 50, { conditions: "widest published" })];
    const one = only(caseWith(line), { ...viewBasis, segments: { proximal: both } });
    expect(one.label).toBe("proximal edge in zone 2");
    expect(one.stretch?.toMm).toBe(50);
  });

  test("the limits are named where they place the edge of one zone twice", () => {
    const both = [segment(20, 40), segment(25, 40, { conditions: "widest published" })];
    const { rings } = landingViews(caseWith(line), {
      ...viewBasis,
      segments: { proximal: both },
    });
    expect(rings.map(({ label }) => label)).toEqual([
      "proximal edge in zone 2 (strictest published)",
      "proximal edge in zone 2 (widest published)",
    ]);
  });

  test("a bend too tight for its diameter gives no curvature", () => {
    const tight = only(caseWith(quarter(15, 30)), {
      ...viewBasis,
      segments: { proximal: [segment(0, 20)] },
    });
    expect(tight.edge).toBeNull();
    expect(tight.notAssessable.map(({ what }) => what)).toContain("curvature at the edge");
  });
});

describe("the curve through the points near a place", () => {
  const distancesMm = [0, 4, 10, 13, 21, 30];
  const onParabola = distancesMm.map((mm): Vector => [mm, 0.01 * mm * mm, 2]);
  const line = { points: onParabola, distancesMm };

  test("is the parabola that the points lie on, whatever their spacing", () => {
    const curve = localCurve(line, 0, 30);
    // y = 0.01 x^2: curvature 0.02 / (1 + (0.02 x)^2)^1.5, the textbook formula of a graph.
    for (const mm of [0, 10, 30]) {
      const expected = 0.02 / (1 + (0.02 * mm) ** 2) ** 1.5;
      expect(curve?.curvatureAt(mm).value).toBeCloseTo(expected, 12);
    }
    expect(curve?.scatterMm).toBeCloseTo(0, 9);
    expect(curve?.pointAt(15)[1]).toBeCloseTo(2.25, 9);
  });

  test("three points give none: nothing tells how far they scatter", () => {
    expect(localCurve(line, 0, 10)).toBeNull();
  });

  test("about 95 of 100 intervals hold the curvature of a circle of 50 mm under scatter", () => {
    // Normal noise by Box and Muller from a fixed linear congruential sequence (Numerical Recipes' constants, recalled).
    let state = 12345;
    const uniform = (): number => {
      state = (1664525 * state + 1013904223) % 2 ** 32;
      return (state + 1) / (2 ** 32 + 1);
    };
    const normal = (): number =>
      Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const mms = Array.from({ length: 7 }, (_, index) => index * 5);
    let held = 0;
    for (let run = 0; run < 1000; run++) {
      const points = mms.map((mm): Vector => [
        50 * Math.sin(mm / 50) + 0.3 * normal(),
        50 * (1 - Math.cos(mm / 50)) + 0.3 * normal(),
        0.3 * normal(),
      ]);
      const { low = 1, high = 0 } =
        localCurve({ points, distancesMm: mms }, 0, 30)?.curvatureAt(15) ?? {};
      if (low <= 0.02 && 0.02 <= high) held += 1;
    }
    expect(held).toBeGreaterThan(900);
    expect(held).toBeLessThan(990);
  });
});
