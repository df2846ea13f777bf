import { holds } from "../../quantities/limit.ts";
import type { LandingSegment } from "./landing-segment.ts";

/** How much of the aorta fabric from one landing zone to another would cover, along the centreline. */
export interface ZoneCoverage {
  fromZone: string;
  toZone: string;
  /** From the beginning of the proximal stretch to `leastSealMm` inside the distal one; to its end where that is shorter. */
  leastMm: number;
  /** From the beginning of the proximal stretch to the end of the distal one. */
  mostMm: number;
  /** How far beyond the border of its zone the proximal stretch begins; null where the border is not known. */
  beyondBorderMm: number | null;
  /** Keys of the stations that it reaches from and to. */
  used: string[];
}

/** Seal in mm that the least cover reaches into the distal stretch: the shortest that a source asks for. */
const leastSealMm = 20;

/**
 * Covered lengths for every pair of a proximal and a distal stretch on one centreline, along the vessel. A pair is left
 * out where a stretch has no distances, where the distal one does not lie beyond the end of the proximal one, or where they come
 * from different exams; `missing` says for each proximal zone without any pair what it waits for.
 */
export function coverages(
  proximal: readonly LandingSegment[],
  distal: readonly LandingSegment[],
): { pairs: ZoneCoverage[]; missing: { zone: string; what: string }[] } {
  const pairs = proximal.flatMap((upper) =>
    distal.flatMap((lower): ZoneCoverage[] => {
      if (upper.startMm === null || lower.startMm === null || lower.endMm === null) return [];
      if (upper.endMm === null || upper.exam !== lower.exam) return [];
      if (!holds(lower.startMm, ">=", upper.endMm)) return [];
      const end = Math.min(lower.startMm + leastSealMm, lower.endMm);
      return [
        {
          fromZone: upper.zone,
          toZone: lower.zone,
          leastMm: end - upper.startMm,
          mostMm: lower.endMm - upper.startMm,
          beyondBorderMm: upper.zoneStartMm === null ? null : upper.startMm - upper.zoneStartMm,
          used: [...new Set([...upper.stations.slice(0, 1), ...lower.stations])],
        },
      ];
    }),
  );
  const missing = [...new Set(proximal.map(({ zone }) => zone))]
    .filter((zone) => !pairs.some(({ fromZone }) => fromZone === zone))
    .map((zone) => ({
      zone,
      what: `the aortic centreline of one exam from zone ${zone} to a distal landing`,
    }));
  return { pairs, missing };
}
