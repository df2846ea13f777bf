import { straightEndGap } from "../../geometry/arc.ts";
import { toRadians } from "../../geometry/degrees.ts";
import { type BendAt, bendsBetween, type BendSides, sidesOver } from "../../geometry/line-bends.ts";
import { polylineLengthMm, tortuosityIndex } from "../../geometry/polyline.ts";
import { norm, subtract, type Vector } from "../../geometry/vector.ts";
import { formatLength } from "../../quantities/format-length.ts";
import { holds, spans } from "../../quantities/limit.ts";
import { localCurve } from "./local-curve.ts";
import { partOfLine } from "../line-points.ts";
import type { NotAssessable } from "./may-view.ts";
import type { VesselDiameter } from "./vessel-diameter.ts";
import type { ViewedLine } from "./viewed-line.ts";

/** A number with the ends of its interval. */
export interface Range {
  value: number;
  low: number;
  high: number;
}

/** The bend of the vessel from one distance to another on its centreline. */
export interface StretchBend {
  fromMm: number;
  toMm: number;
  points: number;
  /** How far the points scatter about the smoothed line, in each direction; null where too few lie near each other to smooth. */
  scatterMm: number | null;
  /** Along the smoothed points; high by what chords on the tightest bend fall short of it. */
  lengthMm: Range;
  /** Straight from end to end. */
  chordMm: number;
  /** Length over the straight distance, from 1 on; null where the ends meet. */
  tortuosity: number | null;
  /** Sum of all bends, whatever their plane. */
  turnDeg: number;
  /** Length over turn; null for a straight stretch. */
  meanRadiusMm: number | null;
  leastRadiusMm: number | null;
  /**
   * The short and the long side, over the reading error of the diameter; null without diameters. From the distance between
   * both ends as the stations state it, like the lengths of landing segments, not from `lengthMm`.
   */
  sides: { innerMm: Range; outerMm: Range; differenceMm: Range } | null;
  spacing: {
    largestMm: number;
    /** A tenth of the least radius, which keeps the length within 0.04 %; null for a straight stretch. */
    neededMm: number | null;
  };
  used: string[];
}

/** A line without width: only its own bend counts. */
const thinMm = 1e-9;

/**
 * The bend of a stretch of the centreline, and what is missing for all or a part of it. The points are smoothed first: as they
 * are, their scatter counts as bend.
 */
export function stretchBend(
  viewed: ViewedLine,
  fromMm: number,
  toMm: number,
): { bend: StretchBend | null; notAssessable: NotAssessable[] } {
  const words = `${formatLength(fromMm)} to ${formatLength(toMm)} on the centreline`;
  const { smooth } = viewed;
  const part = partOfLine(smooth, fromMm, toMm);
  const bends = bendsBetween(smooth.bends, fromMm, toMm);
  const bare = "why" in bends ? bends : sidesOver(bends, () => thinMm);
  if (part === null || part.points.length < 3 || "why" in bends || "why" in bare) {
    const missing = `at least 3 points in patient coordinates from ${words}`;
    return { bend: null, notAssessable: [{ what: "bend of the stretch", missing }] };
  }
  const { points, distancesMm } = part;
  const { turnDeg, leastRadiusMm } = bare;
  const alongMm = polylineLengthMm(points);
  const gaps = distancesMm.slice(1).map((distance, index) => distance - (distancesMm[index] ?? 0));
  const largestMm = Math.max(...gaps);
  const share = leastRadiusMm === null ? 0 : (largestMm / leastRadiusMm) ** 2 / 24;
  const sides = sidesOf(viewed, bends, toMm - fromMm);
  const turn = toRadians(turnDeg);
  return {
    bend: {
      fromMm,
      toMm,
      points: part.stations.length,
      scatterMm: smooth.scatterMm,
      lengthMm: { value: alongMm, low: alongMm, high: alongMm * (1 + share) },
      chordMm: chordMm(points),
      tortuosity: tortuosityIndex(points),
      turnDeg,
      meanRadiusMm: turn > 0 ? alongMm / turn : null,
      leastRadiusMm,
      sides: "why" in sides ? null : sides.sides,
      spacing: { largestMm, neededMm: leastRadiusMm === null ? null : leastRadiusMm / 10 },
      used: [...new Set([...part.stations, ...("why" in sides ? [] : sides.used)])],
    },
    notAssessable:
      "why" in sides
        ? [
            {
              what: "lengths of the inner and outer side",
              missing: `diameters of sections from ${formatLength(fromMm)} to ${formatLength(toMm)} that fit the bend (${sides.why})`,
            },
          ]
        : [],
  };
}

function chordMm(points: readonly Vector[]): number {
  const [first, last] = [points[0], points.at(-1)];
  return first && last ? norm(subtract(last, first)) : 0;
}

