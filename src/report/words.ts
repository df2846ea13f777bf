import type { PlanMeasurement } from "./plan.ts";

const edgeWords: Record<PlanMeasurement["edge"], string> = {
  inner: "inner edge",
  outer: "outer edge",
  unstated: "edge not stated",
};

const statisticWords: Record<PlanMeasurement["statistic"], string> = {
  maximum: "maximum",
  minimum: "minimum",
  mean: "mean",
  unstated: "statistic not stated",
};

const lumenWords: Record<PlanMeasurement["lumen"], string> = {
  whole: "whole lumen",
  true: "true lumen",
  false: "false lumen",
  unstated: "lumen not stated",
};

const pathWords: Record<PlanMeasurement["path"], string> = {
  centreline: "along the centreline",
  "inner-curve": "along the inner curve",
  "outer-curve": "along the outer curve",
  unstated: "path not stated",
};

const planeWords: Record<PlanMeasurement["plane"], string> = {
  perpendicular: "perpendicular to the centreline",
  axial: "axial plane",
  unstated: "plane not stated",
};

const phaseWords: Record<PlanMeasurement["phase"], string> = {
  systole: "in systole",
  diastole: "in diastole",
  unstated: "phase not stated",
};

const sexWords = { F: "female", M: "male", O: "other" } as const;

/** "outer edge", "edge not stated". */
export const edgeWord = (edge: PlanMeasurement["edge"]): string => edgeWords[edge];
/** "maximum", "statistic not stated". */
export const statisticWord = (statistic: PlanMeasurement["statistic"]): string =>
  statisticWords[statistic];
/** "whole lumen", "lumen not stated". */
export const lumenWord = (lumen: PlanMeasurement["lumen"]): string => lumenWords[lumen];
/** "along the centreline", "path not stated". */
export const pathWord = (path: PlanMeasurement["path"]): string => pathWords[path];
/** "perpendicular to the centreline", "plane not stated". */
export const planeWord = (plane: PlanMeasurement["plane"]): string => planeWords[plane];
/** "in systole", "phase not stated". */
export const phaseWord = (phase: PlanMeasurement["phase"]): string => phaseWords[phase];
/** "female", "male", "other". */
export const sexWord = (sex: keyof typeof sexWords): string => sexWords[sex];
