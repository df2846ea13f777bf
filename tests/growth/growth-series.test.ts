import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Measurement, PatientCase, PriorRepair } from "../../src/cases/patient-case.ts";
import { isCompared } from "../../src/growth/comparability.ts";
import { growthSeries } from "../../src/growth/growth-series.ts";
import { sampleCase, type SampleExam, sampleMeasurement } from "./sample-growth-case.ts";

const withMore = (patientCase: PatientCase, more: Measurement[]): PatientCase => ({
  ...patientCase,
  measurements: [...patientCase.measurements, ...more],
});
const twoExams: SampleExam[] = [
  { date: "2024-01-10", mm: 44 },
  { date: "2026-01-12", mm: 48.5 },
];
/** Comparability of the first of two exams with the second. */
const firstOf = (...parameters: Parameters<typeof sampleCase>) =>
  growthSeries(sampleCase(...parameters))[0]?.points[0];

describe("which diameters make a series", () => {
  test("the same diameter of the same place in two exams", () => {
    const [series, ...others] = growthSeries(sampleCase(twoExams));
    expect(others).toEqual([]);
    expect(series).toMatchObject({
      key: "G-mid-ascending-maximum-whole",
      place: { id: "mid-ascending" },
      points: [
        { exam: { key: "2024-01-10" }, valuesMm: [44], verdict: "comparable", reasons: [] },
        { exam: { key: "2026-01-12" }, valuesMm: [48.5], verdict: "comparable", reasons: [] },
      ],
    });
  });

  test("one exam, other quantities, and places in one exam each make none", () => {
    expect(growthSeries(sampleCase(twoExams.slice(0, 1)))).toEqual([]);
    expect(growthSeries(sampleCase(twoExams, { quantity: "length" }))).toEqual([]);
    const apart = withMore(sampleCase(twoExams.slice(0, 1)), []);
    apart.exams.push(...sampleCase(twoExams.slice(1)).exams);
    apart.measurements.push(sampleMeasurement("2026-01-12", 48, { placeId: "mid-arch" }));
    expect(growthSeries(apart)).toEqual([]);
  });

  test("place, statistic and lumen go apart, along the vessel", () => {
    const more = twoExams.flatMap(({ date }) => [
      sampleMeasurement(date, 30, { placeId: "at-diaphragm" }),
      sampleMeasurement(date, 40, { statistic: "minimum" }),
      sampleMeasurement(date, 21, { lumen: "true" }),
      sampleMeasurement(date, 34, { placeId: "sinuses-of-valsalva" }),
      sampleMeasurement(date, 12, { placeId: "zone-10-left" }),
      sampleMeasurement(date, 9, { placeId: "left-subclavian-artery" }),
    ]);
    const series = growthSeries(withMore(sampleCase(twoExams), more));
    expect(series.map(({ key }) => key)).toEqual([
      "G-sinuses-of-valsalva-maximum-whole",
      "G-mid-ascending-maximum-true",
      "G-mid-ascending-maximum-whole",
      "G-mid-ascending-minimum-whole",
      "G-left-subclavian-artery-maximum-whole",
      "G-at-diaphragm-maximum-whole",
      "G-zone-10-left-maximum-whole",
    ]);
  });

  test("a lab that reports both edges gets a series for each", () => {
    const inner = [
      sampleMeasurement("2024-01-10", 41, { edge: "inner" }),
      sampleMeasurement("2026-01-12", 45, { edge: "inner" }),
    ];
    const series = growthSeries(withMore(sampleCase(twoExams), inner));
    expect(
      series.map(({ key, points }) => [key, points.map(({ valuesMm }) => valuesMm[0])]),
    ).toEqual([
      ["G-mid-ascending-maximum-whole-inner-edge", [41, 45]],
      ["G-mid-ascending-maximum-whole-outer-edge", [44, 48.5]],
    ]);
    expect(series.every(({ points }) => points.every(isCompared))).toBe(true);
  });

  test("so does one that reports planes, or cardiac phases, side by side", () => {
    const keysWith = (...more: Measurement[]) =>
      growthSeries(withMore(sampleCase(twoExams), more)).map(({ key }) => key);
    const axial = twoExams.map(({ date }) => sampleMeasurement(date, 47, { plane: "axial" }));
    expect(keysWith(...axial)).toEqual([
      "G-mid-ascending-maximum-whole-axial-plane",
      "G-mid-ascending-maximum-whole-unstated-plane",
    ]);
    const inSystole = twoExams.map(({ date }) => sampleMeasurement(date, 45, { phase: "systole" }));
    expect(keysWith(...axial, ...inSystole)).toEqual([
      "G-mid-ascending-maximum-whole-axial-plane",
      "G-mid-ascending-maximum-whole-unstated-plane-systole-phase",
      "G-mid-ascending-maximum-whole-unstated-plane-unstated-phase",
    ]);
  });

  test("equal readings of an exam are one, differing ones are kept and not compared", () => {
    const series = growthSeries(
      sampleCase([
        { date: "2023-01-10", mm: [43, 43] },
        { date: "2024-01-10", mm: [46, 44] },
        { date: "2025-01-10", mm: 45 },
      ]),
    )[0];
    expect(
      series?.points.map(({ valuesMm, verdict, reasons }) => [valuesMm, verdict, reasons]),
    ).toEqual([
      [[43], "comparable", []],
      [[44, 46], "not-comparable", ["two readings of this exam differ: 44 and 46 mm"]],
      [[45], "comparable", []],
    ]);
  });

  test("where the last exam differs in itself, the one before is what the others are compared with", () => {
    const points = growthSeries(
      sampleCase([
        { date: "2023-01-10", mm: 43, edge: "inner" },
        { date: "2024-01-10", mm: 44 },
        { date: "2025-01-10", mm: [45, 47, 48] },
      ]),
    )[0]?.points;
    expect(points?.map(isCompared)).toEqual([false, true, false]);
    expect(points?.[2]?.reasons).toEqual(["3 readings of this exam differ: 45 and 47 and 48 mm"]);
  });

  test("the order of the measurements does not matter", () => {
    const patientCase = sampleCase([
      { date: "2023-01-10", mm: [43, 42] },
      { date: "2024-01-10", mm: 44, edge: "inner" },
      { date: "2024-01-10", key: "2024-01-10b", mm: 45 },
      { date: "2025-01-10", mm: 46 },
    ]);
    const expected = growthSeries(patientCase);
    fc.assert(
      fc.property(
        fc.shuffledSubarray(patientCase.measurements, {
          minLength: patientCase.measurements.length,
        }),
        (measurements) => {
          expect(growthSeries({ ...patientCase, measurements })).toEqual(expected);
        },
      ),
    );
  });
});

