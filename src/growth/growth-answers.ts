import { sentenceCase } from "../quantities/sentence-case.ts";
import type { PatientCase } from "../cases/patient-case.ts";
import { dissections } from "../cases/vocabulary.ts";
import { populationOutcome } from "../guidelines/population.ts";
import { isConfirmed } from "../guidelines/rule-check.ts";
import { repairState } from "../guidelines/repair-state.ts";
import { partsOf } from "../guidelines/rule-places.ts";
import { isGrowthRule, type LimitRule, type Outcome, type Rule } from "../guidelines/rule.ts";
import { limitText } from "../guidelines/size-limit.ts";
import { openStatements } from "../guidelines/statements.ts";
import { holds } from "../quantities/limit.ts";
import { growthCriterion } from "./growth-criterion.ts";
import type { ComparedSize, Interval } from "./growth-rate.ts";
import type { GrowthSeries } from "./growth-series.ts";
import { fixedBeside } from "./number-words.ts";
import { daysAfter, daysOfMonths, tellableInMonths } from "./when-tellable.ts";

/** Whether the true growth is beyond a limit, seen through the reading error. */
export type LimitAnswer = "exceeds" | "does-not-exceed" | "cannot-tell";

/** One published growth criterion for one series: the interval against its limit, and the criterion as it is written. */
export interface GrowthAnswer {
  rule: string;
  body: string;
  year: number;
  /** False where the rule is recalled and not compared with its source. */
  confirmed: boolean;
  limitMmPerYear: number;
  answer: LimitAnswer;
  /** Where the answer is cannot-tell: `tellableInMonths` after the last exam; else null. */
  tellableInMonths: number | null;
  outcome: Outcome;
  reason: string;
}

/** What the answers of one series stand on. */
export interface AnswerBasis {
  series: GrowthSeries;
  /** Comparable sizes, earliest first. */
  sizes: readonly ComparedSize[];
  rate: Interval | null;
  rateMethod: string;
  patientCase: PatientCase;
  /** YYYY-MM-DD. */
  asOf: string;
}

/** Where the whole 95 % interval lies; an end that equals the limit does not tell. */
export function answerAgainst(limitMmPerYear: number, rate: Interval | null): LimitAnswer {
  if (rate === null) return "cannot-tell";
  if (holds(rate.low, ">", limitMmPerYear)) return "exceeds";
  return holds(rate.high, "<", limitMmPerYear) ? "does-not-exceed" : "cannot-tell";
}

/** True for the diameter that criteria ask for: the largest of the whole vessel, not a mean, a minimum or a part of it. */
export function isAskedFor({
  statistic,
  lumen,
}: Pick<GrowthSeries, "statistic" | "lumen">): boolean {
  const isLargest = statistic === "maximum" || statistic === "unstated";
  return isLargest && (lumen === "whole" || lumen === "unstated");
}

/** Answers of all growth rules that speak of the place, in the order of their ids; none where `isAskedFor` is false. */
export function growthAnswers(rules: readonly Rule[], basis: AnswerBasis): GrowthAnswer[] {
  const { place } = basis.series;
  if (!isAskedFor(basis.series)) return [];
  return rules
    .filter(isGrowthRule)
    .filter((rule) => partsOf(rule).some(({ holds: isIn }) => isIn(place)))
    .toSorted((a, b) => (a.id < b.id ? -1 : 1))
    .map((rule) => answerOf(rule, basis));
}

