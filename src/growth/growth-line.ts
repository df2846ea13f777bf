import { daysBetween } from "../quantities/days-between.ts";
import { chiSquaredProbability } from "../statistics/chi-squared.ts";
import { normalQuantile975 } from "../statistics/normal-quantile.ts";
import { studentTQuantile } from "../statistics/student-t.ts";
import { weightedFit } from "../statistics/weighted-fit.ts";
import type { Offset } from "./comparability-offsets.ts";

/** The size of a place on one day. */
export interface DatedSize {
  /** YYYY-MM-DD. */
  date: string;
  valueMm: number;
}

/** A size of a series with its own reading error, and how far it may be shifted against the last one. */
export interface ReadSize extends DatedSize {
  /** Standard deviation of this reading. */
  sdMm: number;
  offset: Offset | null;
}

/** A number with the half-width of its 95 % interval. */
interface Estimate {
  value: number;
  halfWidth: number;
}

/** How far the sizes lie from the model, against what their reading errors explain. */
export interface Scatter {
  chiSquared: number;
  degreesOfFreedom: number;
  /** True where 95 of 100 series with these reading errors scatter less. */
  isLarger: boolean;
}

export interface SizeModel {
  scatter: Scatter;
  /** A sum of the coefficients, each times the number of `row`. */
  estimate: (row: readonly number[]) => Estimate;
}

export const daysPerYear = 365.25;

export function yearsBetween(from: string, to: string): number {
  return daysBetween(from, to) / daysPerYear;
}

/** Share of series with the reading errors as stated whose scatter is taken for larger by chance. */
const chanceOfLarger = 0.05;

/**
 * Fits sizes, earliest first, by weighted least squares; `rowOf` gives the row of the design for the years since the
 * first size. Null where the sizes do not fix the coefficients.
 *
 * The reading errors are known beforehand, so 95 % intervals are those of the normal distribution. Only where the
 * residuals are larger than the errors explain, by the chi-squared test at 5 %, the scatter itself gives the interval, by
 * Student's t, and never a narrower one. As slope and residuals are independent this leaves the interval at 95 % where
 * the errors are as stated: `tests/bench/calibration.ts`. Every coefficient is a sum of the sizes, each times its weight.
 * So sizes that may be shifted move it by at most the sum of their largest shifts, each times its weight without sign: by
 * that the interval is widened at both ends.
 */
export function sizeModel(
  sizes: readonly ReadSize[],
  rowOf: (years: number) => number[],
): SizeModel | null {
  const [first] = sizes;
  if (!first) return null;
  const fit = weightedFit(
    sizes.map(({ date, valueMm, sdMm }) => ({
      row: rowOf(yearsBetween(first.date, date)),
      value: valueMm,
      sd: sdMm,
    })),
  );
  if (!fit) return null;
  const { chiSquared, degreesOfFreedom } = fit;
  const isLarger =
    degreesOfFreedom > 0 &&
    chiSquaredProbability(chiSquared, degreesOfFreedom) > 1 - chanceOfLarger;
  const reach = isLarger
    ? Math.max(
        normalQuantile975,
        studentTQuantile(0.975, degreesOfFreedom) * Math.sqrt(chiSquared / degreesOfFreedom),
      )
    : normalQuantile975;
  return {
    scatter: { chiSquared, degreesOfFreedom, isLarger },
    estimate: (row) => {
      const { value, standardError, weights } = fit.combination(row);
      const fromShifts = sizes.reduce(
        (sum, { offset }, index) => sum + Math.abs(weights[index] ?? 0) * (offset?.highMm ?? 0),
        0,
      );
      return { value, halfWidth: reach * standardError + fromShifts };
    },
  };
}

/** A straight line through sizes: coefficients are the size at the first one and the yearly rate. */
export function straightLine(sizes: readonly ReadSize[]): SizeModel | null {
  return sizeModel(sizes, (years) => [1, years]);
}
