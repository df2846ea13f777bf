import { sentenceCase } from "../../quantities/sentence-case.ts";
import type { Outcome } from "../../guidelines/rule.ts";
import { anySize } from "../../guidelines/size-limit.ts";
import { holds } from "../../quantities/limit.ts";
import {
  formatAgainstLimit,
  formatError,
  formatUnit,
  notConfirmed,
  shortPlace,
} from "../format.ts";
import { outcomeMark, outcomeWord, type OutcomeMark } from "../outcome-mark.ts";
import type { Plan, PlanAssessment } from "../plan.ts";

/** One criterion as a page shows it. */
export interface CriterionRow {
  mark: OutcomeMark;
  title: string;
  place: string;
  value: string;
  unit: string;
  error: string;
  limit: string;
  source: string;
  /** Where in the source, class and level, and whether they are confirmed. */
  where: string;
  reason: string;
  says: string;
}

const order: Record<Outcome, number> = {
  met: 0,
  "not-met": 3,
  "not-assessable": 4,
  "rule-failed": 5,
  "not-applicable": 6,
};

/** The value as a share of its limit; 0 where the two can't be compared, or where the size has passed a limit "<". */
function closeness({ value, limit }: PlanAssessment): number {
  if (value === null || value.unit !== limit?.unit || limit.operator === "<") return 0;
  return value.value / limit.value;
}

/**
 * True where only other conditions are not stated: the size reaches the limit, or the criterion holds at any size and the
 * case sheet states symptoms that it asks for. A size that is small enough for a limit "<" says nothing yet.
 */
export function isOpenAtLimit({ outcome, about, value, limit }: PlanAssessment): boolean {
  if (outcome !== "not-assessable") return false;
  if (limit === null) return about !== null;
  const isReached = value !== null && holds(value.value, limit.operator, limit.value);
  return isReached && limit.operator !== "<" && value.unit === limit.unit;
}

/** The limit as printed; a limit from above says so. */
function limitOf({ limit }: PlanAssessment): string {
  if (limit === null) return anySize;
  return limit.operator === "<" ? `below ${limit.printed}` : limit.printed;
}

/**
 * Met first, then where the size is reached and other conditions are not stated, then where the reading error holds the
 * limit, not met, not judged, failed, not applicable; in each, the preferred body first, then nearest to its limit.
 */
export function byOutcome({
  assessments,
  preferredGuideline,
}: Pick<Plan, "assessments" | "preferredGuideline">): PlanAssessment[] {
  const rank = (assessment: PlanAssessment): number => {
    if (isOpenAtLimit(assessment)) return 1;
    return assessment.outcome === "not-met" && assessment.spansLimit
      ? 2
      : order[assessment.outcome];
  };
  const isPreferred = ({ source }: PlanAssessment) => Number(source.body === preferredGuideline);
  return assessments.toSorted(
    (a, b) => rank(a) - rank(b) || isPreferred(b) - isPreferred(a) || closeness(b) - closeness(a),
  );
}

/** "3 met, 2 not met, 1 can't be judged"; empty without any. */
export function outcomeCounts(assessments: readonly PlanAssessment[]): string {
  const outcomes = Object.keys(order) as Outcome[];
  const parts = outcomes.flatMap((outcome) => {
    const count = assessments.filter((one) => one.outcome === outcome).length;
    return count === 0 ? [] : [`${count} ${outcomeWord(outcome)}`];
  });
  return parts.join(", ");
}

function whereOf({
  rule,
  source,
  recommendation,
  confirmed,
  checkedAgainst,
}: PlanAssessment): string {
  const parts = [source.where];
  if (recommendation?.class) parts.push(`class ${recommendation.class}`);
  if (recommendation?.level) parts.push(`level ${recommendation.level}`);
  if (!confirmed) parts.push(`value ${notConfirmed}`);
  else if (checkedAgainst !== null) parts.push(`compared with ${checkedAgainst}`);
  const statesClass = recommendation?.class ?? recommendation?.level;
  if (confirmed && recommendation?.confirmed === false && statesClass)
    parts.push(`class and level ${notConfirmed}`);
  return `${sentenceCase(parts.join(", "))}. Rule ${rule}.`;
}

/** The row of one criterion. */
export function criterionRow(assessment: PlanAssessment): CriterionRow {
  const { about, limit, missing, outcome, reason, says, source, title, value } = assessment;
  const comparedWith = value?.unit === limit?.unit ? (limit?.value ?? Infinity) : Infinity;
  const lacking = missing.length === 0 ? "" : ` Missing: ${missing.join("; ")}.`;
  return {
    mark: outcomeMark(outcome),
    title,
    place: about === null ? "" : sentenceCase(shortPlace(about)),
    value: value === null ? "" : formatAgainstLimit(value.value, comparedWith, value.unit),
    unit: value === null ? "" : formatUnit(value.unit),
    error: value === null ? "" : formatError(value, value.unit),
    limit: limitOf(assessment),
    source: `${source.body} ${source.year}`,
    where: whereOf(assessment),
    reason: `${reason}${lacking}`,
    says,
  };
}

export interface SourceRow {
  source: string;
  doi: string;
  /** "12 compared with the source, 3 not confirmed against the source". */
  checked: string;
}

/** The publications that the criteria come from. */
export function sourceRows({ assessments }: Pick<Plan, "assessments">): SourceRow[] {
  const keyOf = ({ source }: PlanAssessment): string =>
    `${source.body} ${source.year}\n${source.doi ?? ""}`;
  const rows = [...Map.groupBy(assessments, keyOf)].map(([key, here]) => {
    const [source = "", doi = ""] = key.split("\n");
    const rules = new Map(here.map(({ rule, confirmed }) => [rule, confirmed]));
    const confirmed = [...rules.values()].filter(Boolean).length;
    const parts = [];
    if (confirmed > 0) parts.push(`${confirmed} compared with the source`);
    if (confirmed < rules.size) parts.push(`${rules.size - confirmed} ${notConfirmed}`);
    return { source, doi, checked: parts.join(", ") };
  });
  return rows.toSorted((a, b) => (a.source + a.doi < b.source + b.doi ? -1 : 1));
}