/** The two sides at the diameter read and at both ends of its reading error. */
function sidesOf(
  { diameterAt }: ViewedLine,
  bends: readonly BendAt[],
  statedMm: number,
): { sides: NonNullable<StretchBend["sides"]>; used: string[] } | { why: string } {
  const diameters = bends.map(({ atMm }) => diameterAt(atMm));
  const withDiameter = (end: "value" | "low" | "high") =>
    sidesOver(bends, (index) => diameters[index]?.[end] ?? Number.NaN);
  const [value, low, high] = [withDiameter("value"), withDiameter("low"), withDiameter("high")];
  if ("why" in value) return value;
  if ("why" in low) return low;
  if ("why" in high) return high;
  const side = (sign: 1 | -1, { differenceMm }: BendSides) => statedMm + (sign * differenceMm) / 2;
  return {
    sides: {
      innerMm: { value: side(-1, value), low: side(-1, high), high: side(-1, low) },
      outerMm: { value: side(1, value), low: side(1, low), high: side(1, high) },
      differenceMm: {
        value: value.differenceMm,
        low: low.differenceMm,
        high: high.differenceMm,
      },
    },
    used: [...new Set(diameters.flatMap((diameter) => diameter?.used ?? []))],
  };
}

/** How the vessel bends at the edge of a graft. */
export interface EdgeBend {
  /** The points that the curve at the edge was laid through. */
  fromMm: number;
  toMm: number;
  points: number;
  scatterMm: number;
  /** Of the centreline, with its 95 % interval by the scatter of the points; null is straight. */
  radiusMm: { value: number | null; low: number | null; high: number | null };
  /** Curvature of the inner wall times diameter, without unit, over both errors. */
  innerCurvatureTimesDiameter: Range;
  /** Under a straight, rigid end of a graft that touches the inner wall where it begins, over both errors. */
  straightEnds: {
    straightMm: number;
    gapMm: Range;
    angleDeg: number;
    /** From 5 mm on a gap was counted as one; see `gap-threshold` of the facts. */
    isCounted: boolean;
    spansCounted: boolean;
  }[];
}

const straightLengthsMm = [5, 10, 15] as const;
const countedGapMm = 5;
/** The curve at the edge is laid through the points from 10 mm before to 20 mm beyond it; chosen here, no source. */
const beforeEdgeMm = 10;
const beyondEdgeMm = 20;

/** The bend at the edge at a distance on the line, at the diameter there, or what is missing for it. */
export function edgeBend(
  { placed }: ViewedLine,
  atMm: number,
  diameter: VesselDiameter | null,
): EdgeBend | NotAssessable {
  const what = "curvature at the edge";
  if (diameter === null) return { what, missing: `diameter at ${formatLength(atMm)}` };
  const curve = localCurve(placed, atMm - beforeEdgeMm, atMm + beyondEdgeMm);
  if (curve === null) {
    const where = `from ${formatLength(atMm - beforeEdgeMm)} to ${formatLength(atMm + beyondEdgeMm)}`;
    return { what, missing: `at least 4 points in patient coordinates ${where}` };
  }
  const curvature = curve.curvatureAt(Math.min(atMm + beyondEdgeMm / 2, curve.toMm));
  if (!holds((curvature.high * diameter.high) / 2, "<", 1)) {
    return {
      what,
      missing: `a bend surely wider than half the diameter (radius ${radiusWords(curvature.value)}, over the scatter of the points from ${radiusWords(curvature.high)} on)`,
    };
  }
  const ends = ["value", "low", "high"] as const;
  const over = (of: (perMm: number, diameterMm: number) => number): Range => {
    const [value = 0, low = 0, high = 0] = ends.map((end) => of(curvature[end], diameter[end]));
    return { value, low, high };
  };
  return {
    fromMm: curve.fromMm,
    toMm: curve.toMm,
    points: curve.points,
    scatterMm: curve.scatterMm,
    radiusMm: {
      value: radiusOf(curvature.value),
      low: radiusOf(curvature.high),
      high: radiusOf(curvature.low),
    },
    innerCurvatureTimesDiameter: over(
      (perMm, diameterMm) => (perMm * diameterMm) / (1 - (perMm * diameterMm) / 2),
    ),
    straightEnds: straightLengthsMm.map((straightMm) => {
      const gap = (perMm: number, diameterMm: number): { heightMm: number; angleDeg: number } => {
        const radiusMm = radiusOf(perMm);
        return radiusMm === null
          ? { heightMm: 0, angleDeg: 0 }
          : straightEndGap({ innerRadiusMm: radiusMm - diameterMm / 2, straightMm });
      };
      const gapMm = over((perMm, diameterMm) => gap(perMm, diameterMm).heightMm);
      return {
        straightMm,
        gapMm,
        angleDeg: gap(curvature.value, diameter.value).angleDeg,
        isCounted: holds(gapMm.value, ">=", countedGapMm),
        spansCounted: spans(gapMm.low, gapMm.high, countedGapMm),
      };
    }),
  };
}

/** Null for a curvature so small that its radius is no number. */
const radiusOf = (perMm: number): number | null => (Number.isFinite(1 / perMm) ? 1 / perMm : null);
const radiusWords = (perMm: number): string => {
  const radiusMm = radiusOf(perMm);
  return radiusMm === null ? "without end" : formatLength(radiusMm);
};
