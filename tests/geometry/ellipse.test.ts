import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ellipseAreaMm2, ellipsePerimeterMm } from "../../src/geometry/ellipse.ts";

const axis = fc.double({ min: 0.5, max: 200, noNaN: true });

describe("ellipse", () => {
  test("a circle", () => {
    expect(ellipsePerimeterMm(30, 30)).toBeCloseTo(30 * Math.PI, 12);
    expect(ellipseAreaMm2(30, 30)).toBeCloseTo(225 * Math.PI, 12);
  });

  test("the order of the axes does not matter, and twice the axes are twice the perimeter", () => {
    fc.assert(
      fc.property(axis, axis, (a, b) => {
        expect(ellipsePerimeterMm(a, b)).toBe(ellipsePerimeterMm(b, a));
        expect(ellipsePerimeterMm(2 * a, 2 * b)).toBeCloseTo(2 * ellipsePerimeterMm(a, b), 9);
      }),
    );
  });

  test("no section has less perimeter than the circle of its area", () => {
    fc.assert(
      fc.property(axis, axis, (a, b) => {
        const byArea = 2 * Math.sqrt(ellipseAreaMm2(a, b) / Math.PI);
        expect(ellipsePerimeterMm(a, b) / Math.PI).toBeGreaterThanOrEqual(byArea * (1 - 1e-12));
      }),
    );
  });

  test("the perimeter lies between twice the diagonal and the box", () => {
    fc.assert(
      fc.property(axis, axis, (a, b) => {
        expect(ellipsePerimeterMm(a, b)).toBeGreaterThan(2 * Math.hypot(a, b));
        expect(ellipsePerimeterMm(a, b)).toBeLessThan(2 * (a + b));
      }),
    );
  });
});
