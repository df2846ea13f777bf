import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { buildCases } from "../../src/cases/build-cases.ts";
import { sheetCentrelines } from "../../src/cases/centrelines.ts";
import type { Exam } from "../../src/cases/patient-case.ts";
import type { ScanPosition } from "../../src/cases/scan-position.ts";
import type { StatedStation } from "../../src/readers/reading.ts";
import { sampleDocument, sampleOptions, sampleStation } from "./sample-documents.ts";

const exam: Exam = {
  key: "2025-01-02",
  studyUid: null,
  imagingDate: "2025-01-02",
  imagingDateOrigin: "sheet column",
  modality: "CT",
  gated: null,
  reportState: [],
};
const bySite: ScanPosition = { patientPosition: null, positionBy: null };
const linesOf = (rows: StatedStation[], site = bySite) =>
  sheetCentrelines(rows, exam, { dictionary: sampleOptions.dictionary, bySite: site });
const codesOf = (rows: StatedStation[]) => linesOf(rows).messages.map(({ code }) => code);
const at = sampleStation;

test("the aorta comes first, then by vessel; stations by distance and lumen", () => {
  const { centrelines, messages } = linesOf([
    at(5, { vessel: "right access path" }),
    at(20, { lumen: "true" }),
    at(20, { lumen: "false" }),
    at(-4),
    at(0, { vessel: "LSA" }),
  ]);
  expect(messages).toEqual([]);
  expect(
    centrelines.map(({ vessel, stations }) => [
      vessel,
      stations.map(({ distanceMm, lumen }) => `${distanceMm} ${lumen}`),
    ]),
  ).toEqual([
    ["aorta", ["-4 unstated", "20 false", "20 true"]],
    ["left-subclavian-artery", ["0 unstated"]],
    ["right access path", ["5 unstated"]],
  ]);
  expect(centrelines[0]).toMatchObject({ exam: "2025-01-02", origin: "centreline sheet" });
});

describe("rows of one vessel from several sheets", () => {
  const other = { source: { file: "other.csv", sha256: "99", at: "record 2" } };
  test("rows that say the same count once; what one leaves out another may say", () => {
    const { centrelines, messages } = linesOf([
      at(10, { maximumMm: 30 }),
      at(10, { maximumMm: 30, ...other }),
      at(12, { maximumMm: 31 }),
      at(12, { wall: "graft", ...other }),
    ]);
    expect(messages).toEqual([]);
    expect(centrelines[0]?.stations.map(({ maximumMm, wall }) => [maximumMm, wall])).toEqual([
      [30, null],
      [null, "graft"],
      [31, null],
    ]);
  });

  test.each<[Partial<StatedStation>]>([
    [{ maximumMm: 31 }],
    [{ wall: "graft" }],
    [{ calciumArcDeg: 20 }],
    [{ x: 1, y: 2, z: 4, axes: "LPS" }],
  ])("another value at the same section, %o, leaves both out", (row) => {
    const first = {
      maximumMm: 30,
      wall: "native",
      calciumArcDeg: 10,
      x: 1,
      y: 2,
      z: 3,
      axes: "LPS",
    };
    const { centrelines, messages } = linesOf([
      at(10, first),
      at(10, { ...row, ...other }),
      at(0, { vessel: "LSA" }),
    ]);
    expect(centrelines.map(({ vessel }) => vessel)).toEqual(["left-subclavian-artery"]);
    expect(messages).toMatchObject([
      {
        code: "centrelines-differ",
        data: { label: "aorta", at: "10.0 mm", files: "line.csv, other.csv" },
      },
    ]);
  });

  test("another lumen or edge is another section", () => {
    const rows = [
      at(10, { lumen: "true", maximumMm: 20 }),
      at(10, { lumen: "false", maximumMm: 30 }),
      at(10, { lumen: "false", edge: "inner", maximumMm: 28 }),
    ];
    expect(codesOf(rows)).toEqual([]);
    expect(linesOf(rows).centrelines[0]?.stations).toHaveLength(3);
  });
});

