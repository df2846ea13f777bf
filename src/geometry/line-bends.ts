import { isTooTight } from "./arc.ts";
import { toDegrees } from "./degrees.ts";
import { firstIndex } from "./first-index.ts";

/** How a line bends at a distance along it: the curvature in 1/mm, 0 where straight. Bends stand by distance. */
export interface BendAt {
  atMm: number;
  perMm: number;
}

/**
 * The bends from one distance to another: at both of these, in proportion between the neighbours, and at each place
 * between. Up to the largest gap beyond the first and the last the line bends as there; why there are none further out.
 */
export function bendsBetween(
  bends: readonly BendAt[],
  startMm: number,
  endMm: number,
): BendAt[] | { why: string } {
  const [first, last] = [bends[0], bends.at(-1)];
  if (!first || !last) return { why: "fewer than 3 points of the centreline" };
  const gaps = bends.slice(1).map(({ atMm }, index) => atMm - (bends[index]?.atMm ?? atMm));
  const marginMm = Math.max(0, ...gaps);
  if (startMm < first.atMm - marginMm || endMm > last.atMm + marginMm) {
    return { why: "the points of the centreline do not reach over the stretch" };
  }
  const begin = firstIndex(bends.length, (index) => (bends[index]?.atMm ?? 0) > startMm);
  const end = firstIndex(bends.length, (index) => (bends[index]?.atMm ?? 0) >= endMm);
  return [bendAt(bends, startMm), ...bends.slice(begin, end), bendAt(bends, endMm)];
}

function bendAt(bends: readonly BendAt[], atMm: number): BendAt {
  const after = firstIndex(bends.length, (index) => (bends[index]?.atMm ?? 0) >= atMm);
  const [one, other] = [bends[after - 1], bends[after]];
  if (!one || !other) return { atMm, perMm: (one ?? other)?.perMm ?? 0 };
  const share = (atMm - one.atMm) / (other.atMm - one.atMm);
  return { atMm, perMm: one.perMm + share * (other.perMm - one.perMm) };
}

/** What a stretch turns and how far its sides differ. */
export interface BendSides {
  /** Outer less inner length in mm. */
  differenceMm: number;
  /** Sum of all bends, whatever their plane. */
  turnDeg: number;
  /** Null for a straight stretch. */
  leastRadiusMm: number | null;
}

/**
 * The integrals, over the places of a stretch with the diameter of each, of D / R (difference of the sides) and of 1 / R
 * (turn), by the trapezoidal rule; a curve beside another is D / 2R shorter or longer (differential geometry). Why there
 * are none where a radius is not over half the diameter. Where the line bends to several sides it is the short and the
 * long side of each bend put together, as in `curveLengthsMm`.
 */
export function sidesOver(
  places: readonly BendAt[],
  diameterMmOf: (index: number) => number,
): BendSides | { why: string } {
  let [differenceMm, turn, sharpestPerMm] = [0, 0, 0];
  let previous: { atMm: number; perMm: number; share: number } | null = null;
  for (let index = 0; index < places.length; index++) {
    const { atMm, perMm } = places[index] ?? { atMm: Number.NaN, perMm: 0 };
    const diameterMm = diameterMmOf(index);
    const share = perMm * diameterMm;
    if (!(diameterMm > 0 && Number.isFinite(diameterMm))) {
      return { why: `the diameter at ${atMm.toFixed(1)} mm is not a number above 0` };
    }
    if (perMm > 0 && isTooTight(1 / perMm, diameterMm)) {
      const why = `the radius of the bend at ${atMm.toFixed(1)} mm is not over half the diameter`;
      return { why };
    }
    if (previous !== null) {
      const halfMm = (atMm - previous.atMm) / 2;
      differenceMm += halfMm * (share + previous.share);
      turn += halfMm * (perMm + previous.perMm);
    }
    sharpestPerMm = Math.max(sharpestPerMm, perMm);
    previous = { atMm, perMm, share };
  }
  const leastRadiusMm = Number.isFinite(1 / sharpestPerMm) ? 1 / sharpestPerMm : null;
  return { differenceMm, turnDeg: toDegrees(turn), leastRadiusMm };
}
