import { holds, spans } from "../../quantities/limit.ts";
import { type GraftInterval, lowPercentOf } from "./graft-interval.ts";
import { checkedSource } from "../checked-source.ts";
import { type SizingWindow } from "./oversizing-windows.ts";
import type { PlanningCheck } from "../planning-check.ts";

/** A vessel diameter with half its 95 % interval, in mm, and the keys that it stands on. */
export interface VesselDiameter {
  diameterMm: number;
  errorMm: number;
  used: readonly string[];
}

/** One end under one window. */
export interface EndInWindow {
  vessel: VesselDiameter;
  window: SizingWindow;
  interval: GraftInterval;
}

/** How much smaller the distal diameter of a graft must be, under one window at each end. */
export interface GraftTaper {
  proximalWindow: string;
  distalWindow: string;
  /** Proximal less distal graft diameter; below 0 wider towards the distal end. A range that holds 0 lets one straight graft do. */
  neededMm: { lowMm: number; highMm: number };
  /** Diameters of a straight graft inside both windows; null where there is none. */
  straightMm: { lowMm: number; highMm: number } | null;
  straight: PlanningCheck;
}

/**
 * The taper that two ends need. One straight graft lies in both windows where the proximal over the distal vessel
 * diameter is at most (1 + high, distal) / (1 + low, proximal) and at least (1 + low, distal) / (1 + high, proximal).
 */
export function graftTaper(proximal: EndInWindow, distal: EndInWindow): GraftTaper {
  const [p, d] = [proximal.interval, distal.interval];
  const lowMm = Math.max(p.graftLowMm, d.graftLowMm);
  const highMm = Math.min(p.graftHighMm, d.graftHighMm);
  const straight = straightCheck(proximal, distal);
  return {
    proximalWindow: proximal.window.id,
    distalWindow: distal.window.id,
    neededMm: {
      lowMm: p.graftLowMm - d.graftHighMm,
      highMm: p.graftHighMm - d.graftLowMm,
    },
    straightMm: straight.outcome === "met" ? { lowMm, highMm: Math.max(lowMm, highMm) } : null,
    straight,
  };
}

function straightCheck(proximal: EndInWindow, distal: EndInWindow): PlanningCheck {
  const [p, d] = [proximal.window, distal.window];
  const most = (100 + d.highPercent) / (100 + lowPercentOf(p));
  const least = (100 + lowPercentOf(d)) / (100 + p.highPercent);
  const ratio = ratioOf(proximal.vessel, distal.vessel);
  const isMet =
    holds(ratio.value, d.highOperator, most) &&
    holds(ratio.value, p.highOperator === "<" ? ">" : ">=", least);
  const spansLimit =
    ratio.low === null || ratio.high === null
      ? true
      : spans(ratio.low, ratio.high, most) || spans(ratio.low, ratio.high, least);
  const sign = isMet ? "lies between" : "lies outside";
  return {
    id: `straight-graft ${p.id} ${d.id}`,
    label: "one straight graft lies in the windows of both ends",
    outcome: isMet ? "met" : "not-met",
    value: { ...ratio, unit: "1" },
    limit: `from ${p.highOperator === "<" ? "over " : ""}${least.toFixed(4)} to ${d.highOperator === "<" ? "under " : ""}${most.toFixed(4)}`,
    spansLimit,
    source: `arithmetic of the windows: ${unique([p, d].map(windowWords)).join("; ")}`,
    used: [...proximal.vessel.used, ...distal.vessel.used],
    missing: [],
    reason: `The proximal over the distal vessel diameter, ${ratio.value.toFixed(4)}, ${sign} the ratios that the windows allow.`,
  };
}

function ratioOf(proximal: VesselDiameter, distal: VesselDiameter) {
  const isSure = distal.errorMm < distal.diameterMm;
  return {
    value: proximal.diameterMm / distal.diameterMm,
    low: isSure
      ? (proximal.diameterMm - proximal.errorMm) / (distal.diameterMm + distal.errorMm)
      : null,
    high: isSure
      ? (proximal.diameterMm + proximal.errorMm) / (distal.diameterMm - distal.errorMm)
      : null,
  };
}

const windowWords = (window: SizingWindow): string => `${window.printed}, ${checkedSource(window)}`;
const unique = (words: readonly string[]): string[] => [...new Set(words)];
