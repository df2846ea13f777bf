import { daysBetween } from "../quantities/days-between.ts";
import { linearFit } from "../statistics/linear-fit.ts";
import { normalQuantile975 } from "../statistics/normal-quantile.ts";
import { studentTQuantile } from "../statistics/student-t.ts";
import type { ReadingError } from "./reading-error.ts";

/** The size of a place on one day. */
export interface DatedSize {
  /** YYYY-MM-DD. */
  date: string;
  valueMm: number;
}

/** A value with its 95 % interval. */
export interface Interval {
  value: number;
  low: number;
  high: number;
  unit: "mm" | "mm/a";
}

/** Change of size between two exams that follow each other. */
export interface GrowthInterval {
  from: string;
  to: string;
  days: number;
  change: Interval;
  /** Null under `shortestAnnualisedDays`. */
  rate: Interval | null;
}

export const daysPerYear = 365.25;

/** Over less time than half a year the reading error alone makes large yearly rates: only the change is shown. */
const shortestAnnualisedDays = 183;

/** Difference of two sizes in mm without the error of binary fractions: 33.3 less 30.3 is 3, not 2.9999999999999964. */
export function changeMm(from: DatedSize, to: DatedSize): number {
  return Number((to.valueMm - from.valueMm).toFixed(9));
}

const interval = (value: number, halfWidth: number, unit: Interval["unit"]): Interval => ({
  value,
  low: value - halfWidth,
  high: value + halfWidth,
  unit,
});

/**
 * Change from one size to another. Two readings with the same SD differ by chance by up to 1.96 times the square root
 * of 2 times that SD in 95 of 100 pairs.
 */
export function sizeChange(from: DatedSize, to: DatedSize, error: ReadingError): Interval {
  return interval(changeMm(from, to), normalQuantile975 * Math.SQRT2 * error.highSdMm, "mm");
}

/** Change and yearly rate between neighbouring sizes, earliest first. Sizes of one day make no interval. */
export function growthIntervals(
  sizes: readonly DatedSize[],
  error: ReadingError,
): GrowthInterval[] {
  return sizes.flatMap((to, index) => {
    const from = sizes[index - 1];
    const days = from ? daysBetween(from.date, to.date) : 0;
    if (!from || days === 0) return [];
    const change = sizeChange(from, to, error);
    const years = days / daysPerYear;
    const rate =
      days < shortestAnnualisedDays
        ? null
        : interval(change.value / years, (change.high - change.value) / years, "mm/a");
    return { from: from.date, to: to.date, days, change, rate };
  });
}

/**
 * Rate over all sizes, earliest first: a straight line by least squares. Its 95 % interval comes from the reading
 * error and, from three sizes on, also from the scatter about the line; the wider one decides, since a few sizes that
 * happen to lie on a line must not look precise. `method` says in words how, or why there is no rate.
 */
export function growthRate(
  sizes: readonly DatedSize[],
  error: ReadingError,
): { rate: Interval | null; method: string } {
  const first = sizes[0];
  const last = sizes.at(-1);
  if (!first || !last || sizes.length < 2) {
    return { rate: null, method: "no rate: fewer than two comparable exams" };
  }
  const spanDays = daysBetween(first.date, last.date);
  if (spanDays < shortestAnnualisedDays) {
    return {
      rate: null,
      method: `no rate: the comparable exams span ${spanDays} days, less than half a year`,
    };
  }
  const fit = linearFit(
    sizes.map(({ date, valueMm }) => ({
      x: daysBetween(first.date, date) / daysPerYear,
      y: valueMm,
    })),
  );
  if (!fit) throw new Error("no line through sizes of different days");
  const fromError = (normalQuantile975 * error.highSdMm) / Math.sqrt(fit.sumOfSquaresX);
  const errorWords = `a reading error of SD ${error.highSdMm} mm`;
  if (fit.slopeStandardError === null) {
    return {
      rate: interval(fit.slope, fromError, "mm/a"),
      method: `two exams; 95 % interval from ${errorWords}`,
    };
  }
  const fromScatter = studentTQuantile(0.975, fit.degreesOfFreedom) * fit.slopeStandardError;
  const line = `straight line through ${fit.count} exams`;
  return {
    rate: interval(fit.slope, Math.max(fromError, fromScatter), "mm/a"),
    method:
      fromScatter > fromError
        ? `${line}; 95 % interval from the scatter about it, wider than from ${errorWords}`
        : `${line}; 95 % interval from ${errorWords}, wider than from the scatter about it`,
  };
}
