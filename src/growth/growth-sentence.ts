import { sentenceCase } from "../quantities/sentence-case.ts";
import { daysBetween } from "../quantities/days-between.ts";
import type { EdgeId, LumenId, StatisticId } from "../quantities/measured-quantity.ts";
import type { GrowthAnswer, LimitAnswer } from "./growth-answers.ts";
import { type DatedSize, daysPerYear, type Interval, sizeChange } from "./growth-rate.ts";
import type { GrowthSeries } from "./growth-series.ts";
import { fixed } from "./number-words.ts";
import type { ReadingError } from "./reading-error.ts";

const statisticWords: Record<StatisticId, string> = {
  maximum: "maximum diameter",
  minimum: "minimum diameter",
  mean: "mean diameter",
  unstated: "diameter",
};

const lumenWords: Record<LumenId, string> = {
  whole: "whole lumen, ",
  true: "true lumen, ",
  false: "false lumen, ",
  unstated: "",
};

const edgeWords: Record<EdgeId, string> = {
  inner: "inner edge",
  outer: "outer edge",
  unstated: "edge not stated",
};

const answerWords: Record<LimitAnswer, string> = {
  exceeds: "exceeds",
  "does-not-exceed": "does not exceed",
  "cannot-tell": "cannot tell",
};

/** The change of one series in one sentence: place, sizes, dates, rate with its interval, and the answer to each limit. */
export function growthSentence(
  { place, statistic, lumen, points }: GrowthSeries,
  sizes: readonly DatedSize[],
  { rate, method }: { rate: Interval | null; method: string },
  error: ReadingError,
  answers: readonly GrowthAnswer[],
): string {
  const edge = points.findLast(({ comparable }) => comparable)?.edge ?? "unstated";
  const name = sentenceCase(place.label);
  const subject = `${name}, ${statisticWords[statistic]}, ${lumenWords[lumen]}${edgeWords[edge]}`;
  const first = sizes[0];
  const last = sizes.at(-1);
  if (!first || !last || sizes.length < 2) return `${subject}: ${method}.`;
  const sized = `${fixed(first.valueMm)} to ${fixed(last.valueMm)} mm from ${first.date} to ${last.date}`;
  const time = timeWords(daysBetween(first.date, last.date));
  const rateWords =
    rate === null
      ? `change ${withInterval(sizeChange(first, last, error), "mm")}; ${method}`
      : withInterval(rate, "mm per year");
  return [
    `${subject}: ${sized} (${time}${examWords(sizes.length, points.length)})`,
    rateWords,
    ...limitWords(answers),
  ]
    .join("; ")
    .concat(".");
}

function timeWords(days: number): string {
  return days < daysPerYear ? `${days} days` : `${(days / daysPerYear).toFixed(1)} years`;
}

function examWords(used: number, all: number): string {
  if (used < all) return `, ${used} of ${all} exams`;
  return used > 2 ? `, ${used} exams` : "";
}

const withInterval = ({ value, low, high }: Interval, unit: string): string =>
  `${fixed(value)} ${unit} (95 % ${fixed(low)} to ${fixed(high)})`;

/** One clause for each limit, with all bodies that print it; criteria that are not for the patient are left out. */
function limitWords(answers: readonly GrowthAnswer[]): string[] {
  const inForce = answers.filter(({ outcome }) => outcome !== "not-applicable");
  const byLimit = [...Map.groupBy(inForce, ({ limitMmPerYear }) => limitMmPerYear)];
  return byLimit
    .toSorted(([a], [b]) => a - b)
    .flatMap(([limit, group]) => {
      const [{ answer } = { answer: null }] = group;
      if (answer === null) return [];
      const sources = [...new Set(group.map(({ body, year }) => `${body} ${year}`))].join(", ");
      return `against ${limit} mm per year (${sources}): ${answerWords[answer]}`;
    });
}
