/*
 * How many pieces of graft cover a length, with overlaps.
 *
 * Sources: the table is reckoned by hand, n = ceil((L - o) / (l - o)) for pieces longer than the overlap, each covering
 * l - o more than the first. The overlap of 50 mm and its low end of 30 mm are recalled; no source was found.
 */
import { expect, test } from "vitest";
import { graftPieces } from "../../src/planning/sizing/graft-pieces.ts";

test.each([
  [140, 150, 50, 1, 150, null],
  [260, 150, 50, 3, 350, 95],
  [260, 150, 30, 2, 270, 40],
  [260, 200, 50, 2, 350, 140],
  [205, 150, 50, 2, 250, 95],
])(
  "%d mm with pieces of %d mm and an overlap of %d mm: %d pieces, at most %d mm, overlaps of %d mm if met exactly",
  (coverageMm, pieceMm, overlapMm, pieces, mostCoverMm, overlapIfExactMm) => {
    expect(graftPieces(coverageMm, pieceMm, overlapMm)).toEqual({
      pieces,
      mostCoverMm,
      overlapIfExactMm,
    });
  },
);
