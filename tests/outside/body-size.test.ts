/**
 * Body surface area and indexed aortic sizes against published formulas and figures.
 *
 * - The formulas of DuBois 1916, Mosteller 1987, Haycock 1978 and Gehan and George 1970 as reprinted in lists of surface
 *   area formulas; that DuBois in cm2 reads 71.84 h^0.725 w^0.425 is from memory.
 * - ESC 2024 guideline on aortic diseases (doi 10.1093/eurheartj/ehae179), section 10.2, page 3647: an area over height of
 *   10 cm2/m is 48 mm at 1.80 m and 46 mm at 1.67 m; 13 cm2/m is 54 and 53 mm. Printed in whole mm.
 * - Same, section 5.4.2, page 3565: height index 32.1 mm/m, which Zafar 2018 (J Thorac Cardiovasc Surg 155:1938-50)
 *   prints as 3.21 cm/m.
 * - The further figures are computed apart from this program from the definitions (ACC/AHA 2022 pocket edition, pages 32 and 35).
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ellipseAreaMm2 } from "../../src/geometry/ellipse.ts";
import {
  aorticHeightIndexCmPerM,
  aorticSizeIndexCmPerM2,
  areaHeightRatioCm2PerM,
  areaOverHeightCm2PerM,
  bodySurfaceAreaDuBoisM2,
} from "../../src/quantities/body-size.ts";

const heights = fc.double({ min: 130, max: 220, noNaN: true });
const weights = fc.double({ min: 35, max: 180, noNaN: true });

describe("body surface area", () => {
  test.each([
    [170, 70, 1.8097],
    [182, 95, 2.165],
    [158, 55, 1.549],
  ])("%d cm, %d kg: %d m2 (computed from the formula)", (heightCm, weightKg, areaM2) => {
    expect(bodySurfaceAreaDuBoisM2(heightCm, weightKg)).toBeCloseTo(areaM2, 4);
  });

  test("is the formula of 1916 in cm2, by logarithms", () => {
    fc.assert(
      fc.property(heights, weights, (heightCm, weightKg) => {
        const logCm2 =
          Math.log10(71.84) + 0.725 * Math.log10(heightCm) + 0.425 * Math.log10(weightKg);
        expect(bodySurfaceAreaDuBoisM2(heightCm, weightKg)).toBeCloseTo(10 ** (logCm2 - 4), 10);
      }),
    );
  });

  test("agrees within 3 % with three later formulas in people of usual build", () => {
    for (const [heightCm, weightKg] of [
      [170, 70],
      [182, 95],
      [158, 55],
    ] as const) {
      const dubois = bodySurfaceAreaDuBoisM2(heightCm, weightKg);
      const later = [
        Math.sqrt((heightCm * weightKg) / 3600),
        0.024265 * heightCm ** 0.3964 * weightKg ** 0.5378,
        0.0235 * heightCm ** 0.42246 * weightKg ** 0.51456,
      ];
      for (const areaM2 of later) expect(Math.abs(dubois / areaM2 - 1)).toBeLessThan(0.03);
    }
  });
});

describe("area over height", () => {
  test.each([
    [10, 180, 48],
    [10, 167, 46],
    [13, 180, 54],
    [13, 167, 53],
  ])("%d cm2/m at %d cm is %d mm as ESC 2024 prints it", (ratio, heightCm, printedMm) => {
    expect(areaHeightRatioCm2PerM(printedMm - 1, heightCm)).toBeLessThan(ratio);
    expect(areaHeightRatioCm2PerM(printedMm + 1, heightCm)).toBeGreaterThan(ratio);
  });

  test.each([
    [46, 170, 9.78],
    [50, 170, 11.55],
    [50, 182, 10.79],
  ])("%d mm at %d cm: %d cm2/m (computed)", (diameterMm, heightCm, ratio) => {
    expect(areaHeightRatioCm2PerM(diameterMm, heightCm)).toBeCloseTo(ratio, 2);
  });

  test.each([
    [150, 43.7],
    [160, 45.1],
    [170, 46.5],
    [180, 47.9],
    [190, 49.2],
    [200, 50.5],
  ])("10 cm2/m at %d cm is %d mm (computed)", (heightCm, diameterMm) => {
    expect(areaHeightRatioCm2PerM(diameterMm - 0.05, heightCm)).toBeLessThan(10);
    expect(areaHeightRatioCm2PerM(diameterMm + 0.05, heightCm)).toBeGreaterThan(10);
  });
});

describe("measured area over height", () => {
  test.each([
    [1662, 170, 9.78],
    [1963.5, 170, 11.55],
    [1963.5, 182, 10.79],
  ])("%d mm2 at %d cm: %d cm2/m (pi r^2 over height, computed)", (areaMm2, heightCm, ratio) => {
    expect(areaOverHeightCm2PerM(areaMm2, heightCm)).toBeCloseTo(ratio, 2);
  });

  test("the circle of the longest axis overstates an oval by the ratio of its axes", () => {
    const oval = areaOverHeightCm2PerM(ellipseAreaMm2(50, 40), 170);
    expect(oval / areaHeightRatioCm2PerM(50, 170)).toBeCloseTo(40 / 50, 12);
  });
});

describe("height index and size index", () => {
  test.each([
    [150, 48.1],
    [160, 51.4],
    [170, 54.6],
    [180, 57.8],
    [190, 61.0],
    [200, 64.2],
  ])("3.21 cm/m at %d cm is %d mm (computed), far over area over height of 10", (heightCm, mm) => {
    expect(aorticHeightIndexCmPerM(mm - 0.06, heightCm)).toBeLessThan(3.21);
    expect(aorticHeightIndexCmPerM(mm + 0.06, heightCm)).toBeGreaterThan(3.21);
    expect(areaHeightRatioCm2PerM(mm - 3, heightCm)).toBeGreaterThan(10);
  });

  test.each([
    [46, 170, 2.71],
    [50, 170, 2.94],
    [54.57, 170, 3.21],
    [64.2, 200, 3.21],
  ])("%d mm at %d cm: %d cm/m", (diameterMm, heightCm, index) => {
    expect(aorticHeightIndexCmPerM(diameterMm, heightCm)).toBeCloseTo(index, 2);
  });

  test("3.21 cm/m is 32.1 mm/m: diameter over height, not over its square", () => {
    const [diameterMm, heightM] = [57.78, 1.8];
    expect(diameterMm / heightM).toBeCloseTo(32.1, 10);
    expect(aorticHeightIndexCmPerM(diameterMm, heightM * 100)).toBeCloseTo(3.21, 10);
  });

  test.each([
    [170, 70, 3.04],
    [182, 95, 2.54],
    [158, 55, 3.55],
  ])("55 mm at %d cm, %d kg: %d cm/m2 (computed)", (heightCm, weightKg, index) => {
    const areaM2 = bodySurfaceAreaDuBoisM2(heightCm, weightKg);
    expect(aorticSizeIndexCmPerM2(55, areaM2)).toBeCloseTo(index, 2);
  });
});
