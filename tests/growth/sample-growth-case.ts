import { unknownFacts } from "../../src/cases/case-facts.ts";
import { placeById } from "../../src/anatomy/places.ts";
import type { CaseFacts, Exam, Measurement, PatientCase } from "../../src/cases/patient-case.ts";
import type { ReadingErrors } from "../../src/growth/reading-error.ts";
import type { LimitCheck, LimitRule, Rule } from "../../src/guidelines/rule.ts";

/** One invented exam with one or several diameters of the same place, in mm. */
export interface SampleExam extends Partial<Exam> {
  date: string;
  mm: number | number[];
  edge?: Measurement["edge"];
  plane?: Measurement["plane"];
  phase?: Measurement["phase"];
}

const facts: CaseFacts = {
  ...unknownFacts,
  diagnoses: ["ascending aneurysm"],
  diagnosisWords: "ascending aneurysm",
  aetiology: "degenerative",
  aetiologyWords: "degenerative",
  priorRepairs: [],
  priorRepairWords: "none",
  considered: [],
};

/** A diameter of an invented patient. */
export function sampleMeasurement(
  exam: string,
  value: number,
  rest: Partial<Measurement> & { placeId?: string } = {},
): Measurement {
  const { placeId = "mid-ascending", ...aspects } = rest;
  return {
    key: `M-${exam}-${placeId}-${value}-${aspects.edge ?? "outer"}-${aspects.lumen ?? "whole"}`,
    exam,
    place: placeById(placeId),
    placeOrigin: "sheet column",
    quantity: "diameter",
    statistic: "maximum",
    lumen: "whole",
    edge: "outer",
    path: "unstated",
    plane: "unstated",
    phase: "unstated",
    value,
    unit: "mm",
    asWritten: `${value} mm`,
    derivedFrom: [],
    source: { file: "sheet.csv", sha256: "00", at: null },
    reader: null,
    comment: null,
    ...aspects,
  };
}

/** An invented patient with one place measured in these exams. */
export function sampleCase(
  exams: readonly SampleExam[],
  rest: Partial<Measurement> & { placeId?: string } = {},
  caseFacts: Partial<CaseFacts> = {},
): PatientCase {
  const sorted = exams.toSorted((a, b) => (a.date < b.date ? -1 : 1));
  return {
    key: "abc123",
    patient: { id: "P1", issuer: null, name: null, birthDate: null, sex: null },
    facts: { ...facts, ...caseFacts },
    exams: sorted.map(({ date, key = date, modality = "CT", gated = true }): Exam => ({
      key,
      studyUid: null,
      imagingDate: date,
      imagingDateOrigin: "study date",
      modality,
      gated,
      reportState: [],
    })),
    measurements: sorted.flatMap(({ date, key = date, mm, ...stated }) => {
      const { edge = "outer", plane = "unstated", phase = "unstated" } = stated;
      return [mm]
        .flat()
        .map((value) => sampleMeasurement(key, value, { edge, plane, phase, ...rest }));
    }),
    findings: [],
    centrelines: [],
    rings: [],
    messages: [],
  };
}

/** An invented growth rule of the ascending aorta. */
export function sampleRule(
  value: number,
  rest: Partial<LimitCheck> & {
    id?: string;
    population?: Rule["population"];
    places?: Rule["places"];
    body?: string;
  } = {},
): LimitRule {
  const { id = `rule-${value}`, population = {}, body = "BODY", ...check } = rest;
  const { places = { regions: ["ascending"] }, ...own } = check;
  return {
    id,
    title: "invented",
    source: { body, year: 2020, where: "nowhere" },
    recommendation: null,
    population,
    places,
    check: {
      kind: "growth-over-period",
      operator: ">=",
      value,
      unit: "mm",
      periodMonths: 12,
      printed: `${value} mm in 1 year`,
      ...own,
    },
    says: "nothing",
    checked: { how: "from-memory" },
  };
}

/** Reading errors with one SD, as a site states it. */
export const readingErrorOf = (sdMm: number): ReadingErrors => ({
  stated: [{ sdMm, source: "invented", appliesTo: {} }],
  estimated: [],
});
