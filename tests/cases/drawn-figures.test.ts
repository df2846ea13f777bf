import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { buildCases } from "../../src/cases/build-cases.ts";
import {
  add,
  angleBetweenDeg,
  cross,
  norm,
  scale,
  subtract,
  unit,
  type Vector,
} from "../../src/geometry/vector.ts";
import type { DrawnFigure, Reading } from "../../src/readers/reading.ts";
import { sampleDocument, sampleOptions, sampleReading, sampleStation } from "./sample-documents.ts";

/** A reading of an invented report with a figure drawn under it. */
function drawn(
  words: { place?: string; quantity?: string; at?: string; unit?: string },
  graphicType: string,
  points: Vector[],
): Reading {
  const {
    place = "ascending aorta",
    quantity = "diameter",
    at = "item 1.4.2",
    unit: own = "mm",
  } = words;
  const graphic: DrawnFigure = {
    source: { file: "report.dcm", sha256: "ab", at: `${at}.1` },
    graphicType,
    points,
    frameOfReferenceUid: "2.25.1009",
  };
  const terms = { quantity: { words: quantity, code: null }, statistic: null, edge: null };
  return { ...sampleReading(place, "45", { ...terms, unit: own }, at), graphic };
}
const caseOf = (
  readings: Reading[],
  rest: Partial<typeof sampleOptions> = {},
  stations = [] as ReturnType<typeof sampleStation>[],
) => {
  const [built] = buildCases([sampleDocument("2025-01-02", readings, { stations })], [], {
    ...sampleOptions,
    ...rest,
  }).cases;
  if (!built) throw new Error("no case");
  const codes = built.messages
    .map(({ code }) => code)
    .filter((code) => code.startsWith("centreline") || code.startsWith("ring"));
  return { ...built, codes };
};

describe("a line drawn under a length", () => {
  const points: Vector[] = [
    [0, 0, 0],
    [3, 4, 0],
    [3, 4, 12],
  ];
  test("is a centreline whose distances count along its points, without sections and marks", () => {
    const { centrelines, codes, measurements } = caseOf(
      [drawn({ quantity: "length" }, "POLYLINE", points)],
      { scanPosition: { position: "HFS", by: "imaging lab", date: "2026-01-15" } },
    );
    expect(codes).toEqual([]);
    expect(measurements).toMatchObject([{ quantity: "length", value: 45 }]);
    expect(centrelines).toMatchObject([
      {
        exam: "2025-01-02",
        vessel: "aorta",
        origin: "structured report",
        patientPosition: "HFS",
        positionBy: "site file, imaging lab, 2026-01-15",
        stations: [
          { distanceMm: 0, point: [0, 0, 0], mark: null, maximumMm: null },
          { distanceMm: 5, source: { at: "item 1.4.2.1, point 2" } },
          { distanceMm: 17, point: [3, 4, 12] },
        ],
      },
    ]);
    expect(new Set(centrelines[0]?.stations.map(({ key }) => key)).size).toBe(3);
  });

  test.each<[string, Parameters<typeof drawn>[0], string, Vector[], string | null]>([
    [
      "of a branch",
      { quantity: "length", place: "left subclavian artery" },
      "POLYLINE",
      points,
      "left-subclavian-artery",
    ],
    [
      "of an iliac artery",
      { quantity: "length", place: "zone 10 left" },
      "POLYLINE",
      points,
      "zone-10-left",
    ],
    ["along the outer curve", { quantity: "outer curve length" }, "POLYLINE", points, null],
    ["of two points", { quantity: "length" }, "POLYLINE", points.slice(1), null],
    ["that is a diameter", { quantity: "diameter" }, "POLYLINE", points, null],
    ["of another type", { quantity: "length" }, "MULTIPOINT", points, null],
  ])("%s", (_, words, type, own, vessel) => {
    const { centrelines, measurements } = caseOf([drawn(words, type, own)]);
    expect(measurements).toHaveLength(1);
    expect(centrelines.map((one) => one.vessel)).toEqual(vessel === null ? [] : [vessel]);
  });

  test("the same line twice counts once; two different ones of a vessel are both left out", () => {
    const one = drawn({ quantity: "length", at: "item 1.1" }, "POLYLINE", points);
    const again = drawn({ quantity: "length", at: "item 1.2" }, "POLYLINE", points);
    const other = drawn({ quantity: "length", at: "item 1.3" }, "POLYLINE", points.toReversed());
    const once = caseOf([one, again]);
    expect([once.centrelines.length, once.codes]).toEqual([1, []]);
    const both = caseOf([one, other]);
    expect([both.centrelines, both.codes]).toEqual([[], ["centreline-lines-differ"]]);
  });

  test("beside a centreline sheet of the vessel the sheet's stays", () => {
    const { centrelines, codes } = caseOf([drawn({ quantity: "length" }, "POLYLINE", points)], {}, [
      sampleStation(0),
    ]);
    expect(centrelines).toMatchObject([{ origin: "centreline sheet" }]);
    expect(codes).toEqual(["centreline-of-report-not-used"]);
  });
});

const squareAt = (x: number, y: number, z: number): Vector[] => [
  [x, y, z],
  [x + 30, y, z],
  [x + 30, y + 30, z],
  [x, y + 30, z],
  [x, y, z],
];

