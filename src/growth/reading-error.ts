import type { AorticPlace } from "../anatomy/places.ts";
import {
  generalReadingError,
  readingErrorFor,
  type SiteReadingError,
} from "../site/reading-errors.ts";
import type { SeriesPoint } from "./comparability.ts";
import { estimateFor, type ReadingErrorEstimate } from "./estimated-reading-error.ts";
import { publishedRange } from "./published-reading-errors.ts";

/** How far one reading of a diameter may be from the truth: standard deviation of a single reading in mm. */
export interface ReadingError {
  lowSdMm: number;
  /** Intervals are reckoned with this end, the cautious one. */
  highSdMm: number;
  source: string;
  /** Stated by the site, estimated from its double readings, or published. */
  basis: "stated" | "estimated" | "published";
}

/** The site's own reading errors: as its file states them, and as estimated from double readings. */
export interface ReadingErrors {
  stated: readonly SiteReadingError[];
  estimated: readonly ReadingErrorEstimate[];
}

type ReadingExam = Pick<SeriesPoint["exam"], "modality" | "gated">;
type Taken = Pick<SeriesPoint, "edge"> & { exam: ReadingExam };

/**
 * Every reading error on file for one reading at a place, the one that decides first: what the site states for the method,
 * else the estimate from its double readings, else the published range.
 */
export function readingErrorsOfReading(
  { region }: AorticPlace,
  { exam: { modality, gated }, edge }: Taken,
  { stated, estimated }: ReadingErrors,
): [ReadingError, ...ReadingError[]] {
  const own = readingErrorFor(stated, { modality, gated, edge, region });
  return onFile(own, { region, modality }, estimated);
}

/** The reading error of one reading at a place. */
export function readingErrorOfReading(
  place: AorticPlace,
  taken: Taken,
  errors: ReadingErrors,
): ReadingError {
  return readingErrorsOfReading(place, taken, errors)[0];
}

/**
 * The reading errors for points that are compared at a place, as `readingErrorsOfReading`: those of the point whose error
 * is largest.
 */
export function readingErrorsOfPoints(
  place: AorticPlace,
  points: readonly SeriesPoint[],
  errors: ReadingErrors,
): [ReadingError, ...ReadingError[]] {
  const [largest] = points
    .map((point) => readingErrorsOfReading(place, point, errors))
    .toSorted(([a], [b]) => b.highSdMm - a.highSdMm);
  return (
    largest ??
    onFile(
      generalReadingError(errors.stated),
      { region: place.region, modality: null },
      errors.estimated,
    )
  );
}

function onFile(
  own: SiteReadingError | null,
  { region, modality }: { region: AorticPlace["region"]; modality: string | null },
  estimates: readonly ReadingErrorEstimate[],
): [ReadingError, ...ReadingError[]] {
  const published: ReadingError = { ...publishedRange(region, modality), basis: "published" };
  const estimate = estimateFor(estimates, region);
  const ranked = [
    ...(own ? [statedError(own)] : []),
    ...(estimate ? [estimatedError(estimate)] : []),
  ];
  const [first, ...others] = ranked;
  return first ? [first, ...others, published] : [published];
}

const statedError = ({ sdMm, source }: SiteReadingError): ReadingError => ({
  lowSdMm: sdMm,
  highSdMm: sdMm,
  source,
  basis: "stated",
});

function estimatedError({ pairs, sdMm, lowSdMm, highSdMm }: ReadingErrorEstimate): ReadingError {
  const source = `estimated from ${pairs} double readings of this run: SD ${sdMm.toFixed(2)} mm, 95 % ${lowSdMm.toFixed(2)} to ${highSdMm.toFixed(2)} mm`;
  return { lowSdMm, highSdMm, source, basis: "estimated" };
}
