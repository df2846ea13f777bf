import type { AorticPlace } from "../anatomy/places.ts";
import type { PatientCase } from "../cases/patient-case.ts";
import type { Rule } from "../guidelines/rule.ts";
import type { EdgeId, LumenId, StatisticId } from "../quantities/measured-quantity.ts";
import { normalQuantile975 } from "../statistics/normal-quantile.ts";
import { type GrowthAnswer, growthAnswers } from "./growth-answers.ts";
import {
  type DatedSize,
  type GrowthInterval,
  growthIntervals,
  growthRate,
  type Interval,
} from "./growth-rate.ts";
import { growthSentence } from "./growth-sentence.ts";
import { type GrowthSeries, growthSeries, type JudgedPoint } from "./growth-series.ts";
import { type ReadingError, type ReadingErrors, readingErrorOfPoints } from "./reading-error.ts";

/** The size of a place in one exam, with its reading error. */
interface GrowthPoint {
  exam: string;
  /** YYYY-MM-DD. */
  date: string;
  /** In mm; more than one where readings of the same exam differ. */
  values: number[];
  measurements: string[];
  /** Smallest value less, and largest more, 1.96 SD of one reading. */
  low: number;
  high: number;
  edge: EdgeId;
  comparable: boolean;
  reasons: string[];
}

/** How one diameter of one place changed over the exams, and what published growth criteria say of it. */
export interface Growth {
  /** Stable within the patient. */
  key: string;
  place: AorticPlace;
  quantity: "diameter";
  statistic: StatisticId;
  lumen: LumenId;
  points: GrowthPoint[];
  /** Between neighbouring comparable points. */
  intervals: GrowthInterval[];
  /** Over all comparable points. */
  rate: Interval | null;
  /** How the rate was fitted, or why there is none. */
  rateMethod: string;
  readingError: ReadingError;
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
    const { key, place, statistic, lumen, points } = series;
    const compared = points.filter(({ comparable }) => comparable);
    const sizes = compared.map(datedSize);
    const readingError = readingErrorOfPoints(place, compared, readingErrors);
    const { rate, method } = growthRate(sizes, readingError);
    const basis = { series, sizes, rate, rateMethod: method, patientCase, asOf };
    const answers = growthAnswers(rules, basis);
    return {
      key,
      place,
      quantity: "diameter",
      statistic,
      lumen,
      points: points.map((point) => growthPoint(point, readingError)),
      intervals: growthIntervals(sizes, readingError),
      rate,
      rateMethod: method,
      readingError,
      comparability: comparabilityNotes(series, patientCase),
      answers,
      sentence: growthSentence(series, sizes, { rate, method }, readingError, answers),
    };
  });
}

const datedSize = ({ exam, valuesMm }: JudgedPoint): DatedSize => ({
  date: exam.imagingDate,
  valueMm: smallest(valuesMm),
});

function growthPoint(point: JudgedPoint, { highSdMm }: ReadingError): GrowthPoint {
  const { exam, valuesMm, measurements, edge, comparable, reasons } = point;
  const halfWidthMm = normalQuantile975 * highSdMm;
  return {
    exam: exam.key,
    date: exam.imagingDate,
    values: valuesMm,
    measurements,
    low: smallest(valuesMm) - halfWidthMm,
    high: Math.max(...valuesMm) + halfWidthMm,
    edge,
    comparable,
    reasons,
  };
}

const smallest = (values: readonly number[]): number => Math.min(...values);

/** What limits the comparison: each exam left out with its reasons, then what is unstated or different in those used. */
function comparabilityNotes({ points }: GrowthSeries, { facts }: PatientCase): string[] {
  const leftOut = points
    .filter(({ comparable }) => !comparable)
    .map(({ exam, reasons }) => `${exam.imagingDate} left out: ${reasons.join("; ")}`);
  const remarks = points
    .filter(({ comparable }) => comparable)
    .flatMap(({ exam, reasons }) => reasons.map((text) => ({ text, date: exam.imagingDate })));
  const grouped = [...Map.groupBy(remarks, ({ text }) => text)].map(
    ([text, group]) => `${text}: ${group.map(({ date }) => date).join(", ")}`,
  );
  const repairs = facts.priorRepairs === null ? ["not stated whether there was a repair"] : [];
  return [...leftOut, ...grouped, ...repairs];
}
