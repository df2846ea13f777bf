import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  circumradiusMm,
  curvaturesAlong,
  curveLengthsMm,
  polylineLengthMm,
  tortuosityIndex,
} from "../../src/geometry/polyline.ts";
import { norm, subtract } from "../../src/geometry/vector.ts";
import type { Vector } from "../../src/geometry/vector.ts";
import { evenly } from "../evenly.ts";

const coordinate = evenly(-300, 300);
const point = fc.tuple(coordinate, coordinate, coordinate);
const line = fc.array(point, { minLength: 2, maxLength: 12 });

/** Points on an arc in the plane of x and z, `turnDeg` degrees in even pieces, beginning at the origin upwards. */
const arc = (radiusMm: number, turnDeg: number, pieces: number): Vector[] =>
  Array.from({ length: pieces + 1 }, (_, index) => {
    const turned = ((turnDeg * Math.PI) / 180) * (index / pieces);
    return [radiusMm * (1 - Math.cos(turned)), 0, radiusMm * Math.sin(turned)];
  });
const straight: Vector[] = [0, 0.1, 0.2, 0.3, 0.7].map((t): Vector => [3 * t, -t, 2 * t]);

describe("length", () => {
  test("of no and of one point is 0", () => {
    expect(polylineLengthMm([])).toBe(0);
    expect(polylineLengthMm([[1, 2, 3]])).toBe(0);
  });

  test("is not under the straight distance, and never falls when a point is put in", () => {
    fc.assert(
      fc.property(line, point, fc.nat(), (points, extra, place) => {
        const lengthMm = polylineLengthMm(points);
        const [first, last] = [points[0] ?? extra, points.at(-1) ?? extra];
        expect(lengthMm * (1 + 1e-12)).toBeGreaterThanOrEqual(norm(subtract(last, first)));
        const longer = points.toSpliced(1 + (place % (points.length - 1)), 0, extra);
        expect(polylineLengthMm(longer)).toBeGreaterThanOrEqual(lengthMm * (1 - 1e-12));
      }),
    );
  });

  test("on an arc stays under the arc, by a quarter as much with half the spacing", () => {
    const turn = fc.integer({ min: 10, max: 300 });
    const pieces = fc.integer({ min: 4, max: 40 });
    fc.assert(
      fc.property(turn, pieces, (turnDeg, few) => {
        const exactMm = (50 * turnDeg * Math.PI) / 180;
        const shortMm = exactMm - polylineLengthMm(arc(50, turnDeg, few * 4));
        const halvedMm = exactMm - polylineLengthMm(arc(50, turnDeg, few * 8));
        expect(shortMm).toBeGreaterThan(0);
        expect(shortMm / halvedMm).toBeGreaterThan(3.9);
        expect(shortMm / halvedMm).toBeLessThan(4.1);
      }),
    );
  });

  test("is too long where points scatter about the line", () => {
    const zigzag = Array.from({ length: 41 }, (_, z): Vector => [z % 2, 0, z]);
    expect(polylineLengthMm(zigzag)).toBeCloseTo(40 * Math.SQRT2, 9);
  });
});

describe("tortuosity", () => {
  test("is never under 1, and 1 on a straight line", () => {
    fc.assert(
      fc.property(line, (points) => {
        const index = tortuosityIndex(points);
        if (index !== null) expect(index).toBeGreaterThanOrEqual(1);
      }),
    );
    fc.assert(
      fc.property(point, fc.integer({ min: 2, max: 20 }), ([x, y, z], pieces) => {
        const points = Array.from({ length: pieces + 1 }, (_, index): Vector => {
          const share = index / pieces;
          return [x * share, y * share, z * share];
        });
        const index = tortuosityIndex(points) ?? Number.NaN;
        return index >= 1 && index < 1 + 1e-12;
      }),
    );
  });

  test("is none under 2 points and where the ends meet", () => {
    expect(tortuosityIndex([])).toBeNull();
    expect(tortuosityIndex([[1, 1, 1]])).toBeNull();
    expect(
      tortuosityIndex([
        [0, 0, 0],
        [5, 0, 0],
        [0, 0, 0],
      ]),
    ).toBeNull();
  });
});

describe("circumradius", () => {
  test("of a right triangle is half its longest side", () => {
    expect(circumradiusMm([0, 0, 0], [3, 0, 0], [3, 4, 0])).toBeCloseTo(2.5, 12);
  });

  test("is none for points on a line and for points that coincide", () => {
    expect(circumradiusMm([0, 0, 0], [0.1, 0.1, 0.1], [0.3, 0.3, 0.3])).toBeNull();
    expect(circumradiusMm([1, 2, 3], [1, 2, 3], [4, 5, 6])).toBeNull();
    expect(circumradiusMm([1, 2, 3], [4, 5, 6], [1, 2, 3])).toBeNull();
  });

  test("does not depend on the order of the points", () => {
    const tenth = fc.integer({ min: -3000, max: 3000 }).map((tenths) => tenths / 10);
    const corner = fc.tuple(tenth, tenth, tenth);
    fc.assert(
      fc.property(corner, corner, corner, (a, b, c) => {
        const radii = [circumradiusMm(a, b, c), circumradiusMm(c, b, a), circumradiusMm(b, c, a)];
        const [one, reversed, turned] = radii;
        fc.pre(typeof one === "number" && one < 1e5);
        expect((reversed ?? 0) / (one ?? 1)).toBeCloseTo(1, 6);
        expect((turned ?? 0) / (one ?? 1)).toBeCloseTo(1, 6);
      }),
    );
  });
});

