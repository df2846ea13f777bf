import { daysBetween } from "../../src/quantities/days-between.ts";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { answerAgainst } from "../../src/growth/growth-answers.ts";
import type { Offset } from "../../src/growth/comparability-offsets.ts";
import {
  type ComparedSize,
  growthIntervals,
  growthRate,
  sizeChange,
} from "../../src/growth/growth-rate.ts";
import type { ReadSize } from "../../src/growth/growth-line.ts";

const size = (date: string, valueMm: number): ComparedSize => ({
  date,
  valueMm,
  sdMm: 1,
  offset: null,
  offsetFromBefore: null,
});
const withSd = <Size extends ReadSize>(sizes: readonly Size[], sdMm: number): Size[] =>
  sizes.map((each) => ({ ...each, sdMm }));
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
    [42, 44.5, 1, 1, 2.5, -0.27, 5.27, "cannot-tell", "cannot-tell"],
    [42, 44.5, 1, 0.5, 2.5, 1.11, 3.89, "cannot-tell", "does-not-exceed"],
    [42, 50, 1, 1, 8, 5.23, 10.77, "exceeds", "exceeds"],
    [42, 48, 1, 1, 6, 3.23, 8.77, "exceeds", "cannot-tell"],
    [42, 42.2, 2, 1, 0.1, -1.29, 1.49, "does-not-exceed", "does-not-exceed"],
    [50, 53, 0.5, 1, 6, 0.46, 11.54, "cannot-tell", "cannot-tell"],
  ])("%d to %d mm in %d years, SD %d", (from, to, time, sd, value, low, high, of3, of5) => {
    const sizes = [size(start, from), size(years(time), from + (to - from) * scale)];
    const { rate, method } = growthRate(withSd(sizes, sd * scale));
    expect(rate?.value).toBeCloseTo(value, 9);
    expect(rate?.low).toBeCloseTo(low, 2);
    expect(rate?.high).toBeCloseTo(high, 2);
    expect(rate?.unit).toBe("mm/a");
    expect(answerAgainst(3, rate)).toBe(of3);
    expect(answerAgainst(5, rate)).toBe(of5);
    expect(method).toContain("two exams");
  });

  test("8 mm in a year are beyond 5 mm per year by 0.228", () => {
    const { rate } = growthRate(withSd([size(start, 42), size(years(1), 106)], 8));
    expect(rate?.low).toBeCloseTo(5.228, 3);
  });

  test("the dates count as days over 365.25", () => {
    const { rate } = growthRate(withSd([size("2024-01-10", 44), size("2026-01-12", 48.5)], 1.9));
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

  // Sum of squared residuals 0.0874286 times scale²: over SD² that is chi-squared with 2 degrees of freedom, 5.99 at 95 %.
  test.each([
    {
      sd: 1,
      low: 0.6805,
      high: 3.3309,
      from: /SD 8 mm, which explains the .*chi-squared 0\.1, 2 deg/,
    },
    { sd: 1.5, low: 0.0179, high: 3.9935, from: /SD 12 mm, which explains/ },
    { sd: 2, low: -0.6446, high: 4.6561, from: /SD 16 mm, which explains/ },
    {
      sd: 0.2,
      low: 1.7407,
      high: 2.2707,
      from: /SD 1.6 mm, which explains .*chi-squared 2\.2, 2 deg/,
    },
    {
      sd: 0.1,
      low: 1.3975,
      high: 2.614,
      from: /from the scatter about it, which is larger than a reading error of SD 0.8 mm explains \(chi-squared 8\.7, 2 degrees of freedom\)$/,
    },
  ])("SD $sd: the scatter decides only where the error can't explain it", (expected) => {
    const { rate, method } = growthRate(withSd(worked, expected.sd * scale));
    expect(rate?.value).toBeCloseTo(2.005714, 6);
    expect(rate?.low).toBeCloseTo(expected.low, 4);
    expect(rate?.high).toBeCloseTo(expected.high, 4);
    expect(method).toContain("straight line through 4 exams");
    expect(method).toMatch(expected.from);
  });

  test("a lucky straight line must not look precise", () => {
    const straight = [0, 1, 2, 3].map((at) => size(years(at), 40 + 2 * scale * at));
    const { rate } = growthRate(withSd(straight, scale));
    expect((rate?.high ?? 0) - 2).toBeCloseTo(1.959964 / Math.sqrt(5), 6);
    expect(answerAgainst(2.5, rate)).toBe("cannot-tell");
  });

  test("each size counts by its own reading error", () => {
    const sizes = [
      { ...size(start, 40), sdMm: 1 },
      { ...size(years(1), 48), sdMm: 2 },
      { ...size(years(2), 50), sdMm: 1 },
    ];
    const { rate, method } = growthRate(sizes);
    // Sum of weights 2.25, mean time 1, sum of weighted squares 2: the middle size moves the height alone.
    expect(rate?.value).toBeCloseTo(10 / (2 * scale), 9);
    expect((rate?.high ?? 0) - (rate?.value ?? 0)).toBeCloseTo(1.959964 / (Math.SQRT2 * scale), 6);
    expect(method).toContain("SD 1 to 2 mm, each exam its own");
    const [interval] = growthIntervals(sizes.map((one) => ({ ...one, offsetFromBefore: null })));
    expect((interval?.change.high ?? 0) - 8).toBeCloseTo(1.959964 * Math.sqrt(5), 5);
  });

  test("half a year is the shortest span with a rate", () => {
    const over = (days: number) =>
      growthRate(withSd([size(start, 50), size(addDays(start, days), 53)], 1));
    expect(over(182)).toEqual({
      rate: null,
      method: "no rate: the comparable exams span 182 days, less than half a year",
    });
    expect(over(183).rate).not.toBeNull();
    expect(growthRate(withSd([size(start, 50)], 1)).rate).toBeNull();
    expect(growthRate(withSd([], 1)).method).toContain("fewer than two");
  });
});

