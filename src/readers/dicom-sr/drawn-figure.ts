import type { Vector } from "../../geometry/vector.ts";
import type { DrawnFigure } from "../reading.ts";
import type { DataSet } from "./data-set.ts";
import { asciiOf, binaryOf } from "./element-values.ts";
import { tags } from "./tags.ts";

/** The value of a SCOORD3D item, or why it has none that can be used. */
export type FigureValue = Omit<DrawnFigure, "source"> | { why: string };

/**
 * How many points each graphic type has at least, and at most. Source: DICOM PS3.3, C.18.9.1.2. A polygon should repeat
 * its first point at the end; one of three points that does not is read too.
 */
const pointCounts: Readonly<Record<string, readonly [least: number, most: number]>> = {
  POINT: [1, 1],
  MULTIPOINT: [1, Infinity],
  POLYLINE: [2, Infinity],
  POLYGON: [3, Infinity],
  ELLIPSE: [4, 4],
  ELLIPSOID: [6, 6],
};

/**
 * Reads Graphic Type and Graphic Data: triples of 32-bit floats in mm, in the coordinates of the frame of reference
 * that the item names. Source: DICOM PS3.3, 3D Spatial Coordinates Macro (C.18.9).
 */
export function figureValueOf(item: DataSet): FigureValue {
  const graphicType = asciiOf(item, tags.graphicType);
  const counts = new Map(Object.entries(pointCounts)).get(graphicType ?? "");
  if (graphicType === null || !counts) return { why: "its graphic type is none that DICOM has" };
  const frameOfReferenceUid = asciiOf(item, tags.referencedFrameOfReferenceUid);
  if (frameOfReferenceUid === null) return { why: "it names no frame of reference" };
  const numbers = binaryOf(item, tags.graphicData, "FL");
  if (numbers === null) return { why: "its data are no list of 32-bit floats, or too long a one" };
  if (numbers.length % 3 !== 0) return { why: "its coordinates are no triples" };
  if (!numbers.every(Number.isFinite)) return { why: "one of its coordinates is no number" };
  const points = Array.from(
    { length: numbers.length / 3 },
    (_, index) => numbers.slice(3 * index, 3 * index + 3) as [number, number, number],
  ) satisfies Vector[];
  const [least, most] = counts;
  if (points.length < least || points.length > most) {
    const expected = least === most ? `${least}` : `at least ${least}`;
    return { why: `a figure of this type has ${expected} points, and ${points.length} are there` };
  }
  return { graphicType, points, frameOfReferenceUid };
}
