import { z } from "zod";
import { interval, outcome } from "./schema-parts.ts";

const keys = z.array(z.string()).describe("Keys of measurements, findings and stations.");
const missing = z.array(z.string()).describe("What is missing, by name.");

/** One condition laid beside a number. */
export const planningCheckSchema = z.strictObject({
  id: z.string(),
  label: z.string(),
  outcome,
  value: interval.nullable().describe("The number judged; null where there is none."),
  limit: z.string().describe("In words, with its unit."),
  spansLimit: z.boolean().describe("True where the interval of the value holds the limit."),
  source: z.string().describe("Where the limit comes from, and how it was checked."),
  used: keys,
  missing: missing.describe("What is missing; empty unless it can't be judged."),
  reason: z.string(),
});

/** A question for the meeting. */
export const questionSchema = z.strictObject({
  text: z.string(),
  raisedBy: z.string().describe("The fact that raised it."),
  answeredBy: z.string().describe("A role."),
});

const bounded = z
  .strictObject({ value: z.number(), low: z.number(), high: z.number() })
  .describe("With the ends of its 95 % interval.");

const stretch = z.strictObject({
  id: z.enum(["common iliac", "external iliac", "common femoral"]),
  label: z.string(),
  lumenMm: bounded.nullable().describe("The least of what is measured, in mm."),
  isLeast: z
    .boolean()
    .describe("True for the least diameter at the inner edge; false where it may be narrower."),
  areaMm2: bounded.nullable().describe("Least lumen area at the inner edge, in mm2."),
  words: z.string(),
  used: keys,
  areaUsed: keys,
  missing: z.string().nullable(),
});

const sheath = z.strictObject({
  outerMm: z.number(),
  asWritten: z.string().describe('As the inventory states it: "22 Fr" or "7.3 mm".'),
  rows: z.array(z.string()).describe("Ids of the inventory's rows of this size, in its order."),
  ratio: z
    .strictObject({ value: z.number(), low: z.number(), high: z.number().nullable() })
    .nullable()
    .describe("Outer sheath over narrowest lumen, no unit; no upper end where it may be narrower."),
  checks: z.array(planningCheckSchema).describe("The site's own ratio first."),
});

/** The way in through both groins in a plan report. No side is picked. */
export const accessSchema = z
  .strictObject({
    sides: z.array(
      z.strictObject({
        side: z.enum(["right", "left"]),
        stretches: z.array(stretch).describe("From the aorta down."),
        unplaced: stretch
          .nullable()
          .describe("Sections of a path before the first mark that tells their stretch."),
        narrowest: z
          .strictObject({
            valueMm: z.number(),
            lowMm: z.number(),
            highMm: z.number(),
            at: z.string(),
            isWhole: z.boolean().describe("True where every stretch has its least diameter."),
            used: keys,
          })
          .nullable(),
        largestGapMm: z
          .number()
          .nullable()
          .describe("Between neighbouring sections of the path, in mm."),
        internalIliac: z.strictObject({ words: z.string(), used: keys }),
        checks: z.array(planningCheckSchema),
        sheaths: z
          .array(sheath)
          .nullable()
          .describe("One entry an outer size, smallest first; null without an inventory."),
        missing,
      }),
    ),
    questions: z.array(questionSchema),
    statements: z.array(
      z.strictObject({
        id: z.string(),
        says: z.string(),
        source: z.string(),
        confirmed: z.boolean().describe("False where the source was not seen."),
      }),
    ),
  })
  .describe("The lumen of the way in against the sheaths of the inventory, right and left.");
