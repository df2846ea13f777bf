import { sentenceCase } from "../../quantities/sentence-case.ts";
import { growthChart } from "../charts/growth-chart.ts";
import { formatError, formatLimit, formatNumber, formatUnit, notConfirmed } from "../format.ts";
import { outcomeMark, type OutcomeMark } from "../outcome-mark.ts";
import type { Plan, PlanGrowth } from "../plan.ts";
import { repairDatesAt } from "../repairs-at.ts";
import { answersInForce, answerWord, byDecision } from "./decisive-growth.ts";
import { projectionWords } from "./projection-words.ts";
import { seriesLimits, seriesName } from "./series-words.ts";

export interface GrowthView {
  heading: string;
  method: string;
  drawing: { markup: string };
  caption: string;
  sentence: string;
  answers: { source: string; limit: string; answer: string; mark: OutcomeMark; reason: string }[];
  intervals: { span: string; days: string; change: string; rate: string }[];
  notes: string[];
}

const chartSize = { widthPt: 290, heightPt: 118 };

const lumenWords = (lumen: string): string =>
  lumen === "unstated" ? "lumen not stated" : `${lumen} lumen`;

function intervalText(interval: {
  value: number;
  low: number | null;
  high: number | null;
}): string {
  const error = formatError(interval);
  return `${formatNumber(interval.value)}${error === "" ? "" : ` ${error}`}`;
}

/** "SD 1.5 mm of one reading (stated by the site: …)". */
function errorWords({ lowSdMm, highSdMm, source, basis }: PlanGrowth["readingError"]): string {
  const sd =
    lowSdMm === highSdMm
      ? formatNumber(lowSdMm)
      : `${formatNumber(lowSdMm)} to ${formatNumber(highSdMm)}`;
  return `SD ${sd} mm of one reading, ${basis} (${source})`;
}

/** The reading error in use, and the others on file. */
function errorsNote({ readingError, otherReadingErrors }: PlanGrowth): string {
  const others = otherReadingErrors.map((error) => `Also on file: ${errorWords(error)}.`);
  return [`${errorWords(readingError)}.`, ...others].join(" ");
}

function viewOf(
  growth: PlanGrowth,
  { plan, errors, id }: { plan: Plan; errors: readonly string[]; id: string },
): GrowthView {
  const limits = seriesLimits(plan, growth);
  const { svg, caption } = growthChart(growth, limits, repairDatesAt(plan, growth.place), {
    id,
    ...chartSize,
  });
  const projected = projectionWords(growth.projections);
  const unit = growth.rate === null ? "" : `, ${formatUnit(growth.rate.unit)}`;
  return {
    heading: seriesName(growth),
    method: `${growth.quantity}, ${growth.statistic}, ${lumenWords(growth.lumen)}${unit}`,
    drawing: { markup: svg },
    caption,
    sentence: sentenceCase(growth.sentence),
    answers: answersInForce(growth).map(
      ({ body, year, confirmed, limitMmPerYear, answer, outcome, reason }) => ({
        source: `${body} ${year}${confirmed ? "" : `, ${notConfirmed}`}`,
        limit: `${formatLimit(limitMmPerYear)} mm per year`,
        answer: answerWord(answer),
        mark: outcomeMark(outcome),
        reason,
      }),
    ),
    intervals: growth.intervals.map(({ from, to, days, change, rate }) => ({
      span: `${from} to ${to}`,
      days: String(days),
      change: intervalText(change),
      rate: rate === null ? "too short" : intervalText(rate),
    })),
    notes: [
      `Rate: ${growth.rateMethod}.`,
      ...(growth.rateChange.answer === "too few exams" ? [] : [growth.rateChange.sentence]),
      ...(projected === null ? [] : [projected]),
      `Reading error [${errors.indexOf(errorsNote(growth)) + 1}].`,
      ...growth.comparability.map((note) => `${sentenceCase(note)}.`),
    ],
  };
}

/** All series, most decisive first, and the numbered reading errors that they stand on. */
export function growthViews(
  plan: Plan,
  idPrefix: string,
): { growth: GrowthView[]; readingErrors: { note: number; text: string }[] } {
  const series = byDecision(plan.growth);
  const errors = [...new Set(series.map(errorsNote))];
  return {
    growth: series.map((growth, index) =>
      viewOf(growth, { plan, errors, id: `${idPrefix}growth-${index + 1}` }),
    ),
    readingErrors: errors.map((text, index) => ({ note: index + 1, text })),
  };
}
