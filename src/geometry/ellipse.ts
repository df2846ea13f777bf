/** Area in mm2 of an ellipse from its two axes (full lengths, not halves) in mm. */
export function ellipseAreaMm2(axisMm: number, otherAxisMm: number): number {
  return (Math.PI * axisMm * otherAxisMm) / 4;
}

/**
 * Perimeter in mm of an ellipse from its two axes in mm, both above 0, in either order. Exact to the
 * last digits of a double: the complete elliptic integral of the second kind by the
 * arithmetic-geometric mean (Gauss), whose digits double with every round.
 */
export function ellipsePerimeterMm(axisMm: number, otherAxisMm: number): number {
  let arithmetic = Math.max(axisMm, otherAxisMm) / 2;
  let geometric = Math.min(axisMm, otherAxisMm) / 2;
  let weight = 1 / 2;
  let squares = (arithmetic ** 2 + geometric ** 2) / 2;
  while (arithmetic - geometric > 1e-15 * arithmetic) {
    const halfDifference = (arithmetic - geometric) / 2;
    weight *= 2;
    squares -= weight * halfDifference ** 2;
    [arithmetic, geometric] = [(arithmetic + geometric) / 2, Math.sqrt(arithmetic * geometric)];
  }
  return (2 * Math.PI * squares) / arithmetic;
}

/** Eccentricity of an ellipse, sqrt(1 - (b / a)^2): 0 for a circle, towards 1 when flat; 0 where b is over a. */
export function ellipseEccentricity(longAxisMm: number, shortAxisMm: number): number {
  return Math.sqrt(1 - Math.min(shortAxisMm / longAxisMm, 1) ** 2);
}
