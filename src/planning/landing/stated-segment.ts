import type { Measurement } from "../../cases/patient-case.ts";
import { type LandingSegment, type LengthRange, sectionsEnd } from "./landing-segment.ts";

/** A sound length carries no error that is on file: its range is the value itself. */
const asStated = (reading: Measurement | undefined): LengthRange | null =>
  reading === undefined ? null : { value: reading.value, low: reading.value, high: reading.value };

const pathWords = {
  centreline: "along the centreline",
  "inner-curve": "along the inner curve",
  "outer-curve": "along the outer curve",
  unstated: "along a path that is not stated",
} as const;

/** The segment that the reader measured himself; which conditions he held is not known. The shortest reading of each path. */
export function statedSegment(
  base: LandingSegment,
  exam: { key: string; date: string },
  readings: readonly Measurement[],
): LandingSegment {
  const sorted = readings.toSorted((one, other) => one.value - other.value);
  const along = (path: Measurement["path"]) => sorted.find((reading) => reading.path === path);
  const centreline = along("centreline") ?? along("unstated");
  const paths = [...new Set(sorted.map(({ path }) => pathWords[path]))];
  const used = sorted.map(({ key }) => key);
  const whose = { condition: null, atMm: null, used, source: null };
  const innerMm = asStated(along("inner-curve"));
  return {
    ...base,
    basis: "sound length as stated",
    exam: exam.key,
    date: exam.date,
    lengthMm: asStated(centreline),
    innerMm,
    outerMm: asStated(along("outer-curve")),
    curveMethod: `as stated, ${paths.join(", ")}`,
    begunBy: { ...whose, what: "Where the reader of the sound length begins it." },
    endedBy: { ...whose, what: "Where the reader of the sound length ends it." },
    spacing: {
      largestMm: null,
      neededMm: null,
      words: "The sections that the reader judged it by are not stated.",
    },
    used,
    missing: [
      ...base.missing,
      ...(innerMm === null ? [`sound length along the inner curve in zone ${base.zone}`] : []),
    ],
  };
}

/** The segment of a zone for which nothing is stated. */
export function emptySegment(
  head: Pick<LandingSegment, "end" | "zone" | "conditions" | "leftOut">,
  missing: string[],
  why = `Nothing is measured of zone ${head.zone}.`,
): LandingSegment {
  const nowhere = { what: why, condition: sectionsEnd, atMm: null, used: [], source: null };
  return {
    ...head,
    basis: "none",
    exam: null,
    date: null,
    surface: null,
    startMm: null,
    endMm: null,
    zoneStartMm: null,
    zoneEndMm: null,
    lengthMm: null,
    innerMm: null,
    outerMm: null,
    curveMethod: null,
    begunBy: nowhere,
    endedBy: nowhere,
    notAssessed: [],
    spacing: { largestMm: null, neededMm: null, words: "No sections." },
    stations: [],
    used: [],
    missing,
  };
}
