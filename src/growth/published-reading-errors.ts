import { readFileSync } from "node:fs";
import { z } from "zod";
import { type RegionId, regionIds } from "../anatomy/places.ts";
import { parseOwnDataFile } from "../data-file.ts";
import { normalQuantile975 } from "../statistics/normal-quantile.ts";

const figures = z
  .strictObject({ low: z.number().positive(), high: z.number().positive() })
  .refine(({ low, high }) => low <= high, "low is above high");
const row = z
  .strictObject({
    regions: z.array(z.enum(regionIds)).min(1),
    modalities: z.array(z.enum(["CT", "MR", "US"])).min(1),
    measuredAt: z.string(),
    method: z.string(),
    halfWidthMm: figures.optional(),
    differenceSdMm: figures.optional(),
    source: z.string(),
  })
  .refine(
    ({ halfWidthMm, differenceSdMm }) =>
      (halfWidthMm === undefined) !== (differenceSdMm === undefined),
    "states one of halfWidthMm and differenceSdMm",
  );
type Row = z.infer<typeof row>;

const url = new URL("published-reading-errors.yaml", import.meta.url);
const rows = parseOwnDataFile(
  readFileSync(url, "utf8"),
  z.array(row).min(1),
  "src/growth/published-reading-errors.yaml",
);

/** Smallest and largest standard deviation of a single reading in mm that studies of a part of the aorta print. */
export interface PublishedRange {
  lowSdMm: number;
  highSdMm: number;
  source: string;
}

/**
 * The published range for a part of the aorta and a DICOM modality (null: not stated, taken as tomography), over all
 * studies of them; CT and MR count together. Where nobody measured with this modality there, the studies of tomography stand in, and where nobody
 * measured there at all, the study with the largest error; `source` says which.
 */
export function publishedRange(region: RegionId | null, modality: string | null): PublishedRange {
  const there = rows.filter(({ regions }) => regions.some((measured) => measured === region));
  const like = there.filter(({ modalities }) => modalities.some((one) => one === modality));
  const tomographic = there.filter(({ modalities }) => modalities.includes("CT"));
  // One study of MR alone would make its readings look better than those of CT: all of tomography counts for both.
  const here = like.length > 0 && modality !== "MR" ? like : tomographic;
  const used = here.length > 0 ? here : [widestRow()];
  const isOtherKind = modality !== null && like.length === 0;
  const sources = used.map(({ measuredAt, method, source }) => {
    const where = here.length > 0 ? measuredAt : `${measuredAt}, not at this place`;
    return `${method} (${where}; ${source})`;
  });
  return {
    lowSdMm: rounded(Math.min(...used.map((one) => sdsOf(one).low))),
    highSdMm: rounded(Math.max(...used.map((one) => sdsOf(one).high))),
    source: `published${isOtherKind ? `, none for ${modality} here` : ""}: ${sources.join("; ")}`,
  };
}

function widestRow(): Row {
  const [widest] = rows.toSorted((a, b) => sdsOf(b).high - sdsOf(a).high);
  if (!widest) throw new Error("no published reading error");
  return widest;
}

function sdsOf({ halfWidthMm, differenceSdMm }: Row): { low: number; high: number } {
  const printed = differenceSdMm ?? halfWidthMm;
  if (!printed) throw new Error("a published reading error without figures");
  const share = differenceSdMm ? Math.SQRT2 : normalQuantile975 * Math.SQRT2;
  return { low: printed.low / share, high: printed.high / share };
}

const rounded = (mm: number): number => Number(mm.toFixed(1));
