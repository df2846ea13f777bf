import { readFileSync } from "node:fs";
import { z } from "zod";
import { type RegionId, regionIds } from "../anatomy/places.ts";
import { parseOwnDataFile } from "../data-file.ts";

/** A possible shift of one size against another, in mm, either way; `source` says between what, and who measured it. */
export interface Offset {
  lowMm: number;
  highMm: number;
  source: string;
}

const row = z
  .strictObject({
    regions: z.array(z.enum(regionIds)).min(1),
    measuredAt: z.string(),
    lowMm: z.number().nonnegative(),
    highMm: z.number().positive(),
    source: z.string(),
  })
  .refine(({ lowMm, highMm }) => lowMm <= highMm, "lowMm is above highMm");
const difference = z.strictObject({ what: z.string(), rows: z.array(row).min(1) });
const differences = z.strictObject({
  edge: difference,
  plane: difference,
  ultrasound: difference,
  ctMr: difference,
  phase: difference,
  gating: difference,
});

const url = new URL("comparability-offsets.yaml", import.meta.url);
const table = parseOwnDataFile(
  readFileSync(url, "utf8"),
  differences,
  "src/growth/comparability-offsets.yaml",
);

/** Two ways of measuring that shift a size against each other. */
export type DifferenceId = keyof typeof table;

/**
 * The published shift between two ways of measuring in a part of the aorta. Where nobody measured it there, the largest
 * that was measured elsewhere, and its `source` says so.
 */
export function publishedShift(id: DifferenceId, region: RegionId | null): Offset {
  const { what, rows } = table[id];
  const here = rows.find(({ regions }) => regions.some((measured) => measured === region));
  const [widest] = rows.toSorted((a, b) => b.highMm - a.highMm);
  const found = here ?? widest;
  if (!found) throw new Error(`no row for ${id}`);
  const { lowMm, highMm, measuredAt, source } = found;
  const where = here ? `measured at ${measuredAt}` : `measured at ${measuredAt}, not at this place`;
  return { lowMm, highMm, source: `${what} (${where}; ${source})` };
}

/**
 * Several shifts of one size together, null for none: at most their sum, where all point the same way; at least what is
 * left of the largest when the others point against it.
 */
export function addedOffsets(offsets: readonly Offset[]): Offset | null {
  if (offsets.length < 2) return offsets[0] ?? null;
  const highMm = offsets.reduce((sum, offset) => sum + offset.highMm, 0);
  const lowMm = Math.max(0, ...offsets.map((offset) => offset.lowMm + offset.highMm - highMm));
  return {
    lowMm: withoutBinaryNoise(lowMm),
    highMm: withoutBinaryNoise(highMm),
    source: offsets.map(({ source }) => source).join("; "),
  };
}

const withoutBinaryNoise = (mm: number): number => Number(mm.toFixed(9));

/** "0.2 to 1.9 mm". */
export function rangeInWords({ lowMm, highMm }: Offset): string {
  return lowMm === highMm ? `${highMm} mm` : `${lowMm} to ${highMm} mm`;
}
