import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { graftPieces, piecesByLength } from "../../../src/planning/sizing/graft-pieces.ts";
import { evenly } from "../../evenly.ts";

describe("graftPieces", () => {
  test("a piece that is not longer than the overlap never adds up", () => {
    expect(graftPieces(100, 50, 50)).toEqual({
      why: "a piece of 50 mm is not longer than the overlap of 50 mm",
    });
    expect(graftPieces(40, 50, 50)).toMatchObject({ pieces: 1 });
  });

  test("a length that is met exactly takes no further piece in spite of binary fractions", () => {
    expect(graftPieces(0.1 * 3, 0.1, 0)).toMatchObject({ pieces: 3 });
    expect(graftPieces(250, 150, 50)).toMatchObject({ pieces: 2, overlapIfExactMm: 50 });
  });

  const sizes = fc.tuple(evenly(20, 600), evenly(51, 250), evenly(10, 50));

  test("the pieces cover the length, one fewer would not, and each overlap left is at least the least one", () => {
    fc.assert(
      fc.property(sizes, ([coverageMm, pieceMm, overlapMm]) => {
        const found = graftPieces(coverageMm, pieceMm, overlapMm);
        if ("why" in found) throw new Error(found.why);
        const { pieces, mostCoverMm, overlapIfExactMm } = found;
        expect(mostCoverMm).toBeGreaterThanOrEqual(coverageMm * (1 - 1e-8));
        if (pieces > 1) {
          const oneFewerMm = (pieces - 1) * pieceMm - (pieces - 2) * overlapMm;
          expect(oneFewerMm).toBeLessThan(coverageMm * (1 + 1e-8));
          expect(overlapIfExactMm).toBeGreaterThanOrEqual(overlapMm - 1e-6);
        }
      }),
    );
  });

  test("more to cover never takes fewer pieces, and more overlap never does either", () => {
    fc.assert(
      fc.property(sizes, evenly(0, 100), (given, moreMm) => {
        const [coverageMm, pieceMm, overlapMm] = given;
        const count = (mm: number, overlap: number) => {
          const found = graftPieces(mm, pieceMm, overlap);
          return "pieces" in found ? found.pieces : Number.POSITIVE_INFINITY;
        };
        const here = count(coverageMm, overlapMm);
        expect(count(coverageMm + moreMm, overlapMm)).toBeGreaterThanOrEqual(here);
        expect(count(coverageMm, overlapMm + moreMm / 10)).toBeGreaterThanOrEqual(here);
      }),
    );
  });
});

describe("piecesByLength", () => {
  test("one row for each distinct length and overlap: the site's and the recalled low end of 30 mm", () => {
    const rows = piecesByLength([200, 150, 150], { leastMm: 140, mostMm: 260 }, 50);
    expect(rows.map(({ coveredLengthMm, overlapMm }) => [coveredLengthMm, overlapMm])).toEqual([
      [150, 50],
      [150, 30],
      [200, 50],
      [200, 30],
    ]);
    expect(rows[0]).toMatchObject({ least: { pieces: 1 }, most: { pieces: 3 }, why: null });
    expect(rows[1]).toMatchObject({ most: { pieces: 2, overlapIfExactMm: 40 } });
    expect(rows.every(({ overlapSource }) => overlapSource.includes("not confirmed"))).toBe(true);
  });

  test("a site with 30 mm has one row for each length", () => {
    expect(piecesByLength([150], { leastMm: 140, mostMm: 260 }, 30)).toHaveLength(1);
  });

  test("a length under the overlap says why it is not computed", () => {
    const [short] = piecesByLength([40], { leastMm: 100, mostMm: 120 }, 50);
    expect(short).toMatchObject({
      least: null,
      most: null,
      why: "a piece of 40 mm is not longer than the overlap of 50 mm",
    });
  });
});
