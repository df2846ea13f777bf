import { placeById } from "../../src/anatomy/places.ts";
import { zoneIds, zoneNumber } from "../../src/cases/dissection-notation.ts";
import { unknownFacts } from "../../src/cases/case-facts.ts";
import type { CaseFacts, Exam, Finding, Measurement } from "../../src/cases/patient-case.ts";
import type { PatientCase } from "../../src/cases/patient-case.ts";
import type { FindingId } from "../../src/cases/vocabulary.ts";
import { sampleMeasurement } from "../growth/sample-growth-case.ts";

/** One row of an invented finding sheet: place id, what, state. */
export type SampleFinding = readonly [string, FindingId, string];

/** Date of the invented exam where none is given. */
export const examDate = "2024-03-05";

/** An invented exam; its key is its date. */
export const sampleExam = (imagingDate = examDate): Exam => ({
  key: imagingDate,
  studyUid: null,
  imagingDate,
  imagingDateOrigin: "study date",
  modality: "CT",
  gated: null,
  reportState: [],
});

/** Invented findings, keyed F0, F1 … with the exam. */
export function sampleFindings(rows: readonly SampleFinding[], exam = examDate): Finding[] {
  return rows.map(([placeId, finding, state], index) => ({
    key: `F${index}-${exam}`,
    exam,
    place: placeById(placeId),
    finding,
    state,
    source: { file: "findings.csv", sha256: "00", at: null },
    reader: null,
    comment: null,
  }));
}

/** A diameter of one lumen, in mm. */
export const sampleLumen = (
  placeId: string,
  lumen: Measurement["lumen"],
  valueMm = 20,
  exam = examDate,
): Measurement => sampleMeasurement(exam, valueMm, { placeId, lumen });

/** Findings that state every zone: dissected from the first to the last one, iliac zones on one side, and no other. */
export function everyZone(first: number, last: number, side: "left" | "right"): SampleFinding[] {
  return zoneIds.map((zone) => {
    const number = zoneNumber(zone);
    const isDissected = number >= first && number <= last && (number < 10 || zone.endsWith(side));
    return [`zone-${zone}`, "dissection", isDissected ? "present" : "absent"];
  });
}

/** An invented case with these facts, and findings and lumens in exams of these dates. */
export function dissectionCase(
  stated: Partial<CaseFacts>,
  rows: readonly SampleFinding[] = [],
  measurements: readonly Measurement[] = [],
  otherExams: readonly { date: string; rows: readonly SampleFinding[] }[] = [],
): PatientCase {
  const exams = [{ date: examDate, rows }, ...otherExams].toSorted((a, b) =>
    a.date < b.date ? -1 : 1,
  );
  return {
    key: "invented",
    patient: { id: "INVENTED-1", issuer: null, name: null, birthDate: null, sex: null },
    facts: { ...unknownFacts, ...stated },
    exams: exams.map(({ date }) => sampleExam(date)),
    measurements: [...measurements],
    findings: exams.flatMap((exam) => sampleFindings(exam.rows, exam.date)),
    centrelines: [],
    rings: [],
    messages: [],
  };
}
