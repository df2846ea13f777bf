import { add, cross, dot, norm, scale, subtract, unit, type Vector } from "../geometry/vector.ts";
import type { Message } from "../message.ts";
import { formatLength } from "../quantities/format-length.ts";
import { holds } from "../quantities/limit.ts";
import type { DrawnFigure } from "../readers/reading.ts";
import type { DrawnMeasurement } from "./drawn-centrelines.ts";
import { caseMessage } from "./messages.ts";
import type { Exam, Measurement, Ring } from "./patient-case.ts";
import type { ScanPosition } from "./scan-position.ts";

/** How far a point of a ring may lie off its plane, and how narrow a ring may be, in mm. Common practice, not from a source. */
const offPlaneMm = 1;
const leastWidthMm = 1;

const acrossQuantities: ReadonlySet<Measurement["quantity"]> = new Set<Measurement["quantity"]>([
  "diameter",
  "long-axis",
  "short-axis",
  "perimeter",
  "area",
]);

/**
 * The rings that reports of one exam drew around the vessel under a size across it: a polygon, an ellipse, or a line that
 * ends where it begins. A figure without a plane is a message; the number that it stands under is used all the same.
 */
export function drawnRings(
  drawn: readonly DrawnMeasurement[],
  { key: exam, imagingDate: date }: Exam,
  bySite: ScanPosition,
): { rings: Ring[]; messages: Message[] } {
  const rings: Ring[] = [];
  const messages: Message[] = [];
  for (const { measurement, figure } of drawn) {
    const outline = acrossQuantities.has(measurement.quantity) ? outlineOf(figure) : null;
    if (outline === null) continue;
    const plane = planeOf(outline);
    const { place, quantity, key } = measurement;
    if ("why" in plane) {
      const data = { number: `${quantity} at ${place.label}`, date, why: plane.why };
      messages.push(caseMessage("ring-not-usable", figure.source, data));
    } else rings.push({ exam, place, measurement: key, ...plane, ...bySite });
  }
  return { rings, messages };
}

/**
 * The corners of a closed figure in the order around it, without the first again at the end; null for any other. The four
 * points of an ellipse are the ends of the major axis, then of the minor one. Source: DICOM PS3.3, C.18.9.1.2.
 */
function outlineOf({ graphicType, points }: DrawnFigure): Vector[] | null {
  const [first, second, third, fourth] = points;
  if (graphicType === "ELLIPSE") {
    return first && second && third && fourth ? [first, third, second, fourth] : null;
  }
  const last = points.at(-1);
  if (!first || !last) return null;
  const isClosed = norm(subtract(first, last)) === 0;
  if (graphicType !== "POLYGON" && !(graphicType === "POLYLINE" && isClosed)) return null;
  return isClosed ? points.slice(0, -1) : points;
}

/**
 * The plane of a closed figure: its normal by Newell's method, the sum of the cross products around it, whose length is
 * twice the area; and the centre of its area.
 */
function planeOf(outline: readonly Vector[]): { centre: Vector; axis: Vector } | { why: string } {
  const middle = scale(outline.reduce(add, [0, 0, 0]), 1 / outline.length);
  const corners = outline.map((corner) => subtract(corner, middle));
  const sides = corners.map((from, index) => {
    const to = corners[(index + 1) % corners.length] ?? from;
    return { from, to, twiceArea: cross(from, to) };
  });
  const normal = sides.reduce<Vector>((sum, { twiceArea }) => add(sum, twiceArea), [0, 0, 0]);
  const axis = unit(normal);
  const widestMm = Math.max(...corners.map(norm));
  if (axis === null || norm(normal) / (2 * widestMm) < leastWidthMm) {
    return { why: "its points lie on a line, or its sides cross" };
  }
  const offMm = Math.max(...corners.map((corner) => Math.abs(dot(corner, axis))));
  if (!holds(offMm, "<=", offPlaneMm)) {
    return { why: `its points lie up to ${formatLength(offMm)} off a plane` };
  }
  const moment = sides.reduce<Vector>(
    (sum, { from, to, twiceArea }) => add(sum, scale(add(from, to), dot(twiceArea, axis) / 3)),
    [0, 0, 0],
  );
  return { centre: add(middle, scale(moment, 1 / norm(normal))), axis };
}
