import { describe, expect, test } from "vitest";
import {
  generalReadingError,
  readingErrorFor,
  type ReadingMethod,
  readingErrorsSchema,
} from "../../src/site/reading-errors.ts";

const source = "invented";
const errors = readingErrorsSchema.parse([
  { sdMm: 1.5, source },
  { sdMm: 1.2, source, appliesTo: { modality: "ct" } },
  { sdMm: 0.8, source, appliesTo: { modality: "CT", gated: true } },
  { sdMm: 0.9, source, appliesTo: { modality: "CT", edge: "outer" } },
  { sdMm: 0.5, source, appliesTo: { modality: "CT", gated: true, edge: "outer", region: "root" } },
]);
const method = (rest: Partial<ReadingMethod>): ReadingMethod => ({
  modality: "CT",
  gated: null,
  edge: "unstated",
  region: "arch",
  ...rest,
});

describe("readingErrorFor", () => {
  test.each([
    ["another modality", { modality: "MR" }, 1.5],
    ["a modality alone", {}, 1.2],
    ["not gated", { gated: false }, 1.2],
    ["gated", { gated: true }, 0.8],
    ["of two equally precise ones the larger", { gated: true, edge: "outer" }, 0.9],
    ["the most precise", { gated: true, edge: "outer", region: "root" }, 0.5],
    ["nothing stated", { modality: null, region: null }, 1.5],
  ] as const)("%s", (_, stated, sdMm) => {
    expect(readingErrorFor(errors, method(stated))?.sdMm).toBe(sdMm);
  });

  test("none where none applies", () => {
    expect(readingErrorFor(errors.slice(1), method({ modality: "US" }))).toBeNull();
  });
});

test("the general error is the one that names no method", () => {
  expect(generalReadingError(errors)?.sdMm).toBe(1.5);
  expect(generalReadingError(errors.slice(1))).toBeNull();
});

test("two errors for the same method are refused", () => {
  const twice = [
    { sdMm: 1, source, appliesTo: { modality: "CT" } },
    { sdMm: 2, source, appliesTo: { modality: "ct" } },
  ];
  expect(readingErrorsSchema.safeParse(twice).error?.issues[0]?.path).toEqual([1, "appliesTo"]);
});
