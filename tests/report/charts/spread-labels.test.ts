import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { overlaps, placeLabels, spreadLabels } from "../../../src/report/charts/spread-labels.ts";

const item = fc.record({
  wanted: fc.double({ min: -50, max: 450, noNaN: true }),
  height: fc.double({ min: 1, max: 30, noNaN: true }),
});

describe("spreadLabels", () => {
  test("labels that fit never overlap, stay inside and keep their order", () => {
    fc.assert(
      fc.property(fc.array(item, { minLength: 1, maxLength: 12 }), (items) => {
        const middles = spreadLabels(items, 0, 400);
        const order = items
          .map((_, index) => index)
          .toSorted((a, b) => items[a]!.wanted - items[b]!.wanted || a - b);
        let end = 0;
        for (const index of order) {
          const half = items[index]!.height / 2;
          expect(middles[index]! - half).toBeGreaterThanOrEqual(end - 1e-6);
          end = middles[index]! + half;
        }
        expect(end).toBeLessThanOrEqual(400 + 1e-6);
      }),
    );
  });

  test("a label alone lies where it is wanted", () => {
    expect(spreadLabels([{ wanted: 40, height: 10 }], 0, 100)).toEqual([40]);
  });

  test("two that collide move apart by the same amount", () => {
    const items = [
      { wanted: 50, height: 10 },
      { wanted: 52, height: 10 },
    ];
    expect(spreadLabels(items, 0, 100)).toEqual([46, 56]);
  });

  test("a label wanted outside lies at the edge", () => {
    expect(spreadLabels([{ wanted: -30, height: 10 }], 0, 100)).toEqual([5]);
  });
});

describe("placeLabels", () => {
  const box = (left: number) => ({ left, right: left + 10, top: 0, bottom: 10 });

  test("takes the first free place, and none where all are taken", () => {
    const placed = placeLabels([[box(0), box(20)], [box(0), box(20)], [box(5)]], [box(0)]);
    expect(placed).toEqual([box(20), null, null]);
  });

  test("rectangles that share only an edge do not overlap", () => {
    expect(overlaps(box(0), box(10))).toBe(false);
    expect(overlaps(box(0), box(9.9))).toBe(true);
  });
});
