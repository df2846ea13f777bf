import { z } from "zod";
import { planningCheckSchema } from "./access-schema.ts";
import { segmentSchema } from "./segment-schema.ts";

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
  segments: z
    .array(segmentSchema)
    .describe("The stretch that a proximal edge here would lie on, by conditions."),
  branchesCovered: z.array(z.string()),
  branchesUnknown: z
    .string()
    .nullable()
    .describe("Why a landing here may cover more branches; null where all are known."),
  movedFirst: z
    .array(z.string())
    .describe("What must be re-fed before these branches are covered."),
  checks: z.array(planningCheckSchema),
  missing: z.array(z.string()),
  questions: z.array(z.strictObject({ text: z.string(), answeredBy: z.string() })),
});
