import { describe, expect, test } from "vitest";
import type { Measurement } from "../../src/cases/patient-case.ts";
import { doubleReadings } from "../../src/growth/double-readings.ts";
import { sampleCase, sampleMeasurement } from "./sample-growth-case.ts";

const exam = "2024-01-10";
const reading = (mm: number, rest: Partial<Measurement> & { file?: string } = {}): Measurement => {
  const { file = "a.csv", ...aspects } = rest;
  const key = `${mm}-${file}-${aspects.reader ?? ""}`;
  return sampleMeasurement(exam, mm, {
    key,
    source: { file, sha256: file, at: null },
    ...aspects,
  });
};
const differences = (...measurements: Measurement[]) =>
  doubleReadings([{ ...sampleCase([]), measurements }]).map(({ differenceMm }) => differenceMm);

describe("double readings", () => {
  test("two readers, or two files", () => {
    expect(differences(reading(44, { reader: "A" }), reading(45.2, { reader: "B" }))).toEqual([
      1.2,
    ]);
    expect(differences(reading(44), reading(45.2, { file: "b.csv" }))).toEqual([1.2]);
    expect(differences(reading(44, { reader: "A" }), reading(44, { reader: "B" }))).toEqual([0]);
  });

  test.each([
    ["one reader in one file", reading(45)],
    ["alike in a second file, which may be a copy", reading(44, { file: "b.csv" })],
    ["another edge", reading(45, { file: "b.csv", edge: "inner" })],
    ["another plane", reading(45, { file: "b.csv", plane: "axial" })],
    ["another phase", reading(45, { file: "b.csv", phase: "systole" })],
    ["another lumen", reading(45, { file: "b.csv", lumen: "true" })],
    ["another statistic", reading(45, { file: "b.csv", statistic: "mean" })],
    ["another exam", reading(45, { file: "b.csv", exam: "2025-01-10" })],
    ["computed from others", reading(45, { file: "b.csv", derivedFrom: ["x"] })],
    ["another quantity", reading(45, { file: "b.csv", quantity: "long-axis" })],
  ])("no pair: %s", (_, other) => {
    expect(differences(reading(44), other)).toEqual([]);
  });

  test("of more readings each stands in one pair", () => {
    const readers = ["A", "B", "C", "D", "E"].map((reader, index) =>
      reading(44 + index, { reader, key: reader }),
    );
    const pairs = doubleReadings([{ ...sampleCase([]), measurements: readers }]);
    expect(pairs.map(({ measurements }) => measurements)).toEqual([
      ["A", "B"],
      ["C", "D"],
    ]);
  });
});
