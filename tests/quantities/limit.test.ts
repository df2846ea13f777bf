import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { holds, spans } from "../../src/quantities/limit.ts";

describe("limits", () => {
  test("10 % of oversizing is 10 %, whatever binary makes of it", () => {
    const percent = (33 / 30 - 1) * 100;
    expect(percent).toBeGreaterThan(10);
    expect(holds(percent, "<=", 10)).toBe(true);
    expect(holds(percent, ">", 10)).toBe(false);
  });

  test.each([
    [55, ">=", 55, true],
    [55, ">", 55, false],
    [54.9, ">=", 55, false],
    [55.1, ">", 55, true],
    [55, "<=", 55, true],
    [55, "<", 55, false],
    [54.9, "<", 55, true],
    [-1, "<", 0, true],
    [0, ">=", 0, true],
  ] as const)("%d %s %d", (value, operator, limit, expected) => {
    expect(holds(value, operator, limit)).toBe(expected);
  });

  test("a value is on one side of a limit, or equal to it", () => {
    const size = fc.double({ min: -200, max: 200, noNaN: true });
    fc.assert(
      fc.property(size, size, (value, limit) => {
        expect(holds(value, ">=", limit)).toBe(!holds(value, "<", limit));
        expect(holds(value, "<=", limit)).toBe(!holds(value, ">", limit));
      }),
    );
  });

  test("an interval holds its ends", () => {
    expect(spans(51, 59, 55)).toBe(true);
    expect(spans(55, 59, 55)).toBe(true);
    expect(spans(51, 55, 55)).toBe(true);
    expect(spans(55.1, 59, 55)).toBe(false);
    expect(spans(50, 54.9, 55)).toBe(false);
  });
});
