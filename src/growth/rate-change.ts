import { intervalAround, shortestAnnualisedDays } from "./growth-rate.ts";
import { daysBetween } from "../quantities/days-between.ts";
import { type ReadSize, sizeModel, yearsBetween } from "./growth-line.ts";
import { fixed } from "./number-words.ts";

/** Whether a place grew faster or slower lately than before, seen through the reading error. */
export interface RateChange {
  answer: "faster lately" | "slower lately" | "no change that can be told" | "too few exams";
  sentence: string;
}

const fewestExams = 4;

/**
 * Compares the rate since the last exam but one with the rate before it: two straight lines that meet at that exam, fitted
 * together. The late line begins at the latest exam that lies half a year or more before the last one. The 95 % interval
 * of the difference of the two rates, widened like that of the rate itself, must leave out 0. Sizes are comparable, earliest
 * first; at least four, of which two before the bend, half a year or more apart.
 */
export function rateChange(sizes: readonly ReadSize[]): RateChange {
  const first = sizes[0];
  const last = sizes.at(-1);
  const bend = sizes.findLast(
    ({ date }) => daysBetween(date, last?.date ?? date) >= shortestAnnualisedDays,
  );
  const isEnough =
    first &&
    last &&
    bend &&
    sizes.length >= fewestExams &&
    daysBetween(first.date, bend.date) >= shortestAnnualisedDays;
  if (!isEnough) {
    return {
      answer: "too few exams",
      sentence:
        "Whether the growth is changing can't be told: it takes four comparable exams, half a year or more apart before and after the bend.",
    };
  }
  const yearsToBend = yearsBetween(first.date, bend.date);
  const model = sizeModel(sizes, (years) => [1, years, Math.max(0, years - yearsToBend)]);
  if (!model) throw new Error("no bent line through sizes of different days");
  const early = model.estimate([0, 1, 0]).value;
  const late = model.estimate([0, 1, 1]).value;
  const { value, halfWidth } = model.estimate([0, 0, 1]);
  const { low, high } = intervalAround(value, halfWidth, "mm/a");
  const answer =
    low > 0 ? "faster lately" : high < 0 ? "slower lately" : "no change that can be told";
  const sentence =
    `${fixed(late)} mm per year since ${bend.date}, ${fixed(early)} before; ` +
    `difference ${fixed(value)} (95 % ${fixed(low)} to ${fixed(high)}): ${answer}.`;
  return { answer, sentence };
}