describe("marks", () => {
  const marks = (...marked: [number, string][]) => marked.map(([mm, mark]) => at(mm, { mark }));
  // Order of the origins: the usual arch, and the reporting standard's zones along the aorta.
  test.each<[string, [number, string][]]>([
    [
      "the usual order",
      [
        [0, "sinotubular junction"],
        [70, "innominate artery, proximal edge"],
        [85, "innominate artery, distal edge"],
        [95, "left common carotid artery"],
        [110, "left subclavian artery, proximal edge"],
        [120, "left subclavian artery, distal edge"],
        [330, "coeliac artery"],
        [345, "superior mesenteric artery"],
        [450, "aortic bifurcation"],
      ],
    ],
    [
      "either renal artery first",
      [
        [1, "left renal artery"],
        [2, "right renal artery"],
      ],
    ],
    [
      "a mirrored right arch",
      [
        [1, "right common carotid artery"],
        [2, "right subclavian artery"],
      ],
    ],
    [
      "two at one distance",
      [
        [1, "left renal artery"],
        [1, "superior mesenteric artery"],
      ],
    ],
    [
      "a left vertebral artery off the arch",
      [
        [1, "left common carotid artery"],
        [2, "left vertebral artery"],
        [3, "left subclavian artery"],
      ],
    ],
  ])("%s is taken", (_, marked) => {
    const { centrelines, messages } = linesOf(marks(...marked));
    expect(messages).toEqual([]);
    expect(centrelines[0]?.stations.filter(({ mark }) => mark !== null)).toHaveLength(
      marked.length,
    );
  });

  test.each<[string, [number, string][]]>([
    [
      "left subclavian before left carotid",
      [
        [10, "LSA"],
        [20, "left common carotid artery"],
      ],
    ],
    [
      "coeliac before left subclavian",
      [
        [10, "coeliac artery"],
        [200, "LSA"],
      ],
    ],
    [
      "bifurcation before sinotubular junction",
      [
        [0, "aortic bifurcation"],
        [400, "sinotubular junction"],
      ],
    ],
    [
      "distal edge before proximal edge",
      [
        [0, "LSA, distal edge"],
        [8, "LSA, proximal edge"],
      ],
    ],
  ])("%s leaves the centreline out", (_, marked) => {
    const { centrelines, messages } = linesOf(marks(...marked));
    expect(centrelines).toEqual([]);
    expect(messages.map(({ code }) => code)).toEqual(["centreline-marks-out-of-order"]);
  });

  test("one mark at two distances is not used; the sections are", () => {
    const { centrelines, messages } = linesOf([
      at(10, { mark: "LSA", maximumMm: 30 }),
      at(20, { mark: "LSA", maximumMm: 31 }),
      at(30, { mark: "LSA, distal edge" }),
    ]);
    expect(messages).toMatchObject([
      { code: "centreline-mark-twice", data: { distances: "10.0 mm, 20.0 mm" } },
    ]);
    expect(
      centrelines[0]?.stations.map(({ maximumMm, mark }) => [maximumMm, mark?.edge ?? null]),
    ).toEqual([
      [30, null],
      [31, null],
      [null, "distal edge"],
    ]);
  });
});

describe("points", () => {
  const point = (mm: number, z: number, rest: Partial<StatedStation> = {}) =>
    at(mm, { x: 0, y: 0, z, axes: "LPS", ...rest });
  // A chord is never longer than the curve over it; 0.5 mm or 2 % for rounding is common practice, not from a source.
  test.each<[string, StatedStation[], number]>([
    ["as long as the distance", [point(0, 0), point(10, 10)], 0],
    ["half a millimetre more", [point(0, 0), point(10, 10.5)], 0],
    ["0.6 mm over 10 mm", [point(0, 0), point(10, 10.6)], 1],
    ["2 % over 100 mm", [point(0, 0), point(100, 102)], 0],
    ["2.1 % over 100 mm", [point(0, 0), point(100, 102.1)], 1],
    ["two steps", [point(0, 0), point(10, 20), point(20, 40)], 2],
    ["in another lumen", [point(0, 0, { lumen: "true" }), point(1, 20, { lumen: "false" })], 0],
    ["across a station without a point", [point(0, 0), at(5), point(10, 12)], 1],
  ])("%s", (_, rows, count) => {
    const { centrelines, messages } = linesOf(rows);
    expect(messages.map(({ code, data }) => [code, data["count"]])).toEqual(
      count === 0 ? [] : [["centreline-points-longer", count]],
    );
    expect(centrelines[0]?.stations.some(({ point: own }) => own !== null)).toBe(true);
  });

  test("without axes, with some coordinates only, and along RAS axes: said once each", () => {
    expect(
      codesOf([
        point(0, 0, { axes: null }),
        point(1, 1, { axes: null }),
        point(2, 2, { x: null }),
        point(3, 3, { axes: "RAS" }),
        point(4, 4, { axes: "RAS" }),
      ]),
    ).toEqual([
      "centreline-axes-not-stated",
      "centreline-points-incomplete",
      "centreline-axes-converted",
    ]);
  });
});

