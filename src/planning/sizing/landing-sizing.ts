import { placeById } from "../../anatomy/places.ts";
import type { Dissection } from "../../cases/dissection.ts";
import type { Measurement, PatientCase, Station } from "../../cases/patient-case.ts";
import { wallAt } from "../../cases/wall.ts";
import { holds } from "../../quantities/limit.ts";
import type { InventoryRow } from "../../readers/csv/inventory.ts";
import type { PlanningSettings } from "../../site/planning-settings.ts";
import type { ZoneCoverage } from "../landing/coverage.ts";
import type { LandingSegment } from "../landing/landing-segment.ts";
import { landingWall, zoneDissected } from "../landing/landing-zone-facts.ts";
import { type Sizing, sizing } from "./sizing.ts";
import {
  sectionsFromMeasurements,
  sectionsFromStations,
  type SizingSection,
} from "./sizing-section.ts";
import type { EndFacts } from "./sizing-situation.ts";

/** A graft from one proximal zone to one distal stretch; without a distal one, its proximal end alone. */
export interface LandingSizing {
  fromZone: string;
  toZone: string | null;
  sizing: Sizing;
}

export interface LandingSizingBasis {
  /** YYYY-MM-DD. */
  asOf: string;
  dissection: Dissection | null;
  planning: PlanningSettings;
  inventory: readonly InventoryRow[] | null;
  readingSdMmOf: (reading: Measurement) => number;
  stationSdMmOf: (station: Station) => number;
}

/** Longest seal in mm that a source asks for beside open surgery: sections so far inside the stretch size an end. */
const longestSealMm = 25;

/**
 * Sizing of every candidate zone with sizes at its proximal end, for each distal stretch beyond the disease, and for each
 * distal zone that is known to be dissected and has no sound stretch: there a graft ends in the true lumen, and how much
 * it covers is not known. `segments` are those of the strictest conditions. An end is sized by the sections of its
 * stretch that lie in the zone or within 25 mm of the stretch's beginning; without a stretch by the sections and the
 * sizes of the zone.
 */
export function landingSizings(
  patientCase: PatientCase,
  segments: { proximal: readonly LandingSegment[]; distal: readonly LandingSegment[] },
  pairs: readonly ZoneCoverage[],
  basis: LandingSizingBasis,
): LandingSizing[] {
  const { facts } = patientCase;
  const distalEnds = segments.distal.map((segment): Distal => ({
    zone: segment.zone,
    sections: sectionsOf(segment, patientCase, basis),
    facts: endFacts(segment.zone, patientCase, basis),
    isSound: segment.startMm !== null,
  }));
  return segments.proximal.flatMap((upper): LandingSizing[] => {
    const proximal = sectionsOf(upper, patientCase, basis);
    if (proximal.length === 0) return [];
    const upperFacts = endFacts(upper.zone, patientCase, basis);
    return targetsOf(upper, distalEnds, pairs).map(({ lower, coverage }) => ({
      fromZone: upper.zone,
      toZone: lower?.zone ?? null,
      sizing: sizing({
        proximal,
        distal: lower?.sections ?? [],
        diagnoses: facts.diagnoses,
        onsetDate: facts.onsetDate,
        asOf: basis.asOf,
        walls: { proximal: upperFacts, distal: lower?.facts ?? nowhere },
        aetiology: facts.aetiology,
        dissection: basis.dissection,
        coverage,
        inventory: basis.inventory,
        planning: basis.planning,
      }),
    }));
  });
}

interface Distal {
  zone: string;
  sections: SizingSection[];
  facts: EndFacts;
  /** Whether it has a sound stretch along a centreline. */
  isSound: boolean;
}

/** Where a graft may end, with the length covered as far as it is known. */
interface Target {
  lower: Distal | null;
  coverage: Pick<ZoneCoverage, "leastMm" | "mostMm"> | null;
}

const nowhere: EndFacts = { wall: "unclear: where it ends", isDissected: null };

