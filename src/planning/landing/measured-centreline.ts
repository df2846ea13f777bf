import { mayBeDissected } from "../whole-lumen.ts";
import { placeById } from "../../anatomy/places.ts";
import type { Centreline, Exam, Measurement, PatientCase } from "../../cases/patient-case.ts";
import type { BendAt } from "../../geometry/line-bends.ts";
import { smoothedPoints } from "../line-points.ts";
import { remembered } from "../remembered.ts";
import { type DiameterAt } from "./diameter-line.ts";
import {
  diameterLine,
  type LandingSection,
  landingSections,
  type ZoneCalcium,
} from "./landing-samples.ts";
import type { ConditionSet } from "./landing-conditions.ts";
import type { LandingSegment } from "./landing-segment.ts";
import { sectionJudge, type SectionVerdict } from "./section-verdict.ts";
import type { SegmentBasis } from "./segment-basis.ts";
import { type Border, type ZoneBorder, zoneBorders } from "./zone-borders.ts";
import { zoneWall } from "./zone-wall.ts";

/** The centreline of the aorta that segments are computed along. */
export interface CentrelineMeasured {
  exam: { key: string; date: string };
  sections: LandingSection[];
  /** The same from the far end, at distances below zero. */
  mirrored: LandingSection[];
  /** What each of them is by a set of conditions. */
  judges: ((set: ConditionSet) => SectionVerdict)[];
  bends: readonly BendAt[];
  /** Along the whole line. */
  diameters: readonly DiameterAt[];
  radiiIn: (zones: readonly string[]) => Measurement[];
  /** The borders of a zone in the direction in which a segment of this end runs. */
  reachOf: (
    zone: string,
    end: LandingSegment["end"],
  ) => { from: ZoneBorder; to: Border } | { missing: string[] };
  /** Where no segment of this end goes beyond. */
  boundOf: (end: LandingSegment["end"]) => Border;
}

const wallDiagnoses = ["intramural haematoma", "penetrating ulcer"];

/** Of the latest exam up to the as-of date that has a centreline of the aorta with sections; null without one. */
export function centrelineMeasured(
  patientCase: PatientCase,
  basis: SegmentBasis,
): CentrelineMeasured | null {
  const { asOf, dissection, archConventions, readingSdMmOf, stationSdMmOf } = basis;
  const found = latest(patientCase, asOf);
  if (found === null) return null;
  const { exam, centreline } = found;
  const points = smoothedPoints(centreline);
  const { stations } = centreline;
  const measurements = patientCase.measurements.filter((one) => one.exam === exam.key);
  const borders = zoneBorders(
    stations,
    measurements.filter(({ place }) => place.kind === "branch"),
    { patientCase, archConventions, errorMmOf: (reading) => 1.96 * readingSdMmOf(reading) },
  );
  const { diagnoses } = patientCase.facts;
  const sections = landingSections(stations, {
    zoneAt: borders.zoneAt,
    wallOf: remembered((zone) => zoneWall(zone, { patientCase, dissection, exam, asOf })),
    foundIn: remembered((zone) => foundIn(zone, patientCase, exam)),
    angleIn: remembered((zone) => {
      const angles = measurements.filter(
        ({ quantity, place }) =>
          quantity === "angle" && place.kind !== "branch" && place.zones.includes(zone),
      );
      return angles.length === 0 ? null : Math.max(...angles.map(({ value }) => value));
    }),
    unplacedDisease: wallDiagnoses.filter((one) => (diagnoses ?? []).includes(one)),
    mayBeDissected: mayBeDissected(patientCase, dissection),
    stationSdMmOf,
    points,
  });
  if (sections.length === 0) return null;
  const diameters = diameterLine(sections);
  const [first, last] = [sections[0]?.atMm ?? 0, sections.at(-1)?.atMm ?? 0];
  return {
    exam: { key: exam.key, date: exam.imagingDate },
    sections,
    mirrored: sections.toReversed().map((one) => ({ ...one, atMm: -one.atMm })),
    judges: sections.map(sectionJudge),
    bends: points.bends,
    diameters,
    radiiIn: (zones) =>
      measurements.filter(
        ({ quantity, place }) =>
          quantity === "radius" &&
          place.kind !== "branch" &&
          place.zones.some((zone) => zones.includes(zone)),
      ),
    reachOf: (zone, end) => {
      const own = borders.of(zone);
      if (own === null) return { missing: [`the borders of zone ${zone} in this arch`] };
      const [from, to] = end === "proximal" ? [own.from, own.to] : [own.to, own.from];
      if ("missing" in from) return { missing: [from.missing] };
      const isReached = end === "proximal" ? from.low < last : from.high > first;
      return isReached ? { from, to } : { missing: [`sections of the centreline in zone ${zone}`] };
    },
    boundOf: (end) => {
      const border = end === "proximal" ? borders.of("5")?.to : borders.of("0")?.from;
      return border ?? { missing: "the end of the zones" };
    },
  };
}

function latest(
  { exams, centrelines }: PatientCase,
  asOf: string,
): { exam: Exam; centreline: Centreline } | null {
  for (const exam of exams.toReversed()) {
    if (exam.imagingDate > asOf) continue;
    const centreline = centrelines.find(
      (one) =>
        one.exam === exam.key &&
        one.vessel === "aorta" &&
        one.stations.some(({ maximumMm, perimeterMm, areaMm2 }) =>
          [maximumMm, perimeterMm, areaMm2].some((value) => value !== null),
        ),
    );
    if (centreline) return { exam, centreline };
  }
  return null;
}

/** What the findings of an exam say of the whole of a zone. */
export function foundIn(
  zone: string,
  { findings }: PatientCase,
  exam: Pick<Exam, "key">,
): { noThrombus: boolean; calcium: ZoneCalcium | null } {
  const { id } = placeById(`zone-${zone}`);
  const states = (finding: string): string[] =>
    findings
      .filter((one) => one.exam === exam.key && one.place.id === id && one.finding === finding)
      .map(({ state }) => state);
  const isAll = (all: readonly string[], state: string): boolean =>
    all.length > 0 && all.every((one) => one === state);
  const calcium = states("wall calcium");
  const isAround = calcium.includes("circumferential");
  return {
    noThrombus: isAll(states("wall thrombus"), "absent"),
    calcium: isAround
      ? "circumferential"
      : isAll(calcium, "absent")
        ? "none"
        : isAll(calcium, "part of the circumference")
          ? "partial"
          : null,
  };
}
