import { placeById } from "../../../src/anatomy/places.ts";
import { unknownFacts } from "../../../src/cases/case-facts.ts";
import type {
  CaseFacts,
  Centreline,
  Exam,
  Finding,
  Measurement,
  PatientCase,
  Station,
} from "../../../src/cases/patient-case.ts";
import type { FindingId } from "../../../src/cases/vocabulary.ts";
import type { InventoryRow } from "../../../src/readers/csv/inventory.ts";

/** Date of the invented exam. */
export const examDate = "2026-01-12";
export const asOf = "2026-02-01";
const source = { file: "invented.csv", sha256: "00", at: null };

/** One invented finding: place id, what, state. */
export type FindingRow = readonly [placeId: string, finding: FindingId, state: string];

/** An invented number at a place; a least diameter at the inner edge unless said otherwise. */
export function reading(
  placeId: string,
  value: number,
  rest: Partial<Omit<Measurement, "place" | "value">> = {},
): Measurement {
  return {
    key: `M-${placeId}-${rest.quantity ?? "diameter"}-${rest.statistic ?? "minimum"}-${value}-${rest.exam ?? examDate}`,
    exam: examDate,
    place: placeById(placeId),
    placeOrigin: "sheet column",
    quantity: "diameter",
    statistic: "minimum",
    lumen: "whole",
    edge: "inner",
    path: "unstated",
    plane: "unstated",
    phase: "unstated",
    value,
    unit: "mm",
    asWritten: `${value} mm`,
    derivedFrom: [],
    source,
    reader: null,
    comment: null,
    ...rest,
  };
}

/** An invented length along the centreline. */
export const lengthOf = (placeId: string, value: number): Measurement =>
  reading(placeId, value, {
    quantity: "length",
    statistic: "unstated",
    edge: "unstated",
    path: "centreline",
  });

/** Least inner diameters of the three stretches of one side, from the aorta down. */
export const iliacs = (
  side: "right" | "left",
  [common, external, femoral]: readonly [number, number, number],
): Measurement[] => [
  reading(`zone-10-${side}`, common),
  reading(`zone-11-${side}`, external),
  reading(`${side}-common-femoral-artery`, femoral),
];

/** An invented section; `mark` is a place id. */
export function station(
  distanceMm: number,
  rest: Partial<Omit<Station, "mark">> & {
    markId?: string;
    markEdge?: "proximal edge" | "distal edge" | "centre";
  } = {},
): Station {
  const { markId, markEdge = null, ...stated } = rest;
  return {
    key: `S-${distanceMm}`,
    distanceMm,
    point: null,
    mark: markId === undefined ? null : { place: placeById(markId), edge: markEdge },
    wall: null,
    lumen: "whole",
    edge: "inner",
    maximumMm: null,
    minimumMm: null,
    perimeterMm: null,
    areaMm2: null,
    thrombusArcDeg: null,
    thrombusThicknessMm: null,
    calciumArcDeg: null,
    source,
    reader: null,
    comment: null,
    ...stated,
  };
}

/** An invented centreline of the exam. */
export const line = (vessel: string, stations: Station[], exam = examDate): Centreline => ({
  exam,
  vessel,
  label: vessel,
  patientPosition: null,
  positionBy: null,
  origin: "centreline sheet",
  stations,
});

const examOf = (imagingDate: string): Exam => ({
  key: imagingDate,
  studyUid: null,
  imagingDate,
  imagingDateOrigin: "study date",
  modality: "CT",
  gated: null,
  reportState: [],
});

/** An invented patient with one exam, and others where numbers name them. */
export function inventedCase({
  measurements = [],
  findings = [],
  centrelines = [],
  facts = {},
}: {
  measurements?: readonly Measurement[];
  findings?: readonly FindingRow[];
  centrelines?: readonly Centreline[];
  facts?: Partial<CaseFacts>;
} = {}): PatientCase {
  const dates = new Set([examDate, ...measurements.map(({ exam }) => exam)]);
  return {
    key: "invented",
    patient: { id: "INVENTED-7", issuer: null, name: null, birthDate: null, sex: null },
    facts: { ...unknownFacts, ...facts },
    exams: [...dates].toSorted().map(examOf),
    measurements: [...measurements],
    findings: findings.map(([placeId, finding, state], index): Finding => ({
      key: `F${index}`,
      exam: examDate,
      place: placeById(placeId),
      finding,
      state,
      source,
      reader: null,
      comment: null,
    })),
    centrelines: [...centrelines],
    rings: [],
    messages: [],
  };
}

/** A row of an invented inventory. */
export const graft = (
  id: string,
  sheathOuterMm: number,
  sheathAsWritten: string,
): InventoryRow => ({
  id,
  proximalMm: 34,
  distalMm: 34,
  coveredLengthMm: 150,
  sheathOuterMm,
  sheathAsWritten,
});
