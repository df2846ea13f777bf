import { toDegrees } from "../../geometry/degrees.ts";
import {
  ringDisplacementMm,
  shownLengthMm,
  tiltDeg,
  type ViewAngles,
} from "../../geometry/projection.ts";
import type { UncertainAxis } from "./view-family.ts";

/** How a landing ring deceives in one view. */
export interface DisplacementRow extends ViewAngles {
  /** Angle between the vessel and the detector: 0 edge-on, 90 along the vessel. */
  tiltDeg: number;
  /** Front to back of the ring on the screen, in mm at the patient; over the diameter's reading error and the axis's uncertainty. Null without a diameter. */
  displacementMm: { value: number; low: number; high: number } | null;
  /** How much is seen of a length of 20 mm along the vessel. */
  shownOf20Mm: number;
}

/** Length that the shortening is shown of: 20 mm of seal, common practice. */
const shownLengthOfMm = 20;
/** Front and back this far apart are taken for one line; chosen here, no source. */
export const keptWithinMm = 2;

const commonViews: readonly ViewAngles[] = [0, 30, 45, 60, 75].map((primaryDeg) => ({
  primaryDeg,
  secondaryDeg: 0,
}));

/** The common views without tilt, straight from the front to 75 degrees to the left, and one more. */
export function displacements(
  uncertain: UncertainAxis,
  diameterMm: { value: number; low: number; high: number } | null,
  further: ViewAngles | null,
): DisplacementRow[] {
  const views = further === null ? commonViews : [...commonViews, further];
  return views.map(({ primaryDeg, secondaryDeg }) => {
    const tilt = tiltDeg(uncertain.axis, primaryDeg, secondaryDeg);
    const off = uncertain.uncertaintyDeg ?? 0;
    return {
      primaryDeg,
      secondaryDeg,
      tiltDeg: tilt,
      displacementMm: diameterMm && {
        value: ringDisplacementMm(diameterMm.value, tilt),
        low: ringDisplacementMm(diameterMm.low, Math.max(0, tilt - off)),
        high: ringDisplacementMm(diameterMm.high, Math.min(90, tilt + off)),
      },
      shownOf20Mm: shownLengthMm(shownLengthOfMm, tilt),
    };
  });
}

/** The tilt in degrees up to which front and back of a ring lie within 2 mm: asin(2 / D); 90 for a ring no wider than that. */
export function allowedTiltDeg(diameterMm: number): number {
  return toDegrees(Math.asin(Math.min(1, keptWithinMm / diameterMm)));
}

/**
 * Further shift in mm at the patient between two points that differ in depth, away from the central ray: r x depth / distance
 * from the source, all in mm. First order in depth over distance.
 */
export function perspectiveShiftMm({
  offCentreMm,
  depthMm,
  sourceMm,
}: {
  offCentreMm: number;
  depthMm: number;
  sourceMm: number;
}): number {
  return (offCentreMm * depthMm) / sourceMm;
}