describe("bends along a line", () => {
  test("stand at every inner point, with radius, turn and plane", () => {
    const bends = curvaturesAlong(arc(40, 90, 6));
    expect(bends).toHaveLength(5);
    const chordMm = 80 * Math.sin(Math.PI / 24);
    for (const [index, bend] of bends.entries()) {
      expect(bend.atMm).toBeCloseTo((index + 1) * chordMm, 10);
      expect(bend.radiusMm).toBeCloseTo(40, 10);
      expect(bend.turnDeg).toBeCloseTo(15, 10);
      // From z towards x: right-handed about y.
      expect(norm(subtract(bend.bendNormal ?? [0, 0, 0], [0, 1, 0]))).toBeLessThan(1e-12);
    }
  });

  test("have neither radius nor plane on a straight line", () => {
    for (const bend of curvaturesAlong(straight)) {
      expect(bend.radiusMm).toBeNull();
      expect(bend.bendNormal).toBeNull();
      expect(bend.turnDeg).toBeCloseTo(0, 9);
    }
  });

  test("are none under 3 points; a point repeated on the spot counts once", () => {
    expect(curvaturesAlong(arc(40, 30, 1))).toEqual([]);
    const points = arc(40, 90, 6);
    expect(curvaturesAlong(points.flatMap((one) => [one, one]))).toEqual(curvaturesAlong(points));
  });
});

describe("lengths of the two sides", () => {
  const lengthsOf = (points: readonly Vector[], diameterMm = 30) => {
    const lengths = curveLengthsMm(points, () => diameterMm);
    if ("why" in lengths) throw new Error(lengths.why);
    return lengths;
  };

  test("have the centreline as their mean, and differ by turn times diameter", () => {
    const radius = evenly(16, 200);
    const turn = evenly(5, 270);
    fc.assert(
      fc.property(radius, turn, fc.integer({ min: 2, max: 40 }), (radiusMm, turnDeg, pieces) => {
        const points = arc(radiusMm, turnDeg, pieces);
        const lengths = lengthsOf(points);
        expect(lengths.innerMm + lengths.outerMm).toBeCloseTo(2 * lengths.centrelineMm, 8);
        const differenceMm = (lengths.turnDeg * Math.PI * 30) / 180;
        expect(lengths.outerMm - lengths.innerMm).toBeCloseTo(differenceMm, 8);
        expect(lengths.centrelineMm).toBeCloseTo(polylineLengthMm(points), 12);
      }),
    );
  });

  test("are those of the centreline on a straight line, which has no least radius", () => {
    const lengths = lengthsOf(straight);
    expect(lengths.innerMm).toBe(lengths.centrelineMm);
    expect(lengths.outerMm).toBe(lengths.centrelineMm);
    expect(lengths.turnDeg).toBe(0);
    expect(lengths.leastRadiusMm).toBeNull();
  });

  test("add up over bends to opposite sides, though a line on the wall would even out", () => {
    const there = arc(40, 90, 30);
    const end = there.at(-1) ?? [0, 0, 0];
    const back = there.toReversed().map(([x, y, z]): Vector => [2 * end[0] - x, y, 2 * end[2] - z]);
    const both = lengthsOf([...there, ...back.slice(1)]);
    const one = lengthsOf(there);
    expect(both.centrelineMm).toBeCloseTo(2 * one.centrelineMm, 8);
    // The point of inflection lies on a line with its neighbours: one chord in 60 turns less.
    expect(both.turnDeg).toBeGreaterThan(2 * one.turnDeg - 3.1);
    expect(both.turnDeg).toBeLessThanOrEqual(2 * one.turnDeg);
    expect(both.innerMm).toBeLessThan(both.centrelineMm - 40);
  });

  test("do not change when the line is walked the other way", () => {
    const points = [...arc(40, 60, 7), [70, 20, 40], [95, 30, 42]] as Vector[];
    const [there, back] = [lengthsOf(points, 20), lengthsOf(points.toReversed(), 20)];
    expect(back.innerMm).toBeCloseTo(there.innerMm, 9);
    expect(back.turnDeg).toBeCloseTo(there.turnDeg, 9);
  });

  test.each<[string, Vector[], number, string]>([
    ["two points", arc(40, 30, 1), 30, "fewer than 3 points"],
    [
      "a radius of half the diameter",
      arc(15, 90, 9),
      30,
      "at 0.0 mm is not over half the diameter",
    ],
    ["no diameter", arc(40, 90, 9), Number.NaN, "the diameter at 0.0 mm is not a number above 0"],
    ["a diameter of 0", arc(40, 90, 9), 0, "the diameter at 0.0 mm is not a number above 0"],
    [
      "a line that turns back",
      [
        [0, 0, 0],
        [0, 0, 10],
        [0, 0, 4],
      ],
      30,
      "turns back on itself",
    ],
  ])("say why there are none: %s", (_, points, diameterMm, why) => {
    const answer = curveLengthsMm(points, () => diameterMm);
    expect("why" in answer ? answer.why : answer).toContain(why);
  });

  test("no finite points give anything but numbers or a reason", () => {
    const wild = fc.double({ min: -3.4e38, max: 3.4e38, noNaN: true });
    const near = fc.constantFrom(0, 0, 1, 2);
    const any = fc.oneof(wild, near, coordinate);
    fc.assert(
      fc.property(fc.array(fc.tuple(any, any, any), { maxLength: 8 }), (points) => {
        for (const bend of curvaturesAlong(points)) {
          expect(Number.isFinite(bend.atMm) && Number.isFinite(bend.turnDeg)).toBe(true);
          expect(bend.radiusMm === null || bend.radiusMm > 0).toBe(true);
        }
        const answer = curveLengthsMm(points, () => 30);
        if ("why" in answer) return;
        const { leastRadiusMm, ...numbers } = answer;
        expect(Object.values(numbers).every(Number.isFinite)).toBe(true);
        expect(leastRadiusMm === null || leastRadiusMm > 15).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });
});
