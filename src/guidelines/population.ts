import { daysBetween } from "../quantities/days-between.ts";
import type { CaseFacts, PatientCase } from "../cases/patient-case.ts";
import { ageInYears } from "../quantities/age-in-years.ts";
import { anyDiagnosisOf, anyOf, type FactAnswer } from "./fact-answer.ts";
import type { Rule } from "./rule.ts";
import { statementExclusion } from "./statements.ts";
import { symptomsFromParts } from "./symptoms.ts";

/** Whether a criterion speaks of a patient: yes, no with the reason, or the facts that are missing. */
export type PopulationOutcome =
  | { applies: true }
  | { applies: false; reason: string }
  | { unknown: string[] };

/**
 * Compares the population of a rule with the case. One fact that excludes the patient decides, whatever else is
 * missing. Of the statements only those that the case sheet excludes are part of it. `asOf` is YYYY-MM-DD.
 */
export function populationOutcome(
  rule: Rule,
  patientCase: PatientCase,
  asOf: string,
): PopulationOutcome {
  const { population } = rule;
  const { facts, patient } = patientCase;
  const answers: FactAnswer[] = [
    anyDiagnosisOf(population.diagnosis, facts.diagnoses),
    noneOf("diagnosis", population.diagnosisNot, facts.diagnoses),
    anyOf("aetiology", population.aetiology, facts.aetiology === null ? null : [facts.aetiology]),
    anyOf("sex", population.sex, patient.sex === "F" || patient.sex === "M" ? [patient.sex] : null),
    anyOf("considered operation", population.considered, facts.considered),
    ageAnswer(population.ageYears, patient.birthDate, asOf),
    onsetAnswer(population.daysSinceOnsetAbove, facts.onsetDate, asOf),
    symptomsAnswer(rule, facts),
    statementsAnswer(rule, patientCase, asOf),
  ];
  const missing: string[] = [];
  for (const answer of answers) {
    if (answer === null) continue;
    if ("excludes" in answer) return { applies: false, reason: answer.excludes };
    missing.push(...answer.missing.filter((name) => !missing.includes(name)));
  }
  return missing.length > 0 ? { unknown: missing } : { applies: true };
}

function symptomsAnswer(rule: Rule, facts: CaseFacts): FactAnswer {
  const { symptoms } = rule.population;
  if (symptoms === undefined) return null;
  if (facts.symptoms?.length === 0) return { excludes: "it asks for symptoms, stated is none" };
  const answer = anyOf("symptoms", symptoms === "any" ? undefined : symptoms, facts.symptoms);
  if (answer !== null) return answer;
  if (facts.symptoms === null) return { missing: ["symptoms"] };
  return symptomsFromParts(rule, facts) === null
    ? { missing: ["which diagnosis the symptoms come from"] }
    : null;
}

function statementsAnswer(rule: Rule, patientCase: PatientCase, asOf: string): FactAnswer {
  const excludes = statementExclusion(rule, patientCase, asOf);
  return excludes === null ? null : { excludes };
}

function noneOf(
  fact: string,
  unwanted: readonly string[] | undefined,
  stated: readonly string[] | null,
): FactAnswer {
  if (unwanted === undefined) return null;
  if (stated === null) return { missing: [fact] };
  const met = unwanted.filter((word) => stated.includes(word));
  return met.length === 0 ? null : { excludes: `it does not speak of ${fact} ${met.join(", ")}` };
}

function ageAnswer(
  wanted: Rule["population"]["ageYears"],
  birthDate: string | null,
  asOf: string,
): FactAnswer {
  if (wanted === undefined) return null;
  if (birthDate === null) return { missing: ["birth date"] };
  const age = ageInYears(birthDate, asOf);
  const { atLeast, below } = wanted;
  if (atLeast !== undefined && age < atLeast) {
    return { excludes: `it asks for an age of ${atLeast} years or more, the patient is ${age}` };
  }
  if (below !== undefined && age >= below) {
    return { excludes: `it asks for an age below ${below} years, the patient is ${age}` };
  }
  return null;
}

function onsetAnswer(
  above: number | undefined,
  onsetDate: string | null,
  asOf: string,
): FactAnswer {
  if (above === undefined) return null;
  if (onsetDate === null) return { missing: ["onset date"] };
  const days = daysBetween(onsetDate, asOf);
  if (days > above) return null;
  return { excludes: `it asks for more than ${above} days since onset, there are ${days}` };
}
