import type { PatientCase } from "../cases/patient-case.ts";
import type { Rule } from "./rule.ts";
import { answerTo } from "./statement-answers.ts";

interface AnsweredStatements {
  /** Those that must all be true. */
  all: Map<string, boolean | null>;
  /** Those of which one is enough; null where the rule has none. */
  any: Map<string, boolean | null> | null;
}

function answered(rule: Rule, patientCase: PatientCase, asOf: string): AnsweredStatements {
  const { statements = [], statementsAnyOf } = rule.population;
  const answersTo = (list: readonly string[]) =>
    new Map(list.map((statement) => [statement, answerTo(statement, rule, patientCase, asOf)]));
  return {
    all: answersTo(statements),
    any: statementsAnyOf === undefined ? null : answersTo(statementsAnyOf),
  };
}

const withAnswer = (answers: Map<string, boolean | null>, wanted: boolean | null): string[] =>
  [...answers].flatMap(([statement, answer]) => (answer === wanted ? [statement] : []));

/**
 * The statements of a rule that nobody has answered: each that must be true, and "any one of: …" where one of
 * several is enough and none is known to be true. Empty where nothing is open. `asOf` is YYYY-MM-DD.
 */
export function openStatements(rule: Rule, patientCase: PatientCase, asOf: string): string[] {
  const { all, any } = answered(rule, patientCase, asOf);
  const open = withAnswer(all, null);
  if (any === null || withAnswer(any, true).length > 0) return open;
  return [...open, `any one of: ${withAnswer(any, null).join("; ")}`];
}

/** Of the statements of which one is enough, those that the case sheet says are true. */
export function trueFactors(rule: Rule, patientCase: PatientCase, asOf: string): string[] {
  const { any } = answered(rule, patientCase, asOf);
  return any === null ? [] : withAnswer(any, true);
}

/** Why the statements of a rule exclude a patient: one that must be true is false, or all of which one is enough are. Null where they do not. */
export function statementExclusion(
  rule: Rule,
  patientCase: PatientCase,
  asOf: string,
): string | null {
  const { all, any } = answered(rule, patientCase, asOf);
  const [untrue] = withAnswer(all, false);
  if (untrue !== undefined) return `it asks for ${untrue}, the case sheet states otherwise`;
  if (any === null || withAnswer(any, false).length < any.size) return null;
  return `it asks for any one of: ${[...any.keys()].join("; ")}; the case sheet states otherwise`;
}