describe("intervals", () => {
  test("the smallest change beyond chance at SD 1 is 2.7718 mm", () => {
    const { value, low, high } = sizeChange(size(start, 50), size(years(1), 53), null);
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
    const read = { ...size(start, 50), sdMm: sd };
    const { value, high } = sizeChange(read, read, null);
    expect(Math.abs(high - value - limit)).toBeLessThanOrEqual(0.006);
  });

  test("neighbours only, a yearly rate from half a year on, none within one day", () => {
    const sizes = [
      size("2024-01-01", 40),
      size("2024-03-01", 40.3),
      size("2024-03-01", 40.4),
      size("2025-03-01", 43.4),
    ];
    const intervals = growthIntervals(withSd(sizes, 1));
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
      withSd([size(start, 50), size(addDays(start, days), 51)], 1),
    );
    const rate = interval?.rate;
    expect(Math.abs((rate?.high ?? 0) - (rate?.value ?? 0) - halfWidth)).toBeLessThan(0.02);
  });

  test("differences of decimal readings carry no binary noise", () => {
    expect(sizeChange(size(start, 30.3), size(start, 33.3), null).value).toBe(3);
  });
});

/** A shift by at most so much, of an invented study. */
const offsetOf = (highMm: number): Offset => ({
  lowMm: 0,
  highMm,
  source: `MODALITY against MODALITY (nowhere; STUDY ${highMm})`,
});

describe("possible shifts", () => {
  test("two exams: the rate is widened at both ends by the shift over the time", () => {
    const sizes = [
      { ...size(start, 42), offset: offsetOf(1.9 * scale) },
      { ...size(years(2), 46 * scale), offsetFromBefore: offsetOf(1.9 * scale) },
    ];
    const plain = growthRate(withSd([size(start, 42), size(years(2), 46 * scale)], 1));
    const { rate, method } = growthRate(withSd(sizes, 1));
    expect(rate?.value).toBe(plain.rate?.value);
    expect((rate?.high ?? 0) - (plain.rate?.high ?? 0)).toBeCloseTo(1.9 / 2, 9);
    expect((plain.rate?.low ?? 0) - (rate?.low ?? 0)).toBeCloseTo(1.9 / 2, 9);
    expect(method).toBe(
      "two exams; 95 % interval from a reading error of SD 1 mm; " +
        "widened by a possible shift of 0 to 15.2 mm, MODALITY against MODALITY (nowhere; STUDY 15.2)",
    );
    const [interval] = growthIntervals(withSd(sizes, 1));
    expect(interval?.rate?.low).toBeCloseTo(rate?.low ?? Number.NaN, 9);
    expect(interval?.change.high).toBeCloseTo(46 * scale - 42 + 2.7718 + 15.2, 4);
  });

  test("an interval takes the shift between its own exams, not that against the last", () => {
    const offset = offsetOf(2);
    const sizes = [
      { ...size(start, 42), offset },
      { ...size(years(1), 43), offset },
      { ...size(years(2), 44), offsetFromBefore: offset },
    ];
    const halfWidths = growthIntervals(withSd(sizes, 1)).map(
      ({ change }) => change.high - change.value,
    );
    expect(halfWidths[0]).toBeCloseTo(2.7718, 4);
    expect(halfWidths[1]).toBeCloseTo(4.7718, 4);
  });

  test("each different shift is named once", () => {
    const shifted = [offsetOf(1), offsetOf(1), offsetOf(2)].map((offset, index) => ({
      ...size(years(index), 44),
      offset,
    }));
    const { method } = growthRate(withSd([...shifted, size(years(3), 45)], 1));
    expect(method.match(/a possible shift of/g)).toHaveLength(2);
    expect(method).toContain("STUDY 1), and by a possible shift of 0 to 2 mm");
  });
});

