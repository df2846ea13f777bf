import { daysBetween } from "../quantities/days-between.ts";
import { normalQuantile975 } from "../statistics/normal-quantile.ts";
import { type Offset, rangeInWords } from "./comparability-offsets.ts";
import {
  type DatedSize,
  daysPerYear,
  type ReadSize,
  type Scatter,
  straightLine,
} from "./growth-line.ts";

/** A size of a series, and how far it may be shifted against the one before. */
export interface ComparedSize extends ReadSize {
  offsetFromBefore: Offset | null;
}

/** A value with its 95 % interval; where a shift is possible, widened at both ends by all that it may do. */
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

/** Over less time than half a year the reading error alone makes large yearly rates: only the change is shown. */
export const shortestAnnualisedDays = 183;

/** Difference of two sizes in mm without the error of binary fractions: 33.3 less 30.3 is 3, not 2.9999999999999964. */
export function changeMm(from: DatedSize, to: DatedSize): number {
  return Number((to.valueMm - from.valueMm).toFixed(9));
}

/** The interval around a value. */
export const intervalAround = (
  value: number,
  halfWidth: number,
  unit: Interval["unit"],
): Interval => ({ value, low: value - halfWidth, high: value + halfWidth, unit });

/**
 * Change from one size to another. Two readings with the same SD differ by chance by up to 1.96 times the square root
 * of 2 times that SD in 95 of 100 pairs; a possible shift of one against the other comes on top.
 */
export function sizeChange(from: ReadSize, to: ReadSize, offset: Offset | null): Interval {
  const fromError = normalQuantile975 * Math.hypot(from.sdMm, to.sdMm);
  return intervalAround(changeMm(from, to), fromError + (offset?.highMm ?? 0), "mm");
}

/** Change and yearly rate between neighbouring sizes, earliest first. Sizes of one day make no interval. */
export function growthIntervals(sizes: readonly ComparedSize[]): GrowthInterval[] {
  return sizes.flatMap((to, index) => {
    const from = sizes[index - 1];
    const days = from ? daysBetween(from.date, to.date) : 0;
    if (!from || days === 0) return [];
    const change = sizeChange(from, to, to.offsetFromBefore);
    const years = days / daysPerYear;
    const rate =
      days < shortestAnnualisedDays
        ? null
        : intervalAround(change.value / years, (change.high - change.value) / years, "mm/a");
    return { from: from.date, to: to.date, days, change, rate };
  });
}

/**
 * Rate over all sizes, earliest first: a straight line (`straightLine`), each size weighted by its own reading error.
 * `method` says in words where the 95 % interval comes from, or why there is no rate.
 */
export function growthRate(sizes: readonly ReadSize[]): { rate: Interval | null; method: string } {
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
  const line = straightLine(sizes);
  if (!line) throw new Error("no line through sizes of different days");
  const { value, halfWidth } = line.estimate([0, 1]);
  const method = `${methodWords(sizes, line.scatter)}${offsetsInWords(sizes)}`;
  return { rate: intervalAround(value, halfWidth, "mm/a"), method };
}

function methodWords(sizes: readonly ReadSize[], scatter: Scatter): string {
  const sds = [...new Set(sizes.map(({ sdMm }) => sdMm))].toSorted((a, b) => a - b);
  const range =
    sds.length === 1 ? `${sds[0]} mm` : `${sds[0]} to ${sds.at(-1)} mm, each exam its own`;
  const error = `a reading error of SD ${range}`;
  const { degreesOfFreedom, isLarger } = scatter;
  if (degreesOfFreedom === 0) return `two exams; 95 % interval from ${error}`;
  const line = `straight line through ${sizes.length} exams`;
  const freedom = degreesOfFreedom === 1 ? "1 degree" : `${degreesOfFreedom} degrees`;
  const test = `chi-squared ${scatter.chiSquared.toFixed(1)}, ${freedom} of freedom`;
  return isLarger
    ? `${line}; 95 % interval from the scatter about it, which is larger than ${error} explains (${test})`
    : `${line}; 95 % interval from ${error}, which explains the scatter about it (${test})`;
}

function offsetsInWords(sizes: readonly ReadSize[]): string {
  const shifts = sizes.flatMap(({ offset }) =>
    offset === null ? [] : [`a possible shift of ${rangeInWords(offset)}, ${offset.source}`],
  );
  return shifts.length === 0 ? "" : `; widened by ${[...new Set(shifts)].join(", and by ")}`;
}
