import { z } from "zod";

const range = z
  .strictObject({ value: z.number(), low: z.number(), high: z.number() })
  .describe("In mm; low and high over the gaps between sections and the reading error.");

const segmentEnd = z.strictObject({
  what: z.string().describe("Where the stretch begins or ends, and why: one sentence."),
  condition: z
    .string()
    .nullable()
    .describe(
      'Id of the condition that failed; "sections-end" where nothing is measured beyond; null for a border.',
    ),
  atMm: z.number().nullable().describe("On the aortic centreline."),
  used: z.array(z.string()),
  source: z.string().nullable(),
});

/** One stretch of wall for one end of a graft in a plan report. */
export const segmentSchema = z.strictObject({
  end: z.enum(["proximal", "distal"]),
  zone: z.string().describe("Where the outer edge of the fabric lies."),
  basis: z.enum(["centreline", "zone values", "sound length as stated", "none"]),
  exam: z.string().nullable(),
  date: z.string().nullable(),
  conditions: z
    .enum(["strictest published", "widest published"])
    .describe(
      "Which of the published limits that differ were taken; the widest only where they change the stretch.",
    ),
  surface: z.string().nullable().describe("What the wall of the stretch is made of."),
  startMm: z.number().nullable().describe("On the aortic centreline; less than endMm."),
  endMm: z.number().nullable(),
  zoneStartMm: z.number().nullable().describe("The near border of the zone."),
  zoneEndMm: z.number().nullable().describe("The far border of the zone."),
  lengthMm: range.nullable().describe("Along the centreline."),
  innerMm: range.nullable().describe("Along the inner curve."),
  outerMm: range.nullable().describe("Along the outer curve."),
  curveMethod: z
    .string()
    .nullable()
    .describe("How the lengths along the curves were made, or why there are none."),
  begunBy: segmentEnd,
  endedBy: segmentEnd,
  leftOut: z.array(z.string()).describe("Conditions that the site does not judge by."),
  notAssessed: z.array(z.strictObject({ condition: z.string(), missing: z.string() })),
  spacing: z.strictObject({
    largestMm: z.number().nullable().describe("Between sections in and next to the stretch."),
    neededMm: z.number().nullable().describe("That would settle the nearest seal length."),
    words: z.string(),
  }),
  stations: z.array(z.string()).describe("Keys of the sections inside."),
  used: z.array(z.string()),
  missing: z.array(z.string()),
});
