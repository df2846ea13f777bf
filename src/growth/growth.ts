import type { AorticPlace } from "../anatomy/places.ts";
import type { PatientCase } from "../cases/patient-case.ts";
import type { Rule } from "../guidelines/rule.ts";
import type {
  EdgeId,
  LumenId,
  PhaseId,
  PlaneId,
  StatisticId,
} from "../quantities/measured-quantity.ts";
import { normalQuantile975 } from "../statistics/normal-quantile.ts";
import {
  type Comparability,
  isCompared,
  offsetBetween,
  type SeriesPoint,
} from "./comparability.ts";
import type { Offset } from "./comparability-offsets.ts";
import { type GrowthAnswer, growthAnswers } from "./growth-answers.ts";
import {
  type ComparedSize,
  type GrowthInterval,
  growthIntervals,
  growthRate,
  type Interval,
} from "./growth-rate.ts";
import { type RateChange, rateChange } from "./rate-change.ts";
import { growthSentence } from "./growth-sentence.ts";
import { type GrowthSeries, growthSeries, type JudgedPoint } from "./growth-series.ts";
import {
  type ReadingError,
  readingErrorOfReading,
  type ReadingErrors,
  readingErrorsOfPoints,
} from "./reading-error.ts";

/** The size of a place in one exam, with its reading error. */
interface GrowthPoint {
  exam: string;
  /** YYYY-MM-DD. */
  date: string;
  /** In mm; more than one where readings of the same exam differ. */
  values: number[];
  measurements: string[];
  /** Standard deviation of one reading taken like this one. */
  sdMm: number;
  /** Smallest value less, and largest more, 1.96 SD. */
  low: number;
  high: number;
  edge: EdgeId;
  plane: PlaneId;
  phase: PhaseId;
  /** Against the last point with a single value. */
  comparability: Comparability["verdict"];
  reasons: string[];
  /** How far it may be shifted against that point. */
  offset: Offset | null;
}

/** How one diameter of one place changed over the exams, and what published growth criteria say of it. */
export interface Growth {
  /** Stable within the patient. */
  key: string;
  place: AorticPlace;
  quantity: "diameter";
  statistic: StatisticId;
  lumen: LumenId;
  /** As in `GrowthSeries`. */
  wall: string | null;
  points: GrowthPoint[];
  /** Between neighbouring comparable points. */
  intervals: GrowthInterval[];
  /** Over all comparable points. */
  rate: Interval | null;
  /** How the rate was fitted, or why there is none. */
  rateMethod: string;
  /** Whether the rate is changing. */
  rateChange: RateChange;
  /** Of the comparable point with the largest one. */
  readingError: ReadingError;
  /** What is on file besides and does not decide, such as the published range. */
  otherReadingErrors: ReadingError[];
  comparability: string[];
  answers: GrowthAnswer[];
  sentence: string;
}

/**
 * Growth of every diameter that a patient has in at least two exams, along the vessel. `asOf` (YYYY-MM-DD) is the day
 * for which the populations of the rules are judged.
 */
export function assessGrowth(
  patientCase: PatientCase,
  rules: readonly Rule[],
  { asOf, readingError: readingErrors }: { asOf: string; readingError: ReadingErrors },
): Growth[] {
  return growthSeries(patientCase).map((series) => {
    const { key, place, statistic, lumen, wall, points } = series;
    const compared = points.filter(isCompared);
    const sdMmOf = (point: SeriesPoint): number =>
      readingErrorOfReading(place, point, readingErrors).highSdMm;
    const sizes = comparedSizes(compared, place, sdMmOf);
    const [readingError, ...otherReadingErrors] = readingErrorsOfPoints(
      place,
      compared,
      readingErrors,
    );
    const { rate, method } = growthRate(sizes);
    const change = rateChange(sizes);
    const basis = { series, sizes, rate, rateMethod: method, patientCase, asOf };
    const answers = growthAnswers(rules, basis);
    return {
      key,
      place,
      quantity: "diameter",
      statistic,
      lumen,
      wall,
      points: points.map((point) => growthPoint(point, sdMmOf(point))),
      intervals: growthIntervals(sizes),
      rate,
      rateMethod: method,
      rateChange: change,
      readingError,
      otherReadingErrors,
      comparability: comparabilityNotes(series, patientCase),
      answers,
      sentence: growthSentence(series, sizes, { rate, method, change }, answers),
    };
  });
}

function comparedSizes(
  points: readonly JudgedPoint[],
  place: AorticPlace,
  sdMmOf: (point: SeriesPoint) => number,
): ComparedSize[] {
  return points.map((point, index): ComparedSize => {
    const before = points[index - 1];
    return {
      date: point.exam.imagingDate,
      valueMm: smallest(point.valuesMm),
      sdMm: sdMmOf(point),
      offset: point.offset,
      offsetFromBefore: before ? offsetBetween(before, point, place) : null,
    };
  });
}

function growthPoint(point: JudgedPoint, sdMm: number): GrowthPoint {
  const { exam, valuesMm, measurements, edge, plane, phase, verdict, reasons, offset } = point;
  const halfWidthMm = normalQuantile975 * sdMm;
  return {
    exam: exam.key,
    date: exam.imagingDate,
    values: valuesMm,
    measurements,
    sdMm,
    low: smallest(valuesMm) - halfWidthMm,
    high: Math.max(...valuesMm) + halfWidthMm,
    edge,
    plane,
    phase,
    comparability: verdict,
    reasons,
    offset,
  };
}

const smallest = (values: readonly number[]): number => Math.min(...values);

/** What limits the comparison: each exam left out with its reasons, then what is unstated or different in those used. */
function comparabilityNotes({ points }: GrowthSeries, { facts }: PatientCase): string[] {
  const leftOut = points
    .filter((point) => !isCompared(point))
    .map(({ exam, reasons }) => `${exam.imagingDate} left out: ${reasons.join("; ")}`);
  const remarks = points
    .filter(isCompared)
    .flatMap(({ exam, reasons }) => reasons.map((text) => ({ text, date: exam.imagingDate })));
  const grouped = [...Map.groupBy(remarks, ({ text }) => text)].map(([text, group]) => {
    const dates = group.map(({ date }) => date).filter((date) => !text.includes(date));
    return dates.length === 0 ? text : `${text}: ${dates.join(", ")}`;
  });
  const repairs = facts.priorRepairs === null ? ["not stated whether there was a repair"] : [];
  return [...leftOut, ...grouped, ...repairs];
}
