import type { RegionId } from "../anatomy/places.ts";
import { chiSquaredQuantile } from "../statistics/chi-squared.ts";
import type { DoubleReading } from "./double-readings.ts";

/** Standard deviation of one diameter reading in mm, estimated from double readings, with its 95 % interval. */
export interface ReadingErrorEstimate {
  /** The part of the aorta that was read twice; null for all together. */
  region: RegionId | null;
  pairs: number;
  sdMm: number;
  lowSdMm: number;
  highSdMm: number;
}

/** With 10 pairs the 95 % interval of the standard deviation goes from 0.70 to 1.75 times its value; with fewer it is wider. */
export const fewestPairs = 10;

/**
 * Estimates for all readings together, and for each part of the aorta with enough pairs. One reading has the standard
 * deviation sqrt(mean(d²) / 2); the sum of d² over twice its variance is chi-squared with one degree of freedom for each pair.
 * No mean is taken off, so a steady difference between two readers counts as error. Empty under ten pairs, and where all
 * pairs are equal.
 */
export function estimateReadingErrors(pairs: readonly DoubleReading[]): ReadingErrorEstimate[] {
  const byRegion = [...Map.groupBy(pairs, ({ place }) => place.region)].filter(
    ([region]) => region !== null,
  );
  return [[null, pairs] as const, ...byRegion].flatMap(([region, group]) => {
    const estimate = estimateOf(region, group);
    return estimate ? [estimate] : [];
  });
}

/** The estimate for a part of the aorta, else the one for all together, else null. */
export function estimateFor(
  estimates: readonly ReadingErrorEstimate[],
  region: RegionId | null,
): ReadingErrorEstimate | null {
  return (
    estimates.find((one) => one.region === region) ??
    estimates.find((one) => one.region === null) ??
    null
  );
}

function estimateOf(
  region: RegionId | null,
  pairs: readonly DoubleReading[],
): ReadingErrorEstimate | null {
  const sumOfSquares = pairs.reduce((sum, { differenceMm }) => sum + differenceMm ** 2, 0);
  if (pairs.length < fewestPairs || sumOfSquares === 0) return null;
  const sdFor = (divisor: number): number => Math.sqrt(sumOfSquares / 2 / divisor);
  return {
    region,
    pairs: pairs.length,
    sdMm: sdFor(pairs.length),
    lowSdMm: sdFor(chiSquaredQuantile(0.975, pairs.length)),
    highSdMm: sdFor(chiSquaredQuantile(0.025, pairs.length)),
  };
}
