import { describe, expect, test } from "vitest";
import type { Measurement } from "../../src/cases/patient-case.ts";
import { placeById } from "../../src/anatomy/places.ts";
import { referenceDiameter } from "../../src/planning/reference-diameter.ts";

const measurement = (rest: Partial<Measurement>): Measurement => ({
  key: `M${JSON.stringify(rest).length}`,
  exam: "2026-01-12",
  place: placeById("zone-2"),
  placeOrigin: "sheet column",
  quantity: "diameter",
  statistic: "unstated",
  lumen: "whole",
  edge: "inner",
  path: "unstated",
  plane: "unstated",
  phase: "unstated",
  value: 30,
  unit: "mm",
  asWritten: `${rest.value ?? 30} mm`,
  derivedFrom: [],
  source: { file: "a.csv", sha256: "aa", at: null },
  reader: null,
  comment: null,
  ...rest,
});
const largest = measurement({ statistic: "maximum", value: 36 });
const smallest = measurement({ statistic: "minimum", value: 24 });
// Perimeter and area of the ellipse of 36 by 24 mm: 95.1926 mm (complete elliptic integral) and 678.584 mm2.
const perimeter = measurement({ quantity: "perimeter", value: 95.192638 });
const area = measurement({ quantity: "area", value: 678.584013, unit: "mm2" });

describe("referenceDiameter", () => {
  test.each([
    ["the perimeter before all", [largest, smallest, area, perimeter], 30.3008],
    ["the area before two diameters", [largest, smallest, area], 29.3939],
    ["the mean of largest and smallest", [largest, smallest], 30],
    ["a mean as reported", [measurement({ statistic: "mean", value: 31 })], 31],
  ])("takes %s", (_, section, expected) => {
    expect(referenceDiameter(section)).toMatchObject({
      diameterMm: expect.closeTo(expected, 4),
      edge: "inner",
    });
  });

  test.each([
    ["one diameter alone", [largest], "perpendicular"],
    ["a smallest over the largest", [largest, { ...smallest, value: 37 }], "over the largest"],
    [
      "an area that does not fit the perimeter",
      [{ ...area, value: 730 }, perimeter],
      "does not fit",
    ],
    ["readings that differ", [largest, { ...largest, value: 35 }, smallest], "differ"],
    [
      "largest and smallest of different edges",
      [{ ...largest, edge: "outer" as const }, smallest],
      "perpendicular",
    ],
  ])("refuses %s", (_, section, why) => {
    expect(referenceDiameter(section)).toMatchObject({ why: expect.stringContaining(why) });
  });

  test("a circle of 30 mm fits its own numbers, rounded so that the area alone looks too large", () => {
    const rounded = [
      measurement({ quantity: "area", value: 707, unit: "mm2", asWritten: "707 mm2" }),
      measurement({ quantity: "perimeter", value: 94.2, asWritten: "94.2 mm" }),
    ];
    expect(referenceDiameter(rounded)).toMatchObject({ diameterMm: expect.closeTo(29.985, 3) });
  });

  test("the inner edge is taken before the outer", () => {
    const outer = [largest, smallest].map((one) => ({
      ...one,
      edge: "outer" as const,
      value: one.value + 3,
    }));
    expect(referenceDiameter([...outer, largest, smallest])).toMatchObject({
      edge: "inner",
      diameterMm: 30,
    });
    expect(referenceDiameter(outer)).toMatchObject({ edge: "outer", diameterMm: 33 });
  });
});
