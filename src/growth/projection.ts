import type { Assessment } from "../guidelines/assessment.ts";
import { daysBetween } from "../quantities/days-between.ts";
import { holds } from "../quantities/limit.ts";
import { isCompared } from "./comparability.ts";
import type { Growth } from "./growth.ts";
import { isAskedFor } from "./growth-answers.ts";
import { daysPerYear, type ReadSize, straightLine, yearsBetween } from "./growth-line.ts";
import { fixed } from "./number-words.ts";
import { type SizeLimit, sizeLimitsOfPlace } from "./size-limits-of-place.ts";
import { daysAfter } from "./when-tellable.ts";

/** When the true size of a place reaches a limit, if it goes on growing along the fitted straight line. Dates are YYYY-MM-DD. */
export interface Projection extends SizeLimit {
  answer:
    | "already at or over"
    | "between"
    | "not before"
    | "not within the horizon"
    | "no projection";
  /** Where the upper end of the 95 % band of the line reaches the limit: for "between" and "not before". */
  earliest: string | null;
  /** Where its lower end does: for "between". */
  latest: string | null;
  /** Last day that is projected to; null where nothing is. */
  horizon: string | null;
  sentence: string;
}

/** The part of a growth series that a projection stands on. */
export type ProjectedSeries = Pick<
  Growth,
  "points" | "rate" | "rateMethod" | "rateChange" | "wall"
>;

/** Projections for the diameter limits that concern the place of a series; none where criteria ask for another diameter. */
export function projections(
  growth: Growth,
  assessments: readonly Assessment[],
  asOf: string,
): Projection[] {
  if (!isAskedFor(growth)) return [];
  return projectSizes(growth, sizeLimitsOfPlace(growth.place, assessments), asOf);
}

/**
 * Carries the fitted line of a series on to each limit. The band holds the true size on the line, with the errors of slope
 * and height; it says nothing of a single new reading. Nothing is projected further beyond the last comparable exam than
 * the comparable exams span, nor where the straight line can't stand for what comes: no rate, a line that does not rise,
 * growth that was faster lately, a wall that is not native or unclear. `asOf` is the day of the report.
 */
export function projectSizes(
  series: ProjectedSeries,
  limits: readonly SizeLimit[],
  asOf: string,
): Projection[] {
  const sizes = comparedSizes(series);
  const last = sizes.at(-1);
  const band = bandOf(series, sizes, asOf);
  return limits.map((limit): Projection => {
    const none = { ...limit, earliest: null, latest: null, horizon: null };
    if (last && holds(last.valueMm, ">=", limit.limitMm)) {
      const sentence = `${fixed(last.valueMm)} mm on ${last.date} is at or over ${limit.limitMm} mm already.`;
      return { ...none, answer: "already at or over", sentence };
    }
    if ("reason" in band) {
      const sentence = `No projection to ${limit.limitMm} mm: ${band.reason}.`;
      return { ...none, answer: "no projection", sentence };
    }
    return along(band, limit);
  });
}

/** The band of the fitted line on each day from the last exam to the horizon. */
interface Band {
  days: { date: string; lowMm: number; highMm: number }[];
  lastExam: string;
  horizon: string;
  spanYears: number;
}

function bandOf(
  { rate, rateMethod, rateChange, wall }: ProjectedSeries,
  sizes: readonly ReadSize[],
  asOf: string,
): Band | { reason: string } {
  const first = sizes[0];
  const last = sizes.at(-1);
  const line = straightLine(sizes);
  if (wall !== null)
    return { reason: `published sizes are of a native wall; at this place: ${wall}` };
  if (rate === null || !first || !last || !line) return { reason: rateMethod };
  if (rate.value <= 0) return { reason: "the fitted line does not rise" };
  if (rateChange.answer === "faster lately") {
    return { reason: "the growth was faster lately, a straight line would come too late" };
  }
  const spanDays = daysBetween(first.date, last.date);
  const horizon = daysAfter(last.date, spanDays);
  if (horizon <= asOf) {
    return {
      reason: `the exams carry it to ${horizon}, which is not after the day of this report`,
    };
  }
  const days = Array.from({ length: spanDays + 1 }, (_, day) => {
    const date = daysAfter(last.date, day);
    const { value, halfWidth } = line.estimate([1, yearsBetween(first.date, date)]);
    return { date, lowMm: value - halfWidth, highMm: value + halfWidth };
  });
  return { days, lastExam: last.date, horizon, spanYears: spanDays / daysPerYear };
}

function along({ days, lastExam, horizon, spanYears }: Band, limit: SizeLimit): Projection {
  const { limitMm } = limit;
  const earliest = days.find(({ highMm }) => highMm >= limitMm)?.date ?? null;
  const latest = days.find(({ lowMm }) => lowMm >= limitMm)?.date ?? null;
  const end = `not projected beyond ${horizon}, as the exams span ${spanYears.toFixed(1)} years`;
  const band = "the 95 % band of the straight line";
  const found = { ...limit, earliest, latest, horizon };
  if (earliest === null) {
    const sentence = `Until ${horizon} ${band} stays under ${limitMm} mm; ${end}.`;
    return { ...found, answer: "not within the horizon", sentence };
  }
  const from =
    earliest === lastExam
      ? `${earliest}, the last exam, where it may be reached within the error,`
      : earliest;
  if (latest === null) {
    const sentence = `${limitMm} mm not before ${from} by ${band}; ${end}.`;
    return { ...found, answer: "not before", sentence };
  }
  const sentence = `${limitMm} mm between ${from} and ${latest} by ${band}, if growth stays as it was.`;
  return { ...found, answer: "between", sentence };
}

/** The comparable sizes of a series, each a single value. */
function comparedSizes({ points }: Pick<Growth, "points">): ReadSize[] {
  return points
    .filter((point) => isCompared({ verdict: point.comparability }))
    .map(({ date, values, sdMm, offset }) => ({
      date,
      valueMm: Math.min(...values),
      sdMm,
      offset,
    }));
}
