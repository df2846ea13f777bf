import type { Centreline, Measurement, Station } from "../../cases/patient-case.ts";
import { formatLength } from "../../quantities/format-length.ts";
import {
  diameterFromAreaMm,
  diameterFromPerimeterMm,
} from "../../quantities/equivalent-diameter.ts";
import { vesselLumens } from "../line-points.ts";

/** A diameter in mm with its 95 % interval, and how it was made. */
export interface VesselDiameter {
  value: number;
  low: number;
  high: number;
  method: string;
  used: string[];
}

interface SectionDiameter {
  atMm: number;
  valueMm: number;
  method: string;
  halfIntervalMm: number;
  key: string;
}

type Section = Pick<Station, "perimeterMm" | "areaMm2" | "maximumMm" | "minimumMm">;

/** The round vessel that a section stands for: from its perimeter, else its area, else its diameters. */
function roundDiameter(section: Section): { valueMm: number; method: string } | null {
  const { perimeterMm, areaMm2, maximumMm, minimumMm } = section;
  if (perimeterMm !== null)
    return { valueMm: diameterFromPerimeterMm(perimeterMm), method: "perimeter over pi" };
  if (areaMm2 !== null)
    return {
      valueMm: diameterFromAreaMm(areaMm2),
      method: "diameter of the circle of the same area",
    };
  if (maximumMm !== null && minimumMm !== null)
    return {
      valueMm: (maximumMm + minimumMm) / 2,
      method: "mean of largest and smallest diameter",
    };
  if (maximumMm !== null) return { valueMm: maximumMm, method: "largest diameter alone" };
  return null;
}

/**
 * Diameter of the vessel at a distance on its centreline, on the straight line between the sections next to it; null where
 * there is none on either side. The whole lumen comes before one that is not stated, and that before the true lumen.
 * `stationSdMmOf` gives the SD of one reading.
 */
export function vesselDiameters(
  { stations }: Centreline,
  stationSdMmOf: (station: Station) => number,
): (atMm: number) => VesselDiameter | null {
  const byLumen = vesselLumens.map((lumen) => {
    const sections = stations
      .filter((station) => station.lumen === lumen)
      .flatMap((station): SectionDiameter[] => {
        const round = roundDiameter(station);
        if (round === null) return [];
        const { distanceMm, key } = station;
        return [{ ...round, atMm: distanceMm, halfIntervalMm: 1.96 * stationSdMmOf(station), key }];
      });
    return { words: lumenWords[lumen], sections };
  });
  return (atMm) => {
    for (const { words, sections } of byLumen) {
      const before = sections.findLast((section) => section.atMm <= atMm);
      const after = sections.find((section) => section.atMm >= atMm);
      if (before && after) return between(before, after, atMm, words);
    }
    return null;
  };
}

const lumenWords = {
  whole: "whole lumen",
  unstated: "lumen not stated",
  true: "true lumen",
} as const;

function between(
  before: SectionDiameter,
  after: SectionDiameter,
  atMm: number,
  lumen: string,
): VesselDiameter {
  const gapMm = after.atMm - before.atMm;
  const share = gapMm === 0 ? 0 : (atMm - before.atMm) / gapMm;
  const value = before.valueMm + share * (after.valueMm - before.valueMm);
  const halfMm = Math.max(before.halfIntervalMm, after.halfIntervalMm);
  const where =
    gapMm === 0
      ? `section at ${formatLength(before.atMm)}`
      : `between sections at ${formatLength(before.atMm)} and ${formatLength(after.atMm)}`;
  const methods = [...new Set([before.method, after.method])].join(" and ");
  return {
    value,
    low: Math.max(0, value - halfMm),
    high: value + halfMm,
    method: `${methods}, ${lumen}, ${where}`,
    used: [...new Set([before.key, after.key])],
  };
}

/** The diameter that a measurement of a section gives; null for one that gives none. `sdMm` is the SD of one reading. */
export function diameterOfMeasurement(
  measurement: Measurement,
  sdMm: number,
): VesselDiameter | null {
  const { quantity, value, key } = measurement;
  const none = { perimeterMm: null, areaMm2: null, maximumMm: null, minimumMm: null };
  const sections: Partial<Record<Measurement["quantity"], Section>> = {
    perimeter: { ...none, perimeterMm: value },
    area: { ...none, areaMm2: value },
    diameter: { ...none, maximumMm: value },
    "long-axis": { ...none, maximumMm: value },
  };
  const section = sections[quantity];
  const round = section === undefined ? null : roundDiameter(section);
  if (round === null) return null;
  const method =
    quantity === "diameter" || quantity === "long-axis" ? `${quantity} as reported` : round.method;
  const halfMm = 1.96 * sdMm;
  return {
    value: round.valueMm,
    low: Math.max(0, round.valueMm - halfMm),
    high: round.valueMm + halfMm,
    method,
    used: [key],
  };
}
