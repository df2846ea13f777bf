import cdf from "@stdlib/stats-base-dists-chisquare-cdf";
import quantile from "@stdlib/stats-base-dists-chisquare-quantile";

/** Probability that a chi-squared variable with `degreesOfFreedom`, at least 1, lies below `value`. */
export function chiSquaredProbability(value: number, degreesOfFreedom: number): number {
  return cdf(value, degreesOfFreedom);
}

/** The value that a chi-squared variable stays below with this probability, between 0 and 1. */
export function chiSquaredQuantile(probability: number, degreesOfFreedom: number): number {
  return quantile(probability, degreesOfFreedom);
}
