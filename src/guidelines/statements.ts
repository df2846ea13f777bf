import type { PatientCase } from "../cases/patient-case.ts";
import { ageInYears } from "./population.ts";
import type { Rule } from "./rule.ts";

/** Statements that the case sheet can answer after all: true, false, or null where it does not say. */
const answersOfTheSheet: Record<
  string,
  (patientCase: PatientCase, asOf: string) => boolean | null
> = {
  "age below 50 years": ({ patient }, asOf) =>
    patient.birthDate === null ? null : ageInYears(patient.birthDate, asOf) < 50,
  "height below 1.69 m": ({ facts }) => (facts.heightCm === null ? null : facts.heightCm < 169),
  "height of 1.50 to 1.69 m": ({ facts }) =>
    facts.heightCm === null ? null : facts.heightCm >= 150 && facts.heightCm <= 169,
  "wish for pregnancy": ({ patient }) => (patient.sex === "M" ? false : null),
  "woman of small body size": ({ patient }) => (patient.sex === "M" ? false : null),
  // A sheet that names no coarctation does not say that there is none.
  coarctation: ({ facts }) => (facts.diagnoses?.includes("coarctation") ? true : null),
};

/**
 * The statements of a rule that nobody has answered: each that must be true, and "any one of: …" where one of
 * several is enough and none is known to be true. Empty where nothing is open.
 */
export function openStatements(rule: Rule, patientCase: PatientCase, asOf: string): string[] {
  const { statements = [], statementsAnyOf } = rule.population;
  if (statementsAnyOf === undefined) return statements;
  const answerTo = (statement: string): boolean | null =>
    answersOfTheSheet[statement]?.(patientCase, asOf) ?? null;
  if (statementsAnyOf.some((statement) => answerTo(statement) === true)) return statements;
  const open = statementsAnyOf.filter((statement) => answerTo(statement) === null);
  return [...statements, `any one of: ${open.join("; ")}`];
}
