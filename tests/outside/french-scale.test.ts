/**
 * The French (Charrière) scale against the Unified Code for Units of Measure, whose unit [Ch] is a third of a
 * millimetre, as @lhncbc/ucum-lhc 7.1.10 (npm, National Library of Medicine) converts it, and against the printed
 * table of the encyclopaedia article "French catheter scale" (Wikipedia, as copied by perceptiode.com; millimetres to one
 * decimal from 6 Fr on). Another copy of that article (tripatlas.com) divides by pi: that form is refuted here.
 */
import ucumLibrary from "@lhncbc/ucum-lhc";
import { expect, test } from "vitest";
import { frenchToMm, mmToFrench } from "../../src/quantities/french.ts";

const library = ucumLibrary.UcumLhcUtils.getInstance();
const sizes = Array.from({ length: 34 }, (_, index) => index + 1);

test.each(sizes)("%s Fr as UCUM's [Ch]", (french) => {
  const there = library.convertUnitTo("[Ch]", french, "mm");
  expect(there.status).toBe("succeeded");
  expect(frenchToMm(french)).toBeCloseTo(there.toVal ?? Number.NaN, 12);
  const back = library.convertUnitTo("mm", french, "[Ch]");
  expect(mmToFrench(french)).toBeCloseTo(back.toVal ?? Number.NaN, 12);
});

const printed: [french: number, mm: number][] = [
  [3, 1],
  [6, 2],
  [7, 2.3],
  [8, 2.7],
  [9, 3],
  [10, 3.3],
  [11, 3.7],
  [12, 4],
  [13, 4.3],
  [14, 4.7],
  [15, 5],
  [16, 5.3],
  [17, 5.7],
  [18, 6],
  [19, 6.3],
  [20, 6.7],
  [22, 7.3],
  [24, 8],
  [26, 8.7],
  [28, 9.3],
  [30, 10],
  [32, 10.7],
  [34, 11.3],
];

test.each(printed)("%s Fr is printed as %s mm", (french, mm) => {
  expect(Math.round(frenchToMm(french) * 10) / 10).toBe(mm);
});

test("24 Fr are not the 7.64 mm of a circumference divided by pi", () => {
  expect(frenchToMm(24) - 24 / Math.PI).toBeGreaterThan(0.3);
});
