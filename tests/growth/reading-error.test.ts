import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import type { Exam } from "../../src/cases/patient-case.ts";
import type { SeriesPoint } from "../../src/growth/comparability.ts";
import { assessGrowth } from "../../src/growth/growth.ts";
import { readingErrorOfPoints } from "../../src/growth/reading-error.ts";
import { readingErrorsSchema } from "../../src/site/reading-errors.ts";
import { readingErrorOf, sampleCase } from "./sample-growth-case.ts";

const general = readingErrorOf(1.5);
const byMethod = readingErrorsSchema.parse([
  { sdMm: 0.8, source: "gated", appliesTo: { gated: true } },
  { sdMm: 1.1, source: "not gated", appliesTo: { gated: false } },
]);
const point = (gated: boolean | null): SeriesPoint => ({
  exam: { modality: "CT", gated } as Exam,
  valuesMm: [50],
  measurements: [],
  edge: "outer",
});
const place = placeById("mid-ascending");
const sdOf = (...gated: (boolean | null)[]) =>
  readingErrorOfPoints(place, gated.map(point), { ...general, byMethod }).highSdMm;

describe("the reading error of points", () => {
  test.each([
    ["all of one method", [true, true], 0.8],
    ["of two methods the larger", [true, false], 1.1],
    ["the general one where a method is not stated and it is larger", [true, null], 1.5],
    ["the general one without points", [], 1.5],
  ] as const)("%s", (_, gated, sdMm) => {
    expect(sdOf(...gated)).toBe(sdMm);
  });

  test("is the general one where the site states none by method", () => {
    expect(readingErrorOfPoints(place, [point(true)], general)).toEqual(general);
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
      readingError: { ...general, byMethod },
    });
    if (!growth) throw new Error("no growth");
    return growth;
  };
  const [gated, other] = [growthWith(true), growthWith(false)];
  expect(gated.readingError).toEqual({ lowSdMm: 0.8, highSdMm: 0.8, source: "gated" });
  expect(other.readingError.source).toBe("not gated");
  const widthOf = ({ rate }: typeof gated) => (rate ? rate.high - rate.low : 0);
  expect(widthOf(gated)).toBeGreaterThan(0);
  expect(widthOf(other) / widthOf(gated)).toBeCloseTo(1.1 / 0.8, 9);
});
