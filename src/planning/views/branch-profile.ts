import type { Centreline } from "../../cases/patient-case.ts";
import { tangentAt } from "../../geometry/polyline.ts";
import { profileView, type ViewAngles } from "../../geometry/projection.ts";
import type { Vector } from "../../geometry/vector.ts";
import { holds } from "../../quantities/limit.ts";
import { linePoints } from "../line-points.ts";
import { type NotAssessable, whyNoAngles } from "./may-view.ts";
import { isWithinReach, type Reach } from "./view-family.ts";

/** The view in which the ring is edge-on and a branch runs across the view, so that its origin stands in profile. */
export interface BranchProfile {
  branch: string;
  view: ViewAngles & { withinReach: boolean };
  /** Scatter of the branch's points about its direction. */
  spreadDeg: number;
  points: number;
  used: string[];
}

/** First part of a branch that its direction is taken from; chosen here, no source. */
const branchStartMm = 15;
/** A direction whose points scatter more is not used; common practice, no source. */
export const mostSpreadDeg = 5;

/** The view of one branch beside a ring, or what is missing for it. `line` is the branch's own centreline. */
export function branchProfile(
  label: string,
  line: Centreline | null,
  ringAxis: Vector,
  reach: Reach,
): BranchProfile | NotAssessable {
  const what = `view of the origin of the ${label} in profile`;
  const noCourse = {
    what,
    missing: `course of the ${label} in patient coordinates: at least 3 points within ${branchStartMm} mm of its origin`,
  };
  if (line === null) return noCourse;
  const placed = linePoints(line);
  const originMm = line.stations[0]?.distanceMm ?? 0;
  const half = branchStartMm / 2;
  const tangent = startDirection(placed, originMm + half, half);
  if (tangent === null) return noCourse;
  const lying = whyNoAngles(line);
  if (lying !== null) return { what, missing: lying.missing };
  if (!holds(tangent.spreadDeg, "<=", mostSpreadDeg)) {
    return {
      what,
      missing: `course of the ${label} with points that scatter by at most ${mostSpreadDeg}° about one direction over its first ${branchStartMm} mm (these: ${tangent.spreadDeg.toFixed(1)}°)`,
    };
  }
  const view = profileView(ringAxis, tangent.axis);
  if (view === null) {
    return { what, missing: `a ${label} that leaves at 10° or more from the axis of the ring` };
  }
  return {
    branch: label,
    view: { ...view, withinReach: isWithinReach(view, reach) },
    spreadDeg: tangent.spreadDeg,
    points: tangent.pointsUsed,
    used: placed.stations.filter((_, index) =>
      holds(placed.distancesMm[index] ?? 0, "<=", originMm + branchStartMm),
    ),
  };
}

function startDirection(
  { points, distancesMm }: ReturnType<typeof linePoints>,
  middleMm: number,
  halfMm: number,
): { axis: Vector; spreadDeg: number; pointsUsed: number } | null {
  const start = distancesMm.filter((mm) => holds(Math.abs(mm - middleMm), "<=", halfMm));
  const [first, last] = [start[0], start.at(-1)];
  if (first === undefined || last === undefined) return null;
  // A line shorter than the window is asked for at its own middle: a place beyond it has no direction.
  const atMm = (first + last) / 2;
  const tangent = tangentAt(points, distancesMm, atMm, (last - first) / 2);
  return "why" in tangent ? null : tangent;
}
