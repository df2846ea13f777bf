import { toDegrees, toRadians } from "../../geometry/degrees.ts";
import {
  detectorDirection,
  edgeOnNearestToFrontal,
  edgeOnPrimaryWithoutTiltDeg,
  edgeOnSecondaryDeg,
  type ViewAngles,
} from "../../geometry/projection.ts";
import { angleBetweenDeg, dot, unit, type Vector } from "../../geometry/vector.ts";
import { holds } from "../../quantities/limit.ts";

/** How far a C-arm turns to either side and tilts to head and foot, in degrees. */
export interface Reach {
  primaryDeg: number;
  secondaryDeg: number;
}

/** An axis of length 1, and by how many degrees it may lie to any side; null where nothing tells. */
export interface UncertainAxis {
  axis: Vector;
  uncertaintyDeg: number | null;
}

/** One view in which front and back of the ring coincide. */
export interface EdgeOnView extends ViewAngles {
  withinReach: boolean;
  fromFrontalDeg: number;
  /** How far the angle that was solved for moves where the axis lies otherwise by its uncertainty; null where that is not known or over 90. */
  plusMinusDeg: number | null;
}

/** The edge-on view at one primary angle. */
export interface FamilyRow {
  primaryDeg: number;
  /** "any" where every tilt is edge-on, null where none under 90 degrees is. */
  secondaryDeg: number | "any" | null;
  withinReach: boolean;
  /** Of the secondary angle, as in `EdgeOnView`. */
  plusMinusDeg: number | null;
}

/** All edge-on views of one ring. */
export interface ViewFamily {
  rows: FamilyRow[];
  /** Nearest to straight from the front, wherever it lies; null for an axis from front to back. */
  nearest: EdgeOnView | null;
  /** The same among those within reach; null where none is. */
  nearestWithinReach: EdgeOnView | null;
  /** The one without tilt to head or foot; null for a vertical axis, where every primary angle is one. */
  withoutTilt: EdgeOnView | null;
}

const stepDeg = 15;
const straightFromTheFront = detectorDirection(0, 0);

/** Whether a C-arm of this reach gets to the view. What arms, table and head end forbid together is not modelled. */
export function isWithinReach({ primaryDeg, secondaryDeg }: ViewAngles, reach: Reach): boolean {
  return (
    holds(Math.abs(primaryDeg), "<=", reach.primaryDeg) &&
    holds(Math.abs(secondaryDeg), "<=", reach.secondaryDeg)
  );
}

const fromFrontalDeg = ({ primaryDeg, secondaryDeg }: ViewAngles): number =>
  angleBetweenDeg(detectorDirection(primaryDeg, secondaryDeg), straightFromTheFront);

/**
 * To first order, how far one angle of an edge-on view must move to stay edge-on where the axis turns by its uncertainty:
 * that over the rate at which the direction of view leaves the plane of the ring. Null where unknown or over 90 degrees.
 */
function plusMinusDeg(
  { axis, uncertaintyDeg }: UncertainAxis,
  { primaryDeg, secondaryDeg }: ViewAngles,
  moved: "primary" | "secondary",
): number | null {
  if (uncertaintyDeg === null) return null;
  const [a, b] = [toRadians(primaryDeg), toRadians(secondaryDeg)];
  const rate: Vector =
    moved === "secondary"
      ? [-Math.sin(a) * Math.sin(b), Math.cos(a) * Math.sin(b), Math.cos(b)]
      : [Math.cos(a) * Math.cos(b), Math.sin(a) * Math.cos(b), 0];
  const across = Math.abs(dot(rate, axis));
  const moves = uncertaintyDeg === 0 ? 0 : uncertaintyDeg / across;
  return moves <= 90 ? moves : null;
}

