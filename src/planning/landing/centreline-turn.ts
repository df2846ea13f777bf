import { firstIndex } from "../../geometry/first-index.ts";
import { tangentAt } from "../../geometry/polyline.ts";
import type { MeasuredLine } from "../../geometry/smoothed-line.ts";
import { angleBetweenDeg } from "../../geometry/vector.ts";

const leastHalfWindowMm = 5;

/**
 * How far the centreline turns, in degrees, over the `withinMm` around a place, as the angle between its directions at
 * both ends (each by least squares over at least 5 mm to either side). Near the ends of the line the stretch moves
 * inward. `why` where the points are too few or too far apart.
 */
export function turnDeg(
  { distancesMm, points }: MeasuredLine,
  atMm: number,
  withinMm: number,
): number | { why: string } {
  const why = `points of the centreline at most ${withinMm / 2} mm apart around it`;
  const [first, last] = [distancesMm[0], distancesMm.at(-1)];
  if (first === undefined || last === undefined) return { why };
  const indexFrom = (mm: number): number =>
    firstIndex(distancesMm.length, (index) => (distancesMm[index] ?? 0) >= mm);
  const reachMm = 2 * withinMm;
  const near = distancesMm
    .slice(indexFrom(atMm - reachMm), indexFrom(atMm + reachMm) + 1)
    .filter((mm) => Math.abs(mm - atMm) <= reachMm);
  const gaps = near.slice(1).map((mm, index) => mm - (near[index] ?? mm));
  const halfWindowMm = Math.max(leastHalfWindowMm, ...gaps);
  const lowest = first + halfWindowMm;
  const highest = last - halfWindowMm - withinMm;
  const isCovered = atMm >= first && atMm <= last && highest >= lowest;
  if (!isCovered || halfWindowMm > withinMm / 2) return { why };
  const startMm = Math.min(Math.max(atMm - withinMm / 2, lowest), highest);
  const [before, after] = [startMm, startMm + withinMm].map((mm) => {
    // One gap more on either side: the place lies between the points.
    const part = [indexFrom(mm - 2 * halfWindowMm), indexFrom(mm + 2 * halfWindowMm) + 1] as const;
    return tangentAt(points.slice(...part), distancesMm.slice(...part), mm, halfWindowMm);
  });
  if (!before || !after || "why" in before || "why" in after) return { why };
  return angleBetweenDeg(before.axis, after.axis);
}