describe("where the last exam does not state how it was taken, the one before it that does counts", () => {
  const verdictsOf = (...taken: Partial<SampleExam>[]) => {
    const taking = taken.map((rest, index) => ({ date: `${2020 + index}-01-10`, mm: 44, ...rest }));
    return growthSeries(sampleCase(taking))[0]?.points.map(({ verdict }) => verdict);
  };

  test.each([
    ["modality", { modality: "US" }, { modality: "CT" }, { modality: null }, "not-comparable"],
    ["plane", { plane: "axial" }, { plane: "perpendicular" }, {}, "not-comparable"],
    [
      "CT and MR",
      { modality: "MR" },
      { modality: "CT" },
      { modality: null },
      "comparable-with-offset",
    ],
    ["phase", { phase: "systole" }, { phase: "diastole" }, {}, "comparable-with-offset"],
    ["gating", { gated: false }, { gated: true }, { gated: null }, "comparable-with-offset"],
  ] as [string, Partial<SampleExam>, Partial<SampleExam>, Partial<SampleExam>, string][])(
    "%s",
    (_, first, second, last, verdict) => {
      expect(verdictsOf(first, second, last)).toEqual([verdict, "comparable", "comparable"]);
      expect(verdictsOf(second, second, last)).toEqual(["comparable", "comparable", "comparable"]);
    },
  );

  test("an exam that is left out sets no measure for those before it", () => {
    const leftOut = { modality: "US", edge: "inner" } as const;
    expect(verdictsOf({ modality: "CT" }, leftOut, { modality: null })).toEqual([
      "comparable",
      "not-comparable",
      "comparable",
    ]);
  });
});