/** Where a graft from one zone may end; null alone where no distal end is known. */
function targetsOf(
  { zone }: LandingSegment,
  ends: readonly Distal[],
  pairs: readonly ZoneCoverage[],
): Target[] {
  const targets = ends.flatMap((lower): Target[] => {
    const pair = pairs.find((one) => one.fromZone === zone && one.toZone === lower.zone);
    if (pair) return [{ lower, coverage: { leastMm: pair.leastMm, mostMm: pair.mostMm } }];
    const endsInTrueLumen =
      lower.facts.isDissected === true &&
      !lower.isSound &&
      lower.sections.length > 0 &&
      Number(lower.zone) > Number(zone);
    return endsInTrueLumen ? [{ lower, coverage: null }] : [];
  });
  return targets.length > 0 ? targets : [{ lower: null, coverage: null }];
}

function sectionsOf(
  segment: LandingSegment,
  patientCase: PatientCase,
  basis: LandingSizingBasis,
): SizingSection[] {
  const isIn = reachOf(segment);
  const line = patientCase.centrelines.find(
    ({ exam, vessel }) => exam === segment.exam && vessel === "aorta",
  );
  const inside = (line?.stations ?? []).filter(
    ({ distanceMm }) => isIn !== null && isIn(distanceMm),
  );
  const ofStations = sectionsFromStations(inside, basis.stationSdMmOf);
  if (segment.startMm !== null) return ofStations;
  const ofZone = zoneSections(segment.zone, patientCase, basis);
  if (ofStations.length === 0) return ofZone.sections;
  return ofZone.exam === segment.exam ? [...ofStations, ...ofZone.sections] : ofStations;
}

/** Sections of a whole zone in the latest exam that has sizes of it; none from before a repair of the zone. */
function zoneSections(
  zone: string,
  { facts, measurements, exams }: PatientCase,
  { asOf, readingSdMmOf }: LandingSizingBasis,
): { exam: string | null; sections: SizingSection[] } {
  const sizes = measurements.filter(
    ({ place }) => place.kind !== "branch" && place.zones.includes(zone),
  );
  const latest = exams.findLast(
    ({ key, imagingDate }) => imagingDate <= asOf && sizes.some(({ exam }) => exam === key),
  );
  const wall = landingWall(zone, facts.priorRepairs, asOf);
  if (latest === undefined || wall.isShownBy(latest) === false) return { exam: null, sections: [] };
  const own = sizes.filter(({ exam }) => exam === latest.key);
  return { exam: latest.key, sections: sectionsFromMeasurements(own, readingSdMmOf) };
}

/**
 * Whether a distance lies where the seal of this end would lie; of a distal end without a sound stretch, whether it lies in
 * the zone. Null without a centreline.
 */
function reachOf({
  end,
  zoneEndMm,
  startMm,
  endMm,
  endedBy,
}: LandingSegment): ((atMm: number) => boolean) | null {
  if (startMm === null || endMm === null) {
    if (end === "proximal" || zoneEndMm === null || endedBy.atMm === null) return null;
    return within(zoneEndMm, endedBy.atMm);
  }
  return end === "proximal"
    ? within(startMm, Math.min(Math.max(zoneEndMm ?? startMm, startMm + longestSealMm), endMm))
    : within(Math.max(Math.min(zoneEndMm ?? endMm, endMm - longestSealMm), startMm), endMm);
}

const within =
  (lowMm: number, highMm: number) =>
  (atMm: number): boolean =>
    holds(atMm, ">=", lowMm) && holds(atMm, "<=", highMm);

function endFacts(
  zone: string,
  { facts }: PatientCase,
  { asOf, dissection }: LandingSizingBasis,
): EndFacts {
  const wall = wallAt(placeById(`zone-${zone}`), facts.priorRepairs, asOf, "present");
  const isNative = "kind" in wall && wall.kind === "native";
  const state =
    zoneDissected(zone, dissection, landingWall(zone, facts.priorRepairs, asOf))?.state ?? "no";
  const isDissected = state === "yes" ? true : state === "no" ? false : null;
  if ("unclear" in wall) return { wall: `unclear: ${wall.unclear}`, isDissected };
  if (isNative) return { wall: "native", isDissected };
  const isStented = ["stent graft", "frozen elephant trunk"].includes(wall.kind);
  if (isStented) return { wall: "stent graft", isDissected };
  return wall.kind === "repaired, kind not stated"
    ? { wall: "unclear: what the repair is made of", isDissected }
    : { wall: "graft", isDissected };
}
