import type { AorticPlace } from "../anatomy/places.ts";
import type { Assessment } from "./assessment.ts";
import { hasLimit, type LimitRule, type Outcome, type Rule } from "./rule.ts";
import { isAboveBand, limitText } from "./size-limit.ts";

/** Bodies that name different limits for one place of one patient. */
export interface Disagreement {
  about: AorticPlace;
  statements: { rule: string; body: string; year: number; outcome: Outcome; limit: string }[];
  sentence: string;
}

interface Judged {
  about: AorticPlace;
  assessment: Assessment;
  limit: NonNullable<Assessment["limit"]>;
  rule: LimitRule;
}

/**
 * Where published diameter limits differ. Rules are compared when they spoke of this patient, judged the same place,
 * and ask alike for a planned operation and for a cause; of each document the rule with the fewest further conditions
 * speaks. Criteria that hold at any size or below a limit are left out. Nothing is said where no rule of the group could be answered. Results run along the vessel.
 */
export function disagreements(
  assessments: readonly Assessment[],
  rules: readonly Rule[],
): Disagreement[] {
  const ruleById = new Map(rules.map((rule) => [rule.id, rule]));
  const judged = assessments.flatMap((assessment): Judged[] => {
    const { about, value, limit } = assessment;
    const rule = ruleById.get(assessment.rule);
    if (about === null || value === null || limit === null || !rule || !hasLimit(rule)) return [];
    if (rule.check.kind !== "diameter" || limit.operator === "<") return [];
    return isAboveBand(value.value, limit.below) ? [] : [{ about, assessment, limit, rule }];
  });
  return [...Map.groupBy(judged, comparableKey).values()]
    .map(oneOfEachDocument)
    .filter(differ)
    .map(disagreementOf)
    .toSorted((a, b) => a.about.position - b.about.position);
}

function comparableKey({ about, rule: { population } }: Judged): string {
  const { considered = [], aetiology } = population;
  return JSON.stringify([about.id, considered.toSorted(), aetiology !== undefined]);
}

const conditionsOf = ({ population: { statements = [], statementsAnyOf } }: Rule): string[] =>
  statementsAnyOf === undefined ? statements : [...statements, "one of several factors"];

function oneOfEachDocument(group: Judged[]): Judged[] {
  const byDocument = Map.groupBy(group, ({ rule: { source } }) => `${source.body} ${source.year}`);
  return [...byDocument.values()].flatMap((ofOne) => {
    const general = ofOne.toSorted(
      (a, b) =>
        conditionsOf(a.rule).length - conditionsOf(b.rule).length ||
        b.rule.check.value - a.rule.check.value,
    )[0];
    return general ? [general] : [];
  });
}

function differ(group: Judged[]): boolean {
  const limits = new Set(group.map(({ rule: { check } }) => `${check.operator} ${check.value}`));
  const isAnswered = ({ assessment: { outcome } }: Judged): boolean =>
    outcome === "met" || outcome === "not-met";
  return limits.size > 1 && group.some(isAnswered);
}

function disagreementOf(group: Judged[]): Disagreement {
  const [first] = group;
  if (!first) throw new Error("a disagreement without statements");
  const statements = group.map((judged) => ({
    rule: judged.rule.id,
    body: judged.rule.source.body,
    year: judged.rule.source.year,
    outcome: judged.assessment.outcome,
    limit: limitWords(judged),
  }));
  const sides = statements.map(
    ({ body, year, limit, outcome }) => `${body} ${year} ${limit}: ${outcome.replace("-", " ")}`,
  );
  const { considered } = first.rule.population;
  const planned = considered === undefined ? "" : `, with ${considered.join(" or ")}`;
  const sentence = `Published limits differ (${first.about.label}${planned}): ${sides.join("; ")}.`;
  return { about: first.about, statements, sentence };
}

/** ">= 60 mm, if reasonable surgical risk (not confirmed against the source)". */
function limitWords({ assessment: { confirmed }, limit, rule }: Judged): string {
  const conditions = conditionsOf(rule);
  const condition = conditions.length === 0 ? "" : `, if ${conditions.join(" and ")}`;
  return `${limitText(limit)}${condition}${confirmed ? "" : " (not confirmed against the source)"}`;
}
