import type { FailedCase } from "../cases/build-cases.ts";
import type { PatientCase } from "../cases/patient-case.ts";
import type { BatchSummary } from "../report/batch-summary.ts";
import { hasOptions } from "../report/pages/options-view.ts";
import type { Plan } from "../report/plan.ts";
import { largestDiameter } from "../report/largest-diameter.ts";

type PatientRow = BatchSummary["patients"][number];

/** The index row of a patient with a report. */
export function reportedRow(plan: Plan, changed: boolean): PatientRow {
  const count = (outcome: string) =>
    plan.assessments.filter((assessment) => assessment.outcome === outcome).length;
  const exceeding = plan.growth.filter(({ answers }) =>
    answers.some(({ answer }) => answer === "exceeds"),
  );
  const { key, id, issuer, name } = plan.patient;
  return {
    key,
    id,
    issuer,
    name,
    outcome: "reported",
    failure: null,
    lastExam: plan.exams.at(-1)?.imagingDate ?? null,
    changed,
    hasOptions: hasOptions(plan),
    largest: largestDiameter(plan)?.sentence ?? null,
    growthExceeds: exceeding.length,
    met: count("met"),
    notMet: count("not-met"),
    notAssessable: count("not-assessable") + count("rule-failed"),
    missing: plan.missing.map(({ what }) => what),
  };
}

/** The index row of a patient of whom no report could be made. */
export function failedRow(
  { key, id, issuer, failure }: FailedCase,
  changed: boolean,
  patientCase?: PatientCase,
): PatientRow {
  return {
    key,
    id,
    issuer,
    name: patientCase?.patient.name ?? null,
    outcome: "failed",
    failure,
    lastExam: null,
    changed,
    hasOptions: false,
    largest: null,
    growthExceeds: 0,
    met: 0,
    notMet: 0,
    notAssessable: 0,
    missing: [],
  };
}
