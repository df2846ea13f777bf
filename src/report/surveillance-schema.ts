import { z } from "zod";
import { citation, recommendation } from "./schema-parts.ts";

const window = z
  .strictObject({ earliest: z.string(), latest: z.string() })
  .describe("First and last day on which it is due, YYYY-MM-DD.");

const schedule = z.strictObject({
  schedule: z.string(),
  title: z.string(),
  source: citation,
  recommendation,
  confirmed: z.boolean(),
  checkedAgainst: z.string().nullable(),
  says: z.string(),
  imaging: z.strictObject({ words: z.string(), parts: z.array(z.string()) }),
  outcome: z.enum(["applies", "not-assessable"]),
  missing: z.array(z.string()),
  statements: z
    .array(z.string())
    .describe("What no sheet states and must be true for the date to hold."),
  start: z.strictObject({ event: z.string(), date: z.string() }).nullable(),
  lastExam: z
    .strictObject({
      date: z.string(),
      exams: z.array(z.string()),
      modalities: z.array(z.string()),
    })
    .nullable()
    .describe("The last exam of the right kind that measured the right part."),
  due: window.nullable(),
  overdueDays: z.number().int().nullable(),
  otherExamSince: z
    .string()
    .nullable()
    .describe("The last exam of another kind since the first due day."),
  sentence: z.string(),
});

const dueImaging = z.strictObject({
  schedule: z.string(),
  body: z.string(),
  year: z.number().int(),
  confirmed: z.boolean(),
  imaging: z.string(),
  parts: z.array(z.string()),
  earliest: z.string(),
  latest: z.string(),
  overdueDays: z.number().int().nullable(),
  otherExamSince: z.string().nullable(),
  statements: z.array(z.string()),
});

/** What a plan report says of the next imaging: the published schedules that speak, or may speak, of the patient. */
export const surveillanceSchema = z.strictObject({
  schedules: z.array(schedule),
  notApplicable: z.number().int().describe("Schedules on file that do not speak of the patient."),
  next: z.strictObject({
    due: z.array(dueImaging).describe("By the last day on which it is due, earliest first."),
    earliest: dueImaging.nullable(),
    missing: z.array(z.string()),
    sentence: z.string(),
  }),
});
