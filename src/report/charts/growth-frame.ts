import type { LimitInForce } from "../limits-in-force.ts";
import type { PlanGrowth } from "../plan.ts";
import { dateScale, linearScale, type Scale } from "./scales.ts";

export interface GrowthChartSize {
  /** Unique on the page. */
  id: string;
  widthPt: number;
  heightPt: number;
}

/** One exam of a growth series. */
export type GrowthPoint = PlanGrowth["points"][number];

/** The plot area in points, and the way from dates and mm to it. */
export interface GrowthFrame {
  size: GrowthChartSize;
  x: (date: string) => number;
  y: Scale;
  domain: [number, number];
  left: number;
  right: number;
  top: number;
  bottom: number;
}

const axisRoomPt = 24;
const dateRoomPt = 16;
/** Kept free above and below the readings for their numbers. */
const numberRoomMm = 2.5;
/** A limit further above the last reading than this is named in the caption and does not stretch the axis. */
const limitReachMm = 12;

/** Limits inside the plot, and those too far off to be drawn. */
export interface SplitLimits {
  drawn: LimitInForce[];
  beyond: LimitInForce[];
}

/** Limits near the readings are drawn; others would flatten the curve. */
export function splitLimits(
  points: readonly GrowthPoint[],
  limits: readonly LimitInForce[],
): SplitLimits {
  const high = Math.max(...points.map((point) => point.high));
  const low = Math.min(...points.map((point) => point.low));
  const isNear = ({ valueMm }: LimitInForce): boolean =>
    valueMm <= high + limitReachMm && valueMm >= low - limitReachMm;
  return {
    drawn: limits.filter(isNear),
    beyond: limits.filter((limit) => !isNear(limit)),
  };
}

/** The plot for a series: real dates on x, mm on y from a multiple of 5 below the lowest reading. */
export function growthFrame(
  points: readonly GrowthPoint[],
  limits: readonly LimitInForce[],
  size: GrowthChartSize,
): GrowthFrame {
  const values = [
    ...points.flatMap(({ low, high }) => [low, high]),
    ...limits.map(({ valueMm }) => valueMm),
  ];
  const domain: [number, number] = [
    Math.max(0, Math.floor((Math.min(...values) - numberRoomMm) / 5) * 5),
    Math.ceil((Math.max(...values) + numberRoomMm) / 5) * 5,
  ];
  const left = axisRoomPt;
  const right = size.widthPt - 6;
  const top = 6;
  const bottom = size.heightPt - dateRoomPt;
  const first = points.at(0)?.date ?? "";
  const last = points.at(-1)?.date ?? "";
  const inset = 12;
  return {
    size,
    x:
      first === last
        ? () => (left + right) / 2
        : dateScale([first, last], [left + inset, right - inset]),
    y: linearScale(domain, [bottom, top]),
    domain,
    left,
    right,
    top,
    bottom,
  };
}
