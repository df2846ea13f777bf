import { placeById } from "../../../src/anatomy/places.ts";
import type { Centreline, PatientCase, Station } from "../../../src/cases/patient-case.ts";
import type { Vector } from "../../../src/geometry/vector.ts";
import {
  landingViews,
  type RingView,
  type ViewBasis,
} from "../../../src/planning/views/landing-views.ts";
import type { RingSegment } from "../../../src/planning/views/view-rings.ts";
import { inventedCase } from "../../guidelines/invented-case.ts";

/** The only exam of the invented cases. */
export const exam = "2026-03-02";

/** An invented station without a section. */
export const station = (distanceMm: number, given: Partial<Station> = {}): Station => ({
  key: `S${distanceMm}`,
  distanceMm,
  point: null,
  mark: null,
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
  source: { file: "invented.csv", sha256: null, at: null },
  reader: null,
  comment: null,
  ...given,
});

export const centreline = (given: Partial<Centreline> & { stations: Station[] }): Centreline => ({
  exam,
  vessel: "aorta",
  label: "aorta",
  patientPosition: "HFS",
  positionBy: null,
  origin: "centreline sheet",
  ...given,
});

/** Stations every 5 mm from 0 to 60 mm on a straight line, a round vessel; the left common carotid artery ends at 20 mm. */
export function straightLine(axis: Vector, diameterMm: number, given: Partial<Centreline> = {}) {
  const long = Math.hypot(...axis);
  return centreline({
    stations: Array.from({ length: 13 }, (_, index) => {
      const mm = index * 5;
      const [x, y, z] = axis.map((part) => (part / long) * mm);
      return station(mm, {
        point: [x ?? 0, y ?? 0, z ?? 0],
        maximumMm: diameterMm,
        minimumMm: diameterMm,
        mark: mm === 20 ? carotidEnd : null,
      });
    }),
    ...given,
  });
}

export const carotidEnd = {
  place: placeById("left-common-carotid-artery"),
  edge: "distal edge",
} as const;

/** The left common carotid artery in 5 mm steps from 20 mm on a straight aorta, in a direction of its own. */
export function carotid(aorticAxis: Vector, direction: Vector, given: Partial<Centreline> = {}) {
  const [aortic, own] = [Math.hypot(...aorticAxis), Math.hypot(...direction)];
  const at = (mm: number): Vector => {
    const [x, y, z] = aorticAxis.map(
      (part, index) => (part / aortic) * 20 + ((direction[index] ?? 0) / own) * mm,
    );
    return [x ?? 0, y ?? 0, z ?? 0];
  };
  return centreline({
    vessel: "left-common-carotid-artery",
    label: "left common carotid artery",
    stations: [0, 5, 10, 15, 20].map((mm) => station(mm, { key: `SC${mm}`, point: at(mm) })),
    ...given,
  });
}

/** An invented case with these centrelines. */
export const caseWith = (...centrelines: Centreline[]): PatientCase => ({
  ...inventedCase([]),
  centrelines,
});

export const viewBasis: ViewBasis = {
  planning: { cArm: { primaryDeg: 90, secondaryDeg: 45 } },
  segments: null,
  readingSdMmOf: () => 1,
  stationSdMmOf: () => 1,
};

/** The start of a landing segment of zone 2 as the one ring. */
export const segment = (
  startMm: number,
  endMm: number,
  more: Partial<RingSegment> = {},
): RingSegment => ({
  exam,
  zone: "2",
  conditions: "strictest published",
  startMm,
  endMm,
  ...more,
});

/** The only ring of a case. */
export const only = (patientCase: PatientCase, basis: ViewBasis = viewBasis): RingView => {
  const { rings } = landingViews(patientCase, basis);
  const [ring] = rings;
  if (!ring || rings.length > 1) throw new Error(`${rings.length} rings`);
  return ring;
};
