import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Station } from "../../../src/cases/patient-case.ts";
import type { Vector } from "../../../src/geometry/vector.ts";
import { landingSegments } from "../../../src/planning/landing/landing-segments.ts";
import type { LandingSegment } from "../../../src/planning/landing/landing-segment.ts";
import type { SegmentBasis } from "../../../src/planning/landing/segment-basis.ts";
import { basisOf, leavingOut, lineCase, marks, station } from "./sample-segments.ts";

/** A point on an arch of 60 mm radius that runs on as a straight line after half a turn. */
const pointAt = (mm: number): Vector => {
  const turn = Math.min(mm / 60, Math.PI);
  return [0, 60 * (1 - Math.cos(turn)), 60 * Math.sin(turn) - Math.max(0, mm - 60 * Math.PI)];
};

const randomSection = fc.record({
  gap: fc.integer({ min: 2, max: 14 }),
  maximumMm: fc.integer({ min: 280, max: 420 }).map((tenths) => tenths / 10),
  thrombusArcDeg: fc.option(fc.integer({ min: 0, max: 200 })),
  thrombusThicknessMm: fc.constantFrom(0, 1, 3),
  calciumArcDeg: fc.option(fc.integer({ min: 0, max: 100 })),
});
const randomStations = fc.array(randomSection, { minLength: 8, maxLength: 30 }).map((all) => {
  let mm = -5;
  return all.map(({ gap, ...given }) => {
    mm += gap;
    return station(mm, { ...given, point: pointAt(mm) });
  });
});

const segmentsOf = (stations: readonly Station[], rest: Partial<SegmentBasis> = {}) => {
  const { proximal, distal } = landingSegments(lineCase([...marks, ...stations]), basisOf(rest));
  return [...proximal, ...distal];
};
/** The segment of the strictest or widest limits; where both agree only one is there. */
const inSet = (
  segments: readonly LandingSegment[],
  { end, zone }: LandingSegment,
  conditions: LandingSegment["conditions"],
): LandingSegment => {
  const own = segments.filter((one) => one.end === end && one.zone === zone);
  const found = own.find((one) => one.conditions === conditions) ?? own[0];
  if (!found) throw new Error(`no segment of zone ${zone}`);
  return found;
};

function expectNoLonger(
  before: readonly Station[],
  after: readonly Station[],
  rest: Partial<SegmentBasis>,
) {
  const [old, changed] = [segmentsOf(before, rest), segmentsOf(after, rest)];
  for (const head of old) {
    for (const set of ["strictest published", "widest published"] as const) {
      const [one, other] = [inSet(old, head, set).lengthMm, inSet(changed, head, set).lengthMm];
      for (const key of ["value", "low", "high"] as const) {
        expect(other?.[key] ?? 0).toBeLessThanOrEqual((one?.[key] ?? 0) + 1e-9);
      }
    }
  }
}

describe("on any line of sections", () => {
  const worse: [string, Partial<SegmentBasis>, (station: Station, by: number) => Station][] = [
    [
      "more thrombus",
      {},
      (one, by) => ({
        ...one,
        thrombusArcDeg: one.thrombusArcDeg === null ? null : one.thrombusArcDeg + by,
      }),
    ],
    [
      "thicker thrombus",
      {},
      (one, by) => ({ ...one, thrombusThicknessMm: (one.thrombusThicknessMm ?? 0) + by / 20 }),
    ],
    [
      "more calcium",
      {},
      (one, by) => ({
        ...one,
        calciumArcDeg: one.calciumArcDeg === null ? null : one.calciumArcDeg + by,
      }),
    ],
    // A larger diameter may level a cone, so that this is of the limits of the diameter itself.
    [
      "a larger diameter",
      { planning: leavingOut("taper") },
      (one, by) => ({ ...one, maximumMm: (one.maximumMm ?? 0) + by / 10 }),
    ],
  ];
  test.each(worse)("%s never lengthens a stretch, nor its low or high end", (_, rest, change) => {
    fc.assert(
      fc.property(
        randomStations,
        fc.nat(),
        fc.integer({ min: 1, max: 120 }),
        (stations, where, by) => {
          const index = where % stations.length;
          const after = stations.map((one, at) => (at === index ? change(one, by) : one));
          expectNoLonger(stations, after, rest);
        },
      ),
      { numRuns: 60 },
    );
  });

  test("low <= value <= high on every path, and inner <= centreline <= outer", () => {
    fc.assert(
      fc.property(randomStations, (stations) => {
        for (const { lengthMm, innerMm, outerMm, startMm, endMm } of segmentsOf(stations)) {
          for (const range of [lengthMm, innerMm, outerMm]) {
            if (range === null) continue;
            expect(range.low).toBeLessThanOrEqual(range.value + 1e-9);
            expect(range.value).toBeLessThanOrEqual(range.high + 1e-9);
          }
          if (innerMm && lengthMm && outerMm) {
            for (const key of ["value", "low", "high"] as const) {
              expect(innerMm[key]).toBeLessThanOrEqual(lengthMm[key] + 1e-9);
            }
            expect(outerMm.value).toBeGreaterThanOrEqual(lengthMm.value - 1e-9);
            expect(outerMm.high).toBeGreaterThanOrEqual(lengthMm.high - 1e-9);
          }
          if (startMm !== null && endMm !== null) {
            expect(endMm - startMm).toBeCloseTo(lengthMm?.value ?? Number.NaN, 9);
          }
        }
      }),
      { numRuns: 150 },
    );
  });

  test("a section between two others with the same values never lowers the low end", () => {
    fc.assert(
      fc.property(randomStations, fc.nat(), (stations, where) => {
        const index = 1 + (where % (stations.length - 1));
        const [before, after] = [stations[index - 1], stations[index]];
        if (!before || !after) return;
        const mm = (before.distanceMm + after.distanceMm) / 2;
        // Proportional diameter, and the better of both in the rest: as sound as its neighbours.
        const between = station(mm, {
          maximumMm: ((before.maximumMm ?? 0) + (after.maximumMm ?? 0)) / 2,
          point: pointAt(mm),
        });
        const rest = { planning: leavingOut("taper") };
        const [old, added] = [
          segmentsOf(stations, rest),
          segmentsOf(stations.toSpliced(index, 0, between), rest),
        ];
        for (const head of old) {
          const [one, other] = [old, added].map(
            (all) => inSet(all, head, "strictest published").lengthMm?.low ?? 0,
          );
          expect(other).toBeGreaterThanOrEqual((one ?? 0) - 1e-9);
        }
      }),
      { numRuns: 100 },
    );
  });
});
