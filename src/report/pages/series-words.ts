import { sentenceCase } from "../../quantities/sentence-case.ts";
import { isComparedPoint, yearsBetween } from "../charts/growth-fit.ts";
import { formatError, formatLimit, formatNumber, formatUnit, shortPlace } from "../format.ts";
import { limitsInForce, notConfirmedMark, type LimitInForce } from "../limits-in-force.ts";
import type { Plan, PlanGrowth } from "../plan.ts";
import { phaseWord, planeWord } from "../words.ts";
import { answersInForce, answerWord } from "./decisive-growth.ts";

const isPartOfLumen = (lumen: string): boolean => lumen === "true" || lumen === "false";

/** "exceeds 3 mm per year (ESC 2024)" for each limit, most decisive first; bodies with the same limit together. */
function answerTexts(growth: PlanGrowth): string[] {
  const groups = Map.groupBy(
    answersInForce(growth),
    ({ answer, limitMmPerYear }) =>
      `${answerWord(answer)} ${formatLimit(limitMmPerYear)} mm per year`,
  );
  return [...groups].map(([text, answers]) => {
    const bodies = new Set(
      answers.map(
        ({ body, year, confirmed }) => `${body} ${year}${confirmed ? "" : notConfirmedMark}`,
      ),
    );
    return `${text} (${[...bodies].join(", ")})`;
  });
}

/** "Mid-descending aorta", "Zone 3, true lumen, mean": what is followed. */
export function seriesName({ place, lumen, statistic, points, wall }: PlanGrowth): string {
  const name = [sentenceCase(shortPlace(place))];
  if (isPartOfLumen(lumen)) name.push(`${lumen} lumen`);
  if (statistic === "minimum" || statistic === "mean") name.push(statistic);
  const [first] = points;
  if (first && points.every(({ plane }) => plane === "axial")) name.push(planeWord("axial"));
  if (first && first.phase !== "unstated" && points.every(({ phase }) => phase === first.phase)) {
    name.push(phaseWord(first.phase));
  }
  if (wall !== null) name.push(wall);
  return name.join(", ");
}

/** The size limits for a series: criteria speak of the whole aorta, not of one lumen. */
export function seriesLimits(plan: Plan, { place, lumen }: PlanGrowth): LimitInForce[] {
  return isPartOfLumen(lumen) ? [] : limitsInForce(plan, place.id);
}

/** "Mid-descending aorta: exceeds 3 mm per year (ESC 2024)". */
export function seriesHeading(growth: PlanGrowth): string {
  const [answer = "no growth limit compared"] = answerTexts(growth);
  return `${seriesName(growth)}: ${answer}`;
}

/** "not comparable: inner edge on 2024-10-08, outer edge on 2025-10-14": without the size of the shift and its source. */
function leftOutWords({ date, reasons }: PlanGrowth["points"][number]): string {
  const [reason = date] = reasons;
  return `not comparable: ${reason.split(": ")[0]}`;
}

/** "55 mm not before 2026-09-01": the first limit that the line comes near. */
function nearingWords({ limitMm, earliest, latest }: PlanGrowth["projections"][number]): string {
  const limit = `${formatLimit(limitMm)} mm`;
  return latest === null ? `${limit} not before ${earliest}` : `${limit} ${earliest} to ${latest}`;
}

/** "52.1 to 57.4 mm in 3.2 years, 1.7 mm per year (0.2 to 3.2); cannot tell 5 mm per year (…)": the facts of the chart in few words. */
export function seriesSentence(growth: PlanGrowth): string {
  const points = growth.points.filter(isComparedPoint);
  const first = points.at(0);
  const last = points.at(-1);
  const [, ...others] = answerTexts(growth);
  const rate =
    growth.rate === null
      ? growth.rateMethod
      : `${formatNumber(growth.rate.value)} ${formatUnit(growth.rate.unit)} ${formatError(growth.rate)}`;
  if (!first || !last || first === last) {
    const hollow = growth.points.filter((point) => !isComparedPoint(point));
    return [rate, ...hollow.slice(-1).map(leftOutWords)].join("; ");
  }
  const ends = [first, last].map(({ values }) => formatNumber(Math.max(...values)));
  const years = yearsBetween(first.date, last.date).toFixed(1);
  const nearing = growth.projections
    .filter(({ answer }) => answer === "between" || answer === "not before")
    .slice(0, 1);
  return [
    `${ends.join(" to ")} mm in ${years} years; ${rate}`,
    ...others,
    ...nearing.map(nearingWords),
  ].join("; ");
}
