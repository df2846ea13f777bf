import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import type { BuildOptions } from "../../src/cases/build-cases.ts";
import type {
  CaseRow,
  ReadDocument,
  Reading,
  StatedFinding,
  StatedStation,
} from "../../src/readers/reading.ts";
import { createHash } from "node:crypto";

/** Options of a run on 2026-01-15 without a site file. */
export const sampleOptions: BuildOptions = {
  asOf: "2026-01-15",
  issuer: null,
  identities: [],
  dictionary: buildDictionary({ codes: {}, words: {} }),
  neighbourStepMm: 25,
  scanPosition: null,
  reportMessages: new Map(),
};

/** An invented reading of a sheet. */
export function sampleReading(
  place: string,
  value: string,
  rest: Partial<Reading["terms"]> & { unit?: string; quantity?: Reading["terms"]["quantity"] } = {},
  at = `column value, ${place}`,
): Reading {
  const { unit = "mm", ...terms } = rest;
  return {
    source: { file: "sheet.csv", sha256: "ab", at },
    valueText: value,
    qualifier: null,
    unit: { words: unit, code: null },
    terms: {
      places: [{ origin: "sheet column", terms: [{ words: place, code: null }] }],
      laterality: null,
      modifiers: [],
      quantity: { words: "diameter", code: null },
      statistic: "maximum",
      lumen: null,
      edge: "outer",
      ...terms,
    },
    trackingIdentifier: null,
    reader: null,
    comment: null,
    graphic: null,
  };
}

/** An invented finding of a sheet. */
export function sampleFinding(
  place: string,
  finding: string,
  state: string,
  rest: Partial<StatedFinding> = {},
): StatedFinding {
  return {
    source: { file: "findings.csv", sha256: "ef", at: "record 2" },
    place,
    finding,
    state,
    reader: null,
    comment: null,
    ...rest,
  };
}

/** An invented row of a centreline sheet. */
export function sampleStation(
  distanceMm: number,
  rest: Partial<StatedStation> = {},
): StatedStation {
  return {
    source: { file: "line.csv", sha256: "12", at: `distance ${distanceMm}` },
    vessel: null,
    distanceMm,
    mark: null,
    markEdge: null,
    wall: null,
    lumen: null,
    edge: null,
    maximumMm: null,
    minimumMm: null,
    perimeterMm: null,
    areaMm2: null,
    thrombusArcDeg: null,
    thrombusThicknessMm: null,
    calciumArcDeg: null,
    x: null,
    y: null,
    z: null,
    axes: null,
    patientPosition: null,
    reader: null,
    comment: null,
    unusable: [],
    ...rest,
  };
}

/** An invented document of patient P1. */
export function sampleDocument(
  imagingDate: string,
  readings: Reading[],
  rest: {
    patient?: Partial<ReadDocument["patient"]>;
    sop?: string;
    replaces?: string[];
    file?: string;
    findings?: StatedFinding[];
    stations?: StatedStation[];
    exam?: Partial<ReadDocument["exam"]>;
  } = {},
): ReadDocument {
  const { patient, sop, replaces = [], file = `${imagingDate}.dcm`, findings = [], exam } = rest;
  const { stations = [] } = rest;
  return {
    source: { file, sha256: createHash("sha256").update(file).digest("hex"), at: null },
    patient: { id: "P1", issuer: "LAB", name: null, birthDate: null, sex: null, ...patient },
    exam: {
      studyUid: null,
      imagingDate,
      imagingDateOrigin: "study date",
      modality: "CT",
      gated: null,
      ...exam,
    },
    report:
      sop === undefined
        ? null
        : {
            sopInstanceUid: sop,
            completion: "COMPLETE",
            verification: "VERIFIED",
            preliminary: null,
            predecessorUids: replaces,
            identicalUids: [],
          },
    readings,
    findings,
    stations,
  };
}

/** An invented case sheet row of patient P1. */
export function sampleCaseRow(rest: Partial<CaseRow> = {}): CaseRow {
  return {
    source: { file: "cases.csv", sha256: "cd", at: "record 2, line 2" },
    patientId: "P1",
    issuer: "LAB",
    name: null,
    birthDate: null,
    sex: null,
    heightCm: null,
    weightKg: null,
    diagnosis: null,
    onsetDate: null,
    symptoms: null,
    dissection: null,
    malperfusion: null,
    archVariant: null,
    aetiology: null,
    familyHistory: null,
    priorRepair: null,
    considered: null,
    question: null,
    ...rest,
  };
}
