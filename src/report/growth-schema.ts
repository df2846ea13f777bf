import { z } from "zod";
import { edgeIds, phaseIds, planeIds } from "../quantities/measured-quantity.ts";
import { interval, isoDate, outcome, place } from "./schema-parts.ts";

const growthPoint = z.strictObject({
  exam: z.string(),
  date: isoDate,
  values: z
    .array(z.number())
    .describe("In mm; more than one where readings of the same exam differ."),
  measurements: z.array(z.string()),
  low: z.number().describe("Value minus 1.96 SD of one reading."),
  high: z.number(),
  sdMm: z.number().describe("SD of one such reading."),
  edge: z.enum(edgeIds),
  plane: z.enum(planeIds),
  phase: z.enum(phaseIds),
  comparability: z
    .enum(["comparable", "comparable-with-offset", "not-comparable"])
    .describe("With the last point of the series."),
  reasons: z.array(z.string()).describe("Why it is not comparable, or what is unstated about it."),
  offset: z
    .strictObject({ lowMm: z.number(), highMm: z.number(), source: z.string() })
    .nullable()
    .describe("By how much it may be shifted against the last point; intervals are widened by it."),
});

const growthInterval = z.strictObject({
  from: isoDate,
  to: isoDate,
  days: z.number().int(),
  change: interval,
  rate: interval
    .nullable()
    .describe("mm per year; null under the shortest interval that is annualised."),
});

const growthAnswer = z.strictObject({
  rule: z.string(),
  body: z.string(),
  year: z.number().int(),
  confirmed: z.boolean(),
  limitMmPerYear: z.number(),
  answer: z.enum(["exceeds", "does-not-exceed", "cannot-tell"]),
  outcome: outcome.describe("The criterion as it is written."),
  tellableInMonths: z
    .number()
    .int()
    .nullable()
    .describe(
      "Months after the last exam until a further exam could tell; null where it can't be said.",
    ),
  reason: z.string(),
});

const readingError = z
  .strictObject({
    lowSdMm: z.number(),
    highSdMm: z.number(),
    source: z.string(),
    basis: z.enum(["stated", "estimated", "published"]),
  })
  .describe("Standard deviation of one reading; intervals are reckoned with the high end.");

const projection = z
  .strictObject({
    limitMm: z.number(),
    rules: z.array(z.string()),
    sources: z.array(z.string()),
    answer: z.enum([
      "already at or over",
      "between",
      "not before",
      "not within the horizon",
      "no projection",
    ]),
    earliest: isoDate.nullable(),
    latest: isoDate.nullable(),
    horizon: isoDate.nullable().describe("The data carry no date beyond this."),
    sentence: z.string(),
  })
  .describe("When the 95 % band of the fitted line crosses a size limit.");

/** One series of a plan report. */
export const growthSchema = z.strictObject({
  key: z.string(),
  place,
  quantity: z.string(),
  statistic: z.string(),
  lumen: z.string(),
  points: z.array(growthPoint),
  intervals: z.array(growthInterval),
  rate: interval.nullable().describe("mm per year over all comparable points."),
  rateMethod: z.string().describe("How the rate was fitted, or why there is none."),
  readingError,
  otherReadingErrors: z.array(readingError).describe("On file, and not the one that decides."),
  rateChange: z.strictObject({
    answer: z.enum([
      "faster lately",
      "slower lately",
      "no change that can be told",
      "too few exams",
    ]),
    sentence: z.string(),
  }),
  projections: z.array(projection),
  comparability: z.array(z.string()),
  answers: z.array(growthAnswer),
  wall: z
    .string()
    .nullable()
    .describe("What the wall is at the last exam where it is not native, or is unclear."),
  sentence: z.string().describe("Change, time, rate with interval and answer, in words."),
});
