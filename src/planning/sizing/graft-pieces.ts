import { holds } from "../../quantities/limit.ts";

/** How many pieces of one covered length it takes, with the overlap of every two. */
export interface GraftPieces {
  pieces: number;
  /** What they cover when every overlap is the least one, in mm. */
  mostCoverMm: number;
  /** The overlap that is left at each joint when the coverage is met exactly, in mm; null for one piece. */
  overlapIfExactMm: number | null;
}

/**
 * Pieces of equal covered length for a coverage, all in mm, along one path: 1 where one is long enough, else
 * ceil((coverage - overlap) / (length - overlap)). `why` where a piece is not longer than the overlap.
 */
export function graftPieces(
  coverageMm: number,
  pieceMm: number,
  overlapMm: number,
): GraftPieces | { why: string } {
  if (holds(pieceMm, ">=", coverageMm)) {
    return { pieces: 1, mostCoverMm: pieceMm, overlapIfExactMm: null };
  }
  const gainMm = pieceMm - overlapMm;
  if (!holds(pieceMm, ">", overlapMm)) {
    return { why: `a piece of ${pieceMm} mm is not longer than the overlap of ${overlapMm} mm` };
  }
  const reckoned = (coverageMm - overlapMm) / gainMm;
  const pieces = holds(Math.round(reckoned), ">=", reckoned)
    ? Math.round(reckoned)
    : Math.ceil(reckoned);
  return {
    pieces,
    mostCoverMm: pieces * pieceMm - (pieces - 1) * overlapMm,
    overlapIfExactMm: (pieces * pieceMm - coverageMm) / (pieces - 1),
  };
}

/** Fabric edge to fabric edge, in mm. */
export interface Coverage {
  leastMm: number;
  mostMm: number;
}

/** The pieces of one covered length at one overlap, for the least and the most coverage. */
export interface PiecesOfLength {
  coveredLengthMm: number;
  overlapMm: number;
  overlapSource: string;
  least: GraftPieces | null;
  most: GraftPieces | null;
  why: string | null;
}

/** The low end of the overlap in use, in mm. */
export const lowEndOverlapMm = 30;

/** One row for each covered length, shortest first, and each overlap: the site's, and the low end of habit. */
export function piecesByLength(
  lengthsMm: readonly number[],
  { leastMm, mostMm }: Coverage,
  siteOverlapMm: number,
): PiecesOfLength[] {
  const overlaps = [
    { overlapMm: siteOverlapMm, overlapSource: siteOverlapSource },
    { overlapMm: lowEndOverlapMm, overlapSource: lowEndSource },
  ].filter(({ overlapMm }, index) => index === 0 || overlapMm !== siteOverlapMm);
  const distinct = [...new Set(lengthsMm)].toSorted((a, b) => a - b);
  return distinct.flatMap((coveredLengthMm) =>
    overlaps.map(({ overlapMm, overlapSource }) => {
      const [least, most] = [leastMm, mostMm].map((coverageMm) =>
        graftPieces(coverageMm, coveredLengthMm, overlapMm),
      );
      return {
        coveredLengthMm,
        overlapMm,
        overlapSource,
        least: least && "pieces" in least ? least : null,
        most: most && "pieces" in most ? most : null,
        why: most && "why" in most ? most.why : null,
      };
    }),
  );
}

const siteOverlapSource =
  "site's settings; 50 mm where it states none, recalled and not confirmed against a source";
const lowEndSource = "low end of habit, recalled and not confirmed against a source";
