import { firstIndex } from "./first-index.ts";
import type { BendAt } from "./line-bends.ts";
import { circumradiusMm } from "./polyline.ts";
import { add, cross, norm, scale, subtract, type Vector } from "./vector.ts";

/** Points of a line with the distance of each along it, growing; all in mm, as many of one as of the other. */
export interface MeasuredLine {
  points: readonly Vector[];
  distancesMm: readonly number[];
}

/** A parabola in space laid through the points of a line near a place, by least squares. */
export interface FittedCurve {
  points: number;
  /** Distances of the first and last of them. */
  fromMm: number;
  toMm: number;
  pointAt: (mm: number) => Vector;
  /** Along the curve at a distance, of about length 1, and its standard error across it by the scatter of the points. */
  directionAt: (mm: number) => Vector;
  directionErrorAt: (mm: number) => number;
  /** In 1/mm at a distance. */
  curvatureAt: (mm: number) => number;
  /** The same of the circle that would show such a parabola. */
  circleCurvatureAt: (mm: number) => number;
  /** Standard error of the curvature by the scatter of the points, in 1/mm. */
  curvatureErrorPerMm: number;
  /** Standard deviation of the points about the curve, in each of three directions. */
  scatterMm: number;
  /** Degrees of freedom of the scatter. */
  freedom: number;
}

/** Rounding in mm that a distance may carry and still lie on the border of a stretch. */
const roundingMm = 1e-9;

/**
 * The curve through the points from one distance to another: each coordinate regressed on 1, s and s^2 of the distance s,
 * in orthogonal polynomials. Null under 4 points: with 3 nothing tells how far they scatter.
 */
export function fittedCurve(
  { points, distancesMm }: MeasuredLine,
  fromMm: number,
  toMm: number,
): FittedCurve | null {
  const count = distancesMm.length;
  const at = (index: number): number => distancesMm[index] ?? Number.NaN;
  const begin = firstIndex(count, (index) => at(index) >= fromMm - roundingMm);
  const end = firstIndex(count, (index) => at(index) > toMm + roundingMm);
  if (end - begin < 4) return null;
  const used = points.slice(begin, end);
  const distances = distancesMm.slice(begin, end);
  const parabola = parabolas(distances);
  const { pointAt, directionAt, curvatureAt } = parabola.through(used);
  const squares = used.reduce((sum, point, index) => {
    const [x, y, z] = subtract(point, pointAt(distances[index] ?? Number.NaN));
    return sum + x ** 2 + y ** 2 + z ** 2;
  }, 0);
  const freedom = 3 * (used.length - 3);
  const scatterMm = Math.sqrt(squares / freedom);
  return {
    points: used.length,
    fromMm: at(begin),
    toMm: at(end - 1),
    pointAt,
    directionAt,
    directionErrorAt: (mm) => scatterMm * parabola.directionFactorAt(mm),
    curvatureAt,
    circleCurvatureAt: (mm) => circleCurvature(curvatureAt(mm), parabola, distances, mm),
    curvatureErrorPerMm: (2 * scatterMm) / Math.sqrt(parabola.weight),
    scatterMm,
    freedom,
  };
}

type Parabola = Pick<FittedCurve, "pointAt" | "directionAt" | "curvatureAt">;

