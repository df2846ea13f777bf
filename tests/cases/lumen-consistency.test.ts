import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import type { Measurement } from "../../src/cases/patient-case.ts";
import { sectionConflicts } from "../../src/cases/section-consistency.ts";
import { sampleMeasurement } from "./sample-measurement.ts";

type Lumens = Partial<Record<Measurement["lumen"], string>>;

const measured = (lumens: Lumens, rest: Partial<Measurement> = {}): Measurement[] =>
  Object.entries(lumens).map(([lumen, asWritten]) =>
    sampleMeasurement(asWritten, { ...rest, lumen: lumen as Measurement["lumen"] }),
  );
const conflictsOf = (measurements: Measurement[]) => sectionConflicts(measurements, "2026-01-12");

const largest = { statistic: "maximum" } as const;
const area = { quantity: "area" } as const;
const volume = { quantity: "volume" } as const;

describe("lumens of one place", () => {
  test.each<[string, Lumens, Partial<Measurement>]>([
    ["a larger diameter", { whole: "40 mm", true: "42 mm" }, largest],
    ["a larger long axis", { whole: "40 mm", false: "42 mm" }, { quantity: "long-axis" }],
    ["a larger smallest diameter", { whole: "20 mm", true: "22 mm" }, { statistic: "minimum" }],
    ["a larger mean", { whole: "20 mm", false: "22 mm" }, { statistic: "mean" }],
    ["a larger area", { whole: "900 mm2", false: "950 mm2", true: "300 mm2" }, area],
    ["both areas together", { whole: "900 mm2", true: "400 mm2", false: "510 mm2" }, area],
    ["both volumes together", { whole: "90 mL", true: "40 mL", false: "55 mL" }, volume],
  ])("%s", (_, lumens, rest) => {
    expect(conflictsOf(measured(lumens, rest)).map(({ code }) => code)).toEqual(["lumen-conflict"]);
  });

  test("a diameter of a part without a statistic over the largest of the whole", () => {
    const both = [...measured({ whole: "40 mm" }, largest), ...measured({ false: "42 mm" })];
    expect(conflictsOf(both).map(({ text }) => text)).toEqual([
      "zone 2, outer edge, exam of 2026-01-12: false lumen diameter 42 mm is more than largest diameter 40 mm of the whole lumen",
    ]);
  });

  test("the parts of a sum are named", () => {
    const lumens = { whole: "900 mm2", true: "400 mm2", false: "510 mm2" };
    expect(conflictsOf(measured(lumens, area))[0]?.text).toContain(
      "true lumen cross-sectional area 400 mm2 and false lumen cross-sectional area 510 mm2 is more than cross-sectional area 900 mm2 of the whole lumen",
    );
  });

  test.each<[string, Lumens, Partial<Measurement>]>([
    ["as large as the whole", { whole: "40 mm", true: "40.4 mm" }, largest],
    ["no lumen that is said to be whole", { unstated: "40 mm", true: "42 mm" }, largest],
    [
      "a perimeter, which dents make long",
      { whole: "90 mm", true: "99 mm" },
      { quantity: "perimeter" },
    ],
    ["a sum within rounding", { whole: "900 mm2", true: "400 mm2", false: "501 mm2" }, area],
    [
      "a sum in a range, of areas that may lie apart",
      { whole: "900 mm2", true: "400 mm2", false: "510 mm2" },
      { ...area, place: placeById("aortic-arch") },
    ],
  ])("no conflict: %s", (_, lumens, rest) => {
    expect(conflictsOf(measured(lumens, rest))).toEqual([]);
  });

  test("no conflict: another edge", () => {
    const inner = measured({ whole: "40 mm" }, { ...largest, edge: "inner" });
    expect(conflictsOf([...inner, ...measured({ true: "42 mm" }, largest)])).toEqual([]);
  });
});
