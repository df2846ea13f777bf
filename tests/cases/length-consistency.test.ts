import { expect, test } from "vitest";
import type { Measurement } from "../../src/cases/patient-case.ts";
import { sectionConflicts } from "../../src/cases/section-consistency.ts";
import { sampleMeasurement } from "./sample-measurement.ts";

type Row = [string, Measurement["quantity"], Measurement["path"]];
const conflicts = (rows: Row[]) =>
  sectionConflicts(
    rows.map(([asWritten, quantity, path]) => sampleMeasurement(asWritten, { quantity, path })),
    "2026-01-12",
  );

test.each<[string, Row, Row]>([
  [
    "inner curve over centreline",
    ["25 mm", "sound-length", "inner-curve"],
    ["22 mm", "sound-length", "centreline"],
  ],
  [
    "centreline over outer curve",
    ["25 mm", "length", "centreline"],
    ["22 mm", "length", "outer-curve"],
  ],
  [
    "inner over outer curve",
    ["25 mm", "length", "inner-curve"],
    ["22 mm", "length", "outer-curve"],
  ],
  ["sound over whole", ["25 mm", "sound-length", "centreline"], ["22 mm", "length", "centreline"]],
])("%s", (_, longer, shorter) => {
  const [message, ...others] = conflicts([longer, shorter]);
  expect(others).toEqual([]);
  expect(message).toMatchObject({ code: "length-conflict", severity: "warning" });
  expect(message?.text).toMatch(/^zone 2, exam of 2026-01-12: .* 25 mm is more than .* 22 mm$/);
});

test.each<[string, Row, Row]>([
  [
    "the right order",
    ["18 mm", "sound-length", "inner-curve"],
    ["22 mm", "sound-length", "centreline"],
  ],
  ["within rounding", ["22.4 mm", "length", "inner-curve"], ["22 mm", "length", "centreline"]],
  ["a line that is not stated", ["25 mm", "length", "unstated"], ["22 mm", "length", "centreline"]],
  [
    "lengths along different lines",
    ["25 mm", "sound-length", "outer-curve"],
    ["22 mm", "length", "inner-curve"],
  ],
])("no conflict: %s", (_, one, other) => {
  expect(conflicts([one, other])).toEqual([]);
});
