import { daysBetween } from "../../src/quantities/days-between.ts";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { answerAgainst } from "../../src/growth/growth-answers.ts";
import {
  type DatedSize,
  growthIntervals,
  growthRate,
  sizeChange,
} from "../../src/growth/growth-rate.ts";
import { readingErrorOf } from "./sample-growth-case.ts";

const size = (date: string, valueMm: number): DatedSize => ({ date, valueMm });
const addDays = (date: string, days: number): string =>
  new Date(Date.parse(date) + days * 86_400_000).toISOString().slice(0, 10);

// The worked examples are in years, and no year is a whole number of days: 8 years are. So one year of an example is
// 8 years here, and changes and SD are 8 times those of the example, which leaves every rate as it is.
const scale = 8;
const start = "2020-01-01";
const years = (count: number): string => addDays(start, count * scale * 365.25);

describe("rate from two exams", () => {
  // Worked by hand: SE = sqrt(2) SD / years, interval 1.959964 SE.
  test.each([
    {
      from: 42,
      to: 44.5,
      years: 1,
      sd: 1,
      rate: 2.5,
      low: -0.27,
      high: 5.27,
      of3: "cannot-tell",
      of5: "cannot-tell",
    },
    {
      from: 42,
      to: 44.5,
      years: 1,
      sd: 0.5,
      rate: 2.5,
      low: 1.11,
      high: 3.89,
      of3: "cannot-tell",
      of5: "does-not-exceed",
    },
    {
      from: 42,
      to: 50,
      years: 1,
      sd: 1,
      rate: 8,
      low: 5.23,
      high: 10.77,
      of3: "exceeds",
      of5: "exceeds",
    },
    {
      from: 42,
      to: 48,
      years: 1,
      sd: 1,
      rate: 6,
      low: 3.23,
      high: 8.77,
      of3: "exceeds",
      of5: "cannot-tell",
    },
    {
      from: 42,
      to: 42.2,
      years: 2,
      sd: 1,
      rate: 0.1,
      low: -1.29,
      high: 1.49,
      of3: "does-not-exceed",
      of5: "does-not-exceed",
    },
    {
      from: 50,
      to: 53,
      years: 0.5,
      sd: 1,
      rate: 6,
      low: 0.46,
      high: 11.54,
      of3: "cannot-tell",
      of5: "cannot-tell",
    },
  ])("$from to $to mm in $years years, SD $sd", ({ from, to, years: time, sd, ...expected }) => {
    const sizes = [size(start, from), size(years(time), from + (to - from) * scale)];
    const { rate, method } = growthRate(sizes, readingErrorOf(sd * scale));
    expect(rate?.value).toBeCloseTo(expected.rate, 9);
    expect(rate?.low).toBeCloseTo(expected.low, 2);
    expect(rate?.high).toBeCloseTo(expected.high, 2);
    expect(rate?.unit).toBe("mm/a");
    expect(answerAgainst(3, rate)).toBe(expected.of3);
    expect(answerAgainst(5, rate)).toBe(expected.of5);
    expect(method).toContain("two exams");
  });

  test("8 mm in a year are beyond 5 mm per year by 0.228", () => {
    const { rate } = growthRate([size(start, 42), size(years(1), 106)], readingErrorOf(8));
    expect(rate?.low).toBeCloseTo(5.228, 3);
  });

  test("the dates count as days over 365.25", () => {
    const { rate } = growthRate(
      [size("2024-01-10", 44), size("2026-01-12", 48.5)],
      readingErrorOf(1.9),
    );
    expect(daysBetween("2024-01-10", "2026-01-12")).toBe(733);
    expect(rate?.value).toBeCloseTo((4.5 * 365.25) / 733, 12);
  });
});

