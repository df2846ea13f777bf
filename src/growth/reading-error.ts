import type { AorticPlace } from "../anatomy/places.ts";
import { readingErrorFor, type SiteReadingError } from "../site/reading-errors.ts";
import type { SeriesPoint } from "./comparability.ts";

/** How far one reading of a diameter may be from the truth: standard deviation of a single reading in mm. */
export interface ReadingError {
  lowSdMm: number;
  /** Intervals are reckoned with this end, the cautious one. */
  highSdMm: number;
  source: string;
}

/** The reading error in force in general, and the site's own for single methods. */
export interface ReadingErrors extends ReadingError {
  byMethod?: readonly SiteReadingError[];
}

/**
 * In force where the site states no error of its own. The study prints 95 % limits of the differences
 * between two readings, half-width 2.0 to 5.2 mm; over 1.96 times the square root of 2 that is an SD of
 * 0.7 to 1.9 mm for one reading. That the printed limits are meant so is an assumption.
 */
export const publishedReadingError: ReadingError = {
  lowSdMm: 0.7,
  highSdMm: 1.9,
  source:
    "published range, one reader, gated CT of the proximal aorta (Quint 2013, Int J Cardiovasc Imaging 29:479-88)",
};

/** A site's reading error as growth reckons with it. */
export function siteError({ sdMm, source }: SiteReadingError): ReadingError {
  return { lowSdMm: sdMm, highSdMm: sdMm, source };
}

/** The reading error of one reading at a place. */
export function readingErrorOfReading(
  place: AorticPlace,
  { exam: { modality, gated }, edge }: Pick<SeriesPoint, "edge"> & { exam: ReadingExam },
  { byMethod = [], ...general }: ReadingErrors,
): ReadingError {
  const own = readingErrorFor(byMethod, { modality, gated, edge, region: place.region });
  return own ? siteError(own) : general;
}

type ReadingExam = Pick<SeriesPoint["exam"], "modality" | "gated">;

/** The reading error of points that are compared at a place: where their methods have different ones, the largest. */
export function readingErrorOfPoints(
  place: AorticPlace,
  points: readonly SeriesPoint[],
  errors: ReadingErrors,
): ReadingError {
  const [largest] = points
    .map((point) => readingErrorOfReading(place, point, errors))
    .toSorted((a, b) => b.highSdMm - a.highSdMm);
  const { byMethod: _, ...general } = errors;
  return largest ?? general;
}
