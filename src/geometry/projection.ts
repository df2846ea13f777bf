/**
 * Directions of view of a C-arm in the patient coordinates of `vector.ts` (DICOM PS3.3 C.7.6.2.1.1: x to the left, y to
 * the back, z to the head). Angles are the positioner angles of DICOM PS3.3 C.8.7.5.1.2, which are about the patient:
 * the primary one positive to the patient's left (LAO), the secondary one positive to the head (cranial), both 0 with
 * the detector straight in front of a patient on the back. The angles about the equipment's isocentre, which newer images
 * may carry beside them, are others.
 *
 * Axes and directions may have any length above 0; the sign of an axis does not matter.
 */
import { toDegrees, toRadians } from "./degrees.ts";
import { angleBetweenDeg, cross, dot, norm, unit } from "./vector.ts";
import type { Vector } from "./vector.ts";

/** A view in degrees: primary positive to the patient's left (LAO), secondary positive to the head (cranial). */
export interface ViewAngles {
  primaryDeg: number;
  secondaryDeg: number;
}

/** Components of a direction of length 1 that are 0 but for rounding. */
const rounding = 1e-12;

/** Under this angle between vessel and branch the view across both follows the measuring error; common practice, no source. */
const leastBranchAngleDeg = 10;

/** Direction of length 1 from the patient to the detector: (sin a cos b, -cos a cos b, sin b). */
export function detectorDirection(primaryDeg: number, secondaryDeg: number): Vector {
  const [a, b] = [toRadians(primaryDeg), toRadians(secondaryDeg)];
  return [Math.sin(a) * Math.cos(b), -Math.cos(a) * Math.cos(b), Math.sin(b)];
}

/**
 * The view along a line, from its end in front of the patient (primary -90 to 90, secondary -90 to 90). A line
 * straight across is viewed from the left (90, 0), one straight up from the head (0, 90).
 */
export function anglesOf(direction: Vector): ViewAngles {
  const [x, y, z] = unit(direction) ?? direction;
  const level = Math.hypot(x, y);
  const isUpright = level <= rounding;
  const hasNoFront = Math.abs(y) <= rounding * level;
  const deciding = isUpright ? z : hasNoFront ? x : -y;
  const side = deciding < 0 ? -1 : 1;
  // Straight up the primary angle has no meaning, and 0 stands for it.
  const primary = isUpright ? 0 : Math.atan2(side * x, hasNoFront ? 0 : -side * y);
  const secondary = Math.atan2(side * z, isUpright ? 0 : level);
  // Adding 0 makes 0 of -0.
  return { primaryDeg: toDegrees(primary) + 0, secondaryDeg: toDegrees(secondary) + 0 };
}

/**
 * Secondary angle, -90 to 90, that views a ring about the axis edge-on at a given primary angle:
 * tan b = (u_y cos a - u_x sin a) / u_z. "any" where every one does, null where none under 90 degrees does.
 */
export function edgeOnSecondaryDeg(axis: Vector, primaryDeg: number): number | "any" | null {
  const along = unit(axis);
  if (!along) return null;
  const [x, y, z] = along;
  const a = toRadians(primaryDeg);
  const rise = y * Math.cos(a) - x * Math.sin(a);
  if (Math.abs(z) > rounding) return toDegrees(Math.atan(rise / z)) + 0;
  return Math.abs(rise) <= rounding ? "any" : null;
}

/**
 * Primary angle, over -90 to 90, that views a ring about the axis edge-on with a secondary angle of 0:
 * tan a = u_y / u_x. Null for a vertical axis, where every one does.
 */
export function edgeOnPrimaryWithoutTiltDeg(axis: Vector): number | null {
  const along = unit(axis);
  if (!along) return null;
  const [x, y] = along;
  if (Math.hypot(x, y) <= rounding) return null;
  return Math.abs(x) <= rounding ? 90 : toDegrees(Math.atan(y / x)) + 0;
}

/**
 * The edge-on view of a ring about the axis that is closest to straight from the front, and how many degrees it is from
 * there: the direction from the front projected on the plane of the ring. Null where the axis itself runs from front to back:
 * all edge-on views are then 90 degrees from the front.
 */
export function edgeOnNearestToFrontal(
  axis: Vector,
): (ViewAngles & { fromFrontalDeg: number }) | null {
  const along = unit(axis);
  if (!along) return null;
  const [x, y, z] = along;
  if (Math.hypot(x, z) <= 1e-9) return null;
  // -e_y - (-e_y . u) u, its y as -(x^2 + z^2): the difference 1 - y^2 loses digits near the front.
  const direction: Vector = [x * y, -(x * x + z * z), z * y];
  return {
    ...anglesOf(direction),
    fromFrontalDeg: toDegrees(Math.atan2(Math.abs(y), Math.hypot(x, z))),
  };
}

/** Angle in degrees between the axis and the plane of the detector: 0 edge-on, 90 along the axis. */
export function tiltDeg(axis: Vector, primaryDeg: number, secondaryDeg: number): number {
  const direction = detectorDirection(primaryDeg, secondaryDeg);
  return toDegrees(Math.atan2(Math.abs(dot(direction, axis)), norm(cross(direction, axis))));
}

/**
 * How far apart the front and the back of a ring lie on the detector, in mm at the patient: D sin(tilt), the short axis of the
 * ellipse the ring is seen as. Parallel rays; the cone of a real beam adds to it away from its middle.
 */
export function ringDisplacementMm(diameterMm: number, tiltDeg: number): number {
  return diameterMm * Math.sin(toRadians(tiltDeg));
}

/** How long a straight length along the axis is seen, in mm at the patient: L cos(tilt). Parallel rays. */
export function shownLengthMm(lengthMm: number, tiltDeg: number): number {
  return lengthMm * Math.cos(toRadians(tiltDeg));
}

/**
 * The view that shows a branch leaving in profile: across both the vessel's axis and the branch's, along their cross
 * product. Null where the two are under 10 degrees from one line.
 */
export function profileView(axis: Vector, branchAxis: Vector): ViewAngles | null {
  const [vessel, branch] = [unit(axis), unit(branchAxis)];
  if (!vessel || !branch) return null;
  const between = angleBetweenDeg(vessel, branch);
  const offOneLineDeg = Math.min(between, 180 - between);
  return offOneLineDeg < leastBranchAngleDeg - 1e-9 ? null : anglesOf(cross(vessel, branch));
}
