import type {
  Centreline,
  Finding,
  Measurement,
  PatientCase,
  Station,
} from "../../../src/cases/patient-case.ts";
import { findingStates } from "../../../src/cases/vocabulary.ts";
import type { Mark, StretchItem, WorkItem } from "../../../src/planning/worklists/worklists.ts";
import { sampleMeasurement } from "../../growth/sample-growth-case.ts";
import { unknownFacts } from "../../../src/cases/case-facts.ts";

/** Day of the invented exam. */
export const examDay = "2026-01-12";

/** An invented patient with one exam, of whom nothing is known. */
export function blankCase(rest: Partial<PatientCase> = {}): PatientCase {
  return {
    key: "invented",
    patient: { id: "INVENTED-1", issuer: null, name: null, birthDate: null, sex: null },
    facts: unknownFacts,
    exams: [sampleExam(examDay)],
    measurements: [],
    findings: [],
    centrelines: [],
    rings: [],
    messages: [],
    ...rest,
  };
}

/** An invented exam; its key is its date. */
export const sampleExam = (imagingDate: string): PatientCase["exams"][number] => ({
  key: imagingDate,
  studyUid: null,
  imagingDate,
  imagingDateOrigin: "sheet column",
  modality: null,
  gated: null,
  reportState: [],
});

const source = { file: "invented.csv", sha256: "00", at: null };

/** A station with every column filled, or with these. */
export function sampleStation(distanceMm: number, rest: Partial<Station> = {}): Station {
  return {
    key: `S${distanceMm}${rest.lumen ?? "whole"}`,
    distanceMm,
    point: [0, distanceMm, 0],
    mark: null,
    wall: "native",
    lumen: "whole",
    edge: "inner",
    maximumMm: 30,
    minimumMm: 28,
    perimeterMm: 91,
    areaMm2: 660,
    thrombusArcDeg: 0,
    thrombusThicknessMm: null,
    calciumArcDeg: 0,
    source,
    reader: null,
    comment: null,
    ...rest,
  };
}

/** An invented centreline of the exam. */
export const sampleLine = (stations: Station[], rest: Partial<Centreline> = {}): Centreline => ({
  exam: examDay,
  vessel: "aorta",
  label: "aorta",
  patientPosition: "HFS",
  positionBy: null,
  origin: "centreline sheet",
  stations,
  ...rest,
});

const stationAt = (distanceMm: number, mark: Mark, rest: Partial<Station> = {}): Station =>
  sampleStation(distanceMm, { mark, ...rest });

/** Stations from one mark of a stretch to the other, with every column filled. */
export function stretchStations({ from, to, everyMm, lumen }: StretchItem): Station[] {
  return [
    stationAt(0, from, { lumen }),
    sampleStation(everyMm, { lumen }),
    stationAt(2 * everyMm, to, { lumen }),
  ];
}

/** The patient with this item measured, found or stated on the day of the exam. */
export function withItem(patientCase: PatientCase, item: WorkItem, exam = examDay): PatientCase {
  switch (item.form) {
    case "measurements": {
      const { place, quantity, statistic, lumen, edge, path } = item;
      const stated = {
        key: `M${patientCase.measurements.length}`,
        place,
        quantity,
        statistic: statistic ?? "unstated",
        lumen: lumen ?? "unstated",
        edge: edge ?? "outer",
        path: path ?? "unstated",
      } satisfies Partial<Measurement>;
      const measurements = [...patientCase.measurements, sampleMeasurement(exam, 20, stated)];
      return { ...patientCase, measurements };
    }
    case "findings": {
      const { place, finding } = item;
      if (place === null) throw new Error("say where it is seen");
      const [state = ""] = findingStates[finding];
      const key = `F${patientCase.findings.length}`;
      const found: Finding = {
        key,
        exam,
        place,
        finding,
        state,
        source,
        reader: null,
        comment: null,
      };
      return { ...patientCase, findings: [...patientCase.findings, found] };
    }
    case "mark":
      return withLine(patientCase, sampleLine([stationAt(0, item.mark)], { exam }));
    case "stretch":
      return withLine(
        patientCase,
        sampleLine(stretchStations(item), { exam, vessel: item.vessel, label: item.vessel }),
      );
    case "case":
      return withCell(patientCase, item.field);
    case "exam":
      return {
        ...patientCase,
        exams: patientCase.exams.map((one) =>
          one.key === exam ? { ...one, [item.field]: item.field === "gated" ? true : "CT" } : one,
        ),
      };
  }
}

const withLine = (patientCase: PatientCase, line: Centreline): PatientCase => ({
  ...patientCase,
  centrelines: [...patientCase.centrelines, line],
});

type Field = Extract<WorkItem, { form: "case" }>["field"];

function withCell(patientCase: PatientCase, field: Field): PatientCase {
  const { patient, facts } = patientCase;
  const stated = {
    diagnosis: { diagnoses: ["type B dissection"], diagnosisWords: "type B dissection" },
    onset_date: { onsetDate: "2025-11-01" },
    prior_repair: { priorRepairs: [], priorRepairWords: "none" },
    arch_variant: { archVariants: [], archVariantWords: "usual" },
    aetiology: { aetiology: "degenerative", aetiologyWords: "degenerative" },
    birth_date: {},
  }[field];
  const birthDate = field === "birth_date" ? "1960-01-01" : patient.birthDate;
  return { ...patientCase, patient: { ...patient, birthDate }, facts: { ...facts, ...stated } };
}
