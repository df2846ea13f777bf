import { type FittedCurve, fittedCurve, type MeasuredLine } from "../../geometry/smoothed-line.ts";
import { studentTQuantile } from "../../statistics/student-t.ts";

/** The curve through the points of a line near a place. */
export type LocalCurve = Pick<
  FittedCurve,
  "points" | "fromMm" | "toMm" | "pointAt" | "scatterMm"
> & {
  /** In 1/mm at a distance, with its 95 % interval by the scatter of the points. */
  curvatureAt: (mm: number) => { value: number; low: number; high: number };
};

/** The curve through the points from one distance to another; null under 4 points. */
export function localCurve(line: MeasuredLine, fromMm: number, toMm: number): LocalCurve | null {
  const curve = fittedCurve(line, fromMm, toMm);
  if (curve === null) return null;
  const halfInterval = curve.curvatureErrorPerMm * studentTQuantile(0.975, curve.freedom);
  return {
    ...curve,
    curvatureAt: (mm) => {
      const value = curve.curvatureAt(mm);
      return { value, low: Math.max(0, value - halfInterval), high: value + halfInterval };
    },
  };
}