describe("rate from more exams", () => {
  // Sizes 40, 41.2, 41.8, 44.1 mm at 0, 0.5, 1, 2 years, worked by hand.
  const worked = [
    size(start, 40),
    size(years(0.5), 40 + 1.2 * scale),
    size(years(1), 40 + 1.8 * scale),
    size(years(2), 40 + 4.1 * scale),
  ];

  test.each([
    { sd: 1, low: 0.6805, high: 3.3309, wider: "a reading error of SD 8 mm, wider" },
    { sd: 1.5, low: 0.0179, high: 3.9935, wider: "a reading error of SD 12 mm, wider" },
    { sd: 2, low: -0.6446, high: 4.6561, wider: "a reading error of SD 16 mm, wider" },
    { sd: 0.2, low: 1.3975, high: 2.614, wider: "the scatter about it, wider" },
  ])("SD $sd: the wider interval decides", ({ sd, low, high, wider }) => {
    const { rate, method } = growthRate(worked, readingErrorOf(sd * scale));
    expect(rate?.value).toBeCloseTo(2.005714, 6);
    expect(rate?.low).toBeCloseTo(low, 4);
    expect(rate?.high).toBeCloseTo(high, 4);
    expect(method).toContain("straight line through 4 exams");
    expect(method).toContain(wider);
  });

  test("a lucky straight line must not look precise", () => {
    const narrow = growthRate(worked, readingErrorOf(0.2 * scale)).rate;
    expect(answerAgainst(3, narrow)).toBe("does-not-exceed");
    expect(answerAgainst(3, growthRate(worked, readingErrorOf(scale)).rate)).toBe("cannot-tell");
  });

  test("of a range of reading errors the larger one counts", () => {
    const range = { ...readingErrorOf(1), lowSdMm: 0.7, highSdMm: 1.9 };
    const sizes = [size(start, 50), size(years(1), 53)];
    expect(growthRate(sizes, range)).toEqual(growthRate(sizes, readingErrorOf(1.9)));
    expect(growthIntervals(sizes, range)).toEqual(growthIntervals(sizes, readingErrorOf(1.9)));
  });

  test("half a year is the shortest span with a rate", () => {
    const over = (days: number) =>
      growthRate([size(start, 50), size(addDays(start, days), 53)], readingErrorOf(1));
    expect(over(182)).toEqual({
      rate: null,
      method: "no rate: the comparable exams span 182 days, less than half a year",
    });
    expect(over(183).rate).not.toBeNull();
    expect(growthRate([size(start, 50)], readingErrorOf(1)).rate).toBeNull();
    expect(growthRate([], readingErrorOf(1)).method).toContain("fewer than two");
  });
});

describe("intervals", () => {
  test("the smallest change beyond chance at SD 1 is 2.7718 mm", () => {
    const { value, low, high } = sizeChange(size(start, 50), size(years(1), 53), readingErrorOf(1));
    expect(value).toBe(3);
    expect(high - value).toBeCloseTo(2.7718, 4);
    expect(value - low).toBeCloseTo(2.7718, 4);
  });

  test.each([
    [0.7, 1.94],
    [0.9, 2.49],
    [1.1, 3.05],
    [1.5, 4.16],
    [1.8, 4.99],
    [2, 5.54],
  ])("SD %d mm: two readings differ by up to %d mm by chance", (sd, limit) => {
    const { value, high } = sizeChange(size(start, 50), size(start, 50), readingErrorOf(sd));
    expect(Math.abs(high - value - limit)).toBeLessThanOrEqual(0.006);
  });

  test("neighbours only, a yearly rate from half a year on, none within one day", () => {
    const sizes = [
      size("2024-01-01", 40),
      size("2024-03-01", 40.3),
      size("2024-03-01", 40.4),
      size("2025-03-01", 43.4),
    ];
    const intervals = growthIntervals(sizes, readingErrorOf(1));
    expect(intervals.map(({ from, to, days }) => [from, to, days])).toEqual([
      ["2024-01-01", "2024-03-01", 60],
      ["2024-03-01", "2025-03-01", 365],
    ]);
    expect(intervals[0]?.rate).toBeNull();
    expect(intervals[1]?.change.value).toBe(3);
    expect(intervals[1]?.rate?.value).toBeCloseTo((3 * 365.25) / 365, 12);
    expect(intervals[1]?.rate?.high).toBeCloseTo((5.7718 * 365.25) / 365, 4);
  });

  // Half-widths in mm per year at SD 1.0 mm.
  test.each([
    [1461, 2.77 / 4],
    [731, 1.39],
    [365, 2.77],
    [183, 5.54],
  ])("over %i days the rate is known to within %d", (days, halfWidth) => {
    const [interval] = growthIntervals(
      [size(start, 50), size(addDays(start, days), 51)],
      readingErrorOf(1),
    );
    const rate = interval?.rate;
    expect(Math.abs((rate?.high ?? 0) - (rate?.value ?? 0) - halfWidth)).toBeLessThan(0.02);
  });

  test("differences of decimal readings carry no binary noise", () => {
    expect(sizeChange(size(start, 30.3), size(start, 33.3), readingErrorOf(1)).value).toBe(3);
  });
});

