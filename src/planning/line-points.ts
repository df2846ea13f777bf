import type { Centreline, Station } from "../cases/patient-case.ts";
import { firstIndex } from "../geometry/first-index.ts";
import { type MeasuredLine, smoothedLine, type SmoothedLine } from "../geometry/smoothed-line.ts";
import { add, scale, type Vector } from "../geometry/vector.ts";

/** The points of a centreline in DICOM patient coordinates, with the distance of each along it. */
export interface LinePoints extends MeasuredLine {
  /** Keys of the stations that they are of. */
  stations: readonly string[];
}

/** Lumens whose sections stand for the vessel, best first. The false lumen does not. */
export const vesselLumens = ["whole", "unstated", "true"] as const satisfies Station["lumen"][];

const rank = ({ lumen }: Station): number =>
  vesselLumens.findIndex((vesselLumen) => vesselLumen === lumen);

/** One point for each distance at which one is stated, in order. */
export function linePoints({ stations }: Centreline): LinePoints {
  const placed = stations
    .flatMap((station) =>
      station.point === null || rank(station) < 0 ? [] : [{ station, point: station.point }],
    )
    .toSorted(
      (a, b) => a.station.distanceMm - b.station.distanceMm || rank(a.station) - rank(b.station),
    );
  const kept = placed.filter(
    ({ station }, index) => placed[index - 1]?.station.distanceMm !== station.distanceMm,
  );
  return {
    points: kept.map(({ point }) => point),
    distancesMm: kept.map(({ station }) => station.distanceMm),
    stations: kept.map(({ station }) => station.key),
  };
}

/** The same with each point moved onto the curve through the points near it: everything that asks how the line bends takes this one. */
export function smoothedPoints(centreline: Centreline): LinePoints & SmoothedLine {
  const line = linePoints(centreline);
  return { ...smoothedLine(line), stations: line.stations };
}

/**
 * The point at a distance; null beyond either end. Between the points it lies on the cubic through the two on each side (at an end
 * of the line, through the nearest ones): on a straight line between two it would bend the line where it does not bend.
 */
export function pointAt({ points, distancesMm }: LinePoints, atMm: number): Vector | null {
  const after = firstIndex(distancesMm.length, (index) => (distancesMm[index] ?? 0) >= atMm);
  if (after === distancesMm.length || (after === 0 && distancesMm[0] !== atMm)) return null;
  const first = Math.max(0, Math.min(after - 2, points.length - 4));
  const nodesMm = distancesMm.slice(first, first + 4);
  return nodesMm.reduce<Vector>(
    (sum, nodeMm, index) => {
      const others = nodesMm.filter((_, other) => other !== index);
      const weight = others.reduce((part, other) => (part * (atMm - other)) / (nodeMm - other), 1);
      return add(sum, scale(points[first + index] ?? [0, 0, 0], weight));
    },
    [0, 0, 0],
  );
}

/** The part of the line between two distances, its ends included; null where it does not reach both. */
export function partOfLine(line: LinePoints, fromMm: number, toMm: number): LinePoints | null {
  const [first, last] = [pointAt(line, fromMm), pointAt(line, toMm)];
  if (first === null || last === null) return null;
  const isInside = (_: unknown, index: number): boolean => {
    const distanceMm = line.distancesMm[index] ?? toMm;
    return fromMm < distanceMm && distanceMm < toMm;
  };
  return {
    points: [first, ...line.points.filter(isInside), last],
    distancesMm: [fromMm, ...line.distancesMm.filter(isInside), toMm],
    stations: line.stations.filter(isInside),
  };
}