describe("properties", () => {
  const lostToScatter = expect.stringContaining("from the scatter about it");
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
          const error = sdMm;
          const { rate } = growthRate(withSd(all, error));
          const moved = all.map(({ date, valueMm }) => size(addDays(date, days), valueMm + mm));
          const { rate: same } = growthRate(withSd(moved, error));
          expect(rate).not.toBeNull();
          for (const end of ["value", "low", "high"] as const) {
            expect(same?.[end]).toBeCloseTo(rate?.[end] ?? Number.NaN, 6);
          }
        },
      ),
    );
  });

  test("with a smaller reading error an answer never turns into its opposite; it is lost only to larger scatter", () => {
    fc.assert(
      fc.property(sizes, sd, sd, fc.integer({ min: 1, max: 10 }), (all, one, other, limit) => {
        const [narrow, wide] = [one, other].toSorted((a, b) => a - b) as [number, number];
        const sure = answerAgainst(limit, growthRate(withSd(all, wide)).rate);
        const { rate, method } = growthRate(withSd(all, narrow));
        const surer = answerAgainst(limit, rate);
        if (sure === "cannot-tell") return;
        if (surer !== sure) expect([surer, method]).toEqual(["cannot-tell", lostToScatter]);
      }),
    );
  });

  test("the interval is never narrower than the reading error allows", () => {
    fc.assert(
      fc.property(sizes, sd, (all, sdMm) => {
        const { rate } = growthRate(withSd(all, sdMm));
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

  const shifts = fc.array(fc.constantFrom(0, 0.5, 1.9, 5.4), { minLength: 8, maxLength: 8 });
  const shiftedBy = (all: readonly ComparedSize[], highMm: readonly number[]): ComparedSize[] =>
    all.map((each, index) => {
      const offset = highMm[index] ? offsetOf(highMm[index]) : null;
      return { ...each, offset, offsetFromBefore: index === 0 ? null : offset };
    });

  test("a possible shift never narrows an interval, and a larger one never narrows it more", () => {
    fc.assert(
      fc.property(sizes, sd, shifts, (all, sdMm, highMm) => {
        const error = sdMm;
        const more = highMm.map((mm) => mm * 1.5);
        const widths = [all, shiftedBy(all, highMm), shiftedBy(all, more)].map((each) =>
          [
            growthRate(withSd(each, error)).rate,
            ...growthIntervals(withSd(each, error)).map(({ change }) => change),
          ].map((interval) => (interval ? interval.high - interval.low : Number.NaN)),
        );
        widths[0]?.forEach((plain, index) => {
          const [, shifted = 0, further = 0] = widths.map((row) => row[index] ?? 0);
          expect(shifted).toBeGreaterThanOrEqual(plain - 1e-9);
          expect(further).toBeGreaterThanOrEqual(shifted - 1e-9);
        });
      }),
    );
  });

  // A slope is linear in the sizes, so over all shifts within their bounds it is largest where each size is moved fully
  // up or fully down: all such corners are tried.
  test("the rate is widened by exactly the most that the shifts can move the slope", () => {
    fc.assert(
      fc.property(sizes, shifts, (all, highMm) => {
        const error = 1;
        const slopeOf = (moved: readonly ComparedSize[]) =>
          growthRate(withSd(moved, error)).rate?.value ?? Number.NaN;
        const moves = Array.from({ length: 2 ** all.length }, (_, corner) =>
          all.map(({ date, valueMm }, index) => {
            const sign = (corner >> index) % 2 === 0 ? 1 : -1;
            return size(date, valueMm + sign * (highMm[index] ?? 0));
          }),
        );
        const worst = Math.max(...moves.map(slopeOf)) - slopeOf(all);
        const widened = growthRate(withSd(shiftedBy(all, highMm), error)).rate?.high ?? Number.NaN;
        const plain = growthRate(withSd(all, error)).rate?.high ?? Number.NaN;
        expect(widened - plain).toBeCloseTo(worst, 6);
      }),
      { numRuns: 40 },
    );
  });

  test("what the widened interval exceeds, the true sizes exceed wherever the shift lies", () => {
    const share = fc.array(fc.integer({ min: -10, max: 10 }), { minLength: 8, maxLength: 8 });
    fc.assert(
      fc.property(sizes, sd, shifts, share, (all, sdMm, highMm, tenths) => {
        const answer = answerAgainst(3, growthRate(withSd(shiftedBy(all, highMm), sdMm)).rate);
        const truth = all.map(({ date, valueMm }, index) =>
          size(date, valueMm + ((highMm[index] ?? 0) * (tenths[index] ?? 0)) / 10),
        );
        const slope = growthRate(withSd(truth, sdMm)).rate?.value ?? Number.NaN;
        if (answer === "exceeds") expect(slope).toBeGreaterThan(3);
        if (answer === "does-not-exceed") expect(slope).toBeLessThan(3);
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
