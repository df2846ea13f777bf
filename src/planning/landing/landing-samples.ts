import { isWholeLumen } from "../whole-lumen.ts";
import type { Station } from "../../cases/patient-case.ts";
import type { MeasuredLine } from "../../geometry/smoothed-line.ts";
import { remembered } from "../remembered.ts";
import { turnDeg } from "./centreline-turn.ts";
import { landingConditions } from "./landing-conditions.ts";
import { bulgeMm, type DiameterAt } from "./diameter-line.ts";
import type { ZoneWall } from "./zone-wall.ts";

/** All that is known of the aorta at one distance on its centreline. */
export interface LandingSection {
  /** In mm; along the run of the stretch, so that it falls distally where the sections are mirrored. */
  atMm: number;
  zone: string | null;
  /** Keys of the stations. */
  keys: string[];
  /** The largest diameter with half its 95 % interval, in mm; `isLargest` is false for one reckoned from perimeter or area. */
  diameter: { mm: number; errorMm: number; isLargest: boolean } | null;
  /** What the wall is made of; null where that is not stated. */
  surface: string | null;
  /** Why no seal is counted here; not sure where it is said of the whole zone only. */
  disease: { what: string; isSure: boolean; used: string[] } | null;
  /** What would have to be known of the wall; null where all is. */
  wallMissing: string | null;
  thrombusArcDeg: number | null;
  thrombusThicknessMm: number | null;
  calciumArcDeg: number | null;
  /** True where calcium is stated to be on a part of the circumference, without saying how much. */
  isCalciumPartial: boolean;
  /** Turn of the centreline around it by the length it is taken over; `why` where the points do not show it. */
  turnOver: (withinMm: number) => number | { why: string };
  /** How far the diameter stands out over the least one within `withinMm` on either side, in mm; null without diameter. */
  bulgeOver: (withinMm: number) => number | null;
}

/** What a finding on the whole of a zone says of calcium in its circumference. */
export type ZoneCalcium = "none" | "partial" | "circumferential";

/** The part of the circumference that such a finding states, in degrees; null for a part that is not known. */
export const calciumArcOf = (calcium: ZoneCalcium | null): number | null =>
  calcium === "none" ? 0 : calcium === "circumferential" ? 360 : null;

/** What the sections take from the case besides their stations. */
export interface SectionBasis {
  zoneAt: (atMm: number) => string | null;
  wallOf: (zone: string) => ZoneWall;
  /** Findings on the whole of a zone. */
  foundIn: (zone: string) => { noThrombus: boolean; calcium: ZoneCalcium | null };
  /** The largest angle measured in a zone, in degrees: used where the points do not show the turn. */
  angleIn: (zone: string) => number | null;
  /** Diagnoses of the wall whose place is not stated ("penetrating ulcer"). */
  unplacedDisease: readonly string[];
  /** Whether a section of a lumen that is not stated may be of one lumen only. */
  mayBeDissected: boolean;
  /** SD of the diameter of a station, in mm. */
  stationSdMmOf: (station: Station) => number;
  /** Smoothed. */
  points: MeasuredLine;
}

const isSection = (station: Station): boolean =>
  [
    station.maximumMm,
    station.minimumMm,
    station.perimeterMm,
    station.areaMm2,
    station.wall,
    station.thrombusArcDeg,
    station.thrombusThicknessMm,
    station.calciumArcDeg,
  ].some((value) => value !== null);

/** The sections of a centreline by distance; stations at one distance are one section, by the worst that each states. */
export function landingSections(
  stations: readonly Station[],
  basis: SectionBasis,
): LandingSection[] {
  const groups = [...Map.groupBy(stations.filter(isSection), ({ distanceMm }) => distanceMm)];
  const sections = groups
    .toSorted(([one], [other]) => one - other)
    .map(([atMm, group]) => sectionOf(atMm, group, basis));
  const line = diameterLine(sections);
  return sections.map((section) => ({
    ...section,
    bulgeOver: remembered((withinMm) => section.diameter && bulgeMm(line, section.atMm, withinMm)),
  }));
}

/** The diameters along the sections that have one. */
export const diameterLine = (
  sections: readonly Pick<LandingSection, "atMm" | "diameter">[],
): DiameterAt[] =>
  sections.flatMap(({ atMm, diameter }) => (diameter === null ? [] : { atMm, mm: diameter.mm }));

