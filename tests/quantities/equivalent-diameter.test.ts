import fc from "fast-check";
import { expect, test } from "vitest";
import {
  diameterFromAreaMm,
  diameterFromPerimeterMm,
} from "../../src/quantities/equivalent-diameter.ts";

test("a circle gives back its diameter from perimeter and from area", () => {
  fc.assert(
    fc.property(fc.double({ min: 1, max: 200, noNaN: true }), (diameterMm) => {
      expect(diameterFromPerimeterMm(Math.PI * diameterMm)).toBeCloseTo(diameterMm, 10);
      expect(diameterFromAreaMm((Math.PI * diameterMm ** 2) / 4)).toBeCloseTo(diameterMm, 10);
    }),
  );
});

test("a square section, whose perimeter diameter is larger than its area diameter", () => {
  expect(diameterFromPerimeterMm(4 * 30)).toBeCloseTo(120 / Math.PI, 12);
  expect(diameterFromAreaMm(30 * 30)).toBeCloseTo(33.8514, 4);
  expect(diameterFromPerimeterMm(120)).toBeGreaterThan(diameterFromAreaMm(900));
});
