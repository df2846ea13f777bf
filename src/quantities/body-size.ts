/**
 * Body surface area in m2, DuBois and DuBois 1916: 0.007184 h^0.725 w^0.425, h in cm, w in kg.
 */
export function bodySurfaceAreaDuBoisM2(heightCm: number, weightKg: number): number {
  return 0.007184 * heightCm ** 0.725 * weightKg ** 0.425;
}

/** Aortic size index in cm/m2: diameter in cm over body surface area. */
export function aorticSizeIndexCmPerM2(diameterMm: number, bodySurfaceAreaM2: number): number {
  return diameterMm / 10 / bodySurfaceAreaM2;
}

/** Aortic height index in cm/m: diameter in cm over height in m. */
export function aorticHeightIndexCmPerM(diameterMm: number, heightCm: number): number {
  return diameterMm / 10 / (heightCm / 100);
}

/** Area over height in cm2/m from a measured area in mm2. */
export function areaOverHeightCm2PerM(areaMm2: number, heightCm: number): number {
  return areaMm2 / heightCm;
}

/** Area-height ratio in cm2/m of a circle: pi d^2 / 4 over height; d in cm, height in m. */
export function areaHeightRatioCm2PerM(diameterMm: number, heightCm: number): number {
  return areaOverHeightCm2PerM((Math.PI * diameterMm ** 2) / 4, heightCm);
}
