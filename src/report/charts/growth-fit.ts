import type { PlanGrowth } from "../plan.ts";

const dayMs = 86_400_000;
const daysInYear = 365.25;

/** Years from one calendar date to another. */
export function yearsBetween(from: string, to: string): number {
  return (Date.parse(to) - Date.parse(from)) / dayMs / daysInYear;
}

const weightedMean = (numbers: [value: number, weight: number][]): number =>
  numbers.reduce((sum, [value, weight]) => sum + value * weight, 0) /
  numbers.reduce((sum, [, weight]) => sum + weight, 0);

/** True where a point stands in its series, with or without a possible shift. */
export function isComparedPoint({
  comparability,
}: Pick<PlanGrowth["points"][number], "comparability">): boolean {
  return comparability !== "not-comparable";
}

/** The fitted line and its band at one date, in mm. */
export interface FitAt {
  date: string;
  valueMm: number;
  lowMm: number;
  highMm: number;
}

/**
 * The fitted line at the first and last comparable exam and at their mean date: through the mean of the comparable
 * readings, weighted by their errors, with the reported rate; the band takes the ends of the rate's interval. Empty where no rate is reported.
 */
export function fittedBand({ rate, points }: PlanGrowth): FitAt[] {
  const comparable = points.filter(isComparedPoint);
  const first = comparable.at(0);
  const last = comparable.at(-1);
  if (rate === null || !first || !last || first === last) return [];
  const readings = comparable.flatMap(({ date, values, sdMm }) => {
    const years = yearsBetween(first.date, date);
    return values.map((value) => ({ years, value, weight: 1 / sdMm ** 2 }));
  });
  const meanYears = weightedMean(readings.map(({ years, weight }) => [years, weight]));
  const meanMm = weightedMean(readings.map(({ value, weight }) => [value, weight]));
  const low = rate.low ?? rate.value;
  const high = rate.high ?? rate.value;
  const at = (date: string, years: number): FitAt => {
    const ends = [meanMm + low * (years - meanYears), meanMm + high * (years - meanYears)];
    return {
      date,
      valueMm: meanMm + rate.value * (years - meanYears),
      lowMm: Math.min(...ends),
      highMm: Math.max(...ends),
    };
  };
  const meanMs = Date.parse(first.date) + meanYears * daysInYear * dayMs;
  return [
    at(first.date, 0),
    at(new Date(meanMs).toISOString(), meanYears),
    at(last.date, yearsBetween(first.date, last.date)),
  ];
}
