/** Degrees as a view is named: whole ones. */
const whole = (deg: number): string => `${Math.abs(Math.round(deg))}°`;

const sided = (deg: number, positive: string, negative: string): string =>
  Math.round(deg) === 0 ? "0°" : `${deg > 0 ? positive : negative} ${whole(deg)}`;

/** "LAO 45°", "RAO 30°", "0°": left or right anterior oblique. */
export const primaryWords = (deg: number): string => sided(deg, "LAO", "RAO");

/** "cranial 20°", "caudal 20°", "0°". */
export const secondaryWords = (deg: number): string => sided(deg, "cranial", "caudal");

/** "LAO 45° / cranial 20°", in whole degrees. */
export const viewWords = (view: { primaryDeg: number; secondaryDeg: number }): string =>
  `${primaryWords(view.primaryDeg)} / ${secondaryWords(view.secondaryDeg)}`;

/** "± 3°", rounded up so that it covers; where the error is not known, that it is not. */
export const plusMinusWords = (deg: number | null): string =>
  deg === null ? "± unknown" : `±\u00a0${Math.ceil(deg - 1e-9)}°`;
