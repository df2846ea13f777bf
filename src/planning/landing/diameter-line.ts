import { firstIndex } from "../../geometry/first-index.ts";

/** A diameter at a distance along a line, both in mm. Lines are sorted by distance. */
export interface DiameterAt {
  atMm: number;
  mm: number;
}

/** The greatest gain of diameter over at most `withinMm` that ends after the last section but one. */
export function wideningMm(line: readonly DiameterAt[], withinMm: number): number {
  const last = line.at(-1);
  const previous = line.at(-2);
  if (!last || !previous) return 0;
  const ends = [
    last.atMm,
    ...line.map(({ atMm }) => atMm + withinMm).filter((mm) => mm > previous.atMm && mm < last.atMm),
  ];
  const gains = ends.map((end) => {
    const beginMm = Math.max(end - withinMm, line[0]?.atMm ?? end);
    const least = Math.min(leastMm(line, end - withinMm, end), diameterAt(line, beginMm));
    return diameterAt(line, end) - least;
  });
  return Math.max(0, ...gains);
}

/** The least of the places from one distance to another. */
function leastMm(line: readonly DiameterAt[], fromMm: number, toMm: number): number {
  let least = Infinity;
  let index = firstIndex(line.length, (at) => (line[at]?.atMm ?? 0) >= fromMm);
  for (let one = line[index]; one !== undefined && one.atMm <= toMm; one = line[++index]) {
    least = Math.min(least, one.mm);
  }
  return least;
}

/** The value at a distance, between places in proportion; at the ends and beyond that of the nearest place. */
export function diameterAt(line: readonly DiameterAt[], atMm: number): number {
  const after = firstIndex(line.length, (index) => (line[index]?.atMm ?? 0) >= atMm);
  const [one, other] = [line[after - 1], line[after]];
  if (!other) return line.at(-1)?.mm ?? Number.NaN;
  if (!one || other.atMm === one.atMm) return other.mm;
  return one.mm + ((other.mm - one.mm) * (atMm - one.atMm)) / (other.atMm - one.atMm);
}

/** How far the diameter at one of its places stands out over the least on either side of it within `withinMm`; 0 at an end. */
export function bulgeMm(line: readonly DiameterAt[], placeMm: number, withinMm: number): number {
  const here = line[firstIndex(line.length, (index) => (line[index]?.atMm ?? 0) >= placeMm)];
  if (!here || here === line[0] || here === line.at(-1)) return 0;
  const [fromMm, toMm] = [placeMm - withinMm, placeMm + withinMm];
  const before = Math.min(diameterAt(line, fromMm), leastMm(line, fromMm, placeMm));
  const after = Math.min(diameterAt(line, toMm), leastMm(line, placeMm, toMm));
  return Math.max(0, here.mm - Math.max(before, after));
}
