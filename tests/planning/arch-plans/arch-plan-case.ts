import { placeById } from "../../../src/anatomy/places.ts";
import { dissectionOf } from "../../../src/cases/dissection.ts";
import type { CaseFacts, PatientCase, Station } from "../../../src/cases/patient-case.ts";
import type { FindingId } from "../../../src/cases/vocabulary.ts";
import {
  type ArchPlan,
  type ArchPlanBasis,
  archPlans,
} from "../../../src/planning/arch-plans/arch-plans.ts";
import { asOf, inventedCase, type InventedDiameter } from "../../guidelines/invented-case.ts";

/** The day of the only exam of the invented cases. */
export const examDay = "2026-03-02";

/** A row of an invented finding sheet: place id, what, state. */
type FindingRow = readonly [string, FindingId, string];

/** A mark on an invented centreline: place id, edge, distance in mm. */
type MarkRow = readonly [string, "proximal edge" | "distal edge" | "centre" | null, number];

/** What an invented case for the arch plans holds. */
export interface ArchPlanCase {
  facts?: Partial<CaseFacts>;
  readings?: InventedDiameter[];
  findings?: readonly FindingRow[];
  /** On the aorta unless said otherwise. */
  marks?: readonly MarkRow[];
  vessel?: string;
  /** Diameters of stations, distance and diameter in mm. */
  stations?: readonly (readonly [number, number])[];
  birthDate?: string | null;
}

function station(
  distanceMm: number,
  { mark = null, maximumMm = null }: Partial<Station>,
  vessel: string,
): Station {
  return {
    key: `S-${vessel}-${distanceMm}`,
    distanceMm,
    point: null,
    mark,
    wall: null,
    lumen: "whole",
    edge: "inner",
    maximumMm,
    minimumMm: null,
    perimeterMm: null,
    areaMm2: null,
    thrombusArcDeg: null,
    thrombusThicknessMm: null,
    calciumArcDeg: null,
    source: { file: "invented.csv", sha256: null, at: null },
    reader: null,
    comment: null,
  };
}

/** An invented patient with the usual arch and nothing repaired, unless said otherwise. */
export function archPlanCase({
  facts = {},
  readings = [],
  findings = [],
  marks = [],
  vessel = "aorta",
  stations = [],
  birthDate = "1960-01-01",
}: ArchPlanCase): PatientCase {
  const base = inventedCase(
    readings,
    { archVariants: [], considered: null, ...facts },
    { birthDate },
  );
  const line = [
    ...marks.map(([id, edge, atMm]) =>
      station(atMm, { mark: { place: placeById(id), edge } }, vessel),
    ),
    ...stations.map(([atMm, maximumMm]) => station(atMm, { maximumMm }, vessel)),
  ].toSorted((a, b) => a.distanceMm - b.distanceMm);
  return {
    ...base,
    findings: findings.map(([id, finding, state], index) => ({
      key: `F${index}`,
      exam: examDay,
      place: placeById(id),
      finding,
      state,
      source: { file: "invented-findings.csv", sha256: null, at: null },
      reader: null,
      comment: null,
    })),
    centrelines:
      line.length === 0
        ? []
        : [
            {
              exam: examDay,
              vessel,
              label: vessel,
              patientPosition: null,
              positionBy: null,
              origin: "centreline sheet",
              stations: line,
            },
          ],
  };
}

/** All plans of an invented case; a reading and a station have an SD of 1 mm. */
export function plansOf(held: ArchPlanCase, basis: Partial<ArchPlanBasis> = {}): ArchPlan[] {
  const patientCase = archPlanCase(held);
  return archPlans(patientCase, {
    asOf,
    dissection: dissectionOf(patientCase, asOf),
    archConventions: [],
    readingSdMmOf: () => 1,
    stationSdMmOf: () => 1,
    ...basis,
  });
}

/** One plan by its id. */
export function planOf(
  id: ArchPlan["id"],
  held: ArchPlanCase,
  basis: Partial<ArchPlanBasis> = {},
): ArchPlan {
  const plan = plansOf(held, basis).find((one) => one.id === id);
  if (!plan) throw new Error(`no plan ${id}`);
  return plan;
}
