import { isTooTight } from "./arc.ts";
import { toDegrees } from "./degrees.ts";
import { add, angleBetweenDeg, cross, norm, scale, subtract, unit } from "./vector.ts";
import type { Vector } from "./vector.ts";

/** Rounding in mm that a distance may carry and still lie on the border of a stretch. */
const roundingMm = 1e-9;

/** Sine of the turn under which three points lie on one line. */
const straightSine = 1e-12;

/**
 * Length in mm of a line through points in mm, in order: the sum of the chords, 0 for fewer than 2 points. Never over
 * the length of the smooth curve the points were taken from; short of it by about spacing^2 / (24 R^2) of it on a
 * bend of radius R (0.04 % at R / 10). Points that scatter about the curve make it too long.
 */
export function polylineLengthMm(points: readonly Vector[]): number {
  return distancesAlongMm(points).at(-1) ?? 0;
}

/**
 * Length over the straight distance from end to end, 1 for a straight line (not the form that subtracts 1); null under
 * 2 points or where the ends meet.
 */
export function tortuosityIndex(points: readonly Vector[]): number | null {
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return null;
  const endToEndMm = norm(subtract(last, first));
  const index = polylineLengthMm(points) / endToEndMm;
  return endToEndMm > 0 && Number.isFinite(index) ? Math.max(index, 1) : null;
}

/** Direction of a line at one place. */
export interface Tangent {
  /** Of length 1, towards growing distance. */
  axis: Vector;
  /**
   * How far the points scatter about the straight line, by bend and by noise: the arc tangent of the root mean square of
   * their distance from it over half the stretch they cover. It describes the scatter; it is no standard error.
   */
  spreadDeg: number;
  pointsUsed: number;
  /** Mean distance of the points used: on a bend the direction is that of the line here, not at the place asked for. */
  centreMm: number;
}

/**
 * Direction of a line by least squares: position regressed on distance, over the points at most `halfWindowMm` from
 * `atMm`. Points and their distances along the line in mm, as many of one as of the other. Says why there is none where
 * the place lies outside the line, where fewer than 3 points lie in the window, or where they show no direction.
 */
export function tangentAt(
  points: readonly Vector[],
  distancesMm: readonly number[],
  atMm: number,
  halfWindowMm: number,
): Tangent | { why: string } {
  if (points.length !== distancesMm.length)
    return { why: "points and distances along the line differ in number" };
  const isInside =
    atMm >= Math.min(...distancesMm) - roundingMm && atMm <= Math.max(...distancesMm) + roundingMm;
  if (!isInside) return { why: "the place lies outside the line" };
  const used = points
    .map((point, index) => ({ point, mm: distancesMm[index] ?? Number.NaN }))
    .filter(({ mm }) => Math.abs(mm - atMm) <= halfWindowMm + roundingMm);
  if (used.length < 3) return { why: "fewer than 3 points of the line lie this near to the place" };

  const share = 1 / used.length;
  const centreMm = used.reduce((sum, { mm }) => sum + mm * share, 0);
  const middle = used.reduce<Vector>((sum, { point }) => add(sum, scale(point, share)), [0, 0, 0]);
  const slope = used.reduce<Vector>(
    (sum, { point, mm }) => add(sum, scale(subtract(point, middle), mm - centreMm)),
    [0, 0, 0],
  );
  const axis = unit(slope);
  const all = used.map(({ mm }) => mm);
  const halfStretchMm = (Math.max(...all) - Math.min(...all)) / 2;
  if (!axis || !(halfStretchMm > 0))
    return { why: "the points near the place show no direction along the line" };
  const squares = used.map(({ point }) => norm(cross(axis, subtract(point, middle))) ** 2);
  const offLineMm = Math.sqrt(squares.reduce((sum, square) => sum + square * share, 0));
  return {
    axis,
    spreadDeg: toDegrees(Math.atan2(offLineMm, halfStretchMm)),
    pointsUsed: used.length,
    centreMm,
  };
}

/**
 * Radius in mm of the circle through three points (side over twice the sine of the opposite angle, which is
 * abc / 4 area); null for three points on a line, whose radius is infinite, and for points that coincide.
 */
export function circumradiusMm(a: Vector, b: Vector, c: Vector): number | null {
  const [before, after] = [unit(subtract(b, a)), unit(subtract(c, b))];
  if (!before || !after) return null;
  const sine = norm(cross(before, after));
  const radiusMm = norm(subtract(c, a)) / (2 * sine);
  return sine > straightSine && radiusMm > 0 && Number.isFinite(radiusMm) ? radiusMm : null;
}

/** The bend of a line at one of its inner points. */
export interface Curvature {
  /** Distance along the line. */
  atMm: number;
  /** Of the circle through this point and its neighbours; null where they lie on a line. */
  radiusMm: number | null;
  /** Angle between the chords to the neighbours, 0 to 180. */
  turnDeg: number;
  /** Across the plane of the bend, of length 1 (right-handed about it); null where the line does not bend. */
  bendNormal: Vector | null;
}

