import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import type { Measurement } from "../../src/cases/patient-case.ts";
import { sectionConflicts } from "../../src/cases/section-consistency.ts";
import { sampleMeasurement } from "./sample-measurement.ts";

const kinds = {
  largest: { statistic: "maximum" },
  smallest: { statistic: "minimum" },
  mean: { statistic: "mean" },
  any: {},
  long: { quantity: "long-axis" },
  short: { quantity: "short-axis" },
  perimeter: { quantity: "perimeter" },
  area: { quantity: "area" },
} as const;
type Section = Partial<Record<keyof typeof kinds, string>>;

const measured = (section: Section, rest: Partial<Measurement> = {}): Measurement[] =>
  Object.entries(section).map(([kind, asWritten]) =>
    sampleMeasurement(asWritten, { ...kinds[kind as keyof typeof kinds], ...rest }),
  );
const conflictsOf = (measurements: Measurement[]) => sectionConflicts(measurements, "2026-01-12");
const conflicts = (section: Section, rest: Partial<Measurement> = {}) =>
  conflictsOf(measured(section, rest));

describe("sectionConflicts", () => {
  test("says in words what does not fit, and what would", () => {
    const [message] = conflicts({ smallest: "41 mm", perimeter: "118 mm" });
    expect(message).toMatchObject({
      code: "section-conflict",
      severity: "warning",
      text: "zone 2, outer edge, exam of 2026-01-12: perimeter 118 mm does not fit smallest diameter 41 mm; at least 127.2 mm would, with the rounding of the numbers written allowed for",
    });
  });

  test.each<[string, Section]>([
    ["smallest over largest", { largest: "41 mm", smallest: "42.1 mm" }],
    ["any over the largest", { largest: "41 mm", any: "43 mm" }],
    ["any under the smallest", { smallest: "41 mm", any: "39 mm" }],
    ["short axis over long axis", { long: "41 mm", short: "43 mm" }],
    ["long axis over the largest", { largest: "41 mm", long: "43 mm" }],
    ["largest over half the perimeter", { largest: "60 mm", perimeter: "118 mm" }],
    ["any over half the perimeter", { any: "60 mm", perimeter: "118 mm" }],
    ["perimeter over pi times the largest", { largest: "41 mm", perimeter: "131 mm" }],
    ["a short axis too large for the perimeter", { short: "43 mm", perimeter: "118 mm" }],
    ["a mean too large for the perimeter", { mean: "41 mm", perimeter: "118 mm" }],
    ["a mean too small for the perimeter", { mean: "28 mm", perimeter: "118 mm" }],
    ["a mean under half the largest", { mean: "20 mm", largest: "42 mm" }],
    ["a mean too small for the area", { mean: "30 mm", area: "1000 mm2" }],
    ["an area over the circle of the perimeter", { area: "1120 mm2", perimeter: "118 mm" }],
    ["an area over the circle of the largest", { area: "1400 mm2", largest: "41 mm" }],
    ["an area too small for the smallest", { area: "500 mm2", smallest: "31 mm" }],
    ["an area too small for the short axis", { area: "400 mm2", short: "31 mm" }],
  ])("%s", (_, section) => {
    const found = conflicts(section);
    expect(found.map(({ code }) => code)).toEqual(["section-conflict"]);
    expect(conflictsOf(measured(section).toReversed())).toHaveLength(1);
  });

  test.each<[string, Section]>([
    ["area too large", { largest: "41.0 mm", smallest: "30.0 mm", area: "1250 mm2" }],
    ["area too small", { largest: "41.0 mm", smallest: "30.0 mm", area: "580 mm2" }],
    ["area too large for the axes", { long: "41.0 mm", short: "30.0 mm", area: "1250 mm2" }],
    ["area too small for the axes", { long: "41.0 mm", short: "30.0 mm", area: "580 mm2" }],
    ["perimeter too large", { largest: "41.0 mm", smallest: "20.0 mm", perimeter: "120 mm" }],
    ["perimeter too small", { largest: "41.0 mm", smallest: "20.0 mm", perimeter: "88 mm" }],
    ["perimeter too small, axes", { long: "41.0 mm", short: "20.0 mm", perimeter: "88 mm" }],
    ["mean too large", { largest: "41.0 mm", smallest: "20.0 mm", mean: "38 mm" }],
    ["mean too small", { largest: "41.0 mm", smallest: "20.0 mm", mean: "26 mm" }],
  ])("only three numbers together: %s", (_, section) => {
    expect(conflicts(section)).toHaveLength(1);
    const all = measured(section);
    for (const left of all) expect(conflictsOf(all.filter((one) => one !== left))).toEqual([]);
  });

  test.each<[string, Section]>([
    ["any diameter that some statistic would fit", { any: "41 mm", perimeter: "118 mm" }],
    ["whole mm", { largest: "41 mm", smallest: "41 mm", perimeter: "130 mm" }],
    ["smallest over largest within rounding", { largest: "41 mm", smallest: "41.4 mm" }],
    ["the mean of the axes of a flat section", { mean: "30 mm", perimeter: "118 mm" }],
  ])("no conflict: %s", (_, section) => {
    expect(conflicts(section)).toEqual([]);
  });

  test.each([
    { edge: "inner" },
    { edge: "unstated" },
    { plane: "axial" },
    { phase: "systole" },
    { lumen: "unstated" },
    { place: placeById("zone-3") },
  ] as const)("numbers of different sections are not compared: %o", (rest) => {
    const [diameter, perimeter] = [{ smallest: "41 mm" }, { perimeter: "118 mm" }];
    expect(conflictsOf([...measured(diameter), ...measured(perimeter)])).toHaveLength(1);
    expect(conflictsOf([...measured(diameter, rest), ...measured(perimeter)])).toEqual([]);
  });

  test("readings that differ are left to their own message", () => {
    const twice = [...measured({ smallest: "41 mm" }), ...measured({ smallest: "36 mm" })];
    expect(conflictsOf([...twice, ...measured({ perimeter: "118 mm" })])).toEqual([]);
  });

  test("a true lumen may have dents, a whole lumen not", () => {
    const dented = { largest: "30 mm", perimeter: "110 mm" };
    expect(conflicts(dented)).toHaveLength(1);
    expect(conflicts(dented, { lumen: "true" })).toEqual([]);
    expect(conflicts({ largest: "30 mm", perimeter: "58 mm" }, { lumen: "true" })).toHaveLength(1);
  });

  test("in a range only extremes are compared", () => {
    const range = { place: placeById("aortic-arch") };
    expect(conflicts({ largest: "60 mm", perimeter: "118 mm" }, range)).toEqual([]);
    expect(conflicts({ largest: "30 mm", perimeter: "118 mm" }, range)).toHaveLength(1);
  });
});
