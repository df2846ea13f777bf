import { describe, expect, test } from "vitest";
import { graftInterval, graftInWindow } from "../../../src/planning/sizing/graft-interval.ts";

const window = { lowPercent: 10, highPercent: 20 };
const isInside = (graftMm: number, vesselMm: number, errorMm = 0) =>
  graftInWindow(graftMm, graftInterval(vesselMm, errorMm, window), "<=").isInside;

describe("graftInterval", () => {
  test("worked by hand, a vessel of 30 mm with 10 to 20 %: 33, 34 and 36 mm lie inside, 36 being exactly 20 %; 32 and 38 mm do not", () => {
    expect([32, 33, 34, 36, 38].map((graftMm) => isInside(graftMm, 30, 1))).toEqual([
      false,
      true,
      true,
      true,
      false,
    ]);
  });

  test("a vessel of 28 mm takes a graft of 30.8 mm, which 28 times 1.1 in binary overshoots", () => {
    expect(28 * 1.1).toBeGreaterThan(30.8);
    expect(isInside(30.8, 28)).toBe(true);
  });
});
