import { expect, test } from "vitest";
import {
  equalAsWritten,
  plainInterval,
  writtenInterval,
} from "../../src/cases/written-precision.ts";
import { sampleMeasurement } from "./sample-measurement.ts";

test.each([
  ["118 mm", 117.5, 118.5],
  ["41.0 mm", 40.95, 41.05],
  ["4.1 cm", 40.5, 41.5],
  ["4,15 cm", 41.45, 41.55],
  ["5e1 mm", 45, 55],
  ["16.6 cm2", 1655, 1665],
  ["1 rad", 28.6479, 85.9437],
])("%s stands for %d to %d", (asWritten, low, high) => {
  const interval = writtenInterval(sampleMeasurement(asWritten));
  expect(interval.low).toBeCloseTo(low, 4);
  expect(interval.high).toBeCloseTo(high, 4);
});

test.each([
  [170, 169.5, 170.5],
  [70.5, 70.45, 70.55],
])("a plain %d stands for %d to %d", (value, low, high) => {
  expect(plainInterval(value).low).toBeCloseTo(low, 10);
  expect(plainInterval(value).high).toBeCloseTo(high, 10);
});

test.each([
  ["50 mm", "50.4 mm", true],
  ["50 mm", "50.5 mm", false],
  ["4,15 cm", "41.52 mm", true],
  ["4,15 cm", "41.9 mm", false],
  ["50 mm", "50 mm", true],
])("%s and %s: equal is %s", (one, other, isEqual) => {
  const pair = [sampleMeasurement(one), sampleMeasurement(other)] as const;
  expect(equalAsWritten(...pair)).toBe(isEqual);
});
