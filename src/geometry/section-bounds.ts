/** A number that is known to lie from `low` to `high`, ends included. */
export interface Interval {
  low: number;
  high: number;
}

/**
 * What can be measured on one plane figure, in mm and mm2.
 *
 * - `across`: some diameter: not over the longest chord, not under the smallest width
 * - `largest`: the longest chord, which is also the largest width
 * - `smallest`: the smallest width
 * - `perpendicular`: the extent at right angles to the longest chord, or the longest chord in that direction
 * - `mean`: the mean of the widths in all directions, or that of `largest` and `smallest`
 */
export type SectionPart =
  | "across"
  | "largest"
  | "smallest"
  | "perpendicular"
  | "mean"
  | "perimeter"
  | "area";

/** A limit on one part that follows from others by mathematics alone; `value` never falls when one of them grows. */
export interface SectionBound {
  of: SectionPart;
  side: "at least" | "at most";
  by: readonly SectionPart[];
  value: (...by: number[]) => number;
  /** True where it holds for figures without dents only. */
  convexOnly: boolean;
  /** True where it also holds between the extremes of a stretch of vessel, which may lie in different sections. */
  alongStretch: boolean;
}

/** Smallest perimeter in mm of a figure with this longest chord and smallest width: the hull of the chord and a disc. */
export function leastPerimeterMm(largestMm: number, smallestMm: number): number {
  const { flankMm, widthMm, angle } = lens(largestMm, smallestMm);
  return 2 * flankMm + 2 * widthMm * angle;
}

/** Largest perimeter in mm of a convex figure with these: the part of a disc between two parallel lines. */
export function mostPerimeterMm(largestMm: number, smallestMm: number): number {
  const { flankMm, angle } = lens(largestMm, smallestMm);
  return 2 * flankMm + 2 * largestMm * angle;
}

/**
 * Largest area in mm2 of a convex figure with these: the part of a disc between two parallel lines. The extent at right
 * angles to the chord may stand for the smallest width: symmetrising about the chord keeps area and extent.
 */
export function mostAreaMm2(largestMm: number, smallestMm: number): number {
  const { flankMm, widthMm, angle } = lens(largestMm, smallestMm);
  return (widthMm * flankMm + largestMm ** 2 * angle) / 2;
}

function lens(largestMm: number, smallestMm: number) {
  const widthMm = Math.min(smallestMm, largestMm);
  // As a product and by the arc tangent: the difference of squares and the arc sine lose half of the digits near a circle.
  const flankMm = Math.sqrt((largestMm - widthMm) * (largestMm + widthMm));
  return { widthMm, flankMm, angle: Math.atan2(widthMm, flankMm) };
}

/** The angle that is its own cosine: its sine is the smallest over the largest width where their mean is furthest off. */
const ownCosine = 0.7390851332151607;

const anyFigure = { convexOnly: false, alongStretch: false };
const anyStretch = { convexOnly: false, alongStretch: true };
const convex = { convexOnly: true, alongStretch: false };
const convexStretch = { convexOnly: true, alongStretch: true };

type Rest = Pick<SectionBound, "convexOnly" | "alongStretch">;
const limit =
  (side: SectionBound["side"]) =>
  (of: SectionPart, by: SectionPart[], value: SectionBound["value"], rest: Rest): SectionBound => ({
    of,
    side,
    by,
    value,
    ...rest,
  });
const atLeast = limit("at least");
const atMost = limit("at most");

/**
 * The limits, those from one part before those from two, and of one pair the sharper first. The inequalities of area,
 * perimeter, largest and smallest width (isoperimetric; isodiametric; Cauchy: the mean width is perimeter over pi) are as
 * in table 3 of Debayle 2019 (doi 10.1051/metal/2019011); those of Pal 1921 (area from width) and Kubota 1923 (three parts) are
 * recalled, not compared. The others follow from the hull of the longest chord and the extent across it, or from these.
 */
export const sectionBounds: readonly SectionBound[] = [
  atMost("across", ["largest"], (D) => D, anyStretch),
  atLeast("across", ["smallest"], (d) => d, anyStretch),
  atLeast("mean", ["largest"], (D) => D / 2, convex),
  atMost("mean", ["perimeter"], (P) => P / (4 * ownCosine), anyFigure),
  atLeast("mean", ["perimeter"], (P) => P / 4, convex),
  atLeast(
    "mean",
    ["area"],
    (A) => Math.sqrt((A * (1 + Math.sin(ownCosine))) / (2 * ownCosine)),
    convex,
  ),
  atMost("perimeter", ["largest"], (D) => Math.PI * D, convexStretch),
  atLeast("perimeter", ["smallest"], (d) => Math.PI * d, anyStretch),
  atLeast("perimeter", ["perpendicular"], (w) => 2 * Math.SQRT2 * w, anyFigure),
  atLeast("perimeter", ["across"], (u) => 2 * u, anyFigure),
  atMost("area", ["perimeter"], (P) => P ** 2 / (4 * Math.PI), anyFigure),
  atMost("area", ["largest"], (D) => (Math.PI * D ** 2) / 4, anyStretch),
  atLeast("area", ["smallest"], (d) => d ** 2 / Math.sqrt(3), convexStretch),
  atLeast("area", ["perpendicular"], (w) => w ** 2 / 2, convex),
  atLeast("perimeter", ["largest", "smallest"], leastPerimeterMm, anyFigure),
  atMost("perimeter", ["largest", "smallest"], mostPerimeterMm, convex),
  atLeast("perimeter", ["largest", "perpendicular"], (D, w) => 2 * Math.hypot(D, w), anyFigure),
  atMost("area", ["largest", "smallest"], mostAreaMm2, convex),
  atMost("area", ["largest", "perpendicular"], mostAreaMm2, convex),
  atLeast("area", ["largest", "smallest"], (D, d) => (D * d) / 2, convex),
  atLeast("area", ["largest", "perpendicular"], (D, w) => (D * w) / 2, convex),
  atMost("mean", ["largest", "smallest"], (D, d) => mostPerimeterMm(D, d) / Math.PI, convex),
  atLeast(
    "mean",
    ["largest", "smallest"],
    (D, d) => Math.min(leastPerimeterMm(D, d) / Math.PI, (D + d) / 2),
    convex,
  ),
];
