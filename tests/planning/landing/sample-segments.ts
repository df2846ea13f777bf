import { placeById } from "../../../src/anatomy/places.ts";
import type { CaseFacts, PatientCase, Station } from "../../../src/cases/patient-case.ts";
import { landingSegments } from "../../../src/planning/landing/landing-segments.ts";
import type { LandingSegment } from "../../../src/planning/landing/landing-segment.ts";
import type { SegmentBasis } from "../../../src/planning/landing/segment-basis.ts";
import { planningSchema } from "../../../src/site/planning-settings.ts";
import { asOf, inventedCase, type InventedDiameter } from "../../guidelines/invented-case.ts";

export const exam = "2026-03-02";

type MarkEdge = "proximal edge" | "distal edge" | "centre" | null;
export type Given = Partial<Omit<Station, "mark">> & { mark?: [place: string, edge: MarkEdge] };

/** An invented section: sound, round, 34 mm, native, without thrombus or calcium unless said otherwise. */
export function station(distanceMm: number, { mark, ...given }: Given = {}): Station {
  return {
    key: `S${distanceMm}`,
    distanceMm,
    point: null,
    mark: mark ? { place: placeById(mark[0]), edge: mark[1] } : null,
    wall: "native",
    lumen: "whole",
    edge: "inner",
    maximumMm: 34,
    minimumMm: null,
    perimeterMm: null,
    areaMm2: null,
    thrombusArcDeg: 0,
    thrombusThicknessMm: 0,
    calciumArcDeg: 0,
    source: { file: "invented-centreline.csv", sha256: null, at: null },
    reader: null,
    comment: null,
    ...given,
  };
}

/** A station that says only where a mark lies. */
export const mark = (distanceMm: number, place: string, edge: MarkEdge): Station =>
  station(distanceMm, {
    key: `S${distanceMm}-${place}`,
    mark: [place, edge],
    wall: null,
    maximumMm: null,
    thrombusArcDeg: null,
    thrombusThicknessMm: null,
    calciumArcDeg: null,
  });

/** Marks at 0, 60, 68, 80, 180 and 300 mm: zones 0 to 5 are 60, 8, 12, 20, 80 and 120 mm long. */
export const marks: readonly Station[] = [
  mark(0, "sinotubular-junction", null),
  mark(60, "innominate-artery", "distal edge"),
  mark(68, "left-common-carotid-artery", "distal edge"),
  mark(80, "left-subclavian-artery", "distal edge"),
  mark(180, "mid-descending", null),
  mark(300, "coeliac-artery", "proximal edge"),
];

/** Sections every 5 mm from 0 to 310 mm. */
export const everyFive = (given: (mm: number) => Given = () => ({})): Station[] =>
  Array.from({ length: 63 }, (_, index) => station(index * 5, given(index * 5)));

export function lineCase(
  stations: readonly Station[],
  stated: Partial<CaseFacts> = {},
  readings: InventedDiameter[] = [],
): PatientCase {
  return {
    ...inventedCase(readings, { archVariants: [], ...stated }),
    centrelines: [
      {
        exam,
        vessel: "aorta",
        label: "aorta",
        patientPosition: null,
        positionBy: null,
        origin: "centreline sheet",
        stations: stations.toSorted((one, other) => one.distanceMm - other.distanceMm),
      },
    ],
  };
}

export const basisOf = (rest: Partial<SegmentBasis> = {}): SegmentBasis => ({
  asOf,
  dissection: null,
  archConventions: [],
  planning: planningSchema.parse({}),
  readingSdMmOf: () => 1,
  stationSdMmOf: () => 1,
  ...rest,
});

/** Settings of a site that leaves these conditions out. */
export const leavingOut = (...kinds: string[]): SegmentBasis["planning"] =>
  planningSchema.parse({
    leaveOut: kinds.map((condition) => ({
      condition,
      reason: "not used here",
      by: "planning meeting",
      date: "2026-01-15",
    })),
  });

export function segmentOf(
  patientCase: PatientCase,
  end: LandingSegment["end"],
  zone: string,
  rest: Partial<SegmentBasis> = {},
  conditions: LandingSegment["conditions"] = "strictest published",
): LandingSegment {
  const found = landingSegments(patientCase, basisOf(rest))[end].find(
    (one) => one.zone === zone && one.conditions === conditions,
  );
  if (!found) throw new Error(`no segment of zone ${zone}, ${conditions}`);
  return found;
}
