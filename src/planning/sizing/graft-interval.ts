import { holds } from "../../quantities/limit.ts";
import type { SizingWindow } from "./oversizing-windows.ts";

/** Oversizing in per cent: (graft / vessel - 1) x 100, both diameters in mm. */
export function oversizingPercent(graftMm: number, vesselMm: number): number {
  return (graftMm / vesselMm - 1) * 100;
}

/** The lower end of a window; 0 where its source prints none, a graft smaller than the vessel not being oversized. */
export const lowPercentOf = ({ lowPercent }: Pick<SizingWindow, "lowPercent">): number =>
  lowPercent ?? 0;

/** Nominal graft diameters in mm. */
export interface GraftInterval {
  graftLowMm: number;
  graftHighMm: number;
  /** The diameters that lie inside the window whatever the true vessel diameter within its error; none where low is over high. */
  surelyInsideLowMm: number;
  surelyInsideHighMm: number;
}

/** The graft diameters that a window allows for a vessel of `diameterMm`, and for every vessel within +/- `errorMm`. */
export function graftInterval(
  diameterMm: number,
  errorMm: number,
  window: Pick<SizingWindow, "lowPercent" | "highPercent">,
): GraftInterval {
  const lowRatio = (100 + lowPercentOf(window)) / 100;
  const highRatio = (100 + window.highPercent) / 100;
  return {
    graftLowMm: diameterMm * lowRatio,
    graftHighMm: diameterMm * highRatio,
    surelyInsideLowMm: (diameterMm + errorMm) * lowRatio,
    surelyInsideHighMm: (diameterMm - errorMm) * highRatio,
  };
}

/** A graft diameter against the interval of one window. */
export interface GraftInWindow {
  isInside: boolean;
  /** How far outside: below 0 too small, above 0 too large; 0 inside, and at an upper end that does not belong to the window. */
  missMm: number;
  /** Inside for every vessel diameter within its error. */
  isSurelyInside: boolean;
  /** True where some vessel diameter within its error would give the other answer. */
  spansLimit: boolean;
}

/** Lays one nominal graft diameter against an interval whose upper end belongs to it where the operator is "<=". */
export function graftInWindow(
  graftMm: number,
  interval: GraftInterval,
  highOperator: SizingWindow["highOperator"],
): GraftInWindow {
  const { graftLowMm, graftHighMm, surelyInsideLowMm, surelyInsideHighMm } = interval;
  const isAbove = !holds(graftMm, highOperator, graftHighMm);
  const isBelow = !holds(graftMm, ">=", graftLowMm);
  const isInside = !isAbove && !isBelow;
  const isSurelyInside =
    holds(graftMm, ">=", surelyInsideLowMm) && holds(graftMm, highOperator, surelyInsideHighMm);
  const missMm = isBelow ? graftMm - graftLowMm : graftMm - graftHighMm;
  return {
    isInside,
    missMm: isInside ? 0 : Math.abs(missMm) < 1e-9 ? 0 : missMm,
    isSurelyInside,
    spansLimit: isInside ? !isSurelyInside : couldBeInside(graftMm, interval, highOperator),
  };
}

/** Whether a vessel within its error would have the graft inside: the widest ends stand as far out as the sure ones stand in. */
function couldBeInside(
  graftMm: number,
  { graftLowMm, graftHighMm, surelyInsideLowMm, surelyInsideHighMm }: GraftInterval,
  highOperator: SizingWindow["highOperator"],
): boolean {
  const widestLowMm = 2 * graftLowMm - surelyInsideLowMm;
  const widestHighMm = 2 * graftHighMm - surelyInsideHighMm;
  return holds(graftMm, ">=", widestLowMm) && holds(graftMm, highOperator, widestHighMm);
}
