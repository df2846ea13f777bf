import { sentenceCase } from "../../quantities/sentence-case.ts";
import { growthChart } from "../charts/growth-chart.ts";
import { formatError, formatLimit, formatNumber, formatUnit } from "../format.ts";
import { outcomeMark, type OutcomeMark } from "../outcome-mark.ts";
import type { Plan, PlanGrowth } from "../plan.ts";
import { repairDatesAt } from "../repairs-at.ts";
import { answersInForce, answerWord, byDecision } from "./decisive-growth.ts";
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

function viewOf(growth: PlanGrowth, plan: Plan, id: string): GrowthView {
  const limits = seriesLimits(plan, growth);
  const { svg, caption } = growthChart(growth, limits, repairDatesAt(plan, growth.place), {
    id,
    ...chartSize,
  });
  const { lowSdMm, highSdMm, source } = growth.readingError;
  const sd =
    lowSdMm === highSdMm
      ? formatNumber(lowSdMm)
      : `${formatNumber(lowSdMm)} to ${formatNumber(highSdMm)}`;
  const unit = growth.rate === null ? "" : `, ${formatUnit(growth.rate.unit)}`;
  return {
    heading: seriesName(growth),
    method: `${growth.quantity}, ${growth.statistic}, ${lumenWords(growth.lumen)}${unit}`,
    drawing: { markup: svg },
    caption,
    sentence: sentenceCase(growth.sentence),
    answers: answersInForce(growth).map(
      ({ body, year, limitMmPerYear, answer, outcome, reason }) => ({
        source: `${body} ${year}`,
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
      `Reading error of one reading: SD ${sd} mm (${source}).`,
      ...growth.comparability.map((note) => `${sentenceCase(note)}.`),
    ],
  };
}

/** All series, most decisive first. */
export function growthViews(plan: Plan, idPrefix: string): GrowthView[] {
  return byDecision(plan.growth).map((growth, index) =>
    viewOf(growth, plan, `${idPrefix}growth-${index + 1}`),
  );
}
