const frenchPerMm = 3;

/** Outer diameter in mm of a size on the French (Charrière) scale: a third of a millimetre a step (UCUM [Ch]). */
export function frenchToMm(french: number): number {
  return french / frenchPerMm;
}

/** Size on the French (Charrière) scale of an outer diameter in mm, not rounded. */
export function mmToFrench(diameterMm: number): number {
  return diameterMm * frenchPerMm;
}
