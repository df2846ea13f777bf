import { describe, expect, test } from "vitest";
import { frenchToMm, mmToFrench } from "../../src/quantities/french.ts";

describe("French scale", () => {
  test.each([
    [3, 1],
    [16, 16 / 3],
    [18, 6],
    [24, 8],
  ])("%s Fr is %s mm", (french, mm) => {
    expect(frenchToMm(french)).toBeCloseTo(mm, 12);
    expect(mmToFrench(mm)).toBeCloseTo(french, 12);
  });

  test("a size between two steps is not rounded", () => {
    expect(mmToFrench(7.5)).toBe(22.5);
    expect(frenchToMm(20.5)).toBeCloseTo(6.8333, 4);
  });
});
