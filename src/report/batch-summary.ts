import { z } from "zod";
import { planSchema } from "./plan.ts";

const message = planSchema.shape.messages.element;

/** What became of each input file and each patient in one run; written as `batch.json` and drawn as `index.html`. */
export const batchSummarySchema = z.strictObject({
  schema: z.literal("aortic-packet/batch/1"),
  asOf: z.string(),
  software: planSchema.shape.software,
  files: z.array(
    z.strictObject({
      file: z.string(),
      sha256: z.string().nullable(),
      kind: z.string(),
      outcome: z.enum(["used", "already-known", "set-aside", "skipped"]),
      /** Why it was set aside or skipped; null where it was used. */
      reason: message.nullable(),
      /** Numbers read and placed, and numbers left out. */
      placed: z.number().int(),
      leftOut: z.number().int(),
    }),
  ),
  patients: z.array(
    z.strictObject({
      key: z.string(),
      id: z.string(),
      issuer: z.string().nullable(),
      name: z.string().nullable(),
      outcome: z.enum(["reported", "failed"]),
      /** Why no report could be made; null where one was. */
      failure: message.nullable(),
      lastExam: z.string().nullable(),
      /** True where this run read something new about the patient. */
      changed: z.boolean(),
      /** True where the options for a repair stand beside the plan report. */
      hasOptions: z.boolean(),
      largest: z.string().nullable(),
      growthExceeds: z.number().int(),
      met: z.number().int(),
      notMet: z.number().int(),
      notAssessable: z.number().int(),
      missing: z.array(z.string()),
    }),
  ),
  messages: z.array(message),
});

export type BatchSummary = z.infer<typeof batchSummarySchema>;
