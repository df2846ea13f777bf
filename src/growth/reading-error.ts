/** How far one reading of a diameter may be from the truth: standard deviation of a single reading in mm. */
export interface ReadingError {
  lowSdMm: number;
  /** Intervals are reckoned with this end, the cautious one. */
  highSdMm: number;
  source: string;
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
