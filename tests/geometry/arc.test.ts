import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  arcLengthsMm,
  innerAndOuterMm,
  isTooTight,
  straightEndGap,
} from "../../src/geometry/arc.ts";
import type { Bend } from "../../src/geometry/arc.ts";
import { evenly } from "../evenly.ts";

const lengthsOf = (bend: Bend) => {
  const lengths = arcLengthsMm(bend);
  if ("why" in lengths) throw new Error(lengths.why);
  return lengths;
};
const diameter = evenly(5, 80);
const turn = evenly(0, 360);
const over = evenly(1.01, 20);
const bend = fc.tuple(diameter, turn, over).map(([diameterMm, turnDeg, times]) => ({
  diameterMm,
  turnDeg,
  radiusMm: (diameterMm / 2) * times,
}));

describe("one bend", () => {
  test("the two sides have the centreline as their mean, and differ by turn times diameter", () => {
    fc.assert(
      fc.property(bend, (one) => {
        const { centrelineMm, innerMm, outerMm, differenceMm } = lengthsOf(one);
        expect(innerMm + outerMm).toBeCloseTo(2 * centrelineMm, 8);
        expect(outerMm - innerMm).toBeCloseTo(differenceMm, 8);
        expect(differenceMm).toBeCloseTo((one.turnDeg * Math.PI * one.diameterMm) / 180, 9);
        expect(innerMm).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  test("the difference does not depend on the radius", () => {
    fc.assert(
      fc.property(bend, over, (one, times) => {
        const wider = { ...one, radiusMm: one.radiusMm * times };
        expect(lengthsOf(wider).differenceMm).toBe(lengthsOf(one).differenceMm);
      }),
    );
  });

  test("no bend has no length; a full circle ends where it begins", () => {
    const none = lengthsOf({ turnDeg: 0, radiusMm: 40, diameterMm: 30 });
    expect(none).toEqual({
      centrelineMm: 0,
      innerMm: 0,
      outerMm: 0,
      chordMm: 0,
      differenceMm: 0,
    });
    const round = lengthsOf({ turnDeg: 360, radiusMm: 40, diameterMm: 30 });
    expect(round.chordMm).toBeCloseTo(0, 12);
    expect(round.centrelineMm).toBeCloseTo(80 * Math.PI, 12);
  });

  test.each([
    [{ turnDeg: 90, radiusMm: 15, diameterMm: 30 }, "not over half the diameter"],
    [{ turnDeg: 90, radiusMm: 10, diameterMm: 30 }, "not over half the diameter"],
    [{ turnDeg: 90, radiusMm: 0, diameterMm: 30 }, "radius of the bend is not a number"],
    [{ turnDeg: 90, radiusMm: -40, diameterMm: 30 }, "radius of the bend is not a number"],
    [{ turnDeg: 90, radiusMm: Number.NaN, diameterMm: 30 }, "radius of the bend is not a number"],
    [{ turnDeg: 90, radiusMm: 40, diameterMm: 0 }, "diameter is not a number"],
    [{ turnDeg: 90, radiusMm: 40, diameterMm: Infinity }, "diameter is not a number"],
    [{ turnDeg: -1, radiusMm: 40, diameterMm: 30 }, "turn of the bend"],
    [{ turnDeg: 361, radiusMm: 40, diameterMm: 30 }, "turn of the bend"],
    [{ turnDeg: Number.NaN, radiusMm: 40, diameterMm: 30 }, "turn of the bend"],
  ])("%o has no lengths", (impossible, why) => {
    const answer = arcLengthsMm(impossible);
    expect("why" in answer ? answer.why : answer).toContain(why);
  });

  test("a radius of half the diameter is too tight however the two were rounded", () => {
    expect(isTooTight(0.1 + 0.2, 0.6)).toBe(true);
    expect(isTooTight(0.3, 2 * (0.1 + 0.2))).toBe(true);
    expect(isTooTight(15.0001, 30)).toBe(false);
  });

  test.each([-1, Number.NaN, Infinity])("a length of %s has no sides", (lengthMm) => {
    expect(innerAndOuterMm(lengthMm, 40, 30)).toHaveProperty("why");
  });
});

describe("gap under a straight end", () => {
  test("none without a straight end", () => {
    expect(straightEndGap({ innerRadiusMm: 20, straightMm: 0 })).toEqual({
      heightMm: 0,
      angleDeg: 0,
    });
    expect(straightEndGap({ innerRadiusMm: 0, straightMm: 0 }).heightMm).toBe(0);
  });

  test("it grows with the straight length and shrinks with the radius", () => {
    const positive = evenly(0.1, 100);
    fc.assert(
      fc.property(positive, positive, over, (innerRadiusMm, straightMm, times) => {
        const gap = straightEndGap({ innerRadiusMm, straightMm });
        const longer = straightEndGap({ innerRadiusMm, straightMm: straightMm * times });
        const wider = straightEndGap({ innerRadiusMm: innerRadiusMm * times, straightMm });
        expect(longer.heightMm).toBeGreaterThan(gap.heightMm);
        expect(wider.heightMm).toBeLessThan(gap.heightMm);
        expect(longer.angleDeg).toBeGreaterThan(gap.angleDeg);
        expect(wider.angleDeg).toBeLessThan(gap.angleDeg);
      }),
    );
  });

  test("the height solves the triangle of radius, straight end and gap", () => {
    const positive = evenly(0.1, 100);
    fc.assert(
      fc.property(positive, positive, (innerRadiusMm, straightMm) => {
        const { heightMm, angleDeg } = straightEndGap({ innerRadiusMm, straightMm });
        const angle = (angleDeg * Math.PI) / 180;
        expect((innerRadiusMm + heightMm) * Math.cos(angle)).toBeCloseTo(innerRadiusMm, 9);
        expect((innerRadiusMm + heightMm) * Math.sin(angle)).toBeCloseTo(straightMm, 9);
      }),
    );
  });
});
