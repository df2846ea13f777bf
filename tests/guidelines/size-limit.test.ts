import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checkText, limitText, sizeAnswer, sizeText } from "../../src/guidelines/size-limit.ts";

const atLeast = { operator: ">=", value: 55, printed: "5.5 cm" } as const;
const above = { operator: ">", value: 52, printed: "52 mm" } as const;
const band = { operator: ">=", value: 50, below: 55, printed: "5.0 to 5.4 cm" } as const;
const fromAbove = { operator: "<", value: 55, printed: "5.5 cm" } as const;
const limits = fc.constantFrom(atLeast, above, fromAbove, band);
const sizes = fc.double({ min: 10, max: 150, noNaN: true });

describe("a size against a limit", () => {
  test.each([
    [atLeast, 54.99, "below"],
    [atLeast, 55, "met"],
    [above, 52, "below"],
    [above, 52.01, "met"],
    [fromAbove, 54.99, "met"],
    [fromAbove, 55, "above-band"],
    [band, 49.99, "below"],
    [band, 50, "met"],
    [band, 54.99, "met"],
    [band, 55, "above-band"],
  ] as const)("%o: %d mm is %s", (limit, value, answer) => {
    expect(sizeAnswer(value, limit)).toBe(answer);
  });

  test("a larger size never falls back below the limit", () => {
    fc.assert(
      fc.property(limits, sizes, sizes, (limit, a, b) => {
        const [small, large] = [Math.min(a, b), Math.max(a, b)];
        if (sizeAnswer(small, limit) !== "below") {
          expect(sizeAnswer(large, limit)).not.toBe("below");
        }
      }),
    );
  });

  test("ten binary steps beside an inclusive limit count as on it", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9000 }), (tenths) => {
        const value = tenths / 10;
        const noisy = value * (1 - 10 * Number.EPSILON);
        expect(sizeAnswer(noisy, { operator: ">=", value, printed: "" })).toBe("met");
        expect(sizeAnswer(noisy, { operator: ">", value, printed: "" })).toBe("below");
      }),
    );
  });

  test("the printed size stands on the same side of the limit as the size", () => {
    fc.assert(
      fc.property(limits, sizes, (limit, value) => {
        const answer = sizeAnswer(value, limit);
        expect(sizeAnswer(Number(sizeText(value, limit)), limit)).toBe(answer);
      }),
    );
  });

  test("the printed size is short where it can be", () => {
    expect(sizeText(54.123, atLeast)).toBe("54.12");
    expect(sizeText(54.999, atLeast)).toBe("54.999");
    expect(sizeText(55.00000000000001, atLeast)).toBe("55");
  });
});

test("a limit reads as printed", () => {
  expect(limitText(atLeast)).toBe(">= 5.5 cm");
  expect(limitText(band)).toBe("5.0 to 5.4 cm");
  expect(checkText({ kind: "diameter", unit: "mm", ...fromAbove })).toBe("< 5.5 cm");
  expect(checkText({ kind: "any-size" })).toBe("any size");
  expect(limitText({ operator: ">", printed: "52 mm", below: null })).toBe("> 52 mm");
});
