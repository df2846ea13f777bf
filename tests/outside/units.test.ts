/**
 * Units and their conversion against @lhncbc/ucum-lhc 7.1.10 (npm), a library of the National Library of Medicine for
 * The Unified Code for Units of Measure. Its factors are binary numbers with an error in the last digits, so values are
 * compared to 12 digits.
 */
import ucumLibrary from "@lhncbc/ucum-lhc";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseDecimal } from "../../src/quantities/decimal.ts";
import { dimensionOf, storedUnit, toStoredUnit, ucumFromSheet } from "../../src/quantities/unit.ts";

const library = ucumLibrary.UcumLhcUtils.getInstance();
const codes = [
  "um",
  "mm",
  "cm",
  "dm",
  "m",
  "mm2",
  "cm2",
  "mm3",
  "cm3",
  "ml",
  "mL",
  "dm3",
  "l",
  "L",
];
const angles = ["deg", "rad"];
const all = [...codes, ...angles];

const dimension = (code: string) => {
  const found = dimensionOf(code);
  if (found === null) throw new Error(`unknown ${code}`);
  return found;
};
const isClose = (value: number, other: number): boolean =>
  Math.abs(value - other) <= 1e-12 * Math.max(Math.abs(value), Math.abs(other));

test.each(all)("%s is a UCUM code", (code) => {
  expect(library.validateUnitString(code).status).toBe("valid");
});

test.each(["MM", "CM", "cm^2", "mm²", "µm"])("%s is no UCUM code, and none here", (code) => {
  expect(library.validateUnitString(code).status).not.toBe("valid");
  expect(dimensionOf(code)).toBeNull();
});

test.each(["mm²", "cm²", "mm³", "cm³", "°", "degrees"])(
  "%s of a sheet becomes a UCUM code",
  (cell) => {
    const code = ucumFromSheet(cell);
    expect(library.validateUnitString(code ?? "").status).toBe("valid");
  },
);

describe("conversion", () => {
  test("any number in any unit is stored as the library converts it", () => {
    const number = fc
      .integer({ min: 1, max: 999_999 })
      .map((thousandths) => (thousandths / 1000).toFixed(3));
    fc.assert(
      fc.property(number, fc.constantFrom(...all), (text, code) => {
        const decimal = parseDecimal(text);
        if (decimal === null) throw new Error(text);
        const converted = library.convertUnitTo(code, decimal.value, storedUnit[dimension(code)]);
        expect(converted.status).toBe("succeeded");
        const own = toStoredUnit(decimal, code);
        expect(isClose(own, converted.toVal ?? Number.NaN), `${own} ${converted.toVal}`).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });

  test("two units are of one dimension here where the library converts one into the other", () => {
    for (const from of all) {
      for (const to of all) {
        const { status } = library.convertUnitTo(from, 1, to);
        expect(status === "succeeded", `${from} ${to}`).toBe(dimension(from) === dimension(to));
      }
    }
  });
});
