import type { Dimension } from "./unit.ts";

/** What is measured on the aorta or a branch. */
export const quantityIds = [
  "diameter",
  "long-axis",
  "short-axis",
  "perimeter",
  "area",
  "length",
  "sound-length",
  "volume",
  "angle",
  "radius",
  "tortuosity",
] as const;
export type QuantityId = (typeof quantityIds)[number];

/** Lengths across a vessel. */
export const acrossQuantities: ReadonlySet<string> = new Set<QuantityId>([
  "diameter",
  "long-axis",
  "short-axis",
]);

/** Sizes of a section: lengths across it, its perimeter and its area. */
export const sizeQuantities: ReadonlySet<string> = new Set<QuantityId>([
  "diameter",
  "long-axis",
  "short-axis",
  "perimeter",
  "area",
]);

/** Label for pages, and the dimension that its unit must have. */
export const quantities: Record<QuantityId, { label: string; dimension: Dimension }> = {
  diameter: { label: "diameter", dimension: "length" },
  "long-axis": { label: "long axis", dimension: "length" },
  "short-axis": { label: "short axis", dimension: "length" },
  perimeter: { label: "perimeter", dimension: "length" },
  area: { label: "cross-sectional area", dimension: "area" },
  length: { label: "length", dimension: "length" },
  "sound-length": { label: "sound length", dimension: "length" },
  volume: { label: "volume", dimension: "volume" },
  angle: { label: "angle", dimension: "angle" },
  radius: { label: "radius of curvature", dimension: "length" },
  tortuosity: { label: "tortuosity index", dimension: "number" },
};

/** How one number stands for many; `unstated` is kept as such and never read as maximum. */
export const statisticIds = ["maximum", "minimum", "mean", "unstated"] as const;
export type StatisticId = (typeof statisticIds)[number];

/** Which lumen was measured. */
export const lumenIds = ["whole", "true", "false", "unstated"] as const;
export type LumenId = (typeof lumenIds)[number];

/** Wall edge between which a diameter was taken. */
export const edgeIds = ["inner", "outer", "unstated"] as const;
export type EdgeId = (typeof edgeIds)[number];

/** Line along which a length was taken. */
export const pathIds = ["centreline", "inner-curve", "outer-curve", "unstated"] as const;
export type PathId = (typeof pathIds)[number];

/** Plane that a section was measured in: perpendicular to the centreline, or the axial image as acquired. */
export const planeIds = ["perpendicular", "axial", "unstated"] as const;
export type PlaneId = (typeof planeIds)[number];

/** Part of the cardiac cycle that was measured in. */
export const phaseIds = ["systole", "diastole", "unstated"] as const;
export type PhaseId = (typeof phaseIds)[number];
