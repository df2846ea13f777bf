import { holds } from "../../quantities/limit.ts";
import type { InventoryRow } from "../../readers/csv/inventory.ts";
import { oversizingPercent } from "./graft-interval.ts";
import type { Coverage } from "./graft-pieces.ts";
import type { RowFit } from "./inventory-fit.ts";
import { oversizingSituation } from "./oversizing-windows.ts";

/** Two rows, the distal piece first and the proximal one inside it, whose numbers lie in all windows. */
export interface PiecePair {
  proximalRow: string;
  distalRow: string;
  /** Distal end of the proximal piece over the proximal end of the distal piece, less 1, in per cent. */
  jointPercent: number;
  /** With the least overlap. */
  mostCoverMm: number;
}

/**
 * Pairs of rows in the order of the inventory: the proximal piece inside at the proximal end, the distal piece inside at
 * the distal end, under the first window of each; at the joint the inner one larger by the recalled window of a stent
 * graft inside another; together long enough for the most coverage with the least overlap. A question, not a choice.
 */
export function piecePairs(
  inventory: readonly InventoryRow[],
  fits: readonly RowFit[],
  { mostMm }: Coverage,
  overlapMm: number,
): PiecePair[] {
  const isInside = (id: string, end: "proximal" | "distal"): boolean =>
    fits.find((row) => row.id === id)?.[end].windows[0]?.outcome === "met";
  const distal = inventory.filter(({ id }) => isInside(id, "distal"));
  return inventory
    .filter(({ id }) => isInside(id, "proximal"))
    .flatMap((inner) =>
      distal.flatMap((outer) => {
        const jointPercent = oversizingPercent(inner.distalMm, outer.proximalMm);
        const mostCoverMm = inner.coveredLengthMm + outer.coveredLengthMm - overlapMm;
        const isLong =
          holds(mostCoverMm, ">=", mostMm) &&
          [inner, outer].every(({ coveredLengthMm }) => holds(coveredLengthMm, ">", overlapMm));
        return isLong && isJoint(inner.distalMm, outer.proximalMm)
          ? [{ proximalRow: inner.id, distalRow: outer.id, jointPercent, mostCoverMm }]
          : [];
      }),
    );
}

/** The window that the joint of two pieces is read by. */
export const jointWindow = oversizingSituation("stent-graft").windows[0];

function isJoint(innerMm: number, outerMm: number): boolean {
  if (!jointWindow) return false;
  const { lowPercent, highPercent } = jointWindow;
  return (
    holds(innerMm, ">=", (outerMm * (100 + (lowPercent ?? 0))) / 100) &&
    holds(innerMm, "<=", (outerMm * (100 + highPercent)) / 100)
  );
}
