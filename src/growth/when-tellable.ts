import { daysPerYear, type ReadSize, straightLine, yearsBetween } from "./growth-line.ts";
import { growthRate, type Interval } from "./growth-rate.ts";

const longestMonths = 120;
const millisecondsPerDay = 86_400_000;

/** A date so many days after another, both YYYY-MM-DD. */
export function daysAfter(date: string, days: number): string {
  return new Date(Date.parse(date) + days * millisecondsPerDay).toISOString().slice(0, 10);
}

/** Days after which a number of average months is over. */
export const daysOfMonths = (months: number): number => Math.ceil((months * daysPerYear) / 12);

/**
 * How many months after the last exam one more exam would tell on which side of the limit the rate lies, if it shows growth
 * at the rate so far, and is read with the error of the last one: the smallest whole number for which the 95 % interval of the
 * rate over all exams leaves the limit out. Null where there is no rate, and beyond 120 months: then the rate is too near
 * to the limit.
 */
export function tellableInMonths(
  sizes: readonly ReadSize[],
  isTold: (rate: Interval) => boolean,
): number | null {
  const first = sizes[0];
  const last = sizes.at(-1);
  const line = straightLine(sizes);
  if (!first || !last || !line || growthRate(sizes).rate === null) return null;
  for (let months = 1; months <= longestMonths; months++) {
    const date = daysAfter(last.date, daysOfMonths(months));
    const valueMm = line.estimate([1, yearsBetween(first.date, date)]).value;
    const { rate } = growthRate([
      ...sizes,
      { date, valueMm, sdMm: last.sdMm, offset: last.offset },
    ]);
    if (rate !== null && isTold(rate)) return months;
  }
  return null;
}