/** The edge-on views of a ring at primary angles from -90 to 90 in steps of 15 degrees, and the ones that stand out. */
export function viewFamily(uncertain: UncertainAxis, reach: Reach): ViewFamily {
  const { axis } = uncertain;
  const rows = Array.from({ length: 180 / stepDeg + 1 }, (_, index): FamilyRow => {
    const primaryDeg = index * stepDeg - 90;
    const secondaryDeg = edgeOnSecondaryDeg(axis, primaryDeg);
    if (secondaryDeg === "any" || secondaryDeg === null) {
      const reached = secondaryDeg === "any" && holds(Math.abs(primaryDeg), "<=", reach.primaryDeg);
      return { primaryDeg, secondaryDeg, withinReach: reached, plusMinusDeg: null };
    }
    const view = { primaryDeg, secondaryDeg };
    return {
      ...view,
      withinReach: isWithinReach(view, reach),
      plusMinusDeg: plusMinusDeg(uncertain, view, "secondary"),
    };
  });
  const edgeOn = (view: ViewAngles, moved: "primary" | "secondary"): EdgeOnView => ({
    primaryDeg: view.primaryDeg,
    secondaryDeg: view.secondaryDeg,
    withinReach: isWithinReach(view, reach),
    fromFrontalDeg: fromFrontalDeg(view),
    plusMinusDeg: plusMinusDeg(uncertain, view, moved),
  });
  const nearest = edgeOnNearestToFrontal(axis);
  const reached = nearestWithinReach(axis, reach);
  const withoutTiltDeg = edgeOnPrimaryWithoutTiltDeg(axis);
  return {
    rows,
    nearest: nearest && edgeOn(nearest, "secondary"),
    nearestWithinReach: reached && edgeOn(reached, "secondary"),
    withoutTilt:
      withoutTiltDeg === null
        ? null
        : edgeOn({ primaryDeg: withoutTiltDeg, secondaryDeg: 0 }, "primary"),
  };
}

/**
 * The edge-on view within reach that is nearest to straight from the front. Along the circle of edge-on views the angle from
 * the front grows steadily on both sides of its least, so that the answer is that view itself or one on the border of the reach.
 */
function nearestWithinReach(axis: Vector, reach: Reach): ViewAngles | null {
  const along = unit(axis);
  if (along === null) return null;
  const nearest = edgeOnNearestToFrontal(along);
  const atPrimaryEnds = [reach.primaryDeg, -reach.primaryDeg].flatMap((primaryDeg) => {
    const secondaryDeg = edgeOnSecondaryDeg(along, primaryDeg);
    if (secondaryDeg === null) return [];
    return { primaryDeg, secondaryDeg: secondaryDeg === "any" ? 0 : secondaryDeg };
  });
  const candidates = [
    ...(nearest === null ? [] : [nearest]),
    ...atPrimaryEnds,
    ...atSecondaryEnds(along, reach),
  ];
  return (
    candidates
      .filter((view) => isWithinReach(view, reach))
      .toSorted((one, other) => fromFrontalDeg(one) - fromFrontalDeg(other))[0] ?? null
  );
}

/** Edge-on views at the ends of the reach to head and foot: u_y cos a - u_x sin a = u_z tan b solved for a. */
function atSecondaryEnds([x, y, z]: Vector, { secondaryDeg }: Reach): ViewAngles[] {
  const across = Math.hypot(x, y);
  return [secondaryDeg, -secondaryDeg].flatMap((endDeg) => {
    const share = (z * Math.tan(toRadians(endDeg))) / across;
    if (!(Math.abs(share) <= 1)) return [];
    const [middleDeg, halfDeg] = [toDegrees(Math.atan2(x, y)), toDegrees(Math.acos(share))];
    return [halfDeg - middleDeg, -halfDeg - middleDeg].map((primaryDeg) => ({
      primaryDeg: turned(primaryDeg),
      secondaryDeg: endDeg,
    }));
  });
}

/** The same angle over -180 to 180. */
const turned = (deg: number): number => deg - 360 * Math.ceil((deg - 180) / 360);
