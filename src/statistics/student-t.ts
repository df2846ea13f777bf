import quantile from "@stdlib/stats-base-dists-t-quantile";

/** Quantile of Student's t distribution; `degreesOfFreedom` above 0, `probability` between 0 and 1. */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  return quantile(probability, degreesOfFreedom);
}
