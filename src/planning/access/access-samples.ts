import type {
  Centreline,
  Exam,
  Measurement,
  PatientCase,
  Station,
} from "../../cases/patient-case.ts";
import {
  diameterFromAreaMm,
  diameterFromPerimeterMm,
  diameterIn,
} from "../../quantities/equivalent-diameter.ts";
import type { EdgeId } from "../../quantities/measured-quantity.ts";

export type Side = "right" | "left";

/** The stretches of the way in, from the aorta down. */
const stretchIds = ["common iliac", "external iliac", "common femoral"] as const;
export type StretchId = (typeof stretchIds)[number];

/** The place of a stretch: an id of places.yaml, and the artery's name. */
export function stretchPlaces(side: Side): { id: StretchId; placeId: string; label: string }[] {
  const places = [`zone-10-${side}`, `zone-11-${side}`, `${side}-common-femoral-artery`];
  return stretchIds.map((id, index) => ({
    id,
    placeId: places[index] ?? "",
    label: `${side} ${id} artery`,
  }));
}

/** What the access rests on besides the case. Both functions give the SD of one diameter reading, in mm. */
export interface AccessErrors {
  readingSdMmOf: (reading: Measurement) => number;
  stationSdMmOf: (station: Station) => number;
}

/** One number that says how wide the lumen is somewhere on the way. */
export interface LumenSample {
  /** Null for a station whose place on the way can't be told. */
  stretch: StretchId | null;
  /** A diameter, or that of the circle with the area or perimeter measured: the lumen is nowhere wider at its narrowest. */
  diameterMm: number;
  /** Half of the 95 % interval of a diameter. */
  halfMm: number;
  /** A least diameter; false for a largest, mean or equivalent one. */
  isLeast: boolean;
  edge: EdgeId;
  isTrueLumen: boolean;
  areaMm2: number | null;
  /** One section of many; false for a reading that stands for its whole stretch. */
  isSection: boolean;
  key: string;
}

/** Sections along one stretch of the path that leave its least diameter or area open. */
interface StationGap {
  stretch: StretchId | null;
  withoutDiameter: number;
  withoutArea: number;
  of: number;
}

/** All that one exam says of the lumen on one side. */
export interface ExamSamples {
  exam: Exam;
  samples: LumenSample[];
  gaps: StationGap[];
  /** Between neighbouring sections of the path, in mm; null without a path. */
  largestGapMm: number | null;
  hasPath: boolean;
}

const halfInterval = 1.96;

/** What each exam up to `asOf` (YYYY-MM-DD) measures on one side, latest first. False lumens are left out. */
export function accessSamples(
  { exams, measurements, centrelines }: PatientCase,
  side: Side,
  asOf: string,
  errors: AccessErrors,
): ExamSamples[] {
  const places = new Map(stretchPlaces(side).map(({ id, placeId }) => [placeId, id]));
  const known = exams.filter(({ imagingDate }) => imagingDate <= asOf).toReversed();
  return known.map((exam) => {
    const measured = measurements.flatMap((one) => {
      const stretch = places.get(one.place.id);
      const isHere = one.exam === exam.key && stretch !== undefined && one.lumen !== "false";
      return isHere ? sampleOfMeasurement(one, stretch, errors) : [];
    });
    const path = centrelines.find(
      ({ exam: key, vessel }) => key === exam.key && vessel === `${side} access path`,
    );
    const sections = path ? sectionsOf(path, side) : [];
    const stations = sections.flatMap((one) => samplesOfStation(one, errors));
    return {
      exam,
      samples: [...measured, ...stations],
      gaps: gapsOf(sections),
      largestGapMm: largestGap(sections),
      hasPath: sections.length > 0,
    };
  });
}

