/*
 * The limits between sizes of one section, against figures measured here from their corners.
 *
 * - Area, perimeter, largest and smallest width in pairs: Debayle 2019 (Metall. Res. Technol. 116:508, doi
 *   10.1051/metal/2019011), table 3: 4A <= pi D^2, pi d <= P, 4 pi A <= P^2, 2D <= P, d <= D.
 * - Three at a time: Kubota 1923, recalled, not compared. That the limits hold is shown on random convex polygons and
 *   ellipses; that they are no laxer than they must be, on the figures that reach them (circle, triangle, Reuleaux triangle,
 *   part of a disc between parallel lines, hull of a disc and a chord).
 * - Mean width = P / pi: Cauchy; here by averaging widths.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Measurement } from "../../src/cases/patient-case.ts";
import { sectionConflicts } from "../../src/cases/section-consistency.ts";
import { ellipseAreaMm2, ellipsePerimeterMm } from "../../src/geometry/ellipse.ts";
import {
  leastPerimeterMm,
  mostAreaMm2,
  mostPerimeterMm,
  sectionBounds,
  type SectionPart,
} from "../../src/geometry/section-bounds.ts";
import { sampleMeasurement } from "../cases/sample-measurement.ts";

type Point = readonly [number, number];

/** Convex hull, counter-clockwise, by sorted chains. */
function hull(points: Point[]): Point[] {
  const sorted = points.toSorted(([ax, ay], [bx, by]) => ax - bx || ay - by);
  const chain = (ordered: Point[]): Point[] => {
    const kept: Point[] = [];
    for (const point of ordered) {
      for (;;) {
        const [before, last] = [kept.at(-2), kept.at(-1)];
        if (!before || !last || turn(before, last, point) > 0) break;
        kept.pop();
      }
      kept.push(point);
    }
    return kept.slice(0, -1);
  };
  return [...chain(sorted), ...chain(sorted.toReversed())];
}
const turn = ([ax, ay]: Point, [bx, by]: Point, [cx, cy]: Point): number =>
  (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
const distance = ([ax, ay]: Point, [bx, by]: Point): number => Math.hypot(bx - ax, by - ay);
const long = ([one, other]: [Point, Point]): number => distance(one, other);
const width = (polygon: Point[], [ux, uy]: Point): number => {
  const along = polygon.map(([x, y]) => x * ux + y * uy);
  return Math.max(...along) - Math.min(...along);
};

type Sizes = Record<Exclude<SectionPart, "across">, number>;

/** Everything that a section can be measured by, from the corners of a convex polygon. */
function sizesOf(polygon: Point[]): Sizes {
  const edges = polygon.map((point, index): [Point, Point] => [
    point,
    polygon[(index + 1) % polygon.length] ?? point,
  ]);
  const chords = polygon.flatMap((one) => polygon.map((other): [Point, Point] => [one, other]));
  const longest = chords.reduce((best, chord) => (long(chord) > long(best) ? chord : best));
  const largest = long(longest);
  const normal = ([a, b]: [Point, Point]): Point => {
    const length = distance(a, b);
    return [(a[1] - b[1]) / length, (b[0] - a[0]) / length];
  };
  // The smallest width of a polygon is reached at right angles to one of its edges.
  const smallest = Math.min(...edges.map((edge) => width(polygon, normal(edge))));
  const perimeter = edges.reduce((sum, edge) => sum + distance(...edge), 0);
  const area = edges.reduce((sum, [a, b]) => sum + (a[0] * b[1] - a[1] * b[0]) / 2, 0);
  return {
    largest,
    smallest,
    perpendicular: width(polygon, normal(longest)),
    mean: perimeter / Math.PI,
    perimeter,
    area,
  };
}

const ellipseSizes = (long: number, short: number): Sizes => ({
  largest: long,
  smallest: short,
  perpendicular: short,
  mean: (long + short) / 2,
  perimeter: ellipsePerimeterMm(long, short),
  area: ellipseAreaMm2(long, short),
});

const coordinate = fc.double({ min: -40, max: 40, noNaN: true });
const polygons = fc
  .array(fc.tuple(coordinate, coordinate), { minLength: 3, maxLength: 14 })
  .map(hull)
  .filter((polygon) => polygon.length > 2 && sizesOf(polygon).smallest > 2);
const ellipses = fc
  .tuple(fc.double({ min: 8, max: 90, noNaN: true }), fc.double({ min: 0.1, max: 1, noNaN: true }))
  .map(([long, ratio]) => ellipseSizes(long, long * ratio));

/** The sizes as a report writes them, with one decimal. */
const written = (sizes: Sizes): Measurement[] => {
  const one = (value: number, rest: Partial<Measurement>, unit = "mm") =>
    sampleMeasurement(`${value.toFixed(1)} ${unit}`, rest);
  return [
    one(sizes.largest, { statistic: "maximum" }),
    one(sizes.smallest, { statistic: "minimum" }),
    one(sizes.mean, { statistic: "mean" }),
    one(sizes.largest, { quantity: "long-axis" }),
    one(sizes.perpendicular, { quantity: "short-axis" }),
    one(sizes.perimeter, { quantity: "perimeter" }),
    one(sizes.area, { quantity: "area" }, "mm2"),
  ];
};
const conflicts = (sizes: Sizes): string[] =>
  sectionConflicts(written(sizes), "2026-01-12").map(({ text }) => text);

describe("the limits hold", () => {
  test("for random convex polygons, with either mean and any diameter", () => {
    fc.assert(
      fc.property(polygons, fc.double({ min: 0, max: 1, noNaN: true }), (polygon, share) => {
        const sizes = sizesOf(polygon);
        const { largest, smallest, mean } = sizes;
        for (const value of [mean, (largest + smallest) / 2]) {
          const all = { ...sizes, mean: value, across: smallest + share * (largest - smallest) };
          for (const { of, side, by, value: limit } of sectionBounds) {
            const bound = limit(...by.map((part) => all[part]));
            const slack = side === "at least" ? all[of] - bound : bound - all[of];
            expect(slack / bound, `${of} ${side} by ${by.join()}`).toBeGreaterThan(-1e-9);
          }
        }
      }),
      { numRuns: 1000 },
    );
  });

  test("the mean of the widths in all directions is perimeter over pi", () => {
    fc.assert(
      fc.property(polygons, (polygon) => {
        const steps = 2000;
        const angles = Array.from({ length: steps }, (_, index) => (index * Math.PI) / steps);
        const widths = angles.map((angle) => width(polygon, [Math.cos(angle), Math.sin(angle)]));
        const mean = widths.reduce((sum, value) => sum + value, 0) / steps;
        expect(mean / sizesOf(polygon).mean).toBeCloseTo(1, 5);
      }),
      { numRuns: 20 },
    );
  });

  test("so sections written with one decimal never conflict: polygons", () => {
    fc.assert(
      fc.property(polygons, (polygon) => {
        const sizes = sizesOf(polygon);
        expect(conflicts(sizes)).toEqual([]);
        expect(conflicts({ ...sizes, mean: (sizes.largest + sizes.smallest) / 2 })).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });

  test("so sections written with one decimal never conflict: ellipses", () => {
    fc.assert(
      fc.property(ellipses, (sizes) => {
        expect(conflicts(sizes)).toEqual([]);
        expect(conflicts({ ...sizes, mean: sizes.perimeter / Math.PI })).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });

  test("near a circle no digit is lost", () => {
    const [largest, smallest] = [89.99999999033963, 89.99999999033962];
    expect(mostPerimeterMm(largest, smallest) / (Math.PI * largest)).toBeCloseTo(1, 12);
    expect(leastPerimeterMm(largest, smallest) / (Math.PI * largest)).toBeCloseTo(1, 12);
    expect(mostAreaMm2(largest, smallest) / (Math.PI * largest ** 2)).toBeCloseTo(1 / 4, 12);
  });

  test("none of them falls when a part grows", () => {
    const size = fc.double({ min: 1, max: 90, noNaN: true });
    const growth = fc.double({ min: 1, max: 1.5, noNaN: true });
    fc.assert(
      fc.property(size, size, growth, growth, (one, other, first, second) => {
        for (const { value } of sectionBounds) {
          const grown = value(one * first, other * second);
          expect(grown).toBeGreaterThanOrEqual(value(one, other) * (1 - 1e-12));
        }
      }),
    );
  });
});

describe("the limits are reached", () => {
  const arc = (from: number, to: number, radius: number, [x, y]: Point = [0, 0]): Point[] =>
    Array.from({ length: 201 }, (_, index) => {
      const angle = from + ((to - from) * index) / 200;
      return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)] as const;
    });
  const circle = arc(0, 2 * Math.PI, 20);

  test.each([0.3, 0.5, 0.7, 0.9])(
    "by the part of a disc and the hull of a disc and a chord, smallest over largest %d",
    (ratio) => {
      const half = Math.asin(ratio);
      const strip = hull([...arc(-half, half, 20), ...arc(Math.PI - half, Math.PI + half, 20)]);
      const disc = arc(0, 2 * Math.PI, 20 * ratio);
      const chord: Point[] = [
        [-20, 0],
        [20, 0],
      ];
      const pointed = hull([...disc, ...chord]);
      const { largest, smallest, perimeter, area } = sizesOf(strip);
      expect(mostPerimeterMm(largest, smallest) / perimeter).toBeCloseTo(1, 3);
      expect(mostAreaMm2(largest, smallest) / area).toBeCloseTo(1, 3);
      const least = sizesOf(pointed);
      expect(leastPerimeterMm(least.largest, least.smallest) / least.perimeter).toBeCloseTo(1, 3);
    },
  );

  test("by the circle, the equilateral triangle and the Reuleaux triangle", () => {
    const round = sizesOf(hull(circle));
    expect(round.perimeter ** 2 / (4 * Math.PI) / round.area).toBeCloseTo(1, 3);
    const height = 40 * Math.sqrt(0.75);
    const triangle = sizesOf([
      [0, 0],
      [40, 0],
      [20, height],
    ]);
    expect(triangle.smallest ** 2 / Math.sqrt(3) / triangle.area).toBeCloseTo(1, 12);
    const sixth = Math.PI / 3;
    const reuleaux = sizesOf(
      hull([
        ...arc(0, sixth, 40),
        ...arc(2 * sixth, 3 * sixth, 40, [40, 0]),
        ...arc(4 * sixth, 5 * sixth, 40, [20, height]),
      ]),
    );
    expect(reuleaux.perimeter / (Math.PI * reuleaux.smallest)).toBeCloseTo(1, 3);
    expect(reuleaux.perimeter / (Math.PI * reuleaux.largest)).toBeCloseTo(1, 3);
  });

  test("the mean of largest and smallest goes furthest from perimeter and area where theory puts it", () => {
    const means = Array.from({ length: 999 }, (_, index) => {
      const ratio = (index + 1) / 1000;
      const mean = (1 + ratio) / 2;
      return {
        perimeter: mean / leastPerimeterMm(1, ratio),
        area: mean / Math.sqrt(mostAreaMm2(1, ratio)),
      };
    });
    const limit = (side: string, by: string) =>
      sectionBounds
        .find((bound) => bound.of === "mean" && bound.side === side && bound.by.join() === by)
        ?.value(1);
    expect(Math.max(...means.map(({ perimeter }) => perimeter))).toBeCloseTo(
      limit("at most", "perimeter") ?? NaN,
      6,
    );
    expect(Math.min(...means.map(({ area }) => area))).toBeCloseTo(
      limit("at least", "area") ?? NaN,
      6,
    );
  });
});

describe("a number that is wrong by 30 % is found in sections of usual shape", () => {
  const usual = fc
    .tuple(
      fc.double({ min: 18, max: 70, noNaN: true }),
      fc.double({ min: 0.7, max: 1, noNaN: true }),
    )
    .map(([long, ratio]) => ({ long, short: long * ratio }));

  // An area can be 30 % too small for an ellipse and still that of a section with corners; not 60 %.
  test.each([
    ["largest", 1.3],
    ["largest", 1 / 1.3],
    ["smallest", 1.3],
    ["smallest", 1 / 1.3],
    ["perimeter", 1.3],
    ["perimeter", 1 / 1.3],
    ["area", 1.3],
    ["area", 1 / 2.5],
    ["mean", 1.3],
    ["mean", 1 / 1.3],
  ] as const)("%s times %d", (part, factor) => {
    fc.assert(
      fc.property(usual, ({ long, short }) => {
        const right = ellipseSizes(long, short);
        const wrong = { ...right, [part]: right[part] * factor };
        expect(conflicts(wrong)).not.toEqual([]);
      }),
    );
  });
});
