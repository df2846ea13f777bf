import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseDecimal } from "../../src/quantities/decimal.ts";
import { dimensionOf, storedUnit, toStoredUnit, ucumFromSheet } from "../../src/quantities/unit.ts";

const stored = (text: string, unit: string): number => {
  const decimal = parseDecimal(text);
  if (!decimal) throw new Error(`not a number: ${text}`);
  return toStoredUnit(decimal, unit);
};

describe("units", () => {
  // Factors by definition: metric prefixes, 1 L = 1 dm3, 180 degrees are pi radians.
  test.each([
    ["4.15", "cm", 41.5],
    ["0.0415", "m", 41.5],
    ["0.415", "dm", 41.5],
    ["41500", "um", 41.5],
    ["12.3", "cm2", 1230],
    ["1230", "mm2", 1230],
    ["2500", "mm3", 2.5],
    ["2.5", "cm3", 2.5],
    ["2.5", "ml", 2.5],
    ["2.5", "mL", 2.5],
    ["0.0025", "L", 2.5],
    ["0.0025", "l", 2.5],
    ["0.0025", "dm3", 2.5],
    ["30", "deg", 30],
  ])("%s %s", (text, unit, value) => {
    expect(stored(text, unit)).toBe(value);
  });

  test("radians become degrees", () => {
    expect(stored("0.5235987755982988", "rad")).toBeCloseTo(30, 12);
  });

  test.each(["MM", "Mm", "CM", "inch", "[in_i]", "", "10", "%", "{ratio}", "mm mm", "cm^2", "kg"])(
    "the code %j has no dimension here",
    (code) => {
      expect(dimensionOf(code)).toBeNull();
      expect(ucumFromSheet(code)).toBeNull();
    },
  );

  test.each([
    ["mm²", "mm2"],
    ["cm²", "cm2"],
    ["mm³", "mm3"],
    ["cm³", "cm3"],
    ["°", "deg"],
    ["degrees", "deg"],
    ["mm", "mm"],
  ])("a sheet's %j is %s", (cell, code) => {
    expect(ucumFromSheet(cell)).toBe(code);
  });

  test("every stored unit but the number is stored as it is written", () => {
    for (const [dimension, unit] of Object.entries(storedUnit)) {
      if (dimension === "number") continue;
      expect(dimensionOf(unit)).toBe(dimension);
      expect(stored("12.34", unit)).toBe(12.34);
    }
  });

  test("an unknown code is a defect of the caller", () => {
    expect(() => stored("1", "furlong")).toThrow("furlong");
  });

  test("millimetres and centimetres of the same length are the same number", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99_999 }), (hundredths) => {
        const whole = Math.floor(hundredths / 100);
        const rest = String(hundredths % 100).padStart(2, "0");
        const inMm = `${whole}.${rest}`;
        expect(stored(`${inMm}e-1`, "cm")).toBe(stored(inMm, "mm"));
        expect(stored(`${inMm}e-3`, "m")).toBe(stored(inMm, "mm"));
      }),
    );
  });
});