function sampleOfMeasurement(
  reading: Measurement,
  stretch: StretchId,
  { readingSdMmOf }: AccessErrors,
): LumenSample[] {
  const { quantity, statistic, value, edge, lumen, key } = reading;
  const diameterMm = diameterIn(reading.quantity, reading.value);
  if (diameterMm === null) return [];
  const isShortAxis =
    quantity === "short-axis" && (statistic === "minimum" || statistic === "unstated");
  const isLeastArea = quantity === "area" && (statistic === "minimum" || statistic === "unstated");
  return [
    {
      stretch,
      diameterMm,
      halfMm: halfInterval * readingSdMmOf(reading),
      isLeast: isShortAxis || (quantity === "diameter" && statistic === "minimum"),
      edge,
      isTrueLumen: lumen === "true",
      areaMm2: isLeastArea ? value : null,
      isSection: false,
      key,
    },
  ];
}

/** One section of an access path. */
export interface Section {
  station: Station;
  /** Null before the first mark that tells. */
  stretch: StretchId | null;
}

/** The latest path on one side up to `asOf` (YYYY-MM-DD) with the date of its exam. */
export function latestPath(
  { exams, centrelines }: PatientCase,
  side: Side,
  asOf: string,
): { date: string; sections: Section[] } | null {
  for (const { key, imagingDate } of exams.toReversed()) {
    const path = centrelines.find(
      ({ exam, vessel }) => exam === key && vessel === `${side} access path`,
    );
    if (path && imagingDate <= asOf) {
      return { date: imagingDate, sections: sectionsOf(path, side) };
    }
  }
  return null;
}

/** The sections of a path, each in the stretch that the last mark before it begins. */
function sectionsOf({ stations }: Centreline, side: Side): Section[] {
  const begins = new Map<string, StretchId>([
    ["aortic-bifurcation", "common iliac"],
    [`${side}-internal-iliac-artery`, "external iliac"],
    ...stretchPlaces(side).map(({ id, placeId }): [string, StretchId] => [placeId, id]),
  ]);
  let stretch: StretchId | null = null;
  return stations
    .toSorted((a, b) => a.distanceMm - b.distanceMm)
    .map((station) => {
      stretch = begins.get(station.mark?.place.id ?? "") ?? stretch;
      return { station, stretch };
    })
    .filter(({ station }) => station.lumen !== "false");
}

function samplesOfStation(
  { station, stretch }: Section,
  { stationSdMmOf }: AccessErrors,
): LumenSample[] {
  const { key, edge, lumen, minimumMm, maximumMm, perimeterMm, areaMm2 } = station;
  const halfMm = halfInterval * stationSdMmOf(station);
  const base = { stretch, halfMm, edge, isTrueLumen: lumen === "true", isSection: true, key };
  const sample = (diameterMm: number, isLeast: boolean, area: number | null): LumenSample => ({
    ...base,
    diameterMm,
    isLeast,
    areaMm2: area,
  });
  return [
    ...(minimumMm === null ? [] : [sample(minimumMm, true, null)]),
    ...(maximumMm === null ? [] : [sample(maximumMm, false, null)]),
    ...(perimeterMm === null ? [] : [sample(diameterFromPerimeterMm(perimeterMm), false, null)]),
    ...(areaMm2 === null ? [] : [sample(diameterFromAreaMm(areaMm2), false, areaMm2)]),
  ];
}

function gapsOf(sections: readonly Section[]): StationGap[] {
  const without = (own: readonly Section[], number: "minimumMm" | "areaMm2"): number =>
    own.filter(({ station }) => station[number] === null || station.edge !== "inner").length;
  return [...Map.groupBy(sections, ({ stretch }) => stretch)].map(([stretch, own]) => ({
    stretch,
    withoutDiameter: without(own, "minimumMm"),
    withoutArea: without(own, "areaMm2"),
    of: own.length,
  }));
}

function largestGap(sections: readonly Section[]): number | null {
  const at = sections.map(({ station }) => station.distanceMm);
  const gaps = at.slice(1).map((mm, index) => mm - (at[index] ?? mm));
  return gaps.length === 0 ? null : Math.max(...gaps);
}
