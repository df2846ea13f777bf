import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import type { Exam } from "../../src/cases/patient-case.ts";
import type { SeriesPoint } from "../../src/growth/comparability.ts";
import { assessGrowth } from "../../src/growth/growth.ts";
import { readingErrorOfReading, readingErrorsOfPoints } from "../../src/growth/reading-error.ts";
import { readingErrorsSchema } from "../../src/site/reading-errors.ts";
import { sampleCase } from "./sample-growth-case.ts";

const stated = readingErrorsSchema.parse([
  { sdMm: 1.5, source: "general" },
  { sdMm: 0.8, source: "gated", appliesTo: { gated: true } },
  { sdMm: 1.1, source: "not gated", appliesTo: { gated: false } },
]);
const byMethodOnly = stated.slice(1);
const estimated = [
  { region: null, pairs: 30, sdMm: 1, lowSdMm: 0.8, highSdMm: 1.3 },
  { region: "descending" as const, pairs: 12, sdMm: 0.9, lowSdMm: 0.7, highSdMm: 1.4 },
];
const point = (gated: boolean | null): SeriesPoint => ({
  exam: { modality: "CT", gated } as Exam,
  valuesMm: [50],
  measurements: [],
  edge: "outer",
  plane: "unstated",
  phase: "unstated",
});
const place = placeById("mid-ascending");
const ofPoints = (...gated: (boolean | null)[]) =>
  readingErrorsOfPoints(place, gated.map(point), { stated, estimated: [] })[0].highSdMm;

describe("the reading error of points", () => {
  test.each([
    ["all of one method", [true, true], 0.8],
    ["of two methods the larger", [true, false], 1.1],
    ["the general one where a method is not stated and it is larger", [true, null], 1.5],
    ["the general one without points", [], 1.5],
  ] as const)("%s", (_, gated, sdMm) => {
    expect(ofPoints(...gated)).toBe(sdMm);
  });
});

describe("which reading error decides", () => {
  const all = (
    placeId: string,
    gated: boolean | null,
    errors: Parameters<typeof readingErrorOfReading>[2],
  ) =>
    readingErrorsOfPoints(placeById(placeId), [point(gated)], errors).map(({ basis, highSdMm }) => [
      basis,
      highSdMm,
    ]);

  test("what the site states goes before its estimate, that before the published range; all are kept", () => {
    expect(all("mid-ascending", true, { stated, estimated })).toEqual([
      ["stated", 0.8],
      ["estimated", 1.3],
      ["published", 1.9],
    ]);
    expect(all("mid-ascending", null, { stated: byMethodOnly, estimated })).toEqual([
      ["estimated", 1.3],
      ["published", 1.9],
    ]);
    expect(all("mid-descending", null, { stated: byMethodOnly, estimated })[0]).toEqual([
      "estimated",
      1.4,
    ]);
    expect(all("mid-ascending", null, { stated: byMethodOnly, estimated: [] })).toEqual([
      ["published", 1.9],
    ]);
  });

  test("an estimate says from how many pairs it is, and counts with the upper end of its interval", () => {
    expect(readingErrorOfReading(place, point(null), { stated: [], estimated })).toEqual({
      lowSdMm: 0.8,
      highSdMm: 1.3,
      source: "estimated from 30 double readings of this run: SD 1.00 mm, 95 % 0.80 to 1.30 mm",
      basis: "estimated",
    });
  });
});

test("growth is reckoned with the error of the method that its exams share", () => {
  const exams = [
    { date: "2023-01-10", mm: 45 },
    { date: "2025-01-10", mm: 48 },
  ];
  const growthWith = (gated: boolean) => {
    const [growth] = assessGrowth(sampleCase(exams.map((exam) => ({ ...exam, gated }))), [], {
      asOf: "2026-01-01",
      readingError: { stated, estimated },
    });
    if (!growth) throw new Error("no growth");
    return growth;
  };
  const [gated, other] = [growthWith(true), growthWith(false)];
  expect(gated.readingError).toEqual({
    lowSdMm: 0.8,
    highSdMm: 0.8,
    source: "gated",
    basis: "stated",
  });
  expect(gated.otherReadingErrors.map(({ basis }) => basis)).toEqual(["estimated", "published"]);
  expect(other.readingError.source).toBe("not gated");
  const widthOf = ({ rate }: typeof gated) => (rate ? rate.high - rate.low : 0);
  expect(widthOf(gated)).toBeGreaterThan(0);
  expect(widthOf(other) / widthOf(gated)).toBeCloseTo(1.1 / 0.8, 9);
});
