import { sentenceCase } from "../quantities/sentence-case.ts";
import { daysBetween } from "../quantities/days-between.ts";
import type {
  EdgeId,
  LumenId,
  PhaseId,
  PlaneId,
  StatisticId,
} from "../quantities/measured-quantity.ts";
import { isCompared } from "./comparability.ts";
import { type Offset, rangeInWords } from "./comparability-offsets.ts";
import type { GrowthAnswer, LimitAnswer } from "./growth-answers.ts";
import { daysPerYear } from "./growth-line.ts";
import { type ComparedSize, type Interval, sizeChange } from "./growth-rate.ts";
import type { GrowthSeries, JudgedPoint } from "./growth-series.ts";
import { fixed } from "./number-words.ts";
import type { RateChange } from "./rate-change.ts";

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

const planeWords: Record<PlaneId, string> = {
  perpendicular: ", perpendicular plane",
  axial: ", axial plane",
  unstated: "",
};

const phaseWords: Record<PhaseId, string> = {
  systole: ", systole",
  diastole: ", diastole",
  unstated: "",
};

const answerWords: Record<LimitAnswer, string> = {
  exceeds: "exceeds",
  "does-not-exceed": "does not exceed",
  "cannot-tell": "cannot tell",
};

/** The change of one series in one sentence: place, sizes, dates, rate with its interval, and the answer to each limit. */
export function growthSentence(
  { place, statistic, lumen, wall, points }: GrowthSeries,
  sizes: readonly ComparedSize[],
  { rate, method, change }: { rate: Interval | null; method: string; change: RateChange },
  answers: readonly GrowthAnswer[],
): string {
  const subject = [
    sentenceCase(place.label),
    statisticWords[statistic],
    `${lumenWords[lumen]}${wayWords(points.findLast(isCompared))}`,
    ...(wall === null ? [] : [wall]),
  ].join(", ");
  const first = sizes[0];
  const last = sizes.at(-1);
  if (!first || !last || sizes.length < 2) return `${subject}: ${method}.`;
  const sized = `${fixed(first.valueMm)} to ${fixed(last.valueMm)} mm from ${first.date} to ${last.date}`;
  const time = timeWords(daysBetween(first.date, last.date));
  const rateWords =
    rate === null
      ? `change ${withInterval(sizeChange(first, last, first.offset), "mm", [first])}; ${method}`
      : withInterval(rate, "mm per year", sizes);
  const isChanging = change.answer === "faster lately" || change.answer === "slower lately";
  return [
    `${subject}: ${sized} (${time}${examWords(sizes.length, points.length)})`,
    rateWords,
    ...(isChanging ? [change.answer] : []),
    ...limitWords(answers),
  ]
    .join("; ")
    .concat(".");
}

/** How the last size of the series was taken. */
function wayWords(last: JudgedPoint | undefined): string {
  if (!last) return edgeWords.unstated;
  return `${edgeWords[last.edge]}${planeWords[last.plane]}${phaseWords[last.phase]}`;
}

function timeWords(days: number): string {
  return days < daysPerYear ? `${days} days` : `${(days / daysPerYear).toFixed(1)} years`;
}

function examWords(used: number, all: number): string {
  if (used < all) return `, ${used} of ${all} exams`;
  return used > 2 ? `, ${used} exams` : "";
}

function withInterval(
  { value, low, high }: Interval,
  unit: string,
  sizes: readonly ComparedSize[],
): string {
  const ends = `95 % ${fixed(low)} to ${fixed(high)}`;
  return `${fixed(value)} ${unit} (${[ends, ...wideningWords(sizes)].join(", ")})`;
}

function wideningWords(sizes: readonly ComparedSize[]): string[] {
  const offsets = sizes.flatMap(({ offset }): Offset[] => (offset === null ? [] : [offset]));
  const [largest] = offsets.toSorted((a, b) => b.highMm - a.highMm);
  return largest ? [`widened by a possible shift of ${rangeInWords(largest)}`] : [];
}

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
