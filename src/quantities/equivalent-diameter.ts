import type { QuantityId } from "./measured-quantity.ts";

/** Diameter in mm of the circle with the given perimeter in mm: P / pi. */
export function diameterFromPerimeterMm(perimeterMm: number): number {
  return perimeterMm / Math.PI;
}

/** Diameter in mm of the circle with the given area in mm2: 2 sqrt(A / pi). */
export function diameterFromAreaMm(areaMm2: number): number {
  return 2 * Math.sqrt(areaMm2 / Math.PI);
}

/** The diameter in mm that a size stands for; null for what is no size across a vessel. */
export function diameterIn(quantity: QuantityId, value: number): number | null {
  switch (quantity) {
    case "diameter":
    case "long-axis":
    case "short-axis":
      return value;
    case "perimeter":
      return diameterFromPerimeterMm(value);
    case "area":
      return diameterFromAreaMm(value);
    default:
      return null;
  }
}
