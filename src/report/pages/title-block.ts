import { formatValue } from "../format.ts";
import type { Plan } from "../plan.ts";
import { sexWord } from "../words.ts";

export interface TitleCell {
  label: string;
  value: string;
}

/** Who and when: the head of every page about a patient. */
export interface TitleBlock {
  /** "Plan report", "Summary". */
  kind: string;
  name: string;
  id: string;
  asOf: string;
  lastExam: string;
  /** Short facts, and facts in the case sheet's own words. */
  facts: TitleCell[];
  words: TitleCell[];
  question: string;
}

const notStated = "not stated";

/** The patient's name, or that none is stated. */
export function patientName({ patient }: Plan): string {
  return patient.name ?? "name not stated";
}

/** "TEST-0001 (Invented Hospital)". */
export function patientId({ patient }: Plan): string {
  return patient.issuer === null ? patient.id : `${patient.id} (${patient.issuer})`;
}

/** "Testperson Alpha · TEST-0001 (Invented Hospital)". */
export function patientLine(plan: Plan): string {
  return `${patientName(plan)} · ${patientId(plan)}`;
}

/** "2026-01-12, CT, preliminary". */
function lastExamWords(plan: Plan): string {
  const last = plan.exams.at(-1);
  if (!last) return "none";
  const late = plan.surveillance.next.due.find(
    ({ overdueDays, otherExamSince }) => (overdueDays ?? 0) > 0 && otherExamSince === null,
  );
  const overdue = late ? `next overdue since ${late.latest}` : null;
  const parts = [last.imagingDate, last.modality, ...last.reportState, overdue];
  return parts.filter((part) => part !== null).join(", ");
}

/** The title block of a patient's page. */
export function titleBlock(plan: Plan, kind: string): TitleBlock {
  const { patient } = plan;
  const stated = (value: string | null): string => value ?? notStated;
  const measured = (value: number | null, unit: string): string =>
    value === null ? notStated : formatValue(value, unit);
  const age = patient.ageYears === null ? "" : `, ${patient.ageYears} years`;
  return {
    kind,
    name: patientName(plan),
    id: patientId(plan),
    asOf: plan.asOf,
    lastExam: lastExamWords(plan),
    facts: [
      { label: "Born", value: `${stated(patient.birthDate)}${age}` },
      { label: "Sex", value: patient.sex === null ? notStated : sexWord(patient.sex) },
      { label: "Height", value: measured(patient.heightCm, "cm") },
      { label: "Weight", value: measured(patient.weightKg, "kg") },
    ],
    words: [
      { label: "Diagnosis", value: diagnosisWords(plan) },
      { label: "Repaired before", value: stated(patient.priorRepair) },
      { label: "Aetiology, family", value: aetiologyWords(plan) },
      { label: "Considered", value: stated(patient.considered) },
    ],
    question: patient.question ?? "The case sheet asks no question.",
  };
}

function diagnosisWords({ patient }: Plan): string {
  const onset = patient.onsetDate === null ? "" : `, onset ${patient.onsetDate}`;
  const symptoms = patient.symptoms === null ? "" : `; symptoms: ${patient.symptoms}`;
  return `${patient.diagnosis ?? notStated}${onset}${symptoms}`;
}

function aetiologyWords({ patient }: Plan): string {
  return `${patient.aetiology ?? notStated}; family ${patient.familyHistory ?? notStated}`;
}