describe("the patient's position", () => {
  const site = {
    patientPosition: "HFS",
    positionBy: "site file, imaging lab, 2026-01-15",
  };
  test.each<[(string | null)[], string | null, string | null]>([
    [[null, null], "HFS", "site file, imaging lab, 2026-01-15"],
    [[null, "FFP"], "FFP", null],
    [["FFP", "FFP"], "FFP", null],
    [["FFP", "HFS"], null, null],
  ])("%o gives %s by %s", (positions, patientPosition, positionBy) => {
    const { centrelines, messages } = linesOf(
      positions.map((own, index) => at(index, { patientPosition: own })),
      site,
    );
    expect(centrelines).toMatchObject([{ patientPosition, positionBy }]);
    expect(messages.map(({ code }) => code)).toEqual(
      patientPosition === null ? ["centreline-positions-differ"] : [],
    );
  });
});

test("a case has the centrelines of each exam, and the site's position in words", () => {
  const stations = [at(0), at(10, { maximumMm: 30 })];
  const { cases } = buildCases(
    [
      sampleDocument("2025-03-04", [], { stations, file: "b.csv" }),
      sampleDocument("2025-01-02", [], { stations, file: "a.csv" }),
    ],
    [],
    {
      ...sampleOptions,
      scanPosition: { position: "FFS", by: "imaging lab", date: "2026-01-15" },
    },
  );
  expect(cases[0]?.centrelines).toMatchObject([
    { exam: "2025-01-02", patientPosition: "FFS", stations: [{}, { maximumMm: 30 }] },
    { exam: "2025-03-04", positionBy: "site file, imaging lab, 2026-01-15" },
  ]);
  expect(cases[0]?.rings).toEqual([]);
});

test("the order of the rows, and of the files, changes nothing", () => {
  const row = fc.record({
    distanceMm: fc.integer({ min: -2, max: 4 }),
    vessel: fc.constantFrom(null, "LSA", "right access path"),
    lumen: fc.constantFrom(null, "true"),
    mark: fc.constantFrom(null, null, "LSA, distal edge", "left renal artery", "coeliac artery"),
    maximumMm: fc.constantFrom(null, 30, 31),
    wall: fc.constantFrom(null, "native"),
    reader: fc.constantFrom(null, "AB", "CD"),
    patientPosition: fc.constantFrom(null, "HFS", "FFS"),
  });
  const shuffled = fc
    .array(row, { maxLength: 8 })
    .chain((rows) =>
      fc.tuple(fc.constant(rows), fc.shuffledSubarray(rows, { minLength: rows.length })),
    );
  fc.assert(
    fc.property(shuffled, ([rows, others]) => {
      const numbered = new Map(rows.map((one, index) => [one, `record ${index + 2}`]));
      const stated = (list: typeof rows) =>
        list.map((one) =>
          at(one.distanceMm, {
            ...one,
            source: { file: "line.csv", sha256: "12", at: numbered.get(one) ?? "" },
          }),
        );
      const [a, b] = [linesOf(stated(rows)), linesOf(stated(others))];
      expect(b.centrelines).toEqual(a.centrelines);
      expect(b.messages.map(({ code }) => code).toSorted()).toEqual(
        a.messages.map(({ code }) => code).toSorted(),
      );
    }),
  );
});
