/*
 * Sources: DuBois and DuBois 1916 by their formula, worked with another program (bc) to ten digits. ESC 2024 (Eur
 * Heart J, doi 10.1093/eurheartj/ehae179), section 10.2, page 3647, prints area over height of 10 cm2/m as 48 mm at
 * 1.80 m and 46 mm at 1.67 m, and 13 cm2/m as 54 mm and 53 mm (whole mm, some cut and not rounded).
 */
import { describe, expect, test } from "vitest";
import {
  aorticHeightIndexCmPerM,
  aorticSizeIndexCmPerM2,
  areaHeightRatioCm2PerM,
  bodySurfaceAreaDuBoisM2,
} from "../../src/quantities/body-size.ts";

describe("body size", () => {
  test.each([
    [170, 70, 1.80970780175],
    [150, 45, 1.36977048744],
    [195, 120, 2.51358425018],
  ])("body surface area of %i cm and %i kg", (heightCm, weightKg, areaM2) => {
    expect(bodySurfaceAreaDuBoisM2(heightCm, weightKg)).toBeCloseTo(areaM2, 9);
  });

  test.each([
    [10, 180, 48],
    [10, 167, 46],
    [13, 180, 54],
    [13, 167, 53],
  ])("area over height of %i cm2/m at %i cm is a diameter of %i mm", (ratio, heightCm, mm) => {
    expect(areaHeightRatioCm2PerM(mm - 1, heightCm)).toBeLessThan(ratio);
    expect(areaHeightRatioCm2PerM(mm + 1, heightCm)).toBeGreaterThan(ratio);
  });

  test("indices in cm", () => {
    expect(aorticSizeIndexCmPerM2(55, 2)).toBeCloseTo(2.75, 12);
    expect(aorticHeightIndexCmPerM(55, 160)).toBeCloseTo(3.4375, 12);
  });
});
