import { formatLength } from "../../quantities/format-length.ts";
import { spans } from "../../quantities/limit.ts";
import { landingConditions } from "./landing-conditions.ts";
import type { LandingSegment, LengthRange } from "./landing-segment.ts";

const leastMm = 1;
const limitsMm = [...new Set(landingConditions.seals.map(({ limit }) => limit))].toSorted(
  (one, other) => one - other,
);

/**
 * Whether the sections lie near enough together for the lengths asked. `neededMm` is how far the length lies from the
 * nearest of them, at least 1 mm: sections so far apart at both ends leave it on its side of that limit.
 */
export function segmentSpacing(
  lengthMm: LengthRange,
  largestMm: number | null,
): LandingSegment["spacing"] {
  const margins = limitsMm.map((limit) => Math.abs(lengthMm.value - limit));
  const neededMm = Math.max(leastMm, Math.min(...margins));
  const open = limitsMm.filter((limit) => spans(lengthMm.low, lengthMm.high, limit));
  const apart =
    largestMm === null ? "" : `Sections up to ${formatLength(largestMm)} apart at the stretch. `;
  const words =
    open.length === 0
      ? `${apart}The length lies on one side of every limit over gaps and reading error.`
      : `${apart}Open over gaps and reading error: ${open.join(", ")} mm; sections at most ${formatLength(neededMm)} apart around both ends would settle the nearest limit as far as gaps go.`;
  return { largestMm, neededMm, words };
}