describe("properties", () => {
  const sizes = fc
    .uniqueArray(fc.integer({ min: 0, max: 4000 }), { minLength: 2, maxLength: 8 })
    .chain((days) =>
      fc.tuple(
        fc.constant(days.toSorted((a, b) => a - b)),
        fc.array(fc.integer({ min: 200, max: 900 }), {
          minLength: days.length,
          maxLength: days.length,
        }),
      ),
    )
    .filter(([days]) => (days.at(-1) ?? 0) - (days[0] ?? 0) >= 183)
    .map(([days, tenths]) =>
      days.map((day, index) => size(addDays(start, day), (tenths[index] ?? 0) / 10)),
    );
  const sd = fc.integer({ min: 1, max: 40 }).map((tenths) => tenths / 10);

  test("shifting all dates, or adding the same to all sizes, changes neither rate nor interval", () => {
    fc.assert(
      fc.property(
        sizes,
        sd,
        fc.nat(9000),
        fc.integer({ min: -50, max: 50 }),
        (all, sdMm, days, mm) => {
          const error = readingErrorOf(sdMm);
          const { rate } = growthRate(all, error);
          const moved = all.map(({ date, valueMm }) => size(addDays(date, days), valueMm + mm));
          const { rate: same } = growthRate(moved, error);
          expect(rate).not.toBeNull();
          for (const end of ["value", "low", "high"] as const) {
            expect(same?.[end]).toBeCloseTo(rate?.[end] ?? Number.NaN, 6);
          }
        },
      ),
    );
  });

  test("with a smaller reading error an answer never turns into its opposite, and none is lost", () => {
    fc.assert(
      fc.property(sizes, sd, sd, fc.integer({ min: 1, max: 10 }), (all, one, other, limit) => {
        const [narrow, wide] = [one, other].toSorted((a, b) => a - b) as [number, number];
        const sure = answerAgainst(limit, growthRate(all, readingErrorOf(wide)).rate);
        const surer = answerAgainst(limit, growthRate(all, readingErrorOf(narrow)).rate);
        if (sure !== "cannot-tell") expect(surer).toBe(sure);
      }),
    );
  });

  test("the interval is never narrower than the reading error allows", () => {
    fc.assert(
      fc.property(sizes, sd, (all, sdMm) => {
        const { rate } = growthRate(all, readingErrorOf(sdMm));
        const times = all.map(({ date }) => daysBetween(start, date) / 365.25);
        const mean = times.reduce((sum, time) => sum + time, 0) / times.length;
        const spread = Math.sqrt(times.reduce((sum, time) => sum + (time - mean) ** 2, 0));
        const halfWidth = (1.959963984540054 * sdMm) / spread;
        expect((rate?.high ?? 0) - (rate?.value ?? 0)).toBeGreaterThanOrEqual(
          halfWidth * (1 - 1e-9),
        );
      }),
    );
  });

  test("an interval that ends at the limit does not tell", () => {
    const rate = { value: 4, low: 3, high: 5, unit: "mm/a" } as const;
    expect(answerAgainst(3, rate)).toBe("cannot-tell");
    expect(answerAgainst(5, rate)).toBe("cannot-tell");
    expect(answerAgainst(2.99, rate)).toBe("exceeds");
    expect(answerAgainst(5.01, rate)).toBe("does-not-exceed");
    expect(answerAgainst(3, null)).toBe("cannot-tell");
  });
});