describe("the wall at the last exam", () => {
  const wallWith = (...priorRepairs: PriorRepair[]) =>
    growthSeries(sampleCase(twoExams, { placeId: "zone-4" }, { priorRepairs }))[0]?.wall;
  const repair = (date: string | null, kinds: PriorRepair["kinds"]): PriorRepair => ({
    words: "invented repair",
    date,
    zones: ["4"],
    kinds,
  });

  test.each([
    ["graft", "2019", "on a graft since 2019"],
    ["stent graft", "2019-05", "on a stent graft since 2019-05"],
    ["frozen elephant trunk", "2019-05-02", "on a frozen elephant trunk since 2019-05-02"],
    ["elephant trunk", "2019", "native wall with an elephant trunk inside since 2019"],
    ["bypass", "2019", "repaired, kind not stated since 2019"],
  ] as const)("%s", (kind, date, words) => {
    expect(wallWith(repair(date, [kind]))).toBe(words);
  });

  test("native before the repair, without one, and where nothing is stated", () => {
    expect(wallWith(repair("2027", ["graft"]))).toBeNull();
    expect(wallWith()).toBeNull();
    const notStated = sampleCase(twoExams, {}, { priorRepairs: null });
    expect(growthSeries(notStated)[0]?.wall).toBeNull();
  });

  test("what is unclear about it is said", () => {
    expect(wallWith(repair(null, ["graft"]))).toMatch(/^wall unclear: .*invented repair/);
  });
});

describe("repairs between two exams", () => {
  const repair = (date: string | null, ...zones: string[]): PriorRepair => ({
    words: "invented repair",
    date,
    zones: zones.length > 0 ? zones : null,
    kinds: ["graft"],
  });
  const at = (placeId: string, ...priorRepairs: PriorRepair[]) =>
    firstOf(twoExams, { placeId }, { priorRepairs });

  test.each([
    ["mid-ascending", ["0"], false],
    ["mid-ascending", ["1", "2"], true],
    ["zone-4", ["3", "4", "5"], false],
    ["proximal-descending", ["3"], false],
    ["proximal-descending", ["4"], false],
    ["proximal-descending", ["2"], true],
    ["mid-descending", ["5"], false],
    ["at-coeliac-origin", ["6"], false],
    ["at-coeliac-origin", ["7"], true],
    ["descending-thoracic-aorta", ["5"], false],
    ["descending-thoracic-aorta", ["6"], true],
    ["thoracic-aorta", ["0"], false],
    ["sinuses-of-valsalva", ["0"], false],
    ["aortic-annulus", ["0"], false],
    ["sinuses-of-valsalva", ["1"], true],
    ["left-subclavian-artery", ["2", "3"], false],
    ["left-subclavian-artery", ["3"], true],
    ["right-internal-iliac-artery", ["10-right"], true],
    ["zone-10-left", ["10-left"], false],
    ["zone-10-left", ["10-right"], true],
    ["aortic-bifurcation", ["10-right"], false],
  ] as const)("at %s a repair of zones %j: compared %s", (placeId, zones, compared) => {
    const point = at(placeId, repair("2024-03-01", ...zones));
    expect(point?.verdict).toBe(compared ? "comparable" : "not-comparable");
    expect(point?.reasons).toEqual(compared ? [] : ["graft at this place on 2024-03-01"]);
  });

  test.each([
    ["before both", "2023-12-31", true],
    ["on the day of the first", "2024-01-10", false],
    ["on the day of the last", "2026-01-12", false],
    ["after both", "2026-01-13", true],
    ["in a month between", "2025-05", false],
    ["in the month of the first", "2024-01", false],
    ["in the month before", "2023-12", true],
    ["in the year of the last", "2026", false],
    ["in the year before", "2023", true],
    ["in the year after", "2027", true],
  ])("%s", (_, date, compared) => {
    const verdict = compared ? "comparable" : "not-comparable";
    expect(at("mid-ascending", repair(date, "0"))?.verdict).toBe(verdict);
  });

  test("what is not stated counts against the comparison, and is said", () => {
    expect(at("mid-arch", repair("2025-05"))?.reasons).toEqual([
      'repair in 2025-05, day not stated, zones not stated: "invented repair"',
    ]);
    expect(at("zone-2", repair(null, "2"))?.reasons).toEqual([
      "graft at this place, date not stated",
    ]);
    expect(at("zone-2", repair(null, "3"))?.verdict).toBe("comparable");
    expect(at("zone-2", repair("2023"))?.verdict).toBe("comparable");
  });

  test("any of several repairs is enough", () => {
    const point = at("zone-4", repair("2020", "0"), repair("2024-05-02", "4"));
    expect(point?.reasons).toEqual(["graft at this place on 2024-05-02"]);
  });

  test("exams after the operation stay comparable with each other", () => {
    const series = growthSeries(
      sampleCase(
        [
          { date: "2023-01-10", mm: 60 },
          { date: "2024-01-10", mm: 32 },
          { date: "2025-01-10", mm: 32 },
        ],
        {},
        { priorRepairs: [repair("2023-06-01", "0")] },
      ),
    );
    expect(series[0]?.points.map(isCompared)).toEqual([false, true, true]);
  });
});