function answerOf(rule: LimitRule, basis: AnswerBasis): GrowthAnswer {
  const { periodMonths } = rule.check;
  if (periodMonths === undefined) throw new Error(`growth rule ${rule.id} states no period`);
  const limitMmPerYear = (rule.check.value * 12) / periodMonths;
  const { rate, sizes } = basis;
  const answer = answerAgainst(limitMmPerYear, rate);
  const tellable =
    answer === "cannot-tell"
      ? tellableInMonths(sizes, (later) => answerAgainst(limitMmPerYear, later) !== "cannot-tell")
      : null;
  const { outcome, reason } = asWritten(rule, periodMonths, basis);
  const sentences = [`${reason}.`];
  if (outcome !== "not-applicable") {
    sentences.push(answerSentence(limitMmPerYear, answer, basis));
    if (answer === "cannot-tell" && rate !== null)
      sentences.push(tellableSentence(tellable, sizes));
  }
  if (outcome === "met" && answer === "cannot-tell") {
    sentences.push("A second reading of the same exams by the same reader would narrow it.");
  }
  return {
    rule: rule.id,
    body: rule.source.body,
    year: rule.source.year,
    confirmed: isConfirmed(rule),
    limitMmPerYear,
    answer,
    tellableInMonths: tellable,
    outcome,
    reason: sentences.join(" "),
  };
}

/** The criterion as its source writes it: population, sizes as read, and facts that are still open. */
function asWritten(
  rule: LimitRule,
  periodMonths: number,
  { series, sizes, patientCase, asOf }: AnswerBasis,
): { outcome: Outcome; reason: string } {
  const { priorRepairs } = patientCase.facts;
  const population = populationOutcome(rule, patientCase, asOf);
  if ("applies" in population && !population.applies) {
    const { reason } = population;
    return { outcome: "not-applicable", reason };
  }
  const repair = repairState(series.place, priorRepairs ?? []);
  if (repair === "repaired") return { outcome: "not-applicable", reason: "The place is repaired" };
  const criterion = growthCriterion(rule.check, periodMonths, sizes);
  const reason = `${sentenceCase(criterion.reason)}; the limit is ${limitText(rule.check)}`;
  const notAssessable = (open: string[]) => ({
    outcome: "not-assessable" as const,
    reason: `${reason}; not stated: ${open.join("; ")}`,
  });
  const unknown = [
    ...("unknown" in population ? population.unknown : []),
    ...(priorRepairs === null ? ["prior repair (or none)"] : []),
    ...(isLumenOpen(series, patientCase) ? ["which lumen was measured"] : []),
  ];
  if (unknown.length > 0) return notAssessable(unknown);
  if (criterion.outcome !== "met") return { outcome: criterion.outcome, reason };
  const open = [
    ...(repair === "native" ? [] : [repair.unclear]),
    ...openStatements(rule, patientCase, asOf),
  ];
  return open.length > 0 ? notAssessable(open) : { outcome: "met", reason };
}

/** A lumen that is not stated is accepted only where the diagnosis is known and is no dissection. */
function isLumenOpen({ lumen }: GrowthSeries, { facts: { diagnoses } }: PatientCase): boolean {
  if (lumen !== "unstated") return false;
  return diagnoses === null || diagnoses.some((diagnosis) => dissections.has(diagnosis));
}

function answerSentence(
  limitMmPerYear: number,
  answer: LimitAnswer,
  { sizes, rate, rateMethod }: AnswerBasis,
): string {
  if (rate === null) return `${sentenceCase(rateMethod)}.`;
  const low = fixedBeside(rate.low, limitMmPerYear);
  const high = fixedBeside(rate.high, limitMmPerYear);
  const where = {
    exceeds: "lies above",
    "does-not-exceed": "lies below",
    "cannot-tell": "holds",
  }[answer];
  const widened = sizes.some(({ offset }) => offset !== null)
    ? " widened by the possible shift,"
    : "";
  return `The 95 % interval of the rate,${widened} ${low} to ${high} mm per year, ${where} ${limitMmPerYear}.`;
}

function tellableSentence(months: number | null, sizes: readonly ComparedSize[]): string {
  const last = sizes.at(-1);
  if (months === null || !last) {
    return "At this rate no further exam within ten years would tell.";
  }
  const span = months === 1 ? "1 month" : `${months} months`;
  const date = daysAfter(last.date, daysOfMonths(months));
  return `At this rate a further exam, read alike, would tell from ${span} after the last one on (${date}).`;
}