function sectionOf(
  atMm: number,
  group: readonly Station[],
  basis: SectionBasis,
): Omit<LandingSection, "bulgeOver"> {
  const zone = basis.zoneAt(atMm);
  const found = zone === null ? null : basis.foundIn(zone);
  const worst = (of: (station: Station) => number | null): number | null => {
    const values = group.flatMap((station) => of(station) ?? []);
    return values.length === 0 ? null : Math.max(...values);
  };
  const free = found?.noThrombus ? 0 : null;
  return {
    atMm,
    zone,
    keys: group.map(({ key }) => key),
    diameter: diameterOf(group, basis),
    ...wallOf(group, zone === null ? null : basis.wallOf(zone), basis),
    thrombusArcDeg: worst(({ thrombusArcDeg }) => thrombusArcDeg) ?? free,
    thrombusThicknessMm:
      worst(({ thrombusThicknessMm }) => thrombusThicknessMm) ??
      (worst(({ thrombusArcDeg }) => thrombusArcDeg) === 0 ? 0 : free),
    calciumArcDeg:
      worst(({ calciumArcDeg }) => calciumArcDeg) ?? calciumArcOf(found?.calcium ?? null),
    isCalciumPartial: found?.calcium === "partial",
    turnOver: remembered((withinMm) => {
      const turn = turnDeg(basis.points, atMm, withinMm);
      const measured = typeof turn === "number" || zone === null ? null : basis.angleIn(zone);
      return measured ?? turn;
    }),
  };
}

function diameterOf(
  group: readonly Station[],
  { mayBeDissected, stationSdMmOf }: SectionBasis,
): LandingSection["diameter"] {
  const whole = group.filter(({ lumen }) => isWholeLumen(lumen, mayBeDissected));
  const diameters = whole.flatMap((station) => {
    const { maximumMm, perimeterMm, areaMm2 } = station;
    const roundMm =
      perimeterMm === null
        ? areaMm2 === null
          ? null
          : 2 * Math.sqrt(areaMm2 / Math.PI)
        : perimeterMm / Math.PI;
    const mm = maximumMm ?? roundMm;
    if (mm === null) return [];
    return { mm, errorMm: 1.96 * stationSdMmOf(station), isLargest: maximumMm !== null };
  });
  return diameters.reduce<LandingSection["diameter"]>(
    (largest, next) => (largest !== null && largest.mm >= next.mm ? largest : next),
    null,
  );
}

const { unsound } = landingConditions.walls;

/** What the stations say of the wall, else what is said of the zone. */
function wallOf(
  group: readonly Station[],
  ofZone: ZoneWall | null,
  { unplacedDisease }: SectionBasis,
): Pick<LandingSection, "surface" | "disease" | "wallMissing"> {
  const stated = group.flatMap(({ wall }) => wall ?? []);
  const diseased = stated.find((wall) => unsound.includes(wall));
  const inOneLumen = group.find(({ lumen }) => lumen === "true" || lumen === "false");
  const keys = group.map(({ key }) => key);
  if (ofZone?.outdated) {
    const disease = { what: "the wall was repaired after the exam", isSure: true, used: keys };
    return { surface: null, disease, wallMissing: ofZone.outdated };
  }
  if (diseased !== undefined) {
    const disease = { what: `wall stated as: ${diseased}`, isSure: true, used: keys };
    return { surface: "native", disease, wallMissing: null };
  }
  const [surface] = stated;
  if (surface !== undefined) return { surface, disease: null, wallMissing: null };
  if (inOneLumen) {
    const what = `a ${inOneLumen.lumen} lumen was measured here`;
    return { surface: "native", disease: { what, isSure: true, used: keys }, wallMissing: null };
  }
  if (ofZone?.disease) {
    const disease = { what: ofZone.disease, isSure: false, used: ofZone.used };
    return { surface: ofZone.surface, disease, wallMissing: ofZone.missing[0] ?? null };
  }
  const where = unplacedDisease.map((disease) => `where the ${disease} lies`);
  const missing = [...(ofZone?.missing ?? ["wall"]), ...where];
  return { surface: ofZone?.surface ?? null, disease: null, wallMissing: missing[0] ?? null };
}
