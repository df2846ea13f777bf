import { z } from "zod";
import { interval, outcome } from "./schema-parts.ts";

const requirement = z.strictObject({
  id: z.string(),
  label: z.string(),
  outcome,
  value: interval.nullable().describe("The number judged; null where there is none."),
  limit: z.string().describe("In words, with its unit."),
  spansLimit: z.boolean().describe("True where the 95 % interval of the value holds the limit."),
  source: z.string().describe("Where the limit comes from, and how it was checked."),
  used: z.array(z.string()).describe("Keys of measurements, findings and stations."),
  missing: z.array(z.string()).describe("What is missing; empty unless it can't be judged."),
  reason: z.string(),
});

const confirmed = z
  .boolean()
  .describe("False where the published text was recalled or seen in a digest only.");

/** One way of dealing with the proximal end of a plan report. */
export const archPlanSchema = z
  .strictObject({
    id: z.string(),
    label: z.string(),
    proximalZone: z
      .enum(["0", "1", "2", "3", "4"])
      .nullable()
      .describe("Where the fabric's proximal edge lies; null where surgery makes that end."),
    covers: z.array(z.string()).describe("Branches that the fabric covers in this patient's arch."),
    coversUnknown: z
      .string()
      .nullable()
      .describe("Why it may cover or rebuild others; null where all are known."),
    refeeding: z
      .array(z.string())
      .describe("How each branch that is covered or rebuilt gets its blood."),
    requirements: z.array(requirement),
    advice: z
      .array(
        z.strictObject({
          text: z.string(),
          body: z.string(),
          year: z.number().int(),
          strength: z.string().nullable().describe("Class and level, as far as they are known."),
          confirmed,
          source: z.string(),
        }),
      )
      .describe("What bodies advise on the left subclavian artery; they may differ."),
    facts: z.array(
      z.strictObject({
        of: z.enum(["patient", "publication"]),
        text: z.string(),
        source: z.string(),
        confirmed,
      }),
    ),
    questions: z.array(
      z.strictObject({ text: z.string(), raisedBy: z.string(), answeredBy: z.string() }),
    ),
    missing: z.array(z.string()).describe("For the requirements and the facts, each once."),
  })
  .describe("One way of dealing with the proximal end; the order is anatomical, no ranking.");
