import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { answerAgainst } from "../../src/growth/growth-answers.ts";
import type { ReadSize } from "../../src/growth/growth-line.ts";
import { daysAfter, tellableInMonths } from "../../src/growth/when-tellable.ts";

const inDays = (sdMm: number, ...sizes: [days: number, mm: number][]): ReadSize[] =>
  sizes.map(([days, valueMm]) => ({
    date: daysAfter("2020-01-01", days),
    valueMm,
    sdMm,
    offset: null,
  }));
const against = (limit: number, sizes: readonly ReadSize[]) =>
  tellableInMonths(sizes, (rate) => answerAgainst(limit, rate) !== "cannot-tell");

describe("when a further exam would tell", () => {
  // Two exams a year apart, 1 mm, SD 1 mm; a third t years after the second. Sum of squared times from their mean, with
  // times 0, 1 and 1 + t: (2/3) (1 + t + t²). 1.96 / sqrt of it is 2 at t = 0.331 and 1 at t = 1.739.
  const yearApart = inDays(1, [0, 40], [365, 41]);
  test.each([
    { limit: 3, months: 4 },
    { limit: 2, months: 21 },
    { limit: 0, months: 21 },
  ])("1 mm a year against $limit: $months months", ({ limit, months }) => {
    expect(against(limit, yearApart)).toBe(months);
  });

  test("never at the limit itself, or near to it", () => {
    const [first, last] = yearApart as [ReadSize, ReadSize];
    const exact = (365.25 * 1) / 365;
    expect(against(exact, [first, last])).toBeNull();
    expect(against(exact + 0.1, [first, last])).toBeNull();
  });

  test("not without a rate", () => {
    expect(against(3, inDays(1, [0, 40], [100, 41]))).toBeNull();
    expect(against(3, [])).toBeNull();
  });

  test("a possible shift makes it later", () => {
    const [first, last] = yearApart as [ReadSize, ReadSize];
    const offset = { lowMm: 0, highMm: 1.9, source: "invented" };
    expect(against(3, [{ ...first, offset }, last])).toBeGreaterThan(4);
  });

  test("with scatter that the errors can't explain it is reckoned from the scatter", () => {
    const even = inDays(0.5, [0, 40], [400, 42], [800, 44], [1200, 46]);
    const uneven = inDays(0.5, [0, 40], [400, 45], [800, 41], [1200, 46]);
    expect(against(0, uneven) ?? 999).toBeGreaterThan(against(0.5, even) ?? 999);
  });

  test("a larger reading error never makes it sooner", () => {
    const sizes = fc.tuple(fc.integer({ min: 366, max: 3000 }), fc.integer({ min: 0, max: 80 }));
    fc.assert(
      fc.property(sizes, fc.constantFrom(0.5, 1, 2), ([days, tenths], sdMm) => {
        const months = [sdMm, sdMm * 1.5].map(
          (sd) => against(3, inDays(sd, [0, 40], [days, 40 + tenths / 10])) ?? 999,
        );
        expect(months[1]).toBeGreaterThanOrEqual(months[0] ?? 0);
      }),
    );
  });
});
