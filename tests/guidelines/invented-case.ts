import { placeById } from "../../src/anatomy/places.ts";
import type { CaseFacts, Measurement, PatientCase } from "../../src/cases/patient-case.ts";

/** The day on which the invented cases are judged. */
export const asOf = "2026-06-01";

const facts: CaseFacts = {
  heightCm: 170,
  weightKg: 70,
  diagnoses: ["aneurysm"],
  diagnosisWords: null,
  onsetDate: null,
  symptoms: null,
  symptomsWords: null,
  dissectionWords: null,
  malperfusionWords: null,
  archVariants: null,
  archVariantWords: null,
  aetiology: "degenerative",
  aetiologyWords: null,
  familyHistory: null,
  familyEvents: null,
  priorRepairs: [],
  priorRepairWords: null,
  considered: [],
  consideredWords: null,
  question: null,
  source: null,
};

/** One diameter in mm; what is not given is a whole-lumen maximum at the outer edge in the only exam. */
export type InventedDiameter = Partial<Omit<Measurement, "place">> & { place: string; mm: number };

/** An invented patient: a man of 66 with a degenerative aneurysm unless said otherwise. */
export function inventedCase(
  diameters: InventedDiameter[],
  stated: Partial<CaseFacts> = {},
  patient: Partial<PatientCase["patient"]> = {},
): PatientCase {
  const dates = [...new Set(["2026-03-02", ...diameters.map(({ exam }) => exam ?? "2026-03-02")])];
  return {
    key: "invented",
    patient: {
      id: "INVENTED-1",
      issuer: null,
      name: "Invented^Patient",
      birthDate: "1960-01-01",
      sex: "M",
      ...patient,
    },
    facts: { ...facts, ...stated },
    exams: dates.toSorted().map((key) => ({
      key,
      studyUid: null,
      imagingDate: key.slice(0, 10),
      imagingDateOrigin: "study date",
      modality: "CT",
      gated: null,
      reportState: [],
    })),
    measurements: diameters.map(({ place, mm, ...given }, index) => ({
      key: `M${index}`,
      exam: "2026-03-02",
      placeOrigin: "finding site",
      quantity: "diameter",
      statistic: "maximum",
      lumen: "whole",
      edge: "outer",
      path: "unstated",
      plane: "unstated",
      phase: "unstated",
      unit: "mm",
      asWritten: `${mm} mm`,
      derivedFrom: [],
      source: { file: "invented.csv", sha256: null, at: null },
      reader: null,
      comment: null,
      ...given,
      place: placeById(place),
      value: mm,
    })),
    findings: [],
    centrelines: [],
    rings: [],
    messages: [],
  };
}
