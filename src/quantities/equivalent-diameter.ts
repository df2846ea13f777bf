/** Diameter in mm of the circle with the given perimeter in mm: P / pi. */
export function diameterFromPerimeterMm(perimeterMm: number): number {
  return perimeterMm / Math.PI;
}

/** Diameter in mm of the circle with the given area in mm2: 2 sqrt(A / pi). */
export function diameterFromAreaMm(areaMm2: number): number {
  return 2 * Math.sqrt(areaMm2 / Math.PI);
}