describe("a ring drawn around the vessel", () => {
  test.each<[string, string, Vector[]]>([
    ["polygon", "POLYGON", squareAt(0, 0, 7)],
    ["polygon that does not repeat its first point", "POLYGON", squareAt(0, 0, 7).slice(0, 4)],
    ["closed line", "POLYLINE", squareAt(0, 0, 7)],
    // Ends of the major axis, then of the minor one: DICOM PS3.3, C.18.9.1.2.
    [
      "ellipse",
      "ELLIPSE",
      [
        [0, 15, 7],
        [30, 15, 7],
        [15, 5, 7],
        [15, 25, 7],
      ],
    ],
  ])("%s: its centre and axis", (_, type, points) => {
    const { rings, codes, measurements } = caseOf([drawn({}, type, points)]);
    expect(codes).toEqual([]);
    const [ring] = rings;
    expect(ring).toMatchObject({
      measurement: measurements[0]?.key,
      place: { id: "ascending-aorta" },
    });
    expect(ring?.centre.map((one) => Number(one.toFixed(9)))).toEqual([15, 15, 7]);
    expect(ring?.axis.map(Math.abs)).toEqual([0, 0, 1]);
  });

  test("its centre is that of its area, wherever its corners crowd", () => {
    const [a, b, ...rest] = squareAt(0, 0, 0) as [Vector, Vector, ...Vector[]];
    const crowded = [a, ...[1, 2, 3, 4].map((x): Vector => [x, 0, 0]), b, ...rest];
    const [ring] = caseOf([drawn({ quantity: "area", unit: "cm2" }, "POLYGON", crowded)]).rings;
    expect(ring?.centre.map((one) => Number(one.toFixed(9)))).toEqual([15, 15, 0]);
  });

  test.each<[string, Parameters<typeof drawn>[0], string, Vector[]]>([
    ["an open line", {}, "POLYLINE", squareAt(0, 0, 0).slice(0, 4)],
    ["a caliper of two points", {}, "POLYLINE", squareAt(0, 0, 0).slice(0, 2)],
    ["a point", {}, "POINT", [[0, 0, 0]]],
    ["a polygon under a length", { quantity: "length" }, "POLYGON", squareAt(0, 0, 0)],
  ])("%s is none, and nothing is wrong", (_, words, type, points) => {
    const { rings, codes } = caseOf([drawn(words, type, points)]);
    expect([rings, codes]).toEqual([[], []]);
  });

  test.each<[string, Vector[], string]>([
    [
      "on a line",
      [
        [0, 0, 0],
        [10, 0, 0],
        [20, 0, 0],
        [0, 0, 0],
      ],
      "lie on a line",
    ],
    [
      "that crosses itself",
      [
        [0, 0, 0],
        [30, 30, 0],
        [30, 0, 0],
        [0, 30, 0],
      ],
      "sides cross",
    ],
    [
      "off its plane",
      [
        [0, 0, 0],
        [30, 0, 5],
        [30, 30, 0],
        [0, 30, 5],
      ],
      "off a plane",
    ],
  ])("%s is refused, and the number is used", (_, points, why) => {
    const { rings, messages, measurements } = caseOf([drawn({}, "POLYGON", points)]);
    expect([rings.length, measurements.length]).toEqual([0, 1]);
    expect(messages.find(({ code }) => code === "ring-not-usable")?.text).toContain(why);
  });

  test("a point 1 mm off the plane is still in it", () => {
    const skewed: Vector[] = [
      [0, 0, -1],
      [30, 0, 1],
      [30, 30, -1],
      [0, 30, 1],
    ];
    expect(caseOf([drawn({}, "POLYGON", skewed)]).rings).toHaveLength(1);
  });

  test("a regular polygon around any axis has that axis and centre, to 0.01 degrees and 0.001 mm", () => {
    const coordinate = fc.double({ min: -200, max: 200, noNaN: true });
    const vector = fc.tuple(coordinate, coordinate, coordinate);
    const direction = vector.filter((one) => norm(one) > 1);
    fc.assert(
      fc.property(direction, vector, fc.integer({ min: 3, max: 60 }), (along, centre, corners) => {
        const axis = unit(along) as Vector;
        const seed: Vector = Math.abs(axis[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0];
        const across = unit(cross(axis, seed)) as Vector;
        const other = cross(axis, across);
        const points = Array.from({ length: corners }, (_, index): Vector => {
          const angle = (2 * Math.PI * index) / corners;
          const out = add(scale(across, 15 * Math.cos(angle)), scale(other, 15 * Math.sin(angle)));
          return add(centre, out).map(Math.fround) as unknown as Vector;
        });
        const [ring] = caseOf([drawn({}, "POLYGON", points)]).rings;
        if (!ring) throw new Error("no ring");
        const angle = angleBetweenDeg(ring.axis, axis);
        expect(Math.min(angle, 180 - angle)).toBeLessThan(0.01);
        expect(norm(subtract(ring.centre, centre))).toBeLessThan(0.001);
        expect(norm(ring.axis)).toBeCloseTo(1, 12);
      }),
      { numRuns: 60 },
    );
  });
});