/** The parabolas through points at these distances, and the weight of their bend: the sum of its squared polynomial. */
function parabolas(distances: readonly number[]): {
  through: (points: readonly Vector[]) => Parabola;
  weight: number;
  /** Standard error of a direction for a scatter of 1 mm. */
  directionFactorAt: (mm: number) => number;
} {
  const count = distances.length;
  const mean = (of: (mm: number) => number): number =>
    distances.reduce((sum, mm) => sum + of(mm), 0) / count;
  const middleMm = mean((mm) => mm);
  const square = mean((mm) => (mm - middleMm) ** 2);
  const skew = mean((mm) => (mm - middleMm) ** 3) / square;
  const second = (mm: number): number => (mm - middleMm) ** 2 - skew * (mm - middleMm) - square;
  const firsts = distances.map((mm) => mm - middleMm);
  const seconds = distances.map(second);
  const weight = seconds.reduce((sum, one) => sum + one ** 2, 0);
  const through = (points: readonly Vector[]): Parabola => {
    const coefficient = (shares: readonly number[] | null, whole: number): Vector => {
      let [x, y, z] = [0, 0, 0];
      for (const [index, point] of points.entries()) {
        const share = shares === null ? 1 : (shares[index] ?? 0);
        x += point[0] * share;
        y += point[1] * share;
        z += point[2] * share;
      }
      return [x / whole, y / whole, z / whole];
    };
    const middle = coefficient(null, count);
    const slope = coefficient(firsts, square * count);
    const bend = coefficient(seconds, weight);
    const directionAt = (mm: number): Vector => add(slope, scale(bend, 2 * (mm - middleMm) - skew));
    return {
      directionAt,
      pointAt: (mm) => add(middle, add(scale(slope, mm - middleMm), scale(bend, second(mm)))),
      curvatureAt: (mm) => {
        const direction = directionAt(mm);
        return norm(cross(direction, scale(bend, 2))) / norm(direction) ** 3;
      },
    };
  };
  const directionFactorAt = (mm: number): number =>
    Math.sqrt(1 / (square * count) + (2 * (mm - middleMm) - skew) ** 2 / weight);
  return { through, weight, directionFactorAt };
}

/** So often the circle is drawn closer: a radius of the length of the stretch comes within 0.2 %. */
const rounds = 2;

/**
 * The curvature of the circle that shows this one at a distance when points on it at the same distances are laid through
 * by a parabola: that of the parabola itself is too large by about 0.13 (l / R)^2 for a stretch of 2 l.
 */
function circleCurvature(
  shownPerMm: number,
  { through }: Pick<ReturnType<typeof parabolas>, "through">,
  distances: readonly number[],
  atMm: number,
): number {
  const spanMm = (distances.at(-1) ?? 0) - (distances[0] ?? 0);
  let perMm = shownPerMm;
  for (let round = 0; round < rounds; round++) {
    // Nearly straight there is nothing to mend; over half a turn no parabola shows the circle.
    if (perMm * spanMm < 1e-3 || perMm * spanMm > Math.PI) break;
    const onCircle = distances.map((mm): Vector => {
      const turn = (mm - atMm) * perMm;
      return [Math.sin(turn) / perMm, (1 - Math.cos(turn)) / perMm, 0];
    });
    perMm *= shownPerMm / through(onCircle).curvatureAt(atMm);
  }
  return perMm;
}

/** Half the stretch whose points smooth one of them; chosen here, no source. */
const smoothingMm = 15;

/** A line without the scatter of its points. */
export interface SmoothedLine extends MeasuredLine {
  /** Root mean square of the scatter about the curves; null where none was laid. */
  scatterMm: number | null;
  /** At each point; at one without a curve that of the circle through it and its neighbours. */
  bends: readonly BendAt[];
}

/**
 * The points of a line, each moved onto the curve through the points within 15 mm of it, and the bend of that curve
 * there; one with fewer than 4 so near stays. As they are, the scatter of points a few mm apart counts as bend: 0.4 mm
 * every 5 mm make a radius of 40 mm look like 22. Points 15 mm before a change of the bend already begin it.
 */
export function smoothedLine(line: MeasuredLine): SmoothedLine {
  const { points, distancesMm } = line;
  const curves = distancesMm.map((mm) => fittedCurve(line, mm - smoothingMm, mm + smoothingMm));
  const scatters = curves.flatMap((curve) => (curve === null ? [] : [curve.scatterMm ** 2]));
  return {
    distancesMm,
    points: points.map((point, index) => {
      const mm = distancesMm[index];
      return (mm !== undefined && curves[index]?.pointAt(mm)) || point;
    }),
    bends: distancesMm.flatMap((atMm, index): BendAt[] => {
      const curve = curves[index];
      if (curve) return [{ atMm, perMm: curve.circleCurvatureAt(atMm) }];
      const [a, b, c] = [points[index - 1], points[index], points[index + 1]];
      if (!a || !b || !c) return [];
      const radiusMm = circumradiusMm(a, b, c);
      return [{ atMm, perMm: radiusMm === null ? 0 : 1 / radiusMm }];
    }),
    scatterMm:
      scatters.length === 0
        ? null
        : Math.sqrt(scatters.reduce((sum, one) => sum + one, 0) / scatters.length),
  };
}
