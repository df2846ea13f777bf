import type { PlanGrowth } from "../plan.ts";

const dayMs = 86_400_000;
const daysInYear = 365.25;

/** Years from one calendar date to another. */
export function yearsBetween(from: string, to: string): number {
  return (Date.parse(to) - Date.parse(from)) / dayMs / daysInYear;
}

const mean = (numbers: number[]): number =>
  numbers.reduce((sum, number) => sum + number, 0) / numbers.length;

/** The fitted line and its band at one date, in mm. */
export interface FitAt {
  date: string;
  valueMm: number;
  lowMm: number;
  highMm: number;
}

/**
 * The fitted line at the first and last comparable exam and at their mean date: through the mean of the comparable
 * readings with the reported rate; the band takes the ends of the rate's interval. Empty where no rate is reported.
 */
export function fittedBand({ rate, points }: PlanGrowth): FitAt[] {
  const comparable = points.filter((point) => point.comparable);
  const first = comparable.at(0);
  const last = comparable.at(-1);
  if (rate === null || !first || !last || first === last) return [];
  const readings = comparable.flatMap(({ date, values }) => {
    const years = yearsBetween(first.date, date);
    return values.map((value) => ({ years, value }));
  });
  const meanYears = mean(readings.map(({ years }) => years));
  const meanMm = mean(readings.map(({ value }) => value));
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