/** The bend at every inner point of a line through points in mm, in order; a point repeated on the spot counts once. */
export function curvaturesAlong(points: readonly Vector[]): Curvature[] {
  const apart = withoutRepeats(points);
  const distancesMm = distancesAlongMm(apart);
  return apart.slice(1, -1).flatMap((point, index) => {
    const [previous, next, atMm] = [apart[index], apart[index + 2], distancesMm[index + 1]];
    if (!previous || !next || atMm === undefined) return [];
    const [before, after] = [subtract(point, previous), subtract(next, point)];
    const radiusMm = circumradiusMm(previous, point, next);
    return {
      atMm,
      radiusMm,
      turnDeg: angleBetweenDeg(before, after),
      bendNormal: radiusMm === null ? null : unit(cross(before, after)),
    };
  });
}

/** Lengths in mm of a line and of the two sides of the vessel about it. */
export interface CurveLengths {
  centrelineMm: number;
  innerMm: number;
  outerMm: number;
  /** Sum of all bends, whatever their plane: the integral of the curvature. */
  turnDeg: number;
  /** Null for a straight line. The points are too far apart to trust where their spacing is over a tenth of it. */
  leastRadiusMm: number | null;
}

/**
 * Lengths of a vessel's centreline, its inner and its outer side, from points of the centreline in mm, in order, and
 * the diameter in mm at each distance along it: the integral of 1 -/+ D / 2R over the chords (trapezoidal rule; the
 * ends bend as their neighbours do). The lengths are those of the inner and outer curve where the line bends in
 * one plane to one side. Where it bends to several sides they are the short and the long side of each bend put together, which is
 * no single line on the wall: the least and the most that any line which keeps its place beside the centreline can have.
 *
 * Says why there are none: under 3 points, a diameter that is no number above 0, a line that turns back on itself, or
 * a radius that is not over half the diameter.
 */
export function curveLengthsMm(
  points: readonly Vector[],
  diameterMmAt: (mm: number) => number,
): CurveLengths | { why: string } {
  const apart = withoutRepeats(points);
  const bends = curvaturesAlong(apart);
  const [firstBend, lastBend] = [bends[0], bends.at(-1)];
  if (!firstBend || !lastBend) return { why: "fewer than 3 points show no bend" };
  const distancesMm = distancesAlongMm(apart);
  const places = [firstBend, ...bends, lastBend].map(({ radiusMm, turnDeg }, index) => {
    const atMm = distancesMm[index] ?? 0;
    return { atMm, radiusMm, turnDeg, diameterMm: diameterMmAt(atMm) };
  });
  const why = places.map(whyNoSides).find((reason) => reason !== null);
  if (why !== undefined) return { why };

  let [differenceMm, turn] = [0, 0];
  for (const [index, place] of places.entries()) {
    const shareMm = ((distancesMm[index + 1] ?? place.atMm) - (distancesMm[index - 1] ?? 0)) / 2;
    if (place.radiusMm === null) continue;
    turn += shareMm / place.radiusMm;
    differenceMm += (shareMm * place.diameterMm) / place.radiusMm;
  }
  const centrelineMm = polylineLengthMm(apart);
  const radii = bends.flatMap(({ radiusMm }) => radiusMm ?? []);
  return {
    centrelineMm,
    innerMm: centrelineMm - differenceMm / 2,
    outerMm: centrelineMm + differenceMm / 2,
    turnDeg: toDegrees(turn),
    leastRadiusMm: radii.length > 0 ? Math.min(...radii) : null,
  };
}

function whyNoSides(place: {
  atMm: number;
  radiusMm: number | null;
  turnDeg: number;
  diameterMm: number;
}): string | null {
  const { radiusMm, turnDeg, diameterMm } = place;
  const where = `at ${place.atMm.toFixed(1)} mm`;
  if (!(diameterMm > 0 && Number.isFinite(diameterMm)))
    return `the diameter ${where} is not a number above 0`;
  if (radiusMm === null) return turnDeg > 90 ? `the line turns back on itself ${where}` : null;
  return isTooTight(radiusMm, diameterMm)
    ? `the radius of the bend ${where} is not over half the diameter`
    : null;
}

function distancesAlongMm(points: readonly Vector[]): number[] {
  let mm = 0;
  return points.map((point, index) => {
    const previous = points[index - 1];
    if (previous) mm += norm(subtract(point, previous));
    return mm;
  });
}

const withoutRepeats = (points: readonly Vector[]): Vector[] =>
  points.filter((point, index) => {
    const previous = points[index - 1];
    return !previous || norm(subtract(point, previous)) > 0;
  });
