import type { Exam, Measurement, PatientCase } from "../cases/patient-case.ts";

/** A diameter that a size criterion may use, with its exam. */
export interface UsableDiameter {
  measurement: Measurement;
  exam: Exam;
}

/**
 * The diameters of the aorta that size criteria may use: said to be a maximum, or without a statistic; of the whole
 * lumen, or without one; taken on or before `asOf` (YYYY-MM-DD). Diameters of the true or false lumen are never used.
 */
export function usableDiameters(patientCase: PatientCase, asOf: string): UsableDiameter[] {
  const examOf = new Map(patientCase.exams.map((exam) => [exam.key, exam]));
  return patientCase.measurements.flatMap((measurement) => {
    const exam = examOf.get(measurement.exam);
    if (!exam) throw new Error(`measurement ${measurement.key} names no exam of its case`);
    return isUsable(measurement) && exam.imagingDate <= asOf ? [{ measurement, exam }] : [];
  });
}

function isUsable({ quantity, statistic, lumen, place }: Measurement): boolean {
  return (
    quantity === "diameter" &&
    (statistic === "maximum" || statistic === "unstated") &&
    (lumen === "whole" || lumen === "unstated") &&
    place.kind !== "branch"
  );
}

/** Those of the latest exam among them; exams are in the order of the case. */
export function ofLatestExam(
  diameters: readonly UsableDiameter[],
  patientCase: PatientCase,
): UsableDiameter[] {
  const latest = patientCase.exams.findLast((exam) =>
    diameters.some((diameter) => diameter.exam === exam),
  );
  return diameters.filter(({ exam }) => exam === latest);
}
