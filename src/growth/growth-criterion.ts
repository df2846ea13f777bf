import { daysBetween } from "../quantities/days-between.ts";
import type { LimitCheck } from "../guidelines/rule.ts";
import { holds } from "../quantities/limit.ts";
import { type DatedSize, daysPerYear } from "./growth-line.ts";
import { changeMm } from "./growth-rate.ts";
import { fixedBeside } from "./number-words.ts";

/** A growth criterion evaluated on the sizes as read, without their error. */
export interface CriterionResult {
  outcome: "met" | "not-met" | "not-assessable";
  reason: string;
}

interface ExamPair {
  from: DatedSize;
  to: DatedSize;
  days: number;
  changeMm: number;
}

const daysPerMonth = daysPerYear / 12;
/** Nine calendar months have 273 to 276 days. */
const calendarSlackDays = 3;

/**
 * Evaluates a rule of growth in one period, or in two that follow each other. Printed limits are changes over about
 * one period; exams count as one period apart from three quarters of it to one and a half (9 to 18 months for one
 * year), and their change is scaled to the period unless they are within half a month of it. The latest such exams
 * decide. A change that reaches the limit in less time has reached it within the period, and needs no scaling.
 */
export function growthCriterion(
  check: LimitCheck,
  periodMonths: number,
  sizes: readonly DatedSize[],
): CriterionResult {
  const pairs = sizes.flatMap((to, index) =>
    sizes.slice(0, index).map((from): ExamPair => pairOf(from, to)),
  );
  return check.kind === "growth-in-two-periods"
    ? twoPeriods(check, periodMonths, pairs)
    : onePeriod(check, periodMonths, pairs);
}

const pairOf = (from: DatedSize, to: DatedSize): ExamPair => ({
  from,
  to,
  days: daysBetween(from.date, to.date),
  changeMm: changeMm(from, to),
});

function onePeriod(
  check: LimitCheck,
  periodMonths: number,
  pairs: readonly ExamPair[],
): CriterionResult {
  const apart = pairs.filter((pair) => isOnePeriod(pair, periodMonths));
  const sooner = pairs.filter(
    (pair) => isShorter(pair, periodMonths) && pair.days > 0 && reaches(check, pair.changeMm),
  );
  const latest = [...apart, ...sooner].toSorted(
    (a, b) =>
      b.to.date.localeCompare(a.to.date) ||
      distanceFromPeriod(a, periodMonths) - distanceFromPeriod(b, periodMonths),
  )[0];
  if (!latest) {
    return {
      outcome: "not-assessable",
      reason: `no pair of comparable exams about ${periodWords(periodMonths)} apart`,
    };
  }
  const change = inWords(check, periodMonths, latest);
  if (isShorter(latest, periodMonths)) {
    const reason = `${change}, the limit reached in less than ${periodWords(periodMonths)}`;
    return { outcome: "met", reason };
  }
  const outcome = reaches(check, changePerPeriodMm(latest, periodMonths)) ? "met" : "not-met";
  return { outcome, reason: change };
}

function twoPeriods(
  check: LimitCheck,
  periodMonths: number,
  pairs: readonly ExamPair[],
): CriterionResult {
  const apart = pairs.filter((pair) => isOnePeriod(pair, periodMonths));
  const chains = apart.flatMap((second) =>
    apart.filter(({ to }) => to === second.from).map((first) => [first, second] as const),
  );
  const distance = ([first, second]: (typeof chains)[number]) =>
    distanceFromPeriod(first, periodMonths) + distanceFromPeriod(second, periodMonths);
  const latest = chains.toSorted(
    (a, b) => b[1].to.date.localeCompare(a[1].to.date) || distance(a) - distance(b),
  )[0];
  if (!latest) {
    const exam = periodMonths === 12 ? "yearly exam" : `exam every ${periodMonths} months`;
    return {
      outcome: "not-assessable",
      reason: `${exam} missing: three comparable exams are needed, each about ${periodWords(periodMonths)} after the one before`,
    };
  }
  const isMet = latest.every((pair) => reaches(check, changePerPeriodMm(pair, periodMonths)));
  return {
    outcome: isMet ? "met" : "not-met",
    reason: latest.map((pair) => inWords(check, periodMonths, pair)).join("; then "),
  };
}

function isOnePeriod({ days }: ExamPair, periodMonths: number): boolean {
  const longest = periodMonths * daysPerMonth * 1.5 + calendarSlackDays;
  return days >= shortestPeriodDays(periodMonths) && days <= longest;
}

const isShorter = ({ days }: ExamPair, periodMonths: number): boolean =>
  days < shortestPeriodDays(periodMonths);

const shortestPeriodDays = (periodMonths: number): number =>
  periodMonths * daysPerMonth * 0.75 - calendarSlackDays;

const distanceFromPeriod = ({ days }: ExamPair, periodMonths: number): number =>
  Math.abs(days - periodMonths * daysPerMonth);

const isScaled = (pair: ExamPair, periodMonths: number): boolean =>
  distanceFromPeriod(pair, periodMonths) > daysPerMonth / 2;

function changePerPeriodMm(pair: ExamPair, periodMonths: number): number {
  if (!isScaled(pair, periodMonths)) return pair.changeMm;
  return (pair.changeMm * periodMonths * daysPerMonth) / pair.days;
}

const reaches = ({ operator, value }: LimitCheck, growthMm: number): boolean =>
  holds(growthMm, operator, value);

const periodWords = (months: number): string => (months === 12 ? "one year" : `${months} months`);

/** "4.0 mm in 300 days (2024-01-10 to 2024-11-05), 4.9 mm scaled to one year". */
function inWords(check: LimitCheck, periodMonths: number, pair: ExamPair): string {
  const change = `${fixedBeside(pair.changeMm, check.value)} mm in ${pair.days} days (${pair.from.date} to ${pair.to.date})`;
  if (isShorter(pair, periodMonths) || !isScaled(pair, periodMonths)) return change;
  const scaled = fixedBeside(changePerPeriodMm(pair, periodMonths), check.value);
  return `${change}, ${scaled} mm scaled to ${periodWords(periodMonths)}`;
}
