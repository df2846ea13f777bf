import { z } from "zod";
import { interval, outcome } from "./schema-parts.ts";

const landingCheck = z.strictObject({
  id: z.string(),
  label: z.string(),
  outcome,
  value: interval.nullable(),
  limit: z.string(),
  spansLimit: z.boolean(),
  source: z.string().describe("Where the limit comes from, and how it was checked."),
  used: z.array(z.string()),
  reason: z.string(),
});

/** One candidate proximal landing zone of a plan report. */
export const optionSchema = z.strictObject({
  zone: z.enum(["0", "1", "2", "3", "4"]),
  label: z.string(),
  stopped: z
    .string()
    .nullable()
    .describe("Why nothing is computed: the zone map does not define this zone for this arch."),
  assumes: z.string().nullable().describe("What is taken for granted about the arch."),
  zoneSource: z.string(),
  wall: z.string(),
  dissected: z
    .strictObject({
      state: z.enum(["yes", "no", "not stated", "sources differ"]),
      used: z.array(z.string()),
    })
    .nullable(),
  soundLengths: z.array(
    z.strictObject({
      path: z.enum(["centreline", "inner-curve", "outer-curve", "unstated"]),
      valueMm: z.number(),
      measurement: z.string(),
    }),
  ),
  diameterRange: z
    .strictObject({
      lowMm: z.number(),
      highMm: z.number(),
      measurements: z.array(z.string()),
    })
    .nullable(),
  reference: z
    .strictObject({
      diameterMm: z.number(),
      method: z.string(),
      edge: z.string(),
      measurements: z.array(z.string()),
    })
    .nullable()
    .describe("The vessel diameter that oversizing is reckoned from."),
  oversizing: z
    .strictObject({
      situation: z.string(),
      lowPercent: z.number(),
      highPercent: z.number(),
      source: z.string(),
      graftLowMm: z.number(),
      graftHighMm: z.number(),
      surelyInsideLowMm: z
        .number()
        .describe("Inside the window over the whole reading error; may exceed the high end."),
      surelyInsideHighMm: z.number(),
      inventoryRows: z
        .array(z.strictObject({ id: z.string(), proximalMm: z.number() }))
        .nullable()
        .describe(
          "Rows of the site's inventory whose proximal diameter lies in the window; null without an inventory.",
        ),
    })
    .nullable(),
  branchesCovered: z.array(z.string()),
  branchesUnknown: z
    .string()
    .nullable()
    .describe("Why a landing here may cover more branches; null where all are known."),
  movedFirst: z
    .array(z.string())
    .describe("What must be re-fed before these branches are covered."),
  checks: z.array(landingCheck),
  missing: z.array(z.string()),
  questions: z.array(z.strictObject({ text: z.string(), answeredBy: z.string() })),
});
