import { formatCount, formatList, notConfirmed } from "../format.ts";
import { outcomeMark, type OutcomeMark } from "../outcome-mark.ts";
import type { Plan, PlanAssessment } from "../plan.ts";
import { byOutcome, criterionRow, isOpenAtLimit, type CriterionRow } from "./criteria-view.ts";

/** A criterion of which the row says everything. */
export type ShortRow = Pick<CriterionRow, "title" | "limit" | "source"> & {
  /** Class and level, and what of them and of the limit is not confirmed. */
  strength: string;
};

/** Criteria about the same value at the same place. */
export interface ShortRows {
  /** "Mid-ascending aorta: 36.4 mm (± 3.7)". */
  heading: string;
  rows: ShortRow[];
}

/** Criteria with the same answer: what they share, and which they are. */
export interface SharedAnswer {
  answer: string;
  criteria: string;
}

/** The criteria of a plan report: those that decide in full, the others as short as they can be said. */
export interface CriteriaGroups {
  /** Met, reached by size, inside the reading error, or failed. */
  decisive: CriterionRow[];
  notMet: ShortRows[];
  /** The mark that all rows of `notMet` share. */
  notMetMark: OutcomeMark;
  /** Which body comes first in each group; null where the site prefers none. */
  preferredFirst: string | null;
  /** Can't be judged, by what is missing. */
  open: SharedAnswer[];
  /** How many are not for this patient, counted by the reason; null without any. */
  notApplicable: string | null;
}

type CriteriaOfPlan = Pick<Plan, "assessments" | "preferredGuideline">;

/** Sorts the criteria of a plan into the groups in which the page shows them. */
export function criteriaGroups(plan: CriteriaOfPlan): CriteriaGroups {
  const sorted = byOutcome(plan);
  const isDecisive = (one: PlanAssessment): boolean =>
    one.outcome === "met" ||
    one.outcome === "rule-failed" ||
    isOpenAtLimit(one) ||
    (one.outcome === "not-met" && one.spansLimit);
  const rest = sorted.filter((one) => !isDecisive(one));
  const of = (outcome: string) => rest.filter((one) => one.outcome === outcome);
  return {
    preferredFirst: plan.preferredGuideline,
    decisive: sorted.filter(isDecisive).map(criterionRow),
    notMet: shortRows(of("not-met")),
    notMetMark: outcomeMark("not-met"),
    open: sharedAnswers(of("not-assessable"), ({ missing, reason }) =>
      missing.length === 0 ? reason : formatList(missing),
    ),
    notApplicable: countedReasons(of("not-applicable")),
  };
}

/** By value and place, in the order of the first of each. */
function shortRows(assessments: readonly PlanAssessment[]): ShortRows[] {
  const groups = Map.groupBy(assessments, (assessment) => {
    const { place, value, unit, error } = criterionRow(assessment);
    const size = [value, unit, error].filter((part) => part !== "").join(" ");
    return [place, size].filter((part) => part !== "").join(": ");
  });
  return [...groups].map(([heading, here]) => ({ heading, rows: here.map(shortRow) }));
}

function shortRow(assessment: PlanAssessment): ShortRow {
  const { recommendation, confirmed } = assessment;
  const parts = [];
  if (recommendation?.class) parts.push(`class ${recommendation.class}`);
  if (recommendation?.level) parts.push(`level ${recommendation.level}`);
  if (!confirmed) parts.push(notConfirmed);
  else if (recommendation?.confirmed === false && parts.length > 0) {
    parts.push(`class and level ${notConfirmed}`);
  }
  const { title, limit, source } = criterionRow(assessment);
  return { title, limit, source, strength: parts.join(", ") };
}

/** Criteria that ask for different values of one fact are shown together; the plan keeps the reason of each. */
const asksForOther =
  /^It asks for (diagnosis|aetiology|sex|considered operation) .+, stated is (.+)\.$/;

function sharedReason({ reason }: PlanAssessment): string {
  const [, fact, stated] = asksForOther.exec(reason) ?? [];
  return fact === undefined
    ? reason.replace(/\.$/, "")
    : `It asks for another ${fact} than stated, ${stated}`;
}

/** "64 criteria. It asks for another aetiology than stated, degenerative (10); …", the commonest reason first. */
function countedReasons(assessments: readonly PlanAssessment[]): string | null {
  if (assessments.length === 0) return null;
  const reasons = [...Map.groupBy(assessments, sharedReason)]
    .toSorted(([, a], [, b]) => b.length - a.length)
    .map(([reason, here]) => `${reason} (${here.length})`);
  return `${formatCount(assessments.length, "criterion", "criteria")}. ${reasons.join("; ")}.`;
}

/** Groups criteria by a shared answer, the largest group first; each group counts its criteria by source. */
function sharedAnswers(
  assessments: readonly PlanAssessment[],
  answerOf: (assessment: PlanAssessment) => string,
): SharedAnswer[] {
  const groups = [...Map.groupBy(assessments, answerOf)];
  return groups
    .toSorted(([, a], [, b]) => b.length - a.length)
    .map(([answer, here]) => {
      const bySource = Map.groupBy(here, ({ source }) => `${source.body} ${source.year}`);
      const counts = [...bySource].map(([source, own]) => `${source} (${own.length})`);
      const named = formatCount(here.length, "criterion", "criteria");
      const titles = here.length === 1 ? `: ${here[0]?.title ?? ""}` : "";
      return { answer, criteria: `${named} of ${counts.join(", ")}${titles}` };
    });
}
