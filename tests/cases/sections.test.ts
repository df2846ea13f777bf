import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import { sectionsOf, sectionWords, soleReading, writtenNumber } from "../../src/cases/sections.ts";
import { sampleMeasurement } from "./sample-measurement.ts";

test.each([
  { exam: "2025-01-12" },
  { place: placeById("zone-3") },
  { lumen: "true" },
  { edge: "inner" },
  { plane: "axial" },
  { phase: "systole" },
] as const)("sections go apart by %o", (rest) => {
  const [one, other] = [sampleMeasurement("41 mm"), sampleMeasurement("41 mm", rest)];
  expect(sectionsOf([one, other])).toEqual([[one], [other]]);
  expect(sectionsOf([one, { ...other, ...one }])).toHaveLength(1);
});

describe("soleReading", () => {
  const reading = (asWritten: string) => sampleMeasurement(asWritten, { statistic: "maximum" });

  test("is the first of readings that agree, and none where two differ or the statistic is another", () => {
    const [whole, fine, other] = [reading("41 mm"), reading("41.3 mm"), reading("42 mm")];
    expect(soleReading([whole, fine], "diameter", ["maximum"])).toBe(whole);
    expect(soleReading([whole, other], "diameter", ["maximum"])).toBeNull();
    const three = [whole, fine, reading("40.6 mm")];
    expect(soleReading(three, "diameter", ["maximum"])).toBeNull();
    expect(soleReading([whole], "diameter", ["minimum"])).toBeNull();
    expect(soleReading([whole], "perimeter", ["maximum"])).toBeNull();
  });
});

test("words", () => {
  const one = sampleMeasurement("4.1 cm", { quantity: "length", path: "inner-curve" });
  expect(writtenNumber(one)).toBe("length along the inner curve 4.1 cm");
  expect(writtenNumber(sampleMeasurement("41 mm", { statistic: "minimum" }))).toBe(
    "smallest diameter 41 mm",
  );
  expect(sectionWords({ ...one, lumen: "true", edge: "inner" })).toBe(
    "zone 2, true lumen, inner edge",
  );
  expect(sectionWords({ ...one, edge: "unstated" })).toBe("zone 2");
});
